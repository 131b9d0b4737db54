//! A comparison as text with one line for each athlete.

use std::collections::BTreeSet;

use super::fold::ChangeKind;
use super::series::{arrow, tell};
use super::{AthleteChange, Comparison, ExerciseChange, Field, sums, words};
use crate::quantity::{Exact, Unit, fold_name};

/// Writes one line for each athlete of either side, including those for whom nothing changed.
#[must_use]
pub fn summary(comparison: &Comparison) -> String {
    let name = comparison.programme.either().cloned().unwrap_or_default();
    let mut text = match ChangeKind::of(&comparison.programme) {
        ChangeKind::Added => return format!("{name}: a new programme\n"),
        ChangeKind::Dropped => return format!("{name}: the programme is gone\n"),
        ChangeKind::Stays if comparison.is_empty() => return format!("{name}: nothing changed\n"),
        ChangeKind::Stays => format!("{name}\n"),
    };
    for name in &comparison.athletes_on_both_sides {
        let found = comparison.athletes.iter().find(|one| one.athlete.after.as_ref() == Some(name));
        let told = found.map_or_else(|| "nothing changed".to_owned(), one);
        text.push_str(&format!("{name}: {told}\n"));
    }
    for one in &comparison.athletes {
        let told = match ChangeKind::of(&one.athlete) {
            ChangeKind::Added => "new",
            ChangeKind::Dropped => "gone",
            ChangeKind::Stays => continue,
        };
        let name = one.athlete.either().map_or("", String::as_str);
        text.push_str(&format!("{name}: {told}\n"));
    }
    text
}

/// The changes of one athlete.
fn one(athlete: &AthleteChange) -> String {
    let mut parts: Vec<String> = athlete
        .changes
        .iter()
        .filter(|change| matches!(change.what, Field::Max | Field::TrainingMax | Field::Gym))
        .map(|change| {
            let label = super::text::label(change.what, change.of.as_deref());
            format!("{label} {}", arrow(&change.sides))
        })
        .collect();
    let others = athlete.changes.len() - parts.len();
    let unit = athlete.unit.either().copied().unwrap_or(Unit::Kg);
    for (told, tells) in KINDS {
        let all = athlete.sessions.iter().flat_map(|session| &session.exercises);
        let names: BTreeSet<String> = all
            .filter(|exercise| tells(exercise, unit))
            .filter_map(|exercise| exercise.exercise.either().map(|name| fold_name(name)))
            .collect();
        if !names.is_empty() {
            parts.push(format!("{told} {}", names.len()));
        }
    }
    let count = |what: fn(&super::SessionChange) -> bool| {
        athlete.sessions.iter().filter(|s| what(s)).count()
    };
    for (told, n) in [
        ("added", count(|session| session.day.before.is_none() || session.week.before.is_none())),
        ("dropped", count(|session| session.day.after.is_none() || session.week.after.is_none())),
        ("moved", count(|session| session.changes.iter().any(|c| c.what == Field::Date))),
        (
            "in another order",
            count(|session| session.changes.iter().any(|c| c.what == Field::Order)),
        ),
    ] {
        if n > 0 {
            parts.push(format!("{} {told}", words::count(n, "session")));
        }
    }
    let sums = athlete.block.as_ref().map(sums::of_block);
    parts.extend(sums.filter(|told| !told.is_empty()));
    if parts.is_empty() || others > 0 {
        parts.push("other changes".to_owned());
    }
    parts.join(", ")
}

/// A kind of change that is counted: its noun, and a test for it.
type CountedChange = (&'static str, fn(&ExerciseChange, Unit) -> bool);

const KINDS: [CountedChange; 8] = [
    ("exercises: added", |exercise, _| exercise.exercise.before.is_none()),
    ("dropped", |exercise, _| exercise.exercise.after.is_none()),
    ("swapped", |exercise, _| {
        exercise.exercise.both().is_some()
            && exercise.changes.iter().any(|c| c.what == Field::Exercise)
    }),
    ("heavier", |exercise, unit| load(exercise, unit).is_some_and(|by| by > Exact::zero())),
    ("lighter", |exercise, unit| load(exercise, unit).is_some_and(|by| by.is_negative())),
    ("other sets or repetitions", |exercise, _| has(exercise, Field::Sets)),
    ("other rest", |exercise, _| has(exercise, Field::Rest)),
    ("other rules", |exercise, _| has(exercise, Field::Rule)),
];

fn has(exercise: &ExerciseChange, what: Field) -> bool {
    exercise.changes.iter().any(|change| change.what == what)
}

/// The greatest difference of a load, up or down.
fn load(exercise: &ExerciseChange, unit: Unit) -> Option<Exact> {
    let change = exercise.changes.iter().find(|change| change.what == Field::Load)?;
    let (least, most) = tell(Field::Load, &[(1, &change.sides)], unit).span?;
    Some(if most.abs() >= least.abs() { most } else { least })
}
