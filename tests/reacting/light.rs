//! Sets done with less than prescribed, numbers that make no sense, and rules that never act or
//! change nothing: the loads of the next session.

use setwright::compile::check;
use setwright::diagnostics::render_text;
use setwright::evaluate::Assumptions;
use setwright::resolve::Project;
use setwright::sheets::summary;
use setwright::source::MemoryLoader;

use super::support::{loads, log, plan_of, project, work};

fn squat(sets: &str, rules: &[&str], results: &[(u32, &str)]) -> String {
    let mut line = format!("Back squat: {sets}, no warm-up\n");
    for rule in rules {
        line.push_str(&format!("     {rule}\n"));
    }
    project(2, "", &line, &log(results))
}

/// The codes of what `check` finds, advice aside.
fn codes(text: &str) -> Vec<&'static str> {
    let project = Project::from_text(&MemoryLoader::new(), "small.sets", text.to_owned());
    check(project).diagnostics.iter().map(|found| found.code.name()).collect()
}

/// Common practice, no source: less than asked does not earn more.
#[test]
fn a_light_set_earns_nothing_whatever_the_condition() {
    for (rules, next) in [
        (&["when last set < 5 reps: load -10%", "otherwise: load +5 kg"][..], "60"),
        (&["when RPE <= 7: load +5 kg"], "60"),
        (&["when pain <= 2: load up one"], "60"),
        (&["when every 1 session: load +5 kg"], "60"),
        (&["when every 1 week: load +2.5 kg"], "60"),
        (&["when all reps made: load +5 kg", "when top of range: load +5 kg"], "60"),
        (&["when last set >= 5 reps: load +5 kg"], "60"),
        // A rule that raises nothing is tried next.
        (&["when RPE <= 7: load +5 kg", "otherwise: load -10 kg"], "50"),
        // It counts as missed.
        (&["when RPE <= 7: load +5 kg", "when any rep missed: load -10 kg"], "50"),
        (&["when missed 1 in a row: load -10 kg"], "50"),
        // The repetitions were not few.
        (&["when last set < 5 reps: load -10 kg"], "60"),
        (&["when last set <= 5 reps: load -10 kg"], "50"),
    ] {
        let light = [(1, "5, 5, 5 @ 57.5 kg, RPE 7, pain 1")];
        assert_eq!(loads(&squat("3 x 5 @ 60 kg", rules, &light)), ["60", next], "{rules:?}");
    }
    // With the asked load each reward is earned.
    for rule in
        ["otherwise: load +5 kg", "when RPE <= 7: load +5 kg", "when every 1 session: load +5 kg"]
    {
        let text = squat("3 x 5 @ 60 kg", &[rule], &[(1, "5, 5, 5 @ 60 kg, RPE 7")]);
        assert_eq!(loads(&text), ["60", "65"], "{rule}");
    }
}

#[test]
fn repetitions_and_sets_do_not_go_up_after_a_light_set_either() {
    let light = [(1, "8, 8, 8 @ 50 kg")];
    for rule in ["otherwise: reps +1", "otherwise: sets +1", "otherwise: max +5 kg"] {
        let text = squat("3 x 5-8 @ 60%", &[rule], &light);
        assert_eq!(work(&text), ["3 x 5-8", "3 x 5-8"], "{rule}");
        assert_eq!(loads(&text), ["60", "60"], "{rule}");
    }
}

/// An earlier set may be light: the last one answers for itself, as it does for missed repetitions.
#[test]
fn the_last_set_answers_for_itself() {
    let rules = ["when last set >= 8 reps: load +5 kg", "otherwise: load +2.5 kg"];
    let sets = "2 x 5 @ 60 kg, 1 x 5+ @ 60 kg";
    for (result, next) in [
        ("5 @ 60 kg, 5 @ 55 kg, 9 @ 60 kg", "65"),
        ("5 @ 60 kg, 5 @ 60 kg, 9 @ 55 kg", "60"),
        ("5 @ 60 kg, 5 @ 55 kg, 6 @ 60 kg", "60"),
    ] {
        assert_eq!(loads(&squat(sets, &rules, &[(1, result)])), ["60", next], "{result}");
    }
}

#[test]
fn the_card_after_a_light_session_asks_for_the_same_load() {
    let rules = ["when last set < 5 reps: load -10%", "otherwise: load +5 kg"];
    let text = squat("3 x 5 @ 60 kg", &rules, &[(1, "5, 5, 5 @ 57.5 kg")]);
    let shown = summary(&plan_of(&text, Assumptions::default()));
    let lines: Vec<&str> =
        shown.lines().filter(|line| line.starts_with("A ") || line.contains("Next time")).collect();
    assert_eq!(
        lines,
        [
            "A   Back squat             3 x 5 @ 60 kg  (20 a side)",
            "      Next time: last set < 5 reps: load -10%",
            "      Next time: otherwise: load +5 kg",
            "A   Back squat             3 x 5 @ 60 kg  (20 a side)",
        ]
    );
}

/// The first rule acts in each pair, and the second is reported; in the other order both may act.
#[test]
fn of_two_rules_the_first_that_holds_acts() {
    let sets = "2 x 5 @ 60 kg, 1 x 5+ @ 60 kg";
    for (rules, result, next, swapped) in [
        (
            ["when last set >= 8 reps: load +2.5 kg", "when last set >= 10 reps: load +5 kg"],
            "5, 5, 10",
            "62.5",
            "65",
        ),
        (["otherwise: load +2.5 kg", "when all reps made: load +5 kg"], "5, 5, 5", "62.5", "65"),
        (["when RPE <= 8: load +2.5 kg", "when RPE <= 7: load +5 kg"], "done, RPE 7", "62.5", "65"),
        (["when pain >= 3: hold", "when pain >= 5: load -10 kg"], "done, pain 5", "60", "50"),
        (
            ["when any rep missed: load -5 kg", "when missed 1 in a row: load -10 kg"],
            "5, 5, 4",
            "55",
            "50",
        ),
    ] {
        let text = squat(sets, &rules, &[(1, result)]);
        assert_eq!(loads(&text), ["60", next], "{rules:?}");
        assert_eq!(codes(&text), ["rule-never-acts"], "{rules:?}");
        let other = squat(sets, &[rules[1], rules[0]], &[(1, result)]);
        assert_eq!(loads(&other), ["60", swapped], "{rules:?}");
    }
}

/// The fix puts the dead rule before the one that covers it; what is between keeps its order.
#[test]
fn the_fix_puts_the_stricter_rule_first() {
    let rules = [
        "when last set >= 8 reps: load +2.5 kg",
        "when pain >= 3: load -10%",
        "when last set >= 10 reps: load +5 kg",
    ];
    let mut text = squat("2 x 5 @ 60 kg, 1 x 5+ @ 60 kg", &rules, &[(1, "5, 5, 10")]);
    let checked = check(Project::from_text(&MemoryLoader::new(), "small.sets", text.clone()));
    let mut edits = checked.diagnostics[0].fixes[0].edits.clone();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span.start));
    for edit in edits {
        text.replace_range(edit.span.start as usize..edit.span.end as usize, &edit.text);
    }
    assert_eq!(
        text,
        squat("2 x 5 @ 60 kg, 1 x 5+ @ 60 kg", &[rules[2], rules[0], rules[1]], &[(1, "5, 5, 10")])
    );
    assert_eq!(codes(&text), [""; 0]);
    assert_eq!(loads(&text), ["60", "65"]);
}

#[test]
fn rules_that_may_act_are_not_reported() {
    let sets = "2 x 5 @ 60 kg, 1 x 5+ @ 60 kg";
    for rules in [
        ["when last set >= 10 reps: load +5 kg", "when last set >= 8 reps: load +2.5 kg"],
        ["when all reps made and RPE <= 7: load +5 kg", "when all reps made: load +2.5 kg"],
        ["when missed 2 in a row: load -10%", "when any rep missed: hold"],
        ["when last set < 5 reps: load -5%", "when any rep missed: hold"],
        ["when all reps made: load +2.5 kg", "otherwise: hold"],
        ["when last set >= 6 reps 2 in a row: load +5 kg", "when last set >= 6 reps: sets +1"],
    ] {
        assert_eq!(codes(&squat(sets, &rules, &[])), [""; 0], "{rules:?}");
    }
}

#[test]
fn what_changes_nothing_leaves_the_next_session_as_it_is() {
    for (sets, rule) in [
        ("3 x 5 @ 60 kg", "when all reps made: reps +1"),
        ("3 x 5 @ 60 kg", "when all reps made: max +10 kg"),
        ("3 x 5 @ 60% of 1RM", "when all reps made: max +10 kg"),
        ("3 x 5-8 @ 60 kg", "when all reps made: reps -1"),
        ("3 x 5-8 @ 60 kg", "when all reps made: load +0 kg"),
        ("1 x 5 @ 60 kg", "when all reps made: sets -1"),
    ] {
        let text = squat(sets, &[rule], &[]);
        let plan = work(&text);
        assert_eq!(plan[0], plan[1], "{rule}");
        assert_eq!(loads(&text), ["60", "60"], "{rule}");
        assert_eq!(codes(&text), ["rule-without-effect"], "{rule}");
    }
}

/// Metres and seconds are no repetitions: the max stays.
#[test]
fn no_max_comes_from_a_timed_set() {
    let line =
        "Back squat: 3 x 30 s @ 60%, no warm-up\n     when all reps made: max from last set\n";
    let text = project(2, "", line, "");
    assert_eq!(loads(&text), ["60", "60"]);
    assert_eq!(codes(&text), ["rule-without-effect"]);
}

#[test]
fn numbers_out_of_range_are_errors() {
    for rule in [
        "when RPE <= 80: load +5 kg",
        "when pain >= 30: load -10%",
        "when every 0 sessions: load +5 kg",
        "when every 0 weeks: load -10 kg",
        "when missed 0 in a row: load -10 kg",
        "when last set >= 8 reps 0 in a row: load +5 kg",
        "when last set >= 2000 reps: load +5 kg",
    ] {
        assert_eq!(codes(&squat("3 x 5 @ 60 kg", &[rule], &[])), ["number-out-of-range"], "{rule}");
    }
    let rule = "when all reps made: load -100%";
    assert!(codes(&squat("3 x 5 @ 60 kg", &[rule], &[])).contains(&"number-out-of-range"));
}

#[test]
fn a_rule_of_a_scheme_is_reported_once_where_it_is_wrong_on_all_lines() {
    let scheme =
        "scheme Misses\n  when any rep missed: hold\n  when missed 2 in a row: load -10%\n\n";
    let line = "Back squat: 3 x 5 @ 60 kg\n     follow: Misses\n  B  Back squat: 3 x 5 @ 50 kg\n     follow: Misses\n";
    let text = format!("{scheme}{}", project(4, "", line, ""));
    let loader = MemoryLoader::new();
    let checked = check(Project::from_text(&loader, "small.sets", text));
    let shown: Vec<String> =
        checked.diagnostics.iter().map(|d| render_text(d, &checked.sources, false)).collect();
    assert_eq!(shown.len(), 1, "{}", shown.concat());
    assert!(shown[0].contains("small.sets:3:"), "{}", shown[0]);
}

/// Bounds: common practice, no source. The rule acts as written; the fix turns it round.
#[test]
fn rules_that_point_the_wrong_way() {
    let sets = "3 x 5 @ 60 kg";
    for (rule, result, next, meant) in [
        ("when any rep missed: load +5 kg", "5, 5, 4", "65", "load -5 kg"),
        ("when last set < 5 reps: load +5 kg", "5, 5, 4", "65", "load -5 kg"),
        ("when RPE >= 9: load +5 kg", "5, 5, 5, RPE 9", "65", "load -5 kg"),
        ("when pain >= 4: load +5 kg", "5, 5, 5, pain 5", "65", "load -5 kg"),
        ("when any rep missed: load up one", "5, 5, 4", "62.5", "load down one"),
        ("when all reps made: load -5 kg", "5, 5, 5", "55", "load +5 kg"),
        ("when last set >= 5 reps: load -5 kg", "5, 5, 5", "55", "load +5 kg"),
        ("when RPE <= 7: load -5 kg", "5, 5, 5, RPE 6", "55", "load +5 kg"),
        ("when any rep missed: load -50%", "5, 5, 4", "30", "load -5%"),
    ] {
        let text = squat(sets, &[rule], &[(1, result)]);
        assert_eq!(loads(&text), ["60", next], "{rule}");
        assert_eq!(codes(&text), ["rule-direction"], "{rule}");
        let project = Project::from_text(&MemoryLoader::new(), "small.sets", text.clone());
        let found = &check(project).diagnostics[0];
        assert_eq!(found.fixes[0].edits[0].text, meant, "{rule}");
        assert!(!found.fixes[0].safe, "{rule}");
    }
    // No set of five has fifty repetitions: the load drops after every session.
    let text = squat(sets, &["when last set < 50 reps: load -5 kg"], &[(1, "5, 5, 5")]);
    assert_eq!(loads(&text), ["60", "55"]);
    assert_eq!(codes(&text), ["rule-direction"]);
}

#[test]
fn rules_that_may_be_meant_are_not_turned_round() {
    for (sets, rules) in [
        ("3 x 5-8 @ 60 kg", &["when top of range: load +5 kg, reps to bottom"][..]),
        ("3 x 5-8 @ 60 kg", &["when any rep missed: sets +1, load -10%"][..]),
        ("3 x 5 @ 60 kg", &["when all reps made and RPE >= 9: load -2.5 kg"][..]),
        ("3 x 5 @ 60 kg", &["when all reps made and RPE >= 8: load +2.5 kg"][..]),
        ("3 x 5 @ 60 kg", &["when RPE >= 9.5: load -5%", "when RPE >= 8: load +2.5 kg"][..]),
        (
            "3 x 5+ @ 60 kg",
            &["when last set >= 5 reps: load +5 kg", "when last set >= 3 reps: load -5%"][..],
        ),
        (
            "3 x 5+ @ 60 kg",
            &["when any rep missed: load -5%", "when last set < 8 reps: load +2.5 kg"][..],
        ),
        ("3 x 5 @ 60 kg", &["when missed 2 in a row: load -20%"][..]),
    ] {
        assert_eq!(codes(&squat(sets, rules, &[])), [""; 0], "{rules:?}");
    }
}
