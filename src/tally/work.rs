//! The work of sets: hard sets, volume load, intensity.

use serde::{Serialize, Serializer};

use crate::plan::{Implement, PlannedExercise, PlannedSet};
use crate::quantity::{Exact, Mass};

use super::{Intensity, Measure, in_kg};

/// An amount of work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// Number of working sets.
    pub hard_sets: u32,
    /// Volume load: repetitions times load.
    pub volume: Exact,
    /// The repetitions of the volume load: those of sets with a known load.
    pub reps_with_load: u64,
    /// Number of sets that count repetitions but have no known load, and so no volume load.
    pub sets_without_load: u32,
    /// Intensity of planned sets whose 1RM is known.
    pub intensity: Intensity,
}

impl Default for Work {
    fn default() -> Self {
        Self {
            hard_sets: 0,
            volume: Exact::zero(),
            reps_with_load: 0,
            sets_without_load: 0,
            intensity: Intensity::default(),
        }
    }
}

impl Work {
    /// The work of one set: its repetitions on all sides together, if it counts them, and the mass
    /// moved in each, if known.
    #[must_use]
    pub fn of_set(reps: Option<u64>, moved: Option<&Exact>) -> Self {
        let counted = reps.zip(moved);
        Self {
            hard_sets: 1,
            volume: counted.map_or_else(Exact::zero, |(reps, load)| &whole(reps) * load),
            reps_with_load: counted.map_or(0, |(reps, _)| reps),
            sets_without_load: u32::from(reps.is_some() && moved.is_none()),
            intensity: Intensity::default(),
        }
    }

    /// Adds more work.
    pub fn add(&mut self, more: &Work) {
        self.hard_sets += more.hard_sets;
        self.volume = &self.volume + &more.volume;
        self.reps_with_load += more.reps_with_load;
        self.sets_without_load += more.sets_without_load;
        self.intensity.add(&more.intensity);
    }

    /// Volume load divided by repetitions; `None` if no set has a volume load.
    #[must_use]
    pub fn average_load(&self) -> Option<Exact> {
        self.volume.checked_div(&whole(self.reps_with_load))
    }

    /// The measures by name, for JSON and CSV, without those that do not apply.
    #[must_use]
    pub fn measures(&self) -> Vec<Measure> {
        let count = |n: u64| whole(n).to_decimal(0);
        let mut all = vec![
            ("hard_sets", count(u64::from(self.hard_sets))),
            ("volume_load_kg", in_kg(&self.volume)),
        ];
        if let Some(average) = self.average_load() {
            all.push(("reps_with_load", count(self.reps_with_load)));
            all.push(("average_load_kg", in_kg(&average)));
        }
        if self.sets_without_load > 0 {
            all.push(("sets_without_load", count(u64::from(self.sets_without_load))));
        }
        all.extend(self.intensity.measures());
        all
    }
}

impl Serialize for Work {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        super::fields(&self.measures(), serializer)
    }
}

/// A count as an exact number.
pub fn whole(n: u64) -> Exact {
    Exact::whole(i64::try_from(n).unwrap_or(i64::MAX))
}

/// The mass moved in each repetition, in the unit of [`Mass`]; `None` if it is not known.
#[must_use]
pub fn moves(set: &PlannedSet, load: Option<Mass>, body: Option<Mass>) -> Option<Exact> {
    if set.lifts_body() {
        // An exercise without a load, such as a dead bug, does not lift the whole body.
        let system = body? + load?;
        return (!system.is_negative()).then(|| Exact::from_mass(system));
    }
    let mass = load?;
    let how = set.load.as_ref().map(|built| &built.how);
    // A band with unknown resistance has a mass of zero.
    if mass == Mass::ZERO && matches!(how, Some(Implement::Band { .. })) {
        return None;
    }
    let hands = match how {
        Some(Implement::Dumbbells | Implement::Kettlebells) => 2,
        _ => 1,
    };
    Some(&Exact::from_mass(mass) * &Exact::whole(hands))
}

/// The work of one planned set: its fewest repetitions, on each side if it is done on each.
#[must_use]
pub fn planned_set(set: &PlannedSet, body: Option<Mass>) -> Work {
    let sides = if set.reps.each_side { 2 } else { 1 };
    let reps = set.reps.work.least_reps().map(|reps| u64::from(reps) * sides);
    let moved = moves(set, set.load.as_ref().map(|built| built.mass), body);
    let mut work = Work::of_set(reps, moved.as_ref());
    if let Some(share) = set.share_in_hand() {
        work.intensity = Intensity::of_set(share, reps);
    }
    work
}

/// The hard sets of an exercise as planned.
#[must_use]
pub fn planned(exercise: &PlannedExercise, body: Option<Mass>) -> Work {
    let mut all = Work::default();
    for set in exercise.working() {
        all.add(&planned_set(set, body));
    }
    all
}
