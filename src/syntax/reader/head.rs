//! Lines that open a block.

use jiff::civil::Weekday;
use pest::Parser;

use super::LineReader;
use crate::diagnostics::{Code, Diagnostic, nearest};
use crate::source::Span;
use crate::syntax::ast::{Head, Item};
use crate::syntax::build::{Build, P};
use crate::syntax::grammar::{LineParser, Rule};
use crate::syntax::keys::{BLOCK_WORDS, BlockPlace};
use crate::syntax::lines::SourceLine;
use crate::syntax::{NOTATION, recovery};

impl LineReader<'_> {
    /// Reads a line at the margin, and returns what may follow below it. An unknown block is read as
    /// the block with the most similar word, so that its lines are still checked.
    pub(super) fn head(&mut self, line: &SourceLine) -> (Item, BlockPlace) {
        let text = self.content(line);
        match LineParser::parse(Rule::head, text) {
            Ok(mut pairs) => {
                let build = &mut Build::new(self.file, line.start, self.problems);
                let head =
                    pairs.next().and_then(|p| p.into_inner().next()).and_then(|p| head(build, p));
                match head {
                    Some(head) => {
                        let place = place_of(&head);
                        (Item::Head(head), place)
                    }
                    None => (Item::Wrong, BlockPlace::Nothing),
                }
            }
            Err(error) => {
                let word = text.split([' ', ':']).next().unwrap_or("");
                let at = self.span(line);
                let (found, place) = wrong_head(word, text, at, &error);
                let meant = found
                    .fixes
                    .first()
                    .and_then(|fix| fix.edits.first())
                    .map(|edit| edit.text.clone());
                self.problems.push(found);
                // Open the block that was probably meant, so that the lines below and after it are read
                // in the right place.
                let opened = meant.and_then(|meant| self.as_meant(line, word, &meant));
                (opened.unwrap_or(Item::Wrong), place)
            }
        }
    }
}

impl LineReader<'_> {
    /// Reads the heading with its first word corrected.
    fn as_meant(&mut self, line: &SourceLine, word: &str, meant: &str) -> Option<Item> {
        let fixed = self.content(line).replacen(word, meant, 1);
        let pair = LineParser::parse(Rule::head, &fixed).ok()?.next()?.into_inner().next()?;
        let build = Build::new(self.file, line.start, self.problems);
        head(&mut build.fixed(word, meant), pair).map(Item::Head)
    }
}

fn wrong_head(
    word: &str,
    text: &str,
    at: Span,
    error: &pest::error::Error<Rule>,
) -> (Diagnostic, BlockPlace) {
    let start = at.start as usize;
    let word_span = Span::new(at.file, start, start + word.len());
    if !BLOCK_WORDS.contains(&word) {
        let near = nearest(word, BLOCK_WORDS.iter().copied());
        let mut found = Diagnostic::new(
            Code::UnknownBlock,
            word_span,
            format!("`{}` does not start a block", crate::syntax::build::cut(word)),
        )
        .did_you_mean(word, BLOCK_WORDS.iter().copied());
        if near.is_none() {
            found = found.help(
                "a line without indentation starts a block (`gym`, `athlete`, `programme`, `phase`, \
                 `scheme`, `day`, `exercise`, `log`) or includes a file (`use`); indent the line if \
                 it belongs to the block above it",
            );
        }
        return (found, near.map_or(BlockPlace::Nothing, place_of_word));
    }
    let place = place_of_word(word);
    if word == "notation" {
        return (wrong_notation(text, at, error), place);
    }
    if text.trim() == word || text.trim() == format!("{word}:") {
        let example = match word {
            "use" => "use library.sets",
            "gym" => "gym Boathouse",
            "athlete" => "athlete Wren Tallow",
            "programme" => "programme Winter strength",
            "phase" => "phase Base: weeks 1-3",
            "scheme" => "scheme Small jumps",
            "day" => "day Lower 1 (Mon)",
            "log" => "log Wren Tallow: Winter strength",
            _ => "exercise Split squat",
        };
        let found =
            Diagnostic::new(Code::MissingName, word_span, format!("this `{word}` has no name"))
                .help(format!("write it after the word: `{example}`"));
        return (found, place);
    }
    let found = match word {
        "phase" | "log" if !text.contains(": ") => Diagnostic::new(
            Code::MissingColon,
            at,
            format!("this `{word}` has no colon after its name"),
        )
        .help(match word {
            "phase" => "write `phase Base: weeks 1-3, load -10%`",
            _ => "write `log ATHLETE: PROGRAMME`",
        }),
        "phase" => {
            let found = recovery::explain(Rule::phase_head, text, at, error);
            // A known typo has its own help.
            if found.fixes.is_empty() {
                found.help("write `phase Deload: week 4, sets -40%, load -10%`")
            } else {
                found
            }
        }
        _ => recovery::explain(Rule::head, text, at, error),
    };
    (found, place)
}

/// The diagnostic for a `notation` line that cannot be read.
fn wrong_notation(text: &str, at: Span, error: &pest::error::Error<Rule>) -> Diagnostic {
    let written = format!("`notation: {NOTATION}`");
    let value = text.strip_prefix("notation").unwrap_or("").trim();
    if value.is_empty() || value == ":" {
        return Diagnostic::new(Code::MissingValue, at, "this `notation` has no number")
            .help(format!("write {written}"));
    }
    if !value.starts_with(':') && value.bytes().all(|b| b.is_ascii_digit()) {
        return Diagnostic::new(Code::MissingColon, at, "this `notation` has no colon")
            .help(format!("write {written}"))
            .fix(at, format!("notation: {value}"));
    }
    recovery::explain(Rule::head, text, at, error)
        .help(format!("the version of the notation is a whole number: {written}"))
}

fn place_of_word(word: &str) -> BlockPlace {
    match word {
        "exercise" => BlockPlace::Exercise,
        "gym" => BlockPlace::Gym,
        "athlete" => BlockPlace::Athlete,
        "programme" => BlockPlace::Programme,
        "phase" => BlockPlace::Phase,
        "scheme" => BlockPlace::Scheme,
        "day" => BlockPlace::Day,
        "log" => BlockPlace::Log,
        _ => BlockPlace::Nothing,
    }
}

/// What kind of lines a block contains.
pub fn place_of(head: &Head) -> BlockPlace {
    match head {
        Head::Notation(_) | Head::Use(_) => BlockPlace::Nothing,
        Head::Exercise(_) => BlockPlace::Exercise,
        Head::Gym(_) => BlockPlace::Gym,
        Head::Athlete(_) => BlockPlace::Athlete,
        Head::Programme(_) => BlockPlace::Programme,
        Head::Scheme(_) => BlockPlace::Scheme,
        Head::Phase { .. } => BlockPlace::Phase,
        Head::Day { .. } => BlockPlace::Day,
        Head::Log { .. } => BlockPlace::Log,
    }
}

fn head(build: &mut Build<'_>, pair: P<'_>) -> Option<Head> {
    let rule = pair.as_rule();
    let mut parts = pair.into_inner();
    let first = parts.next()?;
    Some(match rule {
        Rule::notation_head => {
            // A newer version is not out of range: the reader reports it.
            let version = build.whole(&first, 1, u32::MAX, "notations");
            Head::Notation(build.spanned(&first, version))
        }
        Rule::use_head => Head::Use(build.name(&first)),
        Rule::named_head => {
            let name = build.name(&parts.next()?);
            quoted(build, &name);
            match first.as_str() {
                "exercise" => Head::Exercise(name),
                "gym" => Head::Gym(name),
                "athlete" => Head::Athlete(name),
                "programme" => Head::Programme(name),
                _ => Head::Scheme(name),
            }
        }
        Rule::day_head => {
            let name = build.name(&first);
            let weekday = parts.next().and_then(|day| weekday(day.as_str()));
            Head::Day { name, weekday }
        }
        Rule::log_head => {
            Head::Log { athlete: build.name(&first), programme: build.name(&parts.next()?) }
        }
        _ => phase(build, &first, parts.next()?)?,
    })
}

/// Reports quotes around a name, which would become part of it.
fn quoted(build: &mut Build<'_>, name: &crate::syntax::ast::Name) {
    build.problems.extend(super::entry::quotes(&name.value, name.span));
}

fn phase(build: &mut Build<'_>, name: &P<'_>, value: P<'_>) -> Option<Head> {
    let (mut weeks, mut sets, mut load) = (None, None, None);
    for part in value.into_inner() {
        if part.as_rule() == Rule::week_span {
            weeks = build.week_span(part);
            continue;
        }
        let Some(change) = build.first(part) else { continue };
        let slot = if change.as_rule() == Rule::phase_sets { &mut sets } else { &mut load };
        let span = build.span(&change);
        let Some(percent) = build.first(change) else { continue };
        let value = build.signed_percent(percent);
        if value.digits() <= -100 * 10_i64.pow(value.places()) {
            build.problems.push(
                Diagnostic::new(
                    Code::NumberOutOfRange,
                    span,
                    "this leaves nothing of the sets or the load",
                )
                .help("a phase can take away less than 100 %"),
            );
        }
        if slot.replace(crate::source::Spanned::new(value, span)).is_some() {
            build.problems.push(Diagnostic::new(
                Code::RepeatedKey,
                span,
                "this change is written twice",
            ));
        }
    }
    Some(Head::Phase { name: build.name(name), weeks: weeks?, sets, load })
}

fn weekday(text: &str) -> Option<Weekday> {
    let short: String = text.to_ascii_lowercase().chars().take(3).collect();
    Some(match short.as_str() {
        "mon" => Weekday::Monday,
        "tue" => Weekday::Tuesday,
        "wed" => Weekday::Wednesday,
        "thu" => Weekday::Thursday,
        "fri" => Weekday::Friday,
        "sat" => Weekday::Saturday,
        "sun" => Weekday::Sunday,
        _ => return None,
    })
}
