//! `setwright exercises` as a coach runs it. The tests define their own exercises, so that the
//! built-in ones may change. All names are invented.

use super::support::{Bench, Ran};

const TEXT: &str = "\
exercise Quarry lift
  also called: Stone lift, Boulder lift from the floor to the shoulder without a stop on the thigh, Pit lift
  equipment: barbell, other Platform
  bar: Crook
  sides: both
  kind: compound
  pattern: hinge
  muscles: glutes, lower back 1/2, neck 1/4
  setup: Feet under the bar.
  cue: Push the floor away, keep the bar so near that it brushes the shins and the thighs on its way, and stand.
  cue: Breathe out at the top.
  swap: Quarry drag, Quarry carry
  safety: Clear floor.
  range: to the hip
  demo: wall chart 3
  source: own observation, 2025
  name de: Steinheben

exercise Quarry drag
  equipment: stack Winch
  kind: compound
  pattern: hinge
  muscles: neck, glutes 1/2
  swap: Quarry row

exercise Quarry carry
  equipment: other Stone
  pattern: carry
  muscles: neck 1/2
  sides: each

exercise Quarry row
  equipment: kettlebell
  kind: isolation
  pattern: horizontal pull
  muscles: neck 3/4

exercise Quarry good morning with a very long name that fits in no column of any table
  equipment: dumbbells, kettlebells, barbell, body mass, stack Winch, band, other Platform, other Stone
  pattern: hinge
  muscles: glutes

gym Pit
  kettlebells: 12, 16 kg
  lacks: Stone

gym Yard
  bar: 20 kg, Crook 15 kg
  plates: 10 kg x 2

athlete Robin Vale
  gym: Yard
  avoid: Quarry drag, carry (physio, until 2026-03-01)
  replace Quarry lift: Quarry row (back)

athlete Ida Corran
  gym: Pit

athlete Nobody's Guest
";

fn run(arguments: &[&str]) -> Ran {
    let bench = Bench::with(TEXT);
    bench.run(&[&["exercises"], arguments, &["--file", "programme.sets"]].concat())
}

fn lines(arguments: &[&str]) -> Vec<String> {
    let ran = run(arguments);
    assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.err);
    for line in ran.out.lines() {
        assert!(line.chars().count() <= 100, "{line}");
        assert_eq!(line, line.trim_end());
    }
    ran.out.lines().map(str::to_owned).collect()
}

fn names(arguments: &[&str]) -> Vec<String> {
    let mut all = arguments.to_vec();
    all.extend(["--format", "json"]);
    let ran = run(&all);
    assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.err);
    let listing: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let found = listing["exercises"].as_array().unwrap();
    found.iter().map(|one| one["name"].as_str().unwrap().replace("Quarry ", "")).collect()
}

fn snapshot(name: &str, text: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| insta::assert_snapshot!(name, text));
}

#[test]
fn a_table_of_what_the_words_find() {
    snapshot("exercises-table", &lines(&["quarry"]).join("\n"));
    snapshot("exercises-ranked", &lines(&["quarry", "--muscle", "neck"]).join("\n"));
}

#[test]
fn a_whole_name_or_a_synonym_shows_everything() {
    let shown = lines(&["quarry", "lift", "--gym", "pit"]).join("\n");
    snapshot("exercises-one", &shown);
    assert_eq!(lines(&["Stone-Lift", "--gym", "Pit"])[0], "Quarry lift");
    assert_eq!(lines(&["quarry lift"])[0], "Quarry lift");
    // Where something narrows the search, it stays a search.
    assert!(lines(&["quarry lift", "--muscle", "neck"])[0].starts_with("1/4   Quarry lift"));
}

#[test]
fn the_same_for_other_programs() {
    let ran = run(&["quarry lift", "--athlete", "Robin Vale", "--format", "json"]);
    snapshot("exercises-json", &ran.out);
}

#[test]
fn filters_hold_together() {
    assert_eq!(names(&["quarry", "--muscle", "Neck"]), ["drag", "row", "carry", "lift"]);
    assert_eq!(names(&["quarry", "--muscle", "neck", "--pattern", "hinge"]), ["drag", "lift"]);
    assert_eq!(names(&["quarry", "--compound"]), ["lift", "drag"]);
    assert_eq!(names(&["quarry", "--isolation"]), ["row"]);
    assert_eq!(names(&["quarry", "--one-sided"]), ["carry"]);
    assert_eq!(names(&["quarry", "--equipment", "kettlebell"]), ["row"]);
    assert_eq!(names(&["quarry", "--equipment", "stone"])[0], "carry");
    assert_eq!(names(&["quarry", "--equipment", "winch"])[0], "drag");
    assert_eq!(names(&["quarry", "--gym", "Yard", "--muscle", "neck"]), ["carry", "lift"]);
}

#[test]
fn an_athlete_is_not_offered_what_they_avoid_or_replace() {
    let of = |arguments: &[&str]| names(&[&["quarry", "--muscle", "neck"], arguments].concat());
    assert_eq!(of(&["--athlete", "Ida Corran"]), ["row"]);
    let ran = run(&["quarry", "--muscle", "neck", "--athlete", "Robin Vale"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    for why in [
        "Quarry drag: Robin Vale must avoid Quarry drag",
        "Quarry row: the gym `Yard` has no kettlebell",
        "Quarry carry: Robin Vale must avoid carry until 2026-03-01",
        "and 1 more",
    ] {
        assert!(ran.err.contains(why), "{}", ran.err);
    }
    // Another gym than the athlete's own.
    assert_eq!(of(&["--athlete", "Robin Vale", "--gym", "Pit"]), ["row"]);
}

#[test]
fn a_wrong_name_is_an_error_with_the_nearest() {
    for (arguments, message) in [
        (["--muscle", "hamstring"], "there is no muscle `hamstring`: did you mean `hamstrings`?"),
        (["--pattern", "vertical pul"], "did you mean `vertical pull`?"),
        (["--equipment", "kettelbell"], "did you mean `kettlebell`?"),
        (["--equipment", "Winsh"], "did you mean `Winch`?"),
        (["--gym", "Yart"], "there is no gym `Yart`: did you mean `Yard`?"),
        (["--athlete", "Robin Vael"], "did you mean `Robin Vale`?"),
        (["--athlete", "Nobody's Guest"], "has no known gym: choose one with --gym"),
    ] {
        let ran = run(&arguments);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(message), "{arguments:?}: {}", ran.err);
    }
    let bench = Bench::new();
    for filter in ["--gym", "--athlete"] {
        let ran = bench.run(&["exercises", filter, "Yard"]);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains("--file"), "{}", ran.err);
    }
}

#[test]
fn nothing_found_says_so() {
    let ran = run(&["Qarry", "lift"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("no exercise matches `Qarry lift`: did you mean `Quarry lift`?"));
    let ran = run(&["zzz", "--muscle", "neck", "--one-sided"]);
    let message =
        "no exercise matches `zzz`, the muscle `neck`, unilateral exercises: use fewer words";
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains(message), "{}", ran.err);
}

#[test]
fn without_words_every_exercise_is_listed_once() {
    let all = names(&[]);
    let bench = Bench::with("exercise Back squat\n  cue: Sit.\n");
    let ran = bench.run(&["exercises", "--file", "programme.sets", "--format", "json"]);
    let listing: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let found = listing["exercises"].as_array().unwrap();
    let squats: Vec<_> = found.iter().filter(|one| one["name"] == "Back squat").collect();
    assert_eq!((squats.len(), &squats[0]["cues"]), (1, &serde_json::json!(["Sit."])));
    assert_eq!(found.len() + 5, all.len());
}
