//! Warnings about values in a log that look like typos. They count as written.

use jiff::civil::Date;

use crate::diagnostics::{Code, Diagnostic};
use crate::history::LoggedLine;
use crate::plan::{DoneSet, PlannedExercise, PlannedSet};
use crate::quantity::{Mass, Unit, Work};
use crate::source::Span;

/// A load is doubted from this many times the planned one.
const TIMES_LOAD: i64 = 2;
/// Repetitions are doubted from this many times those asked for, and from [`MANY_REPS`] on.
const TIMES_REPS: u32 = 3;
/// Fewer repetitions than these are never doubted.
const MANY_REPS: u32 = 30;
/// A session's date is doubted when it is more days than these before the planned one …
const DAYS_EARLY: i32 = 14;
/// … or more than these after it.
const DAYS_LATE: i32 = 60;
/// A body mass is doubted when it differs from the one known by more than this part of it.
const PART_OF_BODY: i64 = 5;

fn doubt(span: Span, message: String) -> Diagnostic {
    Diagnostic::new(Code::LogUnlikely, span, message)
        .help("it is used as written: fix it if it is a typo")
}

/// Checks a line: its loads, its repetitions and its sides.
pub fn line(
    exercise: &PlannedExercise,
    line: &LoggedLine,
    sets: &[DoneSet],
    unit: Unit,
) -> Vec<Diagnostic> {
    let planned: Vec<&PlannedSet> = exercise.working().collect();
    let mut found = Vec::new();
    let pairs = || {
        let of = |at: usize| planned.get(at).or(planned.last()).copied();
        sets.iter().enumerate().filter_map(move |(at, done)| Some((done, of(at)?)))
    };
    let heavy = pairs().find_map(|(done, plan)| {
        let asked = plan.load.as_ref()?.mass;
        let load = done.load?;
        let body = plan.bodyweight || asked.units() <= 0;
        (!body && load.units() > TIMES_LOAD * asked.units()).then_some((load, plan))
    });
    if let Some((load, plan)) = heavy {
        let asked = plan.load.as_ref().map_or(Mass::ZERO, |built| built.mass);
        found.push(doubt(
            line.span,
            format!("{} is logged, but {} was planned", load.show(unit), asked.show(unit)),
        ));
    }
    let many = pairs().find_map(|(done, plan)| {
        let Work::Reps(count) = &plan.reps.work else { return None };
        let asked = count.max.unwrap_or(count.min);
        let reps = done.work.amount();
        (reps > MANY_REPS && reps > TIMES_REPS * asked).then_some((reps, asked))
    });
    if let Some((reps, asked)) = many {
        let message = format!("{reps} repetitions are logged, but {asked} were planned");
        found.push(doubt(line.span, message));
    }
    if !exercise.each_side && sets.iter().any(|set| set.sides.is_some()) {
        let message = format!("{} is not unilateral: of `8/7`, only the 7 counts", exercise.name);
        found.push(
            Diagnostic::new(Code::LogUnlikely, line.span, message)
                .help("write a comma between sets: `8, 7`"),
        );
    }
    found
}

/// Checks the date of a session against the planned date.
pub fn date(planned: Date, logged: Date, span: Span) -> Option<Diagnostic> {
    let days = planned.until(logged).ok()?.get_days();
    if (-DAYS_EARLY..=DAYS_LATE).contains(&days) {
        return None;
    }
    let side = if days < 0 { "before" } else { "after" };
    let message = format!(
        "this session is dated {logged}, {} days {side} the day it is planned for, {planned}",
        days.abs()
    );
    Some(
        Diagnostic::new(Code::LogUnlikely, span, message)
            .help("check the year, the month and the week"),
    )
}

/// Checks a logged body mass against the known one.
pub fn body_mass(known: Option<Mass>, logged: Mass, span: Span, unit: Unit) -> Option<Diagnostic> {
    let known = known?;
    let apart = (logged.units() - known.units()).abs();
    if known.units() <= 0 || apart * PART_OF_BODY <= known.units() {
        return None;
    }
    let message = format!(
        "a body mass of {} is logged, but the one before it was {}",
        logged.show(unit),
        known.show(unit)
    );
    Some(doubt(span, message))
}
