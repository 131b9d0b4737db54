//! A plan as text for line-based comparison, such as `git diff`: one fact on each line, with all
//! weeks and athletes that share it. So one change of the programme changes few lines.
//!
//! Lines without indentation name the programme, the day and the exercise, because git shows them
//! above the lines that changed.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::{AthletePlan, Plan, Session};

use super::facts::{Fact, of_athlete, of_exercise, of_line, of_plan, of_session};
use super::fold::{ChangeKind, Title};
use super::prescription::phase_load;
use super::text::label;
use super::{FactValue, Field, words};

/// The place of a fact: day and exercise.
type FactPlace = (usize, Option<Title>);
/// The kind of a fact. Several cues or rules at one place are distinguished by their text.
type FactKind = (Field, Option<String>, Option<String>);
/// The texts of a fact with their weeks, by athlete.
type Texts = BTreeMap<usize, Vec<(String, Vec<u32>)>>;

/// Writes a plan for line-based comparison.
#[must_use]
pub fn digest(plan: &Plan) -> String {
    let mut text = format!("{}\n", plan.programme);
    for fact in of_plan(plan).iter().filter(|fact| fact.what != Field::Programme) {
        text.push_str(&line("", fact.what, fact.of.as_deref(), &fact.value.text));
    }
    text.push_str(&first_day(plan));
    let shared = shared(plan);
    for (what, texts) in &shared {
        // A text that applies in all weeks gets one line; otherwise each text gets its own.
        for (told, weeks) in texts {
            let when = if weeks.len() == plan.weeks as usize {
                String::new()
            } else {
                format!(" ({})", words::weeks(weeks))
            };
            text.push_str(&line("", *what, None, &format!("{told}{when}")));
        }
    }
    text.push_str(&format!("\n{}, athletes\n", plan.programme));
    for (who, fact) in people(plan) {
        text.push_str(&line(&who, fact.what, fact.of.as_deref(), &fact.value.text));
    }
    let days = days(plan);
    let mut found: BTreeMap<FactPlace, BTreeMap<FactKind, Texts>> = BTreeMap::new();
    let mut in_weeks: BTreeMap<FactPlace, BTreeSet<u32>> = BTreeMap::new();
    for (at, athlete) in plan.athletes.iter().enumerate() {
        for (place, week, fact) in facts(athlete, &days) {
            if shared.contains_key(&fact.what) {
                continue;
            }
            in_weeks.entry(place.clone()).or_default().insert(week);
            let several =
                matches!(fact.what, Field::Cue | Field::Note | Field::Setting | Field::Source);
            let words = several.then(|| fact.value.text.clone());
            let texts =
                found.entry(place).or_default().entry((fact.what, fact.of, words)).or_default();
            add(texts.entry(at).or_default(), fact.value.text, week);
        }
    }
    for (place, kinds) in found {
        let exercise = place.1.as_ref().map(|title| format!(", {} {}", title.order, title.name));
        let day = days.get(place.0).copied().unwrap_or_default();
        text.push_str(&format!("\n{}, {day}{}\n", plan.programme, exercise.unwrap_or_default()));
        let all = in_weeks.get(&place).cloned().unwrap_or_default();
        for ((what, of, _), texts) in kinds {
            for (who, told) in same(what, &texts, &all, plan) {
                text.push_str(&line(&who, what, of.as_deref(), &told));
            }
        }
    }
    text
}

/// The days in the order of the file. A day that moves to the end of the week keeps its place here,
/// so that only the line of its weekday changes.
fn days(plan: &Plan) -> Vec<&str> {
    let mut days = plan.day_names();
    let first_line = |day: &str| {
        let sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
        let exercises = sessions.filter(|s| s.day == day).flat_map(|session| &session.exercises);
        let lines = exercises.map(|exercise| &exercise.line);
        lines.map(|line| (line.file != plan.line.file, line.file.clone(), line.line)).min()
    };
    days.sort_by_cached_key(|day| {
        let line = first_line(day);
        (line.is_none(), line)
    });
    days
}

/// The line with the start of the programme.
fn first_day(plan: &Plan) -> String {
    let sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    let first = sessions.filter(|session| session.week == 1);
    let date = first.filter_map(|session| session.date.or(session.week_starts)).min();
    date.map_or_else(String::new, |date| format!("  first day {date}\n"))
}

/// What all sessions of a week have in common for all athletes: the phase, its load change, and the
/// session time if no day has its own. It is written once, at the top.
fn shared(plan: &Plan) -> BTreeMap<Field, Vec<(String, Vec<u32>)>> {
    let kinds = [Field::Phase, Field::PhaseLoad, Field::Time];
    let found = kinds.into_iter().filter_map(|what| {
        let mut by_week: BTreeMap<u32, BTreeSet<String>> = BTreeMap::new();
        for session in plan.athletes.iter().flat_map(|athlete| &athlete.sessions) {
            by_week.entry(session.week).or_default().extend(told(what, session));
        }
        let mut texts = Vec::new();
        for (week, told) in by_week {
            if told.len() > 1 {
                return None;
            }
            // Empty texts are left out.
            told.into_iter().filter(|t| !t.is_empty()).for_each(|t| add(&mut texts, t, week));
        }
        Some((what, texts))
    });
    found.collect()
}

/// The texts of one kind of fact in a session. Exercises whose load the phase does not change have
/// none.
fn told(what: Field, session: &Session) -> Vec<String> {
    if what == Field::PhaseLoad {
        let loads = session.exercises.iter().map(phase_load);
        return loads.filter(|load| !load.is_empty()).collect();
    }
    let fact = of_session(session).into_iter().find(|fact| fact.what == what);
    vec![fact.map_or_else(String::new, |fact| fact.value.text)]
}

/// A line of the digest: `  Wren Tallow: load 55 kg (week 1), 57.5 kg (weeks 2-3)`.
fn line(who: &str, what: Field, of: Option<&str>, text: &str) -> String {
    let who = if who.is_empty() { String::new() } else { format!("{who}: ") };
    // A digest shows one version only, so a date has not moved.
    let label = if what == Field::Date { "on".to_owned() } else { label(what, of) };
    format!("  {who}{label} {text}\n").replace("   ", "  ")
}

/// The facts of athletes: first those that all share, then those of each athlete.
fn people(plan: &Plan) -> Vec<(String, Fact)> {
    let all: Vec<(&AthletePlan, Vec<Fact>)> =
        plan.athletes.iter().map(|athlete| (athlete, of_athlete(athlete))).collect();
    let is_shared =
        |fact: &Fact| all.len() > 1 && all.iter().all(|(_, facts)| facts.contains(fact));
    let shared =
        all.first().into_iter().flat_map(|(_, facts)| facts).filter(|fact| is_shared(fact));
    let own = all.iter().flat_map(|(athlete, facts)| {
        let own = facts.iter().filter(|fact| !is_shared(fact));
        own.map(|fact| (athlete.name.clone(), fact.clone()))
    });
    shared.map(|fact| ("every athlete".to_owned(), fact.clone())).chain(own).collect()
}

/// All facts of an athlete's sessions, with place and week.
fn facts(athlete: &AthletePlan, days: &[&str]) -> Vec<(FactPlace, u32, Fact)> {
    let mut all = Vec::new();
    for session in &athlete.sessions {
        let day = days.iter().position(|day| *day == session.day).unwrap_or(usize::MAX);
        let of_session = of_session(session);
        // The weekday of the first week; the dates follow from it and from the start.
        let of_session = of_session.into_iter().filter(|fact| fact.what != Field::Date);
        let weekday = session.date.filter(|_| session.week == 1).map(|date| Fact {
            what: Field::Date,
            of: None,
            value: FactValue::plain(words::weekday(date)),
        });
        let of_session = weekday.into_iter().chain(of_session);
        all.extend(of_session.map(|fact| ((day, None), session.week, fact)));
        for exercise in &session.exercises {
            let title = Title {
                order: exercise.order,
                name: exercise.name.clone(),
                fate: ChangeKind::Stays,
            };
            let lines = of_line(exercise, athlete.unit, true).into_iter();
            let facts = lines.chain(of_exercise(exercise));
            all.extend(facts.map(|fact| ((day, Some(title.clone())), session.week, fact)));
        }
    }
    all
}

/// Adds a week to a text.
fn add(texts: &mut Vec<(String, Vec<u32>)>, text: String, week: u32) {
    match texts.iter_mut().find(|(other, _)| *other == text) {
        Some((_, weeks)) if weeks.last() == Some(&week) => {}
        Some((_, weeks)) => weeks.push(week),
        None => texts.push((text, vec![week])),
    }
}

/// Texts with their weeks. A value that changes every week is listed week by week, so that a change
/// of one week changes one item.
fn over_weeks(what: Field, texts: &[(String, Vec<u32>)], all: &BTreeSet<u32>) -> String {
    if let [(only, weeks)] = texts
        && (weeks.len() == all.len() || what == Field::Date)
    {
        return only.clone();
    }
    if matches!(what, Field::Load | Field::Percent) {
        let in_week = |week: &u32| {
            let found = texts.iter().find(|(_, weeks)| weeks.contains(week));
            found.map_or("none", |(text, _)| text.as_str())
        };
        return all.iter().map(in_week).collect::<Vec<_>>().join("; ");
    }
    let told = texts.iter().map(|(text, weeks)| format!("{text} ({})", words::weeks(weeks)));
    told.collect::<Vec<_>>().join("; ")
}

/// The texts of each athlete over all weeks, with the athletes who share them.
fn same(what: Field, texts: &Texts, all: &BTreeSet<u32>, plan: &Plan) -> Vec<(String, String)> {
    let mut lines: Vec<(String, Vec<usize>)> = Vec::new();
    for (at, texts) in texts {
        let told = over_weeks(what, texts, all);
        match lines.iter_mut().find(|(other, _)| *other == told) {
            Some((_, athletes)) => athletes.push(*at),
            None => lines.push((told, vec![*at])),
        }
    }
    let who = |athletes: &[usize]| {
        if athletes.len() == plan.athletes.len() {
            return "every athlete".to_owned();
        }
        let names: Vec<&str> = athletes
            .iter()
            .filter_map(|at| plan.athletes.get(*at))
            .map(|a| a.name.as_str())
            .collect();
        words::list(&names)
    };
    lines.into_iter().map(|(told, athletes)| (who(&athletes), told)).collect()
}
