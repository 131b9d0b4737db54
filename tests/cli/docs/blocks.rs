//! Documents as prose and fenced blocks, and the handling of blocks that are out of date.

use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

use crate::support::repository;

/// A document of the repository.
#[derive(Clone)]
pub struct Document {
    /// Its path from the repository, with `/`.
    pub name: String,
    pub parts: Vec<Part>,
}

/// A line of prose, or a fenced block.
#[derive(Clone)]
pub enum Part {
    Prose(String),
    Block { info: String, body: String },
}

impl Document {
    pub fn read(name: &str) -> Self {
        let text = std::fs::read_to_string(repository().join(name)).unwrap();
        let mut parts = Vec::new();
        let mut open: Option<(String, String)> = None;
        for line in text.lines() {
            match (&mut open, line.strip_prefix("```")) {
                (None, Some(info)) => open = Some((info.to_owned(), String::new())),
                (None, None) => parts.push(Part::Prose(line.to_owned())),
                (Some(_), Some(_)) => {
                    parts.extend(open.take().map(|(info, body)| Part::Block { info, body }));
                }
                (Some((_, body)), None) => {
                    body.push_str(line);
                    body.push('\n');
                }
            }
        }
        assert!(open.is_none(), "{name}: a fence is left open");
        Self { name: name.to_owned(), parts }
    }

    /// The whole text.
    pub fn text(&self) -> String {
        let part = |part: &Part| match part {
            Part::Prose(line) => format!("{line}\n"),
            Part::Block { info, body } => format!("```{info}\n{body}```\n"),
        };
        self.parts.iter().map(part).collect()
    }

    /// The fenced blocks: the words after the fence, and the text.
    pub fn blocks(&self) -> impl Iterator<Item = (&str, &str)> {
        self.parts.iter().filter_map(|part| match part {
            Part::Block { info, body } => Some((info.as_str(), body.as_str())),
            Part::Prose(_) => None,
        })
    }

    /// The lines outside fences.
    pub fn prose(&self) -> impl Iterator<Item = &str> {
        self.parts.iter().filter_map(|part| match part {
            Part::Prose(line) => Some(line.as_str()),
            Part::Block { .. } => None,
        })
    }
}

/// The documents whose examples are run.
pub fn documents() -> Vec<Document> {
    let mut names = vec!["README.md".to_owned(), "DEVELOPERS.md".to_owned()];
    names.extend(chapters_in_the_folder());
    names.sort();
    names.iter().map(|name| Document::read(name)).collect()
}

/// The files of the guide.
pub fn chapters_in_the_folder() -> Vec<String> {
    let folder = std::fs::read_dir(repository().join("docs")).unwrap();
    let names = folder.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let is_chapter = |name: &String| Path::new(name).extension().is_some_and(|e| e == "md");
    names.filter(is_chapter).map(|name| format!("docs/{name}")).collect()
}

/// Whether the block holds notation.
pub fn is_sets(info: &str) -> bool {
    info.split(' ').next() == Some("sets")
}

/// Whether the block holds a complete project.
pub fn is_whole_project(info: &str) -> bool {
    is_sets(info) && !info.split(' ').any(|word| word == "part")
}

/// The file a block is written to: `sets file=linear.sets`.
pub fn file_of(info: &str) -> Option<&str> {
    info.split(' ').find_map(|word| word.strip_prefix("file="))
}

/// Taken by every test that may write a document, so that none writes what another has not seen.
pub fn turn() -> MutexGuard<'static, ()> {
    static TURN: Mutex<()> = Mutex::new(());
    TURN.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A document with its made parts put in, each between its two marks.
pub fn with_made_parts(text: &str, parts: &[(&str, String)]) -> String {
    let mut whole = text.to_owned();
    for (name, part) in parts {
        let (open, close) = (format!("<!-- made: {name} -->\n"), "<!-- made so far -->");
        let (before, rest) = whole.split_once(&open).unwrap_or_else(|| panic!("no {open}"));
        let after = rest.split_once(close).unwrap_or_else(|| panic!("{name} is left open")).1;
        whole = format!("{before}{open}\n{}\n\n{close}{after}", part.trim_end());
    }
    whole
}

/// Holds a document against what it should be, or makes it so where the environment says.
pub fn same_or_accept(name: &str, is: &str, should_be: &str) {
    if is == should_be {
        return;
    }
    if std::env::var("SETWRIGHT_ACCEPT_DOCS").is_ok_and(|v| v == "1") {
        std::fs::write(repository().join(name), should_be).unwrap();
        return;
    }
    let differs = is.lines().zip(should_be.lines()).position(|(a, b)| a != b);
    let line = differs.unwrap_or(is.lines().count().min(should_be.lines().count()));
    let shown = |text: &str| -> String {
        let lines = text.lines().skip(line.saturating_sub(3)).take(12);
        lines.map(|line| format!("    {line}\n")).collect()
    };
    panic!(
        "{name}, line {}:\n{}should be\n{}SETWRIGHT_ACCEPT_DOCS=1 accepts",
        line + 1,
        shown(is),
        shown(should_be)
    );
}
