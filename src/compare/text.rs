//! A comparison as text, for terminals, pull requests and e-mail.

use std::collections::BTreeSet;

use super::fold::{ChangeKind, ChangeLine, fold};
use super::series::{SeriesText, arrow};
use super::{Change, Comparison, FactNumbers, FactValue, Field, Sides, sums, words};

/// Maximum width of a line, in characters.
const WIDTH: usize = 96;
/// Colour codes. The output stream removes them if colours are not wanted.
const BOLD: &str = "\u{1b}[1m";
const GREEN: &str = "\u{1b}[32m";
const RED: &str = "\u{1b}[31m";
const PLAIN: &str = "\u{1b}[0m";

/// Writes a comparison as text with colour codes. With `weekly`, the sums are listed week by week.
#[must_use]
pub fn text(comparison: &Comparison, weekly: bool) -> String {
    let mut out = TextWriter::default();
    let name = comparison.programme.either().cloned().unwrap_or_default();
    match ChangeKind::of(&comparison.programme) {
        ChangeKind::Added => return format!("{GREEN}+ {name}: a new programme{PLAIN}\n"),
        ChangeKind::Dropped => return format!("{RED}- {name}: the programme is gone{PLAIN}\n"),
        ChangeKind::Stays => {}
    }
    if comparison.is_empty() {
        return format!("{BOLD}{name}{PLAIN}: nothing changed\n");
    }
    out.heading(&name, '=');
    for line in of_programme(&comparison.changes) {
        out.line(0, None, &line);
    }
    let people = of_people(comparison);
    if !people.is_empty() {
        out.heading("Athletes", '-');
        for (fate, line) in people {
            out.line(0, fate, &line);
        }
    }
    sessions(&mut out, comparison);
    let who = |athletes: &BTreeSet<usize>| who(athletes, comparison).unwrap_or_default();
    let totals = sums::lines(comparison, weekly, who);
    if !totals.is_empty() {
        out.heading("What the block comes to", '-');
        for (indent, line) in totals {
            out.line(indent, None, &line);
        }
    }
    out.text
}

/// Changes by day and exercise. Changes that several days share come first.
fn sessions(out: &mut TextWriter, comparison: &Comparison) {
    let (shared, lines) = shared(&fold(comparison));
    for (days, lines) in shared {
        let names = days.iter().map(|day| day_name(*day, comparison)).collect::<Vec<_>>();
        let all = days.len() == comparison.days.len();
        out.heading(&if all { "Every day".to_owned() } else { words::list(&names) }, '-');
        write_lines(out, 0, &lines, comparison);
    }
    for of_day in lines.chunk_by(|a, b| a.place.day == b.place.day) {
        let day = of_day.first().map_or(usize::MAX, |line| line.place.day);
        out.heading(day_name(day, comparison), '-');
        for of_place in of_day.chunk_by(|a, b| a.place == b.place) {
            let title = of_place.first().and_then(|line| line.place.exercise.as_ref());
            if let Some(title) = title {
                let text = format!("{} {}", title.order, title.name);
                out.line(0, Some(title.fate).filter(|fate| *fate != ChangeKind::Stays), &text);
            }
            write_lines(out, if title.is_some() { 4 } else { 0 }, of_place, comparison);
        }
    }
}

fn day_name(day: usize, comparison: &Comparison) -> &str {
    comparison.days.get(day).and_then(Sides::either).map_or("", String::as_str)
}

fn write_lines(out: &mut TextWriter, indent: usize, lines: &[ChangeLine], comparison: &Comparison) {
    for (scope, said) in by_scope(lines, comparison) {
        out.line(indent, None, &scoped(&scope, &said.join("; ")));
    }
}

/// Lines with the indices of their days.
type OfDays = (Vec<usize>, Vec<ChangeLine>);

/// Changes of whole sessions that several days share, and the other changes.
fn shared(lines: &[ChangeLine]) -> (Vec<OfDays>, Vec<ChangeLine>) {
    let same = |a: &ChangeLine, b: &ChangeLine| {
        let of = |line: &ChangeLine| (line.what, line.of.clone(), line.fate, line.weeks.clone());
        let whole = a.place.exercise.is_none() && b.place.exercise.is_none();
        whole && of(a) == of(b) && a.athletes == b.athletes && a.said.text == b.said.text
    };
    let mut found: Vec<OfDays> = Vec::new();
    let mut rest = Vec::new();
    for line in lines {
        let twins = lines.iter().filter(|other| same(line, other));
        let days: Vec<usize> = twins.map(|twin| twin.place.day).collect();
        match found.iter_mut().find(|(others, _)| *others == days) {
            _ if days.len() < 2 => rest.push(line.clone()),
            Some((_, told)) if told.iter().any(|other| same(line, other)) => {}
            Some((_, told)) => told.push(line.clone()),
            None => found.push((days, vec![line.clone()])),
        }
    }
    (found, rest)
}

/// Changes for the same athletes and weeks, joined on one line.
fn by_scope(lines: &[ChangeLine], comparison: &Comparison) -> Vec<(String, Vec<String>)> {
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for line in lines {
        let scope = scope(line, comparison);
        let said = phrase(line.what, line.of.as_deref(), line.fate, &line.said);
        match found.iter_mut().find(|(other, _)| *other == scope) {
            Some((_, all)) => all.push(said),
            None => found.push((scope, vec![said])),
        }
    }
    found
}

fn scoped(scope: &str, said: &str) -> String {
    if scope.is_empty() { said.to_owned() } else { format!("{scope}: {said}") }
}

/// The athletes and weeks of a line: `every athlete, weeks 1-3`. What is obvious is left out.
fn scope(line: &ChangeLine, comparison: &Comparison) -> String {
    let who = who(&line.athletes, comparison);
    let of_both = comparison.weeks.both().map_or(0, |(a, b)| *a.min(b));
    let when = match line.weeks.len() {
        _ if of_both == 1 => None,
        n if n == of_both as usize => Some("every week".to_owned()),
        _ => Some(words::weeks(&line.weeks)),
    };
    [who, when].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The athletes: `every athlete`, `Wren Tallow and Odhran Pellick`; `None` if there is only one.
fn who(athletes: &BTreeSet<usize>, comparison: &Comparison) -> Option<String> {
    let all = &comparison.athletes_on_both_sides;
    let names = |wanted: &dyn Fn(usize) -> bool| -> Vec<&str> {
        let named = all.iter().enumerate().filter(|(at, _)| wanted(*at));
        named.map(|(_, name)| name.as_str()).collect()
    };
    let (with, without) =
        (names(&|at| athletes.contains(&at)), names(&|at| !athletes.contains(&at)));
    match without.as_slice() {
        [] if all.len() == 1 => all.first().cloned(),
        [] => Some("every athlete".to_owned()),
        [one] if all.len() > 3 => Some(format!("every athlete but {one}")),
        _ => Some(words::list(&with)),
    }
}

/// One change as text, without athletes and weeks.
fn phrase(what: Field, of: Option<&str>, fate: ChangeKind, said: &SeriesText) -> String {
    let SeriesText { text, example, .. } = said;
    let example = example.as_ref().map_or_else(String::new, |e| format!(" ({e})"));
    let label = label(what, of);
    match (what, fate) {
        (Field::Exercise, _) => text.clone(),
        (Field::Session, ChangeKind::Added) => format!("session added ({text})"),
        (Field::Session, _) => format!("session dropped ({text})"),
        (Field::Group, ChangeKind::Added) => format!("now together: {text}"),
        (Field::Group, ChangeKind::Dropped) => format!("no longer together: {text}"),
        // These values are clear without a label.
        (Field::Sets | Field::Effort, ChangeKind::Stays) => format!("{text}{example}"),
        (_, ChangeKind::Stays) => format!("{label} {text}{example}"),
        (_, ChangeKind::Added) => format!("{label} added: {text}"),
        (_, ChangeKind::Dropped) => format!("{label} dropped: {text}"),
    }
}

/// What a change is about, as text.
pub(super) fn label(what: Field, of: Option<&str>) -> String {
    let name = match what {
        Field::Rule => {
            return match of {
                Some("otherwise") => "rule `otherwise`:".to_owned(),
                Some(condition) => format!("rule `when {condition}`:"),
                None => "rule".to_owned(),
            };
        }
        Field::Group => "together:",
        Field::Max => "max",
        Field::TrainingMax => "training max",
        Field::Programme | Field::Day => "renamed:",
        Field::Weeks | Field::Week => "",
        Field::Estimate => "estimate",
        Field::Goal => "goal:",
        Field::Supervision => "supervision:",
        Field::Source => "source:",
        Field::Advice => "advice:",
        Field::Athlete => "athlete",
        Field::Gym => "gym",
        Field::GymBar => "gym's bar",
        Field::GymHas => "gym's",
        Field::PlateSize => "size of the plate of",
        Field::BodyMass => "body mass",
        Field::Unit => "unit",
        Field::Rack => "rack",
        Field::Level => "level",
        Field::Avoid => "avoid",
        Field::Language => "language",
        Field::Logged => "logged:",
        Field::Extra => "done beside the plan:",
        Field::Session => "session",
        Field::Date => "moved",
        Field::Phase => "phase",
        Field::Time => "time",
        Field::Before => "before:",
        Field::After => "after:",
        Field::Limit => "limit",
        Field::Order => "order:",
        Field::Exercise => "exercise",
        Field::Sets => "sets",
        Field::Percent => "asks",
        Field::PhaseLoad => "the phase's load",
        Field::Load => "load",
        Field::Drops => "drop",
        Field::Effort => "effort",
        Field::Rest => "rest",
        Field::Tempo => "tempo",
        Field::Range => "range",
        Field::Every => "every",
        Field::RestPause => "rest-pause",
        Field::WarmUp => "warm-up",
        Field::Instead => "replaces",
        Field::Setup => "set-up:",
        Field::Setting => "setting:",
        Field::Cue => "cue:",
        Field::Note => "note:",
        Field::Safety => "caution:",
        Field::Demo => "demonstration:",
    };
    match of {
        Some(of) => format!("{name} {of}"),
        None => name.to_owned(),
    }
}

/// A change of the whole programme or of an athlete, as text.
fn plainly(change: &Change) -> String {
    let said = SeriesText { text: arrow(&change.sides), example: None, span: None };
    let words = phrase(change.what, change.of.as_deref(), ChangeKind::of(&change.sides), &said);
    words.replace(": added:", " added:").replace(": dropped:", " dropped:").trim().to_owned()
}

/// The changes of the whole programme. Added or dropped weeks are on one line.
fn of_programme(changes: &[Change]) -> Vec<String> {
    let is_lone = |change: &Change| change.what == Field::Week && change.of.is_none();
    let same = |a: &Change, b: &Change| {
        is_lone(a) && is_lone(b) && ChangeKind::of(&a.sides) == ChangeKind::of(&b.sides)
    };
    let mut lines: Vec<String> = Vec::new();
    let mut is_renumbered = false;
    for run in changes.chunk_by(same) {
        let Some(change) = run.first() else { continue };
        lines.push(match (is_lone(change), change.what) {
            (true, _) => lone_weeks(run),
            (false, Field::Week) => {
                is_renumbered = true;
                let (before, after) =
                    (text_of(change.sides.before.as_ref()), text_of(change.sides.after.as_ref()));
                let verb = if before.starts_with("weeks") { "are" } else { "is" };
                format!("{before} {verb} now {after}")
            }
            _ => plainly(change),
        });
    }
    if is_renumbered {
        lines.push("below, weeks go by their new numbers".to_owned());
    }
    lines
}

fn text_of(value: Option<&FactValue>) -> &str {
    value.map_or("", |value| value.text.as_str())
}

/// Added or dropped weeks: `week 3 is dropped`, `weeks 5-8 are new`.
fn lone_weeks(changes: &[Change]) -> String {
    let number = |change: &Change| match change.sides.either().and_then(|v| v.numbers.as_ref()) {
        Some(FactNumbers::Count(week)) => Some(*week),
        _ => None,
    };
    let weeks: Vec<u32> = changes.iter().filter_map(number).collect();
    let is_new = changes.iter().any(|change| ChangeKind::of(&change.sides) == ChangeKind::Added);
    let verb = if weeks.len() == 1 { "is" } else { "are" };
    format!("{} {verb} {}", words::weeks(&weeks), if is_new { "new" } else { "dropped" })
}

/// Athletes who were added or dropped, and their changes for the whole programme, merged.
fn of_people(comparison: &Comparison) -> Vec<(Option<ChangeKind>, String)> {
    let mut lines = Vec::new();
    let mut shared: Vec<(String, BTreeSet<usize>)> = Vec::new();
    for one in &comparison.athletes {
        let fate = ChangeKind::of(&one.athlete);
        let name = one.athlete.either().map_or("", String::as_str);
        if fate != ChangeKind::Stays {
            lines.push((Some(fate), name.to_owned()));
            continue;
        }
        let Some(at) = comparison.athletes_on_both_sides.iter().position(|other| other == name)
        else {
            continue;
        };
        for words in one.changes.iter().map(plainly) {
            match shared.iter_mut().find(|(other, _)| *other == words) {
                Some((_, athletes)) => {
                    athletes.insert(at);
                }
                None => shared.push((words, BTreeSet::from([at]))),
            }
        }
    }
    // Changes of the same athletes are on one line.
    let mut by_who: Vec<(String, Vec<String>)> = Vec::new();
    for (words, athletes) in shared {
        let who = who(&athletes, comparison).unwrap_or_default();
        match by_who.iter_mut().find(|(other, _)| *other == who) {
            Some((_, all)) => all.push(words),
            None => by_who.push((who, vec![words])),
        }
    }
    lines.extend(by_who.into_iter().map(|(who, all)| (None, scoped(&who, &all.join("; ")))));
    lines
}

/// Writes lines of limited width.
#[derive(Default)]
struct TextWriter {
    text: String,
}

impl TextWriter {
    fn heading(&mut self, text: &str, rule: char) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        let rule: String = std::iter::repeat_n(rule, text.chars().count()).collect();
        self.text.push_str(&format!("{BOLD}{text}{PLAIN}\n{rule}\n"));
    }

    /// Writes a line, broken between words; continued lines have more indentation.
    fn line(&mut self, indent: usize, fate: Option<ChangeKind>, text: &str) {
        let (sign, colour) = match fate {
            Some(ChangeKind::Added) => ("+ ", GREEN),
            Some(ChangeKind::Dropped) => ("- ", RED),
            _ => ("", ""),
        };
        let text = format!("{sign}{text}");
        let mut line = " ".repeat(indent);
        let mut is_first = true;
        let mut lines = Vec::new();
        for word in text.split(' ') {
            let room = line.chars().count() + 1 + word.chars().count() <= WIDTH;
            if !is_first && !room {
                lines.push(std::mem::replace(&mut line, " ".repeat(indent + 4)));
                is_first = true;
            }
            if !is_first {
                line.push(' ');
            }
            line.push_str(word);
            is_first = false;
        }
        lines.push(line);
        for line in lines {
            let line = if colour.is_empty() { line } else { format!("{colour}{line}{PLAIN}") };
            self.text.push_str(&line);
            self.text.push('\n');
        }
    }
}
