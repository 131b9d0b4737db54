//! The languages of sheets.

use crate::diagnostics::{Code, Diagnostic, nearest};
use crate::source::Span;

/// The languages that sheets are printed in: BCP 47 tag, name in English, name in itself.
pub const LANGUAGES: [(&str, &str, &str); 5] = [
    ("en", "English", "English"),
    ("de", "German", "Deutsch"),
    ("fr", "French", "Français"),
    ("es", "Spanish", "Español"),
    ("pl", "Polish", "Polski"),
];

/// The language of sheets that a line names, with or without a region (`de`, `de-AT`). Another is
/// reported.
pub fn known_language(text: &str, at: Span, problems: &mut Vec<Diagnostic>) -> Option<String> {
    let tag = text.trim();
    if LANGUAGES.iter().any(|(known, ..)| known.eq_ignore_ascii_case(primary(tag))) {
        return Some(tag.to_owned());
    }
    problems.push(unknown(tag, at, format!("sheets cannot be printed in the language `{tag}`")));
    None
}

/// Reports what is no tag of any language: a name in a language of no sheet is kept.
pub fn check_tag(tag: &str, at: Span, problems: &mut Vec<Diagnostic>) {
    let letters = primary(tag);
    if !(2..=3).contains(&letters.len()) || !letters.chars().all(|c| c.is_ascii_alphabetic()) {
        problems.push(unknown(tag, at, format!("`{tag}` is not a language code")));
    }
}

/// A tag without its region.
pub(super) fn primary(tag: &str) -> &str {
    tag.split('-').next().unwrap_or(tag)
}

fn unknown(tag: &str, at: Span, message: String) -> Diagnostic {
    let found = Diagnostic::new(Code::UnknownWord, at, message);
    let names = LANGUAGES.iter().flat_map(|(tag, name, own)| [*tag, *name, *own]);
    let near = nearest(tag, names).and_then(|near| {
        LANGUAGES.iter().find(|(tag, name, own)| [*tag, *name, *own].contains(&near))
    });
    let known: Vec<String> =
        LANGUAGES.iter().map(|(tag, name, _)| format!("`{tag}` ({name})")).collect();
    let known = known.join(", ");
    match near {
        Some((near, ..)) => {
            found.help(format!("did you mean `{near}`? The languages are {known}")).guess(at, *near)
        }
        None => found.help(format!("use one of {known}")),
    }
}
