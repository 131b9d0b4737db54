//! Advice: what a senior coach would say about a plan. It never changes one.
//!
//! Each lint is one file in `lints/`: what it looks at, from which number on it speaks, and where
//! the claim comes from. The registry lists them. All of them read the plan alone, and nothing here
//! speaks of anybody's health: for that, ask the professional who cleared the athlete.
//!
//! The order of advice is the order in which it is worth reading: cautions before notes; among them
//! what cannot be done as written, then how a session is built, then loads, then the week, then the block; then the registry's order, and
//! the place in the file. The same advice for several athletes or weeks is said once.

mod facts;
mod fold;
mod lifts;
mod lint;
mod lints;
mod registry;
mod settings;
mod words;

use rayon::prelude::*;

use crate::diagnostics::{Code, Severity};
use crate::plan::{Plan, Where};

pub use lint::{Area, Bound, Context, Finding, Lint};
pub use registry::LINTS;
pub use settings::Settings;

/// One piece of advice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advice {
    /// Which: its page is `setwright explain NAME`.
    pub code: Code,
    /// A caution or a note.
    pub level: Severity,
    /// What is worth a look, for whom and when, in one sentence without a full stop.
    pub message: String,
    /// The line it is about.
    pub at: Where,
    /// Other lines that matter, each with a remark.
    pub others: Vec<(Where, String)>,
    /// What to do.
    pub help: String,
    /// Where the claim comes from.
    pub source: Option<&'static str>,
}

/// Everything there is to say about a plan, most important first.
#[must_use]
pub fn review_plan(plan: &Plan, settings: &Settings) -> Vec<Advice> {
    let mut used = vec![false; settings.allows.len()];
    let mut advice = look(plan, settings, &mut used, |_| true);
    if !settings.is_off() {
        advice.extend(settings.unused(&used));
    }
    advice
}

/// What there is to say about a plan's sheets: by the lints that every command which makes one asks.
#[must_use]
pub fn review_sheets(plan: &Plan, settings: &Settings) -> Vec<Advice> {
    let mut used = vec![false; settings.allows.len()];
    look(plan, settings, &mut used, |lint| lint.on_sheet)
}

/// What some of the lints say, most important first; marks the allowances that were used.
fn look(
    plan: &Plan,
    settings: &Settings,
    used: &mut [bool],
    asked: impl Fn(&Lint) -> bool,
) -> Vec<Advice> {
    if settings.is_off() {
        return Vec::new();
    }
    let context = Context::new(plan);
    let mut found: Vec<(usize, Area, Advice)> = Vec::new();
    let lints: Vec<(usize, &Lint)> =
        LINTS.iter().copied().enumerate().filter(|(_, lint)| asked(lint)).collect();
    // Looking is most of the work, and no lint looks at what another found.
    // At one athlete's plan it takes less time than to start threads.
    let look_at = |(_, lint): &(usize, &Lint)| settings.findings(&context, lint);
    let seen: Vec<_> = match plan.athletes.as_slice() {
        [] | [_] => lints.iter().map(look_at).collect(),
        _ => lints.par_iter().map(look_at).collect(),
    };
    for ((place, lint), mut findings) in lints.into_iter().zip(seen) {
        findings.retain(|finding| !settings.allowed(plan, lint.code, finding, used));
        let level = settings.level(lint.code);
        for advice in fold::fold(plan, lint, level, findings) {
            found.push((place, lint.area, advice));
        }
    }
    found.sort_by(|(place_a, area_a, a), (place_b, area_b, b)| {
        (a.level, area_a, place_a, &a.at).cmp(&(b.level, area_b, place_b, &b.at))
    });
    found.into_iter().map(|(.., advice)| advice).collect()
}
