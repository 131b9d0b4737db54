//! More load and more sets of a lift in the same week.
//!
//! One at a time is common practice, no source. Each is given half of what it may rise by alone: of
//! load 5 % (the middle of the 2–10 % of the ACSM position stand 2009, Med Sci Sports Exerc
//! 41(3):687–708 [S]), of sets two fifths. Held against the four weeks before, as the two alone.

use std::collections::BTreeSet;

use crate::advice::lifts::{LoadedWeek, before, hardest, is_large_step, lifts, rise};
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::DoubleJump,
    title: "more load and more sets of a lift in the same week",
    bound: Some(Bound {
        value: 5,
        unit: "%",
        meaning: "rise of what the heaviest set asks for, together with two fifths more sets, more than",
    }),
    source: "ACSM position stand 2009, Med Sci Sports Exerc 41(3):687–708 (2–10 % of load); one at a \
             time is common practice",
    area: Area::Block,
    on_sheet: true,
    find,
};

/// Sets rise together with the load from this share on, in percent.
const SETS_PERCENT: i64 = 40;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for athlete in 0..context.plan.athletes.len() {
        for (lift, weeks) in lifts(context, athlete) {
            for week in &weeks {
                let (Some(jump), Some(top)) = (jump(&weeks, week, bound), &week.top) else {
                    continue;
                };
                let message = format!(
                    "{lift} gets {} more load and goes from {} to {} sets in the same week",
                    words::percent(&jump.load),
                    jump.sets_before,
                    week.sets
                );
                let finding = Finding::exercise(athlete, top.session, top.exercise);
                let help = "add sets in one week and load in another";
                found.push(finding.message(message, lift).help(help).weighs(jump.load));
            }
        }
    }
    found
}

struct Jump {
    /// The rise of what the heaviest set asks for.
    load: Exact,
    sets_before: u32,
}

fn jump(weeks: &[LoadedWeek<'_>], week: &LoadedWeek<'_>, bound: &Exact) -> Option<Jump> {
    let top = week.top.as_ref()?;
    let was = hardest(before(weeks, week.week))?;
    let sets_before = before(weeks, week.week).map(|other| other.sets).max()?;
    let load = was.rise_to(top)?;
    let whole = |n: u32| Exact::whole(i64::from(n));
    let sets = rise(&whole(sets_before), &whole(week.sets))?;
    let both = load > bound / &Exact::whole(100) && sets >= Exact::ratio(SETS_PERCENT, 100);
    (both && is_large_step(was, top)).then_some(Jump { load, sets_before })
}

/// The weeks in which both rise: what is said there is not said again of the load alone.
pub fn weeks_of_both<'p>(context: &LintContext<'p>) -> BTreeSet<(usize, &'p str, u32)> {
    let bound = Exact::whole(LINT.bound.map_or(0, |bound| bound.value));
    let mut both = BTreeSet::new();
    for athlete in 0..context.plan.athletes.len() {
        for (lift, weeks) in lifts(context, athlete) {
            let of_both = weeks.iter().filter(|week| jump(&weeks, week, &bound).is_some());
            both.extend(of_both.map(|week| (athlete, lift, week.week)));
        }
    }
    both
}
