//! The PDF as other programs see it: `qpdf`, `pdftotext`, `pdffonts`, `pdftoppm`.
//!
//! These run where the tools are installed, and say so where not; with `SETWRIGHT_TOOLS=required`
//! (continuous integration) a missing tool is a failure.

use std::process::Command;

use super::support::{Bench, example, programme};

/// Runs an outside tool; `None`, with a word about it, when it is not installed.
fn tool(name: &str, arguments: &[&str]) -> Option<(bool, Vec<u8>)> {
    match Command::new(name).args(arguments).output() {
        Ok(output) => Some((output.status.success(), output.stdout)),
        Err(error) => {
            let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
            assert!(!required, "{name} is required here: {error}");
            eprintln!("skipped: {name} is not installed");
            None
        }
    }
}

fn cards(bench: &Bench, arguments: &[&str]) -> String {
    let file = example("rowing-club/winter.sets");
    let path = bench.path("cards.pdf").to_str().unwrap().to_owned();
    let ran = bench.run(&[&["cards", &file, "-o", &path], arguments].concat());
    assert_eq!(ran.code, 0, "{}", ran.err);
    path
}

#[test]
fn the_pdf_is_sound_and_its_fonts_are_embedded_and_subset() {
    let bench = Bench::new();
    let path = cards(&bench, &["--weeks", "1"]);
    if let Some((sound, _)) = tool("qpdf", &["--check", &path]) {
        assert!(sound, "qpdf --check");
    }
    if let Some((_, fonts)) = tool("pdffonts", &[&path]) {
        let fonts = String::from_utf8(fonts).unwrap();
        let rows: Vec<&str> = fonts.lines().skip(2).collect();
        assert!(!rows.is_empty());
        for row in rows {
            assert_eq!(row.matches(" yes").count(), 3, "{row}");
        }
    }
    if let Some((_, info)) = tool("pdfinfo", &[&path]) {
        let info = String::from_utf8(info).unwrap();
        assert!(info.contains("Title:") && info.contains("Winter water-strength"), "{info}");
        assert!(info.contains("Page size:       419"), "{info}");
        assert!(!info.contains("CreationDate"), "{info}");
    }
}

#[test]
fn the_text_extracts_in_reading_order() {
    let bench = Bench::new();
    let path = cards(&bench, &["--weeks", "1", "--athlete", "Wren Tallow", "--day", "Catch"]);
    let Some((_, text)) = tool("pdftotext", &[&path, "-"]) else { return };
    let text = String::from_utf8(text).unwrap();
    let mut last = 0;
    let text = format!("\n{text}");
    for word in [
        "Wren Tallow",
        "Front squat",
        "Floor press",
        "Rear-foot-raised split squat",
        "Hip thrust",
        "Face pull",
        "Side plank",
        "sharp pain",
    ] {
        let at = text.find(word).unwrap_or_else(|| panic!("{word} is not in\n{text}"));
        assert!(at > last, "{word} comes too early in\n{text}");
        last = at;
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let bench = Bench::new();
    let first = std::fs::read(cards(&bench, &["--weeks", "1-2"])).unwrap();
    let second = std::fs::read(cards(&bench, &["--weeks", "1-2"])).unwrap();
    assert!(first == second);
    let file = example("first-steps/programme.sets");
    let stated = |seconds: &str| {
        let arguments = ["cards", &file, "-o", "-"];
        bench.run_with(&arguments, None, &[("SOURCE_DATE_EPOCH", seconds)])
    };
    let dated = stated("1767571200");
    assert_eq!(dated.code, 0);
    assert!(dated.bytes == stated("1767571200").bytes);
    assert!(dated.bytes != bench.run(&["cards", &file, "-o", "-"]).bytes);
    assert_eq!(stated("soon").code, 2);
}

#[test]
fn every_paper_gives_pages_of_its_size() {
    let bench = Bench::new();
    for (paper, size) in
        [("a4", "595"), ("a5", "419"), ("letter", "612 x 792"), ("half-letter", "396 x 612")]
    {
        let path = cards(&bench, &["--weeks", "8", "--athlete", "Wren Tallow", "--paper", paper]);
        let Some((_, info)) = tool("pdfinfo", &[&path]) else { return };
        let info = String::from_utf8(info).unwrap();
        assert!(info.contains(&format!("Page size:       {size}")), "{paper}: {info}");
    }
}

#[test]
fn the_coachs_copy_is_a_file_of_its_own() {
    let text = "exercise Barrow walk\n  source: own observation, winter 2025\n\n";
    let text = format!("{text}{}", programme("  B Barrow walk: 3 x 20 m\n    source: page 3\n"));
    let bench = Bench::with(&text);
    let without: String = text
        .lines()
        .filter(|line| !line.contains("source:"))
        .map(|line| format!("{line}\n"))
        .collect();
    bench.write("without.sets", without);
    for arguments in [
        &["cards", "programme.sets"][..],
        &["cards", "programme.sets", "--coach"],
        &["cards", "without.sets"],
        &["cards", "programme.sets", "--coach", "--per-athlete", "-o", "out"],
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.err);
    }
    let read = |name: &str| std::fs::read(bench.path(name)).unwrap();
    assert_eq!(read("programme.pdf"), read("without.pdf"));
    assert_ne!(read("programme.pdf"), read("programme-coach.pdf"));
    assert_eq!(read("programme-coach.pdf"), read("out/programme-coach-01-robin-vale.pdf"));
}
