//! What was planned and done: sessions, sets, weeks.

use serde::Serialize;

use crate::plan::{Session, SessionStatus};
use crate::quantity::Mass;
use crate::tally::{self, MuscleSets, Totals, Work};

use super::{is_past, volume};

/// What was planned and done so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Adherence {
    /// Sessions planned so far.
    pub sessions_planned: u32,
    /// Sessions logged as done.
    pub sessions_done: u32,
    /// Sessions logged as skipped.
    pub sessions_skipped: u32,
    /// Sessions that are not logged although a later one is.
    pub sessions_missing: u32,
    /// Working sets planned so far.
    pub sets_planned: u32,
    /// Working sets that met their target with at least the planned load.
    pub sets_made: u32,
    /// Working sets that were done, with or without meeting their target. Sets beyond the plan are
    /// not counted.
    pub sets_done: u32,
}

/// Counts sessions and sets so far.
pub fn adherence(sessions: &[Session]) -> Adherence {
    let mut all = Adherence::default();
    for session in sessions.iter().filter(|session| is_past(session)) {
        all.sessions_planned += 1;
        match session.status {
            SessionStatus::Done { .. } => all.sessions_done += 1,
            SessionStatus::Skipped { .. } => all.sessions_skipped += 1,
            SessionStatus::Missing => all.sessions_missing += 1,
            SessionStatus::Projected => {}
        }
        for exercise in &session.exercises {
            let planned = exercise.working().count();
            let counted = exercise.outcome.iter().flat_map(|o| o.sets.iter().take(planned));
            let (made, short): (Vec<_>, Vec<_>) =
                counted.filter(|set| set.work.amount() > 0).partition(|set| set.made);
            all.sets_planned += small(planned);
            all.sets_made += small(made.len());
            all.sets_done += small(made.len() + short.len());
        }
    }
    all
}

fn small(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// One week.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct WeekReview {
    /// The week, counted from 1.
    pub week: u32,
    /// The phase that it belongs to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub phase: Option<String>,
    /// Number of future sessions.
    pub sessions_to_come: u32,
    /// The whole week as planned.
    pub planned: Work,
    /// The part that was done.
    pub done: Work,
    /// By lift, in the order of the week.
    pub lifts: Vec<LiftWeek>,
    /// By muscle, sorted by name.
    pub muscles: Vec<MuscleWeek>,
}

/// One lift in one week.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LiftWeek {
    /// The exercise.
    pub lift: String,
    /// The planned work.
    pub planned: Work,
    /// The work done.
    pub done: Work,
}

/// One muscle in one week.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MuscleWeek {
    /// The muscle.
    pub muscle: String,
    /// The planned work.
    pub planned: MuscleSets,
    /// The work done.
    pub done: MuscleSets,
}

/// Sums up every week of the plan.
pub fn weeks(sessions: &[(&Session, Option<Mass>)]) -> Vec<WeekReview> {
    sessions.chunk_by(|(a, _), (b, _)| a.week == b.week).map(week).collect()
}

fn week(sessions: &[(&Session, Option<Mass>)]) -> WeekReview {
    let mut week = WeekReview::default();
    let (mut planned, mut done) = (Totals::default(), Totals::default());
    for (session, body) in sessions {
        week.week = session.week;
        week.phase = week.phase.take().or_else(|| session.phase.clone());
        week.sessions_to_come += u32::from(!is_past(session));
        for exercise in &session.exercises {
            planned.add(exercise, &tally::planned(exercise, *body));
            done.add(exercise, &volume::done(exercise, *body));
        }
    }
    (week.planned, week.done) = (planned.all, done.all);
    // Both totals received the same exercises in the same order.
    let lifts = planned.lifts.into_iter().zip(done.lifts);
    let lift = |((lift, planned), (_, done))| LiftWeek { lift, planned, done };
    week.lifts = lifts.map(lift).collect();
    let muscles = planned.muscles.into_iter().zip(done.muscles);
    let muscle = |((muscle, planned), (_, done))| MuscleWeek { muscle, planned, done };
    week.muscles = muscles.map(muscle).collect();
    week
}
