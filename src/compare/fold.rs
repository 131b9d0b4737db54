//! What is the same for many, brought together: athletes and weeks of one change on one line.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::Order;
use crate::quantity::Unit;

use super::series::{Alike, SeriesText, WeekEntry, parts, runs_on, spanned, symbol, tell};
use super::{Change, Comparison, ExerciseChange, FactValue, Field, Sides};

/// Loads that differ are told athlete by athlete up to so many.
const MOST_TOLD_APART: usize = 6;
/// So many that differ are brought together; fewer are told on a line each.
const FEWEST_TOGETHER: usize = 3;

/// Whether something came, went or changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ChangeKind {
    /// It is there on both sides.
    Stays,
    /// It is new.
    Added,
    /// It is gone.
    Dropped,
}

impl ChangeKind {
    /// Of something with two sides.
    pub fn of<T>(sides: &Sides<T>) -> Self {
        match (&sides.before, &sides.after) {
            (None, Some(_)) => ChangeKind::Added,
            (Some(_), None) => ChangeKind::Dropped,
            _ => ChangeKind::Stays,
        }
    }
}

/// Where something changed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ChangePlace {
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
    pub fate: ChangeKind,
}

/// One change for some athletes in some weeks: each of them has it in each of these weeks.
#[derive(Clone, Debug)]
pub struct ChangeLine {
    /// Where.
    pub place: ChangePlace,
    /// What it is about.
    pub what: Field,
    /// Of which one, as in [`Change::of`].
    pub of: Option<String>,
    /// Whether it is new, gone or otherwise.
    pub fate: ChangeKind,
    /// For whom, by their place in [`Comparison::athletes_on_both_sides`].
    pub athletes: BTreeSet<usize>,
    /// When, by the numbers of the new plan.
    pub weeks: Vec<u32>,
    /// What is said of it.
    pub said: SeriesText,
}

/// What is the same: place, kind, and the words where they are not told over weeks.
type FoldKey<'c> =
    (ChangePlace, Field, Option<&'c str>, ChangeKind, Option<(Option<&'c str>, Option<&'c str>)>);

/// Folds the changes of all sessions of weeks that both plans have. What only follows from another
/// change is left out: a ramp loses and gains steps with the load. Athletes count by their place among those on both sides.
#[must_use]
pub fn fold(comparison: &Comparison) -> Vec<ChangeLine> {
    let mut found: BTreeMap<FoldKey<'_>, BTreeMap<usize, Vec<WeekEntry<'_>>>> = BTreeMap::new();
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
                let key = key(ChangePlace { day, exercise }, change);
                found.entry(key).or_default().entry(at).or_default().push((week, &change.sides));
            }
        }
    }
    let mut lines = Vec::new();
    for ((place, what, of, fate, _), athletes) in found {
        let line = |group: AthleteGroup| ChangeLine {
            place: place.clone(),
            what,
            of: of.map(str::to_owned),
            fate,
            athletes: group.athletes,
            weeks: group.weeks,
            said: group.said,
        };
        let groups = together(groups(what, &athletes, &units), comparison);
        lines.extend(groups.into_iter().map(line));
    }
    lines
}

/// Athletes of whom the same is said of the same weeks.
struct AthleteGroup {
    said: SeriesText,
    alike: Alike,
    /// The unit of its numbers.
    symbol: &'static str,
    athletes: BTreeSet<usize>,
    weeks: Vec<u32>,
}

/// Each athlete's weeks, apart where they are not alike; then the athletes who have all in common.
fn groups(
    what: Field,
    athletes: &BTreeMap<usize, Vec<WeekEntry<'_>>>,
    units: &BTreeMap<usize, Unit>,
) -> Vec<AthleteGroup> {
    let mut groups: Vec<AthleteGroup> = Vec::new();
    for (at, entries) in athletes {
        let unit = units.get(at).copied().unwrap_or(Unit::Kg);
        for (alike, entries) in parts(what, entries, unit) {
            let said = tell(what, &entries, unit);
            let mut weeks: Vec<u32> = entries.iter().map(|(week, _)| *week).collect();
            weeks.dedup();
            let same =
                |group: &&mut AthleteGroup| group.said.text == said.text && group.weeks == weeks;
            if let Some(group) = groups.iter_mut().find(same) {
                group.athletes.insert(*at);
                if group.said.example != said.example {
                    group.said.example = None;
                }
                continue;
            }
            let athletes = BTreeSet::from([*at]);
            groups.push(AthleteGroup { said, alike, symbol: symbol(what, unit), athletes, weeks });
        }
    }
    groups
}

fn key(place: ChangePlace, change: &Change) -> FoldKey<'_> {
    fn text(value: &FactValue) -> &str {
        &value.text
    }
    let sides = &change.sides;
    let words = (sides.before.as_ref().map(text), sides.after.as_ref().map(text));
    let words = (!runs_on(change.what, sides)).then_some(words);
    (place, change.what, change.of.as_deref(), ChangeKind::of(sides), words)
}

/// Whether a change only follows from another.
fn follows(change: &Change, exercise: &ExerciseChange) -> bool {
    change.what == Field::WarmUp
        && change.sides.both().is_some()
        && exercise.changes.iter().any(|other| other.what == Field::Load)
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
    Title { order, name, fate: ChangeKind::of(&exercise.exercise) }
}

/// Many athletes whose numbers differ a little, but go the same way in the same weeks: one line with
/// the least and the most, and who has what while that is few. Kilograms and pounds have no range in
/// common.
fn together(groups: Vec<AthleteGroup>, comparison: &Comparison) -> Vec<AthleteGroup> {
    let same = |a: &AthleteGroup, b: &AthleteGroup| {
        a.alike == b.alike && a.symbol == b.symbol && a.weeks == b.weeks
    };
    let mut bundles: Vec<Vec<AthleteGroup>> = Vec::new();
    for group in groups {
        let found = bundles.iter_mut().find(|bundle| bundle.iter().all(|one| same(one, &group)));
        match found {
            Some(bundle) => bundle.push(group),
            None => bundles.push(vec![group]),
        }
    }
    let folded = bundles.into_iter().flat_map(|bundle| match ranged(&bundle, comparison) {
        Some(one) => vec![one],
        None => bundle,
    });
    folded.collect()
}

/// One group for several; `None` where they are few, or no numbers.
fn ranged(groups: &[AthleteGroup], comparison: &Comparison) -> Option<AthleteGroup> {
    let first = groups.first().filter(|_| groups.len() >= FEWEST_TOGETHER)?;
    let spans: Option<Vec<_>> = groups.iter().map(|group| group.said.span.as_ref()).collect();
    let spans = spans?;
    let least = spans.iter().map(|(least, _)| least).min()?.clone();
    let most = spans.iter().map(|(_, most)| most).max()?.clone();
    let name = |at: &usize| comparison.athletes_on_both_sides.get(*at).cloned().unwrap_or_default();
    let symbol = first.symbol;
    let each = groups.iter().map(|group| {
        let names: Vec<String> = group.athletes.iter().map(name).collect();
        format!("{} {}", names.join(", "), group.said.text.trim_end_matches(symbol).trim_end())
    });
    let example = (groups.len() <= MOST_TOLD_APART).then(|| each.collect::<Vec<_>>().join("; "));
    let text = spanned(&(least.clone(), most.clone()), symbol);
    Some(AthleteGroup {
        said: SeriesText { text, example, span: Some((least, most)) },
        alike: first.alike.clone(),
        symbol,
        athletes: groups.iter().flat_map(|group| &group.athletes).copied().collect(),
        weeks: first.weeks.clone(),
    })
}
