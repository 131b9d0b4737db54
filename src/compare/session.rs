//! The changes in one session.

use crate::plan::{Group, GroupKind, Order, PlannedExercise, Session};
use crate::quantity::{Duration, Unit, fold_name};

use super::facts::{Fact, differences, of_exercise, of_line, of_session};
use super::pairing::{Placed, exercises};
use super::prescription::{line, states_load};
use super::{Change, ExerciseChange, FactValue, Field, SessionChange, Sides};

/// A session with its context.
#[derive(Clone, Copy, Debug)]
pub struct SessionSide<'p> {
    pub session: &'p Session,
    pub unit: Unit,
    /// Whether it is the last week, in which no rule is printed.
    pub last_week: bool,
}

impl<'p> SessionSide<'p> {
    pub fn new(session: &'p Session, unit: Unit, last_week: Option<u32>) -> Self {
        Self { session, unit, last_week: last_week == Some(session.week) }
    }
}

/// The changes in a session; `None` if there are none.
pub fn change(sides: &Sides<SessionSide<'_>>) -> Option<SessionChange> {
    let mut found = SessionChange {
        week: Sides::of(sides, |sitting| sitting.session.week),
        day: Sides::of(sides, |sitting| sitting.session.day.clone()),
        changes: Vec::new(),
        exercises: Vec::new(),
    };
    let Some((old, new)) = sides.both() else {
        let listed = |sitting: &SessionSide| FactValue::plain(contents(sitting.session));
        let sides = Sides::of(sides, listed);
        found.changes.push(Change { what: Field::Session, of: None, sides });
        return Some(found);
    };
    // Rules are not printed in a deload and in the last week, so their absence there is not a
    // change.
    let rests = |sitting: &SessionSide| sitting.session.deload || sitting.last_week;
    let with_rules = !rests(old) && !rests(new);
    let paired = exercises(old.session, new.session);
    found.changes = differences(&of_session(old.session), &of_session(new.session));
    if fold_name(&old.session.day) != fold_name(&new.session.day) {
        let name = |sitting: &SessionSide| FactValue::plain(sitting.session.day.clone());
        found.changes.push(Change { what: Field::Day, of: None, sides: Sides::of(sides, name) });
    }
    found.changes.extend(order(&paired));
    found.changes.extend(groups(&paired, &old.session.groups, &new.session.groups));
    let units = Sides { before: Some(old.unit), after: Some(new.unit) };
    let changed = paired.iter().filter_map(|pair| exercise(pair, &units, with_rules));
    found.exercises = changed.collect();
    (!found.changes.is_empty() || !found.exercises.is_empty()).then_some(found)
}

/// The exercises of a session: `A Front squat, B Bench press`.
fn contents(session: &Session) -> String {
    session.exercises.iter().map(titled).collect::<Vec<_>>().join(", ")
}

fn titled(exercise: &PlannedExercise) -> String {
    format!("{} {}", exercise.order, exercise.name)
}

/// The changes in one exercise.
fn exercise(
    pair: &Sides<Placed<'_>>,
    units: &Sides<Unit>,
    with_rules: bool,
) -> Option<ExerciseChange> {
    let presence = |pair: &Sides<Placed<'_>>| Change {
        what: Field::Exercise,
        of: None,
        sides: Sides::of(pair, |(_, exercise)| FactValue::plain(line(exercise))),
    };
    let mut changes = Vec::new();
    match pair.both() {
        None => changes.push(presence(pair)),
        Some(((_, old), (_, new))) => {
            let (Some(a), Some(b)) = (units.before, units.after) else { return None };
            let (mut before, mut after) =
                (of_line(old, a, with_rules), of_line(new, b, with_rules));
            if fold_name(&old.name) == fold_name(&new.name) {
                before.extend(of_exercise(old));
                after.extend(of_exercise(new));
            } else {
                changes.push(presence(pair));
                let told = states_load(old) || states_load(new);
                beside(&mut before, told);
                beside(&mut after, told);
            }
            changes.extend(differences(&before, &after));
        }
    }
    (!changes.is_empty()).then(|| ExerciseChange {
        order: Sides::of(pair, |(_, exercise)| exercise.order),
        exercise: Sides::of(pair, |(_, exercise)| exercise.name.clone()),
        changes,
    })
}

/// Selects the facts that are shown next to both prescriptions when an exercise is replaced: those
/// that the prescriptions do not contain, which may include loads. Loads of two different exercises
/// are not compared as numbers; each is shown as it is.
fn beside(facts: &mut Vec<Fact>, loads_told: bool) {
    facts.retain(|fact| match fact.what {
        Field::Rule | Field::Note | Field::Drops => true,
        Field::Load => !loads_told,
        _ => false,
    });
    for fact in facts.iter_mut().filter(|fact| fact.what == Field::Load) {
        fact.value.numbers = None;
    }
}

/// The change of the order of the exercises on both sides, or of their order letters. It extends
/// from the first to the last exercise that does not keep its place.
fn order(pairs: &[Sides<Placed<'_>>]) -> Option<Change> {
    let stay: Vec<Stay<'_>> = pairs.iter().filter_map(Sides::both).collect();
    let sorted = |key: &dyn Fn(&Placed<'_>) -> (Option<Order>, usize)| {
        let (mut before, mut after) = (stay.clone(), stay.clone());
        before.sort_by_key(|(old, _)| key(old));
        after.sort_by_key(|(_, new)| key(new));
        (before, after)
    };
    let by_place = sorted(&|(at, _)| (None, *at));
    let by_letter = sorted(&|(at, exercise)| (Some(exercise.order), *at));
    let (before, after) =
        [by_place, by_letter].into_iter().find(|(a, b)| places(a, b).is_some())?;
    let (first, last) = places(&before, &after)?;
    let text = |list: &[Stay<'_>], pick: fn(&Stay<'_>) -> String| {
        let part = list.get(first..=last).unwrap_or_default();
        FactValue::plain(part.iter().map(pick).collect::<Vec<_>>().join(", "))
    };
    let sides = Sides {
        before: Some(text(&before, |(old, _)| titled(old.1))),
        after: Some(text(&after, |(_, new)| titled(new.1))),
    };
    Some(Change { what: Field::Order, of: None, sides })
}

/// An exercise that is on both sides.
type Stay<'p> = (&'p Placed<'p>, &'p Placed<'p>);

/// The first and the last index at which the exercises differ.
fn places(before: &[Stay<'_>], after: &[Stay<'_>]) -> Option<(usize, usize)> {
    let mut moved = before.iter().zip(after).enumerate().filter(|(_, (a, b))| a.0.0 != b.0.0);
    let (first, _) = moved.next()?;
    Some((first, moved.next_back().map_or(first, |(last, _)| last)))
}

/// Selects one side of a pair of exercises.
type Pick = for<'p> fn(&(&'p PlannedExercise, &'p PlannedExercise)) -> &'p PlannedExercise;

/// Changes in how exercises on both sides are done together.
fn groups(pairs: &[Sides<Placed<'_>>], old: &[Group], new: &[Group]) -> Vec<Change> {
    let stay: Vec<(&PlannedExercise, &PlannedExercise)> =
        pairs.iter().filter_map(Sides::both).map(|((_, old), (_, new))| (*old, *new)).collect();
    let letters = |pick: fn(&(&PlannedExercise, &PlannedExercise)) -> Order| {
        let mut letters: Vec<char> = stay.iter().map(|pair| pick(pair).letter).collect();
        letters.sort_unstable();
        letters.dedup();
        let members = |letter: char| -> Vec<usize> {
            (0..stay.len())
                .filter(|at| stay.get(*at).is_some_and(|pair| pick(pair).letter == letter))
                .collect()
        };
        letters.into_iter().map(|letter| (letter, members(letter))).collect::<Vec<_>>()
    };
    let (was, is) = (letters(|(old, _)| old.order), letters(|(_, new)| new.order));
    let how = |groups: &[Group], letter: char, members: &[Option<Duration>]| {
        groups.iter().find(|group| group.letter == letter).map(|group| told(group, members))
    };
    let rests = |members: &[usize], pick: Pick| -> Vec<Option<Duration>> {
        let stay = members.iter().filter_map(|at| stay.get(*at));
        stay.filter_map(|pair| pick(pair).working().last()).map(|set| set.rest).collect()
    };
    let (old_of, new_of): (Pick, Pick) = (|pair| pair.0, |pair| pair.1);
    let mut all: Vec<Change> = Vec::new();
    let tell = |members: &[usize], before: Option<String>, after: Option<String>| {
        let named = |how: Option<String>, pick: Pick| {
            let mut all: Vec<_> = members.iter().filter_map(|at| stay.get(*at)).map(pick).collect();
            all.sort_by_key(|exercise| exercise.order);
            let names: Vec<String> = all.into_iter().map(titled).collect();
            how.map(|how| FactValue::plain(format!("{} {how}", names.join(" + "))))
        };
        let sides = Sides { before: named(before, old_of), after: named(after, new_of) };
        Change { what: Field::Group, of: None, sides }
    };
    for (letter, members) in &was {
        let kept = is.iter().find(|(_, others)| others == members);
        let before = how(old, *letter, &rests(members, old_of)).unwrap_or_default();
        match kept {
            Some((now, _)) => {
                let after = how(new, *now, &rests(members, new_of)).unwrap_or_default();
                if before != after {
                    all.push(tell(members, Some(before), Some(after)));
                }
            }
            None if members.len() > 1 => all.push(tell(members, Some(before), None)),
            None => {}
        }
    }
    for (letter, members) in &is {
        if members.len() > 1 && !was.iter().any(|(_, others)| others == members) {
            all.push(tell(members, None, how(new, *letter, &rests(members, new_of))));
        }
    }
    all
}

/// A group as text: `alternated`, `circuit 3 rounds, rest 90 s`. The number of its members does not
/// matter, and a rest that is written at a member is left out.
fn told(group: &Group, members: &[Option<Duration>]) -> String {
    let how = match &group.how {
        GroupKind::Single | GroupKind::Superset | GroupKind::GiantSet => "alternated".to_owned(),
        GroupKind::Paired => "paired".to_owned(),
        GroupKind::Circuit { rounds, change } => {
            let change = change.map_or_else(String::new, |time| format!(", change {time}"));
            format!("circuit {rounds} rounds{change}")
        }
        GroupKind::Every { interval, length, alternate } => {
            let alternate = if *alternate { ", alternate" } else { "" };
            format!("every {interval} for {length}{alternate}")
        }
        GroupKind::RoundsIn { length } => format!("rounds in {length}"),
    };
    let own = group.rest.filter(|rest| !members.contains(&Some(*rest)));
    let rest = own.map_or_else(String::new, |rest| format!(", rest {rest}"));
    format!("{how}{rest}")
}
