//! Completions after the colon of a key.

use super::asked::CompletionRequest;
use super::names;
use super::rank::{Offer, pick};
use super::{Completion, CompletionKind, heads, prescription};
use crate::catalogue::LANGUAGES;
use crate::diagnostics::Code;
use crate::editor::features::place::order;
use crate::strength::Equation;
use crate::syntax::keys::{BlockPlace, Key};
use crate::syntax::phrases::{ACTIONS, GROUPS, MAXES, Phrase, RAMPS};

/// Turns whole phrases into offers.
pub fn phrases(phrases: &[Phrase], kind: CompletionKind) -> Vec<Offer> {
    phrases.iter().map(|(phrase, says)| Offer::new(kind, *phrase).detail(*says)).collect()
}

fn words(words: &[Phrase]) -> Vec<Offer> {
    phrases(words, CompletionKind::Word)
}

/// Completions in the value of a line, which starts at `from`.
pub fn offers(asked: &CompletionRequest<'_>, place: BlockPlace, from: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let Some(key) = spot.key() else { return Vec::new() };
    let first = key.split(' ').next().unwrap_or(key);
    let in_lines = matches!(place, BlockPlace::Line | BlockPlace::Scheme);
    let (start, end) = spot.slot(from);
    let (typed, replace) = (spot.typed(start), spot.span(start, end));
    if in_lines && matches!(first, "when" | "otherwise") {
        return pick(phrases(ACTIONS, CompletionKind::Action), typed, replace);
    }
    if in_lines && matches!(first, "week" | "weeks" | "for") {
        return prescription::offers(asked, from);
    }
    match place {
        BlockPlace::Session if order(key).is_some() => return prescription::results(asked, from),
        BlockPlace::Day if key.len() == 1 && order(key).is_some() => {
            return pick(words(GROUPS), typed, replace);
        }
        BlockPlace::Day if order(key).is_some() => return prescription::offers(asked, from),
        _ => {}
    }
    let property = place.properties().find(|property| {
        let word = property.key.word();
        key == word || property.named && key.strip_prefix(word).is_some_and(|k| k.starts_with(' '))
    });
    let Some(property) = property else { return Vec::new() };
    match (place, property.key) {
        (BlockPlace::Exercise, Key::Like | Key::Swap) | (_, Key::Replace) => {
            return names::exercises(asked, typed, replace, "");
        }
        (_, Key::Avoid) => {
            let offers = [names::patterns(), names::muscles(), names::exercise_offers(asked)];
            return names::best(asked, offers.concat(), typed, replace, "");
        }
        (_, Key::Follow) => {
            // If a scheme is already named, the numbers after it belong to the coach.
            let after = spot.text.get(spot.offset..spot.end).unwrap_or("");
            let end = spot.offset
                + after
                    .find(',')
                    .map_or(after.len(), |at| after.get(..at).unwrap_or("").trim_end().len());
            let typed = spot.typed(from);
            let mut offers = names::schemes(asked);
            if typed.contains(',') {
                offers.retain(|offer| offer.label.contains(','));
            }
            if after.contains(',') {
                for offer in &mut offers {
                    offer.insert = None;
                }
            }
            return pick(offers, typed, spot.span(from, end.max(spot.offset)));
        }
        (_, Key::Max) => return max(asked, from),
        (_, Key::Advice) => return advice(asked, from),
        _ => {}
    }
    let fixed = fixed(asked, place, property.key);
    if fixed.is_empty() {
        unit(asked, property.key, typed, end)
    } else {
        pick(fixed, typed, replace)
    }
}

/// The fixed values of a key; empty if it has none.
fn fixed(asked: &CompletionRequest<'_>, place: BlockPlace, key: Key) -> Vec<Offer> {
    match (place, key) {
        (BlockPlace::Exercise, Key::Equipment) | (BlockPlace::Gym, Key::Has | Key::Lacks) => {
            names::equipment(asked)
        }
        (BlockPlace::Exercise, Key::Bar) => {
            let bars = asked.analysis.gyms.iter().flat_map(|gym| &gym.bars);
            let mut bars: Vec<&str> = bars.filter_map(|bar| bar.name.as_deref()).collect();
            bars.sort_unstable();
            bars.dedup();
            bars.into_iter().map(|name| Offer::new(CompletionKind::Equipment, name)).collect()
        }
        (BlockPlace::Exercise, Key::Sides) => {
            words(&[("each", "each side by itself"), ("both", "both at once")])
        }
        (BlockPlace::Exercise, Key::CountedIn) => words(&[
            ("reps", "repetitions"),
            ("seconds", "a hold, done for time"),
            ("metres", "a carry, done for a distance"),
        ]),
        (BlockPlace::Exercise, Key::Kind) => {
            words(&[("compound", "several joints; gets a ramp"), ("isolation", "one joint")])
        }
        (BlockPlace::Exercise, Key::Pattern) => names::patterns(),
        (BlockPlace::Exercise, Key::Muscles) => names::muscles(),
        (_, Key::Rounding) => words(&[
            ("nearest", "to the nearest load; ties to the lighter"),
            ("down", "never above the target"),
        ]),
        (_, Key::MissedSession) => {
            words(&[("move on", "the plan goes on"), ("repeat", "it is done again")])
        }
        (_, Key::Unit) => heads::mass_units(),
        (_, Key::Gym) => names::gyms(asked),
        (_, Key::Athletes) => names::athletes(asked),
        (_, Key::Estimate) => {
            let names = Equation::ALL.iter().map(|equation| equation.name());
            names.map(|name| Offer::new(CompletionKind::Word, name)).collect()
        }
        (_, Key::Language) => {
            let tags = LANGUAGES.iter();
            tags.map(|(tag, name, _)| Offer::new(CompletionKind::Language, *tag).detail(*name))
                .collect()
        }
        (_, Key::WarmUp) => words(RAMPS),
        _ => Vec::new(),
    }
}

/// Completions for a unit after a number.
fn unit(asked: &CompletionRequest<'_>, key: Key, typed: &str, end: usize) -> Vec<Completion> {
    let units: &[(&str, &str)] = match key {
        Key::BodyMass
        | Key::Bar
        | Key::Plates
        | Key::Collars
        | Key::Dumbbells
        | Key::Kettlebells
        | Key::Stack
        | Key::Bands => &[("kg", "kilograms"), ("lb", "pounds")],
        Key::Time => &[("min", "minutes"), ("s", "seconds")],
        Key::TrainingMax => &[("%", "of the 1RM")],
        Key::Plate => &[("mm", "millimetres")],
        _ => return Vec::new(),
    };
    let number = typed.trim_end_matches(|c: char| c.is_alphabetic() || c == '%');
    if !number.trim_end().ends_with(|c: char| c.is_ascii_digit()) {
        return Vec::new();
    }
    let spot = &asked.spot;
    let unit = typed.get(number.len()..).unwrap_or("");
    let gap = if number.ends_with(' ') { "" } else { " " };
    let offers = units.iter().map(|(unit, says)| {
        let insert = if *unit == "%" { "%".to_owned() } else { format!("{gap}{unit}") };
        Offer::new(CompletionKind::Unit, *unit).detail(*says).insert(insert)
    });
    pick(offers.collect(), unit, spot.span(spot.offset - unit.len(), end))
}

/// Completions for a max: its forms, and the lifts it may be a percentage of.
fn max(asked: &CompletionRequest<'_>, from: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let text = spot.typed(from);
    if let Some((_, typed)) = text.split_once("% of ") {
        let replace = spot.span(spot.offset - typed.len(), spot.end);
        return names::exercises(asked, typed, replace, "");
    }
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        let (_, typed) = text.rsplit_once(' ').unwrap_or(("", ""));
        if typed.starts_with(|c: char| c.is_ascii_digit()) || !text.contains(' ') {
            return Vec::new();
        }
        let forms = [
            ("kg", "kilograms"),
            ("lb", "pounds"),
            ("@", "the load of a set of so many"),
            ("(tested 2026-01-05)", "when it was tested"),
        ];
        let offers = phrases(&forms, CompletionKind::Unit);
        return pick(offers, typed, spot.span(spot.offset - typed.len(), spot.end));
    }
    pick(words(MAXES), text, spot.span(from, spot.end))
}

/// Completions for an `advice` line.
fn advice(asked: &CompletionRequest<'_>, from: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let text = spot.typed(from);
    let codes = || {
        let codes = Code::ADVICE.iter().map(|code| code.name());
        codes.map(|name| Offer::new(CompletionKind::Advice, name))
    };
    if let Some((_, on)) = text.split_once(" on ") {
        let typed = on.rsplit(',').next().unwrap_or(on).trim_start();
        let replace = spot.span(spot.offset - typed.len(), spot.offset);
        let offers =
            [names::days(asked, asked.programme()), names::athletes(asked), names::muscles()];
        return pick(offers.concat(), typed, replace);
    }
    if let Some(typed) = text.strip_prefix("allow ") {
        return pick(codes().collect(), typed, spot.span(spot.offset - typed.len(), spot.end));
    }
    if let Some((_, typed)) =
        text.split_once(' ').filter(|(code, _)| Code::from_name(code).is_some())
    {
        let forms = [("as info", "worth knowing"), ("as warning", "look before you print")];
        return pick(words(&forms), typed, spot.span(spot.offset - typed.len(), spot.end));
    }
    let mut offers = vec![
        Offer::new(CompletionKind::Word, "allow").detail("it is meant so").insert("allow "),
        Offer::new(CompletionKind::Word, "none").detail("no advice at all"),
    ];
    offers.extend(codes().map(|offer| offer.detail("its bound or its level")));
    pick(offers, text, spot.span(from, spot.end))
}
