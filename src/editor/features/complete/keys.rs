//! Completions for the start of a line in a block.

use super::asked::CompletionRequest;
use super::names;
use super::rank::{Offer, pick};
use super::{Completion, CompletionKind, logged};
use crate::catalogue::LANGUAGES;
use crate::editor::features::place::{colon, order};
use crate::syntax::key_docs;
use crate::syntax::keys::{BlockPlace, Key, LINE_WORDS};
use crate::syntax::phrases::CONDITIONS;

/// Completions before the colon of a line in a block.
pub fn offers(asked: &CompletionRequest<'_>, place: BlockPlace) -> Vec<Completion> {
    let spot = &asked.spot;
    let before = spot.before();
    let key_end = spot.key_slot();
    let open = colon(spot.whole()).is_none();
    let spaced = spot.text.get(spot.offset..).is_some_and(|rest| rest.starts_with(' '));
    let after = match (open, spaced) {
        (true, true) => ":",
        (true, false) => ": ",
        (false, _) => "",
    };
    if matches!(place, BlockPlace::Day | BlockPlace::Session)
        && before.contains(' ')
        && let Some((_, name)) = order(before)
    {
        let replace = spot.span(spot.start + name, key_end);
        return names::exercises(asked, before.get(name..).unwrap_or(""), replace, after);
    }
    if matches!(place, BlockPlace::Line | BlockPlace::Scheme)
        && let Some(found) = line_words(asked, key_end, after)
    {
        return found;
    }
    let named = place.properties().filter(|property| property.named || property.translated);
    for property in named {
        let Some(name) = before.strip_prefix(property.key.word()) else { continue };
        if !name.starts_with(' ') {
            continue;
        }
        let typed = name.trim_start();
        let replace = spot.span(spot.offset - typed.len(), key_end);
        return match property.key {
            Key::Max | Key::Replace | Key::Setting => {
                names::exercises(asked, typed, replace, after)
            }
            key => pick(names_after(asked, key, after), typed, replace),
        };
    }
    let mut offers = keys(asked, place, open);
    match place {
        BlockPlace::Day if open => offers.splice(0..0, next_order(asked)).for_each(drop),
        BlockPlace::Session if open => {
            offers.splice(0..0, logged::planned_lines(asked)).for_each(drop);
        }
        _ => {}
    }
    pick(offers, before, spot.span(spot.start, key_end))
}

/// The keys that can still be added to the block.
fn keys(asked: &CompletionRequest<'_>, place: BlockPlace, open: bool) -> Vec<Offer> {
    let spot = &asked.spot;
    let used: Vec<&str> = spot.beside().map(|line| key_of(spot.content(line))).collect();
    let free = place.properties().filter(|property| {
        property.named
            || property.translated
            || property.repeats
            || !used.contains(&property.key.word())
    });
    let mut offers: Vec<Offer> = free
        .map(|property| {
            let word = property.key.word();
            let says = key_docs::of_key(place, property.key).unwrap_or_default();
            let offer = Offer::new(CompletionKind::Key, word).detail(says);
            match (property.named, open) {
                (true, _) => offer.insert(format!("{word} ")),
                (false, true) => offer.insert(format!("{word}: ")),
                (false, false) => offer,
            }
        })
        .collect();
    if matches!(place, BlockPlace::Line | BlockPlace::Scheme) {
        let free = LINE_WORDS.iter().filter(|word| match **word {
            "otherwise" => !used.contains(word),
            "for" => place != BlockPlace::Scheme,
            _ => true,
        });
        offers.extend(free.map(|word| {
            let says = key_docs::of_word(word).unwrap_or_default();
            let after = if *word == "otherwise" && open { ": " } else { " " };
            Offer::new(CompletionKind::Key, *word).detail(says).insert(format!("{word}{after}"))
        }));
    }
    offers
}

/// The key of a line.
pub fn key_of(content: &str) -> &str {
    content.get(..colon(content).unwrap_or(content.len())).unwrap_or(content).trim_end()
}

/// Completions after `for`, `when` and `week`.
fn line_words(
    asked: &CompletionRequest<'_>,
    key_end: usize,
    after: &str,
) -> Option<Vec<Completion>> {
    let spot = &asked.spot;
    let (word, rest) = spot.before().split_once(' ')?;
    match word {
        "for" => {
            let typed = rest.trim_start();
            let replace = spot.span(spot.offset - typed.len(), key_end);
            let mut offers = names::athletes_for(asked);
            for offer in &mut offers {
                offer.insert = Some(format!("{}{after}", offer.label));
            }
            Some(pick(offers, typed, replace))
        }
        "when" => {
            let typed = rest.rsplit_once(" and ").map_or(rest, |(_, last)| last).trim_start();
            let tail = spot.text.get(spot.offset..key_end).unwrap_or("");
            let end = spot.offset + tail.find(" and ").unwrap_or(tail.len());
            let replace = spot.span(spot.offset - typed.len(), end);
            let offers = CONDITIONS.iter().map(|(phrase, says)| {
                let insert = format!("{phrase}{after}");
                Offer::new(CompletionKind::Condition, *phrase).detail(*says).insert(insert)
            });
            Some(pick(offers.collect(), typed, replace))
        }
        "week" | "weeks" => Some(Vec::new()),
        _ => None,
    }
}

/// Completions for names after a key, except exercises.
fn names_after(asked: &CompletionRequest<'_>, key: Key, after: &str) -> Vec<Offer> {
    let with = |offer: Offer| {
        let insert = format!("{}{after}", offer.label);
        offer.insert(insert)
    };
    match key {
        Key::NameIn | Key::Setup | Key::Safety => {
            let tags = LANGUAGES.iter().filter(|(tag, ..)| *tag != "en");
            tags.map(|(tag, name, _)| Offer::new(CompletionKind::Language, *tag).detail(*name))
                .map(with)
                .collect()
        }
        Key::Stack => {
            let stacks = asked.catalogue().all().flat_map(|(_, exercise)| {
                let own = exercise.equipment.iter();
                own.filter(|item| item.kind == crate::syntax::ast::EquipmentKind::Stack)
                    .filter_map(|item| item.name.as_deref())
            });
            let mut stacks: Vec<&str> = stacks.collect();
            stacks.sort_unstable();
            stacks.dedup();
            stacks
                .into_iter()
                .map(|name| with(Offer::new(CompletionKind::Equipment, name)))
                .collect()
        }
        Key::Plate => {
            let gym = asked.spot.above_with(&["gym"]).map(|(name, _)| name.to_owned());
            let own = asked.analysis.gyms.iter().find(|own| Some(&own.name) == gym.as_ref());
            let plates = own
                .into_iter()
                .flat_map(|gym| gym.plates.iter().map(|plate| plate.mass.show(gym.unit)));
            plates.map(|mass| with(Offer::new(CompletionKind::Load, mass))).collect()
        }
        _ => Vec::new(),
    }
}

/// The order letters that the next exercise of the day can have.
fn next_order(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let spot = &asked.spot;
    let above = spot.beside().filter(|line| *line < spot.line);
    let last = above.filter_map(|line| order(spot.content(line))).last().map(|(order, _)| order);
    let offer = |order: String, says: &str| {
        Offer::new(CompletionKind::Word, order.clone()).detail(says).insert(format!("{order} "))
    };
    let Some(last) = last else {
        return vec![
            offer("A".to_owned(), "the first exercise"),
            offer("A1".to_owned(), "of a superset"),
        ];
    };
    let (letter, number) = last.split_at(1);
    let next =
        letter.bytes().next().filter(|letter| *letter < b'Z').map(|letter| char::from(letter + 1));
    let within = number.parse::<u32>().ok().map(|number| format!("{letter}{}", number + 1));
    let within = within.map(|order| offer(order, "in the same group"));
    let next = next.into_iter().flat_map(|letter| {
        [
            offer(letter.to_string(), "the next exercise"),
            offer(format!("{letter}1"), "the first of a group"),
        ]
    });
    within.into_iter().chain(next).collect()
}
