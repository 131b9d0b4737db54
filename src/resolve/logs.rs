//! Resolves logs: matches what was done with the sessions and lines of the plan.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::catalogue::MaxKind;
use crate::diagnostics::{Code, Diagnostic};
use crate::history::{History, LoggedLine, LoggedSession, LoggedSet, SessionKey};
use crate::plan::{DoneWork, Extra, Order};
use crate::quantity::{Mass, fold_name};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{
    Head, Item, LineKey, Name, Node, ResultLoad, ResultReps, ResultText, Value,
};
use crate::syntax::keys::Key;

use super::{Day, Definitions, Programme, ResolvedMax};

/// The results of a programme, from all logs of all files.
pub fn resolve(
    programme: &Programme,
    definitions: &Definitions<'_>,
    problems: &mut Vec<Diagnostic>,
) -> History {
    let mut history = History::default();
    let wanted = fold_name(&programme.name);
    for log in &definitions.logs {
        let Item::Head(Head::Log { athlete, programme: of }) = &log.item.value else { continue };
        if fold_name(&of.value) != wanted {
            continue;
        }
        let name = fold_name(&athlete.value);
        let trainee = programme.trainees.iter().position(|t| fold_name(&t.athlete.name) == name);
        let Some(trainee) = trainee else { continue };
        let mut reader =
            LogReader { programme, definitions, trainee, history: &mut history, problems };
        for session in &log.children {
            reader.session(session);
        }
    }
    for extras in history.extras.values_mut() {
        extras.sort_by(|a, b| (a.date, &a.what).cmp(&(b.date, &b.what)));
    }
    in_order(&history, problems);
    history
}

/// Sessions are dated in the order of the plan.
fn in_order(history: &History, problems: &mut Vec<Diagnostic>) {
    let mut latest: BTreeMap<usize, (Date, Span)> = BTreeMap::new();
    for (key, session) in &history.sessions {
        match latest.get(&key.trainee) {
            Some((date, span)) if session.date < *date => problems.push(
                Diagnostic::new(
                    Code::LogDateOrder,
                    session.span,
                    format!(
                        "this session is dated {}, but an earlier session of the plan is dated {date}",
                        session.date
                    ),
                )
                .and(*span, "the earlier one")
                .help("check the date, the week and the day: rules use the order of the plan"),
            ),
            _ => {
                latest.insert(key.trainee, (session.date, session.span));
            }
        }
    }
}

struct LogReader<'a, 'p> {
    programme: &'a Programme,
    definitions: &'a Definitions<'a>,
    trainee: usize,
    history: &'a mut History,
    problems: &'p mut Vec<Diagnostic>,
}

impl LogReader<'_, '_> {
    fn session(&mut self, node: &Node) {
        let Item::LogSession { date, planned, extra, skipped } = &node.item.value else { return };
        let Some((week, day)) = planned else {
            // What stands below it is kept as written: it counts for nothing, and is not lost.
            let below =
                node.children.iter().filter(|line| line.item.span.start < line.item.span.end);
            let below: Vec<&str> =
                below.map(|line| self.programme.sources.text(line.item.span).trim()).collect();
            let named =
                extra.clone().into_iter().chain((!below.is_empty()).then(|| below.join("; ")));
            let what = named.collect::<Vec<_>>().join(": ");
            let extra = Extra { date: date.value, what };
            self.history.extras.entry(self.trainee).or_default().push(extra);
            return;
        };
        if week.value > self.programme.weeks {
            self.problems.push(
                Diagnostic::new(
                    Code::WeekPastEnd,
                    week.span,
                    format!(
                        "there is no week {}: the last week of the programme is week {}",
                        week.value, self.programme.weeks
                    ),
                )
                .help("check the week"),
            );
            return;
        }
        let wanted = fold_name(&day.value);
        let found = self.programme.days.iter().position(|d| fold_name(&d.name) == wanted);
        // An unknown day has been reported.
        let Some(index) = found else { return };
        let Some(planned_day) = self.programme.days.get(index) else { return };
        let mut session = LoggedSession {
            date: date.value,
            span: node.item.span,
            skipped: skipped.clone(),
            lines: BTreeMap::new(),
            body_mass: None,
            maxes: Vec::new(),
            notes: Vec::new(),
        };
        let mut unfilled = 0;
        for line in &node.children {
            self.line(line, planned_day, &mut session, &mut unfilled);
        }
        if unfilled > 0 {
            self.problems.push(
                Diagnostic::new(
                    Code::LogUnfilled,
                    node.item.span,
                    format!("{unfilled} lines of this session are not filled in"),
                )
                .help("replace each `?` with what was done: `done`, or the sets"),
            );
        }
        if session.lines.is_empty() && unfilled > 0 {
            return;
        }
        let key = SessionKey { trainee: self.trainee, week: week.value, day: index };
        if let Some(first) = self.history.sessions.get(&key) {
            let (one, two) = (first.span.min(session.span), first.span.max(session.span));
            self.problems.push(
                Diagnostic::new(
                    Code::LoggedTwice,
                    two,
                    format!("week {}, {} is logged twice", week.value, day.value),
                )
                .label("again here")
                .and(one, "first here")
                .help("keep one of the two; write other work as `extra`"),
            );
            return;
        }
        self.history.sessions.insert(key, session);
    }

    fn line(&mut self, node: &Node, day: &Day, session: &mut LoggedSession, unfilled: &mut usize) {
        let Item::Entry { key, value } = &node.item.value else { return };
        match (&key.value, &value.value) {
            (LineKey::Order(order, name), Value::Result(result)) => {
                self.same_exercise(day, order.value, name);
                read_result(order, result, session, node.item.span, unfilled);
            }
            (LineKey::Letter(order), Value::Result(result)) => {
                read_result(order, result, session, node.item.span, unfilled);
            }
            (LineKey::Key(Key::BodyMass), Value::Mass(mass)) => {
                session.body_mass = Some(mass.mass());
            }
            (LineKey::Key(Key::Note), Value::Text(text)) => session.notes.push(text.clone()),
            (LineKey::Named(Key::Max, lift), Value::Max(max)) => {
                let lift = self.definitions.known_exercise(lift, self.problems);
                let kind = MaxKind::read(&max.value);
                let kind = ResolvedMax::of(&kind, self.definitions, self.problems);
                if let (Some(lift), Some(kind)) = (lift, kind) {
                    session.maxes.push((lift, kind, max.span));
                }
            }
            _ => {}
        }
    }

    /// The name after the letter is the plan's exercise, or what replaces it.
    fn same_exercise(&mut self, day: &Day, order: Order, name: &Name) {
        let Some(line) = day.lines.iter().find(|line| line.order == order) else { return };
        let Some(logged) = self.definitions.known_exercise(name, self.problems) else { return };
        let trainee = self.programme.trainees.get(self.trainee);
        let chain = trainee.and_then(|trainee| trainee.chain(line.exercise, None));
        let mut replaced = chain.into_iter().flatten();
        if logged == line.exercise || replaced.any(|instead| instead.by == logged) {
            return;
        }
        let planned = self.programme.exercises.get(line.exercise.0).map_or("", |e| e.name.as_str());
        self.problems.push(
            Diagnostic::new(
                Code::LogMismatch,
                name.span,
                format!("the plan has {planned} at {order}, not {}", name.value),
            )
            .and(line.span, "in the programme")
            .help("log it under its own letter; write other work as a `note:` or `extra`"),
        );
    }
}

fn read_result(
    order: &Spanned<Order>,
    result: &ResultText,
    session: &mut LoggedSession,
    span: Span,
    unfilled: &mut usize,
) {
    if result.to_fill {
        *unfilled += 1;
        return;
    }
    let sets = result.sets.as_ref().map(|sets| {
        let mut found: Vec<LoggedSet> = Vec::new();
        // A load applies to the sets before it that have none.
        let mut next = None;
        for set in sets.iter().rev() {
            next = match &set.load {
                Some(ResultLoad::Mass(mass)) => Some(mass.mass()),
                Some(ResultLoad::Bodyweight(by)) => {
                    Some(by.map_or(Mass::ZERO, |by| by.mass.mass()))
                }
                None => next,
            };
            let work = match set.reps {
                ResultReps::Reps(n) => DoneWork::Reps(n),
                ResultReps::Sides(a, b) => DoneWork::Reps(a.min(b)),
                ResultReps::Seconds(n) => DoneWork::Seconds(n),
                ResultReps::Metres(n) => DoneWork::Metres(n),
            };
            let sides = match set.reps {
                ResultReps::Sides(a, b) => Some([a, b]),
                _ => None,
            };
            found.push(LoggedSet { work, sides, load: next });
        }
        found.reverse();
        found
    });
    let line = LoggedLine {
        span,
        sets,
        skipped: result.skipped.clone(),
        effort: result.effort,
        pain: result.pain,
    };
    session.lines.insert(order.value, line);
}
