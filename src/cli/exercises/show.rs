//! Everything about one exercise.

use crate::catalogue::{Catalogue, Exercise, LoadNeed, LoadingMethod, Nearness};
use crate::sheets::WrappedText;

use super::able::Able;
use super::list::{WIDTH, row};

/// Width of the column of keys.
const KEY: usize = 16;

/// Everything an exercise says, its swaps and which of them can be done; then what else goes with
/// the words.
pub fn one(
    index: usize,
    found: &[usize],
    catalogue: &Catalogue<'_>,
    able: Option<&Able<'_>>,
) -> String {
    let mut out = WrappedText::of_width(WIDTH);
    let Some(exercise) = catalogue.get(index) else { return String::new() };
    out.wrapped(0, 0, &exercise.name);
    for (key, text) in exercise.to_lines() {
        line(&mut out, &key, &text);
    }
    if let Some(able) = able {
        line(&mut out, &format!("for {}", able.name()), &done_with(index, exercise, able));
    }
    swaps(&mut out, index, exercise, catalogue, able);
    let others: Vec<&str> = found
        .iter()
        .filter(|other| **other != index)
        .filter_map(|other| catalogue.get(*other))
        .map(|other| other.name.as_str())
        .collect();
    if !others.is_empty() {
        out.blank();
        out.wrapped(0, 2, &format!("These words also match: {}", others.join(", ")));
    }
    out.text
}

fn line(out: &mut WrappedText, key: &str, text: &str) {
    if key.chars().count() > KEY {
        out.wrapped(2, 2, key);
        out.wrapped(2 + KEY + 2, 2 + KEY + 2, text);
    } else {
        let key = format!("{key:<KEY$}  ").replace(' ', crate::sheets::FIXED);
        out.wrapped(2, 2 + KEY + 2, &format!("{key}{text}"));
    }
}

fn done_with(index: usize, exercise: &Exercise, able: &Able<'_>) -> String {
    if let Some(why) = able.refuses(index, exercise) {
        return format!("no: {why}");
    }
    match able.gym.means(exercise, LoadNeed::Anything) {
        Ok(LoadingMethod::Other) => "yes".to_owned(),
        Ok(means) => format!("with {}", means.words(able.gym)),
        Err(missing) => format!("no: {}", missing.sentence(able.gym)),
    }
}

/// Its swaps, closest first; where none of them can be done, what is near that can.
fn swaps(
    out: &mut WrappedText,
    index: usize,
    exercise: &Exercise,
    catalogue: &Catalogue<'_>,
    able: Option<&Able<'_>>,
) {
    let direct: Vec<usize> = catalogue.swaps(exercise).map(|(index, _)| index).collect();
    if !direct.is_empty() {
        out.blank();
        out.wrapped(0, 0, "Swaps, the closest first:");
        rows(out, &direct, catalogue, able);
    }
    let Some(able) = able else { return };
    let can = |index: usize, exercise: &Exercise| able.refuses(index, exercise).is_none();
    let near = catalogue.stand_ins(index, &can);
    let heading = match near.nearness {
        _ if near.found.is_empty() => {
            out.blank();
            out.wrapped(0, 0, &format!("{} can do no similar exercise.", able.name()));
            return;
        }
        Nearness::Swap => return,
        Nearness::SwapOfSwap => "None of these can be done, but these swaps of its swaps can:",
        Nearness::Alike => {
            "None of these can be done, but these with the same pattern and main muscle can:"
        }
    };
    out.blank();
    out.wrapped(0, 0, heading);
    rows(out, &near.found, catalogue, Some(able));
}

fn rows(
    out: &mut WrappedText,
    indexes: &[usize],
    catalogue: &Catalogue<'_>,
    able: Option<&Able<'_>>,
) {
    for index in indexes {
        let Some(exercise) = catalogue.get(*index) else { continue };
        let last = match able {
            Some(able) => done_with(*index, exercise, able),
            None => exercise.equipment_words(),
        };
        row(out, exercise, Some(""), &last);
    }
}
