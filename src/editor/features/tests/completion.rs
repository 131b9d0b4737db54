use super::club;
use crate::editor::features::marked::{marked, marked_with};
use crate::editor::features::{Completion, complete};

fn at(text: &str) -> Vec<Completion> {
    let (analysis, file, at) = marked(text);
    complete(&analysis, file, at)
}

fn labels(text: &str) -> Vec<String> {
    at(text).into_iter().map(|found| found.label).collect()
}

/// The text after the first completion is accepted.
fn taken(text: &str) -> String {
    let (analysis, file, at) = marked(text);
    let found = complete(&analysis, file, at);
    let first = found.first().unwrap_or_else(|| panic!("nothing at {text:?}"));
    let plain = text.replacen('|', "", 1);
    crate::editor::features::edits::apply(&plain, file, &[(first.replace, first.insert.clone())])
}

#[test]
fn the_first_offer_is_what_a_coach_means() {
    let day = |line: &str| format!("day D\n  {line}");
    for (text, wanted) in [
        ("ath|".to_owned(), "athlete ".to_owned()),
        ("gym Club\n  pla|".into(), "gym Club\n  plates: ".into()),
        ("gym Club\n  pla|: 20 kg".into(), "gym Club\n  plates: 20 kg".into()),
        ("gym Club\n  rounding: d|".into(), "gym Club\n  rounding: down".into()),
        ("gym Club\n  bar: 20|".into(), "gym Club\n  bar: 20 kg".into()),
        (day("A1 Back sq|"), day("A1 Back squat: ")),
        (day("A1 back sq|: 3 x 5"), day("A1 Back squat: 3 x 5")),
        (day("A Back squat: 3 x 5, re|"), day("A Back squat: 3 x 5, rest 2:00")),
        (day("A Back squat: 3 x 5, re|, RPE 8"), day("A Back squat: 3 x 5, rest 2:00, RPE 8")),
        (day("A Back squat: 3 x 5 @ RI|"), day("A Back squat: 3 x 5 @ RIR 2")),
        (day("A Back squat: 3 x 5 @ 75% of 1|"), day("A Back squat: 3 x 5 @ 75% of 1RM")),
        (
            day("A Back squat: 3 x 5 @ 40% of Front sq|"),
            day("A Back squat: 3 x 5 @ 40% of Front squat"),
        ),
        (day("A Plank: 3 x 30 |"), day("A Plank: 3 x 30 @ ")),
        (day("A Plank: 3 x 30 mi|"), day("A Plank: 3 x 30 min")),
        (day("A1 Back sq| 3 x 5"), day("A1 Back squat: 3 x 5")),
        (day("A Back squat: 3 x 5, re| RPE 8"), day("A Back squat: 3 x 5, rest 2:00 RPE 8")),
        (day("A: cir|"), day("A: circuit 3 rounds")),
        (day("A X: 3 x 5\n    when top|"), day("A X: 3 x 5\n    when top of range: ")),
        (
            day("A X: 3 x 5\n    when top of range and RPE <|: hold"),
            day("A X: 3 x 5\n    when top of range and RPE <= 7: hold"),
        ),
        (
            day("A X: 3 x 5\n    when top of range: load u|"),
            day("A X: 3 x 5\n    when top of range: load up one"),
        ),
        ("day D (m|".into(), "day D (Mon)".into()),
        (
            "exercise X\n  muscles: glutes, ham|".into(),
            "exercise X\n  muscles: glutes, hamstrings".into(),
        ),
        ("exercise X\n  equipment: dumb|".into(), "exercise X\n  equipment: dumbbells".into()),
        ("exercise X\n  like: Split|".into(), "exercise X\n  like: Split squat".into()),
        ("programme P\n  estimate: wa|".into(), "programme P\n  estimate: Wathen".into()),
        (
            "programme P\n  advice: allow late|".into(),
            "programme P\n  advice: allow late-compound".into(),
        ),
        ("athlete A\n  max bench pr|".into(), "athlete A\n  max Bench press: ".into()),
        ("athlete A\n  language: |".into(), "athlete A\n  language: en".into()),
    ] {
        assert_eq!(taken(&text), wanted);
    }
}

#[test]
fn names_of_the_project_are_found_without_case_and_accents() {
    for (of, by, first) in [
        ("follow: Small jumps, jump 2.5 kg", "follow: sm|", "Small jumps"),
        ("    for Ana Brook: 3", "    for zof|: 3", "Žofie Łęska"),
        ("athletes: Ana Brook, Žofie Łęska", "athletes: Ana Brook, zof|", "Žofie Łęska"),
        ("log Ana Brook: Winter", "log Ana Brook: win|", "Winter"),
        ("log Ana Brook: Winter", "log an|: Winter", "Ana Brook"),
        ("week 1, Lower 1", "week 1, lo|", "Lower 1"),
        ("gym: Club", "gym: cl|", "Club"),
        ("B2 Split squat: 3", "B2 tempo sq|: 3", "Tempo squat"),
        ("B2 Split squat: 3", "B2 slow|: 3", "Slow squat"),
    ] {
        let found = labels(&club(of, by));
        assert_eq!(found.first().map(String::as_str), Some(first), "{by}: {found:?}");
    }
}

#[test]
fn a_scheme_comes_with_its_parameters() {
    let text = club("follow: Small jumps, jump 2.5 kg", "follow: sm|");
    assert!(taken(&text).contains("follow: Small jumps, jump 2.5 kg\n"));
    let text = club("follow: Small jumps, jump 2.5 kg", "follow: sm|, jump 2 kg");
    assert!(taken(&text).contains("follow: Small jumps, jump 2 kg\n"));
}

#[test]
fn loads_are_those_that_the_gym_can_make() {
    let found = at(&club("@ 70% -> 75%", "@ 8|"));
    let shown: Vec<&str> = found.iter().map(|found| found.label.as_str()).collect();
    assert_eq!(shown.get(..3), Some(&["80 kg", "82.5 kg", "85 kg"][..]), "{shown:?}");
    assert_eq!(found[0].detail.as_deref(), Some("20 kg bar, 20 + 10 a side"));
    assert_eq!(shown.get(4..6), Some(&["80%", "82.5%"][..]), "{shown:?}");
    // A dumbbell exercise takes dumbbells; a body-mass exercise takes added load.
    let found = labels(&club("@ 16 kg", "@ 1|"));
    assert_eq!(
        found.get(..3),
        Some(&["10 kg", "12 kg", "14 kg"].map(str::to_owned)[..]),
        "{found:?}"
    );
    let found = labels(&club(
        "B2 Split squat: 3 x 8 each side @ 16 kg",
        "B2 Pull-up: 3 x 5 @ bodyweight +1|",
    ));
    assert_eq!(found.first().map(String::as_str), Some("1.25 kg"), "{found:?}");
    let logged = labels(&club("A Back squat: done", "A: 5, 5, 5 @ 7|"));
    assert_eq!(logged.first().map(String::as_str), Some("70 kg"), "{logged:?}");
}

#[test]
fn what_no_gym_can_load_comes_last_with_the_reason() {
    let found = at("gym Home\n  dumbbells: 4-20 kg by 2 kg\n\nday D\n  A squat|");
    let place = |name: &str| found.iter().position(|found| found.label == name);
    assert!(place("Goblet squat") < place("Back squat"), "{:?}", place("Back squat"));
    let barbell = found.iter().find(|found| found.label == "Back squat");
    let detail = barbell.and_then(|found| found.detail.clone()).unwrap_or_default();
    assert!(detail.ends_with("the gym `Home` has no bar"), "{detail}");
}

#[test]
fn a_key_that_stands_already_is_not_offered_again() {
    let found = labels("gym Club\n  bar: 20 kg\n  |\n  rounding: down\n");
    assert!(!found.contains(&"bar".to_owned()) && !found.contains(&"rounding".to_owned()));
    assert!(found.contains(&"plates".to_owned()) && found.contains(&"note".to_owned()));
}

#[test]
fn the_next_order_letters_are_offered() {
    let found = labels("day D\n  A Back squat: 3 x 5\n  B1 Plank: 3 x 30 s\n  |");
    assert_eq!(found.get(..3), Some(&["B2", "C", "C1"].map(str::to_owned)[..]), "{found:?}");
}

#[test]
fn a_log_offers_what_the_plan_has_and_the_log_has_not() {
    let found = labels(&club("    B1 Slow squat: 10, 10, 10\n", "    |\n"));
    assert_eq!(found.get(..2), Some(&["B1 Slow squat", "B2 Split squat"].map(str::to_owned)[..]));
    let dated = club("  weeks: 3\n", "  weeks: 3\n  starts: 2026-01-05\n");
    let found = labels(&format!("{dated}  |\n"));
    assert_eq!(found.first().map(String::as_str), Some("2026-01-12 week 2, Lower 1"));
}

#[test]
fn files_of_the_project_are_offered() {
    let (analysis, file, at) = marked_with(
        "use gym.sets\nuse squad.sets\nuse |",
        &[("gym.sets", "gym A"), ("squad.sets", "athlete B")],
    );
    let found = complete(&analysis, file, at);
    let labels: Vec<&str> = found.iter().map(|found| found.label.as_str()).collect();
    assert_eq!(labels, ["gym.sets", "squad.sets"]);
}

#[test]
fn texts_and_comments_get_none() {
    for text in ["gym A  # b|", "day D\n  note: be|", "gym N|", "athlete A\n  level: b|"] {
        assert_eq!(labels(text), Vec::<String>::new(), "{text}");
    }
}
