//! A lift in one week: whether it is a main lift, and its top set.

use serde::{Serialize, Serializer};

use crate::plan::{PlannedExercise, PlannedSet, Session, StepKind};
use crate::quantity::{Exact, Mass};

use super::{Measure, Work, in_kg, moves};

/// The heaviest planned hard set of a lift in a week; among equal ones, the first with the most
/// repetitions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TopSet {
    /// The day of the set.
    pub day: String,
    /// The prescribed repetitions (of one side): `5`, `8-12`.
    pub reps: String,
    /// The fewest repetitions that make it (of one side); `None` for time and distance.
    pub least_reps: Option<u32>,
    /// The load as the athlete reads it: one dumbbell, or the load added to the body mass.
    pub load: Mass,
    /// Whether the body is lifted too.
    pub with_body_mass: bool,
    /// Whether the load is estimated from an effort. It is a starting point.
    pub about: bool,
    /// The target as a share of the 1RM, if it is known.
    pub share_of_1rm: Option<Exact>,
    /// The mass that is really moved, by which top sets are compared.
    moved: Exact,
}

impl TopSet {
    fn of(session: &Session, set: &PlannedSet, body: Option<Mass>) -> Option<Self> {
        let load = set.load.as_ref()?.mass;
        // Without a body mass, the added load alone still decides which of two sets is heavier.
        let moved = moves(set, Some(load), body.or(Some(Mass::ZERO)));
        Some(Self {
            day: session.day.clone(),
            reps: set.reps.work.to_string(),
            least_reps: set.reps.work.least_reps(),
            load,
            with_body_mass: set.lifts_body(),
            about: set.about,
            share_of_1rm: set.share_in_hand(),
            moved: moved.unwrap_or_else(|| Exact::from_mass(load)),
        })
    }

    /// The top set of an exercise in a session.
    #[must_use]
    pub fn of_exercise(
        session: &Session,
        exercise: &PlannedExercise,
        body: Option<Mass>,
    ) -> Option<Self> {
        let sets = exercise.working().filter_map(|set| Self::of(session, set, body));
        sets.reduce(|best, set| if set.beats(&best) { set } else { best })
    }

    /// Whether this set is heavier than another, or as heavy with more repetitions.
    #[must_use]
    pub fn beats(&self, other: &TopSet) -> bool {
        (&self.moved, self.least_reps) > (&other.moved, other.least_reps)
    }

    /// The measures by name, for CSV.
    #[must_use]
    pub fn measures(&self) -> Vec<Measure> {
        let reps = self.least_reps.map(|n| Exact::whole(i64::from(n)).to_decimal(0));
        let mut all: Vec<Measure> = reps.map(|n| ("top_set_reps_min", n)).into_iter().collect();
        all.push(("top_set_load_kg", in_kg(&Exact::from_mass(self.load))));
        all.extend(self.percent().map(|p| ("top_set_percent_1rm", p.to_decimal(3))));
        all
    }

    /// The target in percent of the 1RM.
    #[must_use]
    pub fn percent(&self) -> Option<Exact> {
        self.share_of_1rm.as_ref().map(|share| share * &Exact::whole(100))
    }
}

/// One lift in one week.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LiftTally {
    /// The exercise.
    pub lift: String,
    /// Whether its load is a percentage of its own max. These lifts are plotted first.
    pub main: bool,
    /// Its hard sets.
    pub work: Work,
    /// Its top set; `None` if every load is chosen on the day.
    pub top_set: Option<TopSet>,
}

impl Serialize for LiftTally {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeMap;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("lift", &self.lift)?;
        map.serialize_entry("main", &self.main)?;
        let top = self.top_set.as_ref();
        let measures = top.map(TopSet::measures).unwrap_or_default();
        for (name, value) in self.work.measures().into_iter().chain(measures) {
            map.serialize_entry(name, &value)?;
        }
        if let Some(top) = top {
            map.serialize_entry("top_set_day", &top.day)?;
            map.serialize_entry("top_set_reps", &top.reps)?;
            map.serialize_entry("top_set_with_body_mass", &top.with_body_mass)?;
            map.serialize_entry("top_set_about", &top.about)?;
        }
        map.end()
    }
}

/// Whether the load of an exercise is a percentage of its own max.
#[must_use]
pub fn is_main(exercise: &PlannedExercise) -> bool {
    exercise.working().any(|set| {
        let own = set.derivation.iter().any(|step| match &step.kind {
            StepKind::Tested { lift }
            | StepKind::Estimated { lift, .. }
            | StepKind::Derived { lift, .. } => *lift == exercise.name,
            _ => false,
        });
        own && set.derivation.iter().any(|step| matches!(step.kind, StepKind::Percent { .. }))
    })
}
