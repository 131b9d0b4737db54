//! Same text, same bytes: whatever the clock's zone, the locale, the home, the current folder, the
//! number of threads and the order in which files were made.

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
