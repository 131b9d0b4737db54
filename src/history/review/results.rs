//! Lists from the logs: misses, rules that acted, new maxes, notes, body mass.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::plan::{DoneSet, Location, Order, PlannedExercise, Session, SessionStatus, StepKind};
use crate::quantity::{Exact, Mass, Reps};
use crate::tally::kg;

use super::{ReviewedSession, as_written, is_done, is_past};

/// A line that missed its target, or a session that was not done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Miss {
    /// The session.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// What was missed.
    #[serde(flatten)]
    pub what: Missed,
}

/// What was missed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "missed", rename_all = "kebab-case")]
pub enum Missed {
    /// The session was logged as skipped.
    SessionSkipped {
        /// The reason.
        reason: Option<String>,
    },
    /// The session is not logged, although a later one is.
    SessionMissing,
    /// A line was logged as skipped.
    LineSkipped {
        /// The order letter.
        order: Order,
        /// The exercise.
        exercise: String,
        /// The reason.
        reason: Option<String>,
    },
    /// A line that the session's log does not mention.
    LineNotLogged {
        /// The order letter.
        order: Order,
        /// The exercise.
        exercise: String,
    },
    /// Sets of a line did not meet their target with at least the planned load.
    Sets {
        /// The order letter.
        order: Order,
        /// The exercise.
        exercise: String,
        /// Number of planned sets.
        planned: u32,
        /// Number of those that met their target.
        made: u32,
        /// The prescription of the first set; in JSON, in the notation's words.
        #[serde(serialize_with = "as_written")]
        asked: Reps,
        /// The sets, as they were done.
        sets: Vec<DoneSet>,
        /// The line in the log.
        #[serde(rename = "location", skip_serializing_if = "Option::is_none")]
        line: Option<Location>,
    },
}

/// All misses so far, in the order of the plan.
pub fn misses(sessions: &[Session]) -> Vec<Miss> {
    let mut all = Vec::new();
    for session in sessions.iter().filter(|session| is_past(session)) {
        let sitting = ReviewedSession::of(session);
        let miss = |what| Miss { sitting: sitting.clone(), what };
        match &session.status {
            SessionStatus::Skipped { reason, .. } => {
                all.push(miss(Missed::SessionSkipped { reason: reason.clone() }));
            }
            SessionStatus::Missing => all.push(miss(Missed::SessionMissing)),
            SessionStatus::Done { .. } => {
                all.extend(session.exercises.iter().filter_map(short).map(miss));
            }
            SessionStatus::Projected => {}
        }
    }
    all
}

fn short(exercise: &PlannedExercise) -> Option<Missed> {
    let (order, name) = (exercise.order, exercise.name.clone());
    let Some(outcome) = &exercise.outcome else {
        return Some(Missed::LineNotLogged { order, exercise: name });
    };
    if outcome.skipped {
        return Some(Missed::LineSkipped { order, exercise: name, reason: outcome.reason.clone() });
    }
    if outcome.all_made {
        return None;
    }
    let asked = exercise.working().next()?.reps.clone();
    let planned = exercise.working().count();
    let made = outcome.sets.iter().take(planned).filter(|set| set.made).count();
    Some(Missed::Sets {
        order,
        exercise: name,
        planned: u32::try_from(planned).unwrap_or(u32::MAX),
        made: u32::try_from(made).unwrap_or(u32::MAX),
        asked,
        sets: outcome.sets.clone(),
        line: outcome.line.clone(),
    })
}

/// A rule that acted on a logged session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FiredRule {
    /// The session it acted on.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The order letter.
    pub order: Order,
    /// The exercise.
    pub exercise: String,
    /// The rule, in the notation's words.
    pub rule: String,
    /// The line of the rule.
    #[serde(rename = "location")]
    pub line: Location,
}

/// The rules that acted on logged sessions.
pub fn rules(sessions: &[Session]) -> Vec<FiredRule> {
    let mut all = Vec::new();
    for session in sessions.iter().filter(|session| is_past(session)) {
        for exercise in &session.exercises {
            let Some(fired) = exercise.fired.as_ref().filter(|fired| !fired.projected) else {
                continue;
            };
            all.push(FiredRule {
                sitting: ReviewedSession::of(session),
                order: exercise.order,
                exercise: exercise.name.clone(),
                rule: fired.rule.clone(),
                line: fired.line.clone(),
            });
        }
    }
    all
}

/// A max that a log replaced.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct NewMax {
    /// The lift.
    pub lift: String,
    /// The max before.
    #[serde(rename = "before_kg", serialize_with = "kg")]
    pub before: Exact,
    /// The max now.
    #[serde(rename = "now_kg", serialize_with = "kg")]
    pub now: Exact,
    /// The line of the new max.
    #[serde(rename = "location")]
    pub line: Location,
}

/// The tested or estimated 1RM that a derivation starts with.
pub fn start(step: &crate::plan::Step) -> Option<(&str, &Exact, &Location)> {
    match &step.kind {
        StepKind::Tested { lift } | StepKind::Estimated { lift, .. } => {
            step.line.as_ref().map(|line| (lift.as_str(), &step.result, line))
        }
        _ => None,
    }
}

/// The maxes that logs changed, found in later derivations.
pub fn new_maxes(sessions: &[Session]) -> Vec<NewMax> {
    let mut known: BTreeMap<&str, (&Exact, &Location)> = BTreeMap::new();
    let mut all = Vec::new();
    let sets = sessions.iter().flat_map(|s| &s.exercises).flat_map(|e| &e.sets);
    for (lift, now, line) in sets.flat_map(|set| set.derivation.iter()).filter_map(start) {
        match known.insert(lift, (now, line)) {
            Some((before, old)) if old != line => all.push(NewMax {
                lift: lift.to_owned(),
                before: before.clone(),
                now: now.clone(),
                line: line.clone(),
            }),
            _ => {}
        }
    }
    all
}

/// A note from a log.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Note {
    /// The session.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The note.
    pub note: String,
}

/// All notes from the logs.
pub fn notes(sessions: &[Session]) -> Vec<Note> {
    let of = |session: &Session| {
        let sitting = ReviewedSession::of(session);
        let note = move |note: &String| Note { sitting: sitting.clone(), note: note.clone() };
        session.log_notes.iter().map(note).collect::<Vec<_>>()
    };
    sessions.iter().flat_map(of).collect()
}

/// A logged body mass.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Weighed {
    /// The session with which it was logged.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The body mass.
    #[serde(rename = "body_mass_kg")]
    pub body_mass: Mass,
}

/// All logged values of body mass.
pub fn weighed(sessions: &[Session]) -> Vec<Weighed> {
    let of = |session: &Session| {
        session
            .body_mass
            .map(|body_mass| Weighed { sitting: ReviewedSession::of(session), body_mass })
    };
    sessions.iter().filter_map(of).collect()
}

/// Number of sessions in a row that each line has missed, up to the last one that counts, with day,
/// order letter and exercise. Skipped and unlogged lines and deload weeks are ignored: they are not
/// misses and do not reset the count. Rules count in the same way, but start again after one has
/// acted.
pub fn rows(sessions: &[Session]) -> Vec<(String, Order, String, u32)> {
    let mut rows: BTreeMap<(&str, Order), (&str, u32)> = BTreeMap::new();
    for session in sessions.iter().filter(|session| is_done(session) && !session.deload) {
        for exercise in &session.exercises {
            let Some(outcome) = exercise.outcome.as_ref().filter(|o| !o.skipped) else { continue };
            let row = rows.entry((&session.day, exercise.order)).or_default();
            row.0 = &exercise.name;
            row.1 = if outcome.all_made { 0 } else { row.1 + 1 };
        }
    }
    rows.into_iter()
        .map(|((day, order), (name, row))| (day.to_owned(), order, name.to_owned(), row))
        .collect()
}
