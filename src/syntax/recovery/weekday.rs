//! Diagnostics for weekdays in a day's name that are not read as its weekday.

use strsim::damerau_levenshtein;

use crate::diagnostics::{Code, Diagnostic, Severity};
use crate::quantity::fold_name;
use crate::source::Span;
use crate::syntax::ast::{Head, Item, Name, Node};
use crate::syntax::build::cut;

/// The weekdays in full; the first three letters of each are its short form.
const WEEKDAYS: [&str; 7] =
    ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/// The weekdays in other languages, without accents: German, French, Spanish, Polish, Italian and
/// Dutch.
const ELSEWHERE: [&[&str]; 7] = [
    &["montag", "lundi", "lunes", "poniedzialek", "lunedi", "maandag"],
    &["dienstag", "mardi", "martes", "wtorek", "martedi", "dinsdag"],
    &["mittwoch", "mercredi", "miercoles", "sroda", "mercoledi", "woensdag"],
    &["donnerstag", "jeudi", "jueves", "czwartek", "giovedi", "donderdag"],
    &["freitag", "vendredi", "viernes", "piatek", "venerdi", "vrijdag"],
    &["samstag", "sonnabend", "samedi", "sabado", "sobota", "sabato", "zaterdag"],
    &["sonntag", "dimanche", "domingo", "niedziela", "domenica", "zondag"],
];

/// The usual short forms of those weekdays.
const SHORT: [&[&str]; 7] = [
    &["mo", "lun", "pon", "pn"],
    &["di", "mar", "wt"],
    &["mi", "mer", "mie", "sr"],
    &["do", "jeu", "jue", "czw"],
    &["fr", "ven", "vie", "pt"],
    &["sa", "sam", "sab", "sob"],
    &["so", "dim", "dom", "niedz", "nd", "ndz"],
];

/// Short forms in English that are not the first three letters.
const LONGER: [&[&str]; 7] = [&[], &["tues"], &["weds"], &["thur", "thurs"], &[], &[], &[]];

/// Words between two weekdays.
const JOINTS: [&str; 8] = ["and", "or", "to", "und", "et", "y", "i", "bis"];

/// From this length on, a word may have two typos and still mean a weekday.
const LONG: usize = 7;

/// The diagnostics for the names of a file's days. No fix gives two days of a programme the same name.
pub fn in_days(nodes: &[Node]) -> Vec<Diagnostic> {
    let opens_programme = |node: &Node| matches!(node.item.value, Item::Head(Head::Programme(_)));
    nodes.chunk_by(|_, next| !opens_programme(next)).flat_map(in_programme).collect()
}

fn in_programme(nodes: &[Node]) -> Vec<Diagnostic> {
    let days = nodes.iter().filter_map(|node| match &node.item.value {
        Item::Head(Head::Day { name, weekday }) => Some((name, weekday.is_some())),
        _ => None,
    });
    let days: Vec<(&Name, bool)> = days.collect();
    let bases: Vec<String> = days
        .iter()
        .map(|(name, dated)| fold_name(if *dated { &name.value } else { base(&name.value) }))
        .collect();
    let is_taken = |base: &str| bases.iter().filter(|one| **one == fold_name(base)).count() > 1;
    let undated = days.iter().filter(|(_, dated)| !dated);
    undated.filter_map(|(name, _)| in_name(name, &is_taken)).collect()
}

/// The diagnostic for one name. `is_taken` returns whether two days would have the same name without
/// the weekday.
fn in_name(name: &Name, is_taken: &dyn Fn(&str) -> bool) -> Option<Diagnostic> {
    before_text(name).or_else(|| in_brackets(name, is_taken)).or_else(|| outside(name, is_taken))
}

/// The name without the weekday at its end.
fn base(name: &str) -> &str {
    let end = match bracketed(name) {
        Some((open, inside)) if meant(&letters(inside)).is_some() => open,
        _ => match last_days(name).as_slice() {
            [(start, _)] => *start,
            _ => name.len(),
        },
    };
    name.get(..end).unwrap_or(name).trim_end_matches(is_gap)
}

/// Whether a character may separate a name from its weekday.
fn is_gap(sign: char) -> bool {
    matches!(sign, ' ' | '\u{a0}' | ':' | ',' | ';' | '-' | '–' | '—' | '/' | '|' | '@' | '·')
}

/// The brackets at the end of a name, without a colon after them: where they open and what they
/// contain.
fn bracketed(name: &str) -> Option<(usize, &str)> {
    let inner = name.trim_end_matches([':', ' ']).strip_suffix(')')?;
    let open = inner.rfind('(')?;
    Some((open, inner.get(open + 1..)?.trim()))
}

/// The letters that a text starts with.
fn letters(text: &str) -> String {
    text.chars().take_while(|sign| sign.is_alphabetic()).collect()
}

/// `Lower (Mon) #heavy`, `Lower (Mon) heavy`: the brackets do not end the name.
fn before_text(name: &Name) -> Option<Diagnostic> {
    let text = name.value.as_str();
    let opens = text.match_indices('(').map(|(open, _)| open);
    let (open, close) = opens.into_iter().find_map(|open| {
        let rest = text.get(open + 1..)?;
        let length = rest.find(')')?;
        is_spelled(rest.get(..length)?.trim()).then_some((open, open + length + 2))
    })?;
    let (brackets, after) = (text.get(open..close)?, text.get(close..)?.trim());
    let start = name.span.start as usize;
    let at = Span::new(name.span.file, start + open, start + close);
    if let Some(comment) = after.strip_prefix('#').filter(|text| !text.is_empty()) {
        let hash = start + text.len() - after.len();
        let span = Span::new(name.span.file, hash, start + text.len());
        let message = format!("`{}` is read as part of the day's name", cut(after));
        let found = Diagnostic::new(Code::BadWeekday, span, message);
        let written = format!("# {comment}");
        return Some(
            found
                .help(format!("write the comment with a space after its `#`: `{}`", cut(&written)))
                .fix(span, written),
        );
    }
    if after.chars().all(|sign| !sign.is_alphanumeric()) {
        return None;
    }
    let message =
        format!("`{brackets}` is not read as the weekday: it is not at the end of the line");
    let rest = format!("{} {after}", text.get(..open)?.trim_end());
    let fixed = format!("{} {brackets}", rest.trim_start());
    Some(
        Diagnostic::new(Code::BadWeekday, at, message)
            .help(format!("write the weekday last: `day {}`", cut(&fixed)))
            .guess(name.span, fixed),
    )
}

/// The diagnostic for brackets at the end of a name that contain something like a weekday. Other words
/// in brackets, such as `(heavy)`, are part of the name.
fn in_brackets(name: &Name, is_taken: &dyn Fn(&str) -> bool) -> Option<Diagnostic> {
    let text = name.value.as_str();
    let (open, inside) = bracketed(text)?;
    let word = letters(inside);
    let meant = meant(&word)?;
    let start = name.span.start as usize;
    let span = Span::new(name.span.file, start + open, start + text.len());
    let found = |message: String| Diagnostic::new(Code::BadWeekday, span, message);
    let written = cut(&format!("({inside})"));
    // Spelled correctly, but in another language.
    let elsewhere = !is_spelled(&word)
        && (known_short(&word).is_some() || listed(&plain(&word), &ELSEWHERE).is_some());
    if word.len() < inside.trim_end_matches('.').len() {
        return Some(found(format!("`{written}` is more than one weekday")).help(format!(
            "write only one weekday in the brackets: `({meant})`; write a second `day` for another \
             day of the week, and `week` lines below an exercise for what applies only in some weeks"
        )));
    }
    let message = if is_spelled(&word) {
        format!("`{written}` is not read as the weekday of this day")
    } else if elsewhere {
        format!("`{written}` is not read as a weekday")
    } else {
        format!("`{written}` is not a weekday")
    };
    let mut found = found(message);
    // A word this short may mean something else.
    if elsewhere && known_short(&word).is_some() {
        found.level = Some(Severity::Warning);
    }
    let base = text.get(..open).unwrap_or("").trim_end();
    if base.is_empty() || is_taken(base) {
        let word = if elsewhere { &word } else { full(meant) };
        let fixed = format!("{base} {word} ({meant})");
        let fixed = fixed.trim_start();
        let help = if base.is_empty() {
            "write the day's name, then its weekday in brackets"
        } else {
            "give each day its own name, with the weekday in brackets at the end"
        };
        return Some(found.help(format!("{help}: `day {}`", cut(fixed))).guess(name.span, fixed));
    }
    // The brackets need a space before them and nothing after them.
    let space = if text.get(..open).is_some_and(|lead| lead.ends_with(' ')) { "" } else { " " };
    let found = found.guess(span, format!("{space}({meant})"));
    Some(if is_spelled(&word) {
        found.help(format!("write it at the end, after a space: `({meant})`"))
    } else if elsewhere {
        found.help(format!("write the weekday in English: `({meant})`"))
    } else {
        found.help(format!("did you mean `{meant}`? Otherwise write the name without brackets"))
    })
}

/// The diagnostic for a weekday outside brackets: it is part of the name, so the sessions get no dates.
fn outside(name: &Name, is_taken: &dyn Fn(&str) -> bool) -> Option<Diagnostic> {
    let text = name.value.as_str();
    let start = name.span.start as usize;
    let last = last_days(text);
    let all: Vec<_> = words(text)
        .filter_map(|one| {
            let day = if last.contains(&one) { known(one.1) } else { in_full(one.1) };
            Some((one, day?))
        })
        .collect();
    let ((at, word), day) = *all.first()?;
    let end = all.last().map_or(at + word.len(), |((at, word), _)| at + word.len());
    let span = Span::new(name.span.file, start + at, start + end);
    let written = cut(text.get(at..end).unwrap_or(word));
    let found = |message: String| {
        let mut found = Diagnostic::new(Code::BadWeekday, span, message);
        found.level = Some(Severity::Warning);
        found
    };
    if all.iter().any(|(_, other)| *other != day) {
        return Some(found(format!("`{written}` in this name is more than one weekday")).help(format!(
            "write a `day` for each day of the week, with one weekday in brackets at the end of its \
             name: `({day})`"
        )));
    }
    let base = base(text);
    let fixed = if last.is_empty() || base.is_empty() || is_taken(base) {
        format!("{} ({day})", text.trim_end_matches(is_gap))
    } else {
        format!("{base} ({day})")
    };
    let message = format!("`{written}` is part of this day's name, not its weekday");
    Some(
        found(message)
            .help(format!("write the weekday in brackets at the end: `day {}`", cut(&fixed)))
            .guess(name.span, fixed),
    )
}

/// The words of a name, each with its byte position.
fn words(name: &str) -> impl DoubleEndedIterator<Item = (usize, &str)> {
    let parts = name.split(|sign: char| !sign.is_alphanumeric());
    let at = |part: &str| part.as_ptr() as usize - name.as_ptr() as usize;
    parts.filter(|part| !part.is_empty()).map(move |part| (at(part), part))
}

/// The weekdays that a name ends with. A name that ends with brackets has none.
fn last_days(name: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let is_lower = !name.contains(char::is_uppercase);
    for (at, word) in words(name).rev().filter(|_| !name.ends_with(')')) {
        let capital = word.starts_with(char::is_uppercase);
        let short = || {
            let own = is_spelled(word) && (capital || is_lower);
            let short = || known_short(word).or_else(|| listed(&plain(word), &LONGER));
            own || capital && short().is_some()
        };
        if in_full(word).is_some() || short() {
            found.push((at, word));
        } else if found.is_empty() || !JOINTS.contains(&word) {
            break;
        }
    }
    found.reverse();
    found
}

/// The word in lower case without accents.
fn plain(word: &str) -> String {
    let letter = |sign: char| match sign {
        'á' | 'à' | 'ą' => 'a',
        'é' | 'è' | 'ę' => 'e',
        'í' | 'ì' => 'i',
        'ł' => 'l',
        'ś' => 's',
        sign => sign,
    };
    word.to_lowercase().chars().map(letter).collect()
}

/// The short form of the weekday whose row of a table contains the word.
fn listed(word: &str, table: &[&[&str]; 7]) -> Option<&'static str> {
    let day = table.iter().position(|words| words.contains(&word))?;
    WEEKDAYS.get(day)?.get(..3)
}

/// The short form of the weekday that a word names in full, in any known language.
fn in_full(word: &str) -> Option<&'static str> {
    let word = plain(word);
    let own = WEEKDAYS.iter().find(|day| {
        let day = day.to_lowercase();
        word == day || word.strip_suffix('s') == Some(&day)
    });
    own.and_then(|day| day.get(..3)).or_else(|| listed(&word, &ELSEWHERE))
}

/// The short form of the weekday that a foreign short form names.
fn known_short(word: &str) -> Option<&'static str> {
    listed(&plain(word), &SHORT)
}

/// The short form of the weekday that a correctly spelled word names, long or short, in any language.
fn known(word: &str) -> Option<&'static str> {
    let own = WEEKDAYS.iter().filter_map(|day| day.get(..3));
    let own = own.into_iter().find(|short| word.eq_ignore_ascii_case(short));
    own.or_else(|| in_full(word))
        .or_else(|| listed(&plain(word), &LONGER))
        .or_else(|| known_short(word))
}

/// The English name of a weekday from its short form.
fn full(short: &str) -> &'static str {
    WEEKDAYS.iter().find(|day| day.starts_with(short)).copied().unwrap_or("Monday")
}

/// Whether a word is a spelling that the notation accepts.
fn is_spelled(word: &str) -> bool {
    WEEKDAYS.iter().any(|day| {
        word.eq_ignore_ascii_case(day)
            || day.get(..3).is_some_and(|short| word.eq_ignore_ascii_case(short))
    })
}

/// The short form of the weekday that a word probably means, with typos and abbreviations.
fn meant(word: &str) -> Option<&'static str> {
    if let Some(day) = known(word) {
        return Some(day);
    }
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
            // A word this short is similar to many others, so it needs a capital and the right first letter.
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
        in_name(&Name { value: name.to_owned(), span }, &|_| false).and_then(|found| found.help)
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

    /// The names of a programme's days after all fixes, and what is only a warning.
    fn fixed(names: &[&str]) -> Vec<(String, bool)> {
        let days = |text: String, name: &str| text + "day " + name + "\n";
        let text = names.iter().fold(String::new(), |text, name| days(text, name));
        let (_, problems) = crate::syntax::parse(&text, FileId(0));
        assert!(problems.iter().all(|found| found.code == Code::BadWeekday), "{problems:?}");
        let line = |at: usize| text.get(..at).unwrap().matches('\n').count();
        let mut out: Vec<(String, bool)> =
            text.lines().map(|line| (line.replacen("day ", "", 1), true)).collect();
        for found in problems {
            let index = line(found.label.span.start as usize);
            let begin = text.lines().take(index).map(|line| line.len() + 1).sum::<usize>() + 4;
            let Some(fix) = found.fixes.first() else { continue };
            let edit = fix.edits.first().unwrap();
            let place = edit.span.start as usize - begin..edit.span.end as usize - begin;
            out[index].0.replace_range(place, &edit.text);
            out[index].1 = found.severity() == Severity::Warning;
        }
        let again = out.iter().fold(String::new(), |text, (name, _)| days(text, name));
        let left = crate::syntax::parse(&again, FileId(0)).1;
        assert!(left.iter().all(|found| found.fixes.is_empty()), "{again}{left:?}");
        out
    }

    #[test]
    fn a_weekday_outside_brackets_gets_into_them() {
        for (name, wanted) in [
            ("Monday", "Monday (Mon)"),
            ("Lower Monday", "Lower (Mon)"),
            ("Lower Mon", "Lower (Mon)"),
            ("lower mon", "lower (Mon)"),
            ("Lower: Mon", "Lower (Mon)"),
            ("Lower - Tues.", "Lower (Tue)"),
            ("Monday lower", "Monday lower (Mon)"),
            ("Montag", "Montag (Mon)"),
            ("Beine lundi", "Beine (Mon)"),
            ("Pierna miércoles", "Pierna (Wed)"),
            ("Nogi poniedziałek", "Nogi (Mon)"),
            ("Nogi Śr", "Nogi (Wed)"),
            ("Unten Mo", "Unten (Mon)"),
            ("Unten, Do.", "Unten (Thu)"),
        ] {
            assert_eq!(fixed(&[name]), [(wanted.to_owned(), true)], "{name}");
        }
        for (name, wanted) in [
            ("(Mon)", "Monday (Mon)"),
            ("Lower (Montag)", "Lower (Mon)"),
            ("Lower (sobota)", "Lower (Sat)"),
            ("Lower (Mon) heavy", "Lower heavy (Mon)"),
            ("Lower (Mon) #heavy", "Lower (Mon) # heavy"),
        ] {
            assert_eq!(fixed(&[name]), [(wanted.to_owned(), false)], "{name}");
        }
        assert_eq!(fixed(&["(Mo)"]), [("Mo (Mon)".to_owned(), true)]);
    }

    #[test]
    fn no_fix_makes_two_days_one() {
        let names = fixed(&["Lower Mon", "Lower Thu", "Upper (Tue)", "Upper (Freitag)"]);
        let names: Vec<&str> = names.iter().map(|(name, _)| name.as_str()).collect();
        let wanted = ["Lower Mon (Mon)", "Lower Thu (Thu)", "Upper (Tue)", "Upper Freitag (Fri)"];
        assert_eq!(names, wanted);
    }

    #[test]
    fn several_weekdays_have_no_fix() {
        for name in ["Lower Mon/Thu", "Monday and Thursday", "Lower Mo + Do", "Friday after Monday"]
        {
            let help = help(name).unwrap_or_default();
            assert!(help.contains("`day` for"), "{name}: {help}");
            assert_eq!(fixed(&[name]), [(name.to_owned(), true)]);
        }
    }

    #[test]
    fn other_names_are_no_weekdays() {
        for name in [
            "Sun salutation",
            "Wall sat",
            "Easy so",
            "Sat and stood",
            "Upper 1",
            "Lower (heavy) 2",
            "Mobility",
            "Frame",
            "Wedge",
            "Do it",
            "Martes-style",
        ] {
            let found = help(name);
            assert!(found.is_none() || name == "Martes-style", "{name}: {found:?}");
        }
    }
}
