//! Few hard sets a week for a large muscle.
//!
//! At least 4 weekly sets a muscle are the least worth planning where time is short (Iversen et al.
//! 2021, Sports Med 51:2079–2095 [S]); growth rises by 0.37 % with every weekly set (Schoenfeld et
//! al. 2017, J Sports Sci 35(11):1073–1082 [S]). One set below that is let pass. Direct and indirect
//! sets are shown apart; together they count by their shares (Pelland et al. 2024, preprint:
//! fractional counting is the best supported [S]). Only what holds in most weeks is said. Small muscles, and muscles that nothing trains
//! directly, are left alone: that is a decision, not an oversight.

use std::collections::BTreeMap;

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::quantity::Exact;
use crate::tally::MuscleTally;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::FewWeeklySets,
    title: "few hard sets a week for a large muscle, direct and indirect apart",
    bound: Some(Bound {
        value: 3,
        unit: "sets",
        meaning: "hard sets a muscle and week, indirect ones by their share, fewer than",
    }),
    source: "Iversen et al. 2021, Sports Med 51:2079–2095 (at least 4; one less is let pass)",
    area: Area::Week,
    on_sheet: false,
    find,
};

/// The muscles that a programme is usually built around: common practice, no source.
const LARGE: &[&str] =
    &["quadriceps", "hamstrings", "glutes", "chest", "lats", "upper back", "front delts"];

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut weeks: BTreeMap<usize, usize> = BTreeMap::new();
    for (athlete, week, _) in context.full_weeks() {
        *weeks.entry(athlete).or_default() += 1;
        let large = week.muscles.iter().filter(|m| LARGE.contains(&m.muscle.as_str()));
        for muscle in large.filter(|m| m.sets.direct_sets > 0) {
            let missing = bound - &muscle.sets.fractional_sets;
            if missing > Exact::zero() {
                let finding = about(context, athlete, week.week, muscle);
                let message = format!("few hard sets in the week: {}", finding.short);
                let help =
                    "add sets or an exercise for this muscle, or spread the work over more days";
                let short = finding.short.clone();
                found.push(finding.message(message, short).help(help).weighs(missing));
            }
        }
    }
    // A single week, such as that of a test, is none; most of them are.
    let mut short: BTreeMap<(usize, String), usize> = BTreeMap::new();
    for finding in &found {
        *short.entry((finding.athlete, finding.subject.clone())).or_default() += 1;
    }
    found.retain(|finding| {
        let own = short.get(&(finding.athlete, finding.subject.clone())).copied().unwrap_or(0);
        2 * own > weeks.get(&finding.athlete).copied().unwrap_or(0)
    });
    found
}

/// A finding about a muscle in a week; its few words give the sets.
pub fn about(
    context: &LintContext<'_>,
    athlete: usize,
    week: u32,
    muscle: &MuscleTally,
) -> Finding {
    let sets = &muscle.sets;
    let direct = words::count(u64::from(sets.direct_sets), "direct set", "direct sets");
    let short = match sets.indirect_sets {
        0 => format!("{} {direct}", muscle.muscle),
        n => format!("{} {direct} and {n} indirect", muscle.muscle),
    };
    Finding {
        muscle: Some(muscle.muscle.clone()),
        subject: muscle.muscle.clone(),
        short,
        ..Finding::block(athlete, vec![week], context.plan.line.clone())
    }
}
