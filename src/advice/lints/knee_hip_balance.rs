//! Knee-dominant against hip-dominant work in a week.
//!
//! About as much of one as of the other is common practice, no source. Squats, lunges and isolation
//! for the front of the thigh bend the knee; hinges, swings and isolation for hamstrings and glutes
//! extend the hip. Two fifths as many on one side as on the other are let pass, and so are weeks with
//! a few sets only.

use crate::advice::facts::{direct, is};
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::PlannedExercise;
use crate::quantity::Exact;

use super::push_pull_balance::balance;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::KneeHipBalance,
    title: "balance of knee-dominant and hip-dominant sets in a week",
    bound: Some(Bound {
        value: 40,
        unit: "%",
        meaning: "the smaller side as a share of the larger, below",
    }),
    source: "common practice, no source",
    area: Area::Week,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let part = |e: &PlannedExercise, muscles: &[&str]| {
        is(e, &["isolation", "power"]) && direct(e).next().is_some_and(|m| muscles.contains(&m))
    };
    let knee = |e: &PlannedExercise| is(e, &["squat", "lunge"]) || part(e, &["quadriceps"]);
    let hip = |e: &PlannedExercise| is(e, &["hinge"]) || part(e, &["hamstrings", "glutes"]);
    balance(context, bound, [("bend the knee", &knee), ("extend the hip", &hip)])
}
