//! Advice: what an experienced coach would say about a plan. Advice never changes a plan.
//!
//! Each lint is one file in `lints/`: what it looks at, its threshold, and the source of its claim. The
//! registry lists them. Lints only read the plan. Nothing here is advice about anyone's health: for
//! that, ask the professional who cleared the athlete.
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

/// The athletes and the number of weeks of a plan, as advice names them.
#[derive(Clone, Debug, Default)]
struct Squad {
    weeks: u32,
    athletes: Vec<String>,
}

/// One piece of advice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// Its code; `setwright explain NAME` prints its page.
    pub code: Code,
    /// How serious it is.
    pub level: Severity,
    /// What to look at, for whom and when, in one sentence without a full stop.
    pub message: String,
    /// The line it is about.
    pub at: Location,
    /// Other relevant lines, each with a label.
    pub others: Vec<(Location, String)>,
    /// What to do.
    pub help: String,
    /// Where the claim comes from.
    pub source: Option<&'static str>,
}

/// All advice on a plan, most important first.
#[must_use]
pub fn review_plan(plan: &Plan, settings: &Settings) -> Vec<Advice> {
    let mut review = LintRun::by(settings.clone(), plan.weeks, LintScope::All);
    review.look(plan);
    review.finish().1
}
