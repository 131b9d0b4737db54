//! The corpus of the tree-sitter grammar, run without the tree-sitter command.

use std::collections::BTreeSet;

use super::support::{repository, tree};

/// Title, text and tree of each case of a file.
fn cases(text: &str) -> Vec<(String, String, String)> {
    let bar = "==================\n";
    let parts: Vec<&str> = text.split(bar).skip(1).collect();
    parts
        .chunks(2)
        .map(|case| {
            let (text, tree) = case[1].split_once("\n---\n").unwrap();
            (case[0].trim().to_owned(), text.trim_start_matches('\n').to_owned(), one_line(tree))
        })
        .collect()
}

/// A tree with single spaces, as the parser prints it.
fn one_line(tree: &str) -> String {
    tree.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_case_of_the_corpus_has_its_tree() {
    let folder = repository().join("editors/tree-sitter-setwright/test/corpus");
    let mut titles = BTreeSet::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        for (title, text, wanted) in cases(&std::fs::read_to_string(entry.unwrap().path()).unwrap())
        {
            assert_eq!(one_line(&tree(&text).root_node().to_sexp()), wanted, "{title}");
            titles.insert(title);
        }
    }
    assert!(titles.len() >= 12, "{titles:?}");
}
