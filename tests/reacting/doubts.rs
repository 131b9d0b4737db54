//! Entries of a log that look like typos, on both sides of each threshold (the thresholds are
//! common practice, no source). A doubtful value counts as written.

use setwright::compile::check;
use setwright::diagnostics::Code;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

use super::support::{log, project};

/// What is doubted in sessions of a line, written in kilograms.
fn doubts(line: &str, sessions: &str) -> Vec<String> {
    let text = project(2, "", line, &format!("log Robin Vale: Small\n{sessions}"));
    let project = Project::from_text(&MemoryLoader::new(), "small.sets", text);
    let found = check(project).diagnostics.into_iter().filter(|d| d.code == Code::LogUnlikely);
    found.map(|found| found.message).collect()
}

/// The same of one result in the first week.
fn doubted(line: &str, result: &str) -> Vec<String> {
    let log = log(&[(1, result)]);
    doubts(line, log.split_once('\n').unwrap().1)
}

#[test]
fn more_than_twice_the_planned_load() {
    let line = "Back squat: 2 x 5 @ 60 kg, no warm-up\n";
    assert!(doubted(line, "5, 5 @ 120 kg").is_empty());
    assert_eq!(doubted(line, "5, 5 @ 122.5 kg"), ["122.5 kg is logged, but 60 kg was planned"]);
    // A set beyond the plan is held against the last planned one.
    let beyond = doubted(line, "5 @ 60 kg, 5, 5 @ 130 kg");
    assert_eq!(beyond, ["130 kg is logged, but 60 kg was planned"]);
    // What is added to the body may well double.
    assert!(doubted("Pull-up: 2 x 5 @ bodyweight +5 kg\n", "5, 5 @ 20 kg").is_empty());
}

#[test]
fn more_than_thirty_and_more_than_three_times_the_repetitions() {
    let line = "Back squat: 2 x 5 @ 60 kg, no warm-up\n";
    assert!(doubted(line, "5, 30").is_empty());
    assert!(doubted(line, "16, 5").is_empty());
    assert_eq!(doubted(line, "5, 31"), ["31 repetitions are logged, but 5 were planned"]);
    // Of a range its upper bound is asked for.
    let range = "Back squat: 2 x 8-12 @ 60 kg, no warm-up\n";
    assert!(doubted(range, "12, 36").is_empty());
    assert_eq!(doubted(range, "12, 37"), ["37 repetitions are logged, but 12 were planned"]);
}

#[test]
fn two_sides_of_what_has_one() {
    let line = "Back squat: 2 x 5 @ 60 kg, no warm-up\n";
    assert_eq!(
        doubted(line, "8/7, 5"),
        ["Back squat is not unilateral: of `8/7`, only the 7 counts"]
    );
    assert!(doubted(line, "8, 5").is_empty());
    let sides = "Back squat: 2 x 5 each side @ 60 kg, no warm-up\n";
    assert!(doubted(sides, "8/7, 5").is_empty());
}

#[test]
fn two_weeks_early_and_sixty_days_late() {
    let line = "Back squat: 2 x 5 @ 60 kg, no warm-up\n";
    let dated = |date: &str| doubts(line, &format!("  {date} week 1, One\n    A: done\n"));
    assert!(dated("2025-12-22").is_empty());
    let planned = "the day it is planned for, 2026-01-05";
    let early = format!("this session is dated 2025-12-21, 15 days before {planned}");
    assert_eq!(dated("2025-12-21"), [early]);
    // 26 days of January, 28 of February, 6 of March.
    assert!(dated("2026-03-06").is_empty());
    let late = format!("this session is dated 2026-03-07, 61 days after {planned}");
    assert_eq!(dated("2026-03-07"), [late]);
}

#[test]
fn a_fifth_of_the_body_mass_known_then() {
    let line = "Back squat: 2 x 5 @ 60 kg, no warm-up\n";
    let weighed = |first: &str, second: &str| {
        doubts(
            line,
            &format!(
                "  2026-01-05 week 1, One\n    A: done\n    body mass: {first} kg\n  \
                 2026-01-12 week 2, One\n    A: done\n    body mass: {second} kg\n"
            ),
        )
    };
    // 70 kg are known: 14 either way; then 84: 16.8 either way.
    assert!(weighed("84", "100.8").is_empty());
    assert!(weighed("56", "56").is_empty());
    assert_eq!(
        weighed("84.5", "84.5"),
        ["a body mass of 84.5 kg is logged, but the one before it was 70 kg"]
    );
    assert_eq!(
        weighed("84", "101"),
        ["a body mass of 101 kg is logged, but the one before it was 84 kg"]
    );
    assert_eq!(
        weighed("55.5", "60"),
        ["a body mass of 55.5 kg is logged, but the one before it was 70 kg"]
    );
}
