//! Parsing: from text to [`Document`], which contains every line with its span, and a problem for
//! every wrong line.
//!
//! # How parsing recovers
//!
//! Parsing never fails as a whole, and one wrong line does not affect the lines below it. pest
//! stops at the first failure, so it is given one line at a time:
//!
//! 1. `lines` divides the text into lines and handles indentation and comments.
//! 2. `reader` builds the tree from the indentation. For each line, the block that contains it
//!    decides which rule of the grammar applies: first the rule for the key, then the rule for the
//!    value.
//! 3. `build` and `values` turn the parsed line into [`ast`] items.
//! 4. A line that cannot be parsed becomes [`ast::Item::Wrong`] with exactly one problem from
//!    `recovery`. It knows the common errors (a decimal comma, a missing unit, quotes …) and offers
//!    a fix for them; otherwise it reports what the grammar expected.
//! 5. The lines below a wrong line are read as usual.
//!
//! Later stages must not report problems that only follow from a wrong line. For this, athletes and
//! gyms remember that one of their lines was wrong (`Athlete::incomplete`, `Gym::incomplete`).

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

/// The newest version of the notation that can be read. A file without a `notation` line is in
/// version 1. See `DEVELOPERS.md`, "Notation versions".
pub const NOTATION: u32 = 1;

/// Parses one file. If its notation is newer than [`NOTATION`], that is the only problem reported,
/// because all others would be misleading.
#[must_use]
pub fn parse(text: &str, file: FileId) -> (Document, Vec<Diagnostic>) {
    let (lines, mut problems) = lines::split(text, file);
    let nodes = reader::read(text, file, &lines, &mut problems, None);
    only_newer(&mut problems);
    (Document { file, lines, nodes }, problems)
}

/// Whether a text can be parsed as numbers for a scheme: `jump 2 kg, goal 10`.
#[must_use]
pub fn reads_as_arguments(text: &str) -> bool {
    use pest::Parser;
    grammar::LineParser::parse(grammar::Rule::old_arguments, text).is_ok()
}

/// Parses some whole lines of a file as [`parse`] does, with their spans in the whole file.
/// Problems are left to the parse of the whole file. Nodes count their lines from the first line of
/// the part.
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

/// Parses a file again after a change. The result is the same as from [`parse`], but unchanged
/// lines come from the cache.
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

/// The kind of block that a line opens, if the line is parsed on its own at a place (`None`:
/// without indentation). It is the same as in a whole file, even for a wrong line.
#[must_use]
pub fn place_below(line: &str, place: Option<keys::BlockPlace>) -> keys::BlockPlace {
    reader::place_below(line, place)
}
