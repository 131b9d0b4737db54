//! Names: where each is defined, and where it is used.

use super::guess::guess;
use super::mentions::{Mention, Mentions, Thing};
use crate::catalogue::LIBRARY_FILE;
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::fold_name;

/// Where what is named at a byte of a file is defined: in the project, then in the library, file 0,
/// which holds the built-in exercises. A synonym leads to the exercise.
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

/// Everywhere that what is named at a byte of a file is named, its definition included, in the
/// order of the files; uses by a synonym count.
#[must_use]
pub fn references(analysis: &Analysis, file: FileId, offset: usize) -> Vec<Span> {
    let mentions = Mentions::new(analysis);
    let Some(found) = named_at(analysis, &mentions, file, offset) else { return Vec::new() };
    mentions.named(&found.thing).into_iter().map(|mention| mention.span).collect()
}

/// What is named at a byte; on a line that does not read, what its text seems to name.
pub fn named_at(
    analysis: &Analysis,
    mentions: &Mentions<'_>,
    file: FileId,
    offset: usize,
) -> Option<Mention> {
    mentions.at(file, narrow(offset)).or_else(|| guess(analysis, file, offset))
}

/// A byte as spans hold it.
pub fn narrow(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}
