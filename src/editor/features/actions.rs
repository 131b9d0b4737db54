//! Code actions: edits that solve the problems at a position.

use super::place::order;
use super::written::{OrderLine, chain};
use crate::catalogue::LIBRARY_FILE;
use crate::diagnostics::{Code, Diagnostic};
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::Document;
use crate::syntax::ast::{Head, Item, Node};

/// Indentation in spaces of a line in a block.
const INDENT: usize = 2;

/// A code action: a change of the text that is offered at a position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CodeAct {
    /// What it does, in a few words.
    pub title: String,
    /// The changes of the text. They do not overlap, and may be in several files of the project.
    pub edits: Vec<(Span, String)>,
    /// Whether the editor should prefer it, because there is nothing to decide.
    pub preferred: bool,
    /// The code of the problem that it solves.
    pub fixes: Option<Code>,
}

/// Actions for the problems that touch a span of a file: fixes, suggestions to choose from and, for
/// advice, a line that allows it with a reason.
#[must_use]
pub fn actions(analysis: &Analysis, file: FileId, at: Span) -> Vec<CodeAct> {
    let touches = |own: Span| own.file == file && own.start <= at.end && own.end >= at.start;
    let all = analysis.diagnostics.iter().chain(&analysis.advice);
    let mut acts: Vec<CodeAct> = Vec::new();
    for found in all.filter(|found| touches(found.label.span)) {
        let mut add = |title: String, edits: Vec<(Span, String)>, preferred: bool| {
            let ours = edits.iter().all(|(span, _)| span.file != LIBRARY_FILE);
            let new = !acts.iter().any(|act| act.edits == edits);
            if ours && new && !edits.is_empty() {
                acts.push(CodeAct { title, edits, preferred, fixes: Some(found.code) });
            }
        };
        for fix in &found.fixes {
            let edits = fix.edits.iter().map(|edit| (edit.span, edit.text.clone())).collect();
            add(fix.title(&analysis.sources), edits, found.fixes.len() == 1);
        }
        if let Some((title, edit)) = allow(analysis, found) {
            add(title, vec![edit], false);
        }
    }
    acts
}

/// Adds a line that allows a piece of advice where it is given. The reason is left to the coach.
fn allow(analysis: &Analysis, found: &Diagnostic) -> Option<(String, (Span, String))> {
    if !found.code.is_advice() || found.code == Code::UnusedAllow {
        return None;
    }
    let file = found.label.span.file;
    let source = analysis.sources.get(file)?;
    let document = analysis.document(file)?;
    let line = source.line_of(found.label.span.start).checked_sub(1)? as usize;
    let on = place(document, &source.text, line);
    let on_words = on.as_ref().map_or_else(String::new, |on| format!(" on {on}"));
    let programme = document.nodes.iter().rev().find(|node| {
        node.line <= line && matches!(node.item.value, Item::Head(Head::Programme(_)))
    })?;
    let last = programme.children.last();
    let after = last.map_or(programme, Node::last);
    let indent = programme.children.first().and_then(|child| document.lines.get(child.line));
    let indent = indent.map_or(INDENT, |line| line.indent);
    let rest = source.text.get(after.item.span.end as usize..)?;
    let own = rest.split('\n').next().unwrap_or("").trim_end_matches('\r');
    let end = after.item.span.end as usize + own.len();
    let text = format!("\n{:indent$}advice: allow {}{on_words} (why)", "", found.code.name());
    let title = format!("allow `{}`{on_words}, with a reason", found.code.name());
    Some((title, (Span::new(file, end, end), text)))
}

/// The value of `on` for a line: a day and an order letter, or a day.
fn place(document: &Document, text: &str, line: usize) -> Option<String> {
    let nodes = chain(document, line);
    let Item::Head(Head::Day { name, .. }) = &nodes.first()?.item.value else { return None };
    let below = nodes.get(1).and_then(|node| {
        OrderLine::at(document, node.line)?;
        let content = text.get(node.item.span.start as usize..node.item.span.end as usize)?;
        order(content).map(|(order, _)| order)
    });
    Some(match below {
        Some(order) => format!("{} {order}", name.value),
        None => name.value.clone(),
    })
}
