//! Applying edits to texts.

use crate::source::{FileId, Span};

/// Applies the edits of one file to its text. Edits must not overlap; edits of other files are
/// ignored.
pub fn apply(text: &str, file: FileId, edits: &[(Span, String)]) -> String {
    let mut own: Vec<&(Span, String)> = edits.iter().filter(|(at, _)| at.file == file).collect();
    own.sort_by_key(|(at, _)| (at.start, at.end));
    let mut out = String::with_capacity(text.len());
    let mut done = 0;
    for (at, new) in own {
        out.push_str(text.get(done..at.start as usize).unwrap_or(""));
        out.push_str(new);
        done = at.end as usize;
    }
    out.push_str(text.get(done..).unwrap_or(""));
    out
}
