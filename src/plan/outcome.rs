//! What the athlete did, beside what was planned.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::Location;
use super::schema::IsoDate;
use crate::quantity::{Effort, HalfPoints, Mass};

/// Whether a session was done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "status", rename_all = "kebab-case")]
pub enum SessionStatus {
    /// Not logged, and no later one is: worked out as if everything goes as prescribed.
    Projected,
    /// Logged.
    Done {
        /// When it was done.
        #[schemars(with = "IsoDate")]
        done_on: Date,
    },
    /// Logged as skipped.
    Skipped {
        /// When that was logged.
        #[schemars(with = "IsoDate")]
        skipped_on: Date,
        /// Why.
        reason: Option<String>,
    },
    /// Not logged, though a later one is.
    Missing,
}

/// What was made in one set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DoneWork {
    /// Repetitions; of the weaker side, where both are logged.
    Reps(u32),
    /// Seconds.
    #[serde(rename = "work_s")]
    Seconds(u32),
    /// Metres.
    #[serde(rename = "distance_m")]
    Metres(u32),
}

impl DoneWork {
    /// The number, whatever it counts.
    #[must_use]
    pub const fn amount(self) -> u32 {
        match self {
            DoneWork::Reps(n) | DoneWork::Seconds(n) | DoneWork::Metres(n) => n,
        }
    }
}

/// One set as done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DoneSet {
    /// What was made.
    #[serde(flatten)]
    pub work: DoneWork,
    /// What was made on each side, where both are logged: in the order of the log, and in the unit
    /// of the work.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sides: Option<[u32; 2]>,
    /// With what: the logged load, else the planned one. Added mass for a body-mass lift.
    #[serde(rename = "load_kg")]
    pub load: Option<Mass>,
    /// Its target was met with at least the planned load.
    pub made: bool,
}

/// The result of one exercise in one session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Outcome {
    /// The working sets, in order; fewer than planned when some were left out.
    pub sets: Vec<DoneSet>,
    /// Left out altogether.
    pub skipped: bool,
    /// Why it was left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Every planned set was made.
    pub all_made: bool,
    /// The effort reported.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub effort: Option<Effort>,
    /// Pain reported, out of ten.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pain: Option<HalfPoints>,
    /// The line of the log.
    #[serde(rename = "location", skip_serializing_if = "Option::is_none")]
    pub line: Option<Location>,
}

/// A rule that acted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Fired {
    /// The rule, in the notation's words.
    pub rule: String,
    /// It acted on a session that is not logged yet.
    pub projected: bool,
    /// The line of the rule.
    #[serde(rename = "location")]
    pub line: Location,
}

/// A session beside the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Extra {
    /// When.
    #[schemars(with = "IsoDate")]
    pub date: Date,
    /// What it was.
    pub what: String,
}
