//! Comparison of two plans: what changed for each athlete, week and session, by meaning and not by
//! lines.
//!
//! Each difference is a [`Change`] with a value before and a value after, so the comparison in the
//! other direction is its mirror. Weeks, days and exercises are paired before they are compared
//! ([`pairing`], [`weeks`]). So removing a week from the middle does not change every later week,
//! and adding an exercise at the top does not move all exercises below it.
//!
//! [`fold()`] merges changes that are the same for many athletes and weeks, without reporting
//! anything that does not apply to each of them. [`text`] and [`digest()`] put the result into
//! words, in English as all messages.

mod athlete;
mod digest;
mod facts;
mod fold;
mod pairing;
mod prescription;
mod series;
mod session;
mod summary;
mod sums;
mod text;
mod weeks;
mod words;

use serde::Serialize;

use crate::plan::{Order, Plan};
use crate::quantity::{Decimal, Exact, Mass, Unit, fold_name};

pub use digest::digest;
pub use fold::{ChangeKind, ChangeLine, ChangePlace, Title, fold};
pub use pairing::pair_programmes;
pub use series::SeriesText;
pub use summary::summary;
pub use text::text;

/// A value before and after. Without the first it is new, without the second it was dropped.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Sides<T> {
    /// In the old plan.
    pub before: Option<T>,
    /// In the new plan.
    pub after: Option<T>,
}

impl<T> Sides<T> {
    /// Applies a function to both sides.
    pub fn of<S>(sides: &Sides<S>, get: impl Fn(&S) -> T) -> Self {
        Self { before: sides.before.as_ref().map(&get), after: sides.after.as_ref().map(&get) }
    }

    /// Both sides, if both exist.
    pub fn both(&self) -> Option<(&T, &T)> {
        self.before.as_ref().zip(self.after.as_ref())
    }

    /// The new side, otherwise the old one.
    pub fn either(&self) -> Option<&T> {
        self.after.as_ref().or(self.before.as_ref())
    }
}

/// What a change is about, with the name used in JSON.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Field {
    /// The programme's name.
    Programme,
    /// Length of the programme in weeks.
    Weeks,
    /// A whole week that was added or dropped.
    Week,
    /// The equation that estimates 1RMs.
    Estimate,
    /// The programme's goal.
    Goal,
    /// Who supervises the training.
    Supervision,
    /// The source of something.
    Source,
    /// A decision about advice.
    Advice,
    /// An athlete who was added or dropped.
    Athlete,
    /// The gym that the athlete trains in.
    Gym,
    /// A bar of the gym.
    GymBar,
    /// Other equipment of the gym.
    GymHas,
    /// The size of a plate.
    PlateSize,
    /// The max of a lift.
    Max,
    /// The share of the 1RM that percentages are based on.
    TrainingMax,
    /// Body mass.
    BodyMass,
    /// A unit in which loads are shown.
    Unit,
    /// The rack that the athlete shares.
    Rack,
    /// The athlete's training level.
    Level,
    /// What the athlete must avoid.
    Avoid,
    /// The language of sheets.
    Language,
    /// The number of logged sessions.
    Logged,
    /// A session outside the plan.
    Extra,
    /// A session that was added or dropped.
    Session,
    /// The day's name.
    Day,
    /// The date of a session.
    Date,
    /// The phase.
    Phase,
    /// The time allowed for a session.
    Time,
    /// What to do before the first exercise.
    Before,
    /// What to do after the last exercise.
    After,
    /// A limit in force.
    Limit,
    /// The order of the exercises that are on both sides.
    Order,
    /// How exercises are done together.
    Group,
    /// An exercise that was added, dropped or replaced.
    Exercise,
    /// Sets and repetitions.
    Sets,
    /// The prescribed percentage.
    Percent,
    /// The phase's change of the load.
    PhaseLoad,
    /// The loads that the gym builds.
    Load,
    /// Drop sets.
    Drops,
    /// The effort.
    Effort,
    /// Rest after a set.
    Rest,
    /// Tempo.
    Tempo,
    /// Range of motion.
    Range,
    /// A set on each interval.
    Every,
    /// Short pauses within a set (rest-pause).
    RestPause,
    /// The ramp to the working load.
    WarmUp,
    /// A rule, identified by its condition.
    Rule,
    /// The reason for a replacement.
    Instead,
    /// The set-up.
    Setup,
    /// The athlete's own setting.
    Setting,
    /// A cue.
    Cue,
    /// A note.
    Note,
    /// A safety note.
    Safety,
    /// Where to find a demonstration.
    Demo,
}

/// The numbers in a value, for calculations.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum FactNumbers {
    /// Loads or maxes, one for each run of different sets.
    #[serde(rename = "kg")]
    Kg(Vec<Mass>),
    /// Percentages.
    #[serde(rename = "percent")]
    Percent(Vec<Decimal>),
    /// A count.
    #[serde(rename = "count")]
    Count(u32),
    /// A date.
    #[serde(rename = "date")]
    Date(jiff::civil::Date),
}

/// A value of a fact.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FactValue {
    /// Its text, in the notation's words.
    pub text: String,
    /// Its numbers.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub numbers: Option<FactNumbers>,
}

impl FactValue {
    /// A value without numbers.
    #[must_use]
    pub fn plain(text: impl Into<String>) -> Self {
        Self { text: text.into(), numbers: None }
    }
}

/// One thing that changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// What it is about.
    pub what: Field,
    /// Which one of several: the lift of a max, the condition of a rule.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// The value before and after.
    #[serde(flatten)]
    pub sides: Sides<FactValue>,
}

/// What changed in one exercise of a session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExerciseChange {
    /// Its order letter.
    pub order: Sides<Order>,
    /// Its name.
    pub exercise: Sides<String>,
    /// What changed.
    pub changes: Vec<Change>,
}

/// What changed in one session of an athlete.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SessionChange {
    /// The week, counted from 1.
    pub week: Sides<u32>,
    /// The day's name.
    pub day: Sides<String>,
    /// Changes of the session as a whole.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// Changes of its exercises.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub exercises: Vec<ExerciseChange>,
}

/// The sums of a week before and after, if they changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WeekChange {
    /// The week, counted from 1.
    pub week: Sides<u32>,
    /// Hard sets, as [`crate::tally`] counts them.
    pub hard_sets: Sides<u32>,
    /// Volume load in kilograms, as [`crate::tally`] counts it.
    pub volume_load_kg: Sides<Volume>,
}

/// The sums of all weeks before and after, including the weeks that did not change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BlockChange {
    /// Hard sets, as [`crate::tally`] counts them.
    pub hard_sets: Sides<u32>,
    /// Volume load in kilograms, as [`crate::tally`] counts it.
    pub volume_load_kg: Sides<Volume>,
}

/// A volume load.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Volume(#[serde(serialize_with = "crate::tally::kg")] pub Exact);

/// What changed for one athlete.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AthleteChange {
    /// The athlete's name.
    pub athlete: Sides<String>,
    /// The unit in which loads are shown; JSON has kilograms.
    pub unit: Sides<Unit>,
    /// Changes that apply to the whole programme.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// Changes of sessions, by week.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sessions: Vec<SessionChange>,
    /// Changes of the sums of weeks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub weeks: Vec<WeekChange>,
    /// The sums of all weeks, if a week changed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub block: Option<BlockChange>,
}

/// The differences between two versions of a programme.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Comparison {
    /// The programme's name.
    pub programme: Sides<String>,
    /// Length of the programme in weeks.
    pub weeks: Sides<u32>,
    /// The athletes who are on both sides, in the order of the new plan.
    pub athletes_on_both_sides: Vec<String>,
    /// The days of both sides, in the order of the new plan; dropped days come last.
    pub days: Vec<Sides<String>>,
    /// Changes that apply to the whole programme.
    pub changes: Vec<Change>,
    /// Changes for each athlete, without those for whom nothing changed.
    pub athletes: Vec<AthleteChange>,
}

impl Comparison {
    /// Whether nothing changed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty() && self.athletes.is_empty()
    }

    /// Keeps only the changes of some athletes, by name; all athletes if none is named. Changes of
    /// the whole programme stay.
    #[must_use]
    pub fn only(mut self, names: &[String]) -> Self {
        let names: Vec<String> = names.iter().map(|name| fold_name(name)).collect();
        let wanted = |name: &str| names.is_empty() || names.contains(&fold_name(name));
        self.athletes_on_both_sides.retain(|name| wanted(name));
        self.athletes.retain(|one| one.athlete.either().is_some_and(|name| wanted(name)));
        self
    }
}

/// Compares two plans. If one is missing, the whole programme is new or was dropped.
#[must_use]
pub fn compare(plans: &Sides<&Plan>) -> Comparison {
    let programme = Sides::of(plans, |plan| plan.programme.clone());
    let weeks = Sides::of(plans, |plan| plan.weeks);
    let Some((old, new)) = plans.both() else {
        let text = |plan: &&Plan| FactValue::plain(plan.programme.clone());
        let changes =
            vec![Change { what: Field::Programme, of: None, sides: Sides::of(plans, text) }];
        let (athletes_on_both_sides, days, athletes) = (Vec::new(), Vec::new(), Vec::new());
        return Comparison { programme, weeks, athletes_on_both_sides, days, changes, athletes };
    };
    let weeks_paired = weeks::pair(old, new);
    let days = pairing::days(old, new);
    let mut changes = facts::differences(&facts::of_plan(old), &facts::of_plan(new));
    changes.extend(weeks::changes(&weeks_paired));
    let people = pairing::athletes(old, new);
    let on_both = people.iter().filter_map(|one| one.both().map(|(_, new)| new.name.clone()));
    Comparison {
        programme,
        weeks,
        athletes_on_both_sides: on_both.collect(),
        days: days.clone(),
        changes,
        athletes: athlete::changes(&people, &weeks_paired, &days, plans),
    }
}
