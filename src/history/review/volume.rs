//! The work of an exercise as done.

use crate::plan::{DoneSet, DoneWork, PlannedExercise, PlannedSet};
use crate::quantity::Mass;
use crate::tally::{Work, moves};

/// The work of an exercise as done. A set in which nothing was made is none.
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

/// The most that was made on a side.
fn made(done: &DoneSet) -> u32 {
    done.sides.map_or(done.work.amount(), |[a, b]| a.max(b))
}

/// The repetitions of both sides: as logged for each, else twice what was logged for both.
fn reps(set: &PlannedSet, done: &DoneSet) -> Option<u64> {
    let DoneWork::Reps(reps) = done.work else { return None };
    let each = if set.reps.each_side { [reps, reps] } else { [reps, 0] };
    Some(done.sides.unwrap_or(each).into_iter().map(u64::from).sum())
}

/// Each set that was done beside the planned one: the last, for sets beyond the plan.
pub fn done_sets(exercise: &PlannedExercise) -> impl Iterator<Item = (&PlannedSet, &DoneSet)> {
    let planned: Vec<&PlannedSet> = exercise.working().collect();
    let sets = exercise.outcome.iter().flat_map(|outcome| &outcome.sets);
    sets.enumerate().filter_map(move |(at, done)| {
        let set = planned.get(at).or(planned.last()).copied()?;
        Some((set, done))
    })
}
