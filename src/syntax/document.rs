//! The parsed file.

use super::ast::Node;
use super::lines::SourceLine;
use crate::source::FileId;

/// A parsed file: every line, including comments and blank lines, and the tree of what the lines
/// mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The file.
    pub file: FileId,
    /// All lines in order.
    pub lines: Vec<SourceLine>,
    /// The lines that open blocks, each with what belongs to it.
    pub nodes: Vec<Node>,
}
