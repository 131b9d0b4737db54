//! The words of the notation in each highlighter, generated from the compiler's table.

use std::collections::{BTreeMap, BTreeSet};

use setwright::syntax::keys::{Key, PROPERTIES};
use setwright::syntax::words::{CLASSES, Class, all};

use super::support::{read, repository};

const QUERY: &str = "editors/tree-sitter-setwright/queries/highlights.scm";
const HELIX: &str = "editors/helix/queries/setwright";
const TEXTMATE: &str = "editors/vscode/syntaxes/setwright.tmLanguage.json";
const VIM: &str = "editors/vim/syntax/setwright.vim";

/// The words by the name that stands in a mark: those of the classes, and keys by their value.
fn lists() -> BTreeMap<String, Vec<&'static str>> {
    let mut lists: BTreeMap<String, Vec<&'static str>> =
        CLASSES.iter().map(|class| (format!("{class:?}").to_lowercase(), class.words())).collect();
    lists.insert("text_key".to_owned(), keys(|value| value.is_none()));
    let of_names = [
        "name",
        "names_value",
        "counted_names_value",
        "remarked_name_value",
        "avoid_value",
        "limit_value",
        "muscles_value",
    ];
    let names = keys(|value| value.is_some_and(|rule| of_names.contains(&rule)));
    lists.insert("name_key".to_owned(), names);
    for words in lists.values_mut() {
        // The longer word first: a choice is not taken back everywhere.
        words.sort_by_key(|word| (std::cmp::Reverse(word.len()), *word));
    }
    lists
}

/// The keys whose value is of a kind, in every block that has them.
fn keys(is_kind: impl Fn(Option<&str>) -> bool) -> Vec<&'static str> {
    let of_kind = |key: &Key| {
        let mut own = PROPERTIES.iter().filter(|property| property.key == *key);
        own.all(|property| {
            let rule = property.value.map(|rule| format!("{rule:?}"));
            is_kind(rule.as_deref())
        })
    };
    Key::ALL.iter().filter(|key| of_kind(key)).map(|key| key.word()).collect()
}

/// Compares a file with what it should be, or writes it.
fn hold(path: &str, wanted: &str) {
    let is = read(path);
    if is == wanted {
        return;
    }
    if std::env::var("SETWRIGHT_ACCEPT_WORDS").is_ok_and(|v| v == "1") {
        std::fs::write(repository().join(path), wanted).unwrap();
        return;
    }
    let differs = is.lines().zip(wanted.lines()).find(|(a, b)| a != b);
    panic!(
        "{path} has other words than the compiler: {differs:?}\n\
         if the table is right: SETWRIGHT_ACCEPT_WORDS=1 cargo test --test highlighting"
    );
}

/// The text with what stands between two lines replaced.
fn between(text: &str, first: &str, last: &str, body: &str) -> String {
    let (before, rest) = text.split_once(first).unwrap_or_else(|| panic!("no line `{first}`"));
    let (_, after) = rest.split_once(last).unwrap_or_else(|| panic!("no line `{last}`"));
    format!("{before}{first}{body}{last}{after}")
}

#[test]
fn the_query_for_tree_sitter_has_every_word() {
    // Keys, weekdays and units are nodes of their own. Each other word is named once.
    let mut seen = BTreeSet::new();
    let mut body = String::new();
    for class in CLASSES {
        let capture = match class {
            Class::Key | Class::Weekday | Class::Unit => continue,
            Class::Head | Class::Line | Class::Advice => "@keyword",
            Class::Option | Class::Group => "@keyword.modifier",
            Class::Load | Class::Scale | Class::Choice | Class::Result => "@constant.builtin",
            Class::Count | Class::Equipment => "@type",
            Class::Condition => "@keyword.conditional",
            Class::Action => "@function.builtin",
            Class::Joint => "@keyword.operator",
            Class::Letter => "@operator",
        };
        let words: Vec<String> = class
            .words()
            .into_iter()
            .filter(|word| seen.insert(*word))
            .map(|word| format!("\"{word}\""))
            .collect();
        body.push_str(&format!("; {class:?}\n[{}] {capture}\n", words.join(" ")));
    }
    let wanted = between(&read(QUERY), "\n; words\n", "; end\n", &body);
    hold(QUERY, &wanted);
    // Helix has names of its own for some colours; its other queries are those of the grammar.
    let own = [
        ("@number", "@constant.numeric"),
        ("@property", "@variable.other.member"),
        ("@keyword.conditional", "@keyword.control.conditional"),
        ("@keyword.modifier", "@keyword.storage.modifier"),
    ];
    let helix = own.iter().fold(wanted, |text, (theirs, own)| text.replace(theirs, own));
    let note = "; Written by a test from the query of the grammar.\n";
    hold(&format!("{HELIX}/highlights.scm"), &format!("{note}{helix}"));
    for name in ["indents", "textobjects"] {
        let query = read(&format!("editors/tree-sitter-setwright/queries/{name}.scm"));
        hold(&format!("{HELIX}/{name}.scm"), &format!("{note}{query}"));
    }
}

#[test]
fn the_textmate_grammar_has_every_word() {
    let lists = lists();
    let mut used = BTreeSet::new();
    let text = read(TEXTMATE);
    let mut parts = text.split("(?#");
    let mut wanted = parts.next().unwrap().to_owned();
    for part in parts {
        let (name, rest) = part.split_once(')').unwrap();
        wanted.push_str(&format!("(?#{name})"));
        match lists.get(name) {
            Some(words) => wanted.push_str(&words.join("|")),
            None => wanted.push_str(rest),
        }
        used.extend(lists.get(name).into_iter().flatten());
    }
    hold(TEXTMATE, &wanted);
    assert_eq!(used, all(), "not in the TextMate grammar");
    serde_json::from_str::<serde_json::Value>(&wanted).unwrap();
}

#[test]
fn the_syntax_for_vim_has_every_word() {
    let body: String = lists()
        .iter()
        .map(|(name, words)| format!("let s:{name} = '{}'\n", words.join("\\|")))
        .collect();
    hold(VIM, &between(&read(VIM), "\n\" words\n", "\" end\n", &body));
}
