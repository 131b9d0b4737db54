//! Exercise by exercise, added up by lift, muscle and movement pattern.

use std::collections::BTreeMap;

use crate::plan::PlannedExercise;

use super::{MuscleSets, Work};

/// What some exercises come to. Planned and done work are added up alike, each in its own totals.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Totals {
    /// All of them.
    pub all: Work,
    /// Lift by lift, in the order they were added.
    pub lifts: Vec<(String, Work)>,
    /// Muscle by muscle, by name.
    pub muscles: BTreeMap<String, MuscleSets>,
    /// Movement pattern by movement pattern, by name; exercises that name none are left out.
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
