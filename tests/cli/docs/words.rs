//! Every word of the notation occurs in an example in the docs.

use std::collections::BTreeSet;

use setwright::source::FileId;
use setwright::syntax::ast::{Head, Item, LineKey, Node};
use setwright::syntax::keys::{BlockPlace, Key, PROPERTIES};

use super::blocks::{documents, is_sets};

const GRAMMAR: &str = include_str!("../../../grammar/setwright.pest");

/// The quoted words of some lines of the grammar.
fn quoted(text: &str) -> BTreeSet<String> {
    let mut words = BTreeSet::new();
    for line in text.lines() {
        let line = line.split("//").next().unwrap_or(line);
        words.extend(line.split('"').skip(1).step_by(2).map(str::to_owned));
    }
    // Spaces cannot be seen.
    words.retain(|word| !word.trim().is_empty() && word != "\\u{a0}");
    words
}

/// The quoted words of one rule of the grammar.
pub fn words_of(rule: &str) -> BTreeSet<String> {
    let start = GRAMMAR
        .lines()
        .position(|line| line.split(' ').next() == Some(rule))
        .unwrap_or_else(|| panic!("the grammar has no rule {rule}"));
    let mut lines = Vec::new();
    for line in GRAMMAR.lines().skip(start) {
        lines.push(line);
        if line.trim_end().ends_with('}') {
            break;
        }
    }
    quoted(&lines.join("\n"))
}

/// Whether a text holds a word, as a word of its own.
pub fn holds(text: &str, word: &str) -> bool {
    let goes_on = |c: Option<char>, edge: Option<char>| {
        edge.is_some_and(char::is_alphabetic) && c.is_some_and(char::is_alphabetic)
    };
    text.match_indices(word).any(|(at, _)| {
        let (before, after) = (text.get(..at).unwrap_or(""), text.get(at + word.len()..));
        !goes_on(before.chars().next_back(), word.chars().next())
            && !goes_on(after.unwrap_or("").chars().next(), word.chars().next_back())
    })
}

/// All notation in the docs, without comments.
fn shown() -> Vec<String> {
    let mut shown = Vec::new();
    for document in documents() {
        let blocks = document.blocks().filter(|(info, _)| is_sets(info));
        shown.extend(blocks.map(|(_, body)| {
            let lines = body.lines().map(|line| line.split(" #").next().unwrap_or(line));
            lines.filter(|line| !line.trim_start().starts_with('#')).collect::<Vec<_>>().join("\n")
        }));
    }
    shown
}

#[test]
fn every_word_of_the_grammar_is_in_an_example() {
    let text = shown().join("\n");
    let lower = text.to_lowercase();
    let is_shown = |word: &String| {
        // `^"kg"` in the grammar: capitals do not matter.
        let any_case = GRAMMAR.contains(&format!("^\"{word}\""));
        holds(&text, word) || (any_case && holds(&lower, &word.to_lowercase()))
    };
    let words = quoted(GRAMMAR);
    assert!(words.len() > 150, "{} words", words.len());
    let missing: Vec<_> = words.iter().filter(|word| !is_shown(word)).collect();
    assert!(missing.is_empty(), "no `sets` block in the docs shows {missing:?}");
}

/// Notes which keys stand where.
fn walk(node: &Node, place: BlockPlace, found: &mut BTreeSet<(&'static str, Key)>) {
    let below = match &node.item.value {
        Item::Head(head) => match head {
            Head::Exercise(_) => BlockPlace::Exercise,
            Head::Gym(_) => BlockPlace::Gym,
            Head::Athlete(_) => BlockPlace::Athlete,
            Head::Programme(_) => BlockPlace::Programme,
            Head::Phase { .. } => BlockPlace::Phase,
            Head::Scheme(_) => BlockPlace::Scheme,
            Head::Day { .. } => BlockPlace::Day,
            Head::Log { .. } => BlockPlace::Log,
            Head::Notation(_) | Head::Use(_) => BlockPlace::Nothing,
        },
        Item::LogSession { .. } => BlockPlace::Session,
        Item::Entry { key, .. } => match &key.value {
            LineKey::Key(key) | LineKey::Named(key, _) => {
                found.insert((place.words(), *key));
                if *key == Key::Cue { BlockPlace::Cue } else { BlockPlace::Nothing }
            }
            LineKey::Order(..) | LineKey::Weeks(_) | LineKey::For(_) => BlockPlace::Line,
            _ => place,
        },
        Item::Wrong => BlockPlace::Nothing,
    };
    for child in &node.children {
        walk(child, below, found);
    }
}

#[test]
fn every_key_is_in_an_example_of_its_block() {
    let mut found = BTreeSet::new();
    for text in shown() {
        let (document, _) = setwright::syntax::parse(&text, FileId(0));
        for node in &document.nodes {
            walk(node, BlockPlace::Nothing, &mut found);
        }
    }
    for property in PROPERTIES {
        let place = property.place.words();
        let word = property.key.word();
        assert!(found.contains(&(place, property.key)), "no example has `{word}` in {place}");
    }
}
