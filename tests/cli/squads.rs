//! Squads of any size: athletes are evaluated and printed in batches, and a failure in the last
//! batch leaves no output of the first. Long runs show their progress on a terminal.

use std::process::{Command, Stdio};

use super::support::{Bench, missing};

/// A squad; the last athlete may lack a max.
fn squad(athletes: usize, weeks: usize, last_is_whole: bool) -> String {
    let mut text =
        "gym Hall\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 4, 5 kg x 2, 2.5 kg x 2\n\n"
            .to_owned();
    for number in 1..=athletes {
        text.push_str(&format!("athlete Rower {number}\n  gym: Hall\n"));
        if number < athletes || last_is_whole {
            text.push_str("  max Back squat: 100 kg\n");
        }
        text.push('\n');
    }
    text.push_str(&format!("programme Squad\n  weeks: {weeks}\n\n"));
    for day in ["One", "Two", "Three"] {
        text.push_str(&format!("day {day}\n  A Back squat: 5 x 5 @ 70%\n  B Push-up: 3 x 10\n\n"));
    }
    text
}

fn names(bench: &Bench, folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(bench.path(folder)).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn an_error_of_the_last_athlete_leaves_nothing_half_made() {
    let bench = Bench::with(squad(40, 1, false));
    bench.write("out/cards.pdf", "the last good cards");
    for arguments in [
        &["cards", "programme.sets", "-o", "out/cards.pdf"][..],
        &["cards", "programme.sets", "--per-athlete", "-o", "out"],
        &["cards", "programme.sets", "--per-athlete", "--format", "svg", "-o", "new"],
        &["cards", "programme.sets", "--sheet", "overview", "-o", "out/new.pdf"],
        &["cards", "programme.sets", "-o", "-"],
        &["plan", "programme.sets", "--per-athlete", "-o", "out"],
        &["plan", "programme.sets"],
        &["plan", "programme.sets", "--format", "csv"],
        &["plan", "programme.sets", "--format", "csv", "-o", "out/new.csv"],
        &["summary", "programme.sets"],
        &["summary", "programme.sets", "-o", "out/new.txt"],
        &["summary", "programme.sets", "--weekly"],
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code, 1, "{arguments:?}: {}", ran.err);
        assert!(ran.err.contains("Rower 40 has no max"), "{arguments:?}: {}", ran.err);
        assert!(ran.bytes.is_empty());
        assert_eq!(names(&bench, "out"), ["cards.pdf"], "{arguments:?}");
        let left = std::fs::read(bench.path("out/cards.pdf")).unwrap();
        assert_eq!(left, b"the last good cards");
    }
    assert_eq!(names(&bench, "."), ["out", "programme.sets"]);
}

#[test]
fn where_nothing_can_be_written_the_errors_are_told_first() {
    let bench = Bench::with(squad(20, 1, false));
    let ran = bench.run(&["cards", "programme.sets", "-o", "nowhere/cards.pdf"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    let bench = Bench::with(squad(20, 1, true));
    let ran = bench.run(&["cards", "programme.sets", "-o", "nowhere/cards.pdf"]);
    assert_eq!(ran.code, 3, "{}", ran.err);
    assert!(ran.err.contains("there is no folder nowhere"), "{}", ran.err);
}

#[test]
fn many_files_wait_outside_of_memory_and_come_out_whole() {
    let bench = Bench::with(squad(120, 1, true));
    let ran = bench.run(&["cards", "programme.sets", "--per-athlete", "-o", "new/out"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let files = names(&bench, "new/out");
    assert_eq!(files.len(), 120);
    let mut bytes = 0;
    for file in files {
        let pdf = std::fs::read(bench.path("new/out").join(&file)).unwrap();
        assert!(pdf.starts_with(b"%PDF-1.7") && pdf.ends_with(b"%%EOF\n"), "{file}");
        bytes += pdf.len();
    }
    assert!(bytes > 2 << 20, "{bytes} bytes wait in memory");
    assert_eq!(ran.err.matches("3 cards for 1 athlete").count(), 120);
}

/// What is written as athletes come is the same text that one athlete after the other gives.
#[test]
fn text_in_parts_is_whole() {
    let bench = Bench::with(squad(40, 2, true));
    for arguments in [
        &["plan", "programme.sets"][..],
        &["plan", "programme.sets", "--format", "csv"],
        &["summary", "programme.sets"],
        &["summary", "programme.sets", "--weekly"],
    ] {
        let printed = bench.run(arguments);
        assert_eq!(printed.code, 0, "{arguments:?}: {}", printed.err);
        let to_file = bench.run(&[arguments, &["-o", "text"]].concat());
        assert_eq!(to_file.code, 0, "{arguments:?}: {}", to_file.err);
        let written = std::fs::read(bench.path("text")).unwrap();
        assert!(printed.bytes == written, "{arguments:?}");
        let one = bench.run(&[arguments, &["--athlete", "Rower 17"]].concat());
        let (before, after) = one.out.split_once("Rower 17").unwrap();
        // The rows of a table have the athlete's name each; other texts have it once, and what
        // comes before and after the athletes comes once.
        let is_table = arguments.contains(&"csv");
        assert!(printed.out.starts_with(before), "{arguments:?}: {before}");
        assert_eq!(printed.out.matches(before).count(), 1, "{arguments:?}");
        let own: Vec<&str> = after.lines().take(10).skip(1).collect();
        let own = if is_table { own.join("\n") } else { format!("\n{}\n", own.join("\n")) };
        assert!(printed.out.contains(&own), "{arguments:?}: {own}");
        for number in 1..=40 {
            let name = format!("Rower {number}");
            assert!(printed.out.contains(&name), "{arguments:?}: {name}");
        }
    }
}

/// What appears on a terminal.
fn on_a_terminal(bench: &Bench, variables: &[(&str, &str)]) -> Option<String> {
    let command = format!("{} cards programme.sets -o cards.pdf", env!("CARGO_BIN_EXE_setwright"));
    let mut script = Command::new("script");
    script.args(["-qec", &command, "/dev/null"]).current_dir(bench.path("."));
    script.env("TERM", "xterm").env("RAYON_NUM_THREADS", "1");
    for variable in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "CI"] {
        script.env_remove(variable);
    }
    script.envs(variables.iter().copied()).stdin(Stdio::null());
    match script.output() {
        Ok(ran) => Some(String::from_utf8_lossy(&ran.stdout).into_owned()),
        Err(error) => {
            missing("script", &error);
            None
        }
    }
}

#[test]
fn long_work_shows_a_bar_on_a_terminal_only() {
    // Some seconds of work.
    let weeks = if cfg!(debug_assertions) { 60 } else { 104 };
    let bench = Bench::with(squad(24, weeks, true));
    let piped = bench.run(&["cards", "programme.sets", "-o", "cards.pdf"]);
    assert_eq!(piped.code, 0, "{}", piped.err);
    assert!(!piped.err.contains(['\r', '\x1b', '#']), "{:?}", piped.err);
    let usual = std::fs::read(bench.path("cards.pdf")).unwrap();
    let Some(seen) = on_a_terminal(&bench, &[]) else { return };
    assert!(seen.contains("of 24 athletes"), "{seen:?}");
    // Gone before anything else is said.
    let (_, after) = seen.rsplit_once("of 24 athletes").unwrap();
    assert!(after.starts_with("\r\x1b[2K"), "{after:?}");
    assert!(after.contains("cards for 24 athletes"), "{after:?}");
    assert!(std::fs::read(bench.path("cards.pdf")).unwrap() == usual);
    // What asks for colour does not ask for a bar.
    let none: [&[_]; 3] =
        [&[("NO_COLOR", "1")], &[("TERM", "dumb"), ("CLICOLOR_FORCE", "1")], &[("CI", "true")]];
    for variables in none {
        let seen = on_a_terminal(&bench, variables).unwrap();
        assert!(!seen.contains("of 24 athletes") && !seen.contains("\x1b[2K"), "{seen:?}");
    }
}
