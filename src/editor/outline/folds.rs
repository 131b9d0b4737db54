//! Folding ranges.

use crate::syntax::Document;
use crate::syntax::ast::{Head, Item, Node};

/// The kind of a fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoldKind {
    /// A line with the lines below it: a block, an exercise of a day, a week, a session.
    Block,
    /// Consecutive comments.
    Comment,
    /// Consecutive `use` lines.
    Uses,
}

/// A range of lines that can be folded, counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fold {
    /// The line that stays visible.
    pub first: usize,
    /// The last line that is hidden.
    pub last: usize,
    /// The kind.
    pub kind: FoldKind,
}

/// All folds, outer before inner.
#[must_use]
pub fn folds(document: &Document) -> Vec<Fold> {
    let mut found = Vec::new();
    blocks(&document.nodes, &mut found);
    let is_comment = |line: usize| {
        document.lines.get(line).is_some_and(|l| l.comment.is_some() && !l.has_content())
    };
    runs(document.lines.len(), is_comment, FoldKind::Comment, &mut found);
    let is_use = |node: &&Node| matches!(node.item.value, Item::Head(Head::Use(_)));
    let uses: Vec<usize> = document.nodes.iter().filter(is_use).map(|node| node.line).collect();
    let is_use = |line: usize| uses.binary_search(&line).is_ok();
    runs(document.lines.len(), is_use, FoldKind::Uses, &mut found);
    found.sort_by_key(|fold| (fold.first, std::cmp::Reverse(fold.last)));
    found
}

fn blocks(nodes: &[Node], found: &mut Vec<Fold>) {
    for node in nodes.iter().filter(|node| !node.children.is_empty()) {
        let last = node.last().line;
        found.push(Fold { first: node.line, last, kind: FoldKind::Block });
        blocks(&node.children, found);
    }
}

/// Adds the runs of at least two lines of a kind.
fn runs(lines: usize, is: impl Fn(usize) -> bool, kind: FoldKind, found: &mut Vec<Fold>) {
    let mut first = None;
    for line in 0..=lines {
        match (first, line < lines && is(line)) {
            (None, true) => first = Some(line),
            (Some(start), false) => {
                if line - start > 1 {
                    found.push(Fold { first: start, last: line - 1, kind });
                }
                first = None;
            }
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    #[test]
    fn blocks_lines_weeks_comments_and_uses_fold() {
        let text = "# one\n# two\nuse a.sets\nuse b.sets\n\nday One\n  A Back squat: 3 x 5\n    week 2: 4 x 5\n      cue: Down.\n\n# end\n";
        let (document, _) = crate::syntax::parse(text, FileId(1));
        let found: Vec<(usize, usize)> =
            folds(&document).iter().map(|fold| (fold.first, fold.last)).collect();
        assert_eq!(found, [(0, 1), (2, 3), (5, 8), (6, 8), (7, 8)]);
    }
}
