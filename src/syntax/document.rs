//! A file as it was written.

use super::ast::Node;
use super::lines::SourceLine;
use crate::source::FileId;

/// A file as it was written: every line, comments and blank lines included, and what the lines
/// say as a tree.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The file.
    pub file: FileId,
    /// All lines in order.
    pub lines: Vec<SourceLine>,
    /// The lines that open blocks, each with what belongs to it.
    pub nodes: Vec<Node>,
}
