//! Advice: what a senior coach would say about a plan. It never changes one.
//!
//! Each lint is one file in `lints/`: what it looks at, from which number on it speaks, and where
//! the claim comes from. The registry lists them. All of them read the plan alone, and nothing here
//! speaks of anybody's health: for that, ask the professional who cleared the athlete.
//!
//! The order of advice is the order in which it is worth reading: warnings before info; among them
//! what cannot be done as written, then how a session is built, then loads, then the week, then the block; then the registry's order, and
//! the place in the file. The same advice for several athletes or weeks is said once.

mod facts;
mod fold;
mod lifts;
mod lint;
mod lint_run;
mod lints;
mod registry;
mod settings;
mod words;

use crate::diagnostics::{Code, Severity};
use crate::plan::{Location, Plan};

pub use lint::{Area, Bound, Finding, Lint, LintContext};
pub use lint_run::{LintRun, LintScope};
pub use registry::LINTS;
pub use settings::Settings;

/// Whom a plan is for, and for how long: what advice names.
#[derive(Clone, Debug, Default)]
struct Squad {
    weeks: u32,
    athletes: Vec<String>,
}

/// One piece of advice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// Which: its page is `setwright explain NAME`.
    pub code: Code,
    /// How serious it is.
    pub level: Severity,
    /// What is worth a look, for whom and when, in one sentence without a full stop.
    pub message: String,
    /// The line it is about.
    pub at: Location,
    /// Other lines that matter, each with a remark.
    pub others: Vec<(Location, String)>,
    /// What to do.
    pub help: String,
    /// Where the claim comes from.
    pub source: Option<&'static str>,
}

/// Everything there is to say about a plan, most important first.
#[must_use]
pub fn review_plan(plan: &Plan, settings: &Settings) -> Vec<Advice> {
    let mut review = LintRun::by(settings.clone(), plan.weeks, LintScope::All);
    review.look(plan);
    review.finish().1
}
