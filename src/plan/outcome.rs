//! What the athlete did, next to what was planned.

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
    /// Not logged, and no later session is logged. It is evaluated as if everything goes as
    /// prescribed.
    Projected,
    /// Logged.
    Done {
        /// The date on which it was done.
        #[schemars(with = "IsoDate")]
        done_on: Date,
    },
    /// Logged as skipped.
    Skipped {
        /// The date of that log entry.
        #[schemars(with = "IsoDate")]
        skipped_on: Date,
        /// The reason, if one is given.
        reason: Option<String>,
    },
    /// Not logged, although a later session is.
    Missing,
}

/// The work done in one set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DoneWork {
    /// Repetitions. If both sides are logged, those of the weaker side.
    Reps(u32),
    /// Seconds.
    #[serde(rename = "work_s")]
    Seconds(u32),
    /// Metres.
    #[serde(rename = "distance_m")]
    Metres(u32),
}

impl DoneWork {
    /// The number, in the unit of its variant.
    #[must_use]
    pub const fn amount(self) -> u32 {
        match self {
            DoneWork::Reps(n) | DoneWork::Seconds(n) | DoneWork::Metres(n) => n,
        }
    }
}

/// One set, as it was done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct DoneSet {
    /// The work done.
    #[serde(flatten)]
    pub work: DoneWork,
    /// The work done on each side, if both sides are logged: in the order of the log and in the
    /// unit of the work.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sides: Option<[u32; 2]>,
    /// The logged load, otherwise the planned one. For a body-mass exercise, the added load.
    #[serde(rename = "load_kg")]
    pub load: Option<Mass>,
    /// Whether the target was met with at least the planned load.
    pub made: bool,
}

/// The result of one exercise in one session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Outcome {
    /// The working sets, in order. There are fewer than planned if some were left out.
    pub sets: Vec<DoneSet>,
    /// Whether the whole exercise was left out.
    pub skipped: bool,
    /// Why it was left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Whether every planned set was made.
    pub all_made: bool,
    /// The reported effort.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub effort: Option<Effort>,
    /// The reported pain, from 0 to 10.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pain: Option<HalfPoints>,
    /// The line in the log.
    #[serde(rename = "location", skip_serializing_if = "Option::is_none")]
    pub line: Option<Location>,
}

/// A rule that acted after a session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Fired {
    /// The rule, in the notation's words.
    pub rule: String,
    /// Whether it acted on a session that is not logged yet.
    pub projected: bool,
    /// The line of the rule.
    #[serde(rename = "location")]
    pub line: Location,
}

/// A session that was done outside the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Extra {
    /// The date.
    #[schemars(with = "IsoDate")]
    pub date: Date,
    /// What was done, in the words of the log.
    pub what: String,
}
