//! Completions for words that start a block, and for the rest of those lines.

use super::asked::CompletionRequest;
use super::names;
use super::rank::{Offer, pick};
use super::{Completion, CompletionKind};
use crate::catalogue::LIBRARY_FILE;
use crate::editor::features::place::colon;
use crate::quantity::Unit;
use crate::syntax::NOTATION;
use crate::syntax::key_docs;
use crate::syntax::keys::BLOCK_WORDS;

/// Completions on a line without indentation.
pub fn offers(asked: &CompletionRequest<'_>) -> Vec<Completion> {
    let spot = &asked.spot;
    let before = spot.before();
    let Some((word, rest)) = before.split_once(' ') else {
        let offers = BLOCK_WORDS.iter().map(|word| {
            let says = key_docs::of_word(word).unwrap_or_default();
            let insert = match *word {
                "notation" => format!("notation: {NOTATION}"),
                word => format!("{word} "),
            };
            Offer::new(CompletionKind::Head, *word).detail(says).insert(insert)
        });
        let word = spot.whole().find(' ').map_or(spot.end, |at| spot.start + at);
        return pick(offers.collect(), before, spot.span(spot.start, word.max(spot.offset)));
    };
    let typed = rest.trim_start();
    let replace = spot.span(spot.offset - typed.len(), spot.end);
    match word {
        "use" => pick(files(asked), typed, replace),
        "exercise" => names::exercises(asked, typed, replace, ""),
        "log" | "phase" => match colon(before) {
            Some(at) => after_colon(asked, word, spot.start + at + 1),
            None if word == "log" => {
                let mut offers = names::athletes(asked);
                let after = if colon(spot.whole()).is_none() { ": " } else { "" };
                for offer in &mut offers {
                    offer.insert = Some(format!("{}{after}", offer.label));
                }
                pick(offers, typed, spot.span(spot.offset - typed.len(), spot.key_slot()))
            }
            None => Vec::new(),
        },
        "day" => match typed.rsplit_once('(') {
            Some((_, weekday)) => {
                let replace = spot.span(spot.offset - weekday.len(), spot.end);
                pick(weekdays(), weekday, replace)
            }
            None => Vec::new(),
        },
        _ => Vec::new(),
    }
}

/// Completions after the colon of `log X:` and `phase X:`.
fn after_colon(asked: &CompletionRequest<'_>, word: &str, from: usize) -> Vec<Completion> {
    let spot = &asked.spot;
    let (start, end) = spot.slot(from);
    let (typed, replace) = (spot.typed(start), spot.span(start, end));
    if word == "log" {
        return pick(names::programmes(asked), typed, replace);
    }
    let forms = [
        ("weeks 1-3", "the weeks of the phase"),
        ("week 4", "the week of the phase"),
        ("sets -40%", "fewer sets"),
        ("load -10%", "lighter loads"),
    ];
    let offers = forms.map(|(form, says)| Offer::new(CompletionKind::Word, form).detail(says));
    pick(offers.to_vec(), typed, replace)
}

fn weekdays() -> Vec<Offer> {
    let days = crate::syntax::words::WEEKDAYS.iter().map(|(short, _)| {
        let mut name = (*short).to_owned();
        name.get_mut(..1).map(str::make_ascii_uppercase);
        let insert = format!("{name})");
        Offer::new(CompletionKind::Word, name).insert(insert)
    });
    days.collect()
}

/// The project's other files, with paths relative to this one.
fn files(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let sources = &asked.analysis.sources;
    let own = sources.get(asked.spot.file).map_or("", |file| &*file.path);
    let others = sources.iter().filter(|(id, file)| *id != LIBRARY_FILE && *file.path != *own);
    others.map(|(_, file)| Offer::new(CompletionKind::File, seen_from(own, &file.path))).collect()
}

/// A path as `use` has to write it in a file.
fn seen_from(from: &str, path: &str) -> String {
    let folders: Vec<&str> = from.split('/').collect();
    let folders = folders.get(..folders.len().saturating_sub(1)).unwrap_or(&[]);
    let parts: Vec<&str> = path.split('/').collect();
    let shared = folders.iter().zip(&parts).take_while(|(a, b)| a == b).count();
    let up = folders.len() - shared;
    let down = parts.get(shared..).unwrap_or(&[]);
    std::iter::repeat_n("..", up).chain(down.iter().copied()).collect::<Vec<_>>().join("/")
}

/// The units of a mass.
pub fn mass_units() -> Vec<Offer> {
    let units = [Unit::Kg, Unit::Lb];
    units.map(|unit| Offer::new(CompletionKind::Unit, unit.symbol())).to_vec()
}

#[cfg(test)]
mod tests {
    use super::seen_from;

    #[test]
    fn a_path_is_seen_from_the_folder_of_the_file() {
        assert_eq!(seen_from("a/main.sets", "a/gym.sets"), "gym.sets");
        assert_eq!(seen_from("a/b/main.sets", "a/gym.sets"), "../gym.sets");
        assert_eq!(seen_from("main.sets", "a/gym.sets"), "a/gym.sets");
    }
}
