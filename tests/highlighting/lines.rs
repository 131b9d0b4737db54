//! The tree-sitter grammar and the compiler accept the same lines.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::RangeInclusive;

use setwright::source::FileId;
use setwright::syntax::ast::{Item, Node};
use tree_sitter::{Node as Leaf, TreeCursor};

use super::support::{Text, docs, notation, pages, tree};

/// What only the compiler minds, by code, and why the highlighters do not. Everything else that
/// it finds in a line's form, tree-sitter minds too.
const LOOSER: &[(&str, &str)] = &[
    ("bad-date", "which days there are is not a matter of form"),
    ("bad-weekday", "what stands in other brackets is part of a day's name"),
    ("duplicate-order", "one line alone does not show it"),
    ("misplaced-line", "a line with an indentation of its own is read at the level it is nearest"),
    ("newer-notation", "which notations there are is the program's to know"),
    ("number-out-of-range", "bounds are in `src/bounds.rs`, not in the grammar"),
    ("quoted-text", "quotes are part of a text"),
    ("repeated-key", "one line alone does not show it"),
    ("stray-indent", "a line with an indentation of its own is read at the level it is nearest"),
    ("tab-indent", "a tab counts as two spaces"),
];

/// The lines, from 1, that the compiler finds fault with in their form, with the codes.
fn faults(text: &str) -> BTreeMap<usize, BTreeSet<&'static str>> {
    let (document, problems) = setwright::syntax::parse(text, FileId(0));
    let line_at = |at: usize| text[..at].matches('\n').count() + 1;
    let mut found: BTreeMap<usize, BTreeSet<&'static str>> = BTreeMap::new();
    for problem in &problems {
        let line = line_at(problem.label.span.start as usize);
        found.entry(line).or_default().insert(problem.code.name());
    }
    let mut nodes: Vec<&Node> = document.nodes.iter().collect();
    while let Some(node) = nodes.pop() {
        if matches!(node.item.value, Item::Wrong) {
            let line = line_at(node.item.span.start as usize);
            assert!(found.contains_key(&line), "line {line} is wrong without a finding:\n{text}");
        }
        nodes.extend(&node.children);
    }
    found
}

/// The lines, from 1, that tree-sitter could not read.
fn unread(text: &str) -> BTreeSet<usize> {
    let tree = tree(text);
    let mut found = BTreeSet::new();
    visit(&mut tree.walk(), text, &mut found);
    found
}

fn visit(cursor: &mut TreeCursor, text: &str, found: &mut BTreeSet<usize>) {
    loop {
        let node = cursor.node();
        let is_empty = node.is_named() && node.start_byte() == node.end_byte() && !text.is_empty();
        let is_wrong = node.kind().starts_with("wrong") || node.kind() == "missing_value";
        if node.is_error() {
            found.extend(lines_of(node, text));
        } else if node.is_missing() || is_empty || is_wrong {
            // What stands below a wrong line is read.
            found.insert(node.start_position().row + 1);
        }
        if cursor.goto_first_child() {
            visit(cursor, text, found);
            cursor.goto_parent();
        }
        if !cursor.goto_next_sibling() {
            return;
        }
    }
}

/// The lines of which a node has more than the line's end.
fn lines_of(node: Leaf, text: &str) -> RangeInclusive<usize> {
    let (start, end) = (node.start_position(), node.end_position());
    let rest = text[node.start_byte()..].lines().next().unwrap_or("");
    let first = if rest.trim().is_empty() { start.row + 2 } else { start.row + 1 };
    let last = if end.column == 0 { end.row } else { end.row + 1 };
    first..=last.max(first)
}

/// Whether a line stands between two mistakes a few lines apart. tree-sitter may take what lies
/// between them for one error, for that costs it less than two.
fn between_mistakes(line: usize, faults: &BTreeMap<usize, BTreeSet<&'static str>>) -> bool {
    let before = faults.range(..line).next_back().map(|(at, _)| *at);
    let after = faults.range(line..).next().map(|(at, _)| *at);
    matches!((before, after), (Some(before), Some(after)) if after - before <= 6)
}

#[test]
fn what_reads_has_no_error_in_its_tree() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for Text { place, text } in
        notation("examples").into_iter().chain(notation("src/catalogue/library")).chain(docs())
    {
        assert!(faults(&text).is_empty(), "{place} does not read");
        wrong.extend(unread(&text).into_iter().map(|line| format!("{place}: line {line}")));
        count += text.lines().count();
    }
    assert!(count > 4000, "{count} lines");
    assert!(wrong.is_empty(), "tree-sitter does not read:\n{}", wrong.join("\n"));
}

#[test]
fn mistakes_are_errors_in_the_tree_except_those_listed() {
    let mut wrong = Vec::new();
    let mut met = BTreeSet::new();
    let cases = notation("tests/notation/cases").into_iter().chain(notation("tests/advice"));
    for Text { place, text } in pages().into_iter().chain(cases) {
        let (faults, unread) = (faults(&text), unread(&text));
        for (line, codes) in &faults {
            if unread.contains(line) {
                continue;
            }
            for code in codes {
                if LOOSER.iter().any(|(listed, _)| listed == code) {
                    met.insert(*code);
                } else {
                    let said = text.lines().nth(line - 1).unwrap_or("");
                    wrong.push(format!("{place}: line {line}: only {code} sees it: {said}"));
                }
            }
        }
        for line in unread.iter().filter(|line| !faults.contains_key(line)) {
            if between_mistakes(*line, &faults) {
                continue;
            }
            let said = text.lines().nth(line - 1).unwrap_or("");
            wrong.push(format!("{place}: line {line}: only tree-sitter minds: {said}"));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
    for (code, _) in LOOSER {
        assert!(met.contains(code), "`{code}` is listed, and no text shows it");
    }
}
