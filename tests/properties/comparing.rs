//! Comparing: a plan with itself has no changes, the reverse comparison is the mirror, spelling
//! makes no difference, and nothing is reported that does not apply to an athlete and a week.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use serde_json::Value;
use setwright::compare::{
    Change, ChangeKind, Comparison, ExerciseChange, FactNumbers, Field, Sides, compare, digest,
    fold, summary, text,
};
use setwright::diagnostics::has_errors;
use setwright::plan::Plan;
use setwright::quantity::{Exact, Mass, Unit};
use setwright::source::FileId;
use setwright::syntax::{format, parse};

use super::generate::Made;
use super::support::{cases, compiled, streams};

fn plan_of(text: &str) -> Option<Plan> {
    let compiled = compiled(text);
    if has_errors(&compiled.diagnostics) { None } else { compiled.plan }
}

fn compared(old: &Plan, new: &Plan) -> Comparison {
    compare(&Sides { before: Some(old), after: Some(new) })
}

/// Both sides turned round; lists in an order that does not depend on the side.
fn settled(value: Value, turn: bool) -> Value {
    match value {
        Value::Object(fields) => {
            let named = fields.into_iter().map(|(name, value)| {
                let name = match name.as_str() {
                    "before" if turn => "after".to_owned(),
                    "after" if turn => "before".to_owned(),
                    _ => name,
                };
                (name, settled(value, turn))
            });
            Value::Object(named.collect())
        }
        Value::Array(items) => {
            let mut items: Vec<Value> = items.into_iter().map(|v| settled(v, turn)).collect();
            items.sort_by_key(ToString::to_string);
            Value::Array(items)
        }
        other => other,
    }
}

fn json(comparison: &Comparison, turn: bool) -> Value {
    settled(serde_json::to_value(comparison).unwrap(), turn)
}

/// One change of one athlete in one week: the athlete, the week, where, what, and whether it is new
/// or gone.
type Claim = (usize, u32, (usize, Option<String>), (Field, Option<String>), ChangeKind);

/// What each change says, from the list in which nothing is folded.
fn facts(comparison: &Comparison) -> BTreeMap<Claim, Vec<&Change>> {
    let mut all: BTreeMap<Claim, Vec<&Change>> = BTreeMap::new();
    for one in &comparison.athletes {
        let Some(name) = one.athlete.both().map(|(_, name)| name) else { continue };
        let who = comparison.athletes_on_both_sides.iter().position(|other| other == name).unwrap();
        for session in &one.sessions {
            let Some((_, week)) = session.week.both() else { continue };
            let is_day = |day: &Sides<String>| {
                if day.both().is_some() && session.day.both().is_some() {
                    *day == session.day
                } else {
                    day.either() == session.day.either()
                }
            };
            let day = comparison.days.iter().position(is_day).unwrap();
            let mut changes: Vec<(Option<String>, &Change)> =
                session.changes.iter().map(|change| (None, change)).collect();
            for exercise in &session.exercises {
                let told = exercise.changes.iter().filter(|one| !follows(one, exercise));
                changes.extend(told.map(|change| (Some(titled(exercise)), change)));
            }
            for (exercise, change) in changes {
                let kind = (change.what, change.of.clone());
                let claim = (who, *week, (day, exercise), kind, ChangeKind::of(&change.sides));
                all.entry(claim).or_default().push(change);
            }
        }
    }
    all
}

/// A ramp that only follows its load, which is told.
fn follows(change: &Change, exercise: &ExerciseChange) -> bool {
    let load = exercise.changes.iter().any(|other| other.what == Field::Load);
    change.what == Field::WarmUp && change.sides.both().is_some() && load
}

fn titled(exercise: &ExerciseChange) -> String {
    let name = |name: &Option<String>| name.as_deref().map(setwright::quantity::fold_name);
    let (old, new) = (name(&exercise.exercise.before), name(&exercise.exercise.after));
    let shown = exercise.exercise.either().unwrap();
    let instead = match (&old, &new) {
        (Some(old_name), Some(new_name)) if old_name != new_name => {
            format!(", instead of {}", exercise.exercise.before.as_ref().unwrap())
        }
        _ => String::new(),
    };
    format!("{} {shown}{instead}", exercise.order.either().unwrap())
}

/// The folded lines claim of each athlete and week exactly what changed there, and no range of theirs
/// is wider than the changes in it or goes both ways where each goes one.
fn claims_are_facts(comparison: &Comparison) -> Result<(), TestCaseError> {
    let facts = facts(comparison);
    let mut claimed: BTreeSet<Claim> = BTreeSet::new();
    for line in fold(comparison) {
        let exercise = line.place.exercise.as_ref().map(|t| format!("{} {}", t.order, t.name));
        let mut steps: Vec<Exact> = Vec::new();
        for who in &line.athletes {
            let scale = comparison.athletes.iter().find(|one| {
                one.athlete.after.as_ref() == comparison.athletes_on_both_sides.get(*who)
            });
            let unit = scale.and_then(|one| one.unit.after).unwrap();
            for week in &line.weeks {
                let place = (line.place.day, exercise.clone());
                let claim = (*who, *week, place, (line.what, line.of.clone()), line.fate);
                let found = facts.get(&claim);
                prop_assert!(found.is_some(), "claimed, but not so: {:?}\n{:?}", claim, line);
                let of_one = found.into_iter().flatten().flat_map(|c| steps_of(c, unit));
                let of_one: Vec<Exact> = of_one.collect();
                prop_assert!(
                    !goes_both_ways(line.said.span.as_ref())
                        || goes_both_ways(ends(&of_one).as_ref()),
                    "{:?} goes one way only in {:?}",
                    claim,
                    line
                );
                steps.extend(of_one);
                claimed.insert(claim);
            }
        }
        if let Some((least, most)) = &line.said.span {
            prop_assert_eq!(Some((least.clone(), most.clone())), ends(&steps), "{:?}", line);
        }
    }
    let untold: Vec<&Claim> = facts.keys().filter(|claim| !claimed.contains(claim)).collect();
    prop_assert!(untold.is_empty(), "not told: {:?}", untold);
    Ok(())
}

/// The least and the most.
fn ends(steps: &[Exact]) -> Option<(Exact, Exact)> {
    Some((steps.iter().min()?.clone(), steps.iter().max()?.clone()))
}

fn goes_both_ways(span: Option<&(Exact, Exact)>) -> bool {
    span.is_some_and(|(least, most)| least.is_negative() && *most > Exact::zero())
}

/// By how much the numbers of a change differ.
fn steps_of(change: &Change, unit: Unit) -> Vec<Exact> {
    let Some((before, after)) = change.sides.both() else { return Vec::new() };
    match (&before.numbers, &after.numbers) {
        (Some(FactNumbers::Kg(a)), Some(FactNumbers::Kg(b))) => {
            let kg = |mass: &Mass| &Exact::from_mass(*mass) / &Exact::whole(unit.in_units());
            a.iter().zip(b).map(|(a, b)| &kg(b) - &kg(a)).collect()
        }
        (Some(FactNumbers::Percent(a)), Some(FactNumbers::Percent(b))) => {
            a.iter().zip(b).map(|(a, b)| &Exact::from(*b) - &Exact::from(*a)).collect()
        }
        _ => Vec::new(),
    }
}

proptest! {
    #![proptest_config(proptest::test_runner::Config { max_shrink_iters: 100, ..cases(40) })]

    #[test]
    fn a_plan_does_not_differ_from_itself(stream in streams(), hand in streams()) {
        let made = Made::new(&stream);
        let tidy = made.text();
        let Some(plan) = plan_of(&tidy) else { return Ok(()) };
        prop_assert!(compared(&plan, &plan).is_empty(), "{}", tidy);
        // However hastily it is written, and put into the standard format.
        let (hasty, _) = made.loose(&hand);
        let formatted = format(&parse(&hasty, FileId(0)).0, &hasty).unwrap();
        for other in [hasty, formatted] {
            let Some(other_plan) = plan_of(&other) else { continue };
            let found = compared(&plan, &other_plan);
            prop_assert!(found.is_empty(), "{}\nagainst\n{}\n{}", tidy, other, text(&found, true));
            prop_assert_eq!(digest(&plan), digest(&other_plan));
        }
    }

    /// A few choices of the same programme made otherwise.
    #[test]
    fn the_other_way_round_is_the_mirror(
        stream in streams(),
        edits in proptest::collection::vec((any::<prop::sample::Index>(), any::<u16>()), 1..6),
    ) {
        let mut other = stream.clone();
        for (at, choice) in edits {
            if !other.is_empty() {
                let at = at.index(other.len());
                other[at] = choice;
            }
        }
        let (a, b) = (Made::new(&stream).text(), Made::new(&other).text());
        let (Some(old), Some(new)) = (plan_of(&a), plan_of(&b)) else { return Ok(()) };
        let (there, back) = (compared(&old, &new), compared(&new, &old));
        prop_assert_eq!(json(&there, false), json(&back, true), "{}\nagainst\n{}", a, b);
        // Whatever changed can be told.
        for one in [&there, &back] {
            claims_are_facts(one)?;
            prop_assert_eq!(text(one, false).contains("nothing changed"), one.is_empty());
            prop_assert!(summary(one).lines().count() > 0);
        }
    }
}

/// The generator has few athletes: many who differ, with a week taken out and a max raised.
#[test]
fn athletes_who_differ_are_never_claimed_to_be_the_same() {
    let text = |weeks: u32, max: &str, row: &str| {
        let squad = [("Ansa", max), ("Bero", "130 kg"), ("Cleo", "75 kg"), ("Dag", "152.5 kg")];
        let athlete = |(name, max): &(&str, &str)| {
            format!("athlete {name} Vale\n  max Back squat: {max}\n  max Bench press: {max}\n\n")
        };
        let athletes = squad.iter().map(athlete).collect::<Vec<_>>().concat();
        format!(
            "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 8, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2\n\n{athletes}programme Small\n  weeks: {weeks}\n\nphase Base: weeks 1-{}\nphase Deload: week {}, sets -40%, load -10%\nphase Build: weeks {}-{weeks}\n\nday One\n  A Back squat: 4 x 5 @ 70% +2.5%/week\n  B Bench press: 4 x 5 @ 75% +2%/week\n  C {row}\n",
            weeks - 5,
            weeks - 4,
            weeks - 3,
        )
    };
    let sides = [
        text(8, "90 kg", "Bent-over row: 3 x 8 @ 40 kg"),
        text(7, "90 kg", "Bent-over row: 3 x 8 @ 40 kg"),
        text(7, "97.5 kg", "Bent-over row: 3 x 8 @ 40 kg"),
        text(8, "92.5 kg", "Good morning: 3 x 10 @ 40 kg"),
        text(6, "82.5 kg", "Bent-over row: 4 x AMRAP @ 40 kg"),
    ];
    let plans: Vec<Plan> = sides.iter().map(|text| plan_of(text).expect(text)).collect();
    for old in &plans {
        for new in &plans {
            claims_are_facts(&compared(old, new)).unwrap();
        }
    }
}
