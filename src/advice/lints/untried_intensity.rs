//! An intensity that is first met in the last week of a lift, the week of a test.
//!
//! That a test should be led up to is common practice, no source; the handbook's ramps go up by 5
//! points of the 1RM a week (ch. 21 [S]), and three such steps are let pass. Only lifts whose 1RM is known,
//! done in several weeks, and heavy in the end.

use std::collections::BTreeMap;

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{PlannedExercise, Session};
use crate::quantity::Exact;

use super::short_rest::STRENGTH_PERCENT;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::UntriedIntensity,
    title: "an intensity that never occurs before the week of the test",
    bound: Some(Bound {
        value: 15,
        unit: "%",
        meaning: "points of the 1RM above the heaviest set before it, more than",
    }),
    source: "common practice; steps from Haff & Triplett 2016, Essentials of Strength Training and \
             Conditioning, ch. 21",
    area: Area::Block,
    on_sheet: false,
    find,
};

/// The heaviest set of a lift in a week.
struct HeaviestSet<'p> {
    share: &'p Exact,
    session: &'p Session,
    exercise: &'p PlannedExercise,
}

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut lifts: BTreeMap<(usize, &str), BTreeMap<u32, HeaviestSet<'_>>> = BTreeMap::new();
    for (athlete, _, session) in context.sessions() {
        for exercise in &session.exercises {
            let shares = exercise.working().filter_map(|set| set.share_of_1rm.as_ref());
            let Some(share) = shares.max() else { continue };
            let weeks = lifts.entry((athlete, &exercise.name)).or_default();
            let heaviest = HeaviestSet { share, session, exercise };
            match weeks.get(&session.week) {
                Some(other) if *other.share >= *share => {}
                _ => {
                    weeks.insert(session.week, heaviest);
                }
            }
        }
    }
    let all = lifts.into_iter();
    all.filter_map(|((athlete, _), weeks)| finding(athlete, weeks, bound)).collect()
}

fn finding(
    athlete: usize,
    mut weeks: BTreeMap<u32, HeaviestSet<'_>>,
    bound: &Exact,
) -> Option<Finding> {
    let (_, last) = weeks.pop_last()?;
    if weeks.len() < 2 || *last.share < Exact::ratio(STRENGTH_PERCENT, 100) {
        return None;
    }
    let before = weeks.values().map(|week| week.share).max()?;
    let over = &(last.share - before) - &(bound / &Exact::whole(100));
    if over <= Exact::zero() {
        return None;
    }
    let message = format!(
        "{} goes up to {} in its last week, but the heaviest set before it is {}",
        last.exercise.name,
        words::percent(last.share),
        words::percent(before)
    );
    let finding = Finding::exercise(athlete, last.session, last.exercise);
    let help = "build up to it with a heavy single or triple one or two weeks before";
    Some(finding.message(message, last.exercise.name.clone()).help(help).weighs(over))
}
