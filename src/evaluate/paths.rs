//! Where the rules may lead: the best and the worst that can come of the sessions ahead.
//!
//! State belongs to the lines of one athlete, so each path costs one evaluation, however many
//! rules there are.

use std::collections::BTreeSet;

use crate::diagnostics::{Code, Diagnostic};
use crate::history::History;
use crate::plan::{Plan, SetKind, StepKind};
use crate::quantity::Exact;
use crate::resolve::Programme;

use super::{Assumptions, Path, evaluate};

/// A plan may lead past the tested maximum by this much, in percent, before it is worth a word:
/// common practice, no source.
const PAST_MAX_PERCENT: i64 = 105;

/// Warnings about where the best and the worst path lead.
#[must_use]
pub fn warnings(
    programme: &Programme,
    history: &History,
    planned: &Plan,
    wanted: &dyn Fn(&str) -> bool,
) -> Vec<Diagnostic> {
    let has_rules = |line: &crate::resolve::Line| {
        !line.common.rules.is_empty() || line.personal.iter().any(|(_, v)| !v.rules.is_empty())
    };
    // Without rules there is one path.
    if !programme.days.iter().flat_map(|day| &day.lines).any(has_rules) {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut said = BTreeSet::new();
    for (path, word) in [(Path::Best, "best"), (Path::Worst, "worst")] {
        let assumptions = Assumptions { path, ..Assumptions::default() };
        let (plan, _) = evaluate(programme, history, assumptions, wanted);
        compare(programme, planned, &plan, word, &mut said, &mut found);
    }
    found
}

fn compare(
    programme: &Programme,
    planned: &Plan,
    path: &Plan,
    word: &str,
    said: &mut BTreeSet<(String, String, Code)>,
    found: &mut Vec<Diagnostic>,
) {
    for (usual, athlete) in planned.athletes.iter().zip(&path.athletes) {
        for (before, session) in usual.sessions.iter().zip(&athlete.sessions) {
            for (was, exercise) in before.exercises.iter().zip(&session.exercises) {
                let span = programme.days.iter().flat_map(|day| &day.lines).find(|line| {
                    line.order == exercise.order
                        && programme.sources.locate(line.span) == exercise.line
                });
                let Some(span) = span.map(|line| line.span) else { continue };
                let worst = exercise
                    .sets
                    .iter()
                    .zip(&was.sets)
                    .filter(|(set, _)| matches!(set.kind, SetKind::Work | SetKind::BackOff));
                for (set, usual_set) in worst {
                    let mut say = |code, message: String, help: &str| {
                        let key = (athlete.name.clone(), exercise.line.file.clone(), code);
                        let key = (key.0, format!("{}:{}", key.1, exercise.line.line), key.2);
                        if said.insert(key) {
                            found.push(Diagnostic::new(code, span, message).help(help));
                        }
                    };
                    let name = &athlete.name;
                    if set.off_target && !usual_set.off_target {
                        say(
                            Code::PathLeavesEquipment,
                            format!(
                                "on the {word} path {name} leaves what the gym can load for {} \
                                 in week {}",
                                exercise.name, session.week
                            ),
                            "take a smaller step in the rule, or add to what the gym has",
                        );
                    }
                    if let Some(tested) = tested(set).filter(|tested| {
                        let most = tested * &Exact::ratio(PAST_MAX_PERCENT, 100);
                        word == "best" && set.target.as_ref().is_some_and(|target| *target > most)
                    }) {
                        say(
                            Code::PathPastMax,
                            format!(
                                "on the best path {name} passes {PAST_MAX_PERCENT} % of the tested \
                                 max of {} ({}) in week {}",
                                exercise.name,
                                tested.to_mass().show(athlete.unit),
                                session.week
                            ),
                            "take a smaller step in the rule, or plan a new test",
                        );
                    }
                }
            }
        }
    }
}

/// The tested or estimated maximum that a set's load comes from.
fn tested(set: &crate::plan::PlannedSet) -> Option<Exact> {
    // A max of the whole system cannot be held against what is added to the body.
    if set.bodyweight {
        return None;
    }
    let last = set.derivation.iter().rfind(|step| {
        matches!(
            step.kind,
            StepKind::Tested { .. } | StepKind::Estimated { .. } | StepKind::Derived { .. }
        )
    });
    last.map(|step| step.result.clone())
}
