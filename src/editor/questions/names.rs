//! Names: where each is defined, and where it is used.

use super::mentions::{Mention, Mentions, Thing};
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::fold_name;

/// Where what is named at a byte of a file is defined: in the project, then in the library, file 0,
/// which holds the built-in exercises. A synonym leads to the exercise.
#[must_use]
pub fn definition(analysis: &Analysis, file: FileId, offset: usize) -> Vec<Span> {
    let mentions = Mentions::new(analysis);
    let Some(found) = mentions.at(file, narrow(offset)) else { return Vec::new() };
    let mut spans: Vec<Span> = defining(&mentions, &found).map(|mention| mention.span).collect();
    spans.sort_by_key(|span| (span.file == analysis.library.file, *span));
    spans
}

/// The definitions of what a name stands for; of an exercise only its own name, not its synonyms.
fn defining<'m>(
    mentions: &Mentions<'_>,
    of: &'m Mention,
) -> impl Iterator<Item = Mention> + use<'m> {
    let own = move |mention: &Mention| {
        let named = match &of.thing {
            Thing::Exercise(name) => fold_name(&mention.name) == *name,
            _ => true,
        };
        mention.defines && mention.thing == of.thing && named
    };
    mentions.all(true).into_iter().filter(own)
}

/// Everywhere that what is named at a byte of a file is named, its definition included, in the
/// order of the files; uses by a synonym count.
#[must_use]
pub fn references(analysis: &Analysis, file: FileId, offset: usize) -> Vec<Span> {
    let mentions = Mentions::new(analysis);
    let Some(found) = mentions.at(file, narrow(offset)) else { return Vec::new() };
    let all = mentions.all(true).into_iter();
    all.filter(|mention| mention.thing == found.thing).map(|mention| mention.span).collect()
}

/// A byte as spans hold it.
pub fn narrow(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}
