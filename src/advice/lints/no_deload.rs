//! Reports many weeks without a deload.
//!
//! Lifters who plan lighter weeks take one of 6.4 ± 1.7 days every 5.6 ± 2.3 weeks (Rogerson et al.
//! 2024, Sports Med Open 10:26 [S]); fewer repetitions, sets and less load make it one, with as many
//! sessions (Bell et al. 2023, Sports Med Open, doi 10.1186/s40798-023-00633-0 [S]). Eight weeks are
//! the mean and a standard deviation. A week whose phase takes sets or load off is lighter, and so
//! is one with far fewer sets or far less volume than the block's largest.

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::NoDeload,
    title: "many weeks in a row without a deload",
    bound: Some(Bound { value: 8, unit: "weeks", meaning: "weeks in a row, more than" }),
    source: "Rogerson et al. 2024, Sports Med Open 10:26 (every 5.6 ± 2.3 weeks)",
    area: Area::Block,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, table) in context.weekly().athletes.iter().enumerate() {
        let weeks: Vec<u32> = (1..=context.plan.weeks)
            .filter(|week| !context.is_light(athlete, *week))
            // A week without a session is a rest.
            .filter(|week| table.weeks.iter().any(|own| own.week == *week))
            .collect();
        let runs = weeks.chunk_by(|a, b| a + 1 == *b);
        let Some(longest) = runs.max_by_key(|run| run.len()) else { continue };
        let length = Exact::whole(i64::try_from(longest.len()).unwrap_or(i64::MAX));
        if length <= *bound {
            continue;
        }
        let span = words::weeks(&longest.iter().copied().collect());
        let message = format!("no deload in {span}");
        let finding = Finding::block(athlete, Vec::new(), context.plan.line.clone());
        let help = "add a phase such as `phase Deload: week 5, sets -40%, load -10%`";
        found.push(finding.message(message, span).help(help).weighs(length));
    }
    found
}
