//! Results: what the logs contain for each session.

mod review;

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::plan::{DoneWork, Extra, Order};
use crate::quantity::{Effort, HalfPoints, Mass};
use crate::resolve::{ExerciseId, ResolvedMax};
use crate::source::Span;

pub use review::{
    Adherence, AthleteReview, AttentionItem, Concern, Effort as LoggedEffort, Estimate, FiredRule,
    LiftStrength, LiftWeek, MOST_REPS, Miss, Missed, MuscleWeek, NewMax, NextSession, Note, Pain,
    Point, Prescribed, Reason, Review, ReviewedSession, SessionEffort, Trend, WeekReview, Weighed,
    review,
};

/// Identifies a session by athlete, week and day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SessionKey {
    /// Index of the athlete in the programme.
    pub trainee: usize,
    /// The week, counted from 1.
    pub week: u32,
    /// Index of the day in the programme.
    pub day: usize,
}

/// All results of one programme, independent of the order in which they were written.
#[derive(Clone, Debug, Default)]
pub struct History {
    /// Planned sessions.
    pub sessions: BTreeMap<SessionKey, LoggedSession>,
    /// Sessions outside the plan, by athlete, sorted by date.
    pub extras: BTreeMap<usize, Vec<Extra>>,
}

/// One logged session.
#[derive(Clone, Debug)]
pub struct LoggedSession {
    /// The date on which it was done.
    pub date: Date,
    /// Its place in the log.
    pub span: Span,
    /// Set if the whole session was skipped, with the reason if given.
    pub skipped: Option<Option<String>>,
    /// The lines, by order letter.
    pub lines: BTreeMap<Order, LoggedLine>,
    /// Body mass.
    pub body_mass: Option<Mass>,
    /// Maxes that were tested again.
    pub maxes: Vec<(ExerciseId, ResolvedMax, Span)>,
    /// Notes.
    pub notes: Vec<String>,
}

/// One line of a logged session.
#[derive(Clone, Debug)]
pub struct LoggedLine {
    /// Its place.
    pub span: Span,
    /// The sets; `None` if every set was done as planned.
    pub sets: Option<Vec<LoggedSet>>,
    /// Set if the exercise was left out, with the reason if given.
    pub skipped: Option<Option<String>>,
    /// The reported effort.
    pub effort: Option<Effort>,
    /// The reported pain, from 0 to 10.
    pub pain: Option<HalfPoints>,
}

/// One logged set.
#[derive(Clone, Debug)]
pub struct LoggedSet {
    /// The work done.
    pub work: DoneWork,
    /// The work done on each side, if both are logged.
    pub sides: Option<[u32; 2]>,
    /// The load; `None` for the planned load. For a body-mass exercise, the added load.
    pub load: Option<Mass>,
}

impl History {
    /// The latest session that an athlete has logged, in the order of the plan.
    #[must_use]
    pub fn latest(&self, trainee: usize) -> Option<SessionKey> {
        let first = SessionKey { trainee, week: 0, day: 0 };
        let last = SessionKey { trainee, week: u32::MAX, day: usize::MAX };
        self.sessions.range(first..=last).next_back().map(|(key, _)| *key)
    }
}
