//! Dumbbells, kettlebells and the pin positions of a stack: masses to choose from a list.

use std::collections::BTreeMap;

use super::Rounding;
use super::ladder::Ladder;
use crate::quantity::{Exact, Mass};

/// Masses to choose from, lightest first, each with a count if it is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MassList {
    counts: BTreeMap<Mass, Option<u32>>,
    ladder: Ladder,
}

impl MassList {
    /// Makes a list from masses with their counts; `None` means as many as needed. Counts of a mass
    /// that is listed twice are added; masses with a count of zero are left out.
    #[must_use]
    pub fn new(items: impl IntoIterator<Item = (Mass, Option<u32>)>) -> Self {
        let mut counts: BTreeMap<Mass, Option<u32>> = BTreeMap::new();
        for (mass, more) in items {
            let count = counts.entry(mass).or_insert(Some(0));
            *count = count.zip(more).map(|(a, b)| a.saturating_add(b));
        }
        Self::from_counts(counts)
    }

    fn from_counts(mut counts: BTreeMap<Mass, Option<u32>>) -> Self {
        counts.retain(|_, count| *count != Some(0));
        let ladder = Ladder::new(counts.keys().copied().collect());
        Self { counts, ladder }
    }

    /// Only the masses of which there are two, for exercises with one in each hand.
    #[must_use]
    pub fn pairs(&self) -> Self {
        let mut counts = self.counts.clone();
        counts.retain(|_, count| count.is_none_or(|count| count >= 2));
        Self::from_counts(counts)
    }

    /// Whether there are two of any mass.
    #[must_use]
    pub fn has_pair(&self) -> bool {
        self.counts.values().any(|count| count.is_none_or(|count| count >= 2))
    }

    /// The mass nearest to `target`, which is in the unit of [`Mass`]. Ties go to the lighter one,
    /// and a target below the lightest mass gives the lightest. `None` if the list is empty.
    #[must_use]
    pub fn pick(&self, target: &Exact, rounding: Rounding) -> Option<Mass> {
        self.ladder.get(self.ladder.pick(target, rounding)?)
    }

    /// The smallest difference of two neighbours; zero if there are fewer than two masses.
    #[must_use]
    pub fn smallest_step(&self) -> Mass {
        self.ladder.smallest_step()
    }

    /// The next heavier mass.
    #[must_use]
    pub fn next_up(&self, mass: Mass) -> Option<Mass> {
        self.ladder.get(self.ladder.above(mass)?)
    }

    /// The next lighter mass.
    #[must_use]
    pub fn next_down(&self, mass: Mass) -> Option<Mass> {
        self.ladder.get(self.ladder.below(mass)?)
    }

    /// The masses, lightest first.
    #[must_use]
    pub fn masses(&self) -> &[Mass] {
        self.ladder.masses()
    }
}

/// A list of masses without counts.
impl FromIterator<Mass> for MassList {
    fn from_iter<I: IntoIterator<Item = Mass>>(masses: I) -> Self {
        Self::new(masses.into_iter().map(|mass| (mass, None)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn picks_from_a_sorted_list() {
        let bells: MassList = [24, 8, 16, 12, 20, 8].map(Mass::from_kg).into_iter().collect();
        let pick = |kg: i64, rounding| bells.pick(&Mass::from_kg(kg).into(), rounding);
        assert_eq!(pick(14, Rounding::Nearest), Some(Mass::from_kg(12)), "ties to the lighter");
        assert_eq!(pick(15, Rounding::Nearest), Some(Mass::from_kg(16)));
        assert_eq!(pick(15, Rounding::Down), Some(Mass::from_kg(12)));
        assert_eq!(pick(2, Rounding::Down), Some(Mass::from_kg(8)));
        assert_eq!(pick(99, Rounding::Nearest), Some(Mass::from_kg(24)));
        assert_eq!(bells.smallest_step(), Mass::from_kg(4));
        assert_eq!(bells.next_up(Mass::from_kg(24)), None);
        assert_eq!(bells.next_up(Mass::from_kg(16)), Some(Mass::from_kg(20)));
        assert_eq!(bells.next_down(Mass::from_kg(9)), Some(Mass::from_kg(8)));
    }

    #[test]
    fn a_single_bell_is_no_pair_and_no_bells_no_load() {
        let bells = MassList::new(
            [(16, Some(1)), (20, Some(2)), (24, None), (32, Some(0))]
                .map(|(kg, count)| (Mass::from_kg(kg), count)),
        );
        assert_eq!(bells.masses(), [16, 20, 24].map(Mass::from_kg));
        assert_eq!(bells.pairs().masses(), [20, 24].map(Mass::from_kg));
        assert!(bells.has_pair());
        assert!(!MassList::new([(Mass::from_kg(16), Some(1))]).has_pair());
        assert!(MassList::new([(Mass::from_kg(16), Some(2))]).has_pair());
        assert_eq!(MassList::new([]).pick(&Exact::one(), Rounding::Nearest), None);
    }
}
