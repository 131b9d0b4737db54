//! Programmes, from their blocks.

use std::sync::Arc;

use jiff::civil::Weekday;

use crate::bounds;
use crate::catalogue::known_language;
use crate::diagnostics::{Code, Diagnostic, or_list};
use crate::source::{FileId, Sources, Span, Spanned};
use crate::strength::{Equation, Rounding};
use crate::syntax::ast::{Head, Item, LineKey, Name, Value};
use crate::syntax::fold_name;
use crate::syntax::keys::Key;

use super::definitions::ProgrammeText;
use super::phases::{self, PhaseWeeks};
use super::resolve_cache::ResolveCache;
use super::squad::AthleteProblems;
use super::{Definitions, Programme, advice, day};

/// A programme; `None` when it does not say how many weeks it runs. With clean lines, these are
/// left out.
pub fn resolve(
    text: &ProgrammeText<'_>,
    definitions: &Definitions<'_>,
    squad: &[AthleteProblems],
    sources: &Arc<Sources>,
    clean: Option<&mut ResolveCache>,
    problems: &mut Vec<Diagnostic>,
) -> Option<Programme> {
    let mut programme = Programme {
        name: text.name.value.clone(),
        span: text.name.span,
        weeks: 0,
        starts: None,
        training_max: None,
        equation: Equation::default(),
        warm_up: Vec::new(),
        before: None,
        after: None,
        rounding: None,
        repeat_missed: false,
        time: None,
        language: None,
        goal: None,
        supervision: None,
        source: None,
        notes: phases::notes(text.lines),
        advice: advice::switches(text.lines, sources, problems),
        phases: Vec::new(),
        days: Vec::new(),
        trainees: Vec::new(),
        exercises: definitions.exercises.clone(),
        names: definitions.names.clone(),
        gyms: definitions.gyms.clone(),
        sources: sources.clone(),
    };
    let mut athletes: Option<&[Name]> = None;
    for node in text.lines {
        let Item::Entry { key, value } = &node.item.value else { continue };
        let LineKey::Key(key) = key.value else { continue };
        if let (Key::Athletes, Value::Names(names)) = (key, &value.value) {
            athletes = Some(names);
        }
        programme.read(key, value, problems);
    }
    let members = members(athletes, definitions, problems);
    for (trainee, found) in members.into_iter().filter_map(|index| squad.get(index)) {
        programme.trainees.push(trainee.clone());
        problems.extend(found.iter().cloned());
    }
    let weekless = programme.weeks == 0;
    let known = problems.len();
    if weekless {
        let wrong_weeks = text.lines.iter().any(|node| matches!(node.item.value, Item::Wrong));
        if !wrong_weeks {
            problems.push(
                Diagnostic::new(
                    Code::MissingKey,
                    text.name.span,
                    format!("the programme `{}` has no number of weeks", text.name.value),
                )
                .help("add a line below it: `  weeks: 8`"),
            );
        }
        // Read its days anyway, to report the problems in them.
        programme.weeks = bounds::WEEKS;
    }
    programme.phases = phases::resolve(&text.phases, programme.weeks, problems);
    let weeks = PhaseWeeks::new(programme.weeks, &programme.phases);
    let context = day::DayContext {
        definitions,
        programme: text.index,
        phases: &weeks,
        trainees: &programme.trainees,
        sources,
    };
    let mut clean = clean.map(|clean| clean.of(text.index, &weeks, definitions));
    let days = text.days.iter();
    let days = days.filter_map(|node| day::resolve(node, &context, clean.as_deref_mut(), problems));
    programme.days = days.collect();
    programme.order_days();
    if let Some(day) = programme.days.get(bounds::DAYS) {
        problems.push(
            Diagnostic::new(
                Code::PlanTooLarge,
                day.span,
                format!("a programme can have at most {} days a week", bounds::DAYS),
            )
            .help("split it into two programmes"),
        );
    }
    let past = problems.iter().skip(known).any(|found| found.code == Code::WeekPastEnd);
    let by_weeks: &[Code] = match (weekless, past) {
        (true, _) => &[Code::SeriesLength, Code::MissingPrescription, Code::NumberOutOfRange],
        // A week was taken out: the values are right once the weeks after it are.
        (false, true) => &[Code::SeriesLength],
        (false, false) => &[],
    };
    let mut index = 0;
    problems.retain(|found| {
        index += 1;
        index <= known || !by_weeks.contains(&found.code)
    });
    (!weekless).then_some(programme)
}

impl Programme {
    fn read(&mut self, key: Key, value: &Spanned<Value>, problems: &mut Vec<Diagnostic>) {
        match (key, &value.value) {
            (Key::Weeks, Value::Count(count)) => self.weeks = count.value,
            (Key::Starts, Value::Date(date)) => self.starts = Some(*date),
            (Key::TrainingMax, Value::Percent(percent)) => {
                self.training_max = Some((percent.value, percent.span));
            }
            (Key::Estimate, Value::Remarked(name, _)) => match Equation::parse(&name.value) {
                Some(equation) => self.equation = equation,
                None => problems.push(
                    Diagnostic::new(
                        Code::UnknownWord,
                        name.span,
                        format!("there is no equation `{}`", name.value),
                    )
                    .did_you_mean(&name.value, Equation::ALL.iter().map(|e| e.name())),
                ),
            },
            (Key::WarmUp, Value::Ramp(sets)) => {
                self.warm_up = sets.iter().map(|set| set.value.clone()).collect();
            }
            (Key::Before, Value::Text(text)) => self.before = Some(text.clone()),
            (Key::After, Value::Text(text)) => self.after = Some(text.clone()),
            (Key::Rounding, Value::RoundDown(down)) => {
                self.rounding = Some(if *down { Rounding::Down } else { Rounding::Nearest });
            }
            (Key::MissedSession, Value::RepeatMissed(repeat)) => self.repeat_missed = *repeat,
            (Key::Time, Value::Duration(time)) => self.time = Some(*time),
            (Key::Language, Value::Text(text)) => {
                self.language = known_language(text, value.span, problems);
            }
            (Key::Goal, Value::Text(text)) => self.goal = Some(text.clone()),
            (Key::Supervision, Value::Text(text)) => self.supervision = Some(text.clone()),
            (Key::Source, Value::Text(text)) => self.source = Some(text.clone()),
            _ => {}
        }
    }

    /// Days in the order of the week when each has its weekday; else as written.
    fn order_days(&mut self) {
        let first = self.starts.map_or(Weekday::Monday, jiff::civil::Date::weekday);
        let all_have = self.days.iter().all(|day| day.weekday.is_some());
        if all_have {
            self.days.sort_by_key(|day| day.weekday.map_or(0, |weekday| first.until(weekday)));
        }
    }
}

/// The athletes of a programme: those it names, else all.
fn members(
    named: Option<&[Name]>,
    definitions: &Definitions<'_>,
    problems: &mut Vec<Diagnostic>,
) -> Vec<usize> {
    let Some(names) = named else { return (0..definitions.athletes.len()).collect() };
    let mut seen: Vec<usize> = Vec::new();
    for name in names {
        if let Some(index) = definitions.known_athlete(name, problems)
            && !seen.contains(&index)
        {
            seen.push(index);
        }
    }
    seen
}

/// Logs name an athlete, a programme, and days and orders that are there.
pub fn check_logs(
    definitions: &Definitions<'_>,
    programmes: &[ProgrammeText<'_>],
    problems: &mut Vec<Diagnostic>,
) {
    for log in &definitions.logs {
        let Item::Head(Head::Log { athlete, programme }) = &log.item.value else { continue };
        definitions.known_athlete(athlete, problems);
        let wanted = fold_name(&programme.value);
        let Some(found) = programmes.iter().find(|p| fold_name(&p.name.value) == wanted) else {
            let known = programmes.iter().map(|p| p.name.value.as_str());
            problems.push(
                Diagnostic::new(
                    Code::UnknownProgramme,
                    programme.span,
                    format!("there is no programme `{}`", programme.value),
                )
                .did_you_mean(&programme.value, known),
            );
            continue;
        };
        for session in &log.children {
            let Item::LogSession { planned: Some((_, day)), .. } = &session.item.value else {
                continue;
            };
            check_log_day(day, &session.children, found, problems);
        }
    }
}

fn check_log_day(
    day: &Name,
    lines: &[crate::syntax::ast::Node],
    programme: &ProgrammeText<'_>,
    problems: &mut Vec<Diagnostic>,
) {
    let heads = programme.days.iter().filter_map(|node| match &node.item.value {
        Item::Head(Head::Day { name, .. }) => Some((name, &node.children)),
        _ => None,
    });
    let days: Vec<_> = heads.collect();
    let wanted = fold_name(&day.value);
    let Some((_, planned)) = days.iter().find(|(name, _)| fold_name(&name.value) == wanted) else {
        let names: Vec<&str> = days.iter().map(|(name, _)| name.value.as_str()).collect();
        problems.push(
            Diagnostic::new(
                Code::UnknownDay,
                day.span,
                format!(
                    "the programme has no day `{}`: its days are {}",
                    day.value,
                    or_list(&names)
                ),
            )
            .did_you_mean(&day.value, days.iter().map(|(name, _)| name.value.as_str())),
        );
        return;
    };
    let orders: Vec<String> = planned
        .iter()
        .filter_map(|node| match &node.item.value {
            Item::Entry { key, .. } => match &key.value {
                LineKey::Order(order, _) => Some(order.value.to_string()),
                _ => None,
            },
            _ => None,
        })
        .collect();
    for line in lines {
        let Item::Entry { key, .. } = &line.item.value else { continue };
        let (LineKey::Order(order, _) | LineKey::Letter(order)) = &key.value else { continue };
        if !orders.contains(&order.value.to_string()) {
            problems.push(
                Diagnostic::new(
                    Code::UnknownDay,
                    order.span,
                    format!("`{}` has no exercise {}", day.value, order.value),
                )
                .did_you_mean(&order.value.to_string(), orders.iter().map(String::as_str)),
            );
        }
    }
}

/// Whether there is something to make cards of.
pub fn check_whole(
    definitions: &Definitions<'_>,
    programmes: &[ProgrammeText<'_>],
    root: FileId,
    problems: &mut Vec<Diagnostic>,
) {
    let empty = problems.iter().any(|found| found.code == Code::EmptyFile);
    // What is missing may stand in a line that did not read.
    if empty || crate::diagnostics::has_errors(problems) {
        return;
    }
    match programmes.first() {
        None => problems.push(
            Diagnostic::new(
                Code::NoProgramme,
                Span::new(root, 0, 0),
                "there is no programme to make cards from",
            )
            .help("write `programme NAME`, or open the file that contains it"),
        ),
        Some(first) if definitions.athletes.is_empty() => problems.push(
            Diagnostic::new(
                Code::NoAthlete,
                first.name.span,
                "there is no athlete to make cards for",
            )
            .help("write `athlete NAME`, or include the file with the athletes: `use squad.sets`"),
        ),
        Some(_) => {}
    }
}
