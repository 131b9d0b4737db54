//! The same text gives the same bytes, whatever the time zone, the locale, the home and current
//! folder, the number of threads and the order in which files were created.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};

use super::support::repository;

/// What is made, each to standard output.
const MADE: &[&[&str]] = &[
    &["cards", "programme.sets", "-o", "-"],
    &["cards", "programme.sets", "--sheet", "rack", "-o", "-"],
    &["plan", "programme.sets"],
    &["plan", "programme.sets", "--format", "csv"],
    &["plan", "programme.sets", "--format", "ics"],
    &["summary", "programme.sets"],
    &["summary", "programme.sets", "--weekly"],
    &["review", "programme.sets"],
    &["compare", "programme.sets", "before.sets"],
    &["check", "."],
];

/// The bytes of a run in the folder of the files, or from its parent with the names put before.
fn made(
    folder: &Path,
    from_above: bool,
    arguments: &[&str],
    variables: &[(&str, &str)],
) -> Vec<u8> {
    let mut command = Command::new(env!("CARGO_BIN_EXE_setwright"));
    let inside = folder.file_name().unwrap().to_str().unwrap();
    let named = |argument: &&str| {
        if from_above && Path::new(argument).extension().is_some_and(|kind| kind == "sets") {
            format!("{inside}/{argument}")
        } else {
            (*argument).to_owned()
        }
    };
    command.args(arguments.iter().map(named));
    command.current_dir(if from_above { folder.parent().unwrap() } else { folder });
    command.env_remove("SOURCE_DATE_EPOCH").envs(variables.iter().copied());
    let ran = command.stdin(Stdio::null()).output().unwrap();
    assert!(ran.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&ran.stderr));
    ran.stdout
}

/// An example's files and an older programme, made in an order, in a folder `club`.
fn club(folder: &Path, backwards: bool) {
    let from = repository().join("examples/two-for-two");
    let read = |name: &str| std::fs::read_to_string(from.join(name)).unwrap();
    let older = read("programme.sets").replace("weeks: ", "note: as it was\n  weeks: ");
    let mut files = vec![
        ("before.sets", older.replace("3 x", "4 x")),
        ("programme.sets", read("programme.sets")),
        ("results.sets", read("results.sets")),
    ];
    if backwards {
        files.reverse();
    }
    std::fs::create_dir(folder.join("club")).unwrap();
    for (name, text) in files {
        std::fs::write(folder.join("club").join(name), text).unwrap();
    }
}

#[test]
fn the_surroundings_change_no_byte() {
    let (one, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    club(one.path(), false);
    club(other.path(), true);
    let (one, other) = (one.path().join("club"), other.path().join("club"));
    let surroundings: &[&[(&str, &str)]] = &[
        &[("TZ", "Pacific/Kiritimati"), ("RAYON_NUM_THREADS", "1"), ("LC_ALL", "de_DE.UTF-8")],
        &[("TZ", "America/Anchorage"), ("RAYON_NUM_THREADS", "2"), ("LANG", "tr_TR.UTF-8")],
        &[
            ("TZ", "nonsense"),
            ("RAYON_NUM_THREADS", "7"),
            ("LC_ALL", "C"),
            ("HOME", "/nonexistent"),
        ],
        &[("HOME", ""), ("USER", "somebody"), ("COLUMNS", "40"), ("TERM", "dumb"), ("PWD", "/")],
    ];
    for arguments in MADE {
        let usual = made(&one, false, arguments, &[]);
        assert!(!usual.is_empty(), "{arguments:?}");
        for variables in surroundings {
            let same = made(&other, false, arguments, variables) == usual;
            assert!(same, "{arguments:?} differs with {variables:?}");
        }
        // `check .` says which folder; the others name no path.
        if arguments[0] != "check" && arguments[0] != "compare" {
            assert!(made(&other, true, arguments, &[]) == usual, "{arguments:?} from above");
        }
    }
}

/// A squad of more athletes than are worked out at a step, half of them lifting in pounds.
fn large_squad(athletes: usize) -> String {
    let mut text = "gym Hall\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 4, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2\n\n\
         gym Cellar\n  bar: 45 lb\n  plates: 45 lb x 4, 25 lb x 2, 10 lb x 4, 5 lb x 2\n\n"
        .to_owned();
    for number in 1..=athletes {
        let (gym, unit) = if number % 2 == 0 { ("Hall", "kg") } else { ("Cellar", "lb") };
        let max = 100 + number % 7 * 5;
        text.push_str(&format!(
            "athlete Rower {number}\n  gym: {gym}\n  max Back squat: {max} {unit}\n\n"
        ));
    }
    text.push_str(
        "programme Squad\n  weeks: 4\n  advice: many-weekly-sets at 5 sets on Rower 20, Squats\n\n\
         day Squats\n  A Back squat: 3 x 5 @ 70% +2%/week, rest 3:00\n     when last set >= 6 reps: max +2.5 kg\n\
         \x20 B Push-up: 2 x 10\n\nday Easy\n  A Back squat: 2 x 5 @ 60%\n",
    );
    text
}

/// Every file of a folder with its bytes, by name.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let named = |path: std::path::PathBuf| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        (name, std::fs::read(path).unwrap())
    };
    entries.map(named).collect()
}

/// What a squad is printed as: each with the number of threads, which makes no difference.
const OF_A_SQUAD: &[&[&str]] = &[
    &["cards", "FILE", "-o", "-"],
    &["cards", "FILE", "--sheet", "block", "-o", "-"],
    &["cards", "FILE", "--sheet", "card,overview,wall", "-o", "-"],
    &["cards", "FILE", "--two-up", "-o", "-"],
    &["plan", "FILE"],
    &["summary", "FILE", "--weekly", "--format", "json"],
    &["review", "FILE", "--format", "json"],
    &["check", "FILE", "--format", "json"],
];

fn on_threads(folder: &Path, threads: &str, arguments: &[&str], file: &str) -> Vec<u8> {
    let named = arguments.iter().map(|argument| if *argument == "FILE" { file } else { argument });
    let named: Vec<&str> = named.collect();
    made(folder, false, &named, &[("RAYON_NUM_THREADS", threads)])
}

#[test]
fn however_many_threads_a_squad_is_printed_alike() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("squad.sets"), large_squad(23)).unwrap();
    let club = repository().join("examples/rowing-club");
    for (folder, file) in [(folder.path(), "squad.sets"), (club.as_path(), "winter-so-far.sets")] {
        for arguments in OF_A_SQUAD {
            let one = on_threads(folder, "1", arguments, file);
            assert!(!one.is_empty(), "{arguments:?} of {file}");
            for threads in ["2", "5"] {
                let same = on_threads(folder, threads, arguments, file) == one;
                assert!(same, "{arguments:?} of {file} differs on {threads} threads");
            }
        }
        for format in ["pdf", "svg"] {
            let each = |threads: &str| {
                let out = tempfile::tempdir().unwrap();
                let into = out.path().to_str().unwrap();
                let weeks = ["--weeks", "1-2", "--all", "--per-athlete"];
                let weeks = [&weeks[..], &["--format", format, "-o", into]].concat();
                let arguments = [&["cards", "FILE"], &weeks[..]].concat();
                on_threads(folder, threads, &arguments, file);
                files(out.path())
            };
            let one = each("1");
            assert!(one.len() > 2, "{file} as {format}");
            assert!(one == each("4"), "{file}, an athlete at a time as {format}, differs");
        }
    }
}
