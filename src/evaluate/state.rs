//! The state of an exercise line from one session to the next.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::plan::{Location, Op, StepKind};
use crate::quantity::Exact;

/// A change of the working load by a rule.
#[derive(Clone, Debug)]
pub struct LoadEvent {
    pub kind: StepKind,
    pub op: Op,
    pub line: Location,
}

/// State of one line of one athlete.
#[derive(Clone, Debug, Default)]
pub struct LineState {
    /// The load of the latest session that no phase reduced, logged or else its target: what
    /// `last` means. Unrounded where it is a target.
    pub last: Option<Exact>,
    /// What rules made of the load, in order: each multiplies or adds.
    pub load: Vec<Arc<LoadEvent>>,
    /// How far rules have raised the rep target within its range.
    pub reps_raised: i64,
    /// How many sets rules have added.
    pub sets_added: i64,
    /// Sessions in a row with a missed repetition, since a rule last acted on the row.
    pub missed: u32,
    /// Sessions in a row in which a condition held, by its words, since a rule last acted on it.
    pub rows: BTreeMap<String, u32>,
    /// Sessions that counted.
    pub sessions: u32,
    /// Weeks that counted, and the latest of them.
    pub weeks: u32,
    pub last_week: u32,
    /// A rule has acted on a session that is not logged yet.
    pub projected: bool,
}

impl LineState {
    /// Counts a session that was done.
    pub fn count(&mut self, week: u32) {
        self.sessions += 1;
        if self.last_week != week {
            self.weeks += 1;
            self.last_week = week;
        }
    }
}
