//! Inputs found by the fuzzer, each as small as possible, as regression tests.

use std::path::Path;

use super::inputs::{knobs, logged, text};
use super::laws::{compiles, formats, parses, prints, reviews};

/// Every file of `tests/corpus/fuzz/` through every target: what one of them found is an input of all.
#[test]
fn what_the_fuzzer_found_stays_found() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus/fuzz");
    let mut files: Vec<_> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    for file in files {
        eprintln!("{}", file.display());
        let bytes = std::fs::read(&file).unwrap();
        let text = text(&bytes);
        parses(&text);
        formats(&text);
        compiles(&text);
        reviews(&logged(&bytes));
        prints(&text, knobs(&bytes));
    }
}
