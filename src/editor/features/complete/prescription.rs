//! Completions for sets, repetitions, loads and options, and for results in logs.

use super::asked::CompletionRequest;
use super::names;
use super::rank::{MOST, Offer, pick};
use super::values::phrases;
use super::{Completion, CompletionKind, loads};
use crate::quantity::Decimal;
use crate::syntax::phrases::{LOADS, OPTIONS, RESULTS, SETS, SHARES};

/// Completions in a prescription whose value starts at `from`.
pub fn offers(asked: &CompletionRequest<'_>, from: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let (start, end) = spot.slot(from);
    let segment = spot.typed(start);
    if let Some(found) = begun(asked, start, end) {
        return found;
    }
    // Options come after sets. The first item on a line may be either.
    let (sets, options) =
        (phrases(SETS, CompletionKind::Word), phrases(OPTIONS, CompletionKind::Option));
    let offers = if start == from { [sets, options] } else { [options, sets] }.concat();
    pick(offers, segment, spot.span(start, end))
}

/// Completions in a logged line whose value starts at `from`.
pub fn results(asked: &CompletionRequest<'_>, from: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let (start, end) = spot.slot(from);
    let segment = spot.typed(start);
    if let Some(found) = begun(asked, start, end) {
        return found;
    }
    pick(phrases(RESULTS, CompletionKind::Word), segment, spot.span(start, end))
}

/// The percentages that a typed number may become: the number itself if it has two digits or more,
/// and multiples of 2.5 % that start with it, from 40 % to just above the 1RM.
fn percentages(number: &str) -> Vec<String> {
    let steps = (16_i64..=42).map(|step| Decimal::new(step * 25, 1).to_string());
    let itself = (number.len() > 1 && !number.ends_with('.')).then(|| number.to_owned());
    let others = steps.filter(|step| step.starts_with(number) && *step != number);
    let mut all: Vec<String> = itself.into_iter().chain(others).collect();
    if all.is_empty() {
        all.push(number.trim_end_matches('.').to_owned());
    }
    all
}

/// Completions for an item that has been started: a load after `@`, a unit after a number.
fn begun(asked: &CompletionRequest<'_>, start: usize, end: usize) -> Option<Vec<Completion>> {
    let segment = asked.spot.typed(start);
    if let Some(at) = segment.rfind('@') {
        return Some(load(asked, start + at + 1, end));
    }
    segment.starts_with(|c: char| c.is_ascii_digit()).then(|| after_number(asked, segment, end))
}

/// Completions after a number that is not a load: its unit, then sides and load.
fn after_number(asked: &CompletionRequest<'_>, segment: &str, end: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let Some((before, typed)) = segment.rsplit_once(' ') else { return Vec::new() };
    if typed.starts_with(|c: char| c.is_ascii_digit()) {
        return Vec::new();
    }
    let word = |text: &str, kind, says: &str| Offer::new(kind, text).detail(says);
    let mut offers = vec![
        word("@", CompletionKind::Word, "the load").insert("@ "),
        word("x", CompletionKind::Word, "repetitions").insert("x "),
        word("s", CompletionKind::Unit, "seconds"),
        word("min", CompletionKind::Unit, "minutes"),
        word("m", CompletionKind::Unit, "metres"),
        word("each side", CompletionKind::Word, "each side by itself"),
    ];
    if before.contains(['x', '×']) {
        offers.retain(|offer| offer.label != "x");
    }
    offers.extend(phrases(OPTIONS, CompletionKind::Option));
    pick(offers, typed, spot.span(spot.offset - typed.len(), end))
}

/// Completions after an `@` that ends at `from`.
fn load(asked: &CompletionRequest<'_>, from: usize, end: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let all = spot.typed(from);
    let last = ["->", "→"].iter().filter_map(|arrow| Some(all.rfind(arrow)? + arrow.len())).max();
    let text = all.get(last.unwrap_or(0)..).unwrap_or("").trim_start();
    let replace = |typed: &str| spot.span(spot.offset - typed.len(), end);
    if let Some((_, typed)) = text.split_once(" of ") {
        let typed = typed.trim_start();
        let mut offers = phrases(SHARES, CompletionKind::Word);
        offers.extend(names::exercise_offers(asked));
        return names::best(asked, offers, typed, replace(typed), "");
    }
    let body = text.strip_prefix("bodyweight").map(str::trim_start);
    if let Some(added) = body.and_then(|rest| rest.strip_prefix('+')) {
        let typed = added.trim_start();
        let number = number_of(typed);
        let offers = loads::offers(asked, number, true);
        return offers.into_iter().map(|offer| offer.at(replace(typed))).collect();
    }
    let number = number_of(text);
    if number.is_empty() {
        let mut offers = phrases(LOADS, CompletionKind::Word);
        if text.is_empty() {
            // Nothing is typed yet: loads come after the other forms, lightest first.
            offers.extend(loads::offers(asked, "", false));
        }
        return pick(offers, text, replace(text));
    }
    let unit = text.get(number.len()..).unwrap_or("").trim_start();
    let mut offers: Vec<Offer> = Vec::new();
    if unit.chars().all(char::is_alphabetic) && !unit.starts_with('l') {
        offers.extend(loads::offers(asked, number, false));
    }
    // Loads that start with the text, then percentages that do, then the nearest loads.
    let near = offers.iter().position(|offer| !offer.label.starts_with(number));
    let mut forms: Vec<(String, &str)> = percentages(number)
        .into_iter()
        .map(|percent| (format!("{percent}%"), "of the training max"))
        .collect();
    let exact = forms.first().map_or_else(|| format!("{number}%"), |(form, _)| form.clone());
    forms.extend([
        (format!("{exact} of 1RM"), "of the maximum itself"),
        (format!("{number} kg"), "kilograms"),
        (format!("{number} lb"), "pounds"),
    ]);
    let known: Vec<String> = offers.iter().map(|offer| offer.label.clone()).collect();
    let forms = forms.into_iter().filter(|(form, _)| !known.contains(form));
    let forms = forms.filter(|(form, _)| {
        form.get(number.len()..).is_some_and(|tail| tail.trim_start().starts_with(unit))
    });
    let forms = forms.map(|(form, says)| Offer::new(CompletionKind::Unit, form).detail(says));
    let forms: Vec<Offer> = forms.collect();
    let near = near.unwrap_or(offers.len());
    offers.splice(near..near, forms);
    offers.into_iter().take(MOST).map(|offer| offer.at(replace(text))).collect()
}

/// The number that a text starts with.
fn number_of(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    text.get(..end).unwrap_or("")
}
