//! Parses text into a [`Document`]: every line with its span, and every problem with its message.
//!
//! Parsing never fails as a whole: a line that cannot be read becomes [`ast::Item::Wrong`] and one
//! diagnostic, and the next line is read as usual.

pub mod ast;
#[allow(clippy::needless_pass_by_value, reason = "pairs are read once and dropped")]
mod build;
mod document;
mod format;
mod grammar;
pub mod key_docs;
pub mod keys;
pub mod lines;
mod parse_cache;
pub mod phrases;

mod reader;
mod recovery;
#[allow(clippy::needless_pass_by_value, reason = "pairs are read once and dropped")]
mod values;
pub mod words;

pub use crate::quantity::fold_name;
pub use document::Document;
pub use format::format;
pub use parse_cache::ParseCache;

use std::ops::Range;

use crate::diagnostics::{Code, Diagnostic};
use crate::source::FileId;

/// The newest version of the notation that this program reads. A file without a `notation` line uses
/// version 1. `DEVELOPERS.md`, "Notation versions", explains when a new version is needed.
pub const NOTATION: u32 = 1;

/// Parses one file. If the file uses a newer notation than [`NOTATION`], only that is reported: other
/// problems would come from reading it with the wrong version.
#[must_use]
pub fn parse(text: &str, file: FileId) -> (Document, Vec<Diagnostic>) {
    let (lines, mut problems) = lines::split(text, file);
    let nodes = reader::read(text, file, &lines, &mut problems, None);
    only_newer(&mut problems);
    (Document { file, lines, nodes }, problems)
}

/// Whether a text can be read as numbers for a scheme: `jump 2 kg, goal 10`.
#[must_use]
pub fn reads_as_arguments(text: &str) -> bool {
    use pest::Parser;
    grammar::LineParser::parse(grammar::Rule::old_arguments, text).is_ok()
}

/// Parses some whole lines of a file as [`parse`] does, with their positions in the file, but without
/// diagnostics. Nodes count their lines from the first line of the part.
#[must_use]
pub fn parse_part(text: &str, file: FileId, part: Range<usize>) -> Vec<ast::Node> {
    let said = text.get(part.clone()).unwrap_or("");
    let (lines, mut problems) = lines::split_part(said, part.start, file);
    reader::read(text, file, &lines, &mut problems, None)
}

fn only_newer(problems: &mut Vec<Diagnostic>) {
    if problems.iter().any(|found| found.code == Code::NewerNotation) {
        problems.retain(|found| found.code == Code::NewerNotation);
    }
}

/// Parses one file with a cache of lines that were read before. Same result as [`parse`], but faster.
pub fn parse_again(
    text: &str,
    file: FileId,
    memory: &mut ParseCache,
) -> (Document, Vec<Diagnostic>) {
    let (lines, mut problems) = lines::split(text, file);
    let nodes = reader::read(text, file, &lines, &mut problems, Some(memory));
    only_newer(&mut problems);
    (Document { file, lines, nodes }, problems)
}

/// What may follow below a line. The line is read by itself in its place (`None`: at the margin) as the
/// reader of whole files would read it, with or without errors.
#[must_use]
pub fn place_below(line: &str, place: Option<keys::BlockPlace>) -> keys::BlockPlace {
    reader::place_below(line, place)
}
