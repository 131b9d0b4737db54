//! Selects and ranks the offers that match what was typed.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::{Completion, CompletionKind};
use crate::source::Span;
use crate::syntax::fold_name;

/// Maximum number of completions in one answer.
pub const MOST: usize = 60;
/// Least number of characters for a fuzzy match: shorter texts are similar to too many names.
const FUZZY_FROM: usize = 3;
/// Least similarity of a fuzzy match; below it, guesses are misleading.
const FUZZY_LEAST: f64 = 0.84;

/// A text that can be offered.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    pub label: String,
    pub kind: CompletionKind,
    pub detail: Option<String>,
    pub documentation: Option<String>,
    /// The text to insert; the label if `None`.
    pub insert: Option<String>,
    /// The exercise it names, as an index into the project's exercises.
    pub exercise: Option<usize>,
    /// Whether the label is a synonym. Names come before synonyms.
    pub synonym: bool,
}

impl Offer {
    pub fn new(kind: CompletionKind, label: impl Into<String>) -> Self {
        Self {
            label: label.into(),
            kind,
            detail: None,
            documentation: None,
            insert: None,
            exercise: None,
            synonym: false,
        }
    }

    pub fn detail(mut self, text: impl Into<String>) -> Self {
        self.detail = Some(text.into());
        self
    }

    pub fn insert(mut self, text: impl Into<String>) -> Self {
        self.insert = Some(text.into());
        self
    }

    pub fn at(self, replace: Span) -> Completion {
        Completion {
            insert: self.insert.unwrap_or_else(|| self.label.clone()),
            label: self.label,
            detail: self.detail,
            documentation: self.documentation,
            kind: self.kind,
            replace,
        }
    }
}

/// How well an offer matches, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Fit {
    Exact,
    Prefix,
    WordPrefix,
    SynonymPrefix,
    Within,
    Near,
}

/// Normalises a name for searching: no case, hyphens or accents.
fn plain(text: &str) -> String {
    let folded = fold_name(text);
    if folded.is_ascii() {
        return folded;
    }
    folded.nfd().filter(|sign| !is_combining_mark(*sign)).collect()
}

/// The offers that match what was typed, best first. Equally good offers keep their order.
pub fn fitting(offers: Vec<Offer>, typed: &str) -> Vec<Offer> {
    let wanted = plain(typed);
    let words: Vec<&str> = wanted.split(' ').filter(|word| !word.is_empty()).collect();
    let mut found: Vec<(Fit, usize, Offer)> = offers
        .into_iter()
        .enumerate()
        .filter_map(|(order, offer)| Some((fit(&offer, &wanted, &words)?, order, offer)))
        .collect();
    found.sort_by_key(|(fit, order, _)| (*fit, *order));
    found.into_iter().map(|(.., offer)| offer).collect()
}

/// The best offers as completions of a span, at most [`MOST`].
pub fn pick(offers: Vec<Offer>, typed: &str, replace: Span) -> Vec<Completion> {
    let found = fitting(offers, typed).into_iter().take(MOST);
    found.map(|offer| offer.at(replace)).collect()
}

fn fit(offer: &Offer, wanted: &str, words: &[&str]) -> Option<Fit> {
    if words.is_empty() {
        return Some(if offer.synonym { Fit::SynonymPrefix } else { Fit::Prefix });
    }
    let label = plain(&offer.label);
    let begins = |label: &str| {
        let own: Vec<&str> = label.split([' ', '-', '(', '/']).collect();
        words.iter().all(|word| own.iter().any(|own| own.starts_with(word)))
    };
    let found = if label == wanted {
        Fit::Exact
    } else if label.starts_with(wanted) {
        Fit::Prefix
    } else if begins(&label) {
        Fit::WordPrefix
    } else if label.contains(wanted) {
        Fit::Within
    } else if wanted.chars().count() >= FUZZY_FROM
        && strsim::jaro_winkler(wanted, &label) >= FUZZY_LEAST
    {
        Fit::Near
    } else {
        return None;
    };
    let by_synonym = offer.synonym && matches!(found, Fit::Prefix | Fit::WordPrefix);
    Some(if by_synonym { Fit::SynonymPrefix } else { found })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_exact_word_comes_first_then_prefixes_then_words_then_guesses() {
        let names = ["Box squat", "Squat", "Squat jump", "Žofie squat", "Squta", "Deadlift"];
        let offers = names.map(|name| Offer::new(CompletionKind::Exercise, name)).to_vec();
        let found = |typed: &str| -> Vec<String> {
            fitting(offers.clone(), typed).into_iter().map(|offer| offer.label).collect()
        };
        assert_eq!(found("squat"), ["Squat", "Squat jump", "Box squat", "Žofie squat", "Squta"]);
        assert_eq!(found("zof"), ["Žofie squat"]);
        assert_eq!(found("sq bo"), ["Box squat"]);
        assert_eq!(found("").len(), names.len());
        assert!(found("xyz").is_empty());
    }
}
