//! The plan: every set of every session of every athlete, each with its derivation.
//!
//! The plan is the boundary between the two halves of the program. The modules before it (syntax,
//! resolve, evaluate) do not know about paper; the modules after it (summaries, cards, exports,
//! advice) do not know about syntax. It serialises to the JSON of `setwright plan --format json`. A
//! field with a unit has the unit in its name (`load_kg`, `rest_s`).

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

/// A programme, evaluated for all of its athletes.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Plan {
    /// The programme's name.
    pub programme: String,
    /// BCP 47 language of the labels on sheets for the whole squad, such as `en`.
    pub language: String,
    /// Length of the programme in weeks.
    pub weeks: u32,
    /// Name of the equation that estimates 1RMs.
    pub estimate: String,
    /// What is assumed about future sessions, if not that they go as prescribed. Such a plan is not
    /// for training.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assumed: Option<Assumed>,
    /// The programme's goal, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub goal: Option<String>,
    /// Who supervises the training, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub supervision: Option<String>,
    /// The source of the programme, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// The programme's notes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Names of exercises in other languages, by exercise and language.
    #[serde(skip_serializing_if = "ExerciseNames::is_empty")]
    pub exercise_names: ExerciseNames,
    /// The line that opens the programme.
    #[serde(rename = "location")]
    pub line: Location,
    /// The coach's decisions about advice: what is allowed, and other thresholds and severities.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub advice: Vec<AdviceSwitch>,
    /// One plan for each athlete, in the order of the files.
    pub athletes: Vec<AthletePlan>,
}

/// An assumption about future sessions, other than that they go as prescribed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Assumed {
    /// Every set reaches the top of its range.
    Best,
    /// Every rule that can act against the athlete does so.
    Worst,
}

/// Everything planned for one athlete.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct AthletePlan {
    /// The athlete's name.
    pub name: String,
    /// BCP 47 language of the athlete's sheets: the athlete's own, otherwise the programme's.
    pub language: String,
    /// The gym that the athlete trains in, if the programme needs one.
    pub gym: Option<String>,
    /// The unit that the gym's plates are marked in. Sheets show loads in it.
    pub unit: Unit,
    /// A second unit that the athlete wants to see next to the first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub also_unit: Option<Unit>,
    /// Sizes of the gym's plates, if the gym file gives them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub plate_sizes: Vec<PlateSize>,
    /// Body mass.
    #[serde(rename = "body_mass_kg", skip_serializing_if = "Option::is_none")]
    pub body_mass: Option<Mass>,
    /// The rack that the athlete shares with others.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rack: Option<String>,
    /// The athlete's training level, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub level: Option<String>,
    /// Exercises, movement patterns and muscles that the athlete must avoid.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub avoid: Vec<Avoided>,
    /// The bars of the gym, one entry for each bar.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gym_bars: Vec<GymBar>,
    /// Other equipment that the gym has, such as `rack`.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gym_has: Vec<String>,
    /// Sessions in the order in which they are done.
    pub sessions: Vec<Session>,
    /// Sessions that were done outside the plan, by date.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub extras: Vec<Extra>,
}

/// The size of a plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, JsonSchema)]
pub struct PlateSize {
    /// Mass of the plate.
    #[serde(rename = "mass_kg")]
    pub mass: Mass,
    /// Diameter in millimetres.
    pub diameter_mm: u32,
    /// Thickness in millimetres, along the sleeve.
    pub thickness_mm: u32,
}

/// One session: one day of one week.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Session {
    /// The week, counted from 1.
    pub week: u32,
    /// The day's name.
    pub day: String,
    /// The date, if the programme has a start date and the day has a weekday.
    #[schemars(with = "Option<IsoDate>")]
    pub date: Option<Date>,
    /// The weekday of the day, if it has one.
    #[serde(skip)]
    pub weekday: Option<Weekday>,
    /// The first day of the week, if the programme has a start date.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<IsoDate>")]
    pub week_starts: Option<Date>,
    /// The phase that the week belongs to, if any.
    pub phase: Option<String>,
    /// Whether the phase takes away sets or load, so that the week is a deload.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub deload: bool,
    /// Whether the session was done, according to the logs.
    #[serde(flatten)]
    pub status: SessionStatus,
    /// The week whose session is repeated here, because it was missed and the programme repeats
    /// missed sessions.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub repeats_week: Option<u32>,
    /// Body mass, if it was logged with this session.
    #[serde(rename = "logged_body_mass_kg", skip_serializing_if = "Option::is_none")]
    pub body_mass: Option<Mass>,
    /// Notes on the session from the log.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub log_notes: Vec<String>,
    /// What to do before the first exercise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before: Option<String>,
    /// What to do after the last exercise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after: Option<String>,
    /// Notes for the day and the phase.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Limits set by a person who treats or supervises the athlete, if they apply on this day.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub limits: Vec<Limit>,
    /// The time that the coach allows for the session.
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

/// A limit on what the athlete may do, set by another person. The tool prints it and never
/// interprets it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Limit {
    /// What the limit is about, such as `Shoulder`.
    pub name: String,
    /// The limit, as written: what it is, who set it, until when.
    pub text: String,
    /// The last day on which the limit applies.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<IsoDate>")]
    pub until: Option<Date>,
}

/// An order letter, with a number if it is in a group: `A`, `D1`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Order {
    /// `A` to `Z`.
    pub letter: char,
    /// The place in the group, counted from 1; `None` for a letter without a number.
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
    /// Rest after each round of the group, if it is given for the group.
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
    /// Exercises alternated with rest between them.
    Paired,
    /// Rounds of all exercises of the group.
    Circuit {
        /// Number of rounds.
        rounds: u32,
        /// Time to change from one exercise to the next.
        #[serde(rename = "change_s", skip_serializing_if = "Option::is_none")]
        change: Option<Duration>,
    },
    /// A set at the start of each interval.
    Every {
        /// Length of the interval.
        #[serde(rename = "interval_s")]
        interval: Duration,
        /// Total time.
        #[serde(rename = "length_s")]
        length: Duration,
        /// Whether the exercises take turns, one in each interval. Otherwise all of them are done
        /// in each interval.
        alternate: bool,
    },
    /// As many rounds as possible in a given time.
    RoundsIn {
        /// The time.
        #[serde(rename = "length_s")]
        length: Duration,
    },
}

impl GroupKind {
    /// Whether the group itself gives the number of rounds or intervals, so that its members need
    /// no number of sets.
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
    /// The exercise that is done. If the programme's exercise was replaced, this is the
    /// replacement.
    pub name: String,
    /// Whether it is done on each side.
    pub each_side: bool,
    /// The main movement pattern, one of the catalogue's words. Sets are counted under it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<String>,
    /// Other movement patterns of the exercise.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub also_patterns: Vec<String>,
    /// Whether several joints do the work; `None` if the exercise does not define it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub compound: Option<bool>,
    /// What the exercise is loaded with in the athlete's gym; `None` if the exercise or the gym
    /// does not define it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equipment: Option<Equipment>,
    /// Other equipment that the exercise needs, such as `Rack`.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// The muscles that do the work, in the exercise's order, main muscles first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub muscles: Vec<MuscleShare>,
    /// The exercise that this one replaces, and why.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub replaces: Option<Replaced>,
    /// The set-up. It is the line's own, as written, otherwise the exercise's, translated into the
    /// athlete's language if there is a translation.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setup: Option<String>,
    /// The athlete's own settings for the exercise.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub settings: Vec<String>,
    /// Cues: the line's own, otherwise the exercise's.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cues: Vec<String>,
    /// Notes for this week.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// A safety note of the exercise, translated into the athlete's language if there is a
    /// translation.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub safety: Option<String>,
    /// The same safety note in the programme's language, if that is a different text. Sheets for
    /// the whole squad print it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub programme_safety: Option<String>,
    /// Where to find a demonstration.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub demo: Option<String>,
    /// Sources of the exercise, the line and the cues, if they are given. They are for the coach;
    /// no sheet of an athlete prints them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sources: Vec<Citation>,
    /// The rules that decide the next session, in the notation's words. The first rule that applies
    /// is used.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<String>,
    /// Whether its numbers depend on rules that acted on sessions that are not logged yet.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub projected: bool,
    /// What was done, if it is logged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outcome: Option<Outcome>,
    /// Why loads may exceed the 1RM, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over_max: Option<String>,
    /// The rule that acted after the session, if any.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fired: Option<Fired>,
    /// The sets in the order in which they are done, warm-up sets first.
    pub sets: Vec<PlannedSet>,
    /// The programme line that the exercise comes from.
    #[serde(rename = "location")]
    pub line: Location,
}

impl Session {
    /// Number of sets, including warm-up sets.
    #[must_use]
    pub fn set_count(&self) -> usize {
        self.exercises.iter().map(|exercise| exercise.sets.len()).sum()
    }
}

impl PlannedExercise {
    /// The working sets: no warm-up sets and no drop sets.
    pub fn working(&self) -> impl Iterator<Item = &PlannedSet> {
        self.sets.iter().filter(|set| matches!(set.kind, SetKind::Work | SetKind::BackOff))
    }
}

/// A source of something, in the coach's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Citation {
    /// What the source is about.
    #[serde(flatten)]
    pub of: CitationOf,
    /// The source.
    pub text: String,
}

/// What a source is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "of", rename_all = "kebab-case")]
pub enum CitationOf {
    /// The exercise.
    Exercise,
    /// The programme line: its sets, repetitions, loads and rules.
    Line,
    /// A cue.
    Cue {
        /// The text of the cue.
        cue: String,
    },
}

/// How much of an exercise's work a muscle does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct MuscleShare {
    /// The muscle.
    pub muscle: String,
    /// The muscle's share: 1 if the exercise trains it directly, less if the muscle assists.
    #[serde(serialize_with = "share")]
    #[schemars(with = "Decimal")]
    pub share: Exact,
}

/// Writes a share as a number with at most three decimals.
fn share<S: serde::Serializer>(share: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    share.to_decimal(3).serialize(serializer)
}

/// The exercise that another one replaces.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Replaced {
    /// Name of the exercise that the programme prescribes.
    pub name: String,
    /// The reason for the replacement, if one is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Whether the load is the one written for the replaced exercise, in kilograms or pounds.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub load_kept: bool,
}
