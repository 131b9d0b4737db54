//! Inlay hints: the loads of each line.

use std::collections::BTreeMap;

use super::written::OrderLine;
use crate::editor::Analysis;
use crate::plan::{AthletePlan, Plan, PlannedExercise};
use crate::sheets::wording::{PLAIN, Wording};
use crate::source::{FileId, Span};
use crate::syntax::ast::{Head, Item, LineKey, Node, WeekSpan};
use crate::syntax::fold_name;

/// The athlete and week whose loads are shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shown {
    /// Name of the athlete; `None` for the programme's first.
    pub athlete: Option<String>,
    /// The week; `None` for the first week, or a week line's own first week.
    pub week: Option<u32>,
}

/// A note at the end of a line that is not part of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// Its position in bytes.
    pub at: u32,
    /// Its text, such as `Ana w3: 62.5 · 65 kg`.
    pub text: String,
    /// Details, such as the plates on the bar.
    pub tooltip: Option<String>,
}

/// The loads of a file's lines for one athlete and week, in the order of the lines. On a line for
/// one athlete, that athlete's loads are shown; on a line for some weeks, those of one of the
/// weeks.
#[must_use]
pub fn inlay_hints(analysis: &Analysis, file: FileId, shown: &Shown) -> Vec<Hint> {
    let Some(document) = analysis.document(file) else { return Vec::new() };
    let mut programme = None;
    let mut found = Vec::new();
    for node in &document.nodes {
        match &node.item.value {
            Item::Head(Head::Programme(name)) => {
                let wanted = fold_name(&name.value);
                let plan = analysis.plans.iter().find(|plan| fold_name(&plan.programme) == wanted);
                programme = plan.map(|plan| Loads::new(analysis, file, plan, shown));
            }
            Item::Head(Head::Day { .. }) => {
                let Some(loads) = &mut programme else { continue };
                for line in &node.children {
                    loads.line(line, &mut found);
                }
            }
            _ => {}
        }
    }
    found.sort_by_key(|hint| hint.at);
    found
}

/// One athlete's exercises by line and week.
type ByLine<'a> = BTreeMap<(u32, u32), &'a PlannedExercise>;

/// The loads of one programme. Each athlete's are collected when they are first needed.
struct Loads<'a> {
    analysis: &'a Analysis,
    plan: &'a Plan,
    path: &'a str,
    shown: &'a Shown,
    athletes: BTreeMap<String, ByLine<'a>>,
}

impl<'a> Loads<'a> {
    fn new(analysis: &'a Analysis, file: FileId, plan: &'a Plan, shown: &'a Shown) -> Self {
        let path = analysis.sources.get(file).map_or("", |file| &*file.path);
        Self { analysis, plan, path, shown, athletes: BTreeMap::new() }
    }

    /// Adds the hints of an exercise line and of the lines below it.
    fn line(&mut self, node: &'a Node, found: &mut Vec<Hint>) {
        let Item::Entry { key, .. } = &node.item.value else { return };
        if !matches!(key.value, LineKey::Order(..)) {
            return;
        }
        let order = OrderLine { node, weeks: None, athlete: None };
        self.below(&order, node, found);
    }

    /// Adds the hint of a line, and those of the lines below it.
    fn below(&mut self, line: &OrderLine<'a>, own: &'a Node, found: &mut Vec<Hint>) {
        let mut taken = Vec::new();
        let mut apart = Vec::new();
        for node in &own.children {
            let Item::Entry { key, .. } = &node.item.value else { continue };
            let inner = match &key.value {
                LineKey::Weeks(weeks) => {
                    taken.push(weeks.value);
                    OrderLine { weeks: Some(weeks.value), ..*line }
                }
                LineKey::For(name) => {
                    apart.push(fold_name(&name.value));
                    OrderLine { athlete: Some(name), ..*line }
                }
                _ => continue,
            };
            self.below(&inner, node, found);
        }
        found.extend(self.hint(line, own.item.span, &taken, &apart));
    }

    /// The hint at the end of a line. Weeks and athletes that have lines of their own below are
    /// left to those lines.
    fn hint(
        &mut self,
        line: &OrderLine<'a>,
        at: Span,
        taken: &[WeekSpan],
        apart: &[String],
    ) -> Option<Hint> {
        let wanted = line.athlete.map(|name| name.value.as_str()).or(self.shown.athlete.as_deref());
        let athlete = match wanted.map(fold_name) {
            Some(name) => self.plan.athletes.iter().find(|own| fold_name(&own.name) == name)?,
            None => self.plan.athletes.first()?,
        };
        if apart.contains(&fold_name(&athlete.name)) {
            return None;
        }
        let path = self.path;
        let lines =
            self.athletes.entry(athlete.name.clone()).or_insert_with(|| by_line(athlete, path));
        let number = self.analysis.planned_at(line.node.item.span)?.line;
        let weeks = line.weeks.unwrap_or(WeekSpan { first: 1, last: self.plan.weeks });
        let free =
            |week: u32| weeks.contains(week) && !taken.iter().any(|taken| taken.contains(week));
        let chosen = self.shown.week.filter(|week| free(*week));
        let mut own = lines.range((number, 0)..=(number, u32::MAX));
        let (week, exercise) = match chosen {
            Some(week) => (week, *lines.get(&(number, week))?),
            None => own.find(|((_, week), _)| free(*week)).map(|((_, week), e)| (*week, *e))?,
        };
        let text = loads(athlete, exercise)?;
        let who = short_name(self.plan, &athlete.name);
        Some(Hint {
            at: at.end,
            text: format!("{who} w{week}: {text}"),
            tooltip: tooltip(athlete, exercise),
        })
    }
}

fn by_line<'a>(athlete: &'a AthletePlan, path: &str) -> ByLine<'a> {
    let mut found = BTreeMap::new();
    for session in &athlete.sessions {
        for exercise in session.exercises.iter().filter(|exercise| &*exercise.line.file == path) {
            found.entry((exercise.line.line, session.week)).or_insert(exercise);
        }
    }
    found
}

/// The different loads of the working sets in order: `62.5 · 65 · 67.5 kg`. `None` if there is no
/// load.
fn loads(athlete: &AthletePlan, exercise: &PlannedExercise) -> Option<String> {
    let words = Wording::new("en", athlete, PLAIN);
    let mut loads: Vec<String> = Vec::new();
    let built = exercise.working().filter(|set| set.load.is_some());
    for load in built.filter_map(|set| words.load(set)) {
        if loads.last() != Some(&load) {
            loads.push(load);
        }
    }
    // The unit is written once.
    let unit = format!(" {}", words.unit);
    let (last, before) = loads.split_last()?;
    let plain = |load: &String| {
        let number = load.strip_suffix(&unit)?;
        number.chars().all(|c| c.is_ascii_digit() || c == '.').then(|| number.to_owned())
    };
    let numbers: Option<Vec<String>> = before.iter().map(plain).collect();
    let before = numbers.filter(|_| plain(last).is_some()).unwrap_or_else(|| before.to_vec());
    let all: Vec<String> = before.into_iter().chain([last.clone()]).collect();
    Some(all.join(" · "))
}

/// The parts of each load.
fn tooltip(athlete: &AthletePlan, exercise: &PlannedExercise) -> Option<String> {
    let words = Wording::new("en", athlete, PLAIN);
    let mut lines: Vec<String> = Vec::new();
    if let Some(replaced) = &exercise.replaces {
        lines.push(format!("{} in place of {}", exercise.name, replaced.name));
    }
    for set in exercise.working() {
        let (Some(load), Some(built)) = (words.load(set), &set.load) else { continue };
        let plates = words.plates(set, words.labels.a_side);
        let parts = [words.bar(built), plates, words.hung(set), words.stack(set)];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        let off = words.off_target(set).map_or_else(String::new, |off| format!(" ({off})"));
        if parts.is_empty() && off.is_empty() {
            continue;
        }
        let line = format!("{load}{off}: {}", parts.join(", "));
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    (!lines.is_empty()).then(|| lines.join("\n"))
}

/// The first name, if no other athlete of the programme has the same.
fn short_name<'n>(plan: &Plan, name: &'n str) -> &'n str {
    let first = |name: &'n str| name.split(' ').next().unwrap_or(name);
    let own = first(name);
    let shared = plan.athletes.iter().filter(|other| other.name.split(' ').next() == Some(own));
    if shared.count() > 1 { name } else { own }
}
