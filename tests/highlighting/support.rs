//! Texts in the notation from the whole repository, and their tree-sitter parses.

use std::path::{Path, PathBuf};

use tree_sitter::{Parser, Tree};

/// A text, and where it stands.
pub struct Text {
    pub place: String,
    pub text: String,
}

pub fn repository() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

pub fn read(path: &str) -> String {
    std::fs::read_to_string(repository().join(path)).unwrap()
}

/// The files below a folder with a suffix, sorted.
fn files(folder: &Path, suffix: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, suffix));
        } else if path.extension().is_some_and(|e| e == suffix) {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// The files of the notation below a folder.
pub fn notation(folder: &str) -> Vec<Text> {
    files(&repository().join(folder), "sets")
        .into_iter()
        .map(|path| Text {
            place: path.strip_prefix(repository()).unwrap().display().to_string(),
            text: std::fs::read_to_string(path).unwrap(),
        })
        .collect()
}

/// The fenced blocks of a document whose opening line is told to be in the notation.
fn fenced(path: &Path, is_notation: impl Fn(&str) -> bool) -> Vec<Text> {
    let name = path.strip_prefix(repository()).unwrap().display().to_string();
    let text = std::fs::read_to_string(path).unwrap();
    let mut found = Vec::new();
    let mut open: Option<(usize, bool, String)> = None;
    for (index, line) in text.lines().enumerate() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(info)) => open = Some((index + 1, is_notation(info), String::new())),
            (Some(_), Some(_)) => {
                if let Some((start, true, text)) = open.take() {
                    found.push(Text { place: format!("{name}:{start}"), text });
                }
                open = None;
            }
            (Some((_, _, body)), None) => {
                body.push_str(line);
                body.push('\n');
            }
            (None, None) => {}
        }
    }
    found
}

/// What the README and the book show of the notation.
pub fn docs() -> Vec<Text> {
    let mut paths = files(&repository().join("docs"), "md");
    paths.push(repository().join("README.md"));
    let shown = |info: &str| info.split(' ').next() == Some("sets");
    paths.iter().flat_map(|path| fenced(path, shown)).collect()
}

/// The examples on the pages of findings: what causes each, and the fix. Those that are about
/// bytes or size, not about the notation, are left out.
pub fn pages() -> Vec<Text> {
    let shown = |info: &str| {
        info.split(' ').any(|word| word.ends_with("sets"))
            && !info.split(' ').any(|word| word == "bytes" || word.starts_with("grow="))
    };
    let paths = files(&repository().join("src/codes"), "md");
    paths.iter().flat_map(|path| fenced(path, shown)).collect()
}

/// A tree of the text.
pub fn tree(text: &str) -> Tree {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_setwright::LANGUAGE.into()).unwrap();
    parser.parse(text, None).unwrap()
}

/// The program, if it is installed. Where tools are required, it must be.
pub fn tool(name: &str, ask: &str) -> bool {
    let runs = std::process::Command::new(name).arg(ask).output().is_ok();
    let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
    assert!(runs || !required, "{name} is required here, and not installed");
    if !runs {
        eprintln!("{name} is not installed: skipped");
    }
    runs
}
