//! A heavy set with a bar over the face, on the shoulders or overhead, and nobody said to watch it.
//!
//! Such lifts have spotters or safeties; lifts for power are never spotted (handbook ch. 15 [S]).
//! From 90 % of the 1RM on a miss is likely enough to plan for, and so is one in an open set from
//! 80 % on, or in a set with nothing left in reserve: common practice, no source. Silent where
//! somebody is there or the gym has what holds the bar: `supervision:` in the programme, a rack, a
//! cage or safeties among what the gym `has:`, or a note of the line, the day or the programme that
//! speaks of it.

use crate::advice::facts::is;
use crate::advice::lint::{Area, Bound, Context, Finding, Lint};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, PlannedExercise, PlannedSet, Session};
use crate::quantity::{Exact, RepCount, Work};

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::NeedsSpotter,
    title: "a heavy set that wants a spotter or safeties, and a programme that names neither",
    bound: Some(Bound { value: 90, unit: "%", meaning: "of the 1RM, from" }),
    source: "Haff & Triplett 2016, Essentials of Strength Training and Conditioning, ch. 15; how \
             heavy is common practice",
    area: Area::Limits,
    on_sheet: false,
    find,
};

/// An open set may end in a miss from this percentage of the 1RM on.
const OPEN_PERCENT: i64 = 80;
/// Words, or beginnings of words, for somebody or something that holds the bar.
const HELD: &[&str] = &["spot", "safet", "cage", "pins"];
/// The same among what a gym has: in a note, to rack a bar is to put it back.
const RACK: &str = "rack";

fn find(context: &Context<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    let plan = context.plan;
    if plan.supervision.is_some() || names_help(&plan.notes) {
        return found;
    }
    for (index, athlete, session) in context.sessions() {
        let has_rack = athlete.gym_has.iter().any(|has| has.to_lowercase().contains(RACK));
        if has_rack || names_help(&athlete.gym_has) || names_help(&session.notes) {
            continue;
        }
        let exercises = session.exercises.iter();
        found.extend(exercises.filter_map(|e| one(index, session, e, bound)));
    }
    found
}

fn one(
    athlete: usize,
    session: &Session,
    exercise: &PlannedExercise,
    bound: &Exact,
) -> Option<Finding> {
    let over = is(exercise, &["squat", "lunge", "horizontal push", "vertical push"])
        && exercise.equipment == Some(Equipment::Barbell)
        && !exercise.needs.iter().any(|need| need == "Landmine");
    if !over || names_help(&exercise.notes) || names_help(&exercise.settings) {
        return None;
    }
    let from = bound / &Exact::whole(100);
    let risky = exercise.working().filter(|set| may_be_missed(set, &from));
    let set = risky.max_by(|a, b| a.share_of_1rm.cmp(&b.share_of_1rm))?;
    let message = format!(
        "{} ({}) wants a spotter or safeties, and nothing says who or what",
        exercise.name,
        words::set(set)
    );
    let help = "say who watches in `supervision:` or a note, or list what holds the bar in the gym's \
                `has:`";
    let finding = Finding::exercise(athlete, session, exercise);
    let weight = set.share_of_1rm.clone().unwrap_or_else(Exact::zero);
    Some(finding.says(message, exercise.name.clone()).help(help).weighs(weight))
}

fn may_be_missed(set: &PlannedSet, from: &Exact) -> bool {
    let at_least = |share: &Exact| set.share_of_1rm.as_ref().is_some_and(|own| own >= share);
    let open = matches!(set.reps.work, Work::Amrap | Work::Reps(RepCount { max: None, .. }));
    let to_the_limit = set.effort.is_some_and(|e| e.in_reserve().to_exact() <= Exact::ratio(1, 2));
    at_least(from) || ((open || to_the_limit) && at_least(&Exact::ratio(OPEN_PERCENT, 100)))
}

fn names_help(texts: &[String]) -> bool {
    texts.iter().any(|text| {
        let text = text.to_lowercase();
        HELD.iter().any(|word| text.contains(word))
    })
}
