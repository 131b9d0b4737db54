//! Volume load and hard sets of one set.

use serde::Serialize;

use crate::plan::{DoneSet, DoneWork, Implement, PlannedExercise, PlannedSet};
use crate::quantity::{Exact, Mass};

use super::{kg, number, working};

/// An amount of work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Work {
    /// Working sets.
    pub hard_sets: u32,
    /// Repetitions times load, in kilograms.
    #[serde(rename = "volume_load_kg", serialize_with = "kg")]
    pub volume: Exact,
    /// How many of the sets count repetitions but have no known load, and so no volume load.
    #[serde(skip_serializing_if = "is_zero")]
    pub sets_without_load: u32,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_zero(n: &u32) -> bool {
    *n == 0
}

impl Default for Work {
    fn default() -> Self {
        Self { hard_sets: 0, volume: Exact::zero(), sets_without_load: 0 }
    }
}

impl Work {
    /// Adds more work.
    pub fn add(&mut self, more: &Work) {
        self.hard_sets += more.hard_sets;
        self.volume = &self.volume + &more.volume;
        self.sets_without_load += more.sets_without_load;
    }

    fn one(reps: Option<u32>, load: Option<&Exact>, sides: i64) -> Self {
        let counted = reps.map(|reps| Exact::whole(i64::from(reps) * sides));
        let volume = counted.as_ref().zip(load).map(|(reps, load)| reps * load);
        Self {
            hard_sets: 1,
            sets_without_load: u32::from(reps.is_some() && load.is_none()),
            volume: volume.unwrap_or_else(Exact::zero),
        }
    }
}

/// Hard sets of a muscle.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MuscleSets {
    /// Sets of exercises that train it with a share of one.
    pub direct_sets: u32,
    /// Sets of exercises in which it helps.
    pub indirect_sets: u32,
    /// Each set by the muscle's share in it.
    #[serde(serialize_with = "number")]
    pub fractional_sets: Exact,
    /// Volume load by the same shares, in kilograms.
    #[serde(rename = "fractional_volume_load_kg", serialize_with = "kg")]
    pub volume: Exact,
}

impl Default for MuscleSets {
    fn default() -> Self {
        let (fractional_sets, volume) = (Exact::zero(), Exact::zero());
        Self { direct_sets: 0, indirect_sets: 0, fractional_sets, volume }
    }
}

impl MuscleSets {
    /// Adds work that the muscle did this share of.
    pub fn add(&mut self, work: &Work, share: &Exact) {
        if *share >= Exact::one() {
            self.direct_sets += work.hard_sets;
        } else if !share.is_zero() {
            self.indirect_sets += work.hard_sets;
        }
        let sets = Exact::whole(i64::from(work.hard_sets));
        self.fractional_sets = &self.fractional_sets + &(&sets * share);
        self.volume = &self.volume + &(&work.volume * share);
    }
}

/// What moves in each repetition, in the unit of [`Mass`]; `None` where it is not known.
pub fn moves(set: &PlannedSet, load: Option<Mass>, body: Option<Mass>) -> Option<Exact> {
    let how = set.load.as_ref().map(|built| &built.how);
    if set.bodyweight || matches!(how, Some(Implement::BodyMass { .. })) {
        // A line that states no load (a dead bug) does not lift the whole body.
        let system = body? + load?;
        return (!system.is_negative()).then(|| Exact::from_mass(system));
    }
    let mass = load?;
    // A band whose pull nobody has measured is marked with nothing.
    if mass == Mass::ZERO && matches!(how, Some(Implement::Band { .. })) {
        return None;
    }
    let hands = match how {
        Some(Implement::Dumbbells | Implement::Kettlebells) => 2,
        _ => 1,
    };
    Some(&Exact::from_mass(mass) * &Exact::whole(hands))
}

fn sides(exercise: &PlannedExercise) -> i64 {
    if exercise.each_side { 2 } else { 1 }
}

/// The work of an exercise as planned: the least that makes each set.
pub fn planned(exercise: &PlannedExercise, body: Option<Mass>) -> Work {
    let mut all = Work::default();
    for set in working(exercise) {
        let load = moves(set, set.load.as_ref().map(|built| built.mass), body);
        all.add(&Work::one(set.reps.work.least_reps(), load.as_ref(), sides(exercise)));
    }
    all
}

/// The work of an exercise as done. A set in which nothing was made is none.
pub fn done(exercise: &PlannedExercise, body: Option<Mass>) -> Work {
    let mut all = Work::default();
    for (set, done) in done_sets(exercise) {
        if done.work.amount() == 0 {
            continue;
        }
        let reps = match done.work {
            DoneWork::Reps(reps) => Some(reps),
            DoneWork::Seconds(_) | DoneWork::Metres(_) => None,
        };
        let load = moves(set, done.load, body);
        all.add(&Work::one(reps, load.as_ref(), sides(exercise)));
    }
    all
}

/// Each set that was done beside the planned one: the last, for sets beyond the plan.
pub fn done_sets(exercise: &PlannedExercise) -> impl Iterator<Item = (&PlannedSet, &DoneSet)> {
    let planned: Vec<&PlannedSet> = working(exercise).collect();
    let sets = exercise.outcome.iter().flat_map(|outcome| &outcome.sets);
    sets.enumerate().filter_map(move |(at, done)| {
        let set = planned.get(at).or(planned.last()).copied()?;
        Some((set, done))
    })
}
