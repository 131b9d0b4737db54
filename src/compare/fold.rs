//! What is the same for many, brought together: athletes and weeks of one change on one line.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::Order;
use crate::quantity::Unit;

use super::series::{Entry, Said, runs_on, spanned, tell};
use super::{Change, Comparison, ExerciseChange, Sides, Value, What};

/// Loads that differ are told athlete by athlete up to so many.
const MOST_TOLD_APART: usize = 6;

/// Whether something came, went or changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fate {
    /// It is there on both sides.
    Stays,
    /// It is new.
    Added,
    /// It is gone.
    Dropped,
}

impl Fate {
    pub fn of<T>(sides: &Sides<T>) -> Self {
        match (&sides.before, &sides.after) {
            (None, Some(_)) => Fate::Added,
            (Some(_), None) => Fate::Dropped,
            _ => Fate::Stays,
        }
    }
}

/// Where something changed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The day, by its place in [`Comparison::days`].
    pub day: usize,
    /// The exercise; `None` for the session as a whole.
    pub exercise: Option<Title>,
}

/// An exercise as a heading.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Title {
    /// Its letter.
    pub order: Order,
    /// Its name, and what it stands in for.
    pub name: String,
    /// Whether it is new or gone.
    pub fate: Fate,
}

/// One change for some athletes in some weeks.
#[derive(Clone, Debug)]
pub struct Line {
    pub place: Place,
    pub what: What,
    pub of: Option<String>,
    pub fate: Fate,
    pub athletes: BTreeSet<usize>,
    pub weeks: Vec<u32>,
    pub said: Said,
}

/// What is the same: place, kind, and the words where they are not told over weeks.
type Key<'c> = (Place, What, Option<&'c str>, Fate, Option<(Option<&'c str>, Option<&'c str>)>);

/// Folds the changes of all sessions. Athletes count by their place among those on both sides.
pub fn fold(comparison: &Comparison) -> Vec<Line> {
    let mut found: BTreeMap<Key<'_>, BTreeMap<usize, Vec<Entry<'_>>>> = BTreeMap::new();
    let mut units: BTreeMap<usize, Unit> = BTreeMap::new();
    for athlete in &comparison.athletes {
        let Some((_, name)) = athlete.athlete.both() else { continue };
        let at = comparison.athletes_on_both_sides.iter().position(|other| other == name);
        let Some(at) = at else { continue };
        units.extend(athlete.unit.after.map(|unit| (at, unit)));
        for session in &athlete.sessions {
            // A whole week that came or went is told once for all.
            let (Some(_), Some(week)) = (session.week.before, session.week.after) else { continue };
            let same = |day: &Sides<String>| match session.day.both() {
                Some(_) => *day == session.day,
                None => day.either() == session.day.either(),
            };
            let day = comparison.days.iter().position(same).unwrap_or(usize::MAX);
            let of_session = session.changes.iter().map(|change| (None, change));
            let of_exercises = session.exercises.iter().flat_map(|exercise| {
                let title = title(exercise);
                let told = exercise.changes.iter().filter(|change| !follows(change, exercise));
                told.map(move |change| (Some(title.clone()), change))
            });
            for (exercise, change) in of_session.chain(of_exercises) {
                let key = key(Place { day, exercise }, change);
                found.entry(key).or_default().entry(at).or_default().push((week, &change.sides));
            }
        }
    }
    let mut lines = Vec::new();
    for ((place, what, of, fate, _), athletes) in found {
        let line = |said: Said, athletes: BTreeSet<usize>, weeks: Vec<u32>| Line {
            place: place.clone(),
            what,
            of: of.map(str::to_owned),
            fate,
            athletes,
            weeks,
            said,
        };
        let mut groups: Vec<(Said, BTreeSet<usize>, Vec<u32>)> = Vec::new();
        for (at, entries) in athletes {
            let unit = units.get(&at).copied().unwrap_or(Unit::Kg);
            let said = tell(what, &entries, unit);
            let mut weeks: Vec<u32> = entries.iter().map(|(week, _)| *week).collect();
            weeks.dedup();
            match groups.iter_mut().find(|(other, _, w)| other.text == said.text && *w == weeks) {
                Some((other, athletes, _)) => {
                    athletes.insert(at);
                    if other.example != said.example {
                        other.example = None;
                    }
                }
                None => groups.push((said, BTreeSet::from([at]), weeks)),
            }
        }
        match together(&groups, comparison, &units) {
            Some((said, athletes, weeks)) => lines.push(line(said, athletes, weeks)),
            None => lines.extend(groups.into_iter().map(|(s, a, w)| line(s, a, w))),
        }
    }
    lines
}

fn key(place: Place, change: &Change) -> Key<'_> {
    fn text(value: &Value) -> &str {
        &value.text
    }
    let sides = &change.sides;
    let words = (sides.before.as_ref().map(text), sides.after.as_ref().map(text));
    let words = (!runs_on(change.what, sides)).then_some(words);
    (place, change.what, change.of.as_deref(), Fate::of(sides), words)
}

/// Whether a change only follows from another: a ramp loses and gains steps with the load.
fn follows(change: &Change, exercise: &ExerciseChange) -> bool {
    change.what == What::WarmUp
        && change.sides.both().is_some()
        && exercise.changes.iter().any(|other| other.what == What::Load)
}

/// `B Floor press, instead of Bench press`.
fn title(exercise: &ExerciseChange) -> Title {
    let name = match exercise.exercise.both() {
        Some((old, new)) if crate::quantity::fold_name(old) != crate::quantity::fold_name(new) => {
            format!("{new}, instead of {old}")
        }
        _ => exercise.exercise.either().cloned().unwrap_or_default(),
    };
    let order = exercise.order.either().copied().unwrap_or(Order { letter: 'A', number: None });
    Title { order, name, fate: Fate::of(&exercise.exercise) }
}

/// Many athletes whose numbers differ a little: one line with the least and the most, and who has
/// what while that is few.
fn together(
    groups: &[(Said, BTreeSet<usize>, Vec<u32>)],
    comparison: &Comparison,
    units: &BTreeMap<usize, Unit>,
) -> Option<(Said, BTreeSet<usize>, Vec<u32>)> {
    if groups.len() < 3 || groups.iter().any(|(said, ..)| said.span.is_none()) {
        return None;
    }
    let athletes: BTreeSet<usize> =
        groups.iter().flat_map(|(_, athletes, _)| athletes).copied().collect();
    let mut weeks: Vec<u32> = groups.iter().flat_map(|(.., weeks)| weeks).copied().collect();
    weeks.sort_unstable();
    weeks.dedup();
    let unit = |at: &usize| units.get(at).copied().unwrap_or(Unit::Kg);
    let symbol = unit(athletes.first()?).symbol();
    // Kilograms and pounds have no range in common.
    if athletes.iter().any(|at| unit(at).symbol() != symbol) {
        return None;
    }
    let spans = || groups.iter().filter_map(|(said, ..)| said.span.as_ref());
    let least = spans().map(|(least, _)| least).min()?.clone();
    let most = spans().map(|(_, most)| most).max()?.clone();
    let name = |at: &usize| comparison.athletes_on_both_sides.get(*at).cloned().unwrap_or_default();
    let each = groups.iter().map(|(said, athletes, _)| {
        let names: Vec<String> = athletes.iter().map(name).collect();
        format!("{} {}", names.join(", "), said.text.trim_end_matches(symbol).trim_end())
    });
    let example = (groups.len() <= MOST_TOLD_APART).then(|| each.collect::<Vec<_>>().join("; "));
    let text = spanned(&(least.clone(), most.clone()), symbol);
    Some((Said { text, example, span: Some((least, most)) }, athletes, weeks))
}
