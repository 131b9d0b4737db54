//! Results of a logged session in words, for the summary.

use crate::plan::{
    AthletePlan, Built, DoneSet, Implement, Outcome, PlannedExercise, PlannedSet, Session,
    SessionStatus, SetKind,
};
use crate::sheets::labels::{Labels, fill};
use crate::sheets::wording::{Wording, done_work};

/// The status of a session: `Done on Mon 5 Jan 2026`, `Skipped (reason)`, `Not logged`; `None` for
/// a future session.
#[must_use]
pub fn status(session: &Session, labels: &Labels) -> Option<String> {
    match &session.status {
        SessionStatus::Projected => None,
        SessionStatus::Done { done_on } => {
            Some(fill(labels.done_on, &[&labels.show_date(*done_on)]))
        }
        SessionStatus::Skipped { reason, .. } => {
            Some(with_reason(labels.skipped, reason.as_deref()))
        }
        SessionStatus::Missing => Some(labels.not_logged.to_owned()),
    }
}

/// Sessions outside the plan, one line each.
pub fn extras(athlete: &AthletePlan, labels: &Labels) -> impl Iterator<Item = String> {
    athlete.extras.iter().map(|extra| {
        labels.labelled(labels.extra, &labels.labelled(&labels.show_date(extra.date), &extra.what))
    })
}

/// The result and the rule of an exercise, if there are any: `Done: 5, 5, 4 @ 60 kg  RPE 9` and
/// `Rule: any rep missed: load -7.5%`.
#[must_use]
pub fn result(exercise: &PlannedExercise, status: &SessionStatus, words: &Wording) -> Vec<String> {
    let labels = words.labels;
    let done = match (&exercise.outcome, status) {
        (Some(outcome), _) => {
            Some(labels.labelled(labels.done, &outcome_in(exercise, outcome, words)))
        }
        // The session is logged, but the exercise is not.
        (None, SessionStatus::Done { .. }) => Some(labels.not_logged.to_owned()),
        (None, _) => None,
    };
    let fired = exercise.fired.as_ref().filter(|fired| !fired.projected);
    let rule = fired.map(|fired| labels.labelled(labels.rule, &labels.rule(&fired.rule)));
    [done, rule].into_iter().flatten().collect()
}

fn outcome_in(exercise: &PlannedExercise, outcome: &Outcome, words: &Wording) -> String {
    let labels = words.labels;
    let planned: Vec<&PlannedSet> =
        exercise.sets.iter().filter(|set| set.kind != SetKind::WarmUp).collect();
    // Sets with the same load are grouped.
    let mut runs: Vec<(Vec<String>, Option<String>)> = Vec::new();
    for (at, set) in outcome.sets.iter().enumerate() {
        let work = done_work(set, words.signs);
        let load = load(set, planned.get(at).or(planned.last()).copied(), words);
        match runs.last_mut() {
            Some((works, last)) if *last == load => works.push(work),
            _ => runs.push((vec![work], load)),
        }
    }
    let runs: Vec<String> = runs
        .into_iter()
        .map(|(works, load)| match load {
            Some(load) => format!("{} @ {load}", works.join(", ")),
            None => works.join(", "),
        })
        .collect();
    let left_out = outcome.skipped.then(|| with_reason(labels.left_out, outcome.reason.as_deref()));
    let sets = (!runs.is_empty()).then(|| runs.join(words.labels.semicolon));
    let effort = outcome.effort.map(|effort| words.effort(effort));
    let pain = outcome.pain.map(|pain| fill(labels.pain_of, &[&pain.to_string()]));
    let parts: Vec<String> = [left_out, sets, effort, pain].into_iter().flatten().collect();
    parts.join("  ")
}

/// The load in the words of the planned set, with the mass that was lifted.
fn load(done: &DoneSet, planned: Option<&PlannedSet>, words: &Wording) -> Option<String> {
    let mass = done.load?;
    let how = |set: &PlannedSet| set.load.as_ref().map(|built| built.how.clone());
    let set = planned.map(|set| PlannedSet {
        load: Some(Built { mass, how: how(set).unwrap_or(Implement::Other) }),
        about: false,
        ..set.clone()
    });
    set.map_or_else(|| Some(words.mass(mass)), |set| words.load(&set))
}

fn with_reason(what: &str, reason: Option<&str>) -> String {
    match reason {
        Some(reason) => format!("{what} ({reason})"),
        None => what.to_owned(),
    }
}
