//! Every problem has a page; its example causes the problem, and its fix does not.

use std::path::Path;

use setwright::compile::check;
use setwright::diagnostics::{Code, Diagnostic, Severity, has_errors};
use setwright::resolve::Project;
use setwright::source::FolderLoader;

/// One fenced block: its file's name and its bytes, or a folder.
struct Block {
    name: String,
    bytes: Vec<u8>,
    is_folder: bool,
}

/// The fenced blocks of the section under a heading.
fn blocks(page: &str, heading: &str) -> Vec<Block> {
    let start = page.find(heading).unwrap_or_else(|| panic!("no section `{heading}`"));
    let section = &page[start + heading.len()..];
    let section = section.split("\n## ").next().unwrap();
    let mut found = Vec::new();
    for (index, part) in section.split("```").enumerate() {
        if index % 2 == 0 {
            continue;
        }
        let (info, body) = part.split_once('\n').unwrap_or((part, ""));
        let mut name = "programme.sets".to_owned();
        let mut bytes = body.as_bytes().to_vec();
        let mut is_folder = false;
        for word in info.split_whitespace() {
            if word == "bytes" {
                bytes = unescape(body);
            } else if let Some(times) = word.strip_prefix("grow=") {
                bytes = grow(body, times.parse().unwrap()).into_bytes();
            } else if let Some(folder) = word.strip_suffix('/') {
                (name, is_folder) = (folder.to_owned(), true);
            } else if word != "sets" {
                word.clone_into(&mut name);
            }
        }
        found.push(Block { name, bytes, is_folder });
    }
    found
}

/// `\xE9` stands for that byte.
fn unescape(body: &str) -> Vec<u8> {
    let mut parts = body.split("\\x");
    let mut bytes = parts.next().unwrap_or("").as_bytes().to_vec();
    for part in parts {
        bytes.push(u8::from_str_radix(&part[..2], 16).unwrap());
        bytes.extend(&part.as_bytes()[2..]);
    }
    bytes
}

/// `…` stands for the character before it, repeated.
fn grow(body: &str, times: usize) -> String {
    let mut out = String::new();
    for sign in body.chars() {
        match (sign, out.chars().last()) {
            ('…', Some(last)) => out.push_str(&last.to_string().repeat(times)),
            _ => out.push(sign),
        }
    }
    out
}

fn findings(blocks: &[Block]) -> Vec<Diagnostic> {
    let folder = tempfile::tempdir().unwrap();
    for block in blocks {
        let path = folder.path().join(&block.name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        if block.is_folder {
            std::fs::create_dir_all(&path).unwrap();
        } else {
            std::fs::write(&path, &block.bytes).unwrap();
        }
    }
    let first = &blocks.first().expect("an example").name;
    let project = Project::open(&FolderLoader::new(folder.path()), first).unwrap();
    let checked = check(project);
    checked.diagnostics.into_iter().chain(checked.advice).collect()
}

fn names(found: &[Diagnostic]) -> Vec<&'static str> {
    found.iter().map(|d| d.code.name()).collect()
}

#[test]
fn every_page_has_an_example_that_causes_its_diagnostic_and_a_mend_that_does_not() {
    let mut wrong = Vec::new();
    for &code in Code::ALL {
        let page = code.page();
        if !page.starts_with(&format!("# {}\n", code.name())) {
            wrong.push(format!("{}: the page starts otherwise", code.name()));
            continue;
        }
        let caused = findings(&blocks(page, "## What causes it"));
        if !caused.iter().any(|d| d.code == code) {
            wrong.push(format!("{}: the example causes {:?}", code.name(), names(&caused)));
        }
        let others: Vec<&str> = caused
            .iter()
            .filter(|d| d.code != code && d.severity() == Severity::Error)
            .map(|d| d.code.name())
            .collect();
        if !others.is_empty() {
            wrong.push(format!("{}: the example also causes {others:?}", code.name()));
        }
        let fixed = findings(&blocks(page, "## How to fix it"));
        if fixed.iter().any(|d| d.code == code) || has_errors(&fixed) {
            wrong.push(format!("{}: the fix causes {:?}", code.name(), names(&fixed)));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn every_page_belongs_to_a_diagnostic_and_is_narrow() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/codes");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().unwrap().to_str().unwrap();
        assert!(Code::from_name(name).is_some(), "{name} belongs to no diagnostic");
        for line in std::fs::read_to_string(&path).unwrap().lines() {
            assert!(line.chars().count() <= 80, "{name}: {line}");
        }
    }
}
