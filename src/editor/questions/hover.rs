//! What there is to say about what stands at a place.

use crate::catalogue::Exercise;
use crate::editor::Analysis;
use crate::source::{FileId, Span};

/// Something to say about a piece of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// What it is about.
    pub span: Span,
    /// What there is to say, in Markdown.
    pub markdown: String,
}

/// What there is to say about what stands at a byte of a file.
#[must_use]
pub fn hover(_analysis: &Analysis, _file: FileId, _offset: usize) -> Option<Hover> {
    None
}

pub fn exercise_in_short(exercise: &Exercise) -> String {
    exercise.name.clone()
}
