//! Each command on real input.

use super::support::{Bench, example, programme};

#[test]
fn new_makes_a_project_that_compiles_at_once_and_never_overwrites() {
    let bench = Bench::new();
    assert_eq!(bench.run(&["new", "block"]).code, 0);
    let ran = bench.run(&["check", "block/programme.sets"]);
    assert_eq!(
        (ran.code, ran.out.as_str()),
        (0, "3 files, 1 programme, 2 athletes, no problems\n")
    );
    let ran = bench.run(&["cards", "block/programme.sets"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.err.contains("16 cards for 2 athletes"), "{}", ran.err);
    assert!(std::fs::read(bench.path("programme.pdf")).unwrap().starts_with(b"%PDF-"));
    bench.write("block/gym.sets", "gym Mine\n");
    assert_eq!(bench.run(&["new", "block"]).code, 3);
    assert_eq!(std::fs::read_to_string(bench.path("block/gym.sets")).unwrap(), "gym Mine\n");
}

#[test]
fn exit_codes_tell_what_went_wrong() {
    let bench = Bench::with(programme("  B Bnch press: 3 x 5\n"));
    assert_eq!(bench.run(&["check", "programme.sets"]).code, 1);
    assert_eq!(bench.run(&["summary", "programme.sets"]).code, 1);
    assert_eq!(bench.run(&["plan", "programme.sets"]).code, 1);
    assert_eq!(bench.run(&["cards"]).code, 2);
    assert_eq!(bench.run(&["crads", "programme.sets"]).code, 2);
    assert_eq!(bench.run(&["cards", "programme.sets", "--paper", "a3"]).code, 2);
    assert_eq!(bench.run(&["check", "nowhere.sets"]).code, 3);
    // A folder is checked: what is in it has errors.
    assert_eq!(bench.run(&["check", "."]).code, 1);
    assert_eq!(bench.run(&["--help"]).code, 0);
    assert_eq!(bench.run(&["--version"]).code, 0);
    let bench = Bench::with(programme(""));
    let wrong = |arguments: &[&str]| {
        let ran = bench.run(&[&["summary", "programme.sets"], arguments].concat());
        (ran.code, ran.err)
    };
    for (arguments, message) in [
        (["--athlete", "Robin Vael"], "did you mean `Robin Vale`?"),
        (["--day", "Two"], "there is no day `Two`: choose `One`"),
        (["--weeks", "3-4"], "there is no week 3: the programme has 2"),
        (["--weeks", "4-3"], "write weeks and ranges with commas"),
        (["--programme", "Smal"], "did you mean `Small`?"),
    ] {
        let (code, err) = wrong(&arguments);
        assert_eq!(code, 2, "{arguments:?}");
        assert!(err.contains(message), "{arguments:?}: {err}");
    }
}

#[test]
fn standard_input_and_output() {
    let bench = Bench::new();
    let text = programme("");
    let ran = bench.run_with(&["summary", "-"], Some(text.as_bytes()), &[]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("Back squat"));
    let ran = bench.run_with(&["cards", "-", "-o", "-"], Some(text.as_bytes()), &[]);
    assert!(ran.bytes.starts_with(b"%PDF-"));
    let ran = bench.run_with(&["fmt", "-"], Some(b"gym X\n    bar:20 kg"), &[]);
    assert_eq!(ran.code, 1);
    let ran = bench.run_with(&["fmt", "-"], Some(b"gym X\n    bar: 20kg"), &[]);
    assert_eq!(ran.out, "gym X\n  bar: 20 kg\n");
}

#[test]
fn findings_for_programs_are_json() {
    let bench = Bench::with(programme("  B Bnch press: 3 x 5\n"));
    let ran = bench.run(&["check", "programme.sets", "--format", "json"]);
    assert_eq!(ran.code, 1);
    let all: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let found = &all["diagnostics"][0];
    assert_eq!(found["code"], "unknown-exercise");
    assert_eq!(found["severity"], "error");
    assert_eq!(
        (&found["location"]["file"], &found["location"]["line"]),
        (&"programme.sets".into(), &13.into())
    );
    assert_eq!(
        (&found["location"]["column"], &found["location"]["end_column"]),
        (&5.into(), &15.into())
    );
    assert_eq!(found["fixes"][0]["edits"][0]["text"], "Bench press");
}

#[test]
fn output_without_a_terminal_is_plain() {
    let bench = Bench::with(programme("  B Bnch press: 3 x 5\n"));
    for variables in [&[][..], &[("NO_COLOR", "1")][..]] {
        let ran = bench.run_with(&["check", "programme.sets"], None, variables);
        assert!(!ran.out.contains('\u{1b}'), "{:?}", ran.out);
        let ran = bench.run_with(&["cards", "programme.sets"], None, variables);
        assert!(!ran.err.contains('\u{1b}'), "{:?}", ran.err);
    }
    let forced = bench.run_with(&["check", "programme.sets"], None, &[("CLICOLOR_FORCE", "1")]);
    assert!(forced.out.contains('\u{1b}'));
}

#[test]
fn explain_prints_every_page_and_lists_them() {
    let bench = Bench::new();
    let all = bench.run(&["explain"]).out;
    for code in setwright::diagnostics::Code::ALL {
        assert!(all.contains(code.name()), "{}", code.name());
    }
    let page = bench.run(&["explain", "missing-max"]);
    assert!(page.out.contains("How to fix it"));
    let ran = bench.run(&["explain", "mising-max"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("did you mean `missing-max`?"));
}

#[test]
fn one_pdf_or_one_for_each_athlete() {
    let bench = Bench::new();
    let file = example("rowing-club/winter.sets");
    let ran = bench.run(&["cards", &file, "--weeks", "1", "--per-athlete", "-o", "out"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let mut names: Vec<String> = std::fs::read_dir(bench.path("out"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names.len(), 6);
    assert_eq!(names[0], "winter-01-wren-tallow.pdf");
    let ran = bench.run(&["cards", &file, "--per-athlete", "-o", "-"]);
    assert_eq!(ran.code, 2);
}

#[test]
fn the_plan_names_its_fields_in_their_units() {
    let bench = Bench::with(programme("    week 2: 3 x 5 @ 72.5%, rest 3:00\n"));
    let ran = bench.run(&["plan", "programme.sets", "--format", "json"]);
    let plan: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(plan["programme"], "Small");
    let session = &plan["athletes"][0]["sessions"][1];
    assert_eq!((&session["week"], &session["day"]), (&2.into(), &"One".into()));
    assert_eq!(session["date"], serde_json::Value::Null);
    let exercise = &session["exercises"][0];
    assert_eq!((&exercise["order"], &exercise["name"]), (&"A".into(), &"Back squat".into()));
    let set = &exercise["sets"][0];
    assert_eq!(set["kind"], "work");
    assert_eq!((&set["reps_min"], &set["reps_max"]), (&5.into(), &5.into()));
    assert_eq!(set["open_ended"], false);
    assert_eq!((&set["target_kg"], &set["load_kg"]), (&72.5.into(), &70.into()));
    assert_eq!(set["plates_per_side_kg"], serde_json::json!([20, 5]));
    assert_eq!((&set["about"], &set["rest_s"]), (&false.into(), &180.into()));
}

#[test]
fn the_canonical_form_is_checked_and_written() {
    let bench = Bench::with("gym X\n    bar:  20kg   # ours\n");
    assert_eq!(bench.run(&["fmt", "--check", "programme.sets"]).code, 1);
    assert_eq!(bench.run(&["fmt", "programme.sets"]).code, 0);
    let written = std::fs::read_to_string(bench.path("programme.sets")).unwrap();
    assert_eq!(written, "gym X\n  bar: 20 kg  # ours\n");
    assert_eq!(bench.run(&["fmt", "--check", "programme.sets"]).code, 0);
    // A file with a mistake is left as it is.
    bench.write("programme.sets", "gym X\n    bra:  20kg\n");
    assert_eq!(bench.run(&["fmt", "programme.sets"]).code, 1);
    let left = std::fs::read_to_string(bench.path("programme.sets")).unwrap();
    assert_eq!(left, "gym X\n    bra:  20kg\n");
}

#[test]
fn a_reader_that_stops_early_is_told_with_the_exit_code() {
    let bench = Bench::new();
    let program = env!("CARGO_BIN_EXE_setwright");
    let file = example("rowing-club/winter.sets");
    let script = format!(
        "{program} plan {file} 2>/dev/null | head -c 10 >/dev/null; echo ${{PIPESTATUS[0]}}"
    );
    let output = std::process::Command::new("bash")
        .args(["-c", &script])
        .current_dir(bench.path(""))
        .output();
    assert_eq!(String::from_utf8_lossy(&output.unwrap().stdout).trim(), "3");
}

#[test]
fn sheets_are_chosen_by_name() {
    let bench = Bench::new();
    let file = example("first-steps/programme.sets");
    let run =
        |arguments: &[&str]| bench.run(&[&["cards", &file, "-o", "out.pdf"], arguments].concat());
    let ran = run(&["--sheet", "overview,block"]);
    assert_eq!(
        (ran.code, ran.err.as_str()),
        (0, "out.pdf: overviews, block sheets for 1 athlete, 2 pages\n")
    );
    // Asked for twice, printed once.
    let ran = run(&["--sheet", "wall", "--sheet", "wall"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, "out.pdf: wall cards for 1 athlete, 3 pages\n"));
    // By a synonym, and one that the programme does not use.
    let ran = run(&["--sheet", "wall", "--exercise", "press-up", "--exercise", "Back squat"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, "out.pdf: wall cards for 1 athlete, 2 pages\n"));
    let ran = run(&["--sheet", "wall", "--exercise", "Back sqat"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("did you mean `Back squat`?"), "{}", ran.err);
    let ran = run(&["--exercise", "Back squat"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("add --sheet wall"), "{}", ran.err);
    assert_eq!(run(&["--sheet", "poster"]).code, 2);
}

#[test]
fn a_log_named_from_the_project_folder_is_written_there() {
    let bench = Bench::new();
    let text =
        programme("").replace("programme Small", "use ../logs/robin.sets\n\nprogramme Small");
    bench.write("club/blocks/small.sets", text);
    bench.write(
        "club/logs/robin.sets",
        "log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n",
    );
    let log =
        ["log", "club/blocks/small.sets", "--athlete", "robin", "--project", "club", "--week", "2"];
    let ran = bench.run(&[&log[..], &["--date", "2026-01-12"]].concat());
    assert_eq!(ran.code, 0, "{}", ran.err);
    let written = std::fs::read_to_string(bench.path("club/logs/robin.sets")).unwrap();
    assert!(written.contains("2026-01-12"), "{written}");
}
