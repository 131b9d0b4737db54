//! The contents of logs, and how missing entries are handled. Values are worked out by hand.

use setwright::compile::check;
use setwright::evaluate::{Assumptions, MissingLogPolicy, Path};
use setwright::plan::{SessionStatus, StepKind};
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

use super::support::{loads, loads_with, log, plan_of, project};

const LINE: &str = "Back squat: 3 x 5 @ 60 kg, no warm-up\n     when all reps made: load +5 kg\n     when any rep missed: load -10 kg\n";

fn codes(text: &str) -> Vec<&'static str> {
    let project = Project::from_text(&MemoryLoader::new(), "small.sets", text.to_owned());
    check(project).diagnostics.iter().map(|d| d.code.name()).collect()
}

#[test]
fn a_session_passed_over_is_missing_and_assumed_to_be_nothing() {
    let text = project(4, "", LINE, &log(&[(1, "done"), (3, "done")]));
    let plan = plan_of(&text, Assumptions::default());
    let sessions = &plan.athletes[0].sessions;
    assert_eq!(sessions[1].status, SessionStatus::Missing);
    assert_eq!(sessions[3].status, SessionStatus::Projected);
    assert_eq!(loads(&text), ["60", "65", "65", "70"]);
    let assume = |missing| Assumptions { missing, ..Assumptions::default() };
    assert_eq!(loads_with(&text, assume(MissingLogPolicy::Done)), ["60", "65", "70", "75"]);
    assert_eq!(loads_with(&text, assume(MissingLogPolicy::Missed)), ["60", "65", "55", "60"]);
}

#[test]
fn a_skipped_session_neither_counts_nor_breaks() {
    let skipped = "log Robin Vale: Small\n  2026-01-05 week 1, One: skipped (ill)\n  2026-01-12 week 2, One\n    A: done\n";
    assert_eq!(loads(&project(3, "", LINE, skipped)), ["60", "60", "65"]);
}

#[test]
fn a_lighter_set_is_not_made_and_a_heavier_one_is() {
    assert_eq!(loads(&project(2, "", LINE, &log(&[(1, "5, 5, 5 @ 57.5 kg")]))), ["60", "50"]);
    assert_eq!(loads(&project(2, "", LINE, &log(&[(1, "5, 5, 5 @ 62.5 kg")]))), ["60", "65"]);
    // Two of three sets: the third was left out.
    assert_eq!(loads(&project(2, "", LINE, &log(&[(1, "5, 5")]))), ["60", "50"]);
}

#[test]
fn the_best_and_the_worst_that_can_come() {
    let text = project(3, "", LINE, "");
    let path = |path| Assumptions { path, ..Assumptions::default() };
    assert_eq!(loads_with(&text, path(Path::Best)), ["60", "65", "70"]);
    assert_eq!(loads_with(&text, path(Path::Worst)), ["60", "50", "40"]);
    // An open set goes as far as a rule asks.
    let open = "Back squat: 2 x 5 @ 60 kg, 1 x 5+ @ 60 kg, no warm-up\n     when last set >= 8 reps: load +5 kg\n";
    assert_eq!(loads(&project(3, "", open, "")), ["60", "60", "60"]);
    let text = project(3, "", open, "");
    assert_eq!(loads_with(&text, path(Path::Best)), ["60", "65", "70"]);
}

#[test]
fn a_max_tested_again_replaces_the_old_one() {
    let line = "Back squat: 3 x 5 @ 80%, no warm-up\n     when all reps made: max +5 kg\n";
    let tested = "log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n    max Back squat: 120 kg\n";
    // 80 % of 120, then 125: the adjustment of week 1 is cleared by the test.
    assert_eq!(loads(&project(3, "", line, tested)), ["80", "95", "100"]);
}

#[test]
fn a_body_mass_counts_from_then_on() {
    let line = "Pull-up: 3 x 3 @ 90%\n";
    let weighed =
        "log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n    body mass: 72 kg\n";
    // 0.9 x (70 + 20) - 70 = 11; after weighing in 2 kg heavier 0.9 x 90 - 72 = 9, built 8.75.
    assert_eq!(loads(&project(2, "", line, weighed)), ["11.25", "8.75"]);
}

/// What was lifted was lifted with the body mass of its day, whatever else is tested later.
#[test]
fn another_lift_tested_again_does_not_move_a_max_on_the_body() {
    let line = "Pull-up: 3 x 3 @ 90%\n";
    let logged = "log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n    body mass: 72 kg\n  \
                  2026-01-12 week 2, One\n    A: done\n    max Back squat: 120 kg\n";
    // As above 11 and 9; not 0.9 x (72 + 20) - 72 = 10.8 in week 3.
    assert_eq!(loads(&project(3, "", line, logged)), ["11.25", "8.75", "8.75"]);
}

#[test]
fn last_is_the_logged_load_else_the_target() {
    let line = "Back squat: 3 x 5 @ last +2.5 kg, no warm-up\n     week 1: 3 x 5 @ 60 kg\n";
    assert_eq!(loads(&project(3, "", line, "")), ["60", "62.5", "65"]);
    assert_eq!(loads(&project(3, "", line, &log(&[(1, "5, 5, 5 @ 70 kg")]))), ["60", "72.5", "75"]);
    // A deload week takes its part of the load before it, and leaves no trace: 60 x 0.8 = 48.
    let phases = "\nphase Easy: week 2, load -20%\n";
    assert_eq!(loads(&project(3, phases, line, "")), ["60", "47.5", "62.5"]);
    let line = line.replace("last +2.5 kg", "last +10%");
    assert_eq!(loads(&project(3, phases, &line, "")), ["60", "47.5", "65"]);
    assert_eq!(loads(&project(3, "", &line, "")), ["60", "65", "72.5"]);
    // On the body it is what was added: 0.8 x 90 - 70 = 2, then 4.5 and 7.
    let line = "Pull-up: 3 x 5 @ last +2.5 kg\n     week 1: 3 x 5 @ 80%\n";
    assert_eq!(loads(&project(3, "", line, "")), ["2.5", "5", "7.5"]);
}

/// A pull-up's max is of the whole system, 70 + 20 kg, a squat's of the bar: each counts as it is.
#[test]
fn a_percentage_of_a_lift_of_another_kind() {
    let of = |line: &str| loads(&project(1, "", line, ""));
    assert_eq!(of("Back squat: 3 x 5 @ 50% of Pull-up, no warm-up\n"), ["45"]);
    assert_eq!(of("Pull-up: 3 x 5 @ 10% of Back squat\n"), ["10"]);
}

#[test]
fn what_rests_on_sessions_to_come_is_projected() {
    let line = "Back squat: 3 x 5 @ 80%, no warm-up\n     when all reps made: max +5 kg\n\n\
                day Two (Thu)\n  A  Back squat: 3 x 5 @ 50%, no warm-up\n  \
                B  Front squat: 3 x 5 @ 40% of Back squat\n  C  Back squat: 3 x 5 @ 50% of 1RM\n  \
                D  Back squat: 3 x 5 @ 50 kg\n";
    let projected = |log: &str| -> Vec<String> {
        let plan = plan_of(&project(2, "", line, log), Assumptions::default());
        let flags = |session: &setwright::plan::Session| {
            let exercises = session.exercises.iter();
            exercises.map(|exercise| if exercise.projected { 'p' } else { '-' }).collect()
        };
        plan.athletes[0].sessions.iter().map(flags).collect()
    };
    assert_eq!(projected(""), ["-", "pp--", "p", "pp--"]);
    // What a logged session changed is certain, until the next one that is not.
    assert_eq!(projected(&log(&[(1, "done")])), ["-", "----", "-", "pp--"]);
}

#[test]
fn a_missed_session_may_be_repeated() {
    let line = "Back squat: 3 x 5 @ 60 kg +5 kg/week, no warm-up\n";
    let skipped = "log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n  2026-01-12 week 2, One: skipped (away)\n";
    let moved_on = project(4, "", line, skipped);
    assert_eq!(loads(&moved_on), ["60", "65", "70", "75"]);
    let repeated = moved_on.replace("weeks: 4\n", "weeks: 4\n  missed session: repeat\n");
    assert_eq!(loads(&repeated), ["60", "65", "65", "70"]);
    // One that no log mentions is made up as well, unless it is said to be done.
    let passed_over = log(&[(1, "done"), (3, "done")]);
    let repeated = project(4, "", line, &passed_over)
        .replace("weeks: 4\n", "weeks: 4\n  missed session: repeat\n");
    assert_eq!(loads(&repeated), ["60", "65", "65", "70"]);
    let assume = |missing| Assumptions { missing, ..Assumptions::default() };
    assert_eq!(loads_with(&repeated, assume(MissingLogPolicy::Missed)), ["60", "65", "65", "70"]);
    assert_eq!(loads_with(&repeated, assume(MissingLogPolicy::Done)), ["60", "65", "70", "75"]);
}

#[test]
fn a_changed_load_says_after_which_session() {
    let plan = plan_of(&project(3, "", LINE, &log(&[(1, "done")])), Assumptions::default());
    let sessions = &plan.athletes[0].sessions;
    let after = |week: usize| -> Vec<(String, bool)> {
        let steps = sessions[week].exercises[0].sets[0].derivation.iter();
        let rules = steps.filter_map(|step| match &step.kind {
            StepKind::Rule { session, projected, .. } => Some((session.clone(), *projected)),
            _ => None,
        });
        rules.collect()
    };
    let first = ("week 1, One (2026-01-05)".to_owned(), false);
    assert_eq!(after(0), []);
    assert_eq!(after(1), std::slice::from_ref(&first));
    assert_eq!(after(2), [first, ("week 2, One".to_owned(), true)]);
}

#[test]
fn what_is_wrong_in_a_log_is_said() {
    let with = |log: &str| codes(&project(2, "", LINE, log));
    let head = "log Robin Vale: Small\n";
    for (sessions, expected) in [
        ("  2026-01-05 week 1, One\n    A Bench press: done\n", "log-mismatch"),
        ("  2026-01-05 week 1, One\n    B: done\n", "unknown-day"),
        ("  2026-01-05 week 1, Two\n    A: done\n", "unknown-day"),
        ("  2026-01-05 week 9, One\n    A: done\n", "week-past-end"),
        ("  2026-01-05 week 1, One\n    A: 5, 5, 5, 5\n", "log-extra-sets"),
        (
            "  2026-01-12 week 1, One\n    A: done\n  2026-01-05 week 2, One\n    A: done\n",
            "log-date-order",
        ),
        (
            "  2026-01-05 week 1, One\n    A: done\n  2026-01-06 week 1, One\n    A: done\n",
            "logged-twice",
        ),
        ("  2026-01-05 week 1, One\n    A: ?\n", "log-unfilled"),
        ("  2026-01-05 week 1, One\n    A: five\n", "bad-result"),
    ] {
        assert!(
            with(&format!("{head}{sessions}")).contains(&expected),
            "{sessions}: {:?}",
            with(&format!("{head}{sessions}"))
        );
    }
    assert!(codes(&project(2, "", LINE, "log Robin Vael: Small\n")).contains(&"unknown-athlete"));
    assert!(codes(&project(2, "", LINE, "log Robin Vale: Smal\n")).contains(&"unknown-programme"));
}

#[test]
fn a_test_in_the_session_stands_over_its_rules() {
    let line = "Back squat: 2 x 5 @ 80%, 1 x 5+ @ 80%, no warm-up\n     when last set >= 8 reps: max +10 kg, sets +1\n";
    let log = "log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: 5, 5, 9\n    max Back squat: 120 kg\n";
    let text = project(2, "", line, log);
    // 120 kg, not 130; the rule's other action stands.
    assert_eq!(loads(&text), ["80", "95"]);
    assert_eq!(super::support::work(&text), ["3 x 5", "4 x 5"]);
    let only = line.replace(", sets +1", "");
    let found = plan_of(&project(2, "", &only, log), Assumptions::default());
    assert_eq!(found.athletes[0].sessions[0].exercises[0].fired, None);
}
