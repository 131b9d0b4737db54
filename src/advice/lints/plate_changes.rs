//! Superset partners that share one bar with different plates.
//!
//! Each round the plates go off and on again, and the rest goes with them: common practice, no
//! source. The gym's list says how many bars of a mass there are; where it lists the bar twice,
//! each partner has its own.

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{AthletePlan, Group, GroupKind, Implement, PlannedExercise, PlannedSet, Session};
use crate::quantity::{Exact, Mass};

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::PlateChanges,
    title: "plate changes between partners that share one bar",
    bound: Some(Bound {
        value: 1,
        unit: "plates",
        meaning: "plates a side to take off or put on between the two, more than",
    }),
    source: "common practice, no source",
    area: Area::Session,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (index, athlete, session) in context.sessions() {
        for group in &session.groups {
            found.extend(finding(index, athlete, session, group, bound));
        }
    }
    found
}

fn finding(
    index: usize,
    athlete: &AthletePlan,
    session: &Session,
    group: &Group,
    bound: &Exact,
) -> Option<Finding> {
    let alternates = !matches!(group.how, GroupKind::Single | GroupKind::RoundsIn { .. });
    let members = session.exercises.iter().filter(|e| e.order.letter == group.letter);
    let barred: Vec<(&PlannedExercise, LoadedBar<'_>)> = members
        .filter_map(|exercise| Some((exercise, exercise.working().find_map(bar)?)))
        .filter(|_| alternates)
        .collect();
    for (place, (first, own)) in barred.iter().enumerate() {
        let partners = barred.iter().skip(place + 1);
        for (second, other) in partners.filter(|(_, other)| own.is_same(other)) {
            let listed = athlete.gym_bars.iter().filter(|bar| own.is_listed(bar)).count();
            let moved = i64::try_from(moved(own.plates, other.plates)).unwrap_or(i64::MAX);
            if listed > 1 || Exact::whole(moved) <= *bound {
                continue;
            }
            let pair = format!("{} and {}", first.name, second.name);
            let sides = words::count(u64::try_from(moved).unwrap_or(0), "plate", "plates");
            let message = format!(
                "{pair} share one {} bar: {sides} to change on each side every time",
                own.mass.show(athlete.unit)
            );
            let help =
                "use the same load for both, another implement for one, or do one after the other";
            let finding = Finding::exercise(index, session, second).with(first, "the same bar");
            let finding = finding.message(message, pair).help(help);
            return Some(finding.weighs(Exact::whole(moved)));
        }
    }
    None
}

/// A bar with the plates of one side, innermost first.
struct LoadedBar<'p> {
    mass: Mass,
    name: Option<&'p str>,
    plates: &'p [Mass],
}

impl LoadedBar<'_> {
    fn is_same(&self, other: &LoadedBar<'_>) -> bool {
        (self.mass, self.name) == (other.mass, other.name)
    }

    fn is_listed(&self, bar: &crate::plan::GymBar) -> bool {
        (self.mass, self.name) == (bar.mass, bar.name.as_deref())
    }
}

fn bar(set: &PlannedSet) -> Option<LoadedBar<'_>> {
    match &set.load.as_ref()?.how {
        Implement::Bar { bar, name, per_side, .. } => {
            Some(LoadedBar { mass: *bar, name: name.as_deref(), plates: per_side })
        }
        _ => None,
    }
}

/// How many plates of a side come off or go on, from one load to another.
fn moved(from: &[Mass], to: &[Mass]) -> usize {
    let same = from.iter().zip(to).take_while(|(a, b)| a == b).count();
    from.len() + to.len() - 2 * same
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plates_that_stay_are_not_moved() {
        let kg = |list: &[i64]| list.iter().map(|n| Mass::from_kg(*n)).collect::<Vec<_>>();
        assert_eq!(moved(&kg(&[20, 5]), &kg(&[20, 5])), 0);
        assert_eq!(moved(&kg(&[20, 5]), &kg(&[20])), 1);
        assert_eq!(moved(&kg(&[20, 5]), &kg(&[10, 5])), 4);
    }
}
