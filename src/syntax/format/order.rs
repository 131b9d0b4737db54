//! Sorts keys in the order of the table of keys, paragraph by paragraph.
//!
//! A key moves together with the lines below it and the comments directly above it. Lines whose order
//! matters never move: order letters, `week` and `for` lines, rules, results, blocks. Keys that may be
//! repeated keep their order among themselves. A blank line, a comment with less indentation, or a
//! line that does not move ends a paragraph.

use crate::syntax::ast::{Item, LineKey, Node};
use crate::syntax::keys::BlockPlace;
use crate::syntax::reader::{place_of, place_under};

/// What a line contains, and how far it is indented.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineContent {
    /// Nothing.
    Blank,
    /// A comment and nothing else.
    Comment(usize),
    /// Content.
    Said(usize),
}

/// The indices of a document's lines in the standard order.
pub fn order(nodes: &[Node], lines: &[LineContent]) -> Vec<usize> {
    let mut out = Vec::with_capacity(lines.len());
    let ends = nodes.iter().skip(1).map(|next| next.line).chain([lines.len()]);
    let first = nodes.first().map_or(lines.len(), |node| node.line);
    out.extend(0..first);
    for (node, end) in nodes.iter().zip(ends) {
        out.push(node.line);
        let place = match &node.item.value {
            Item::Head(head) => place_of(head),
            _ => BlockPlace::Nothing,
        };
        below(place, &node.children, node.line + 1, end, lines, &mut out);
    }
    out
}

/// The lines below another, from one to before another.
fn below(
    place: BlockPlace,
    nodes: &[Node],
    from: usize,
    to: usize,
    lines: &[LineContent],
    out: &mut Vec<usize>,
) {
    let pieces: Vec<Paragraph<'_>> =
        nodes.iter().map(|node| Paragraph::new(place, node, lines)).collect();
    let mut next = from;
    for paragraph in pieces.chunk_by(|a, b| a.joins(b)) {
        let mut sorted: Vec<&Paragraph<'_>> = paragraph.iter().collect();
        // The sort is stable: repeated keys keep their order.
        sorted.sort_by_key(|piece| piece.rank);
        out.extend(next..paragraph.first().map_or(next, |piece| piece.start));
        for piece in sorted {
            let line = piece.node.line;
            out.extend(piece.start..=line);
            below(piece.below, &piece.node.children, line + 1, piece.end, lines, out);
        }
        next = paragraph.last().map_or(next, |piece| piece.end);
    }
    out.extend(next..to);
}

/// A line with everything that belongs to it.
struct Paragraph<'a> {
    node: &'a Node,
    /// What kind of lines are below it.
    below: BlockPlace,
    /// Its place among its neighbours; `None` if it never moves.
    rank: Option<(usize, bool)>,
    /// Its first line: a comment directly above it, or its own.
    start: usize,
    /// The line after its last.
    end: usize,
}

impl<'a> Paragraph<'a> {
    fn new(place: BlockPlace, node: &'a Node, lines: &[LineContent]) -> Self {
        let (rank, below) = match &node.item.value {
            Item::Entry { key, .. } => (rank(place, &key.value), place_under(place, &key.value)),
            Item::LogSession { .. } => (None, BlockPlace::Session),
            Item::Head(_) | Item::Wrong => (None, BlockPlace::Nothing),
        };
        let own = match lines.get(node.line) {
            Some(LineContent::Said(depth)) => *depth,
            _ => 0,
        };
        let above = lines.get(..node.line).unwrap_or_default().iter().rev();
        let comments = above.take_while(|line| **line == LineContent::Comment(own)).count();
        let after_last = node.last().line + 1;
        let after = lines.get(after_last..).unwrap_or_default().iter();
        let deeper =
            |line: &&LineContent| matches!(line, LineContent::Comment(depth) if *depth > own);
        let end = after_last + after.take_while(deeper).count();
        // A piece that contains a blank line or a comment with less indentation does not move: it would
        // split a paragraph.
        let inside = lines.get(node.line..after_last).unwrap_or_default();
        let torn = inside.iter().any(|line| match line {
            LineContent::Blank => true,
            LineContent::Comment(depth) | LineContent::Said(depth) => *depth < own,
        });
        let rank = rank.filter(|_| !torn);
        Self { node, below, rank, start: node.line - comments, end }
    }

    /// Whether the next piece is in the same paragraph.
    fn joins(&self, next: &Paragraph<'_>) -> bool {
        self.rank.is_some() && next.rank.is_some() && self.end == next.start
    }
}

/// The place of a key in the table of keys, and whether it is a translation. `None` for lines that are
/// not keys or whose order matters.
fn rank(place: BlockPlace, key: &LineKey) -> Option<(usize, bool)> {
    let (LineKey::Key(word) | LineKey::Named(word, _)) = key else { return None };
    let at = place.properties().position(|property| property.key == *word)?;
    Some((at, matches!(key, LineKey::Named(..))))
}
