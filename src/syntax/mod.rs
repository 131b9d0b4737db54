//! From text to [`Document`]: every line, with its span, and every mistake, with its message.
//!
//! Parsing never fails as a whole: a line that does not read becomes [`ast::Item::Wrong`] and one
//! diagnostic, and the next line is read as if nothing had happened.

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

/// The newest form of the notation that is read here; a file without a `notation` line is in the
/// first. What a new one is for: `DEVELOPERS.md`, "Notation versions".
pub const NOTATION: u32 = 1;

/// Reads one file. Of one in a newer notation than [`NOTATION`] nothing is found but that: what
/// else would be said follows from reading it as something that it is not.
#[must_use]
pub fn parse(text: &str, file: FileId) -> (Document, Vec<Diagnostic>) {
    let (lines, mut problems) = lines::split(text, file);
    let nodes = reader::read(text, file, &lines, &mut problems, None);
    only_newer(&mut problems);
    (Document { file, lines, nodes }, problems)
}

/// Whether a text reads as numbers for a scheme: `jump 2 kg, goal 10`.
#[must_use]
pub fn reads_as_arguments(text: &str) -> bool {
    use pest::Parser;
    grammar::LineParser::parse(grammar::Rule::old_arguments, text).is_ok()
}

/// Reads some whole lines of a file as [`parse`] reads them, at their places; what is wrong with them
/// is left to who reads the whole. Nodes count their lines from the first of the part.
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

/// Reads one file of which lines have been read before; the same as [`parse`], sooner.
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

/// What may stand below a line: read by itself where it stands (`None`: at the margin), as the
/// reader of whole files would, broken or not.
#[must_use]
pub fn place_below(line: &str, place: Option<keys::BlockPlace>) -> keys::BlockPlace {
    reader::place_below(line, place)
}
