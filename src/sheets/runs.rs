//! Runs of equal sets, which cards and summaries show once.

use crate::plan::{PlannedExercise, PlannedSet, SetKind};

/// Consecutive sets with the same prescription.
#[derive(Clone, Copy, Debug)]
pub struct Run<'a> {
    /// The first of them, which represents all.
    pub set: &'a PlannedSet,
    /// Number of sets.
    pub count: usize,
}

/// Whether two sets are printed in the same way. Derivations are not printed and may differ.
#[must_use]
pub fn alike(a: &PlannedSet, b: &PlannedSet) -> bool {
    a.kind == b.kind
        && a.reps == b.reps
        && a.load == b.load
        && a.to_choose == b.to_choose
        && a.bodyweight == b.bodyweight
        && a.about == b.about
        && a.off_target == b.off_target
        && (!a.off_target || a.target == b.target)
        && a.effort == b.effort
        // The evaluator may leave out the rest before a drop set; that alone does not start a new
        // run.
        && (a.rest == b.rest || a.group == b.group)
        && a.tempo == b.tempo
        && a.range == b.range
        && a.every == b.every
        && a.rest_pause == b.rest_pause
}

fn runs<'a>(sets: impl Iterator<Item = &'a PlannedSet>) -> Vec<Run<'a>> {
    let mut out: Vec<Run<'a>> = Vec::new();
    for set in sets {
        match out.last_mut() {
            Some(run) if alike(run.set, set) => run.count += 1,
            _ => out.push(Run { set, count: 1 }),
        }
    }
    out
}

/// The runs of the working sets and drop sets.
#[must_use]
pub fn work_runs(exercise: &PlannedExercise) -> Vec<Run<'_>> {
    runs(exercise.sets.iter().filter(|set| set.kind != SetKind::WarmUp))
}

/// The runs of the warm-up sets.
#[must_use]
pub fn warm_up_runs(exercise: &PlannedExercise) -> Vec<Run<'_>> {
    runs(exercise.sets.iter().filter(|set| set.kind == SetKind::WarmUp))
}
