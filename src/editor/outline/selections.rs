//! Growing selections.

use crate::source::Span;
use crate::syntax::Document;
use crate::syntax::ast::{Item, Node};

/// The spans around a byte, inner before outer: word, key or value, line, blocks, file. Each
/// contains the one before it and is larger.
#[must_use]
pub fn selections(document: &Document, text: &str, at: usize) -> Vec<Span> {
    let at = text.floor_char_boundary(at);
    let mut spans = vec![word(document, text, at)];
    around(&document.nodes, u32::try_from(at).unwrap_or(u32::MAX), &mut spans);
    spans.push(Span::new(document.file, 0, text.len()));
    let mut grown: Vec<Span> = Vec::new();
    for span in spans {
        let grows = |last: &Span| span.start <= last.start && span.end >= last.end && span != *last;
        if grown.last().is_none_or(grows) {
            grown.push(span);
        }
    }
    grown
}

fn word(document: &Document, text: &str, at: usize) -> Span {
    let (before, after) = text.split_at(at);
    let part_of = |sign: char| sign.is_alphanumeric() || sign == '_';
    let start = before.trim_end_matches(part_of).len();
    let end = text.len() - after.trim_start_matches(part_of).len();
    Span::new(document.file, start, end)
}

/// The spans of the tree around a byte, inner before outer.
fn around(nodes: &[Node], at: u32, spans: &mut Vec<Span>) {
    let holds = |span: &Span| span.start <= at && at <= span.end;
    let whole = |node: &&Node| holds(&node.item.span.to(node.last().item.span));
    let Some(node) = nodes.iter().find(whole) else { return };
    around(&node.children, at, spans);
    if holds(&node.item.span) {
        if let Item::Entry { key, value } = &node.item.value {
            spans.extend([key.span, value.span].iter().filter(|span| holds(span)));
        }
        spans.push(node.item.span);
    }
    spans.push(node.item.span.to(node.last().item.span));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    #[test]
    fn a_selection_grows_to_the_file() {
        let text = "day One\n  A Back squat: 3 x 5\n    cue: Sit down.\n";
        let (document, _) = crate::syntax::parse(text, FileId(1));
        let at = text.find("squat").unwrap() + 1;
        let found: Vec<&str> = selections(&document, text, at)
            .iter()
            .map(|span| &text[span.start as usize..span.end as usize])
            .collect();
        let block = text.trim_end();
        let line = "A Back squat: 3 x 5";
        let lines = &block[block.find('A').unwrap()..];
        assert_eq!(found, ["squat", "A Back squat", line, lines, block, text]);
        for at in 0..=text.len() + 3 {
            assert!(!selections(&document, text, at).is_empty());
        }
    }
}
