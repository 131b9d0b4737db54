//! All words of the notation by class, for completion, syntax highlighting and authors of editor
//! modes. The grammar decides what is valid; a test compares this table with it, word by word.
//!
//! A word may be in several classes: `load` is the change of a phase and the start of an action.
//! A phrase (`body mass`, `in a row`) counts as one word here, with single spaces.

use std::collections::BTreeSet;

use super::ast::EquipmentKind;
use super::keys::{BLOCK_WORDS, Key, LINE_WORDS};

/// The purpose of a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// Starts a block at the margin: `gym`.
    Head,
    /// The key of a line, before the colon: `body mass`, `max`.
    Key,
    /// Starts the key of a line below an exercise or in a scheme: `week`, `for`, `when`.
    Line,
    /// A weekday after a day's name, in upper or lower case: `Mon`.
    Weekday,
    /// A unit after a number: `kg`, `min`. Units of mass may be in upper or lower case.
    Unit,
    /// An option of a prescription or of a group: `rest`, `tempo`, `as written`.
    Option,
    /// How a group is done: `circuit`, `paired`.
    Group,
    /// A load in words: `bodyweight`, `last`, `1RM`, `top set`. `bodyweight` and `1RM` may be in upper or
    /// lower case.
    Load,
    /// A scale of effort, or pain: `RPE`.
    Scale,
    /// A thing that is counted: `sets`, `reps`, `rounds`.
    Count,
    /// A condition of a rule, or a part of one: `top of range`.
    Condition,
    /// An action of a rule or a change of a phase, or its first word: `load up one`, `hold`.
    Action,
    /// A kind of equipment: `barbell`.
    Equipment,
    /// A fixed value of a key: `nearest`, `compound`, `none`.
    Choice,
    /// A result in a log: `done`, `skipped`.
    Result,
    /// In a line of `advice`: `allow`, `warning`.
    Advice,
    /// Joins other words: `of`, `by`, `each side`, `until`.
    Joint,
    /// A letter with a meaning of its own: the `x` of `3 x 5`, the `X` of a tempo.
    Letter,
}

/// All classes.
pub const CLASSES: &[Class] = &[
    Class::Head,
    Class::Key,
    Class::Line,
    Class::Weekday,
    Class::Unit,
    Class::Option,
    Class::Group,
    Class::Load,
    Class::Scale,
    Class::Count,
    Class::Condition,
    Class::Action,
    Class::Equipment,
    Class::Choice,
    Class::Result,
    Class::Advice,
    Class::Joint,
    Class::Letter,
];

impl Class {
    /// The words of the class, without repetition.
    #[must_use]
    pub fn words(self) -> Vec<&'static str> {
        match self {
            Class::Head => BLOCK_WORDS.to_vec(),
            Class::Key => Key::ALL.iter().map(|key| key.word()).collect(),
            Class::Line => LINE_WORDS.to_vec(),
            Class::Equipment => EquipmentKind::ALL.iter().map(|(_, word)| *word).collect(),
            Class::Weekday => WEEKDAYS.iter().flat_map(|(short, long)| [*short, *long]).collect(),
            Class::Unit => vec!["kg", "lb", "lbs", "s", "sec", "min", "m", "mm"],
            Class::Option => vec![
                "rest",
                "tempo",
                "range",
                "drop",
                "rest-pause",
                "every",
                "no warm-up",
                "as written",
                "with phase",
                "change",
                "alternate",
                "each set",
            ],
            Class::Group => vec!["circuit", "every", "rounds in", "paired"],
            Class::Load => vec!["bodyweight", "last", "1RM", "training max", "top set", "bar"],
            Class::Scale => vec!["RPE", "RIR", "pain"],
            Class::Count => vec![
                "sets", "set", "reps", "rep", "AMRAP", "rounds", "round", "sessions", "session",
                "weeks", "week",
            ],
            Class::Condition => vec![
                "all reps made",
                "top of range",
                "any rep missed",
                "missed",
                "in a row",
                "last set",
                "every",
            ],
            Class::Action => vec![
                "load up one",
                "load down one",
                "load",
                "reps to bottom",
                "reps",
                "sets",
                "max from last set",
                "max",
                "hold",
            ],
            Class::Choice => vec![
                "each",
                "both",
                "a pair",
                "reps",
                "seconds",
                "metres",
                "compound",
                "isolation",
                "nearest",
                "down",
                "move on",
                "repeat",
                "no",
            ],
            Class::Result => vec!["done", "skipped", "extra"],
            Class::Advice => vec!["none", "allow", "info", "warning"],
            Class::Joint => vec![
                "and", "as", "at", "between", "by", "each", "side", "for", "of", "on", "tested",
                "until",
            ],
            Class::Letter => vec!["x", "X"],
        }
    }
}

/// The weekdays, short and long.
pub const WEEKDAYS: [(&str, &str); 7] = [
    ("mon", "monday"),
    ("tue", "tuesday"),
    ("wed", "wednesday"),
    ("thu", "thursday"),
    ("fri", "friday"),
    ("sat", "saturday"),
    ("sun", "sunday"),
];

/// Every word of the notation, sorted and without repetition.
#[must_use]
pub fn all() -> BTreeSet<&'static str> {
    CLASSES.iter().flat_map(|class| class.words()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The quoted words of the grammar that have a letter in them, without its comments.
    fn grammar_words() -> BTreeSet<String> {
        let grammar = include_str!("../../grammar/setwright.pest");
        let mut found = BTreeSet::new();
        for line in grammar.lines().filter(|line| !line.trim_start().starts_with("//")) {
            let quoted = line.split('"').skip(1).step_by(2);
            let words = quoted.filter(|word| !word.starts_with('\\'));
            found.extend(
                words.filter(|word| word.chars().any(char::is_alphabetic)).map(str::to_owned),
            );
        }
        found
    }

    #[test]
    fn the_table_has_the_words_of_the_grammar_and_no_others() {
        let table: BTreeSet<String> = all().into_iter().map(str::to_owned).collect();
        let grammar = grammar_words();
        let lacks: Vec<_> = grammar.difference(&table).collect();
        let invents: Vec<_> = table.difference(&grammar).collect();
        assert!(lacks.is_empty(), "not in the table: {lacks:?}");
        assert!(invents.is_empty(), "not in the grammar: {invents:?}");
    }

    #[test]
    fn a_class_names_each_word_once() {
        for class in CLASSES {
            let words = class.words();
            let once: BTreeSet<&str> = words.iter().copied().collect();
            assert_eq!(words.len(), once.len(), "{class:?}");
        }
    }
}
