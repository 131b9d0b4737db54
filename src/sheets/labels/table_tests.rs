//! Checks that every table is complete: each field is filled, has the placeholders of the English
//! one, and is in its own language.

use std::collections::BTreeSet;

use crate::catalogue::{LANGUAGES, MUSCLES, PATTERNS};
use crate::quantity::Decimal;
use crate::source::{FileId, Span, Spanned};
use crate::syntax::ast::{Action, Amount, ChangeBy, Comparison, Condition, MassText, Quantity};

use super::*;

/// The strings of a table, each with the name of its field, in order. They are read from its debug
/// format, so that no field is forgotten.
pub(super) fn strings(labels: &Labels) -> Vec<(String, String)> {
    let mut field = String::new();
    let mut found = Vec::new();
    for line in format!("{:#?}", Labels { words: &[], ..clone(labels) }).lines() {
        let line = line.trim();
        let named = line
            .split_once(": ")
            .filter(|(name, _)| name.chars().all(|c| c.is_ascii_lowercase() || c == '_'));
        let value = named.map_or(line, |(name, value)| {
            name.clone_into(&mut field);
            value
        });
        let text = value.strip_suffix(',').unwrap_or(value);
        if let Some(text) = text.strip_prefix('"').and_then(|text| text.strip_suffix('"')) {
            found.push((
                field.clone(),
                text.replace("\\u{a0}", "\u{a0}").replace("\\u{202f}", "\u{202f}"),
            ));
        }
    }
    found
}

/// A table consists of shared references only.
fn clone(labels: &Labels) -> Labels {
    Labels { ..*labels }
}

fn holes(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|part| part.split_once('}')).map(|(hole, _)| hole).collect()
}

fn others() -> impl Iterator<Item = (&'static str, Vec<(String, String)>)> {
    Labels::ALL.into_iter().skip(1).map(|labels| (labels.language, strings(labels)))
}

#[test]
fn every_table_has_every_string() {
    let english = strings(&ENGLISH);
    assert!(english.len() > 225, "{}", english.len());
    for (language, table) in others() {
        let names = |table: &[(String, String)]| -> Vec<String> {
            table.iter().map(|(name, _)| name.clone()).collect()
        };
        assert_eq!(names(&table), names(&english), "{language}");
        for (name, text) in &table {
            assert!(!text.is_empty(), "{language}: {name} is empty");
            let trimmed = text.trim_matches([' ', '\u{a0}', '\u{202f}']);
            assert!(
                trimmed == text
                    || ["colon", "semicolon", "and", "percent"].contains(&name.as_str()),
                "{language}: {name}"
            );
        }
    }
}

#[test]
fn templates_have_the_holes_of_the_english_ones() {
    let english = strings(&ENGLISH);
    for (language, table) in others() {
        for ((name, text), (_, template)) in table.iter().zip(&english) {
            // A form for 1 may use a word instead of the number: `every week`.
            if name != "singles" {
                assert_eq!(holes(text), holes(template), "{language}: {name}: {text}");
            }
        }
    }
}

/// Terms that several languages share, and texts that are not words.
const INTERNATIONAL: [&str; 40] = [
    "; ",
    "{0} × {1}",
    "{0} × {1}: {2}%",
    "pin {0}",
    "{0} {1}",
    "°",
    "–",
    "Rack {0}",
    "{0} {1} {2} {3}",
    "%",
    "Muscle",
    "Source",
    "AMRAP",
    "RPE",
    "RPE {0} {1}",
    "1RM",
    "1",
    ": ",
    "L",
    "R",
    "D",
    "Apr.",
    "Aug.",
    "Jan.",
    "mar",
    "Demo",
    "Note",
    "Notes",
    "Circuit",
    "Superset",
    "back-off",
    "rest-pause {0}",
    "rack {0}",
    "tempo {0}",
    "max {0}",
    "phase {0}",
    "direct",
    "indirect",
    "{0}: {1} → {2} ({3})",
    "programme",
];

#[test]
fn no_english_is_left_over() {
    let english = strings(&ENGLISH);
    let mut same = BTreeSet::new();
    for (language, table) in others() {
        for ((name, text), (_, template)) in table.iter().zip(&english) {
            if text == template && !INTERNATIONAL.contains(&text.as_str()) {
                same.insert((language, name.clone(), text.clone()));
            }
            if template.chars().count() > 60 {
                let long = text.chars().count() * 2 > template.chars().count();
                assert!(long, "{language}: {name} is cut short");
                for word in [" the ", " of ", " and ", " is "] {
                    assert!(!text.contains(word), "{language}: {name}: {text}");
                }
            }
        }
    }
    assert_eq!(same, BTreeSet::new(), "as in English");
}

#[test]
fn every_sign_is_in_the_font() {
    for labels in Labels::ALL {
        let words = labels.words.iter().map(|(_, word)| (*word).to_owned());
        for text in strings(labels).into_iter().map(|(_, text)| text).chain(words) {
            let lacks = text.chars().find(|c| !crate::sheets::covers(*c));
            assert_eq!(lacks, None, "{}: {text}", labels.language);
        }
    }
}

#[test]
fn muscles_and_patterns_are_all_there() {
    let known: Vec<&str> = PATTERNS.iter().chain(MUSCLES).copied().collect();
    for labels in Labels::ALL.into_iter().skip(1) {
        let named: Vec<&str> = labels.words.iter().map(|(word, _)| *word).collect();
        assert_eq!(named, known, "{}", labels.language);
        assert!(labels.words.iter().all(|(_, own)| !own.is_empty()));
    }
    assert_eq!(Labels::of("fr").word("glutes"), "fessiers");
    assert_eq!(ENGLISH.word("glutes"), "glutes");
}

#[test]
fn the_notation_knows_the_languages_of_the_tables() {
    let tables: Vec<&str> = Labels::ALL.iter().map(|labels| labels.language).collect();
    let known: Vec<&str> = LANGUAGES.iter().map(|(tag, ..)| *tag).collect();
    assert_eq!(tables, known);
}

fn n(text: &str) -> Decimal {
    Decimal::parse(text).unwrap()
}

/// Every form of a condition.
fn conditions() -> Vec<Condition> {
    let q = |text| Quantity::Number(n(text));
    vec![
        Condition::AllRepsMade,
        Condition::TopOfRange,
        Condition::AnyRepMissed,
        Condition::MissedInARow(q("2")),
        Condition::LastSet(Comparison::AtLeast, q("8"), None),
        Condition::LastSet(Comparison::AtMost, q("8"), Some(q("2"))),
        Condition::Rpe(Comparison::LessThan, q("8.5")),
        Condition::Pain(Comparison::AtLeast, q("4")),
        Condition::EverySessions(q("3")),
        Condition::EveryWeeks(q("4")),
    ]
}

/// Every form of an action.
fn actions() -> Vec<Action> {
    let at = Span::new(FileId(0), 0, 0);
    let by = |amount| Spanned { value: ChangeBy::Amount(amount), span: at };
    let kg = || Amount::Mass(MassText { value: n("2.5"), unit: crate::quantity::Unit::Kg });
    vec![
        Action::Load(by(kg())),
        Action::Load(by(Amount::Percent(-n("10")))),
        Action::LoadUpOne,
        Action::LoadDownOne,
        Action::Reps(by(Amount::Number(n("1")))),
        Action::RepsToBottom,
        Action::Sets(by(Amount::Number(-n("1")))),
        Action::Max(by(kg())),
        Action::MaxFromLastSet,
        Action::Hold,
    ]
}

#[test]
fn every_form_of_a_rule_is_told_in_every_language() {
    for condition in conditions() {
        for action in actions() {
            let rule = format!("{condition}: {action}");
            assert_eq!(ENGLISH.rule(&rule), rule);
            for labels in Labels::ALL.into_iter().skip(1) {
                let told = labels.rule(&rule);
                let (when, then) = told.split_once(labels.colon).unwrap();
                let international = matches!(condition, Condition::Rpe(..));
                let spelled = labels.numbers.spell(&condition.to_string());
                assert!(when != spelled || international, "{}: {told}", labels.language);
                let max = matches!(action, Action::Max(..)) && labels.language == "fr";
                let spelled = labels.numbers.spell(&action.to_string());
                assert!(then != spelled || max, "{}: {told}", labels.language);
            }
        }
    }
}
