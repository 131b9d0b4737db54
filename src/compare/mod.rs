//! Two plans, and what changed between them for each athlete, week and session: meaning, not lines.
//!
//! Everything is told as a [`Change`] with what stood there before and what stands there after, so
//! that the comparison the other way round is its mirror. Weeks, days and exercises are paired
//! before they are compared ([`pairing`], [`weeks`]): a week taken out of the middle does not make
//! every later week a new one, and an exercise put in at the top does not move all below it.
//!
//! [`fold()`] brings together what is the same for many, and claims of no athlete and week what is not
//! so there; [`text`] and [`digest()`] put it into words,
//! in English as findings are.

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

/// What stood there before, and what stands there after. Without the one it is new, without the
/// other it is gone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Sides<T> {
    /// In the old plan.
    pub before: Option<T>,
    /// In the new plan.
    pub after: Option<T>,
}

impl<T> Sides<T> {
    /// The same of both sides.
    pub fn of<S>(sides: &Sides<S>, get: impl Fn(&S) -> T) -> Self {
        Self { before: sides.before.as_ref().map(&get), after: sides.after.as_ref().map(&get) }
    }

    /// Both sides, where both are there.
    pub fn both(&self) -> Option<(&T, &T)> {
        self.before.as_ref().zip(self.after.as_ref())
    }

    /// The new side, or else the old one.
    pub fn either(&self) -> Option<&T> {
        self.after.as_ref().or(self.before.as_ref())
    }
}

/// What a change is about, under the name that JSON has for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Field {
    /// The programme's name.
    Programme,
    /// How many weeks the programme runs.
    Weeks,
    /// A whole week is there or not.
    Week,
    /// The equation that estimates maximums.
    Estimate,
    /// The programme's goal.
    Goal,
    /// Who supervises.
    Supervision,
    /// Where something comes from.
    Source,
    /// A decision about advice.
    Advice,
    /// An athlete is there or not.
    Athlete,
    /// The gym they train in.
    Gym,
    /// A bar of the gym.
    GymBar,
    /// What else the gym has.
    GymHas,
    /// How big a plate is.
    PlateSize,
    /// A maximum, of the lift it names.
    Max,
    /// The share of the maximum that percentages are of.
    TrainingMax,
    /// Body mass.
    BodyMass,
    /// A unit that loads are shown in.
    Unit,
    /// Which rack they share.
    Rack,
    /// How far trained they are.
    Level,
    /// What they are to avoid.
    Avoid,
    /// The language of sheets.
    Language,
    /// How much the logs hold.
    Logged,
    /// What was done beside the plan.
    Extra,
    /// A session is there or not.
    Session,
    /// The day's name.
    Day,
    /// When it is.
    Date,
    /// The phase.
    Phase,
    /// The session time allowed.
    Time,
    /// What to do before the first exercise.
    Before,
    /// What to do after the last.
    After,
    /// A limit in force.
    Limit,
    /// The order of the exercises that stay.
    Order,
    /// How exercises are done together.
    Group,
    /// An exercise is there, not there, or another one.
    Exercise,
    /// Sets and repetitions.
    Sets,
    /// The percentage that is asked for.
    Percent,
    /// What the phase does to the load.
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
    /// Short pauses after which the set goes on.
    RestPause,
    /// The ramp to the working load.
    WarmUp,
    /// A rule, by its condition.
    Rule,
    /// Why another exercise is done than the programme names.
    Instead,
    /// The set-up.
    Setup,
    /// The athlete's own setting.
    Setting,
    /// A cue.
    Cue,
    /// A note.
    Note,
    /// A caution.
    Safety,
    /// Where a demonstration is found.
    Demo,
}

/// The numbers in a value, as far as they can be reckoned with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum FactNumbers {
    /// Loads or maximums, one for each run of sets that differ.
    #[serde(rename = "kg")]
    Kg(Vec<Mass>),
    /// Percentages.
    #[serde(rename = "percent")]
    Percent(Vec<Decimal>),
    /// A count.
    #[serde(rename = "count")]
    Count(u32),
    /// A day.
    #[serde(rename = "date")]
    Date(jiff::civil::Date),
}

/// What stands in one place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FactValue {
    /// In the notation's words.
    pub text: String,
    /// Its numbers.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub numbers: Option<FactNumbers>,
}

impl FactValue {
    /// Words alone.
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
    /// Of which one, where there are several: the lift of a maximum, the condition of a rule.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// What stood there, and what stands there now.
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
    /// The week, counted from one.
    pub week: Sides<u32>,
    /// The day's name.
    pub day: Sides<String>,
    /// What changed for the session as a whole.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// What changed in its exercises.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub exercises: Vec<ExerciseChange>,
}

/// What a week comes to, before and after, where that changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WeekChange {
    /// The week, counted from one.
    pub week: Sides<u32>,
    /// Hard sets, as [`crate::tally`] counts them.
    pub hard_sets: Sides<u32>,
    /// Volume load in kilograms, as [`crate::tally`] counts it.
    pub volume_load_kg: Sides<Volume>,
}

/// What the whole block comes to, before and after: the weeks that changed and those that did not.
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
    /// The unit that loads are shown in; JSON has them in kilograms.
    pub unit: Sides<Unit>,
    /// What changed for all of the programme.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// What changed in sessions, week by week.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sessions: Vec<SessionChange>,
    /// What changed in what weeks come to.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub weeks: Vec<WeekChange>,
    /// What all weeks come to together, where a week changed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub block: Option<BlockChange>,
}

/// What changed between two versions of a programme.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Comparison {
    /// The programme's name.
    pub programme: Sides<String>,
    /// How many weeks it runs.
    pub weeks: Sides<u32>,
    /// The athletes who are on both sides, in the order of the new plan.
    pub athletes_on_both_sides: Vec<String>,
    /// The days of both sides, in the order of the new plan; those that are gone come last.
    pub days: Vec<Sides<String>>,
    /// What changed for all of the programme.
    pub changes: Vec<Change>,
    /// What changed for each athlete; those for whom nothing changed are left out.
    pub athletes: Vec<AthleteChange>,
}

impl Comparison {
    /// Whether nothing changed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty() && self.athletes.is_empty()
    }

    /// Keeps what concerns some athletes, by name; all, if none is named. What changed for all of
    /// the programme stays.
    #[must_use]
    pub fn only(mut self, names: &[String]) -> Self {
        let names: Vec<String> = names.iter().map(|name| fold_name(name)).collect();
        let wanted = |name: &str| names.is_empty() || names.contains(&fold_name(name));
        self.athletes_on_both_sides.retain(|name| wanted(name));
        self.athletes.retain(|one| one.athlete.either().is_some_and(|name| wanted(name)));
        self
    }
}

/// What changed from one plan to another. Either may be missing: the whole programme is new then,
/// or gone.
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
