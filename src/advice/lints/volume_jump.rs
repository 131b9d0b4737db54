//! A week with many more hard sets than the weeks before.
//!
//! How fast volume may rise is common practice, no source: two fifths more hard sets than the largest
//! of the four weeks before are let pass, and so are five sets, however small the week. A change from
//! few repetitions to many is none: sets count, not repetitions.

use crate::advice::lifts::{LOOK_BACK, rise};
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::VolumeJump,
    title: "a week with many more hard sets than the four weeks before",
    bound: Some(Bound { value: 40, unit: "%", meaning: "rise of the week's hard sets, more than" }),
    source: "common practice, no source",
    area: Area::Block,
    on_sheet: false,
    find,
};

/// This many more are no jump.
const FEW_SETS: u32 = 5;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, table) in context.weekly().athletes.iter().enumerate() {
        for week in &table.weeks {
            let earlier = table
                .weeks
                .iter()
                .filter(|other| other.week < week.week && other.week + LOOK_BACK >= week.week);
            let Some(was) = earlier.max_by_key(|other| (other.total.hard_sets, other.week)) else {
                continue;
            };
            let (from, to) = (was.total.hard_sets, week.total.hard_sets);
            let whole = |n: u32| Exact::whole(i64::from(n));
            let Some(rise) = rise(&whole(from), &whole(to)) else { continue };
            let over = &rise - &(bound / &Exact::whole(100));
            if over <= Exact::zero() || to - from <= FEW_SETS {
                continue;
            }
            let message = format!(
                "the week has {to} hard sets after {from} in week {}: {} more",
                was.week,
                words::percent(&rise)
            );
            let short = format!("{to} after {from}");
            let finding = Finding::block(athlete, vec![week.week], context.plan.line.clone());
            let help = "add the sets over two or three weeks";
            found.push(finding.message(message, short).help(help).weighs(over));
        }
    }
    found
}
