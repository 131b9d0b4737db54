//! No lower-body work on one side at a time in a week.
//!
//! At least one one-sided exercise a session for the lower body is common practice, no source; a
//! week without any is what this lint speaks of, and only where the week has more than a few sets
//! for legs and hips at all.

use crate::advice::facts::{is_lower_body, is_one_sided_lower};
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::UnilateralLegs,
    title: "a week of lower-body work without a unilateral exercise",
    bound: Some(Bound {
        value: 3,
        unit: "sets",
        meaning: "hard sets for legs and hips in the week, more than",
    }),
    source: "common practice, no source",
    area: Area::Week,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, week, sessions) in context.full_weeks() {
        let exercises = || sessions.iter().flat_map(|session| &session.exercises);
        let lower = exercises().filter(|exercise| is_lower_body(exercise));
        let sets: usize = lower.map(|exercise| exercise.working().count()).sum();
        let sets = Exact::whole(i64::try_from(sets).unwrap_or(i64::MAX));
        if sets <= *bound || exercises().any(is_one_sided_lower) {
            continue;
        }
        let finding = Finding::block(athlete, vec![week.week], context.plan.line.clone());
        let message = "no exercise for the legs and hips is unilateral";
        let help = "add a split squat, a lunge, a step-up or a hinge on one leg";
        found.push(finding.message(message, message).help(help).weighs(sets));
    }
    found
}
