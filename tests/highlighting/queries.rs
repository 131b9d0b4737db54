//! The tree-sitter queries are valid and capture what they should.

use tree_sitter::{Query, QueryCursor, StreamingIterator};

use super::support::{read, tree};

/// What a query captures in the sample.
fn captures(source: &str) -> Vec<(String, String)> {
    let found = captures_in(&read("tests/highlighting/sample.sets"), source);
    found.into_iter().map(|(name, said, _)| (name, said)).collect()
}

/// What a query captures: the names with the first line of the text, and the bytes.
fn captures_in(text: &str, source: &str) -> Vec<(String, String, (usize, usize))> {
    let tree = tree(text);
    let query = Query::new(&tree_sitter_setwright::LANGUAGE.into(), source).unwrap();
    let mut cursor = QueryCursor::new();
    let mut found = Vec::new();
    let mut matches = cursor.captures(&query, tree.root_node(), text.as_bytes());
    while let Some((matched, index)) = matches.next() {
        let capture = matched.captures()[*index];
        let said = capture.node.utf8_text(text.as_bytes()).unwrap();
        let name = query.capture_names()[capture.index as usize].to_owned();
        let at = (capture.node.start_byte(), capture.node.end_byte());
        found.push((name, said.lines().next().unwrap_or("").to_owned(), at));
    }
    found
}

#[test]
fn colours_are_those_meant() {
    let found = captures(tree_sitter_setwright::HIGHLIGHTS_QUERY);
    for (name, said) in [
        ("comment", "# behind a value"),
        ("keyword", "gym"),
        ("type", "Millshed"),
        ("property", "also called"),
        ("function", "Back squat"),
        ("function", "Small jumps"),
        ("string", "Boats come first."),
        ("label", "A1"),
        ("number", "2.5"),
        ("type.builtin", "kg"),
        ("constant", "Mon"),
        ("keyword.modifier", "as written"),
        ("keyword.conditional", "last set"),
        ("function.builtin", "reps to bottom"),
        ("constant.builtin", "RPE"),
        ("variable.parameter", "jump"),
        ("string", "ran out of time"),
        ("operator", "@"),
        ("punctuation.delimiter", ":"),
    ] {
        let is_there = found.iter().any(|(is, text)| is == name && text == said);
        assert!(is_there, "{said} is not {name}: {found:?}");
    }
}

/// Editors differ in which of two captures stands.
#[test]
fn nothing_has_two_colours() {
    let mut seen = std::collections::BTreeSet::new();
    for place in ["tests/highlighting/sample.sets", "examples/rowing-club/winter.sets"] {
        let text = read(place);
        let query = &tree_sitter_setwright::HIGHLIGHTS_QUERY;
        for (name, said, at) in captures_in(&text, query) {
            assert!(seen.insert((place, at)), "{place}: {said} is {name} and something else");
        }
    }
}

#[test]
fn blocks_and_lines_with_lines_below_fold_and_are_listed() {
    let folds = captures(tree_sitter_setwright::FOLDS_QUERY);
    assert!(folds.iter().any(|(_, text)| text.starts_with("day Lower one")), "{folds:?}");
    assert!(folds.iter().any(|(_, text)| text.starts_with("A1 Back squat")), "{folds:?}");
    let tags = captures(tree_sitter_setwright::TAGS_QUERY);
    assert!(tags.iter().any(|(_, text)| text == "Perrin Oake"), "{tags:?}");
}

#[test]
fn the_other_queries_read() {
    for query in [
        tree_sitter_setwright::INDENTS_QUERY,
        tree_sitter_setwright::LOCALS_QUERY,
        tree_sitter_setwright::TEXTOBJECTS_QUERY,
    ] {
        assert!(!captures(query).is_empty(), "{query}");
    }
}

#[test]
fn the_sample_reads() {
    let text = read("tests/highlighting/sample.sets");
    assert!(!tree(&text).root_node().has_error(), "{}", tree(&text).root_node().to_sexp());
    let (_, problems) = setwright::syntax::parse(&text, setwright::source::FileId(0));
    assert_eq!(problems, []);
}
