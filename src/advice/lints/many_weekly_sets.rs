//! Many hard sets a week for one muscle.
//!
//! Growth still rises in the highest band studied, 10 and more sets a muscle (Schoenfeld et al.
//! 2017, J Sports Sci 35(11):1073–1082 [S]); no source draws the line above it. That more than 25
//! direct sets a week are more than most recover from is common practice, no source; glutes come near
//! it in any week of squats, hinges and lunges. Indirect sets
//! are shown and not counted against it.

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::quantity::Exact;

use super::few_weekly_sets::about;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::ManyWeeklySets,
    title: "many hard sets a week for one muscle, direct and indirect apart",
    bound: Some(Bound {
        value: 25,
        unit: "sets",
        meaning: "direct hard sets a muscle and week, more than",
    }),
    source: "Schoenfeld, Ogborn, Krieger 2017, J Sports Sci 35(11):1073–1082 (bands up to 10+); \
             the line above is common practice",
    area: Area::Week,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, week, _) in context.full_weeks() {
        for muscle in &week.muscles {
            let over = &Exact::whole(i64::from(muscle.sets.direct_sets)) - bound;
            if over > Exact::zero() {
                let finding = about(context, athlete, week.week, muscle);
                let message = format!("many hard sets in the week: {}", finding.short);
                let short = finding.short.clone();
                let help = "remove the sets that matter least, or spread them over the block";
                found.push(finding.message(message, short).help(help).weighs(over));
            }
        }
    }
    found
}
