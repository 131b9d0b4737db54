//! The standard format of a document.

mod order;
mod spell;

use super::Document;
use super::ast::{Item, LineKey, Node, Value};
use super::lines::SourceLine;
use order::LineContent;

/// The minimum width of a day's order letters. Exercise names start one column after it.
const ORDER_WIDTH: usize = 2;
/// How many columns lines are indented below another.
const STEP: usize = 2;

/// The document in standard format: two spaces a level (lines below an exercise start under its
/// name), order letters and names in columns that are the same all day, one spelling for each
/// thing, the keys of each paragraph in the order of the table of keys, comments and blank lines
/// where they were. Returns `None` for a document with a line that cannot be read: such a document
/// is not reformatted.
#[must_use]
pub fn format(document: &Document, text: &str) -> Option<String> {
    let mut shown: Vec<Option<FormattedLine>> = vec![None; document.lines.len()];
    collect(&document.nodes, 0, &mut shown)?;
    let written: Vec<LineContent> = (0..document.lines.len())
        .map(|index| match (shown.get(index).and_then(Option::as_ref), document.lines.get(index)) {
            (Some(said), _) => LineContent::Said(said.depth),
            (None, Some(SourceLine { comment: Some(_), .. })) => {
                LineContent::Comment(depth_below(document, index, &shown))
            }
            _ => LineContent::Blank,
        })
        .collect();
    let mut out = String::with_capacity(text.len());
    let mut blank = true;
    for index in order::order(&document.nodes, &written) {
        let comment = document.lines.get(index).and_then(|line| line.comment);
        let comment = comment.and_then(|(start, end)| text.get(start..end));
        let content = shown.get(index).and_then(Option::as_ref).map(|said| &said.content);
        match written.get(index).copied().unwrap_or(LineContent::Blank) {
            // Several blank lines become one; none at the start.
            LineContent::Blank if blank => continue,
            LineContent::Blank => blank = true,
            LineContent::Comment(depth) | LineContent::Said(depth) => {
                out.push_str(&" ".repeat(depth));
                out.push_str(content.map_or("", String::as_str));
                if let Some(comment) = comment {
                    out.push_str(if content.is_some() { "  " } else { "" });
                    out.push_str(comment);
                }
                blank = false;
            }
        }
        out.push('\n');
    }
    while out.ends_with("\n\n") {
        out.pop();
    }
    Some(out)
}

/// A formatted line with content.
#[derive(Clone, Debug)]
struct FormattedLine {
    /// The column it starts at.
    depth: usize,
    /// The column of the lines below it.
    below: usize,
    /// Its content.
    content: String,
}

fn collect(nodes: &[Node], depth: usize, shown: &mut [Option<FormattedLine>]) -> Option<()> {
    // A day with ten members in a group has wider letters; its names still start in one column.
    let width = nodes.iter().filter_map(order_width).fold(ORDER_WIDTH, usize::max);
    for node in nodes {
        let content = match &node.item.value {
            Item::Wrong => return None,
            Item::Entry { value, .. } if value.value == Value::Unread => return None,
            item => spell::line(item, width),
        };
        let below = depth + step_below(&node.item.value, width);
        if let Some(slot) = shown.get_mut(node.line) {
            *slot = Some(FormattedLine { depth, below, content });
        }
        collect(&node.children, below, shown)?;
    }
    Some(())
}

/// The width of a line's order letter with its number.
fn order_width(node: &Node) -> Option<usize> {
    match &node.item.value {
        Item::Entry { key, .. } => match &key.value {
            LineKey::Order(order, _) => Some(order.value.to_string().chars().count()),
            _ => None,
        },
        _ => None,
    }
}

/// Lines below an exercise start under its name.
fn step_below(item: &Item, width: usize) -> usize {
    match item {
        Item::Entry { key, value } => match (&key.value, &value.value) {
            (LineKey::Order(..), Value::Prescription(_) | Value::Empty) => width + 1,
            _ => STEP,
        },
        _ => STEP,
    }
}

/// The column of a comment on its own line, relative to its neighbours as before. It belongs to the
/// next line with content if it is indented at least as far, otherwise to the line before.
fn depth_below(document: &Document, index: usize, shown: &[Option<FormattedLine>]) -> usize {
    let indent = document.lines.get(index).map_or(0, |line| line.indent);
    let said = |at: usize| {
        let line: &SourceLine = document.lines.get(at)?;
        shown.get(at)?.as_ref().map(|said| (line.indent, said))
    };
    let after = (index + 1..document.lines.len()).find_map(said);
    let before = (0..index).rev().find_map(said);
    let neighbours = [after, before];
    let same = neighbours.iter().flatten().find(|(column, _)| *column == indent);
    match (same, before) {
        (Some((_, said)), _) => said.depth,
        (None, Some((column, said))) if indent > column => said.below,
        _ if indent == 0 => 0,
        (None, _) => {
            // Less indented than both: use the level of the nearest line above that is not deeper.
            let above = (0..index).rev().filter_map(said).find(|(column, _)| *column <= indent);
            above.map_or(0, |(_, said)| said.depth)
        }
    }
}
