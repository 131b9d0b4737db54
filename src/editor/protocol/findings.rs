//! Problems as the protocol's diagnostics.

use gen_lsp_types as lsp;
use serde_json::Value;

use super::text::Range;
use crate::diagnostics::{Diagnostic, Severity};
use crate::source::Span;

pub use lsp::Diagnostic as Finding;

/// Converts a problem at a range; `place` finds the locations of related spans.
pub fn finding(
    found: &Diagnostic,
    range: Range,
    place: impl Fn(Span) -> Option<lsp::Location>,
) -> Finding {
    let related = found.related.iter().filter_map(|other| {
        let message = if other.text.is_empty() { "see here" } else { &other.text };
        Some(lsp::DiagnosticRelatedInformation {
            location: place(other.span)?,
            message: message.to_owned(),
        })
    });
    let related: Vec<_> = related.collect();
    Finding {
        range,
        severity: Some(severity(found)),
        code: Some(found.code.name().into()),
        source: Some("setwright".to_owned()),
        message: message(found).into(),
        related_information: Some(related).filter(|related| !related.is_empty()),
        ..Default::default()
    }
}

/// The editor's name for a severity.
fn severity(found: &Diagnostic) -> lsp::DiagnosticSeverity {
    match found.severity() {
        Severity::Error => lsp::DiagnosticSeverity::Error,
        Severity::Warning => lsp::DiagnosticSeverity::Warning,
        Severity::Info => lsp::DiagnosticSeverity::Information,
    }
}

/// The problem, the help and the source of the claim, one line each.
fn message(found: &Diagnostic) -> String {
    let mut message = found.message.clone();
    if !found.label.text.is_empty() {
        message.push_str(&format!(" ({})", found.label.text));
    }
    if let Some(help) = &found.help {
        message.push_str(&format!("\nhelp: {help}"));
    }
    if let Some(source) = &found.source {
        message.push_str(&format!("\nsource: {source}"));
    }
    message
}

/// Sorts problems by place and removes duplicates: several programmes may read the same line.
pub fn sort_and_dedup(findings: &mut Vec<Finding>) {
    let code = |found: &Finding| match &found.code {
        Some(lsp::Code::String(name)) => name.clone(),
        _ => String::new(),
    };
    let words = |found: &Finding| match &found.message {
        lsp::Message::String(words) => words.clone(),
        lsp::Message::MarkupContent(words) => words.value.clone(),
    };
    let key = |found: &Finding| {
        let Range { start, end } = found.range;
        ((start.line, start.character), (end.line, end.character), code(found), words(found))
    };
    findings.sort_by_cached_key(key);
    findings.dedup_by(|a, b| key(a) == key(b));
}

/// The parameters of `textDocument/publishDiagnostics`.
#[must_use]
pub fn published(uri: &str, version: Option<i32>, diagnostics: Vec<Finding>) -> Value {
    let uri = lsp::Uri(uri.to_owned());
    serde_json::to_value(lsp::PublishDiagnosticsParams { uri, version, diagnostics })
        .unwrap_or_default()
}

/// Whether a problem sent by the editor has this code.
pub(super) fn is_of(found: &Finding, name: &str) -> bool {
    matches!(&found.code, Some(lsp::Code::String(code)) if code == name)
}
