//! The guide as a book: every link has a target, and every chapter is in the contents and has its
//! navigation.

use std::collections::BTreeMap;
use std::path::Path;

use super::blocks::{Document, chapters_in_the_folder, documents, same_or_accept, turn};
use crate::support::repository;

const CONTENTS: &str = "docs/README.md";
const GLOSSARY: &str = "docs/glossary.md";

/// The targets of a line's links and pictures; what stands in code is no link.
fn targets(line: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for (index, text) in line.split('`').enumerate() {
        if index % 2 == 0 {
            let after = text.split("](").skip(1);
            found.extend(after.filter_map(|rest| rest.split(')').next()));
        }
    }
    found
}

/// The names that headings can be reached by, made as code hosts make them.
fn anchors(document: &Document) -> Vec<String> {
    let mut times: BTreeMap<String, usize> = BTreeMap::new();
    let headings = document.prose().filter(|line| line.starts_with('#'));
    let anchor = |heading: &str| -> String {
        let words = heading.trim_start_matches('#').trim().to_lowercase();
        let kept = words.chars().filter(|c| c.is_alphanumeric() || " -_".contains(*c));
        kept.map(|c| if c == ' ' { '-' } else { c }).collect()
    };
    let numbered = headings.map(|heading| {
        let anchor = anchor(heading);
        let time = times.entry(anchor.clone()).or_insert(0);
        *time += 1;
        if *time == 1 { anchor } else { format!("{anchor}-{}", *time - 1) }
    });
    numbered.collect()
}

/// A path from a document, as a path from the repository.
fn from_repository(document: &str, path: &str) -> String {
    let mut parts: Vec<&str> = document.split('/').collect();
    parts.pop();
    for part in path.split('/') {
        match part {
            ".." => drop(parts.pop()),
            "." | "" => {}
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[test]
fn every_link_in_the_docs_leads_somewhere() {
    let mut count = 0;
    for document in documents() {
        let lines: Vec<String> = document.prose().map(str::to_owned).collect();
        // A code span may run over a line's end, so a paragraph is looked at as a whole.
        for paragraph in lines.join("\n").split("\n\n") {
            for target in targets(paragraph) {
                if target.contains("://") {
                    continue;
                }
                count += 1;
                let (path, anchor) = target.split_once('#').unwrap_or((target, ""));
                let name = match path {
                    "" => document.name.clone(),
                    path => from_repository(&document.name, path),
                };
                let is_there = repository().join(&name).exists();
                assert!(is_there, "{}: `{target}`: there is no {name}", document.name);
                if !anchor.is_empty() {
                    let anchors = anchors(&Document::read(&name));
                    let is_heading = anchors.iter().any(|a| a == anchor);
                    assert!(is_heading, "{}: `{target}`: {anchors:?}", document.name);
                }
            }
        }
    }
    assert!(count > 20, "{count} links");
}

/// The chapters in the order of the contents, each once.
fn contents() -> Vec<String> {
    let mut chapters: Vec<String> = Vec::new();
    for line in Document::read(CONTENTS).prose() {
        for target in targets(line) {
            let path = target.split('#').next().unwrap_or(target);
            let name = from_repository(CONTENTS, path);
            let is_text = Path::new(path).extension().is_some_and(|suffix| suffix == "md");
            let is_there = repository().join(&name).exists();
            if is_text && is_there && name.starts_with("docs/") && !chapters.contains(&name) {
                chapters.push(name);
            }
        }
    }
    chapters
}

#[test]
fn every_chapter_is_in_the_contents() {
    let mut listed = contents();
    listed.push(CONTENTS.to_owned());
    for chapter in chapters_in_the_folder() {
        assert!(listed.contains(&chapter), "{CONTENTS} does not list {chapter}");
    }
}

/// A chapter's title: its first heading.
fn title(chapter: &str) -> String {
    let document = Document::read(chapter);
    let title = document.prose().find_map(|line| line.strip_prefix("# ").map(str::to_owned));
    title.unwrap_or_else(|| panic!("{chapter} has no title"))
}

const MARK: &str = "<!-- the way on -->";

#[test]
fn every_chapter_ends_with_the_way_back_and_forward() {
    let _turn = turn();
    let chapters = contents();
    let link = |chapter: &String, words: &str| {
        let file = chapter.strip_prefix("docs/").unwrap_or(chapter);
        format!("[{words}]({file})")
    };
    for (index, chapter) in chapters.iter().enumerate() {
        let back = index.checked_sub(1).and_then(|i| chapters.get(i));
        let back = back.map(|c| link(c, &format!("← {}", title(c))));
        let on = chapters.get(index + 1).map(|c| link(c, &format!("{} →", title(c))));
        let contents = Some("[Contents](README.md)".to_owned());
        let glossary = (chapter != GLOSSARY).then(|| "[Glossary](glossary.md)".to_owned());
        let way: Vec<String> = [back, contents, glossary, on].into_iter().flatten().collect();
        let text = std::fs::read_to_string(repository().join(chapter)).unwrap();
        let body = text.split(&format!("\n{MARK}")).next().unwrap_or(&text).trim_end();
        let whole = format!("{body}\n\n{MARK}\n\n{}\n", way.join(" · "));
        same_or_accept(chapter, &text, &whole);
    }
}
