//! Two days of the week on one weekday.
//!
//! Many athletes train twice a day, so it may be intended, but a weekday copied from the day above is a
//! common mistake. Common practice, no source.

use std::collections::BTreeMap;

use crate::advice::lint::{Area, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::{AthletePlan, Session};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::SameWeekday,
    title: "two days of a week on one weekday",
    bound: None,
    source: "common practice, no source",
    area: Area::Week,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, _: &Exact) -> Vec<Finding> {
    let athletes = context.plan.athletes.iter().enumerate();
    athletes.flat_map(|(index, athlete)| of_athlete(index, athlete)).collect()
}

fn of_athlete(index: usize, athlete: &AthletePlan) -> Vec<Finding> {
    let mut first: BTreeMap<(u32, i8), &Session> = BTreeMap::new();
    let mut found = Vec::new();
    for session in &athlete.sessions {
        let Some(weekday) = session.weekday else { continue };
        let at = (session.week, weekday.to_monday_one_offset());
        let Some(other) = first.get(&at) else {
            first.insert(at, session);
            continue;
        };
        let message = format!("{} and {} are both on {weekday:?}", other.day, session.day);
        let mut finding =
            Finding::session(index, session).message(message, "two days on one weekday");
        finding.others.push((other.line.clone(), "the other day".to_owned()));
        found.push(finding.help("check the weekdays; if both are right, allow it"));
    }
    found
}
