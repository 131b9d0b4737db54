//! Translations of the sentences of built-in exercises.
//!
//! Many exercises share a sentence, so translations belong to the sentence, not to the exercise:
//! `library/safety.txt` and `library/setup.txt` hold a paragraph for each. They are read when a
//! sheet in another language first asks.

use std::collections::HashMap;
use std::sync::OnceLock;

use super::language::primary;

/// The tables of sentences.
const TABLES: [&str; 2] = [include_str!("library/safety.txt"), include_str!("library/setup.txt")];

/// A sentence's translations by their language.
type Translations = Vec<(&'static str, &'static str)>;

/// A sentence of the built-in exercises in another language; `None` where it has no translation,
/// or is no sentence of theirs.
#[must_use]
pub fn library_text(language: &str, sentence: &str) -> Option<&'static str> {
    static SENTENCES: OnceLock<HashMap<&'static str, Translations>> = OnceLock::new();
    // English sheets never read the tables.
    if primary(language).eq_ignore_ascii_case("en") {
        return None;
    }
    let sentences = SENTENCES.get_or_init(|| paragraphs().collect());
    in_language(sentences.get(sentence)?, language)
}

/// The English sentence of each paragraph, and its translations.
pub(super) fn paragraphs() -> impl Iterator<Item = (&'static str, Translations)> {
    TABLES.iter().flat_map(|table| table.split("\n\n")).filter_map(|paragraph| {
        let lines = paragraph.lines().filter(|line| !line.starts_with('#'));
        let mut lines = lines.filter_map(|line| line.split_once(' '));
        let (_, sentence) = lines.next()?;
        Some((sentence, lines.collect()))
    })
}

/// The text for a language: that of the very tag, else that of the same language in another region.
pub(super) fn in_language<'t, T: AsRef<str>>(
    texts: &'t [(T, T)],
    language: &str,
) -> Option<&'t str> {
    let very = texts.iter().find(|(tag, _)| tag.as_ref().eq_ignore_ascii_case(language));
    let same = |(tag, _): &&(T, T)| primary(tag.as_ref()).eq_ignore_ascii_case(primary(language));
    very.or_else(|| texts.iter().find(same)).map(|(_, text)| text.as_ref())
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::catalogue::{LANGUAGES, Library};

    /// The sentences of the built-in exercises that `of` picks.
    fn sentences(of: fn(&crate::catalogue::Exercise) -> Option<&String>) -> BTreeSet<String> {
        let library = Library::get();
        let all = (0..library.count()).filter_map(|index| library.exercise(index));
        all.filter_map(|exercise| of(exercise).cloned()).collect()
    }

    fn wanted() -> Vec<&'static str> {
        LANGUAGES.iter().map(|(tag, ..)| *tag).filter(|tag| *tag != "en").collect()
    }

    #[test]
    fn every_caution_and_set_up_of_the_library_is_in_every_language() {
        let mut all = sentences(|exercise| exercise.safety.as_ref());
        all.extend(sentences(|exercise| exercise.setup.as_ref()));
        let missing: Vec<(&str, &String)> = all
            .iter()
            .flat_map(|sentence| wanted().into_iter().map(move |tag| (tag, sentence)))
            .filter(|(tag, sentence)| library_text(tag, sentence).is_none())
            .collect();
        assert_eq!(missing, []);
    }

    #[test]
    fn the_tables_hold_sentences_of_the_library_once_and_in_every_language() {
        let mut known = sentences(|exercise| exercise.safety.as_ref());
        known.extend(sentences(|exercise| exercise.setup.as_ref()));
        let mut seen = BTreeSet::new();
        for (sentence, translations) in paragraphs() {
            assert!(known.contains(sentence), "no exercise says: {sentence}");
            assert!(seen.insert(sentence), "there twice: {sentence}");
            let tags: Vec<&str> = translations.iter().map(|(tag, _)| *tag).collect();
            assert_eq!(tags, wanted(), "{sentence}");
        }
    }

    /// Words that only English has, in small letters with spaces round them.
    const ENGLISH: [&str; 14] = [
        " the ",
        " and ",
        " with ",
        " feet ",
        " hands ",
        " your ",
        " you ",
        " from ",
        " floor ",
        " shoulders ",
        " hips ",
        " knees ",
        " weight ",
        " clear ",
    ];

    #[test]
    fn translations_are_sentences_of_their_language() {
        for (sentence, translations) in paragraphs() {
            for (tag, text) in &translations {
                let at = format!("{tag}: {text}");
                assert_ne!(*text, sentence, "{at}: left in English");
                let folded = format!(" {} ", text.to_lowercase().replace([',', ';', '.'], ""));
                let english = ENGLISH.iter().find(|word| folded.contains(**word));
                assert_eq!(english, None, "{at}");
                assert!(text.ends_with('.') && text.trim() == *text, "{at}");
                assert!(text.starts_with(char::is_uppercase), "{at}");
                // What fits a card in English may be half as long again.
                assert!(text.chars().count() <= 110, "{at}: too long");
                // No number is lost or made up.
                let digits =
                    |text: &str| -> String { text.chars().filter(char::is_ascii_digit).collect() };
                assert_eq!(digits(text), digits(sentence), "{at}");
            }
        }
    }

    #[test]
    fn french_punctuation_has_its_spaces() {
        for (_, translations) in paragraphs() {
            for (tag, text) in translations {
                for (at, sign) in text.char_indices().filter(|(_, sign)| ";:!?".contains(*sign)) {
                    let before = text[..at].chars().next_back();
                    let wanted = match (tag, sign) {
                        ("fr", ':') => Some('\u{a0}'),
                        ("fr", _) => Some('\u{202f}'),
                        _ => before.filter(|c| !c.is_whitespace()),
                    };
                    assert_eq!(before, wanted, "{tag}: {text}");
                }
            }
        }
    }

    #[test]
    fn the_very_tag_comes_first_then_the_language() {
        let texts = [("es-MX", "aquí"), ("es", "ahí")];
        assert_eq!(in_language(&texts, "es"), Some("ahí"));
        assert_eq!(in_language(&texts, "ES-mx"), Some("aquí"));
        assert_eq!(in_language(&texts, "es-AR"), Some("aquí"));
        assert_eq!(in_language(&texts, "de"), None);
        assert_eq!(
            library_text("de-AT", "Clear floor behind you."),
            Some("Boden hinter dir frei.")
        );
        assert_eq!(library_text("en-GB", "Clear floor behind you."), None);
    }
}
