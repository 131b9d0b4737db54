//! `setwright compare`: the output for changes of a programme.

use std::path::Path;

use super::support::{Bench, programme, repository};

fn settings() -> insta::Settings {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(repository().join("tests/cli/compare"));
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings
}

/// The rowing club twice, `old` and `new`, the new one with its texts replaced.
pub fn clubs(bench: &Bench, edits: &[(&str, &str, &str)]) {
    let folder = repository().join("examples/rowing-club");
    for name in ["gym.sets", "squad.sets", "winter.sets"] {
        let old = std::fs::read_to_string(folder.join(name)).unwrap();
        let mut new = old.clone();
        for (file, from, to) in edits.iter().filter(|(file, ..)| *file == name) {
            assert!(new.contains(from), "{file}: {from}");
            new = new.replace(from, to);
        }
        bench.write(&format!("old/{name}"), old);
        bench.write(&format!("new/{name}"), new);
    }
}

fn compared(bench: &Bench, more: &[&str]) -> String {
    let ran = bench.run(&[&["compare", "old/winter.sets", "new/winter.sets"], more].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for line in ran.out.lines() {
        assert!(line.chars().count() <= 100 || more.contains(&"--summary"), "{line}");
        assert_eq!(line, line.trim_end());
    }
    ran.out
}

/// A block under way: a max tested again, another scheme, another order, a swap, a rule, a day moved.
const BLOCK: [(&str, &str, &str); 8] = [
    (
        "squad.sets",
        "max Front squat: 82.5 kg (tested 2025-12-18)",
        "max Front squat: 87.5 kg (tested 2026-01-02)",
    ),
    ("winter.sets", "A  Front squat: 4 x 5 @ 75% -> 80%", "A  Front squat: 5 x 5 @ 77.5% -> 80%"),
    ("winter.sets", "  B  Inverted row: 3 x 8-12", "  Z  Inverted row: 3 x 8-12"),
    ("winter.sets", "  C  Step-up", "  B  Step-up"),
    ("winter.sets", "  Z  Inverted row", "  C  Inverted row"),
    ("winter.sets", "E1 Face pull: 3 x 12-15 @ 15 kg", "E1 Rear delt fly: 3 x 15-20 @ 6 kg"),
    ("winter.sets", "when any rep missed: load -7.5%", "when any rep missed: load -5%"),
    ("winter.sets", "day Finish (Fri)", "day Finish (Sat)"),
];

#[test]
fn a_coach_reads_it_at_a_glance() {
    let bench = Bench::new();
    clubs(&bench, &BLOCK);
    settings().bind(|| {
        insta::assert_snapshot!("block", compared(&bench, &[]));
        insta::assert_snapshot!("block-summary", compared(&bench, &["--summary"]));
        let one = ["--athlete", "wren tallow", "--weekly"];
        insta::assert_snapshot!("block-wren-weekly", compared(&bench, &one));
    });
}

#[test]
fn a_week_taken_out_of_the_middle_leaves_the_others_as_they_were() {
    let bench = Bench::new();
    let deload = "phase Deload: week 4, sets -40%, load -10%\n  note: Leave the gym fresher than you came.\n";
    let edits = [
        ("winter.sets", "  weeks: 8\n", "  weeks: 7\n"),
        ("winter.sets", deload, ""),
        ("winter.sets", "phase Build: weeks 5-7", "phase Build: weeks 4-6"),
        ("winter.sets", "phase Test: week 8", "phase Test: week 7"),
        ("winter.sets", "weeks 5-7:", "weeks 4-6:"),
        ("winter.sets", "week 8:", "week 7:"),
    ];
    clubs(&bench, &edits);
    settings().bind(|| insta::assert_snapshot!("week-gone", compared(&bench, &[])));
}

#[test]
fn athletes_days_and_exercises_come_and_go() {
    let bench = Bench::new();
    let edits = [
        ("squad.sets", "athlete Caspian Thorneholt", "athlete Juniper Ashdown"),
        ("gym.sets", "  bar: 20 kg, 15 kg", "  bar: 20 kg"),
        ("winter.sets", "day Drive (Wed)", "day Long pull (Wed)"),
        ("winter.sets", "programme Winter water-strength", "programme Spring water-strength"),
        (
            "winter.sets",
            "  E2 Dead bug: 3 x 8 each side, rest 60 s\n     week 8: 2 x 8 each side\n",
            "  F  Plank: 3 x 30 s, rest 60 s\n",
        ),
    ];
    clubs(&bench, &edits);
    settings().bind(|| insta::assert_snapshot!("come-and-go", compared(&bench, &[])));
}

/// Four athletes whose loads round differently, eight weeks, one of them the deload.
const SQUAD: &str = "\
gym Ironbarn
  bar: 20 kg
  plates: 20 kg x 6, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 4
  stack Cable: 5-80 kg by 5 kg

athlete Marit Dunholm
  max Back squat: 90 kg

athlete Teo Bramsden
  max Back squat: 130 kg

athlete Liv Okkar
  max Back squat: 75 kg

athlete Gus Peverel
  max Back squat: 150 kg

programme Spring strength
  weeks: 8
  starts: 2026-02-02
  training max: 90%

phase Base: weeks 1-3
phase Deload: week 4, sets -40%, load -10%
phase Build: weeks 5-7
phase Test: week 8

day Squat (Mon)
  A Back squat: 4 x 5 @ 75% +2.5%/week, rest 3:00

day Press (Wed)
  A Triceps pushdown: 3 x 12 @ 20 kg
";

/// Week 3 is taken out of it.
const SHORTER: [(&str, &str); 5] = [
    ("weeks: 8", "weeks: 7"),
    ("weeks 1-3", "weeks 1-2"),
    ("week 4,", "week 3,"),
    ("weeks 5-7", "weeks 4-6"),
    ("week 8", "week 7"),
];

#[test]
fn athletes_who_differ_are_told_apart_and_all_forms_agree_on_the_sums() {
    let bench = Bench::new();
    let edited = |edits: &[(&str, &str)]| {
        edits.iter().fold(SQUAD.to_owned(), |text, (from, to)| {
            assert!(text.contains(from), "{from}");
            text.replace(from, to)
        })
    };
    bench.write("old.sets", SQUAD);
    let more = [
        ("max Back squat: 90 kg", "max Back squat: 100 kg"),
        ("(Wed)", "(Thu)"),
        ("Triceps pushdown", "Overhead triceps extension"),
    ];
    bench.write("new.sets", edited(&[SHORTER.as_slice(), more.as_slice()].concat()));
    let told = |more: &[&str]| {
        let ran = bench.run(&[&["compare", "old.sets", "new.sets"], more].concat());
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        ran.out
    };
    let sums = |text: &str| -> Vec<String> {
        let from =
            |line: &str| line.find("hard sets").and_then(|at| line.get(at..)).map(str::to_owned);
        let of_block = text.lines().filter(|line| !line.starts_with(' '));
        of_block.filter_map(from).collect()
    };
    let full = told(&[]);
    assert_eq!(sums(&full).len(), 4, "{full}");
    assert_eq!(sums(&full), sums(&told(&["--summary"])));
    assert_eq!(sums(&full), sums(&told(&["--weekly"])));
    settings().bind(|| {
        insta::assert_snapshot!("squad-shorter", full);
        let one = ["--athlete", "Liv Okkar", "--weekly"];
        insta::assert_snapshot!("squad-shorter-weekly", told(&one));
    });
    // Half the block gone is a line, not one for each week.
    let half = [("weeks: 8", "weeks: 4"), ("phase Build: weeks 5-7\nphase Test: week 8\n", "")];
    bench.write("new.sets", edited(&half));
    let told = told(&[]);
    assert!(told.contains("\nweeks 5-8 are dropped\n"), "{told}");
}

/// The line reads the same; two bells become one.
#[test]
fn a_swap_tells_the_loads_that_its_line_does_not() {
    let bench = Bench::new();
    clubs(&bench, &[("winter.sets", "  C  Reverse lunge", "  C  Goblet squat")]);
    let told = compared(&bench, &["--athlete", "Wren Tallow"]);
    assert!(told.contains("Goblet squat, instead of Reverse lunge"), "{told}");
    assert!(told.contains("load 2 x 14 kg → 14 kg"), "{told}");
    let counted = compared(&bench, &["--summary", "--athlete", "Wren Tallow"]);
    assert!(counted.contains("swapped 1") && !counted.contains("lighter"), "{counted}");
}

#[test]
fn what_did_not_change_is_not_told() {
    let bench = Bench::new();
    clubs(&bench, &[("winter.sets", "# Six values", "# Six numbers")]);
    assert_eq!(compared(&bench, &[]), "Winter water-strength: nothing changed\n");
    assert_eq!(compared(&bench, &["--summary"]), "Winter water-strength: nothing changed\n");
    let json: serde_json::Value =
        serde_json::from_str(&compared(&bench, &["--format", "json"])).unwrap();
    assert_eq!(json["programmes"][0]["athletes"], serde_json::json!([]));
}

#[test]
fn json_folds_nothing() {
    let bench = Bench::new();
    bench.write("old.sets", programme("  B Bent-over row: 3 x 8 @ 40 kg, rest 90 s\n"));
    bench.write("new.sets", programme("  B Bent-over row: 4 x 8 @ 50 kg, rest 2:00\n"));
    let ran = bench.run(&["compare", "old.sets", "new.sets", "--format", "json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    settings().bind(|| insta::assert_snapshot!("json", ran.out));
}

#[test]
fn errors_of_a_side_are_shown_and_end_with_one() {
    let bench = Bench::new();
    bench.write("old.sets", programme("  B Bnch press: 3 x 5\n"));
    bench.write("new.sets", programme("  B Bench pres: 3 x 5\n"));
    let ran = bench.run(&["compare", "old.sets", "new.sets"]);
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    for part in ["old.sets has errors:", "`Bnch press`", "new.sets has errors:", "`Bench pres`"] {
        assert!(ran.err.contains(part), "{part}\n{}", ran.err);
    }
}

#[test]
fn wrong_sides_say_what_to_write() {
    let bench = Bench::with(programme(""));
    let code = |arguments: &[&str]| {
        let ran = bench.run(&[&["compare"], arguments].concat());
        (ran.code, ran.err)
    };
    let (number, said) = code(&["nowhere.sets", "programme.sets"]);
    assert_eq!(number, 3);
    assert!(said.contains("HEAD:./nowhere.sets"), "{said}");
    assert_eq!(code(&["programme.sets"]).0, 2);
    assert_eq!(code(&["programme.sets", "programme.sets", "--athlete", "Nobody"]).0, 2);
    assert_eq!(code(&["programme.sets", "programme.sets", "--programme", "Nothing"]).0, 2);
    assert_eq!(code(&["programme.sets", "programme.sets", "--programme", "small"]).0, 0);
}

#[test]
fn folders_are_compared_programme_by_programme() {
    let bench = Bench::new();
    let named = |name: &str| programme("").replace("programme Small", &format!("programme {name}"));
    for (path, name) in [
        ("old/a.sets", "First"),
        ("old/deep/b.sets", "Second"),
        ("old/c.sets", "Third"),
        ("new/a.sets", "First"),
        ("new/deep/b.sets", "Second"),
        ("new/c.sets", "Fourth"),
    ] {
        bench.write(path, named(name));
    }
    bench.write("new/.hidden/d.sets", named("Hidden"));
    let ran = bench.run(&["compare", "old", "new"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for part in ["First: nothing changed", "Second: nothing changed", "renamed: Third → Fourth"] {
        assert!(ran.out.contains(part), "{part}\n{}", ran.out);
    }
    assert!(!ran.out.contains("Hidden"));
    // Two on each side without a partner are not guessed at.
    bench.write("old/e.sets", named("Fifth"));
    bench.write("new/e.sets", named("Sixth"));
    let ran = bench.run(&["compare", "old", "new"]);
    for part in ["- Third: the programme is gone", "+ Fourth: a new programme"] {
        assert!(ran.out.contains(part), "{part}\n{}", ran.out);
    }
}

#[test]
fn a_file_that_cannot_be_worked_out_is_given_to_git_as_it_is() {
    let bench = Bench::new();
    let broken = programme("  B Bnch press: 3 x 5\n");
    for text in [broken.as_bytes(), b"gym Shed\n  bar: 20 kg\n", b"\xff\xfe\x00", b""] {
        bench.write("some.sets", text);
        let ran = bench.run(&["compare", "--textconv", "some.sets"]);
        assert_eq!((ran.code, ran.bytes.as_slice(), ran.err.as_str()), (0, text, ""));
    }
    bench.write("some.sets", programme(""));
    let ran = bench.run(&["compare", "--textconv", "some.sets"]);
    settings().bind(|| insta::assert_snapshot!("textconv", ran.out));
}

#[test]
fn several_files_and_folders_are_checked_at_once() {
    let bench = Bench::new();
    clubs(&bench, &[]);
    let ran = bench.run(&[
        "check",
        "--advice",
        "off",
        "new/gym.sets",
        "new/winter.sets",
        "new/squad.sets",
    ]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(!ran.out.contains("no-programme"), "{}", ran.out);
    bench.write("bad/programme.sets", programme("  B Bnch press: 3 x 5\n"));
    let both = bench.run(&["check", "--advice", "off", "new", "bad"]);
    assert_eq!(both.code, 1);
    let shown = |name: &str| Path::new(name).display().to_string();
    for part in [shown("new/winter.sets"), shown("bad/programme.sets")] {
        assert!(both.out.contains(&part), "{part}\n{}", both.out);
    }
    assert_eq!(bench.run(&["check", "nowhere.sets", "bad/programme.sets"]).code, 3);
    let json = bench.run(&["check", "--format", "json", "new", "bad"]);
    let json: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(json["files"].as_array().unwrap().len(), 2);
}

/// The keys of one hook of `.pre-commit-hooks.yaml`: that file is a plain list of maps.
fn hooks(text: &str) -> Vec<Vec<(String, String)>> {
    let mut hooks: Vec<Vec<(String, String)>> = Vec::new();
    for line in text.lines().filter(|line| !line.trim().is_empty() && !line.trim().starts_with('#'))
    {
        let body = match line.strip_prefix("- ") {
            Some(body) => {
                hooks.push(Vec::new());
                body
            }
            None => line.strip_prefix("  ").expect("keys stand below their hook"),
        };
        assert!(!body.starts_with(' '), "nothing is nested: {line}");
        let (key, value) = body.split_once(": ").expect("a key and a value");
        hooks.last_mut().unwrap().push((key.to_owned(), value.trim().to_owned()));
    }
    hooks
}

#[test]
fn the_hooks_name_commands_that_exist() {
    let text = std::fs::read_to_string(repository().join(".pre-commit-hooks.yaml")).unwrap();
    let hooks = hooks(&text);
    let get = |hook: &[(String, String)], key: &str| {
        hook.iter().find(|(k, _)| k == key).map(|(_, value)| value.clone()).unwrap_or_default()
    };
    let ids: Vec<String> = hooks.iter().map(|hook| get(hook, "id")).collect();
    assert_eq!(
        ids,
        ["setwright-check", "setwright-fmt", "setwright-check-system", "setwright-fmt-system"]
    );
    let bench = Bench::with(programme(""));
    for hook in &hooks {
        let keys: Vec<&str> = hook.iter().map(|(key, _)| key.as_str()).collect();
        for key in &keys {
            let known = [
                "id",
                "name",
                "description",
                "entry",
                "args",
                "language",
                "files",
                "pass_filenames",
            ];
            assert!(known.contains(key), "{key}");
        }
        let language = if get(hook, "id").ends_with("-system") { "system" } else { "rust" };
        assert_eq!(get(hook, "language"), language);
        assert_eq!(get(hook, "files"), r"\.sets$");
        let entry = get(hook, "entry");
        let mut words = entry.split(' ');
        assert_eq!(words.next(), Some("setwright"));
        let mut arguments: Vec<String> = words.map(str::to_owned).collect();
        let more = get(hook, "args");
        let more = more.trim_matches(['[', ']']).split(", ").filter(|word| !word.is_empty());
        arguments.extend(more.map(|word| word.trim_matches('"').to_owned()));
        if get(hook, "pass_filenames") != "false" {
            arguments.push("programme.sets".to_owned());
        }
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let ran = bench.run(&arguments);
        assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.err);
    }
}
