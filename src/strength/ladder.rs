//! A sorted list of masses to choose from, used for bars, dumbbells, stacks and belts.

use std::ops::Range;

use super::Rounding;
use crate::quantity::{Exact, Mass};

/// Distinct masses, lightest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Ladder(Vec<Mass>);

impl Ladder {
    /// Sorts the masses and removes duplicates.
    pub(super) fn new(mut masses: Vec<Mass>) -> Self {
        masses.sort_unstable();
        masses.dedup();
        Self(masses)
    }

    pub(super) fn get(&self, index: usize) -> Option<Mass> {
        self.0.get(index).copied()
    }

    pub(super) fn masses(&self) -> &[Mass] {
        &self.0
    }

    /// Index of the mass for `target`; `None` only if the list is empty.
    pub(super) fn pick(&self, target: &Exact, rounding: Rounding) -> Option<usize> {
        let above = self.0.partition_point(|&mass| Exact::from_mass(mass) <= *target);
        let Some(below) = above.checked_sub(1) else {
            return (!self.0.is_empty()).then_some(0);
        };
        let (Rounding::Nearest, Some(heavier)) = (rounding, self.get(above)) else {
            return Some(below);
        };
        let lighter = Exact::from_mass(self.get(below)?);
        let is_nearer = &Exact::from_mass(heavier) - target < target - &lighter;
        Some(if is_nearer { above } else { below })
    }

    /// The smallest difference of neighbours; zero if there are fewer than two.
    pub(super) fn smallest_step(&self) -> Mass {
        let steps = self.0.iter().zip(self.0.iter().skip(1)).map(|(&low, &high)| high - low);
        steps.min().unwrap_or(Mass::ZERO)
    }

    /// Index of the next mass heavier than `mass`.
    pub(super) fn above(&self, mass: Mass) -> Option<usize> {
        let index = self.0.partition_point(|&m| m <= mass);
        (index < self.0.len()).then_some(index)
    }

    /// Index of the next mass lighter than `mass`.
    pub(super) fn below(&self, mass: Mass) -> Option<usize> {
        self.0.partition_point(|&m| m < mass).checked_sub(1)
    }

    /// Indices of the masses from `low` to `high`, both included.
    pub(super) fn between(&self, low: &Exact, high: &Exact) -> Range<usize> {
        let start = self.0.partition_point(|&mass| Exact::from_mass(mass) < *low);
        let end = self.0.partition_point(|&mass| Exact::from_mass(mass) <= *high);
        start..end.max(start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ends_of_a_reach_belong_to_it() {
        let ladder = Ladder::new([20, 10, 15, 10].map(Mass::from_kg).into());
        let between = |low: i64, high: i64| {
            ladder.between(&Mass::from_kg(low).into(), &Mass::from_kg(high).into())
        };
        assert_eq!(between(10, 20), 0..3);
        assert_eq!(between(11, 19), 1..2);
        assert_eq!(between(11, 14), 1..1);
        assert_eq!(between(21, 5), 3..3, "none, the wrong way round");
    }

    #[test]
    fn neighbours_of_what_is_and_of_what_is_not_there() {
        let ladder = Ladder::new([10, 15, 20].map(Mass::from_kg).into());
        let above = |kg| ladder.above(Mass::from_kg(kg));
        let below = |kg| ladder.below(Mass::from_kg(kg));
        assert_eq!(
            [9, 10, 12, 15, 20, 21].map(above),
            [Some(0), Some(1), Some(1), Some(2), None, None]
        );
        assert_eq!(
            [9, 10, 12, 15, 20, 21].map(below),
            [None, None, Some(0), Some(0), Some(1), Some(2)]
        );
    }
}
