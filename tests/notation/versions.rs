//! The line with the version of the notation.

use setwright::compile::check;
use setwright::resolve::Project;
use setwright::source::{FileId, MemoryLoader};
use setwright::syntax::{format, parse};

const REST: &str =
    "athlete Robin Vale\n\nprogramme Small\n  weeks: 1\n\nday One\n  A  Push-up: 8\n";

/// The codes and messages of a text, with its standard format.
fn read(text: &str) -> (Vec<(&'static str, String)>, Option<String>) {
    let (document, problems) = parse(text, FileId(0));
    let found = problems.into_iter().map(|found| (found.code.name(), found.message)).collect();
    (found, format(&document, text))
}

fn codes(text: &str) -> Vec<&'static str> {
    read(text).0.into_iter().map(|(code, _)| code).collect()
}

#[test]
fn the_line_may_stand_first_and_stays_there() {
    for first in ["notation: 1\n", "# Mine.\n\nnotation:  1  # so far\n", "notation: 01\n"] {
        let (found, canonical) = read(&format!("{first}\n{REST}"));
        assert_eq!(found, []);
        let first = first.replace("  1", " 1").replace("01", "1");
        assert_eq!(canonical, Some(format!("{first}\n{REST}")));
    }
}

#[test]
fn it_stands_once_and_above_everything() {
    assert_eq!(codes(&format!("{REST}notation: 1\n")), ["misplaced-line"]);
    assert_eq!(codes(&format!("use gym.sets\nnotation: 1\n{REST}")), ["misplaced-line"]);
    assert_eq!(codes(&format!("notation: 1\nnotation: 1\n{REST}")), ["repeated-key"]);
    assert_eq!(codes(&format!("notation: 1\n{REST}notation: 1\n")), ["repeated-key"]);
    assert_eq!(codes(&format!("notation: 1\n  weeks: 1\n{REST}")), ["misplaced-line"]);
}

#[test]
fn a_newer_notation_is_the_only_finding() {
    let strange = "notation: 2\nstadium Millshed\n\tbar; 20\nday Ones\n  A Psh-up 9\n";
    let (found, canonical) = read(strange);
    let message = "this file uses notation 2, but this program reads up to notation 1".to_owned();
    assert_eq!(found, [("newer-notation", message)]);
    assert_eq!(canonical, None, "what is not understood is not rewritten");
    // Neither does a project that uses such a file say what follows from it.
    let loader = MemoryLoader::new().with("new.sets", "notation: 7\ngym Millshed\n");
    let text = format!("use new.sets\n{}", REST.replace("Vale\n", "Vale\n  gym: Millshede\n"));
    let checked = check(Project::from_text(&loader, "main.sets", text));
    let codes: Vec<&str> = checked.diagnostics.iter().map(|found| found.code.name()).collect();
    assert_eq!(codes, ["newer-notation"]);
}

#[test]
fn what_is_no_number_is_named() {
    for (line, code) in [
        ("notation", "missing-value"),
        ("notation:", "missing-value"),
        ("notation 1", "missing-colon"),
        ("notation: one", "bad-value"),
        ("notation: 1.5", "bad-value"),
        ("notation: 0", "number-out-of-range"),
        ("notation: 99999999999999999999", "newer-notation"),
        ("notaton: 1", "unknown-block"),
    ] {
        let found = codes(&format!("{line}\n{REST}"));
        assert_eq!(found.first(), Some(&code), "{line}: {found:?}");
    }
}
