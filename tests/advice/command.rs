//! `setwright check` with advice: options, exit codes, JSON.

use std::process::Command;

const TEXT: &str = "gym Shed\n  has: leg extension, bench, rack\n  bar: 20 kg\n  plates: 20 kg, 10 kg\n\n\
    athlete Robin Vale\n  gym: Shed\n  max Back squat: 140 kg\n\nprogramme Small\n  weeks: 1\n  before: rowing\n  \
    supervision: one coach\n\nday One\n  A  Leg extension: 2 x 12, rest 60 s\n  \
    B  Back squat: 4 x 4 @ 86%, rest 60 s\n  C  Hip thrust: 4 x 8, rest 60 s\n";

/// Exit code, and what was printed.
fn check(text: &str, options: &[&str]) -> (i32, String) {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("small.sets"), text).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_setwright"));
    command.args(["check", "small.sets"]).args(options).current_dir(folder.path());
    let ran = command.output().unwrap();
    let out = [ran.stdout, ran.stderr].concat();
    (ran.status.code().unwrap(), String::from_utf8(out).unwrap())
}

#[test]
fn advice_leaves_the_exit_code_alone_unless_strict() {
    let (code, out) = check(TEXT, &[]);
    assert_eq!(code, 0, "{out}");
    assert!(out.contains("warning[late-compound]:"), "{out}");
    assert!(out.contains("info[short-rest]:"), "{out}");
    assert!(out.contains("= source: Simão et al. 2012"), "{out}");
    assert!(
        out.contains("1 warning, 2 info; for details, run `setwright explain late-compound`"),
        "{out}"
    );
    assert_eq!(check(TEXT, &["--strict"]).0, 1);
    assert_eq!(
        check(TEXT, &["--strict", "--advice", "off"]),
        (0, "1 file, 1 programme, 1 athlete, no problems\n".to_owned())
    );
}

#[test]
fn advice_is_switched_on_the_command_line() {
    let (code, out) = check(TEXT, &["--advice", "warning", "--strict"]);
    assert!(code == 1 && !out.contains("short-rest"), "{out}");
    let all = ["--allow", "late-compound", "--allow", "short-rest", "--allow", "unilateral-legs"];
    let (code, out) = check(TEXT, &[&all[..], &["--strict"]].concat());
    assert_eq!((code, out.as_str()), (0, "1 file, 1 programme, 1 athlete, no problems\n"));
    // What the command line allows in vain is no news.
    assert_eq!(check(TEXT, &[&all[..], &["--strict", "--allow", "load-jump"]].concat()).0, 0);
    let (code, out) = check(TEXT, &["--allow", "late-compond"]);
    assert_eq!(code, 2);
    assert!(out.contains("did you mean `late-compound`?"), "{out}");
    assert_eq!(check(TEXT, &["--allow", "missing-max"]).0, 2);
}

#[test]
fn json_holds_advice_beside_findings() {
    let (code, out) = check(TEXT, &["--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, json["diagnostics"].as_array().unwrap().len()), (0, 0));
    let first = &json["advice"][0];
    assert_eq!(first["code"], "late-compound");
    assert_eq!(first["severity"], "warning");
    assert_eq!(first["location"]["line"], 17);
    assert_eq!(first["related"][0]["line"], 16);
    assert!(first["source"].as_str().unwrap().contains("Nunes"));
}

#[test]
fn cards_say_what_the_sheet_shows_and_leave_other_advice_to_check() {
    let folder = tempfile::tempdir().unwrap();
    let text = TEXT.replace("4 x 4 @ 86%", "4 x 4 @ 133 kg");
    std::fs::write(folder.path().join("small.sets"), text).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_setwright"));
    command.args(["summary", "small.sets"]).current_dir(folder.path());
    let ran = command.output().unwrap();
    let said = String::from_utf8(ran.stderr).unwrap();
    assert_eq!(ran.status.code(), Some(0));
    assert!(!said.contains("late-compound"), "{said}");
}
