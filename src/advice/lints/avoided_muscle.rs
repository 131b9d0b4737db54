//! Reports an exercise in which a muscle helps that the athlete must avoid.
//!
//! An exercise, a pattern or a muscle's own exercise against an `avoid:` line is an error of its own
//! (`avoided-exercise`): nothing is printed until somebody decides. Where the muscle only helps, the
//! coach should know; from half of the work on, which is common practice, no source. What it means
//! is for the professional who set the limit to say.

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::{AthletePlan, PlannedExercise, Session};
use crate::quantity::{Exact, fold_name};

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::AvoidedMuscle,
    title: "an exercise in which a muscle helps that an athlete must avoid",
    bound: Some(Bound { value: 50, unit: "%", meaning: "the muscle's share of the work, from" }),
    source: "the athlete's `avoid:` line",
    area: Area::Limits,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (index, athlete, session) in context.sessions().filter(|(_, a, _)| !a.avoid.is_empty()) {
        let exercises = session.exercises.iter();
        found.extend(exercises.filter_map(|e| finding(index, athlete, session, e, bound)));
    }
    found
}

fn finding(
    index: usize,
    athlete: &AthletePlan,
    session: &Session,
    exercise: &PlannedExercise,
    bound: &Exact,
) -> Option<Finding> {
    let day = session.date.or(session.week_starts);
    let in_force = athlete.avoid.iter().filter(|avoided| match (avoided.until, day) {
        (Some(until), Some(day)) => day <= until,
        _ => true,
    });
    let from = bound / &Exact::whole(100);
    let helps = in_force.filter_map(|avoided| {
        let named = fold_name(&avoided.name);
        let muscle = exercise.muscles.iter().find(|m| fold_name(&m.muscle) == named)?;
        (muscle.share >= from && muscle.share < Exact::one()).then_some(muscle)
    });
    let muscle = helps.max_by(|a, b| a.share.cmp(&b.share))?;
    let message = format!(
        "{} must avoid work for the {}, which helps in {}",
        athlete.name, muscle.muscle, exercise.name
    );
    let help = format!(
        "ask the professional who set it, then write `replace {}: …` or allow this",
        exercise.name
    );
    let mut finding = Finding::exercise(index, session, exercise);
    finding.muscle = Some(muscle.muscle.clone());
    // Each athlete's line is a thing of its own.
    finding.subject.clone_from(&athlete.name);
    Some(finding.message(message, athlete.name.clone()).help(help).weighs(muscle.share.clone()))
}
