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
pub mod keys;
pub mod lines;
mod memory;
pub mod phrases;
pub mod purpose;

mod reader;
mod slips;
#[allow(clippy::needless_pass_by_value, reason = "pairs are read once and dropped")]
mod values;
pub mod words;

pub use crate::quantity::fold_name;
pub use document::Document;
pub use format::format;
pub use memory::LineMemory;

use crate::diagnostics::Diagnostic;
use crate::source::FileId;

/// Reads one file.
#[must_use]
pub fn parse(text: &str, file: FileId) -> (Document, Vec<Diagnostic>) {
    let (lines, mut problems) = lines::split(text, file);
    let nodes = reader::read(text, file, &lines, &mut problems, None);
    (Document { file, lines, nodes }, problems)
}

/// Reads one file of which lines have been read before; the same as [`parse`], sooner.
pub fn parse_again(
    text: &str,
    file: FileId,
    memory: &mut LineMemory,
) -> (Document, Vec<Diagnostic>) {
    let (lines, mut problems) = lines::split(text, file);
    let nodes = reader::read(text, file, &lines, &mut problems, Some(memory));
    (Document { file, lines, nodes }, problems)
}

/// What may stand below a line: read by itself where it stands (`None`: at the margin), as the
/// reader of whole files would, broken or not.
#[must_use]
pub fn place_below(line: &str, place: Option<keys::Place>) -> keys::Place {
    reader::place_below(line, place)
}
