//! The work of an exercise, as it was done.

use crate::plan::{DoneSet, DoneWork, PlannedExercise, PlannedSet};
use crate::quantity::Mass;
use crate::tally::{Work, moves};

/// The work of an exercise, as it was done. A set without any repetition, time or distance does not
/// count.
pub fn done(exercise: &PlannedExercise, body: Option<Mass>) -> Work {
    let mut all = Work::default();
    for (set, done) in done_sets(exercise) {
        if made(done) == 0 {
            continue;
        }
        let moved = moves(set, done.load, body);
        all.add(&Work::of_set(reps(set, done), moved.as_ref()));
    }
    all
}

/// The greatest number done on one side.
fn made(done: &DoneSet) -> u32 {
    done.sides.map_or(done.work.amount(), |[a, b]| a.max(b))
}

/// The repetitions of both sides: the sum if each side is logged, otherwise twice the logged
/// number.
fn reps(set: &PlannedSet, done: &DoneSet) -> Option<u64> {
    let DoneWork::Reps(reps) = done.work else { return None };
    let each = if set.reps.each_side { [reps, reps] } else { [reps, 0] };
    Some(done.sides.unwrap_or(each).into_iter().map(u64::from).sum())
}

/// Each set that was done, with its planned set. For sets beyond the plan, that is the last one.
pub fn done_sets(exercise: &PlannedExercise) -> impl Iterator<Item = (&PlannedSet, &DoneSet)> {
    let planned: Vec<&PlannedSet> = exercise.working().collect();
    let sets = exercise.outcome.iter().flat_map(|outcome| &outcome.sets);
    sets.enumerate().filter_map(move |(at, done)| {
        let set = planned.get(at).or(planned.last()).copied()?;
        Some((set, done))
    })
}
