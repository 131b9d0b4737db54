//! Cases of the notation, each a file in `cases/` with its snapshot next to it. A snapshot shows
//! the source, its standard format and every problem as a terminal prints it, so that it can be
//! reviewed on its own. Names are invented, and the numbers have no meaning.
//!
//! `INSTA_UPDATE=always cargo test --test notation` accepts what changed; read the diff.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests may fail loudly and stand at the edge"
)]

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::{Path, PathBuf};

use setwright::compile::check;
use setwright::diagnostics::render_text;
use setwright::resolve::Project;
use setwright::source::{FileId, MemoryLoader};
use setwright::syntax::{format, parse};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/notation/cases")
}

/// Source, standard format and diagnostics of one case.
fn show(name: &str) -> String {
    let path = format!("{name}.sets");
    let text = std::fs::read_to_string(folder().join(&path)).unwrap();
    let (document, _) = parse(&text, FileId(0));
    let mut out = format!("{text}\n======== standard format\n");
    match format(&document, &text) {
        None => out.push_str("(none: a line did not read)\n"),
        Some(canonical) if canonical == text => out.push_str("(the source)\n"),
        Some(canonical) => out.push_str(&canonical),
    }
    let checked = check(Project::from_text(&MemoryLoader::new(), &path, text));
    write!(out, "\n======== diagnostics: {}\n", checked.diagnostics.len()).unwrap();
    for diagnostic in &checked.diagnostics {
        out.push_str(render_text(diagnostic, &checked.sources, false).trim_end());
        out.push_str("\n\n");
    }
    out
}

/// What is meant to read does: a case that is not called `wrong-…` has no finding.
fn compare(name: &str) {
    let shown = show(name);
    let is_wrong = !shown.contains("\n======== diagnostics: 0\n");
    assert_eq!(is_wrong, name.starts_with("wrong-"), "{shown}");
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(folder());
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| insta::assert_snapshot!(name, shown));
}

macro_rules! cases {
    ($($test:ident = $name:literal,)*) => {
        const NAMES: &[&str] = &[$($name,)*];
        $(#[test] fn $test() { compare($name); })*
    };
}

cases! {
    athlete = "athlete",
    comments = "comments",
    exercise = "exercise",
    groups = "groups",
    gym = "gym",
    loads = "loads",
    logs = "logs",
    options = "options",
    programme = "programme",
    rules = "rules",
    sets_and_reps = "sets-and-reps",
    sources = "sources",
    spellings = "spellings",
    weeks = "weeks",
    wrong_athlete = "wrong-athlete",
    wrong_avoid_words = "wrong-avoid-words",
    wrong_blocks = "wrong-blocks",
    wrong_groups = "wrong-groups",
    wrong_gym = "wrong-gym",
    wrong_hashes = "wrong-hashes",
    wrong_keys = "wrong-keys",
    wrong_left_open = "wrong-left-open",
    wrong_letters = "wrong-letters",
    wrong_logs = "wrong-logs",
    wrong_names = "wrong-names",
    wrong_numbers = "wrong-numbers",
    wrong_old_words = "wrong-old-words",
    wrong_parts = "wrong-parts",
    wrong_prescriptions = "wrong-prescriptions",
    wrong_replacement = "wrong-replacement",
    wrong_rule_effects = "wrong-rule-effects",
    wrong_rule_numbers = "wrong-rule-numbers",
    wrong_rule_order = "wrong-rule-order",
    wrong_rules = "wrong-rules",
    wrong_sources = "wrong-sources",
    wrong_units = "wrong-units",
    wrong_weekdays = "wrong-weekdays",
    wrong_weekdays_in_names = "wrong-weekdays-in-names",
    wrong_weeks = "wrong-weeks",
    wrong_work = "wrong-work",
}

#[test]
fn every_case_is_compared() {
    let listed: BTreeSet<String> = NAMES.iter().map(|name| (*name).to_owned()).collect();
    let files = std::fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let found: BTreeSet<String> = files
        .filter(|path| path.extension().is_some_and(|e| e == "sets"))
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    assert_eq!(listed, found);
}

/// How many findings a small programme has with this text at its end.
fn findings_of(end: &str) -> usize {
    let text = format!(
        "athlete Perrin Oake\n  note: None.\n\nprogramme Small\n  weeks: 2\n\nday One\n  \
         A Push-up: 3 x 5\n  B Plank: 3 x 30 s\n{end}"
    );
    check(Project::from_text(&MemoryLoader::new(), "small.sets", text)).diagnostics.len()
}

#[test]
fn the_small_programme_itself_is_right() {
    assert_eq!(findings_of(""), 0);
    assert_eq!(findings_of("    week 2: 2 x 30 s\n"), 0);
}

/// NOTATION.md, "`week 4:` under an exercise": "what they name; what they leave out stays".
#[test]
fn a_week_line_may_name_its_sets_alone() {
    assert_eq!(findings_of("    week 2: 2 sets\n"), 0);
}

/// The grammar's `result_reps` offers a clock.
#[test]
fn a_log_may_give_a_time_as_a_clock() {
    assert_eq!(findings_of("log Perrin Oake: Small\n  2026-01-05 week 1, One\n    B: 1:30\n"), 0);
}

/// NOTATION.md, "Keys of each block": any repeated key but `cue`, `note`, `limit` is an error.
#[test]
fn a_second_otherwise_is_a_repetition() {
    assert_eq!(findings_of("    otherwise: hold\n    otherwise: reps +1\n"), 1);
}

/// NOTATION.md, the row of `log`: a name that disagrees with the plan is an error.
#[test]
fn a_log_that_names_another_exercise_is_an_error() {
    let log = "log Perrin Oake: Small\n  2026-01-05 week 1, One\n    A Plank: done\n";
    assert_eq!(findings_of(log), 1);
}

/// As a `week n:` line past the programme's end is.
#[test]
fn a_log_of_a_week_past_the_end_is_an_error() {
    let log = "log Perrin Oake: Small\n  2026-01-05 week 3, One\n    A: done\n";
    assert_eq!(findings_of(log), 1);
}

/// Principle 4: nothing is guessed in silence. Which of the two is meant?
#[test]
fn two_efforts_for_one_group_are_an_error() {
    assert_eq!(findings_of("  C Push-up: 3 x 8 @ RPE 8, RIR 1\n"), 1);
}

/// Any other repeated option is an error that labels both.
#[test]
fn a_group_line_that_rests_twice_is_an_error() {
    let group = "  C: rest 60 s, rest 90 s\n  C1 Push-up: 3 x 5\n  C2 Plank: 3 x 30 s\n";
    assert_eq!(findings_of(group), 1);
}

/// One mistake, one finding.
#[test]
fn a_number_out_of_range_is_one_finding() {
    let text = "gym Shed\n  bar: 20 kg\n  plates: 10 kg x 4, 1 kg x 2\n\nathlete Perrin Oake\n  gym: Shed\n\n\
                programme Small\n  weeks: 1\n\nday One\n  A Back squat: 3 x 5 @ 20000 kg\n";
    let project = Project::from_text(&MemoryLoader::new(), "small.sets", text.to_owned());
    assert_eq!(check(project).diagnostics.len(), 1);
}

/// One mistake, one finding.
#[test]
fn a_repeated_max_is_one_finding() {
    let text = "athlete Perrin Oake\n  max Back squat: 100 kg\n  max Back squat: 110 kg\n";
    let project = Project::from_text(&MemoryLoader::new(), "small.sets", text.to_owned());
    assert_eq!(check(project).diagnostics.len(), 1);
}
