//! Sums over exercises by lift, muscle and movement pattern.

use std::collections::BTreeMap;

use crate::plan::PlannedExercise;

use super::{MuscleSets, Work};

/// The sums over some exercises. Planned and done work are summed in the same way, in separate
/// totals.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Totals {
    /// The sum over all exercises.
    pub all: Work,
    /// By lift, in the order in which they were added.
    pub lifts: Vec<(String, Work)>,
    /// By muscle, sorted by name.
    pub muscles: BTreeMap<String, MuscleSets>,
    /// By movement pattern, sorted by name, without exercises that have none.
    pub patterns: BTreeMap<String, Work>,
}

impl Totals {
    /// Adds the work of an exercise.
    pub fn add(&mut self, exercise: &PlannedExercise, work: &Work) {
        self.all.add(work);
        match self.lifts.iter_mut().find(|(lift, _)| *lift == exercise.name) {
            Some((_, lift)) => lift.add(work),
            None => self.lifts.push((exercise.name.clone(), work.clone())),
        }
        for share in &exercise.muscles {
            self.muscles.entry(share.muscle.clone()).or_default().add(work, &share.share);
        }
        if let Some(pattern) = &exercise.pattern {
            self.patterns.entry(pattern.clone()).or_default().add(work);
        }
    }
}
