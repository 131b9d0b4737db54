//! Results: what the logs say, session by session.

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

/// Which session: athlete, week and day, by index.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SessionKey {
    /// The athlete's index in the programme.
    pub trainee: usize,
    /// The week, counted from one.
    pub week: u32,
    /// The day's index in the programme.
    pub day: usize,
}

/// All results of one programme, whatever the order they were written in.
#[derive(Clone, Debug, Default)]
pub struct History {
    /// Sessions of the plan.
    pub sessions: BTreeMap<SessionKey, LoggedSession>,
    /// Sessions beside the plan, by athlete, in the order of their dates.
    pub extras: BTreeMap<usize, Vec<Extra>>,
}

/// One logged session.
#[derive(Clone, Debug)]
pub struct LoggedSession {
    /// When it was done.
    pub date: Date,
    /// Its place in the log.
    pub span: Span,
    /// Skipped as a whole, with the reason.
    pub skipped: Option<Option<String>>,
    /// The lines, by order.
    pub lines: BTreeMap<Order, LoggedLine>,
    /// Body mass.
    pub body_mass: Option<Mass>,
    /// Maxes tested again.
    pub maxes: Vec<(ExerciseId, ResolvedMax, Span)>,
    /// Notes.
    pub notes: Vec<String>,
}

/// One line of a logged session.
#[derive(Clone, Debug)]
pub struct LoggedLine {
    /// Its place.
    pub span: Span,
    /// The sets; `None` for every set as planned.
    pub sets: Option<Vec<LoggedSet>>,
    /// Left out, with the reason.
    pub skipped: Option<Option<String>>,
    /// The effort reported.
    pub effort: Option<Effort>,
    /// Pain reported.
    pub pain: Option<HalfPoints>,
}

/// One logged set.
#[derive(Clone, Debug)]
pub struct LoggedSet {
    /// What was made.
    pub work: DoneWork,
    /// What was made on each side, where both are written.
    pub sides: Option<[u32; 2]>,
    /// With what; `None` for the planned load. Added mass for a body-mass lift.
    pub load: Option<Mass>,
}

impl History {
    /// The latest session that an athlete has logged, in the plan's order.
    #[must_use]
    pub fn latest(&self, trainee: usize) -> Option<SessionKey> {
        let first = SessionKey { trainee, week: 0, day: 0 };
        let last = SessionKey { trainee, week: u32::MAX, day: usize::MAX };
        self.sessions.range(first..=last).next_back().map(|(key, _)| *key)
    }
}
