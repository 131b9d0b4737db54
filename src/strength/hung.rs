//! Load added to the body: plates on a belt, for pull-ups, dips and similar exercises.

use super::ladder::Ladder;
use super::sums::Sums;
use super::{Plate, Rounding, TooManyLoads};
use crate::plan::{Built, Implement};
use crate::quantity::{Exact, Mass};

/// Room for discs on a belt's chain, in millimetres. Common practice, no source.
const CHAIN_MM: u32 = 250;

/// Every load that discs on a belt can make: any sum of single discs. Each load uses the fewest
/// pieces; among equal numbers of pieces, more of the heaviest.
#[derive(Clone, Debug)]
pub struct HungLoads {
    sums: Sums,
    loads: Ladder,
}

impl HungLoads {
    /// All loads of a gym's plates, from zero to a full chain.
    pub fn new(plates: &[Plate]) -> Result<Self, TooManyLoads> {
        let sums = Sums::new(plates, 1, CHAIN_MM)?;
        let loads = Ladder::new(sums.masses().collect());
        Ok(Self { sums, loads })
    }

    /// The added load for `target`, a mass in the unit of [`Mass`]. Ties go to the lighter one. A
    /// negative target gives zero: assistance comes from a band or a machine, which the caller
    /// handles.
    #[must_use]
    pub fn build(&self, target: &Exact, rounding: Rounding) -> Built {
        self.built(self.loads.pick(target, rounding).unwrap_or(0))
    }

    /// The smallest difference of two neighbouring loads; zero if there are no discs.
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

    /// The masses of all loads, lightest first, starting with zero.
    #[must_use]
    pub fn masses(&self) -> &[Mass] {
        self.loads.masses()
    }

    fn built(&self, index: usize) -> Built {
        Built {
            mass: self.loads.get(index).unwrap_or(Mass::ZERO),
            how: Implement::BodyMass { pieces: self.sums.plates(index) },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn single_discs_add_up_and_fewest_pieces_hang() {
        let plates = [(20, 1), (10, 1), (5, 3)].map(|(kg, n)| Plate::counted(Mass::from_kg(kg), n));
        let loads = HungLoads::new(&plates).unwrap();
        let pieces = |kg: i64| match loads.build(&Mass::from_kg(kg).into(), Rounding::Nearest).how {
            Implement::BodyMass { pieces } => pieces,
            other => panic!("{other:?}"),
        };
        assert_eq!(pieces(15), [10, 5].map(Mass::from_kg), "two pieces, not three fives");
        assert_eq!(pieces(45), [20, 10, 5, 5, 5].map(Mass::from_kg));
        assert!(pieces(0).is_empty() && pieces(-15).is_empty());
        assert_eq!(loads.smallest_step(), Mass::from_kg(5));
        assert_eq!(loads.masses(), [0, 5, 10, 15, 20, 25, 30, 35, 40, 45].map(Mass::from_kg));
        assert_eq!(loads.next_up(Mass::from_kg(45)), None);
        assert_eq!(loads.next_down(Mass::ZERO), None);
        let next = loads.next_up(Mass::from_kg(15)).unwrap();
        assert_eq!(next.mass, Mass::from_kg(20));
        assert_eq!(next.how, Implement::BodyMass { pieces: vec![Mass::from_kg(20)] });
        assert_eq!(loads.next_down(Mass::from_kg(15)).unwrap().mass, Mass::from_kg(10));
    }
}
