//! The loads that one bar can make.

use super::ladder::Ladder;
use super::sums::Sums;
use super::{Bar, Plate, Rounding, TooManyLoads};
use crate::plan::{Built, Implement};
use crate::quantity::{Exact, Mass};

/// Every load one bar can make, with the best plates for each; built once per gym and bar, then
/// looked up.
///
/// Both sides carry the same plates, from a stock of single discs (of three, one stays on the
/// rack); kilograms and pounds mix. Of equal loads the fewest plates; of as many plates, more of the
/// heaviest. What does not fit on the sleeve is no load. Collars are counted, on the empty bar too.
#[derive(Clone, Debug)]
pub struct BarLoads {
    bar: Bar,
    collars: Mass,
    sums: Sums,
    loads: Ladder,
}

impl BarLoads {
    /// All loads of a bar with `plates` and `collars`, both together.
    pub fn new(bar: &Bar, plates: &[Plate], collars: Mass) -> Result<Self, TooManyLoads> {
        let sums = Sums::new(plates, 2, bar.sleeve_mm())?;
        let empty = bar.mass + collars;
        let loads = Ladder::new(sums.masses().map(|side| empty + side * 2).collect());
        Ok(Self { bar: bar.clone(), collars, sums, loads })
    }

    /// The load that stands in for `target`, which is a mass in the unit of [`Mass`]: the
    /// nearest, or the next below; ties to the lighter; below the lightest, the lightest.
    #[must_use]
    pub fn build(&self, target: &Exact, rounding: Rounding) -> Built {
        self.built(self.loads.pick(target, rounding).unwrap_or(0))
    }

    /// The empty bar, with its collars.
    #[must_use]
    pub fn lightest(&self) -> Built {
        self.built(0)
    }

    /// The heaviest load.
    #[must_use]
    pub fn heaviest(&self) -> Built {
        self.built(self.loads.masses().len().saturating_sub(1))
    }

    /// The smallest difference of two neighbouring loads; zero if there is only one.
    #[must_use]
    pub fn smallest_step(&self) -> Mass {
        self.loads.smallest_step()
    }

    /// The next heavier load.
    #[must_use]
    pub fn next_up(&self, mass: Mass) -> Option<Built> {
        self.loads.above(mass).map(|index| self.built(index))
    }

    /// The next lighter load.
    #[must_use]
    pub fn next_down(&self, mass: Mass) -> Option<Built> {
        self.loads.below(mass).map(|index| self.built(index))
    }

    /// The loads from `low` to `high`, both included, lightest first.
    pub fn between<'a>(
        &'a self,
        low: &Exact,
        high: &Exact,
    ) -> impl Iterator<Item = Built> + use<'a> {
        self.loads.between(low, high).map(|index| self.built(index))
    }

    /// The masses of all loads, lightest first.
    #[must_use]
    pub fn masses(&self) -> &[Mass] {
        self.loads.masses()
    }

    fn built(&self, index: usize) -> Built {
        Built {
            mass: self.loads.get(index).unwrap_or(self.bar.mass + self.collars),
            how: Implement::Bar {
                bar: self.bar.mass,
                name: self.bar.name.clone(),
                collars: self.collars,
                per_side: self.sums.plates(index),
            },
        }
    }
}
