//! Compares the guide's table of advice with the registry.

use setwright::advice::{LINTS, Lint};
use setwright::diagnostics::Code;

fn row(lint: &Lint) -> String {
    let bound = lint.bound.map_or_else(
        || "–".to_owned(),
        |bound| {
            let space = if bound.unit == "%" { "" } else { " " };
            format!("{} {}{space}{}", bound.meaning, bound.value, bound.unit)
        },
    );
    let level = lint.code.severity().word();
    format!("| `{}` | {level} | {} | {bound} | {} |", lint.code.name(), lint.title, lint.source)
}

#[test]
fn the_guide_lists_every_lint_as_the_registry_has_it() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/docs/advice.md");
    let guide = std::fs::read_to_string(path).unwrap();
    let listed: Vec<&str> = guide.lines().filter(|line| line.starts_with("| `")).collect();
    let expected: Vec<String> = LINTS.iter().map(|lint| row(lint)).collect();
    assert_eq!(listed, expected, "the table:\n{}", expected.join("\n"));
}

#[test]
fn every_page_names_the_source_of_its_lint() {
    for lint in LINTS {
        let words: Vec<&str> = lint.code.page().split_whitespace().collect();
        let page = words.join(" ");
        assert!(page.contains("## Source"), "{} names no source", lint.code.name());
        // What the lint prints is the first words of what its page says.
        let first = lint.source.split([',', ';', '(']).next().unwrap().trim();
        let named = page.to_lowercase().contains(&first.to_lowercase());
        assert!(named, "{}: the page does not name `{first}`", lint.code.name());
        if let Some(bound) = lint.bound {
            let space = if bound.unit == "%" { "" } else { " " };
            let at = format!("{} at {}{space}{}", lint.code.name(), bound.value, bound.unit);
            assert!(
                page.contains(&at),
                "{}: the page does not say `advice: {at}`",
                lint.code.name()
            );
        }
    }
}

#[test]
fn nothing_that_advice_says_speaks_of_health() {
    const WORDS: &[&str] =
        &["injur", "pain", "health", "danger", "harm", "hurt", "medical", "diagnos", "disease"];
    for code in Code::ADVICE {
        let page = code.page().to_lowercase();
        for word in WORDS {
            assert!(!page.contains(word), "{}: `{word}`", code.name());
        }
    }
    for lint in LINTS {
        let texts = format!("{} {}", lint.title, lint.source).to_lowercase();
        assert!(WORDS.iter().all(|word| !texts.contains(word)), "{}", lint.code.name());
    }
}
