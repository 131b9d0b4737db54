//! Pushing against pulling in a week.
//!
//! About as much pulling as pushing is common practice, no source. Hard sets count, horizontal and
//! vertical together; two fifths as many on one side as on the other are let pass, and so are weeks
//! with a few sets only.

use crate::advice::facts::is;
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext, is_on_interval};
use crate::diagnostics::Code;
use crate::plan::{PlannedExercise, Session};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::PushPullBalance,
    title: "balance of pushing and pulling sets in a week",
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

/// Fewer sets on both sides together have no balance: common practice, no source.
const LEAST_SETS: i64 = 6;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let pushes = |e: &PlannedExercise| is(e, &["horizontal push", "vertical push"]);
    let pulls = |e: &PlannedExercise| is(e, &["horizontal pull", "vertical pull"]);
    balance(context, bound, [("push", &pushes), ("pull", &pulls)])
}

/// One side of a balance: its word, and what belongs to it.
pub type BalanceSide<'a> = (&'a str, &'a dyn Fn(&PlannedExercise) -> bool);

/// Weeks in which one side has less than a share of the other.
pub fn balance(
    context: &LintContext<'_>,
    bound: &Exact,
    sides: [BalanceSide<'_>; 2],
) -> Vec<Finding> {
    let mut found = Vec::new();
    let [(one_word, one), (other_word, other)] = sides;
    for (athlete, week, sessions) in context.full_weeks() {
        let (a, b) = (sets(&sessions, one), sets(&sessions, other));
        let (less, more) = (a.min(b), a.max(b));
        let wanted = &Exact::whole(more) * &(bound / &Exact::whole(100));
        if a + b < LEAST_SETS || Exact::whole(less) >= wanted {
            continue;
        }
        let low = if a < b { one_word } else { other_word };
        let message = format!("{a} hard sets {one_word} and {b} {other_word} in the week");
        let finding = Finding::block(athlete, vec![week.week], context.plan.line.clone());
        let help = format!("add sets that {low}, or take some away from the other side");
        let weight = &wanted - &Exact::whole(less);
        found.push(finding.message(message.clone(), message).help(help).weighs(weight));
    }
    found
}

fn sets(sessions: &[&Session], holds: &dyn Fn(&PlannedExercise) -> bool) -> i64 {
    let of_session = |session: &Session| -> usize {
        let counted = session.exercises.iter().filter(|e| holds(e) && !is_on_interval(session, e));
        counted.map(|e| e.working().count()).sum()
    };
    let sets: usize = sessions.iter().map(|session| of_session(session)).sum();
    i64::try_from(sets).unwrap_or(i64::MAX)
}
