//! Names: where each is defined, where it is used, and how to change it everywhere.

use crate::editor::Analysis;
use crate::source::{FileId, Span};

/// Where what is named at a byte of a file is defined. Built-in exercises are defined in the
/// library, file 0.
#[must_use]
pub fn definition(_analysis: &Analysis, _file: FileId, _offset: usize) -> Vec<Span> {
    Vec::new()
}

/// Everywhere that what is named at a byte of a file is named, its definition included, in the
/// order of the files; uses by a synonym count.
#[must_use]
pub fn references(_analysis: &Analysis, _file: FileId, _offset: usize) -> Vec<Span> {
    Vec::new()
}

/// The name at a byte of a file, if it can be changed.
#[must_use]
pub fn prepare_rename(_analysis: &Analysis, _file: FileId, _offset: usize) -> Option<Span> {
    None
}

/// The edits that give what is named at a byte of a file another name, everywhere. Uses by a
/// synonym stay as they are.
///
/// # Errors
/// In one sentence, why the name cannot be changed, or not to this.
pub fn rename(
    _analysis: &Analysis,
    _file: FileId,
    _offset: usize,
    _new_name: &str,
) -> Result<Vec<(Span, String)>, String> {
    Err("nothing here has a name that can be changed".to_owned())
}
