//! The canonical form of a document.

mod spell;

use super::Document;
use super::ast::{Item, LineKey, Node, Value};
use super::lines::Line;

/// Width of a day's order letters; exercise names start one column after it.
const ORDER_WIDTH: usize = 2;
/// How far lines are indented below another.
const STEP: usize = 2;

/// The document in canonical form: two spaces a level (lines below an
/// exercise start under its name), one spelling for each thing, comments and
/// blank lines where they were. A document with a line that was not understood gives `None`: what
/// cannot be read is not rewritten.
#[must_use]
pub fn format(document: &Document, text: &str) -> Option<String> {
    let mut shown: Vec<Option<(usize, String)>> = vec![None; document.lines.len()];
    collect(&document.nodes, 0, &mut shown)?;
    let mut out = String::with_capacity(text.len());
    let mut blank = true;
    for (index, line) in document.lines.iter().enumerate() {
        let comment = line.comment.and_then(|(start, end)| text.get(start..end));
        match (shown.get(index).and_then(Option::as_ref), comment) {
            (Some((depth, content)), comment) => {
                out.push_str(&" ".repeat(*depth));
                out.push_str(content);
                if let Some(comment) = comment {
                    out.push_str("  ");
                    out.push_str(comment);
                }
                blank = false;
            }
            (None, Some(comment)) => {
                out.push_str(&" ".repeat(depth_below(document, index, &shown)));
                out.push_str(comment);
                blank = false;
            }
            // Several blank lines become one; none at the start.
            (None, None) if blank => continue,
            (None, None) => blank = true,
        }
        out.push('\n');
    }
    while out.ends_with("\n\n") {
        out.pop();
    }
    Some(out)
}

fn collect(nodes: &[Node], depth: usize, shown: &mut [Option<(usize, String)>]) -> Option<()> {
    for node in nodes {
        let content = match &node.item.value {
            Item::Wrong => return None,
            item => spell::line(item, ORDER_WIDTH),
        };
        if let Some(slot) = shown.get_mut(node.line) {
            *slot = Some((depth, content));
        }
        collect(&node.children, depth + step_below(&node.item.value), shown)?;
    }
    Some(())
}

/// Lines below an exercise start under its name.
fn step_below(item: &Item) -> usize {
    match item {
        Item::Entry { key, value } => match (&key.value, &value.value) {
            (LineKey::Order(..), Value::Prescription(_) | Value::Empty) => ORDER_WIDTH + 1,
            _ => STEP,
        },
        _ => STEP,
    }
}

/// The column of a comment on its own line: as it was against its neighbours. It belongs with the
/// next line that says something if it is indented at least as far, else with the line before.
fn depth_below(document: &Document, index: usize, shown: &[Option<(usize, String)>]) -> usize {
    let indent = document.lines.get(index).map_or(0, |line| line.indent);
    let said = |at: usize| {
        let line: &Line = document.lines.get(at)?;
        shown.get(at)?.as_ref().map(|(depth, _)| (line.indent, *depth))
    };
    let after = (index + 1..document.lines.len()).find_map(said);
    let before = (0..index).rev().find_map(said);
    let neighbours = [after, before];
    let same = neighbours.iter().flatten().find(|(column, _)| *column == indent);
    match (same, before) {
        (Some((_, depth)), _) => *depth,
        (None, Some((column, depth))) if indent > column => depth + STEP,
        _ if indent == 0 => 0,
        (None, _) => {
            // Further out than both: the level of the nearest line above that is not deeper.
            let above = (0..index).rev().filter_map(said).find(|(column, _)| *column <= indent);
            above.map_or(0, |(_, depth)| depth)
        }
    }
}
