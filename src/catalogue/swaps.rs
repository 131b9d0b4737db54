//! Finds exercises that can replace an exercise.

use std::collections::BTreeSet;

use super::search::by_share;
use super::{Catalogue, Exercise};

/// How many steps from swap to swap are followed; after three, exercises are not similar any more.
const STEPS: usize = 3;
/// The most replacements that are returned.
const MOST: usize = 5;

/// How similar a replacement is to the exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Nearness {
    /// The exercise names it as a swap.
    Swap,
    /// It is a swap of its swaps.
    SwapOfSwap,
    /// It has the same pattern and works the same main muscle.
    Alike,
}

/// What may be done instead of an exercise, all of it equally near.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandIns {
    /// How near they are.
    pub nearness: Nearness,
    /// Their indexes, the closest first; none, when nothing can be done.
    pub found: Vec<usize>,
}

impl Catalogue<'_> {
    /// What may be done instead of an exercise and `can` be done: its swaps in their order; where
    /// none of them can, the swaps of its swaps, breadth first; where none of those can, what has
    /// the same pattern and works its main muscle, those first in which that muscle does the larger
    /// share. No more than five.
    #[must_use]
    pub fn stand_ins(&self, of: usize, can: &dyn Fn(usize, &Exercise) -> bool) -> StandIns {
        let mut seen = BTreeSet::from([of]);
        let mut level: Vec<usize> = vec![of];
        for step in 0..STEPS {
            let swaps = level.iter().filter_map(|index| self.get(*index));
            let swaps = swaps.flat_map(|exercise| self.swaps(exercise));
            level = swaps.map(|(index, _)| index).filter(|index| seen.insert(*index)).collect();
            let found = self.able(&level, can);
            if !found.is_empty() {
                let nearness = if step == 0 { Nearness::Swap } else { Nearness::SwapOfSwap };
                return StandIns { nearness, found };
            }
        }
        let alike = self.get(of).map(|exercise| self.alike(exercise)).unwrap_or_default();
        let alike: Vec<usize> = alike.into_iter().filter(|index| *index != of).collect();
        StandIns { nearness: Nearness::Alike, found: self.able(&alike, can) }
    }

    fn able(&self, indexes: &[usize], can: &dyn Fn(usize, &Exercise) -> bool) -> Vec<usize> {
        let able = |index: &usize| self.get(*index).is_some_and(|exercise| can(*index, exercise));
        indexes.iter().copied().filter(able).take(MOST).collect()
    }

    fn alike(&self, exercise: &Exercise) -> Vec<usize> {
        let (Some(pattern), Some(muscle)) = (&exercise.pattern, exercise.main_muscle()) else {
            return Vec::new();
        };
        let same = self.all().filter(|(_, other)| other.pattern.as_ref() == Some(pattern));
        let mut found: Vec<(usize, (u32, u32))> =
            same.filter_map(|(index, other)| Some((index, other.share_of(muscle)?))).collect();
        found.sort_by(|(_, a), (_, b)| by_share(*b, *a));
        found.into_iter().map(|(index, _)| index).collect()
    }
}

impl Exercise {
    /// The muscle that does the largest share; of equals the one named first.
    #[must_use]
    pub fn main_muscle(&self) -> Option<&str> {
        let mut main: Option<&(String, (u32, u32))> = None;
        for muscle in &self.muscles {
            if main.is_none_or(|main| by_share(muscle.1, main.1).is_gt()) {
                main = Some(muscle);
            }
        }
        main.map(|(name, _)| name.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::resolve::{Project, resolve};
    use crate::source::MemoryLoader;

    const TEXT: &str = "\
exercise One
  pattern: jump
  muscles: neck 1/2, shins
  swap: Two, Three
exercise Two
  swap: One, Four
exercise Three
  swap: Five
exercise Four
  swap: Six
exercise Five
exercise Six
  swap: Seven
exercise Seven
exercise Eight
  pattern: jump
  muscles: shins 1/4
exercise Nine
  pattern: jump
  muscles: shins 1/2
exercise Ten
  pattern: jump
  muscles: neck
";

    fn names(wanted: &[&str]) -> (Nearness, Vec<String>) {
        let resolved =
            resolve(Project::from_text(&MemoryLoader::new(), "none.sets", TEXT.to_owned()));
        let catalogue = Catalogue::new(&resolved.exercises, &resolved.names);
        let (of, _) = catalogue.named("One").unwrap();
        let can = |_: usize, exercise: &Exercise| wanted.contains(&exercise.name.as_str());
        let found = catalogue.stand_ins(of, &can);
        let name = |index: usize| catalogue.get(index).unwrap().name.clone();
        (found.nearness, found.found.into_iter().map(name).collect())
    }

    #[test]
    fn swaps_come_first_then_theirs_then_what_is_alike() {
        let all = ["One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten"];
        assert_eq!(names(&all), (Nearness::Swap, vec!["Two".into(), "Three".into()]));
        assert_eq!(names(&all[3..]), (Nearness::SwapOfSwap, vec!["Four".into(), "Five".into()]));
        assert_eq!(names(&all[5..]), (Nearness::SwapOfSwap, vec!["Six".into()]));
        // Four steps away is too far; the larger share of the shins comes first.
        assert_eq!(names(&all[6..]), (Nearness::Alike, vec!["Nine".into(), "Eight".into()]));
        assert_eq!(names(&["One", "Ten"]), (Nearness::Alike, vec![]));
    }
}
