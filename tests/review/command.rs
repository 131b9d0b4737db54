//! `setwright review` as a coach runs it.

use std::path::Path;

use super::support::{Bench, example, programme};

/// Snapshots stand beside these tests, under their own names.
pub fn settings() -> insta::Settings {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings
}

#[test]
fn the_rowing_club_so_far_as_text() {
    let bench = Bench::new();
    let ran = bench.run(&["review", &example("rowing-club/winter-so-far.sets")]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    for line in ran.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
        assert_eq!(line, line.trim_end());
    }
    settings().bind(|| insta::assert_snapshot!("rowing-club-text", ran.out));
}

#[test]
fn one_of_the_rowing_club_as_json() {
    let bench = Bench::new();
    let file = example("rowing-club/winter-so-far.sets");
    let ran = bench.run(&["review", &file, "--athlete", "Delphine Marrowgate", "--format", "json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let mut value: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(value["athletes"].as_array().unwrap().len(), 1);
    // No number has the noise of a float.
    for number in ran.out.split(|c: char| !c.is_ascii_digit() && c != '.') {
        let places = number.split_once('.').map_or(0, |(_, part)| part.len());
        assert!(places <= 6, "{number}");
    }
    // One week stands for all.
    value["athletes"][0]["weeks"].as_array_mut().unwrap().retain(|week| week["week"] == 3);
    let text = serde_json::to_string_pretty(&value).unwrap();
    settings().bind(|| insta::assert_snapshot!("delphine-json", text));
}

#[test]
fn the_plan_without_logs_stays_as_it_was() {
    let bench = Bench::new();
    let ran = bench.run(&["review", &example("rowing-club/winter.sets")]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(ran.out.matches("Nothing logged yet.").count(), 6);
}

#[test]
fn a_pdf_is_written_whole_and_is_the_same_again() {
    let bench = Bench::new();
    let file = example("rowing-club/winter-so-far.sets");
    let ran = bench.run(&["review", &file, "--format", "pdf"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.err.contains("winter-so-far-review.pdf: the review of 6 athletes"), "{}", ran.err);
    let first = std::fs::read(bench.path("winter-so-far-review.pdf")).unwrap();
    assert!(first.starts_with(b"%PDF-1.7"));
    let again = bench.run(&["review", &file, "--format", "pdf", "-o", "-"]);
    assert_eq!(again.bytes, first);
}

#[test]
fn exit_codes_tell_what_went_wrong() {
    let bench = Bench::with(programme("  B Nothing known: 3 x 5\n"));
    let code = |arguments: &[&str]| {
        let mut all = vec!["review"];
        all.extend(arguments);
        bench.run(&all).code
    };
    assert_eq!(code(&["programme.sets"]), 1);
    let good = example("rowing-club/winter-so-far.sets");
    assert_eq!(code(&[&good, "--athlete", "Nobody"]), 2);
    assert_eq!(code(&[&good, "--format", "poster"]), 2);
    assert_eq!(code(&["nowhere.sets"]), 3);
    assert_eq!(code(&[&good, "-o", "text.txt"]), 0);
    assert!(Path::new(&bench.path("text.txt")).exists());
    let epoch = [("SOURCE_DATE_EPOCH", "soon")];
    let ran = bench.run_with(&["review", &good, "--format", "pdf"], None, &epoch);
    assert_eq!(ran.code, 2);
}
