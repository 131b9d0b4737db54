//! A lift that asks for much more than in the weeks before.
//!
//! When repetitions have been made with some to spare, 2–10 % are added (ACSM position stand 2009,
//! Ratamess et al., Med Sci Sports Exerc 41(3):687–708 [S]; the handbook's 2.5–10 % [S]). What a week
//! asks for is the 1RM its heaviest set stands for, by the programme's equation, so that fewer
//! repetitions with more weight are no jump; it is held against the hardest of the four weeks before.
//! A step of up to 5 kg is let pass whatever its share, and the last week of a lift, where it is
//! heavy, is a test: what leads up to it is another advice.

use crate::advice::lifts::{Top, before, hardest, is_large_step, lifts};
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::quantity::{Exact, RepCount, Work};

use super::double_jump;
use super::short_rest::STRENGTH_PERCENT;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::LoadJump,
    title: "a lift that is much heavier than in the four weeks before",
    bound: Some(Bound {
        value: 10,
        unit: "%",
        meaning: "rise of what the heaviest set asks for, more than",
    }),
    source: "ACSM position stand 2009, Med Sci Sports Exerc 41(3):687–708 (2–10 %)",
    area: Area::Block,
    on_sheet: true,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    let both = double_jump::weeks_of_both(context);
    for athlete in 0..context.plan.athletes.len() {
        for (lift, weeks) in lifts(context, athlete) {
            for week in &weeks {
                let (Some(top), Some(was)) = (&week.top, hardest(before(&weeks, week.week))) else {
                    continue;
                };
                let Some(rise) = was.rise_to(top) else { continue };
                let over = &rise - &(bound / &Exact::whole(100));
                if over <= Exact::zero()
                    || !is_large_step(was, top)
                    || (weeks.last().is_some_and(|last| last.week == week.week) && is_test(top))
                    || both.contains(&(athlete, lift, week.week))
                {
                    continue;
                }
                let unit =
                    context.plan.athletes.get(athlete).map_or_else(Default::default, |a| a.unit);
                let message = format!(
                    "{lift} goes from {} x {} in week {} to {} x {}: {} more",
                    words::load(&was.load, unit),
                    was.set.reps.work,
                    was.session.week,
                    words::load(&top.load, unit),
                    top.set.reps.work,
                    words::percent(&rise),
                );
                let finding = Finding::exercise(athlete, top.session, top.exercise);
                let help = "spread the increase over two or three weeks";
                found.push(finding.message(message, lift).help(help).weighs(over));
            }
        }
    }
    found
}

/// Heavy or open enough to be a test.
fn is_test(top: &Top<'_>) -> bool {
    if matches!(top.set.reps.work, Work::Amrap | Work::Reps(RepCount { max: None, .. })) {
        return true;
    }
    let from = Exact::ratio(STRENGTH_PERCENT, 100);
    top.set.share_of_1rm.as_ref().is_some_and(|share| *share >= from)
}
