//! Diagnostics for text that cannot be read: first the known typos and foreign forms, each with its
//! fix, then what the grammar expected at that place.

mod results;
mod units;
pub mod weekday;

use pest::Parser;
use pest::error::{Error, ErrorVariant, InputLocation};

use super::build::cut;
use super::grammar::{LineParser, Rule};
use super::phrases::OPTIONS;
use crate::diagnostics::{Code, Diagnostic, nearest, or_list};
use crate::source::Span;

/// Words an option or a load may begin with, for "did you mean".
const PRESCRIPTION_WORDS: &[&str] = &[
    "rest",
    "tempo",
    "RPE",
    "RIR",
    "range",
    "drop",
    "rest-pause",
    "every",
    "no warm-up",
    "as written",
    "with phase",
    "each side",
    "AMRAP",
    "bodyweight",
    "last",
];
/// Help for a prescription in which no known typo is found.
const PRESCRIPTION_FORM: &str =
    "write sets x reps @ load, then options: `3 x 8 @ 75%, rest 2:00, tempo 3-1-X-0`";
const CONDITION_WORDS: &[&str] = &[
    "all reps made",
    "top of range",
    "any rep missed",
    "missed 2 in a row",
    "last set >= 5 reps",
    "RPE >= 9",
    "pain >= 3",
    "every 3 sessions",
    "every 2 weeks",
];
const ACTION_WORDS: &[&str] = &[
    "load +2.5 kg",
    "load up one",
    "load down one",
    "reps +1",
    "reps to bottom",
    "sets +1",
    "max +2.5 kg",
    "max from last set",
    "hold",
];

/// The diagnostic for a value that cannot be read.
pub fn explain(rule: Rule, text: &str, at: Span, error: &Error<Rule>) -> Diagnostic {
    let offset = match error.location {
        InputLocation::Pos(pos) | InputLocation::Span((pos, _)) => pos.min(text.len()),
    };
    let within = |start: usize, end: usize| {
        let base = at.start as usize;
        Span::new(at.file, base + start, base + end)
    };
    if let Some(found) = old_words(rule, text, offset, &within)
        .or_else(|| hash(rule, text, &within))
        .or_else(|| decimal_comma(text, &within))
        .or_else(|| negative_number(rule, text, &within))
        .or_else(|| set_arithmetic(rule, text, &within))
        .or_else(|| foreign_notation(rule, text, &within))
        .or_else(|| units::elsewhere(code_of(rule), text, &within))
        .or_else(|| missing_unit(rule, text, offset, &within))
        .or_else(|| results::known(rule, text, &within))
    {
        return found;
    }
    let code = code_of(rule);
    // The message quotes the text from the place where parsing stopped to the next comma.
    let rest = text.get(offset..).unwrap_or("");
    let lead = rest.len() - rest.trim_start_matches([' ', ',']).len();
    let tail = rest.get(lead..).unwrap_or("");
    let word_end = tail.find(',').unwrap_or(tail.len());
    let word = tail.get(..word_end).unwrap_or("").trim_end();
    let (start, end) = if word.is_empty() {
        (offset, text.len().max(offset))
    } else {
        (offset + lead, offset + lead + word.len())
    };
    let message = if word.is_empty() {
        format!("something is missing after `{}`", cut(text.trim_end()))
    } else {
        format!("cannot read `{}` here", cut(word))
    };
    let mut found = Diagnostic::new(code, within(start, end), message);
    let expected = expected(error);
    if !expected.is_empty() {
        found = found.label(format!("expected {expected}"));
    }
    found.help(advice(rule, word))
}

/// The diagnostic code for a value of this rule that cannot be read.
fn code_of(rule: Rule) -> Code {
    match rule {
        Rule::prescription_value | Rule::group_value | Rule::ramp_value => Code::BadPrescription,
        Rule::conditions_value | Rule::actions_value | Rule::follow_value => Code::BadRule,
        Rule::result_value | Rule::log_session => Code::BadResult,
        _ => Code::BadValue,
    }
}

/// The diagnostics for a prescription that cannot be read. The first problem is always reported, and
/// later parts only where a known typo is found: text that is no prescription at all would otherwise
/// get one diagnostic for each comma.
pub fn explain_parts(text: &str, at: Span, error: &Error<Rule>) -> Vec<Diagnostic> {
    let rule = Rule::prescription_value;
    let within = |start: usize, end: usize| {
        Span::new(at.file, at.start as usize + start, at.start as usize + end)
    };
    if let Some(found) = hash(rule, text, &within) {
        return vec![found];
    }
    let is_list = decimal_comma(text, &|start, end| Span::new(at.file, start, end)).is_none();
    let mut found: Vec<Diagnostic> = Vec::new();
    let mut start = 0;
    for part in text.split(',').filter(|_| is_list) {
        let base = at.start as usize + start;
        start += part.len() + 1;
        if part.trim().is_empty() {
            // After the last comma something is missing: parsing the whole text shows where.
            if start <= text.len() {
                let comma = Span::new(at.file, base, base + part.len() + 1);
                let message = "there is an extra comma";
                let one = Diagnostic::new(Code::BadPrescription, comma, message);
                found.push(one.help("delete it").fix(comma, ""));
            }
            continue;
        }
        if LineParser::parse(rule, part).is_ok() {
            continue;
        }
        // A part after a comma is parsed with `1,` before it, so that it counts as a later part. A
        // space keeps a part that starts with a digit from becoming a decimal comma.
        let lead = match part.bytes().next() {
            _ if base == at.start as usize => "",
            Some(b'0'..=b'9') => "1, ",
            _ => "1,",
        };
        let led = format!("{lead}{part}");
        let Err(error) = LineParser::parse(rule, &led) else { continue };
        let (from, to) = (base.saturating_sub(lead.len()), base + part.len());
        let own = explain(rule, &led, Span::new(at.file, from, to), &error);
        if found.is_empty() || own.help.as_deref() != Some(PRESCRIPTION_FORM) {
            found.push(own);
        }
    }
    if found.is_empty() { vec![explain(rule, text, at, error)] } else { found }
}

/// What the grammar expected at the place of the error, in the coach's words.
fn expected(error: &Error<Rule>) -> String {
    let ErrorVariant::ParsingError { positives, .. } = &error.variant else {
        return String::new();
    };
    let mut words: Vec<&str> = positives.iter().filter_map(|rule| friendly(*rule)).collect();
    words.sort_unstable();
    words.dedup();
    match words.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, others)) if words.len() <= 5 => format!("{} or {last}", others.join(", ")),
        // Empty, or too long to help.
        _ => String::new(),
    }
}

fn friendly(rule: Rule) -> Option<&'static str> {
    Some(match rule {
        Rule::number | Rule::whole | Rule::count | Rule::quantity => "a number",
        Rule::percent => "a percentage, such as `75%`",
        Rule::mass | Rule::kg | Rule::lb => "`kg` or `lb`",
        Rule::duration | Rule::clock => "a time, such as `90 s` or `3:00`",
        Rule::seconds_unit | Rule::minutes_unit => "`s` or `min`",
        Rule::date => "a date, such as `2026-01-05`",
        Rule::reps | Rule::counted => "repetitions",
        Rule::load => "a load",
        Rule::option => "an option",
        Rule::set_group => "sets x reps",
        Rule::tempo_part => "four parts, such as `3-1-X-0`",
        Rule::comparison => "`>=`, `<=` or `<`",
        Rule::per_week | Rule::per_session => "`/week` or `/session`",
        _ => return None,
    })
}

/// The help for each kind of value: what to write instead.
fn advice(rule: Rule, word: &str) -> String {
    let near = |words: &[&'static str]| {
        nearest(word, words.iter().copied()).map(|name| format!("did you mean `{name}`?"))
    };
    let first_word = word.split(' ').next().unwrap_or("");
    let near_first = |words: &[&'static str]| {
        // Many words can follow "no" and "with", so compare the word after them.
        if let Some((start @ ("no" | "with"), rest)) = word.split_once(' ') {
            let ends = words.iter().filter_map(|w| w.strip_prefix(start)?.strip_prefix(' '));
            return nearest(rest, ends).map(|end| format!("did you mean `{start} {end}`?"));
        }
        // The word itself is right; the text after it cannot be read.
        let whole = OPTIONS
            .iter()
            .find(|(phrase, _)| phrase.split(' ').next() == Some(first_word) && *phrase != word);
        if let Some((phrase, _)) = whole {
            return Some(format!("write it as `{phrase}`"));
        }
        nearest(first_word, words.iter().copied()).map(|name| format!("did you mean `{name}`?"))
    };
    match rule {
        Rule::prescription_value => {
            near_first(PRESCRIPTION_WORDS).unwrap_or_else(|| PRESCRIPTION_FORM.into())
        }
        Rule::conditions_value => near(CONDITION_WORDS)
            .unwrap_or_else(|| format!("write a condition such as {}", or_list(CONDITION_WORDS))),
        Rule::actions_value => {
            near(ACTION_WORDS).unwrap_or_else(|| format!("write an action such as {}", or_list(ACTION_WORDS)))
        }
        Rule::group_value => "write how the group is done: `circuit 3 rounds, change 20 s, rest 2:00`, \
             `every 60 s for 10 min`, `rounds in 12 min` or `paired, rest 90 s`"
            .into(),
        Rule::ramp_value => "write `bar x 8, 40% x 5, 60% x 3`, or `no`".into(),
        Rule::follow_value => {
            "write the scheme's name, then the numbers for this line: `Small jumps, jump 2 kg`".into()
        }
        Rule::result_value => "write `done`, `skipped (why)`, or the sets with commas: `8, 8, 7 @ 42.5 kg, RPE 8`; a load applies to the sets before it: `5 @ 65 kg, 6, 6 @ 57.5 kg`".into(),
        Rule::log_session => "write a session as `2026-01-05 week 1, Lower 1`, a skipped one as `2026-01-05 week 1, Lower 1: skipped (why)`, an extra one as `2026-01-07 extra, easy row`".into(),
        Rule::max_value => "write `82.5 kg (tested 2025-12-18)`, `5 @ 62.5 kg (2025-12-20)` or `85% of Back squat`".into(),
        Rule::bars_value => "write `20 kg, 15 kg`; a special bar has its name first: `Trap bar 25 kg`".into(),
        Rule::stock_value => "write `20 kg x 4, 10 kg x 4`, `8, 12, 16 kg` or `4-30 kg by 2 kg`".into(),
        Rule::plate_size_value => "write the diameter and the thickness in millimetres: `450 x 54 mm`".into(),
        Rule::collars_value => "write the mass of both collars together, `5 kg a pair`, or of one, `2.5 kg each`".into(),
        Rule::bands_value => "write the name and the approximate load of each band: `light 5 kg, heavy 15 kg`".into(),
        Rule::equipment_value => "write `barbell`, `dumbbells`, `dumbbell`, `kettlebell`, `kettlebells`, `stack NAME`, \
         `machine`, `band`, `body mass` or `other NAME`"
            .into(),
        Rule::sides_value => "write `each` or `both`".into(),
        Rule::counted_in_value => "write `reps`, `seconds` or `metres`".into(),
        Rule::kind_value => "write `compound` or `isolation`".into(),
        Rule::muscles_value => "write the muscles and their shares: `quadriceps, glutes, adductors 1/2`".into(),
        Rule::rounding_value => "write `nearest` or `down`".into(),
        Rule::advice_value if first_word.trim_start_matches('-') == "strict" => "delete this line and run `setwright check \
        FILE --strict` instead"
            .into(),
        Rule::advice_value => "write `allow late-compound on D1 (why)`, `many-weekly-sets at 25 sets`, \
             `many-weekly-sets at 34 sets on glutes`, \
             `short-rest as warning` or `none`"
            .into(),
        Rule::unit_value => "write `kg` or `lb`".into(),
        Rule::missed_value => "write `move on` or `repeat`".into(),
        Rule::count_value => "write a whole number".into(),
        Rule::date_value => "write a date as year-month-day, such as `2026-01-05`".into(),
        Rule::mass_value => "write a mass, such as `68 kg` or `150 lb`".into(),
        Rule::percent_value => "write a percentage, such as `90%`".into(),
        Rule::duration_value => "write a time, such as `60 min`".into(),
        Rule::limit_value => "write the limit, then in brackets who set it and its last day: `no pressing (physio, until 2026-02-01)`".into(),
        Rule::amount_value => "write the parameter's default, such as `2.5 kg`, `5%` or `2`".into(),
        _ => "see the notation guide for the forms of this value".into(),
    }
}

/// `3 x 5 #heavy`: the text before the `#` can be read by itself, so the rest is meant as a comment.
fn hash(rule: Rule, text: &str, within: &dyn Fn(usize, usize) -> Span) -> Option<Diagnostic> {
    // The rule of a phase's heading accepts the start of any text, so use the rule for all headings.
    let rule = if rule == Rule::phase_head { Rule::head } else { rule };
    let hashes = text.match_indices(" #").map(|(at, _)| at);
    let at = hashes.into_iter().find(|&at| {
        text.get(..at).is_some_and(|before| LineParser::parse(rule, before.trim_end()).is_ok())
    })?;
    let comment = text.get(at + 2..)?;
    let word = comment.split(' ').next().unwrap_or(comment);
    let span = within(at + 1, at + 2 + word.len());
    let message = format!("`#{}` is not read as a comment", cut(word));
    Some(
        Diagnostic::new(code_of(rule), span, message)
            .label("the `#` needs a space after it")
            .help(format!("write the comment as `# {}`", cut(comment)))
            .fix(span, format!("# {word}")),
    )
}

/// Spellings that have changed: the kinds of value they occur in, the old spelling and the new one.
const OLD_WORDS: &[(&[Rule], &str, &str)] = &[
    (&[Rule::prescription_value], "warm-up none", "no warm-up"),
    (&[Rule::prescription_value], "warm-up no", "no warm-up"),
    (&[Rule::prescription_value, Rule::group_value], "scaled", "with phase"),
    (&[Rule::ramp_value], "none", "no"),
    (&[Rule::advice_value], "caution", "warning"),
    (&[Rule::advice_value], "note", "info"),
];

/// An old spelling at the place where parsing stopped.
fn old_words(
    rule: Rule,
    text: &str,
    offset: usize,
    within: &dyn Fn(usize, usize) -> Span,
) -> Option<Diagnostic> {
    let rest = text.get(offset..)?;
    let start = offset + (rest.len() - rest.trim_start_matches([' ', ',']).len());
    OLD_WORDS.iter().find_map(|(rules, old, new)| {
        // In a ramp the word is the whole value.
        let start = if rule == Rule::ramp_value { text.find(old)? } else { start };
        let after = text.get(start..)?.strip_prefix(old)?;
        if !rules.contains(&rule) || after.starts_with(|c: char| c.is_alphanumeric() || c == '-') {
            return None;
        }
        let span = within(start, start + old.len());
        Some(
            Diagnostic::new(code_of(rule), span, format!("`{old}` is now written `{new}`"))
                .help(format!("write `{new}`"))
                .fix(span, *new),
        )
    })
}

/// `62,5 kg`: a comma between digits, no space after it.
fn decimal_comma(text: &str, within: &dyn Fn(usize, usize) -> Span) -> Option<Diagnostic> {
    let bytes = text.as_bytes();
    let digit = |at: Option<usize>| at.and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit);
    let at = text
        .match_indices(',')
        .map(|(at, _)| at)
        .find(|&at| digit(at.checked_sub(1)) && digit(Some(at + 1)))?;
    let start = bytes.iter().take(at).rposition(|b| !b.is_ascii_digit()).map_or(0, |n| n + 1);
    let after = bytes.iter().skip(at + 1).position(|b| !b.is_ascii_digit());
    let end = after.map_or(text.len(), |n| at + 1 + n);
    let written = text.get(start..end)?;
    let fixed = written.replacen(',', ".", 1);
    let span = within(start, end);
    Some(
        Diagnostic::new(
            Code::DecimalComma,
            span,
            format!("`{}` has a decimal comma", cut(written)),
        )
        .help(format!("write `{}`: a comma only separates the items of a list", cut(&fixed)))
        .guess(span, fixed),
    )
}

/// A comma between digits in a list of masses: two items, or a decimal comma?
pub fn comma_in_list(text: &str, at: Span) -> Option<Diagnostic> {
    let within = |start: usize, end: usize| {
        Span::new(at.file, at.start as usize + start, at.start as usize + end)
    };
    let mut found = decimal_comma(text, &within)?;
    found.help = Some(
        "write decimals with a point (`2.5 kg`), and put a space after each comma of a list"
            .to_owned(),
    );
    Some(found)
}

/// `@ -5 kg`, or a count below zero.
fn negative_number(
    rule: Rule,
    text: &str,
    within: &dyn Fn(usize, usize) -> Span,
) -> Option<Diagnostic> {
    let takes_numbers = matches!(
        rule,
        Rule::prescription_value
            | Rule::mass_value
            | Rule::percent_value
            | Rule::count_value
            | Rule::duration_value
            | Rule::stock_value
            | Rule::bars_value
            | Rule::max_value
            | Rule::collars_value
    );
    let at = match text.find("@ -").map(|at| at + 2).or_else(|| text.find("@-").map(|at| at + 1)) {
        Some(at) => at,
        None if text.trim_start().starts_with(['-', '−']) => text.len() - text.trim_start().len(),
        None => return None,
    };
    let number = text.get(at..)?.trim_start_matches(['-', '−']);
    if !takes_numbers || !number.trim_start().starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let end = text.get(at..)?.find(',').map_or(text.len(), |n| at + n);
    let written = text.get(at..end)?.trim_end();
    Some(
        Diagnostic::new(
            Code::NumberOutOfRange,
            within(at, at + written.len()),
            format!("`{}` is below zero", cut(written)),
        )
        .help(match rule {
            Rule::prescription_value => {
                "a load cannot be negative; write assistance as `bodyweight -15 kg`"
            }
            _ => "write a number above zero",
        }),
    )
}

/// `3x8x60`: sets, reps and load run together.
fn set_arithmetic(
    rule: Rule,
    text: &str,
    within: &dyn Fn(usize, usize) -> Span,
) -> Option<Diagnostic> {
    if rule != Rule::prescription_value {
        return None;
    }
    let word = text.split(',').next()?.trim();
    let parts: Vec<&str> = word.split(['x', '×']).map(str::trim).collect();
    let [sets, reps, load] = parts.as_slice() else { return None };
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    if !digits(sets) || !digits(reps) || !load.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let unit = if digits(load) { " kg" } else { "" };
    let start = text.find(word)?;
    let span = within(start, start + word.len());
    Some(
        Diagnostic::new(
            Code::BadPrescription,
            span,
            format!("cannot read `{}`: sets, reps and load run together", cut(word)),
        )
        .help(format!("write the load after `@`, with its unit: `{sets} x {reps} @ {load}{unit}`")),
    )
}

/// Forms that coaches use elsewhere, each with its form in this notation.
fn foreign_notation(
    rule: Rule,
    text: &str,
    within: &dyn Fn(usize, usize) -> Span,
) -> Option<Diagnostic> {
    if rule != Rule::prescription_value {
        return None;
    }
    let found = |start: usize, end: usize, message: &str, help: String| {
        Diagnostic::new(Code::BadPrescription, within(start, end), message.to_owned()).help(help)
    };
    let mut at = 0;
    for part in text.split(',') {
        let words: Vec<&str> = part.split_whitespace().collect();
        let start = at + (part.len() - part.trim_start().len());
        let end = start + part.trim().len();
        at += part.len() + 1;
        for (index, word) in words.iter().enumerate() {
            let before = index.checked_sub(1).and_then(|i| words.get(i)).copied().unwrap_or("");
            let after = words.get(index + 1).copied().unwrap_or("");
            let digits =
                |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit() || b == b'.');
            match *word {
                "RPE" | "RIR" if digits(before) && !digits(after) => {
                    return Some(found(
                        start,
                        end,
                        "the number comes after the scale",
                        format!("write `{word} {before}`"),
                    ));
                }
                "RPE" | "RIR" | "rest" if after.contains(['-', '–']) && !after.starts_with('-') =>
                {
                    let one = after.split(['-', '–']).next().unwrap_or(after);
                    return Some(found(
                        start,
                        end,
                        "only repetitions, time and distance can be a range",
                        format!("write one number, such as `{word} {one}`"),
                    ));
                }
                "tempo"
                    if after.len() == 4
                        && after.bytes().all(|b| b.is_ascii_digit() || b"xX".contains(&b)) =>
                {
                    let parts: Vec<String> =
                        after.to_uppercase().chars().map(String::from).collect();
                    return Some(found(
                        start,
                        end,
                        "the four parts of a tempo need hyphens between them",
                        format!("write `tempo {}`", parts.join("-")),
                    ));
                }
                "tempo" if after.contains('-') && after.contains('x') => {
                    return Some(found(
                        start,
                        end,
                        "the `X` for \"as fast as possible\" must be a capital",
                        format!("write `tempo {}`", after.replace('x', "X")),
                    ));
                }
                "of" if before.starts_with("set") && digits(after) => {
                    let sets = words.first().copied().unwrap_or("3");
                    return Some(found(
                        start,
                        end,
                        "sets and repetitions are written with an `x` between them",
                        format!("write `{sets} x {after}`"),
                    ));
                }
                "BW" | "bw" | "BW," => {
                    return Some(found(
                        start,
                        end,
                        "the body mass is written `bodyweight`",
                        "write `@ bodyweight` or `@ bodyweight +10 kg`".to_owned(),
                    ));
                }
                "as" | "max" | "maximum" | "failure"
                    if before == "x" || before == "×" || before == "to" =>
                {
                    return Some(found(
                        start,
                        end,
                        "an open set is written `AMRAP` or with a `+`",
                        "write `AMRAP`, as many repetitions as possible, or `8+`, at least 8"
                            .to_owned(),
                    ));
                }
                "per"
                    if after.starts_with("side")
                        || after.starts_with("leg")
                        || after.starts_with("arm") =>
                {
                    return Some(found(
                        start,
                        end,
                        "unilateral work is written `each side`",
                        "write `3 x 8 each side`".to_owned(),
                    ));
                }
                "es" | "e/s" | "ea" => {
                    return Some(found(
                        start,
                        end,
                        "unilateral work is written `each side`",
                        "write `3 x 8 each side`".to_owned(),
                    ));
                }
                _ if word.ends_with('%')
                    && word.contains(['-', '–'])
                    && word.starts_with(|c: char| c.is_ascii_digit()) =>
                {
                    return Some(found(
                        start,
                        end,
                        "a percentage cannot be a range",
                        "write one percentage, or a series over the weeks: `75% -> 77.5% -> 80%`"
                            .to_owned(),
                    ));
                }
                _ if word.ends_with("/side")
                    || word.ends_with("/leg")
                    || word.ends_with("/arm")
                    || (matches!(*word, "leg" | "arm") && before == "each") =>
                {
                    return Some(found(
                        start,
                        end,
                        "unilateral work is written `each side`",
                        "write `3 x 8 each side`".to_owned(),
                    ));
                }
                _ => {}
            }
        }
    }
    None
}

/// `@ 75`, `rest 90`: a number where a unit was expected.
fn missing_unit(
    rule: Rule,
    text: &str,
    offset: usize,
    within: &dyn Fn(usize, usize) -> Span,
) -> Option<Diagnostic> {
    let before = text.get(..offset)?.trim_end();
    let digits = before.bytes().rev().take_while(|b| b.is_ascii_digit() || *b == b'.').count();
    let start = before.len() - digits;
    let number = before.get(start..)?;
    let lead = before.get(..start)?.trim_end();
    if number.is_empty() || number.starts_with('.') {
        return None;
    }
    let rest = text.get(offset..)?.trim_start();
    let unit_follows = rest.is_empty() || rest.starts_with(',') || rest.starts_with("->");
    let in_prescription = rule == Rule::prescription_value;
    let (message, help) = if in_prescription && lead.ends_with('@') && unit_follows {
        (
            "this load has no unit",
            match number.parse::<f64>() {
                Ok(points) if points <= 10.0 => {
                    format!("write `RPE {number}`, `RIR {number}`, `{number}%` or `{number} kg`")
                }
                _ => format!("write `{number}%`, `{number} kg` or `{number} lb`"),
            },
        )
    } else if in_prescription
        && unit_follows
        && ["rest", "every", "rest-pause"].iter().any(|w| lead.ends_with(w))
    {
        ("this time has no unit", format!("write `{number} s` or `{number} min`"))
    } else if matches!(rule, Rule::mass_value | Rule::max_value | Rule::collars_value)
        && unit_follows
    {
        ("this mass has no unit", format!("write `{number} kg` or `{number} lb`"))
    } else if rule == Rule::percent_value && unit_follows {
        ("this percentage has no `%`", format!("write `{number}%`"))
    } else if rule == Rule::duration_value && unit_follows {
        ("this time has no unit", format!("write `{number} s` or `{number} min`"))
    } else {
        return None;
    };
    Some(
        Diagnostic::new(Code::MissingUnit, within(start, before.len()), message)
            .label("which unit?")
            .help(help),
    )
}
