//! A heavy set with a bar over the face, on the shoulders or overhead, and nobody or nothing to
//! catch it.
//!
//! A bench press needs a spotter or safeties, a squat safeties or two spotters; lifts for power are
//! never spotted, the lifter learns to miss (handbook ch. 15 [S]). The hooks of a rack are neither.
//! Dumbbells are spotted at the wrists and can be put down: no advice. From 85 % of the 1RM on, in
//! an open set from 80 % on, and in any set to failure a miss is likely enough to plan for: common
//! practice, no source. Silent where somebody is there or the gym has what holds the bar:
//! `supervision:` that does not say that nobody is, a power rack, a cage or safeties among what the
//! gym `has:`, or a note of the line, the day or the programme that speaks of it.

use crate::advice::facts::is;
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, PlannedExercise, PlannedSet, Session};
use crate::quantity::{Exact, RepCount, Work};

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::NeedsSpotter,
    title: "a heavy set that needs a spotter or safeties in a programme that mentions neither",
    bound: Some(Bound { value: 85, unit: "%", meaning: "of the 1RM, from" }),
    source: "Haff & Triplett 2016, Essentials of Strength Training and Conditioning, ch. 15; how \
             heavy is common practice",
    area: Area::Limits,
    on_sheet: false,
    find,
};

/// An open set may end in a miss from this percentage of the 1RM on.
const OPEN_PERCENT: i64 = 80;
/// Words, or beginnings of words, for somebody or something that holds the bar.
const HELD: &[&str] = &["spot", "safet", "cage", "pins", "catch", "smith"];
/// Beginnings of words for somebody who is there.
const THERE: &[&str] = &["coach", "trainer", "instructor", "teacher", "partner", "physio", "staff"];
/// Words that deny what comes next, or that nobody is there.
const NOBODY: &[&str] = &[
    "no",
    "none",
    "nobody",
    "nothing",
    "not",
    "never",
    "without",
    "alone",
    "solo",
    "unsupervised",
    "unattended",
    "allein",
    "niemand",
    "keine",
    "seul",
    "seule",
    "aucun",
    "aucune",
    "ninguno",
    "ninguna",
    "nadie",
    "brak",
    "nikt",
    "samodzielnie",
];
/// Words that may stand between a denial and what it denies.
const BETWEEN: &[&str] = &["a", "an", "any", "the", "one"];

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    let plan = context.plan;
    if plan.supervision.as_deref().is_some_and(is_supervised) || names_help(&plan.notes) {
        return found;
    }
    for (index, athlete, session) in context.sessions() {
        let power_rack = |has: &String| has.to_lowercase().contains("power rack");
        let holds = athlete.gym_has.iter().any(power_rack) || names_help(&athlete.gym_has);
        if holds || names_help(&session.notes) {
            continue;
        }
        let exercises = session.exercises.iter();
        found.extend(exercises.filter_map(|e| finding(index, session, e, bound)));
    }
    found
}

fn finding(
    athlete: usize,
    session: &Session,
    exercise: &PlannedExercise,
    bound: &Exact,
) -> Option<Finding> {
    let over = is(exercise, &["squat", "lunge", "horizontal push", "vertical push"])
        && exercise.equipment == Some(Equipment::Barbell)
        && !exercise.also_patterns.iter().any(|pattern| pattern == "power")
        && !exercise.needs.iter().any(|need| need == "Landmine");
    if !over || names_help(&exercise.notes) || names_help(&exercise.settings) {
        return None;
    }
    let from = bound / &Exact::whole(100);
    let to_failure = exercise.notes.iter().any(|note| note.to_lowercase().contains("to failure"));
    let risky = exercise.working().filter(|set| to_failure || may_be_missed(set, &from));
    let set = risky.max_by(|a, b| a.share_of_1rm.cmp(&b.share_of_1rm))?;
    let on_shoulders = is(exercise, &["squat", "lunge"]);
    let what = if on_shoulders { "safeties or two spotters" } else { "a spotter or safeties" };
    let message = format!(
        "{} ({}) needs {what}, but the programme and the gym mention none",
        exercise.name,
        words::set(set)
    );
    let help = "write who spots in `supervision:` or a note, or list what catches the bar in the gym's \
     `has:`, such as `safeties` or `power rack`; the hooks of a rack are not enough";
    let finding = Finding::exercise(athlete, session, exercise);
    let weight = set.share_of_1rm.clone().unwrap_or_else(Exact::zero);
    Some(finding.message(message, exercise.name.clone()).help(help).weighs(weight))
}

fn may_be_missed(set: &PlannedSet, from: &Exact) -> bool {
    let at_least = |share: &Exact| set.share_of_1rm.as_ref().is_some_and(|own| own >= share);
    let open = matches!(set.reps.work, Work::Amrap | Work::Reps(RepCount { max: None, .. }));
    let reserve = set.effort.map(|effort| effort.in_reserve().to_exact());
    let to_failure = reserve.as_ref().is_some_and(Exact::is_zero);
    let near_it = reserve.is_some_and(|reserve| reserve <= Exact::ratio(1, 2));
    to_failure
        || at_least(from)
        || ((open || near_it) && at_least(&Exact::ratio(OPEN_PERCENT, 100)))
}

/// Whether a text says that somebody is there: a name does, `none` and `trains alone` do not.
fn is_supervised(text: &str) -> bool {
    let words = words_of(text);
    affirms(&words, THERE) || affirms(&words, HELD) || !words.iter().any(|word| denies(word))
}

fn names_help(texts: &[String]) -> bool {
    texts.iter().any(|text| affirms(&words_of(text), HELD))
}

fn words_of(text: &str) -> Vec<String> {
    let text = text.to_lowercase();
    let words = text.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_owned).collect()
}

fn denies(word: &str) -> bool {
    NOBODY.contains(&word)
}

/// Whether a word begins like one of these, and none before it denies it: `no spotter`.
fn affirms(words: &[String], beginnings: &[&str]) -> bool {
    words.iter().enumerate().any(|(at, word)| {
        let mut before = words.iter().take(at).rev();
        let before = before.find(|word| !BETWEEN.contains(&word.as_str()));
        beginnings.iter().any(|begin| word.starts_with(begin))
            && !before.is_some_and(|word| denies(word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_is_no_supervision() {
        for text in [
            "none",
            "None.",
            "no",
            "trains alone",
            "alone, no spotter",
            "unsupervised",
            "without a coach",
            "no one coach",
            "nobody",
            "allein",
            "-no-",
        ] {
            assert!(!is_supervised(text), "{text}");
        }
        for text in [
            "one coach to six athletes",
            "Maren Tidewell",
            "coach; nobody lifts alone",
            "the coach spots every heavy set",
            "alone, but a partner spots",
        ] {
            assert!(is_supervised(text), "{text}");
        }
    }
}
