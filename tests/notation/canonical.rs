//! The canonical form: every example is read without a finding, and formatting is stable.

use std::path::{Path, PathBuf};

use setwright::source::FileId;
use setwright::syntax::{Document, ast, format, parse};

fn sets_files(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sets_files(&path, found);
        } else if path.extension().is_some_and(|e| e == "sets") {
            found.push(path);
        }
    }
}

fn all_files() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    sets_files(&root.join("src/catalogue/library"), &mut found);
    sets_files(&root.join("src/cli/new"), &mut found);
    sets_files(&root.join("examples"), &mut found);
    assert!(found.len() > 4);
    found
}

/// The tree without places: what a text means.
fn meaning(document: &Document) -> String {
    fn show(nodes: &[ast::Node], depth: usize, out: &mut String) {
        for node in nodes {
            let item = format!("{:?}", node.item.value);
            let bare =
                item.split("Span {").map(|part| part.split_once('}').map_or(part, |(_, r)| r));
            out.push_str(&format!("{depth} {}\n", bare.collect::<String>()));
            show(&node.children, depth + 1, out);
        }
    }
    let mut out = String::new();
    show(&document.nodes, 0, &mut out);
    out
}

#[test]
fn every_shipped_file_reads_and_formats_to_the_same_meaning() {
    for path in all_files() {
        let text = std::fs::read_to_string(&path).unwrap();
        let (document, problems) = parse(&text, FileId(0));
        assert_eq!(problems, [], "{}", path.display());
        let once = format(&document, &text).unwrap();
        assert_eq!(once, text, "{} is not in the canonical form", path.display());
        let (again, problems) = parse(&once, FileId(0));
        assert_eq!(problems, [], "{} formatted", path.display());
        assert_eq!(meaning(&document), meaning(&again), "{}", path.display());
        let twice = format(&again, &once).unwrap();
        assert_eq!(once, twice, "{}", path.display());
        assert_eq!(once.matches('#').count(), text.matches('#').count());
    }
}
