//! Everything about one exercise.

use crate::catalogue::{BarChoice, Catalogue, Exercise, Means, Nearness, Wants};
use crate::quantity::Unit;
use crate::sheets::Lines;

use super::able::Able;
use super::list::{WIDTH, row, share};

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
    let mut out = Lines::of_width(WIDTH);
    let Some(exercise) = catalogue.get(index) else { return String::new() };
    out.wrapped(0, 0, &exercise.name);
    for (key, text) in says(exercise) {
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
        out.wrapped(0, 2, &format!("These words find as well: {}", others.join(", ")));
    }
    out.text
}

fn line(out: &mut Lines, key: &str, text: &str) {
    if key.chars().count() > KEY {
        out.wrapped(2, 2, key);
        out.wrapped(2 + KEY + 2, 2 + KEY + 2, text);
    } else {
        let key = format!("{key:<KEY$}  ").replace(' ', crate::sheets::FIXED);
        out.wrapped(2, 2 + KEY + 2, &format!("{key}{text}"));
    }
}

/// Its lines, by the notation's keys.
fn says(exercise: &Exercise) -> Vec<(String, String)> {
    let names = |names: &[crate::syntax::ast::Name]| {
        names.iter().map(|name| name.value.clone()).collect::<Vec<_>>().join(", ")
    };
    let kind = exercise.compound.map(|compound| if compound { "compound" } else { "isolation" });
    let muscles = exercise.muscles.iter().map(|(name, part)| match part {
        (part, whole) if part == whole => name.clone(),
        part => format!("{name} {}", share(Some(*part))),
    });
    let bar = exercise.bar.as_ref().map(|bar| match bar {
        BarChoice::Mass(mass) => mass.show(Unit::Kg),
        BarChoice::Named(name) => name.clone(),
    });
    let sides = if exercise.each_side { "each" } else { "both" };
    let mut lines: Vec<(&str, Option<String>)> = vec![
        ("also called", Some(names(&exercise.also))),
        ("pattern", Some(exercise.patterns().collect::<Vec<_>>().join(", "))),
        ("kind", kind.map(str::to_owned)),
        ("sides", Some(sides.to_owned())),
        ("muscles", Some(muscles.collect::<Vec<_>>().join(", "))),
        ("equipment", Some(exercise.equipment_words())),
        ("bar", bar),
        ("setup", exercise.setup.clone()),
    ];
    for cue in &exercise.cues {
        lines.push(("cue", Some(cue.text.clone())));
        lines.push(("  source", cue.source.clone()));
    }
    lines.extend([
        ("range", exercise.range.clone()),
        ("safety", exercise.safety.clone()),
        ("demo", exercise.demo.clone()),
        ("source", exercise.source.clone()),
    ]);
    let own = lines.into_iter().filter_map(|(key, text)| Some((key.to_owned(), text?)));
    let translated = exercise.names.iter().map(|(tongue, name)| {
        let key = format!("name {tongue}");
        (key, name.clone())
    });
    own.chain(translated).filter(|(_, text)| !text.is_empty()).collect()
}

fn done_with(index: usize, exercise: &Exercise, able: &Able<'_>) -> String {
    if let Some(why) = able.refuses(index, exercise) {
        return format!("no: {why}");
    }
    match able.gym.means(exercise, Wants::Anything) {
        Ok(Means::Other) => "yes".to_owned(),
        Ok(means) => format!("with {}", means.words(able.gym)),
        Err(missing) => format!("no: {}", missing.sentence(able.gym)),
    }
}

/// Its swaps, closest first; where none of them can be done, what is near that can.
fn swaps(
    out: &mut Lines,
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
            out.wrapped(0, 0, &format!("Nothing near it can be done by {}.", able.name()));
            return;
        }
        Nearness::Swap => return,
        Nearness::SwapOfSwap => "None of these can be done; swaps of its swaps that can:",
        Nearness::Alike => "Nothing of that can be done; the same pattern and main muscle:",
    };
    out.blank();
    out.wrapped(0, 0, heading);
    rows(out, &near.found, catalogue, Some(able));
}

fn rows(out: &mut Lines, indexes: &[usize], catalogue: &Catalogue<'_>, able: Option<&Able<'_>>) {
    for index in indexes {
        let Some(exercise) = catalogue.get(*index) else { continue };
        let last = match able {
            Some(able) => done_with(*index, exercise, able),
            None => exercise.equipment_words(),
        };
        row(out, exercise, Some(""), &last);
    }
}
