//! Several runs that change one file at the same time: no entry is lost.

use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::process::{Command, Stdio};

use super::support::{Bench, programme};

const NAMES: [&str; 4] = ["Robin Vale", "Wren Tallow", "Ash Grove", "Fern Hollow"];

/// A programme for four athletes.
fn squad() -> String {
    let athlete = |name: &&str| format!("athlete {name}\n  max Back squat: 80 kg\n\n");
    let more: String = NAMES[1..].iter().map(athlete).collect();
    more + &programme("  B Push-up: 3 x 8\n")
}

/// Starts runs of the program in a folder, all at once, and waits for all; how they ended.
fn at_once(bench: &Bench, runs: &[Vec<&str>]) -> Vec<(Option<i32>, String)> {
    let started: Vec<_> = runs
        .iter()
        .map(|arguments| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_setwright"));
            command.args(arguments).current_dir(bench.path("."));
            command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
            command.spawn().unwrap()
        })
        .collect();
    let ended = started.into_iter().map(|child| child.wait_with_output().unwrap());
    ended
        .map(|ran| (ran.status.code(), String::from_utf8_lossy(&ran.stderr).into_owned()))
        .collect()
}

fn log(name: &str) -> Vec<&str> {
    vec!["log", "programme.sets", "--athlete", name, "--date", "2026-01-05", "-o", "logs.sets"]
}

/// The names of what lies in the folder.
fn files(bench: &Bench) -> Vec<String> {
    let entries = std::fs::read_dir(bench.path(".")).unwrap();
    let name = |entry: std::io::Result<std::fs::DirEntry>| entry.unwrap().file_name();
    let mut names: Vec<String> =
        entries.map(|entry| name(entry).to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

fn assert_all_logged(bench: &Bench, names: &[&str], ended: &[(Option<i32>, String)]) {
    assert!(ended.iter().all(|(code, _)| *code == Some(0)), "{ended:?}");
    let text = std::fs::read_to_string(bench.path("logs.sets")).unwrap();
    for name in names {
        let entry = format!("log {name}: Small\n  2026-01-05 week 1, One\n");
        assert!(text.contains(&entry), "{name} is missing: {ended:?}\n{text}");
    }
    assert_eq!(text.matches("week 1, One").count(), names.len(), "{text}");
    assert_eq!(files(bench), ["logs.sets", "programme.sets"]);
}

#[test]
fn runs_of_log_lose_no_entry() {
    let bench = Bench::with(squad());
    for (count, rounds) in [(2, 60), (4, 20)] {
        for round in 0..rounds {
            // The first of them may have to make the file.
            if round % 2 == 0 {
                let _ = std::fs::remove_file(bench.path("logs.sets"));
            } else {
                bench.write("logs.sets", "# the coach's own line\n");
            }
            let names = &NAMES[..count];
            let runs: Vec<Vec<&str>> = names.iter().map(|name| log(name)).collect();
            let ended = at_once(&bench, &runs);
            assert_all_logged(&bench, names, &ended);
            let text = std::fs::read_to_string(bench.path("logs.sets")).unwrap();
            assert_eq!(text.starts_with("# the coach's own line\n"), round % 2 == 1);
        }
    }
}

#[test]
fn fmt_and_log_lose_nothing() {
    let bench = Bench::with(squad());
    for _ in 0..20 {
        bench.write(
            "logs.sets",
            "log  Fern Hollow:  Small\n   2026-01-05 week 2,  One\n    A: done\n",
        );
        let names = &NAMES[..2];
        let mut runs: Vec<Vec<&str>> = names.iter().map(|name| log(name)).collect();
        runs.push(vec!["fmt", "logs.sets"]);
        let ended = at_once(&bench, &runs);
        assert_all_logged(&bench, names, &ended);
        let text = std::fs::read_to_string(bench.path("logs.sets")).unwrap();
        assert!(text.starts_with("log Fern Hollow: Small\n  2026-01-05 week 2, One\n"), "{text}");
    }
}

/// The owner only where this test may give a file away.
#[test]
fn fmt_keeps_permissions_and_owner() {
    let bench = Bench::with(programme("").replace("  A Back", "   A  Back"));
    let path = bench.path("programme.sets");
    std::fs::set_permissions(&path, PermissionsExt::from_mode(0o640)).unwrap();
    let given = std::os::unix::fs::chown(&path, Some(65534), Some(65534)).is_ok();
    let before = std::fs::metadata(&path).unwrap();
    let ran = bench.run(&["fmt", "programme.sets"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let after = std::fs::metadata(&path).unwrap();
    assert_ne!(before.ino(), after.ino(), "it was replaced");
    assert_eq!(after.mode() & 0o7777, 0o640);
    assert_eq!((after.uid(), after.gid()), (before.uid(), before.gid()), "given: {given}");
}

#[test]
fn what_killed_runs_left_is_removed() {
    let bench = Bench::with(squad());
    bench.write(".setwright-aaaaaa.part", "half");
    bench.write(".setwright-bbbbbb.part", "");
    bench.write(".setwright-logs.sets.lock", "");
    let ended = at_once(&bench, &[log(NAMES[0])]);
    assert_all_logged(&bench, &NAMES[..1], &ended);
}
