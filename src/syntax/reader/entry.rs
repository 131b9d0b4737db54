//! Lines inside a block: `key: value`.

use pest::Parser;

use super::LineReader;
use crate::diagnostics::{Code, Diagnostic, nearest};
use crate::plan::Order;
use crate::source::{Span, Spanned};
use crate::syntax::ast::{Item, LineKey, Value};
use crate::syntax::build::{Build, P, cut};
use crate::syntax::grammar::{LineParser, Rule};
use crate::syntax::keys::{BlockPlace, Key, LINE_WORDS};
use crate::syntax::lines::SourceLine;
use crate::syntax::values;

impl LineReader<'_> {
    /// Reads a line inside a block, and returns what may follow below it.
    pub(super) fn entry(&mut self, place: BlockPlace, line: &SourceLine) -> (Item, BlockPlace) {
        if place == BlockPlace::Log {
            return (self.log_session(line), BlockPlace::Session);
        }
        let text = self.content(line);
        // If a line cannot be read, the lines below it most likely belong to an exercise.
        let fallback = match place {
            BlockPlace::Day | BlockPlace::Line | BlockPlace::Scheme => BlockPlace::Line,
            _ => BlockPlace::Nothing,
        };
        let Ok(mut pairs) = LineParser::parse(Rule::entry, text) else {
            let found = no_colon(place, text, self.span(line));
            self.problems.push(found);
            return (Item::Wrong, fallback);
        };
        let mut parts = pairs.next().map(P::into_inner).into_iter().flatten();
        let (Some(key), Some(value)) = (parts.next(), parts.next()) else {
            return (Item::Wrong, fallback);
        };
        let key_text = key.as_str().trim_end();
        let key_span = Span::new(self.file, line.start, line.start + key_text.len());
        let value_at = line.start + value.as_span().start();
        let value_text = value.as_str().trim_end();
        let Some(key) = self.key(place, key_text, key_span) else {
            return (Item::Wrong, fallback);
        };
        let below = place_under(place, &key);
        let value_span = Span::new(self.file, value_at, value_at + value_text.len());
        let value = self.value(place, &key, value_text, value_span);
        // If only the prescription cannot be read, the line is still an exercise.
        let keeps_key = place == BlockPlace::Day && matches!(key, LineKey::Order(..));
        let Some(value) = value.or_else(|| keeps_key.then_some(Value::Unread)) else {
            return (Item::Wrong, below);
        };
        let key = Spanned::new(key, key_span);
        (Item::Entry { key, value: Spanned::new(value, value_span) }, below)
    }

    fn key(&mut self, place: BlockPlace, text: &str, at: Span) -> Option<LineKey> {
        let rule = place.key_rule()?;
        let Ok(mut pairs) = LineParser::parse(rule, text) else {
            // A line indented with a tab may have the wrong level: only report the tab.
            if !self.tabbed(at) {
                let found = unknown_key(place, text, at);
                self.problems.push(found);
            }
            return None;
        };
        let base = at.start as usize;
        let mut parts = pairs.next()?.into_inner();
        let first = parts.next()?;
        let build = &mut Build::new(self.file, base, self.problems);
        Some(match first.as_rule() {
            Rule::week_span => LineKey::Weeks(build.week_span(first)?),
            Rule::for_key => LineKey::For(build.name(&build.first(first)?)),
            Rule::when_key => {
                let name = build.name(&build.first(first)?);
                let start = name.span.start as usize;
                let found = values::conditions(&name.value, self.file, start, self.problems)?;
                LineKey::When(found)
            }
            Rule::parameter => LineKey::Parameter(build.name(&first)),
            Rule::order_head => {
                let mut inner = first.into_inner();
                let order = order(build, &inner.next()?);
                LineKey::Order(order, build.name(&inner.next()?))
            }
            Rule::group_letter | Rule::order => LineKey::Letter(order(build, &first)),
            _ if first.as_str() == "otherwise" => LineKey::Otherwise,
            _ => {
                let word = first.as_str();
                let key = Key::ALL.iter().copied().find(|key| key.word() == word)?;
                match parts.next().filter(|part| part.as_rule() == Rule::name) {
                    Some(name) => LineKey::Named(key, build.name(&name)),
                    None => LineKey::Key(key),
                }
            }
        })
    }

    /// Whether the line at a span is indented with a tab.
    fn tabbed(&self, at: Span) -> bool {
        let before = self.text.get(..at.start as usize).unwrap_or("");
        let margin = before.rsplit('\n').next().unwrap_or("");
        margin.contains('\t')
    }

    fn value(&mut self, place: BlockPlace, key: &LineKey, text: &str, at: Span) -> Option<Value> {
        let base = at.start as usize;
        let rule = match key {
            LineKey::Key(key) | LineKey::Named(key, _) => place.property(*key)?.value,
            LineKey::Parameter(_) => Some(Rule::amount_value),
            LineKey::Order(..) | LineKey::Letter(_) if place == BlockPlace::Session => {
                Some(Rule::result_value)
            }
            LineKey::Order(..) | LineKey::Weeks(_) | LineKey::For(_) => {
                Some(Rule::prescription_value)
            }
            LineKey::Letter(_) => Some(Rule::group_value),
            LineKey::When(_) | LineKey::Otherwise => Some(Rule::actions_value),
        };
        if text.is_empty() {
            // An exercise may get everything from its scheme or from the lines below it.
            let may_be_empty =
                matches!(key, LineKey::Order(..) | LineKey::Weeks(_) | LineKey::For(_))
                    && place != BlockPlace::Session;
            if may_be_empty {
                return Some(Value::Empty);
            }
            let span = Span::new(self.file, base.saturating_sub(1), base);
            self.problems.push(
                Diagnostic::new(Code::MissingValue, span, "there is no value after the colon")
                    .help("write the value, or delete the line"),
            );
            return None;
        }
        match rule {
            Some(rule) if rule != Rule::name => {
                values::read(rule, text, self.file, base, self.problems)
            }
            rule => {
                self.problems.extend(quotes(text, at));
                let name = || Spanned::new(text.to_owned(), at);
                Some(match rule {
                    Some(_) => Value::Remarked(name(), None),
                    None => Value::Text(text.to_owned()),
                })
            }
        }
    }

    fn log_session(&mut self, line: &SourceLine) -> Item {
        let text = self.content(line);
        let pair = values::parse(Rule::log_session, text, self.file, line.start, self.problems);
        let build = &mut Build::new(self.file, line.start, self.problems);
        let mut parts = pair.map(P::into_inner).into_iter().flatten();
        let (Some(date), Some(what)) = (parts.next(), parts.next()) else { return Item::Wrong };
        let day = build.date(&date);
        let date = build.spanned(&date, day);
        let (mut planned, mut extra, mut skipped) = (None, None, None);
        let is_extra = what.as_rule() == Rule::log_extra;
        let mut week = Spanned::new(1, date.span);
        for part in what.into_inner() {
            match part.as_rule() {
                Rule::whole => {
                    let n = build.whole(&part, 1, crate::bounds::WEEKS, "weeks");
                    week = build.spanned(&part, n);
                }
                Rule::log_day => planned = Some((week.clone(), build.name(&part))),
                Rule::skipped => {
                    let reason = build.first(part).and_then(|r| build.first(r));
                    skipped = Some(reason.map(|text| text.as_str().trim().to_owned()));
                }
                Rule::name => extra = Some(part.as_str().trim().to_owned()),
                _ => {}
            }
        }
        if is_extra && extra.is_none() {
            extra = Some(String::new());
        }
        Item::LogSession { date, planned, extra, skipped }
    }
}

/// What may follow below a line.
pub fn place_under(place: BlockPlace, key: &LineKey) -> BlockPlace {
    match key {
        LineKey::Order(..) if place == BlockPlace::Day => BlockPlace::Line,
        LineKey::Weeks(_) | LineKey::For(_) => BlockPlace::Line,
        LineKey::Key(Key::Cue) => BlockPlace::Cue,
        _ => BlockPlace::Nothing,
    }
}

fn order(build: &mut Build<'_>, pair: &P<'_>) -> Spanned<Order> {
    let text = pair.as_str();
    let mut signs = text.chars();
    let letter = signs.next().unwrap_or('A');
    let number = signs.as_str();
    let number = match number.parse::<u32>() {
        _ if number.is_empty() => None,
        Ok(n @ 1..=99) => Some(n),
        _ => {
            let span = build.span(pair);
            build.problems.push(
                Diagnostic::new(
                    Code::NumberOutOfRange,
                    span,
                    format!("`{text}` is not a valid order letter"),
                )
                .help("members of a group are numbered from 1 to 99: `A1`, `A2`"),
            );
            Some(1)
        }
    };
    build.spanned(pair, Order { letter, number })
}

/// The diagnostic for quotes around a whole text.
pub fn quotes(text: &str, at: Span) -> Option<Diagnostic> {
    const QUOTES: [char; 8] = ['"', '\'', '“', '”', '‘', '’', '«', '„'];
    let inner = text.strip_prefix(QUOTES)?.strip_suffix(['"', '\'', '“', '”', '’', '»'])?;
    Some(
        Diagnostic::new(Code::QuotedText, at, "the quotes would be printed as part of the text")
            .help("names and texts need no quotes: they end at the colon or at the end of the line")
            .fix(at, inner),
    )
}

fn no_colon(place: BlockPlace, text: &str, at: Span) -> Diagnostic {
    let found = Diagnostic::new(Code::MissingColon, at, "this line has no `key: value`");
    match key_colon(text) {
        Some(colon) => {
            let after =
                Span::new(at.file, at.start as usize + colon, at.start as usize + colon + 1);
            found.help("write a space after the colon").fix(after, ": ")
        }
        None => found.help(match place {
            BlockPlace::Session if text.starts_with("skipped") => {
                "write a skipped session in one line: \
                 `2026-01-07 week 1, Lower 1: skipped (why)`"
            }
            BlockPlace::Session => {
                "write the letter, a colon and what was done: `A: 8, 8, 7 @ 60 kg`"
            }
            BlockPlace::Day => {
                "write the letter, the exercise, a colon and the sets: `A Back squat: 3 x 5 @ 75%`"
            }
            BlockPlace::Line if text.starts_with("if ") || text.starts_with("when ") => {
                "write a rule as `when any rep missed: load -7.5%`"
            }
            BlockPlace::Line => "write the key, a colon and the value: `cue: Chest up.`",
            BlockPlace::Gym => "write the key, a colon and the value: `bar: 20 kg`",
            BlockPlace::Athlete => "write the key, a colon and the value: `body mass: 68 kg`",
            BlockPlace::Scheme => {
                "write a rule as `when any rep missed: load -7.5%`, a parameter as `jump: 2.5 kg`"
            }
            _ => "write the key, a colon, a space and the value: `weeks: 8`",
        }),
    }
}

/// The colon that ends a key and has no space after it. The colon of a time such as `3:00` does not
/// count.
fn key_colon(text: &str) -> Option<usize> {
    let is_clock = |at: usize| {
        let (before, after) = (text.get(..at).unwrap_or(""), text.get(at + 1..).unwrap_or(""));
        let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
        let led = before.bytes().rev().take_while(u8::is_ascii_digit).count();
        let lead = before.get(..before.len() - led).unwrap_or("");
        // `B2:10 x 5` and `week 4:10 x 5` have a colon that ends a key.
        let of_key = lead.ends_with(char::is_alphabetic) || lead.trim_end() == "week";
        led > 0 && digits(after) == 2 && !of_key
    };
    text.match_indices(':').map(|(at, _)| at).find(|at| !is_clock(*at))
}

fn unknown_key(place: BlockPlace, text: &str, at: Span) -> Diagnostic {
    let words: Vec<&str> = place.properties().map(|p| p.key.word()).collect();
    if place == BlockPlace::Session
        && let Some(help) = noted(text)
    {
        let message = format!("a logged session has no key `{}`", cut(text));
        return Diagnostic::new(Code::UnknownKey, at, message).help(help);
    }
    if (place == BlockPlace::Day || place == BlockPlace::Session)
        && let Some(found) = wrong_order(text, at, &words)
    {
        return found;
    }
    if place == BlockPlace::Line && LineParser::parse(Rule::day_key, text).is_ok() {
        return Diagnostic::new(
            Code::StrayIndent,
            at,
            format!("`{}` is indented as if it belonged to the exercise above it", cut(text)),
        )
        .help("start each exercise of the day in the same column");
    }
    if place == BlockPlace::Gym && matches!(text.split(' ').next(), Some("machine" | "machines")) {
        let message = format!("a gym has no key `{}`", cut(text));
        return Diagnostic::new(Code::UnknownKey, at, message).help(
            "list machines in `has`, such as `has: leg press, leg curl`; write `stack` for a machine \
             whose pins the cards show",
        );
    }
    let named = place.properties().find(|p| p.named && p.key.word() == text);
    if named.is_some() {
        return Diagnostic::new(Code::MissingName, at, format!("`{text}` needs a name after it"))
            .help(format!("write `{text} NAME: …`, such as `{text} Back squat: …`"));
    }
    let mut known = words;
    if place == BlockPlace::Line || place == BlockPlace::Scheme {
        known.extend(LINE_WORDS);
    }
    let first = text.split(' ').next().unwrap_or("");
    if place == BlockPlace::Line && matches!(first, "week" | "weeks") {
        return Diagnostic::new(
            Code::UnknownKey,
            at,
            format!("`{}` has no week numbers", cut(text)),
        )
        .help("write `week 4:` or `weeks 5-7:`");
    }
    // `max` of `maxx Back squat`: a named key is compared by its first word.
    let probe = if nearest(text, known.iter().copied()).is_some() { text } else { first };
    let span = Span::new(at.file, at.start as usize, at.start as usize + probe.len());
    Diagnostic::new(
        Code::UnknownKey,
        span,
        format!("{} has no key `{}`", place.words(), cut(probe)),
    )
    .did_you_mean(probe, known.iter().copied())
}

/// The help for a word that is no key of a log: where the log keeps this information.
fn noted(text: &str) -> Option<&'static str> {
    match text.to_lowercase().as_str() {
        "pain" => Some(
            "write pain (0 to 10) after an exercise's sets: `A: 8, 8, 8, pain 4`; or write `note: …`",
        ),
        "rpe" | "session rpe" | "effort" => Some(
            "write effort after an exercise: `A: done, RPE 8`; for the whole session write `note: session RPE 8`",
        ),
        "sleep" | "notes" | "comment" => Some("write it as a note: `note: slept 6 h`"),
        "weight" | "bodyweight" | "body weight" | "mass" => Some("write `body mass: 68 kg`"),
        "1rm" | "test" | "retest" | "re-test" => {
            Some("write a tested maximum with its exercise: `max Back squat: 105 kg (2026-01-12)`")
        }
        _ => None,
    }
}

/// The diagnostic for a line of a day or a log that looks like an exercise but has no order letter.
fn wrong_order(text: &str, at: Span, words: &[&str]) -> Option<Diagnostic> {
    if nearest(text, words.iter().copied()).is_some() {
        return None;
    }
    let lower = text.chars().next().is_some_and(|c| c.is_ascii_lowercase())
        && text.chars().skip(1).take_while(|c| *c != ' ').all(|c| c.is_ascii_digit());
    let found = |message: String| Diagnostic::new(Code::MissingOrderLetter, at, message);
    // `A. Back squat`, `A) Back squat`.
    let (first, rest) = text.split_once(' ').unwrap_or((text, ""));
    let letter = first.trim_end_matches(['.', ')']);
    if letter != first && LineParser::parse(Rule::day_key, letter).is_ok() {
        let fixed = format!("{letter} {rest}");
        return Some(
            found(format!(
                "the order letter of `{}` has a full stop or a bracket after it",
                cut(rest)
            ))
            .help(format!("write `{}: …`", cut(&fixed)))
            .fix(at, fixed),
        );
    }
    if lower {
        let mut fixed = text.to_owned();
        if let Some(first) = fixed.get_mut(0..1) {
            first.make_ascii_uppercase();
        }
        return Some(
            found(format!("the order letter of `{}` is in lower case", cut(text)))
                .help("order letters are capitals")
                .fix(at, fixed),
        );
    }
    Some(found(format!("`{}` has no order letter", cut(text))).help(format!(
        "start the line with a letter: `A {}: …`; exercises that share a letter (`A1`, `A2`) \
         are done together",
        cut(text)
    )))
}
