//! Renaming a thing everywhere.

use super::edits::apply;
use super::mentions::{Mention, Mentions, Thing};
use super::names::narrow;
use crate::catalogue::LIBRARY_FILE;
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::{fold_name, parse};

/// The name at a byte of a file, if it can be renamed.
#[must_use]
pub fn prepare_rename(analysis: &Analysis, file: FileId, offset: usize) -> Option<Span> {
    let mentions = Mentions::new(analysis);
    let found = mentions.at(file, narrow(offset))?;
    changed(&mentions, &found).ok().map(|_| found.span)
}

/// The edits that rename the thing at a byte of a file, everywhere. If the cursor is on an
/// exercise's own name, uses by a synonym stay; if it is on a synonym, the synonym changes.
///
/// # Errors
/// One sentence that explains why the thing cannot be renamed, or not to this name.
pub fn rename(
    analysis: &Analysis,
    file: FileId,
    offset: usize,
    new_name: &str,
) -> Result<Vec<(Span, String)>, String> {
    let mentions = Mentions::new(analysis);
    let found = mentions
        .at(file, narrow(offset))
        .ok_or_else(|| "nothing here has a name that can be changed".to_owned())?;
    let all = changed(&mentions, &found)?;
    let new_name = new_name.trim();
    if new_name.is_empty() {
        return Err("a name has at least one letter".to_owned());
    }
    free(&mentions, analysis, &found, new_name)?;
    let edits: Vec<(Span, String)> =
        all.iter().map(|mention| (mention.span, new_name.to_owned())).collect();
    reads(analysis, &edits, new_name)?;
    Ok(edits)
}

/// The places of the name, if the project may change it.
fn changed(mentions: &Mentions<'_>, found: &Mention) -> Result<Vec<Mention>, String> {
    let folded = fold_name(&found.name);
    let all = mentions.named(&found.thing).into_iter();
    let all: Vec<Mention> = all.filter(|mention| fold_name(&mention.name) == folded).collect();
    if all.iter().any(|mention| mention.span.file == LIBRARY_FILE) {
        return Err(match &found.thing {
            Thing::Exercise(_) => format!(
                "`{}` is built in and keeps its name: define your own with `exercise NAME` and \
                 `like: {}`",
                found.name, found.name
            ),
            _ => format!("the built-in exercises look for `{}` by this name", found.name),
        });
    }
    if !all.iter().any(|mention| mention.defines) {
        return Err(format!("`{}` is defined nowhere in this project", found.name));
    }
    Ok(all)
}

/// Checks that no other thing of the kind has the name.
fn free(
    mentions: &Mentions<'_>,
    analysis: &Analysis,
    found: &Mention,
    new_name: &str,
) -> Result<(), String> {
    let folded = fold_name(new_name);
    if folded == fold_name(&found.name) {
        return Ok(());
    }
    let taken = format!("there is a `{new_name}` already");
    if matches!(found.thing, Thing::Exercise(_) | Thing::Station(_))
        && let Some(index) = analysis.names.find(new_name)
    {
        let file = analysis.exercises.get(index).map(|exercise| exercise.span.file);
        return Err(if file == Some(LIBRARY_FILE) {
            format!("`{new_name}` is the name of a built-in exercise")
        } else {
            taken
        });
    }
    let rival = |mention: &Mention| {
        mention.defines && fold_name(&mention.name) == folded && same_scope(&mention.thing, found)
    };
    if mentions.own().iter().any(rival) { Err(taken) } else { Ok(()) }
}

/// Whether two things must have different names.
fn same_scope(thing: &Thing, found: &Mention) -> bool {
    match (thing, &found.thing) {
        (Thing::Day(owner, _), Thing::Day(own, _))
        | (Thing::Phase(owner, _), Thing::Phase(own, _)) => owner == own,
        // A shared scheme and a programme's scheme with the same name would be confused.
        (one, other) => std::mem::discriminant(one) == std::mem::discriminant(other),
    }
}

/// Checks that the edited text has the same meaning, with the new name in place of the old.
fn reads(analysis: &Analysis, edits: &[(Span, String)], new_name: &str) -> Result<(), String> {
    let mut files: Vec<FileId> = edits.iter().map(|(at, _)| at.file).collect();
    files.dedup();
    for file in files {
        let Some(source) = analysis.sources.get(file) else { continue };
        let edited = apply(&source.text, file, edits);
        let (_, before) = parse(&source.text, file);
        let (document, after) = parse(&edited, file);
        let written = Mentions::written(analysis, &document);
        let mut shift = 0_i64;
        let mut own: Vec<Span> =
            edits.iter().map(|(at, _)| *at).filter(|at| at.file == file).collect();
        own.sort_unstable();
        for at in own {
            let start = i64::from(at.start) + shift;
            let length = i64::try_from(new_name.len()).unwrap_or(i64::MAX);
            shift += length - i64::from(at.end - at.start);
            let end = start + length;
            let stands = written.iter().any(|(span, name)| {
                i64::from(span.start) == start && i64::from(span.end) == end && name == new_name
            });
            if !stands || after.len() > before.len() {
                let line = source.line_of(at.start);
                return Err(format!(
                    "`{new_name}` would not read as a name in line {line} of {}",
                    source.path
                ));
            }
        }
    }
    Ok(())
}
