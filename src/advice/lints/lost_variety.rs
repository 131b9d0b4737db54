//! Reports one exercise that replaces several.
//!
//! A programme names different exercises, and an athlete's replacements make one of them: the same
//! lift three times a week may be meant, or nobody saw it. That variety is worth keeping is common
//! practice, no source.

use std::collections::{BTreeMap, BTreeSet};

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::{PlannedExercise, Session};
use crate::quantity::{Exact, fold_name};

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::LostVariety,
    title: "one exercise that replaces several different ones of the programme",
    bound: Some(Bound { value: 3, unit: "times", meaning: "times in the week, from" }),
    source: "common practice, no source",
    area: Area::Week,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut weeks: BTreeMap<(usize, u32, &str), Vec<PlannedLine<'_>>> = BTreeMap::new();
    for (athlete, _, session) in context.sessions() {
        for exercise in &session.exercises {
            let key = (athlete, session.week, exercise.name.as_str());
            weeks.entry(key).or_default().push((session, exercise));
        }
    }
    let all = weeks.into_iter();
    all.filter_map(|((athlete, ..), lines)| finding(athlete, &lines, bound)).collect()
}

/// A line of the programme, in its session.
type PlannedLine<'p> = (&'p Session, &'p PlannedExercise);

fn finding(athlete: usize, lines: &[PlannedLine<'_>], bound: &Exact) -> Option<Finding> {
    let times = Exact::whole(i64::try_from(lines.len()).unwrap_or(i64::MAX));
    if times < *bound {
        return None;
    }
    let mut seen = BTreeSet::new();
    let named: Vec<&str> =
        lines.iter().map(|(_, e)| written(e)).filter(|name| seen.insert(fold_name(name))).collect();
    if named.len() < 2 {
        return None;
    }
    let (session, exercise) = lines.iter().find(|(_, e)| e.replaces.is_some())?;
    let message = format!(
        "{} is done {} times a week, in place of {}",
        exercise.name,
        lines.len(),
        named.join(", ")
    );
    let mut finding = Finding::exercise(athlete, session, exercise);
    finding.subject.clone_from(&exercise.name);
    for (_, other) in lines.iter().filter(|(_, other)| other.line != exercise.line) {
        finding = finding.with(other, "the same here");
    }
    let help = "replace one of them with another exercise, if the gym has the equipment";
    Some(finding.message(message, exercise.name.clone()).help(help).weighs(times))
}

/// What the programme names.
fn written(exercise: &PlannedExercise) -> &str {
    exercise.replaces.as_ref().map_or(exercise.name.as_str(), |replaced| replaced.name.as_str())
}
