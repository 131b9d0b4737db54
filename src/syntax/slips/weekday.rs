//! Brackets at the end of a day's name that were meant to hold a weekday.

use strsim::damerau_levenshtein;

use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::ast::Name;
use crate::syntax::build::cut;

/// The weekdays in full; the first three letters of each are its short form.
const WEEKDAYS: [&str; 7] =
    ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/// From this length on a word may have two slips and still mean a weekday.
const LONG: usize = 7;

/// What to say about a name that ends in brackets with something like a weekday in them. Other
/// words in brackets, such as `(heavy)`, are part of the name.
pub fn in_name(name: &Name) -> Option<Diagnostic> {
    let text = name.value.trim_end_matches([':', ' ']);
    let inner = text.strip_suffix(')')?;
    let open = inner.rfind('(')?;
    let inside = inner.get(open + 1..)?.trim();
    let word: String = inside.chars().take_while(|sign| sign.is_alphabetic()).collect();
    let meant = meant(&word)?;
    let base = name.span.start as usize;
    let span = Span::new(name.span.file, base + open, base + name.value.len());
    let found = |message: String| Diagnostic::new(Code::BadWeekday, span, message);
    let written = cut(text.get(open..).unwrap_or(inside));
    if word.len() < inside.trim_end_matches('.').len() {
        return Some(found(format!("`{written}` is more than one weekday")).help(format!(
            "write one weekday alone in the brackets: `({meant})`; another day of the week is a \
             `day` of its own, and what holds for some weeks only stands in `week` lines below an \
             exercise"
        )));
    }
    // A space keeps the brackets from the name; nothing follows them.
    let space = if text.get(..open).is_some_and(|lead| lead.ends_with(' ')) { "" } else { " " };
    let message = if is_spelled(&word) {
        format!("`{written}` is not read as the weekday of this day")
    } else {
        format!("`{written}` is no weekday")
    };
    let found = found(message).guess(span, format!("{space}({meant})"));
    Some(if is_spelled(&word) {
        found.help(format!("write it at the end, after a space: `({meant})`"))
    } else {
        found.help(format!("did you mean `{meant}`? Else write the name without brackets"))
    })
}

/// Whether a word is one of the spellings that are read.
fn is_spelled(word: &str) -> bool {
    WEEKDAYS.iter().any(|day| {
        word.eq_ignore_ascii_case(day)
            || day.get(..3).is_some_and(|short| word.eq_ignore_ascii_case(short))
    })
}

/// The short form of the weekday that a word is, is cut from, or comes near to.
fn meant(word: &str) -> Option<&'static str> {
    let lower = word.to_lowercase();
    let letters = lower.chars().count();
    let near = |day: &&&'static str| {
        let full = day.to_lowercase();
        let short = full.get(..3).unwrap_or("");
        let one = lower.strip_suffix('s').unwrap_or(&lower);
        // `Tues`, `Thurs`, `Mondays`.
        if letters >= 3 && [&lower, one].iter().any(|w| w.len() >= 3 && full.starts_with(*w)) {
            return true;
        }
        match letters {
            // So short a word is near to many: a weekday has a capital and keeps its first letter.
            3 | 4 => {
                word.starts_with(char::is_uppercase)
                    && full.chars().next() == lower.chars().next()
                    && damerau_levenshtein(&lower, short) == 1
            }
            5.. => damerau_levenshtein(&lower, &full) <= if letters < LONG { 1 } else { 2 },
            _ => false,
        }
    };
    let exact = WEEKDAYS.iter().find(|day| day.to_lowercase().starts_with(&lower) && letters >= 3);
    let day = exact.or_else(|| WEEKDAYS.iter().find(near))?;
    day.get(..3)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    fn help(name: &str) -> Option<String> {
        let span = Span::new(FileId(0), 4, 4 + name.len());
        in_name(&Name { value: name.to_owned(), span }).and_then(|found| found.help)
    }

    #[test]
    fn what_looks_like_a_weekday_is_one() {
        for (name, day) in [
            ("Press (Wen)", "Wed"),
            ("Press (Tues)", "Tue"),
            ("Press (Thurs)", "Thu"),
            ("Press (Weds)", "Wed"),
            ("Press (Thr)", "Thu"),
            ("Press (wensday)", "Wed"),
            ("Press (Saterday)", "Sat"),
            ("Press (Mondays)", "Mon"),
            ("Press (Mno)", "Mon"),
            ("Press(Mon)", "Mon"),
            ("Press (Mon, weeks 1-6)", "Mon"),
            ("Press (Mon/Thu)", "Mon"),
            ("Press (Fri):", "Fri"),
        ] {
            let help = help(name).unwrap_or_default();
            assert!(help.contains(day), "{name}: {help}");
        }
    }

    #[test]
    fn other_words_in_brackets_are_part_of_the_name() {
        for name in [
            "Press (heavy)",
            "Press (light)",
            "Press (set 1)",
            "Press (sub)",
            "Press (fun)",
            "Press (midday)",
            "Press (week 1)",
            "Press (5/3)",
            "Press ()",
            "Press (A)",
            "Press",
            "Press (fried)",
            "Press (money)",
            "Press (today)",
            "Press (test)",
            "Press (tempo)",
        ] {
            assert_eq!(help(name), None, "{name}");
        }
    }
}
