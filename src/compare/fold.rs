//! Merges equal changes: athletes and weeks with the same change get one line.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::Order;
use crate::quantity::Unit;

use super::series::{Alike, SeriesText, WeekEntry, parts, runs_on, spanned, symbol, tell};
use super::{Change, Comparison, ExerciseChange, FactValue, Field, Sides};

/// Number of different loads up to which they are listed by athlete.
const MOST_TOLD_APART: usize = 6;
/// Least number of different groups that are merged; fewer get a line each.
const FEWEST_TOGETHER: usize = 3;

/// Whether something was added, dropped or changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ChangeKind {
    /// It exists on both sides.
    Stays,
    /// It is new.
    Added,
    /// It was dropped.
    Dropped,
}

impl ChangeKind {
    /// The kind of a change from its two sides.
    pub fn of<T>(sides: &Sides<T>) -> Self {
        match (&sides.before, &sides.after) {
            (None, Some(_)) => ChangeKind::Added,
            (Some(_), None) => ChangeKind::Dropped,
            _ => ChangeKind::Stays,
        }
    }
}

/// The place of a change.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ChangePlace {
    /// Index of the day in [`Comparison::days`].
    pub day: usize,
    /// The exercise; `None` for the session as a whole.
    pub exercise: Option<Title>,
}

/// An exercise as a heading.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Title {
    /// Its order letter.
    pub order: Order,
    /// Its name, and the exercise that it replaces.
    pub name: String,
    /// Whether it was added or dropped.
    pub fate: ChangeKind,
}

/// One change for several athletes and weeks. It applies to each of the athletes in each of the
/// weeks.
#[derive(Clone, Debug)]
pub struct ChangeLine {
    /// The place.
    pub place: ChangePlace,
    /// What changed.
    pub what: Field,
    /// Which one of several, as in [`Change::of`].
    pub of: Option<String>,
    /// Whether it was added, dropped or changed.
    pub fate: ChangeKind,
    /// Indices of the athletes in [`Comparison::athletes_on_both_sides`].
    pub athletes: BTreeSet<usize>,
    /// The weeks, as numbered in the new plan.
    pub weeks: Vec<u32>,
    /// The text of the change.
    pub said: SeriesText,
}

/// The key for merging: place, kind, and the text unless it spans several weeks.
type FoldKey<'c> =
    (ChangePlace, Field, Option<&'c str>, ChangeKind, Option<(Option<&'c str>, Option<&'c str>)>);

/// Merges the changes of all sessions in weeks that both plans have. A change that only follows
/// from another is left out: a ramp gains and loses steps when the load changes. Athletes are
/// counted by their index among those on both sides.
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
            // A whole week that was added or dropped is reported once for all athletes.
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

/// Athletes with the same text for the same weeks.
struct AthleteGroup {
    said: SeriesText,
    alike: Alike,
    /// The unit of its numbers.
    symbol: &'static str,
    athletes: BTreeSet<usize>,
    weeks: Vec<u32>,
}

/// Groups each athlete's weeks that belong together, then the athletes who share everything.
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

/// The title of an exercise: `B Floor press, instead of Bench press`.
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

/// Merges groups whose numbers differ slightly but go the same way in the same weeks into one line.
/// It gives the least and the greatest number and, if there are few, each athlete's. Kilograms and
/// pounds are not merged.
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

/// Merges several groups into one; `None` if there are too few, or they have no numbers.
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
