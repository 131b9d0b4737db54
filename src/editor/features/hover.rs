//! Hover: information on the text at a position.

mod line;
mod things;

use super::mentions::{Mentions, Thing};
use super::names::{named_at, narrow};
use super::place::Spot;
use super::written::OrderLine;
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::key_docs;
use crate::syntax::keys::BlockPlace;
use crate::syntax::phrases::{ACTIONS, CONDITIONS, OPTIONS, says};

pub use things::exercise_in_short;

/// Maximum number of lines shown of a problem's page.
const PAGE_LINES: usize = 8;

/// Information on a piece of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// The text it is about.
    pub span: Span,
    /// The information, in Markdown.
    pub markdown: String,
}

/// Information on the text at a byte of a file: the thing named there, the loads of a prescription
/// or the purpose of a key, and the reason for a problem.
#[must_use]
pub fn hover(analysis: &Analysis, file: FileId, offset: usize) -> Option<Hover> {
    let about = thing(analysis, file, offset).or_else(|| words(analysis, file, offset));
    let page = finding(analysis, file, offset);
    match (about, page) {
        (Some(about), Some(page)) => {
            let markdown = format!("{}\n\n---\n\n{}", about.markdown, page.markdown);
            Some(Hover { span: about.span, markdown })
        }
        (about, page) => about.or(page),
    }
}

/// Information on the thing named there.
fn thing(analysis: &Analysis, file: FileId, offset: usize) -> Option<Hover> {
    let mentions = Mentions::new(analysis);
    let found = named_at(analysis, &mentions, file, offset)?;
    let defined = || mentions.named(&found.thing).into_iter().find(|mention| mention.defines);
    let markdown = match &found.thing {
        Thing::Exercise(_) => things::exercise(analysis, &found.name)?,
        Thing::Athlete(name) => things::athlete(analysis, name)?,
        Thing::Gym(name) => things::gym(analysis, name)?,
        Thing::Programme(name) => things::programme(analysis, name)?,
        Thing::Bar(_) | Thing::Station(_) => things::station(analysis, &found),
        Thing::Scheme(..) | Thing::Day(..) | Thing::Phase(..) => {
            things::block(analysis, defined()?.span)?
        }
    };
    Some(Hover { span: found.span, markdown })
}

/// Information on the words of the line: key, prescription or rule.
fn words(analysis: &Analysis, file: FileId, offset: usize) -> Option<Hover> {
    let spot = Spot::at(analysis, file, offset)?;
    let whole = spot.whole();
    let key_end = spot.key_end();
    let key_span = spot.span(spot.start, key_end);
    let Some(place) = spot.place else {
        let word = whole.split([' ', ':']).next()?;
        let span = spot.span(spot.start, spot.start + word.len());
        let on_word = spot.offset <= spot.start + word.len();
        let says = key_docs::of_word(word).filter(|_| on_word)?;
        return Some(Hover { span, markdown: format!("`{word}`: {says}") });
    };
    let key = whole.get(..key_end - spot.start)?.trim_end();
    let first = key.split(' ').next().unwrap_or(key);
    let rules = matches!(place, BlockPlace::Line | BlockPlace::Scheme)
        && matches!(first, "when" | "otherwise");
    if rules && (spot.offset > key_end || first == "when" && spot.offset > spot.start + 4) {
        return rule(&spot, key_end);
    }
    let line = analysis.document(file).and_then(|document| OrderLine::at(document, spot.line));
    let on_word = spot.offset <= spot.start + first.len();
    let plain = place.properties().find(|property| {
        let word = property.key.word();
        key == word || property.named && key.strip_prefix(word).is_some_and(|k| k.starts_with(' '))
    });
    if spot.offset <= key_end
        && let Some(property) = plain
    {
        let says = key_docs::of_key(place, property.key)?;
        let markdown = format!("`{}`: {says}", property.key.word());
        return Some(Hover { span: key_span, markdown });
    }
    if matches!(place, BlockPlace::Line | BlockPlace::Scheme)
        && on_word
        && let Some(says) = key_docs::of_word(first)
    {
        let span = spot.span(spot.start, spot.start + first.len());
        return Some(Hover { span, markdown: format!("`{first}`: {says}") });
    }
    let text = line.and_then(|line| line::loads(analysis, &line));
    let option = option(&spot, key_end);
    let markdown = match (option, text) {
        (Some(option), Some(text)) => format!("{option}\n\n{text}"),
        (option, text) => option.or(text)?,
    };
    Some(Hover { span: spot.span(spot.start, spot.end), markdown })
}

/// The option of a prescription under the cursor.
fn option(spot: &Spot<'_>, key_end: usize) -> Option<String> {
    if spot.offset <= key_end
        || !matches!(spot.place?, BlockPlace::Day | BlockPlace::Line | BlockPlace::Scheme)
    {
        return None;
    }
    let (start, end) = spot.item(key_end + 1);
    let text = spot.text.get(start..end)?.trim();
    let word = text.split([' ', '\u{a0}']).next()?;
    let same = |(phrase, _): &&(&str, &'static str)| phrase.split(' ').next() == Some(word);
    let says = OPTIONS.iter().find(same)?.1;
    Some(format!("`{text}`: {says}"))
}

/// Information on a condition or an action of a rule.
fn rule(spot: &Spot<'_>, key_end: usize) -> Option<Hover> {
    let in_key = spot.offset <= key_end;
    let (table, start, end) = if in_key {
        let start = spot.start + "when ".len();
        let before = spot.text.get(start..spot.offset).unwrap_or("");
        let start = start + before.rfind(" and ").map_or(0, |at| at + 5);
        let after = spot.text.get(spot.offset..key_end).unwrap_or("");
        (CONDITIONS, start, spot.offset + after.find(" and ").unwrap_or(after.len()))
    } else {
        let (start, end) = spot.item(key_end + 1);
        (ACTIONS, start, end)
    };
    let text = spot.text.get(start..end)?.trim();
    let meaning = says(table, text)?;
    Some(Hover { span: spot.span(start, end), markdown: format!("`{text}`: {meaning}") })
}

/// The first lines of a problem's page.
fn finding(analysis: &Analysis, file: FileId, offset: usize) -> Option<Hover> {
    let at = narrow(offset);
    let here = |span: Span| span.file == file && span.start <= at && at <= span.end;
    let all = analysis.diagnostics.iter().chain(&analysis.advice);
    let found = all.filter(|found| here(found.label.span));
    // The narrowest span is the most specific.
    let found = found.min_by_key(|found| found.label.span.end - found.label.span.start)?;
    let page: Vec<&str> = found.code.page().trim_start().lines().take(PAGE_LINES).collect();
    let cut = page.join("\n");
    // Close a code fence that the cut left open.
    let open = cut.matches("```").count() % 2 == 1;
    let markdown = if open { format!("{cut}\n```") } else { cut };
    Some(Hover { span: found.label.span, markdown })
}
