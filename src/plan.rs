//! The plan: every set of every session of every athlete, with its derivation.
//!
//! This is the waist of the house. What comes before (syntax, resolving, evaluating) does not know
//! of paper; what comes after (summaries, cards, exports, advice) does not know of syntax.
//! It serialises to the JSON of `setwright plan --format json`; every field that carries a unit is
//! named for it (`load_kg`, `rest_s`).

mod derivation;
mod means;
mod names;
mod outcome;
mod record;
mod schema;
mod select;
mod set;
mod switch;

use jiff::civil::{Date, Weekday};
use schemars::JsonSchema;
use serde::Serialize;

pub use derivation::{Derivation, Location, Op, Step, StepKind, replay};
pub use means::{Avoided, Equipment, GymBar};
pub use names::{ExerciseNames, name_in};
pub use outcome::{DoneSet, DoneWork, Extra, Fired, Outcome, SessionStatus};
pub use record::{ClusterPause, ImplementKey, SetRecord, UpperBound};
use schema::IsoDate;
pub use schema::schema;
pub use select::{Past, Selection};
pub use set::{Built, Implement, PlannedSet, SetKind};
pub use switch::{AdviceSwitch, Switch};

use crate::quantity::{Decimal, Duration, Exact, Mass, Unit};

/// A programme worked out for its athletes.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Plan {
    /// The programme's name.
    pub programme: String,
    /// BCP 47 language of the labels, such as `en`, where no single athlete reads them.
    pub language: String,
    /// How many weeks the programme runs.
    pub weeks: u32,
    /// The equation that estimates maximums, by name.
    pub estimate: String,
    /// What sessions to come are assumed to be, where it is not as prescribed: such a plan is no
    /// card to train by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assumed: Option<Assumed>,
    /// The programme's goal, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub goal: Option<String>,
    /// Who supervises, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub supervision: Option<String>,
    /// Where the programme comes from, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// The programme's notes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Names that exercises have in other languages, by exercise and language.
    #[serde(skip_serializing_if = "ExerciseNames::is_empty")]
    pub exercise_names: ExerciseNames,
    /// The line that opens the programme.
    #[serde(rename = "location")]
    pub line: Location,
    /// What the coach makes of advice.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub advice: Vec<AdviceSwitch>,
    /// One plan for each athlete, in the order of the files.
    pub athletes: Vec<AthletePlan>,
}

/// A way that sessions to come may go, other than as prescribed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Assumed {
    /// Every set reaches its top.
    Best,
    /// Every rule that can goes against the athlete.
    Worst,
}

/// Everything planned for one athlete.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct AthletePlan {
    /// The athlete's name.
    pub name: String,
    /// BCP 47 language of the athlete's sheets: their own, else the programme's.
    pub language: String,
    /// The gym they train in, when the programme needs one.
    pub gym: Option<String>,
    /// The unit that the gym's plates are marked in: sheets show loads in it.
    pub unit: Unit,
    /// The unit the athlete asked to see beside it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub also_unit: Option<Unit>,
    /// How big the gym's plates are, where the gym says so.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub plate_sizes: Vec<PlateSize>,
    /// Body mass.
    #[serde(rename = "body_mass_kg", skip_serializing_if = "Option::is_none")]
    pub body_mass: Option<Mass>,
    /// Which rack they share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rack: Option<String>,
    /// How far trained they are, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub level: Option<String>,
    /// Exercises, patterns and muscles they are to avoid.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub avoid: Vec<Avoided>,
    /// The bars of the gym, one entry a bar.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gym_bars: Vec<GymBar>,
    /// What else the gym says it has, such as `rack`.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gym_has: Vec<String>,
    /// Sessions in the order they are done.
    pub sessions: Vec<Session>,
    /// What was done beside the plan, by date.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub extras: Vec<Extra>,
}

/// How big a plate is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, JsonSchema)]
pub struct PlateSize {
    /// Its mass.
    #[serde(rename = "mass_kg")]
    pub mass: Mass,
    /// Across, in millimetres.
    pub diameter_mm: u32,
    /// Along the sleeve, in millimetres.
    pub thickness_mm: u32,
}

/// One session: one day of one week.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Session {
    /// The week, counted from one.
    pub week: u32,
    /// The day's name.
    pub day: String,
    /// The date, when the programme says when it starts and the day its weekday.
    #[schemars(with = "Option<IsoDate>")]
    pub date: Option<Date>,
    /// The weekday of the day, where it says one.
    #[serde(skip)]
    pub weekday: Option<Weekday>,
    /// The first day of the week, when the programme says when it starts.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<IsoDate>")]
    pub week_starts: Option<Date>,
    /// The phase, when the week lies in one.
    pub phase: Option<String>,
    /// The phase takes sets or load off: a lighter week.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub deload: bool,
    /// Whether it was done, as far as the logs say.
    #[serde(flatten)]
    pub status: SessionStatus,
    /// The week whose session is done again here, because it was missed and the programme repeats
    /// missed sessions.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub repeats_week: Option<u32>,
    /// Body mass, where it was logged with this session.
    #[serde(rename = "logged_body_mass_kg", skip_serializing_if = "Option::is_none")]
    pub body_mass: Option<Mass>,
    /// What the log notes about the session.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub log_notes: Vec<String>,
    /// What to do before the first exercise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before: Option<String>,
    /// What to do after the last.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after: Option<String>,
    /// Notes for the day and the phase.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Limits set by somebody who treats or supervises the athlete, in force on this day.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub limits: Vec<Limit>,
    /// The session time that the coach allows.
    #[serde(rename = "time_s", skip_serializing_if = "Option::is_none")]
    pub time: Option<Duration>,
    /// How the groups of exercises that share a letter are done.
    pub groups: Vec<Group>,
    /// The exercises, in order.
    pub exercises: Vec<PlannedExercise>,
    /// The line that opens the day.
    #[serde(rename = "location")]
    pub line: Location,
}

/// A limit on what the athlete may do, as somebody else set it. The tool prints it and never
/// interprets it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Limit {
    /// What it concerns, such as `Shoulder`.
    pub name: String,
    /// The limit, as written: text, who set it, until when.
    pub text: String,
    /// The last day it holds.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<IsoDate>")]
    pub until: Option<Date>,
}

/// An order letter, with its number in a superset: `A`, `D1`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Order {
    /// `A` to `Z`.
    pub letter: char,
    /// The place in the group, from one; `None` for a letter on its own.
    pub number: Option<u32>,
}

impl std::fmt::Display for Order {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.letter)?;
        self.number.map_or(Ok(()), |n| write!(f, "{n}"))
    }
}

impl Serialize for Order {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// The exercises that share an order letter, and how they are done together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Group {
    /// The shared letter.
    pub letter: char,
    /// How the group is done.
    #[serde(flatten)]
    pub how: GroupKind,
    /// Rest after each round of the group, when stated for the group.
    #[serde(rename = "rest_s", skip_serializing_if = "Option::is_none")]
    pub rest: Option<Duration>,
}

/// How a group is done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "how", rename_all = "kebab-case")]
pub enum GroupKind {
    /// One exercise by itself.
    Single,
    /// Two exercises alternated without rest.
    Superset,
    /// Three or more exercises alternated without rest.
    GiantSet,
    /// Alternated with rest between.
    Paired,
    /// Rounds of all members.
    Circuit {
        /// How many rounds.
        rounds: u32,
        /// Time to change from one exercise to the next.
        #[serde(rename = "change_s", skip_serializing_if = "Option::is_none")]
        change: Option<Duration>,
    },
    /// A set on each interval.
    Every {
        /// The interval.
        #[serde(rename = "interval_s")]
        interval: Duration,
        /// For how long.
        #[serde(rename = "length_s")]
        length: Duration,
        /// One member an interval, in turn, instead of all members each interval.
        alternate: bool,
    },
    /// As many rounds as possible.
    RoundsIn {
        /// In this time.
        #[serde(rename = "length_s")]
        length: Duration,
    },
}

impl GroupKind {
    /// Whether the group says how often its members are done: they need no number of sets.
    #[must_use]
    pub fn is_counted(&self) -> bool {
        matches!(
            self,
            GroupKind::Circuit { .. } | GroupKind::Every { .. } | GroupKind::RoundsIn { .. }
        )
    }
}

/// One exercise of a session.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PlannedExercise {
    /// Its order letter.
    pub order: Order,
    /// The exercise that is done, after any replacement.
    pub name: String,
    /// Done on each side.
    pub each_side: bool,
    /// The chief movement pattern, one of the catalogue's words: sets are counted under it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<String>,
    /// Patterns that it has besides.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub also_patterns: Vec<String>,
    /// Whether several joints do the work; `None` where the exercise does not say.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub compound: Option<bool>,
    /// What the athlete's gym loads it with; `None` where the exercise or the gym does not say.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equipment: Option<Equipment>,
    /// What else it needs, such as `Rack`.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// The muscles that do the work, those that do most of it first as the exercise names them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub muscles: Vec<MuscleShare>,
    /// The exercise that the programme names, when this one replaces it, and why.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub replaces: Option<Replaced>,
    /// The set-up: the line's own as written, else the exercise's, in the athlete's language where it
    /// is translated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setup: Option<String>,
    /// The athlete's own settings for it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub settings: Vec<String>,
    /// Cues: the line's own, else the exercise's.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cues: Vec<String>,
    /// Notes for this week.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// A caution that belongs to the exercise, in the athlete's language where it is translated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub safety: Option<String>,
    /// The same caution in the programme's language, where that differs: sheets for the whole squad
    /// print it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub programme_safety: Option<String>,
    /// Where a demonstration is found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub demo: Option<String>,
    /// Where the exercise, the line and the cues come from, as far as they say so. For the coach:
    /// no athlete's sheet prints it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sources: Vec<Citation>,
    /// The rules that decide the next session, in the notation's words, first match first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<String>,
    /// Its numbers depend on rules that acted on sessions not logged yet.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub projected: bool,
    /// What was done, where it is logged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outcome: Option<Outcome>,
    /// Why loads may pass the 1RM, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over_max: Option<String>,
    /// The rule that acted after the session.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fired: Option<Fired>,
    /// The sets, warm-ups first, in the order they are done.
    pub sets: Vec<PlannedSet>,
    /// The programme line it comes from.
    #[serde(rename = "location")]
    pub line: Location,
}

impl Session {
    /// How many sets it has, warm-ups among them.
    #[must_use]
    pub fn set_count(&self) -> usize {
        self.exercises.iter().map(|exercise| exercise.sets.len()).sum()
    }
}

impl PlannedExercise {
    /// The working sets, or hard sets: no warm-ups, no drops.
    pub fn working(&self) -> impl Iterator<Item = &PlannedSet> {
        self.sets.iter().filter(|set| matches!(set.kind, SetKind::Work | SetKind::BackOff))
    }
}

/// Where something comes from, in the coach's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Citation {
    /// What it is the source of.
    #[serde(flatten)]
    pub of: CitationOf,
    /// The source.
    pub text: String,
}

/// What a source is the source of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "of", rename_all = "kebab-case")]
pub enum CitationOf {
    /// The exercise.
    Exercise,
    /// The programme's line: its sets, repetitions, loads and rules.
    Line,
    /// A cue.
    Cue {
        /// The cue.
        cue: String,
    },
}

/// How much of an exercise's work a muscle does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MuscleShare {
    /// The muscle.
    pub muscle: String,
    /// Its share: one where the exercise trains it directly, less where it helps.
    #[serde(serialize_with = "share")]
    #[schemars(with = "Decimal")]
    pub share: Exact,
}

/// A share as a number of at most three decimals.
fn share<S: serde::Serializer>(share: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    share.to_decimal(3).serialize(serializer)
}

/// What an exercise stands in for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Replaced {
    /// The exercise that the programme names.
    pub name: String,
    /// The reason given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// The load is the one that was written for it, in kilograms or pounds.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub load_kept: bool,
}
