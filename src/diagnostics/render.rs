//! Diagnostics as text (through annotate-snippets) and as JSON.

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use serde::Serialize;

use super::printable::{line, printable};
use super::{Diagnostic, Fix, Label, Severity};
use crate::source::{FileId, SourceFile, Sources, Span};

/// Lines longer than this are cut around the place before they are shown.
const LONGEST_SHOWN: usize = 300;
/// Places of one file further apart than this are shown as separate excerpts.
const WIDEST_EXCERPT: usize = 20_000;

/// The text of one diagnostic, ending in a newline. Without colour it is plain text without
/// control codes, so that it can be pasted into a mail.
#[must_use]
pub fn render_text(diagnostic: &Diagnostic, sources: &Sources, colour: bool) -> String {
    let level = match diagnostic.severity() {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Info => Level::INFO,
    };
    let mut group = level
        .primary_title(printable(&diagnostic.message))
        .id(diagnostic.code.name())
        .elements(excerpts(diagnostic, sources).into_iter().map(|excerpt| {
            let annotations = excerpt.labels.into_iter().map(|(kind, range, text)| {
                let annotation = kind.span(range);
                if text.is_empty() { annotation } else { annotation.label(printable(text)) }
            });
            Snippet::source(line(excerpt.text))
                .line_start(excerpt.line)
                .path(printable(excerpt.path))
                .annotations(annotations)
        }));
    if let Some(help) = &diagnostic.help {
        group = group.element(Level::HELP.message(printable(help)));
    }
    if let Some(source) = &diagnostic.source {
        group = group.element(Level::NOTE.with_name("source").message(printable(source)));
    }
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let renderer = renderer.decor_style(DecorStyle::Ascii).term_width(100);
    let mut text = renderer.render(&[group]);
    text.push_str("\n\n");
    text
}

/// A part of a file with the places to mark in it.
struct Excerpt<'a> {
    file: FileId,
    path: &'a str,
    /// The line its text starts at, counted from one.
    line: usize,
    start: usize,
    text: &'a str,
    labels: Vec<(AnnotationKind, std::ops::Range<usize>, &'a str)>,
}

fn excerpts<'a>(diagnostic: &'a Diagnostic, sources: &'a Sources) -> Vec<Excerpt<'a>> {
    let primary = std::iter::once((AnnotationKind::Primary, &diagnostic.label));
    let context = diagnostic.related.iter().map(|label| (AnnotationKind::Context, label));
    let mut excerpts: Vec<Excerpt<'a>> = Vec::new();
    for (kind, label) in primary.chain(context) {
        let Some(file) = sources.get(label.span.file) else { continue };
        let (start, end) = lines_around(file, label.span);
        let joins = |e: &&mut Excerpt<'a>| {
            e.file == label.span.file
                && start.min(e.start) + WIDEST_EXCERPT > end.max(e.start + e.text.len())
        };
        if let Some(found) = excerpts.iter_mut().find(joins) {
            widen(found, file, start, end);
            add(found, kind, label);
        } else {
            let mut excerpt = Excerpt {
                file: label.span.file,
                path: &file.path,
                line: file.line_of(label.span.start) as usize,
                start,
                text: file.text.get(start..end).unwrap_or(""),
                labels: Vec::new(),
            };
            add(&mut excerpt, kind, label);
            excerpts.push(excerpt);
        }
    }
    excerpts
}

/// The bytes of the line a span starts in, cut around the span when the line is long.
fn lines_around(file: &SourceFile, span: Span) -> (usize, usize) {
    let text = &*file.text;
    let at = (span.start as usize).min(text.len());
    let before = text.get(..at).unwrap_or("");
    let start = before.rfind('\n').map_or(0, |n| n + 1);
    let rest = text.get(at..).unwrap_or("");
    let end = at + line_length(rest);
    if end - start <= LONGEST_SHOWN {
        return (start, end);
    }
    let mut low = start.max(at.saturating_sub(LONGEST_SHOWN / 3));
    while !text.is_char_boundary(low) {
        low -= 1;
    }
    let mut high = end.min(low + LONGEST_SHOWN);
    while !text.is_char_boundary(high) {
        high += 1;
    }
    (low, high)
}

/// The bytes up to the end of a text's first line, without the LF or CRLF that ends it.
fn line_length(text: &str) -> usize {
    match text.find('\n') {
        Some(end) => {
            text.get(..end).map_or(end, |line| line.strip_suffix('\r').unwrap_or(line).len())
        }
        None => text.len(),
    }
}

/// Widens an excerpt to hold `start..end` as well.
fn widen<'a>(excerpt: &mut Excerpt<'a>, file: &'a SourceFile, start: usize, end: usize) {
    let new_start = start.min(excerpt.start);
    let new_end = end.max(excerpt.start + excerpt.text.len());
    let shift = excerpt.start - new_start;
    for (_, range, _) in &mut excerpt.labels {
        *range = range.start + shift..range.end + shift;
    }
    if let Some(text) = file.text.get(new_start..new_end) {
        excerpt.line = file.line_of(u32::try_from(new_start).unwrap_or(u32::MAX)) as usize;
        excerpt.text = text;
        excerpt.start = new_start;
    }
}

fn add<'a>(excerpt: &mut Excerpt<'a>, kind: AnnotationKind, label: &'a Label) {
    let place = |byte: u32| {
        let mut at = (byte as usize).saturating_sub(excerpt.start).min(excerpt.text.len());
        while !excerpt.text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = place(label.span.start);
    // A long span is underlined to the end of its first line only.
    let rest = excerpt.text.get(start..).unwrap_or("");
    let line_end = start + line_length(rest);
    let end = place(label.span.end).min(line_end).max(start);
    excerpt.labels.push((kind, start..end, &label.text));
}

/// One diagnostic as a JSON object for tools: lines and columns count from one, columns in
/// characters; bytes count from zero.
#[must_use]
pub fn render_json(diagnostic: &Diagnostic, sources: &Sources) -> serde_json::Value {
    serde_json::json!({
        "code": diagnostic.code.name(),
        "severity": diagnostic.severity(),
        "message": diagnostic.message,
        "location": LocationJson::of(&diagnostic.label, sources),
        "related": diagnostic.related.iter().map(|l| LocationJson::of(l, sources)).collect::<Vec<_>>(),
        "help": diagnostic.help,
        "source": diagnostic.source,
        "fixes": diagnostic.fixes.iter().map(|fix| fix_json(fix, sources)).collect::<Vec<_>>(),
    })
}

fn fix_json(fix: &Fix, sources: &Sources) -> serde_json::Value {
    let edits = fix.edits.iter().map(|edit| {
        let label = Label { span: edit.span, text: String::new() };
        serde_json::json!({ "location": LocationJson::of(&label, sources), "text": edit.text })
    });
    serde_json::json!({
        "title": fix.title(sources),
        "safe": fix.safe,
        "edits": edits.collect::<Vec<_>>(),
    })
}

#[derive(Serialize)]
struct LocationJson<'a> {
    file: &'a str,
    line: u32,
    column: u32,
    end_line: u32,
    end_column: u32,
    start_byte: u32,
    end_byte: u32,
    label: &'a str,
}

impl<'a> LocationJson<'a> {
    fn of(label: &'a Label, sources: &'a Sources) -> Self {
        let file = sources.get(label.span.file);
        let position = |byte| file.map_or((0, 0), |f| f.position(byte));
        let (line, column) = position(label.span.start);
        let (end_line, end_column) = position(label.span.end);
        Self {
            file: file.map_or("", |f| &f.path),
            line,
            column,
            end_line,
            end_column,
            start_byte: label.span.start,
            end_byte: label.span.end,
            label: &label.text,
        }
    }
}
