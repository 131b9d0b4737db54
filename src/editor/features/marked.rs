//! Texts with a cursor for tests: `|` marks the position.

use crate::editor::Analysis;
use crate::resolve::Project;
use crate::source::{FileId, MemoryLoader};

/// A project with one file whose text contains a cursor.
pub fn marked(text: &str) -> (Analysis, FileId, usize) {
    let at = text.find('|').expect("a cursor");
    let (analysis, file) = plain(&text.replacen('|', "", 1));
    (analysis, file, at)
}

/// A project with one file.
pub fn plain(text: &str) -> (Analysis, FileId) {
    let project = Project::from_text(&MemoryLoader::new(), "main.sets", text.to_owned());
    let analysis = Analysis::of(project);
    let file = analysis.root;
    (analysis, file)
}

/// A project whose first file contains a cursor, and other files that it uses.
pub fn marked_with(text: &str, others: &[(&str, &str)]) -> (Analysis, FileId, usize) {
    let at = text.find('|').expect("a cursor");
    let loader =
        others.iter().fold(MemoryLoader::new(), |loader, (path, text)| loader.with(path, text));
    let project = Project::from_text(&loader, "main.sets", text.replacen('|', "", 1));
    let analysis = Analysis::of(project);
    let file = analysis.root;
    (analysis, file, at)
}
