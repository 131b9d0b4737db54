//! Units as they are spelled elsewhere, each with its spelling in this notation.

use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::build::cut;

/// Other spellings of a unit, in lower case.
const SPELLINGS: &[(&str, &[&str])] = &[
    (
        "kg",
        &[
            "kgs",
            "kilo",
            "kilos",
            "kilogram",
            "kilograms",
            "kilogramme",
            "kilogrammes",
            "kgr",
            "kq",
        ],
    ),
    ("lb", &["pound", "pounds", "lbm", "ibs"]),
    ("s", &["s", "sec", "secs", "second", "seconds", "scs"]),
    ("min", &["min", "mins", "minute", "minutes", "mn"]),
    ("m", &["metre", "metres", "meter", "meters", "mtr", "mtrs"]),
];
/// Pounds in a stone.
const POUNDS: u32 = 14;

/// The diagnostic for a number with a foreign spelling of a unit: `75 kgs`, `90 seconds`, `11 stone`.
pub fn elsewhere(
    code: Code,
    text: &str,
    within: &dyn Fn(usize, usize) -> Span,
) -> Option<Diagnostic> {
    words_after_numbers(text).find_map(|word| {
        let lower = word.text.to_lowercase();
        let span = within(word.at, word.at + word.text.len());
        if matches!(lower.as_str(), "stone" | "stones" | "st") {
            return Some(stone(code, &word, &lower, within));
        }
        // A rest is a time, so `m` means minutes there.
        let timed = ["rest", "every", "rest-pause", "change", "for"];
        let of_time = timed.contains(&word.lead.split(' ').next_back().unwrap_or(""));
        let ours = match lower.as_str() {
            "m" | "ms" if of_time => "min",
            "hour" | "hours" | "h" | "hr" | "hrs" => {
                let found =
                    Diagnostic::new(code, span, format!("`{}` is not a unit here", cut(word.text)));
                return Some(found.help("write times in `s` or `min`: an hour is `60 min`"));
            }
            _ => SPELLINGS.iter().find(|(_, other)| other.contains(&lower.as_str()))?.0,
        };
        // These spellings are accepted in lower case.
        if matches!(word.text, "s" | "sec" | "min") {
            return None;
        }
        Some(
            Diagnostic::new(code, span, format!("`{}` is not a unit here", cut(word.text)))
                .help(format!("did you mean `{ours}`?"))
                .fix(span, ours),
        )
    })
}

/// The diagnostic for stones, with the mass converted to pounds.
fn stone(
    code: Code,
    word: &Word<'_>,
    lower: &str,
    within: &dyn Fn(usize, usize) -> Span,
) -> Diagnostic {
    let span = within(word.number_at, word.at + word.text.len());
    let found = Diagnostic::new(code, span, format!("`{lower}` is not a unit here"));
    let pounds = word.number.parse::<u32>().ok().and_then(|stones| stones.checked_mul(POUNDS));
    match pounds {
        Some(pounds) => found.help(format!(
            "write the mass in kg or lb: a stone is {POUNDS} lb, so {} stone is `{pounds} lb`",
            word.number
        )),
        None => found.help(format!("write the mass in kg or lb: a stone is {POUNDS} lb")),
    }
}

/// A word directly after a number, with the text before the number.
struct Word<'t> {
    lead: &'t str,
    number: &'t str,
    number_at: usize,
    text: &'t str,
    at: usize,
}

fn words_after_numbers(text: &str) -> impl Iterator<Item = Word<'_>> {
    let is_part = |sign: char| sign.is_ascii_digit() || sign == '.';
    let mut from = 0;
    std::iter::from_fn(move || {
        loop {
            let number_at = from + text.get(from..)?.find(|sign: char| sign.is_ascii_digit())?;
            let rest = text.get(number_at..)?;
            let length = rest.find(|sign| !is_part(sign)).unwrap_or(rest.len());
            let after = rest.get(length..)?;
            let spaces = after.len() - after.trim_start_matches([' ', '\u{a0}']).len();
            let at = number_at + length + spaces;
            let word = text.get(at..)?;
            let word_length = word.find(|sign: char| !sign.is_alphabetic()).unwrap_or(word.len());
            from = at + word_length;
            let lead = text.get(..number_at)?;
            // Skip digits that are part of a name.
            if word_length > 0 && !lead.ends_with(char::is_alphabetic) {
                let (lead, number) = (lead.trim_end(), rest.get(..length)?);
                return Some(Word { lead, number, number_at, text: word.get(..word_length)?, at });
            }
        }
    })
}
