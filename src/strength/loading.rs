//! The loads that one bar can make.

use super::ladder::Ladder;
use super::sums::Sums;
use super::{Bar, Plate, Rounding, TooManyLoads};
use crate::plan::{Built, Implement};
use crate::quantity::{Exact, Mass};

/// Every load that one bar can make, with the best plates for each. It is built once for each gym
/// and bar.
///
/// Both sides have the same plates, from a stock of single discs (of three discs, one stays on the
/// rack). Kilograms and pounds may be mixed. Equal loads use the fewest plates; among equal numbers
/// of plates, more of the heaviest. A load must fit on the sleeve. Collars are included, also on
/// the empty bar.
#[derive(Clone, Debug)]
pub struct BarLoads {
    bar: Bar,
    collars: Mass,
    sums: Sums,
    loads: Ladder,
}

impl BarLoads {
    /// All loads of a bar with `plates` and `collars` (the mass of both).
    pub fn new(bar: &Bar, plates: &[Plate], collars: Mass) -> Result<Self, TooManyLoads> {
        let sums = Sums::new(plates, 2, bar.sleeve_mm())?;
        let empty = bar.mass + collars;
        let loads = Ladder::new(sums.masses().map(|side| empty + side * 2).collect());
        Ok(Self { bar: bar.clone(), collars, sums, loads })
    }

    /// The load for `target`, a mass in the unit of [`Mass`]: the nearest, or the next one below.
    /// Ties go to the lighter load, and a target below the lightest load gives the lightest.
    #[must_use]
    pub fn build(&self, target: &Exact, rounding: Rounding) -> Built {
        self.built(self.loads.pick(target, rounding).unwrap_or(0))
    }

    /// The empty bar with its collars.
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
