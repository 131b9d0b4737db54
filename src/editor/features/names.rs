//! Go to definition and find references.

use super::guess::guess;
use super::mentions::{Mention, Mentions, Thing};
use crate::catalogue::LIBRARY_FILE;
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::fold_name;

/// Where the thing named at a byte of a file is defined: first in the project, then in the library
/// (file 0), which contains the built-in exercises. A synonym leads to the exercise.
#[must_use]
pub fn definition(analysis: &Analysis, file: FileId, offset: usize) -> Vec<Span> {
    let mentions = Mentions::new(analysis);
    let Some(found) = named_at(analysis, &mentions, file, offset) else { return Vec::new() };
    let defining = |mention: &Mention| {
        let named = match &found.thing {
            Thing::Exercise(name) => fold_name(&mention.name) == *name,
            _ => true,
        };
        mention.defines && named
    };
    let all = mentions.named(&found.thing).into_iter().filter(defining);
    let mut spans: Vec<Span> = all.map(|mention| mention.span).collect();
    spans.sort_by_key(|span| (span.file == LIBRARY_FILE, *span));
    spans
}

/// All places that name the thing at a byte of a file, in the order of the files. The definition
/// and uses by a synonym are included.
#[must_use]
pub fn references(analysis: &Analysis, file: FileId, offset: usize) -> Vec<Span> {
    let mentions = Mentions::new(analysis);
    let Some(found) = named_at(analysis, &mentions, file, offset) else { return Vec::new() };
    mentions.named(&found.thing).into_iter().map(|mention| mention.span).collect()
}

/// The thing named at a byte. On a line that cannot be parsed, the thing that its text seems to
/// name.
pub fn named_at(
    analysis: &Analysis,
    mentions: &Mentions<'_>,
    file: FileId,
    offset: usize,
) -> Option<Mention> {
    mentions.at(file, narrow(offset)).or_else(|| guess(analysis, file, offset))
}

/// A byte offset in the width that spans use.
pub fn narrow(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}
