//! Updates the state after a session: what was done, which rules act, and what is remembered.

use jiff::civil::Date;

use crate::history::{LoggedSession, SessionKey};
use crate::plan::{PlannedExercise, SessionStatus};
use crate::quantity::Exact;
use crate::resolve::{Day, ExerciseId, Line, Load, Phase, WeekSpec};

use super::log_plausibility;
use super::rules::{After, percent_lift};
use super::session_facts::{self, SessionFacts};
use super::{AthleteEvaluator, LineId, MissingLogPolicy, Path};
use crate::catalogue::LoadingMethod;

/// An exercise of a session with the inputs of its numbers.
pub struct EvaluatedExercise<'a> {
    pub planned: PlannedExercise,
    pub line: &'a Line,
    pub spec: &'a WeekSpec,
    pub lift: ExerciseId,
    pub means: Option<LoadingMethod>,
    /// The line's state.
    pub key: LineId,
    /// Whether the line's rules act after it.
    pub rules_act: bool,
}

/// The session that was just evaluated.
pub struct SessionContext<'a> {
    /// The week of the calendar.
    pub week: u32,
    /// The week whose lines were done: an earlier one, where missed sessions are made up.
    pub done_week: u32,
    pub day_index: usize,
    pub day: &'a Day,
    pub phase: Option<&'a Phase>,
    /// Its date, or the first day of its week.
    pub date: Option<Date>,
}

impl AthleteEvaluator<'_, '_> {
    /// What is known of a session: logged, skipped, passed over, or still to come.
    pub(super) fn status(&self, week: u32, day: usize) -> (SessionStatus, Option<&LoggedSession>) {
        let key = SessionKey { trainee: self.index, week, day };
        if let Some(session) = self.history.sessions.get(&key) {
            let status = match &session.skipped {
                Some(reason) => {
                    SessionStatus::Skipped { skipped_on: session.date, reason: reason.clone() }
                }
                None => SessionStatus::Done { done_on: session.date },
            };
            return (status, Some(session));
        }
        let passed = self.latest.is_some_and(|latest| key < latest);
        (if passed { SessionStatus::Missing } else { SessionStatus::Projected }, None)
    }

    /// Applies the rules to a session and writes what was done into the plan.
    pub(super) fn follow(
        &mut self,
        sitting: &SessionContext<'_>,
        worked: &mut [EvaluatedExercise<'_>],
    ) {
        let (status, logged) = self.status(sitting.week, sitting.day_index);
        let logged = logged.cloned();
        let deload = sitting.phase.is_some_and(Phase::lightens);
        for work in worked.iter_mut() {
            let key = work.key;
            let Some((judged, projected)) = self.facts(&status, logged.as_ref(), work) else {
                continue;
            };
            if deload {
                continue;
            }
            self.remember(key, work, &judged);
            if !work.rules_act {
                continue;
            }
            let after = After {
                key,
                rules: &work.line.variant(self.index).rules,
                spec: work.spec,
                lift: work.lift,
                means: work.means.as_ref(),
                phase: sitting.phase,
                week: sitting.done_week,
                session: in_words(sitting, &status),
                projected,
                logged: logged
                    .as_ref()
                    .and_then(|session| session.lines.get(&work.line.order))
                    .map(|line| line.span),
                tested_again: logged.as_ref().is_some_and(|session| {
                    let of = percent_lift(work.spec, work.lift);
                    session.maxes.iter().any(|(lift, ..)| *lift == of)
                }),
            };
            work.planned.fired = self.act(&after, &work.planned, &judged);
        }
        if let (Some(session), Some(date)) = (&logged, sitting.date) {
            self.problems.extend(log_plausibility::date(date, session.date, session.span));
        }
        if let Some(session) = &logged {
            if let Some(body_mass) = session.body_mass {
                let (known, unit) = (self.maxes.body_mass, self.unit);
                self.problems.extend(log_plausibility::body_mass(
                    known,
                    body_mass,
                    session.span,
                    unit,
                ));
                self.maxes.weigh(body_mass);
            }
            for (lift, max, span) in &session.maxes {
                self.maxes.test_again(*lift, max.clone(), *span);
                self.projected_maxes.remove(lift);
            }
        }
        let made_up = self.programme.repeat_missed
            && match status {
                SessionStatus::Skipped { .. } => true,
                SessionStatus::Missing => self.assumptions.missing != MissingLogPolicy::Done,
                _ => false,
            };
        if let Some(lag) = self.lag.get_mut(sitting.day_index).filter(|_| made_up) {
            *lag += 1;
        }
    }

    /// What the rules judge a line by, and whether that is projected; `None` where the session
    /// neither counts nor breaks a row.
    fn facts(
        &mut self,
        status: &SessionStatus,
        logged: Option<&LoggedSession>,
        work: &mut EvaluatedExercise<'_>,
    ) -> Option<(SessionFacts, bool)> {
        let rules = &work.line.variant(self.index).rules;
        match status {
            SessionStatus::Projected => {
                let path = self.assumptions.path;
                Some((session_facts::projected(&work.planned, path, rules), true))
            }
            SessionStatus::Skipped { .. } => None,
            SessionStatus::Missing => self.passed_over(work),
            SessionStatus::Done { .. } => {
                let Some(line) = logged.and_then(|session| session.lines.get(&work.line.order))
                else {
                    // A line that a logged session does not mention was passed over like a
                    // session without a log.
                    return self.passed_over(work);
                };
                let place = self.programme.sources.locate(line.span);
                let (judged, outcome) =
                    session_facts::logged(&work.planned, line, place, self.problems);
                let unit = self.unit;
                self.problems.extend(log_plausibility::line(
                    &work.planned,
                    line,
                    &outcome.sets,
                    unit,
                ));
                let skipped = outcome.skipped;
                work.planned.outcome = Some(outcome);
                (!skipped).then_some((judged, false))
            }
        }
    }

    fn passed_over(&self, work: &EvaluatedExercise<'_>) -> Option<(SessionFacts, bool)> {
        match self.assumptions.missing {
            MissingLogPolicy::Neutral => None,
            MissingLogPolicy::Done => {
                Some((session_facts::projected(&work.planned, Path::Planned, &[]), true))
            }
            MissingLogPolicy::Missed => Some((session_facts::missed(), true)),
        }
    }

    /// The load that `last` means from now on: what was logged, else the target.
    fn remember(&mut self, key: LineId, work: &EvaluatedExercise<'_>, judged: &SessionFacts) {
        let logged = work.planned.outcome.as_ref().and(judged.first_load).map(Exact::from_mass);
        let target = self.before_phase.get(&key).cloned();
        let state = self.lines.entry(key).or_default();
        if let Some(load) = logged.or(target) {
            state.last = Some(load);
        }
        let by_last = |load: &Load| matches!(load, Load::LastMass(_) | Load::LastPercent(_));
        if work.spec.groups.iter().any(|group| by_last(&group.load)) {
            // What rules added is in the latest load already.
            state.load.clear();
        }
    }
}

/// `week 1, Catch (2026-01-05)`.
fn in_words(sitting: &SessionContext<'_>, status: &SessionStatus) -> String {
    let session = format!("week {}, {}", sitting.week, sitting.day.name);
    match status {
        SessionStatus::Done { done_on } => format!("{session} ({done_on})"),
        _ => session,
    }
}
