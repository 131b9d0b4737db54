//! Diagnostics on the terminal.

use std::io::Write;

use crate::diagnostics::{Code, Diagnostic, Severity, coloured, printable, render_text};
use crate::source::Sources;

/// How many problems are shown in full; the rest is counted.
const MOST_SHOWN: usize = 100;

/// Prints one line on standard error, and ignores failures.
pub fn say(line: &str) {
    let _ = writeln!(anstream::stderr(), "{}", printable(line));
}

/// Shows findings on standard error, with colour where that is a terminal that wants it. What is
/// worth knowing about limits comes with `check` only: it would be the same at each run.
pub fn show(diagnostics: &[Diagnostic], sources: &Sources) {
    let is_news = |d: &&Diagnostic| !matches!(d.code, Code::LimitOnlyPrinted | Code::LimitPassed);
    let diagnostics: Vec<Diagnostic> = diagnostics.iter().filter(is_news).cloned().collect();
    let mut out = anstream::stderr();
    // Colour codes are taken out again by the stream where they are not wanted (no terminal,
    // NO_COLOR, a dumb terminal).
    let _ = out.write_all(coloured(&text(&diagnostics, sources)).as_bytes());
}

/// Problems as text with colour codes, followed by their count.
pub fn text(diagnostics: &[Diagnostic], sources: &Sources) -> String {
    let mut text = String::new();
    for diagnostic in diagnostics.iter().take(MOST_SHOWN) {
        text.push_str(&render_text(diagnostic, sources, true));
    }
    let said = counted(diagnostics);
    if !said.is_empty() {
        let rest = diagnostics.len().saturating_sub(MOST_SHOWN);
        let more = if rest > 0 { format!(" ({rest} not shown)") } else { String::new() };
        // Of the most serious, the first: an error rather than the warning above it.
        let first = diagnostics.iter().min_by_key(|d| d.severity());
        let first = first.map_or("", |d| d.code.name());
        text.push_str(&format!("{said}{more}; for details, run `setwright explain {first}`\n"));
    }
    text
}

/// `1 error, 2 warnings`; empty where there are none.
fn counted(diagnostics: &[Diagnostic]) -> String {
    let all = [Severity::Error, Severity::Warning, Severity::Info];
    let said: Vec<String> = all
        .into_iter()
        .map(|level| (level.word(), diagnostics.iter().filter(|d| d.severity() == level).count()))
        .filter(|(_, n)| *n > 0)
        // "Info" has no plural.
        .map(|(word, n)| format!("{n} {word}{}", if n == 1 || word == "info" { "" } else { "s" }))
        .collect();
    said.join(", ")
}
