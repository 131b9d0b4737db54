//! Completions for names that are defined in the project.

use super::asked::CompletionRequest;
use super::rank::{MOST, Offer, fitting};
use super::{Completion, CompletionKind};
use crate::catalogue::{LIBRARY_FILE, LoadNeed, MUSCLES, PATTERNS};
use crate::source::Span;
use crate::syntax::ast::{Head, Item, LineKey, Node, Value};
use crate::syntax::fold_name;

/// Number of best matches for which it is checked whether a gym has the equipment.
const LOOKED_AT: usize = 3 * MOST;

/// The exercises that match what was typed. Those that no gym can load come last. `after` is
/// appended to each name.
pub fn exercises(
    asked: &CompletionRequest<'_>,
    typed: &str,
    replace: Span,
    after: &str,
) -> Vec<Completion> {
    best(asked, exercise_offers(asked), typed, replace, after)
}

/// Exercises and their synonyms, unranked, the project's own before built-in ones.
pub fn exercise_offers(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let mut offers = Vec::new();
    let (own, built_in): (Vec<_>, Vec<_>) =
        asked.catalogue().all().partition(|(_, exercise)| exercise.span.file != LIBRARY_FILE);
    for (index, exercise) in own.into_iter().chain(built_in) {
        let offer = |name: &str, synonym: bool| Offer {
            exercise: Some(index),
            synonym,
            ..Offer::new(CompletionKind::Exercise, name)
        };
        offers.push(offer(&exercise.name, false));
        let leads_here = |name: &str| asked.analysis.names.find(name) == Some(index);
        let also = exercise.also.iter().filter(|also| leads_here(&also.value));
        offers.extend(also.map(|also| offer(&also.value, true).detail(&exercise.name)));
    }
    offers
}

/// The best of some offers that include exercises.
pub fn best(
    asked: &CompletionRequest<'_>,
    offers: Vec<Offer>,
    typed: &str,
    replace: Span,
    after: &str,
) -> Vec<Completion> {
    let gyms = asked.gyms();
    let mut fits: Vec<Offer> = fitting(offers, typed);
    fits.truncate(LOOKED_AT);
    let mut unfit = Vec::new();
    let mut found = Vec::new();
    for mut offer in fits {
        let exercise = offer.exercise.and_then(|index| asked.analysis.exercises.get(index));
        let missing: Vec<String> = exercise.map_or_else(Vec::new, |exercise| {
            let missing = gyms.iter().filter_map(|gym| {
                let missing = gym.means(exercise, LoadNeed::Anything).err()?;
                Some(missing.sentence(gym))
            });
            missing.collect()
        });
        if let (Some(exercise), None) = (exercise, &offer.detail) {
            offer.detail = Some(exercise.equipment_words()).filter(|words| !words.is_empty());
        }
        if let Some(first) = missing.first() {
            let own = offer.detail.map_or_else(String::new, |own| format!("{own}; "));
            offer.detail = Some(format!("{own}{first}"));
        }
        let nowhere = !gyms.is_empty() && missing.len() == gyms.len();
        if nowhere { unfit.push(offer) } else { found.push(offer) }
    }
    found.extend(unfit);
    found.truncate(MOST);
    found
        .into_iter()
        .map(|mut offer| {
            let exercise = offer.exercise.and_then(|index| asked.analysis.exercises.get(index));
            offer.documentation = exercise.map(super::super::hover::exercise_in_short);
            if !after.is_empty() && offer.exercise.is_some() {
                offer.insert = Some(format!("{}{after}", offer.label));
            }
            offer.at(replace)
        })
        .collect()
}

/// Athletes, each with the gym.
pub fn athletes(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let athletes = asked.analysis.athletes.iter();
    athletes
        .map(|one| {
            let gym = one.gym.and_then(|gym| asked.analysis.gyms.get(gym));
            let offer = Offer::new(CompletionKind::Athlete, &one.athlete.name);
            match gym {
                Some(gym) => offer.detail(&gym.name),
                None => offer,
            }
        })
        .collect()
}

/// Athletes of the programme that neighbouring lines do not name yet.
pub fn athletes_for(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let beside: Vec<String> = asked
        .spot
        .beside()
        .filter_map(|line| asked.spot.content(line).strip_prefix("for "))
        .map(|name| fold_name(name.split(": ").next().unwrap_or(name).trim_end_matches(':')))
        .collect();
    let plan = asked.plan();
    let taking_part = |name: &str| {
        plan.is_none_or(|plan| {
            plan.athletes.is_empty() || plan.athletes.iter().any(|a| a.name == name)
        })
    };
    let mut offers = athletes(asked);
    offers.retain(|offer| !beside.contains(&fold_name(&offer.label)) && taking_part(&offer.label));
    offers
}

/// Gyms.
pub fn gyms(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let gyms = asked.analysis.gyms.iter();
    gyms.map(|gym| Offer::new(CompletionKind::Gym, &gym.name)).collect()
}

/// Programmes.
pub fn programmes(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let heads = asked.analysis.documents.iter().flat_map(|document| &document.nodes);
    let names = heads.filter_map(|node| match &node.item.value {
        Item::Head(Head::Programme(name)) => Some(&name.value),
        _ => None,
    });
    names.map(|name| Offer::new(CompletionKind::Programme, name)).collect()
}

/// Schemes that the programme can follow, with their parameters as a template.
pub fn schemes(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let own = asked.programme().map(fold_name);
    let mut offers = Vec::new();
    for (owner, node) in owned(asked) {
        let Item::Head(Head::Scheme(name)) = &node.item.value else { continue };
        if owner.is_some() && owner != own {
            continue;
        }
        let parameters = node.children.iter().filter_map(|line| {
            let Item::Entry { key, value } = &line.item.value else { return None };
            match (&key.value, &value.value) {
                (LineKey::Parameter(name), Value::Amount(amount)) => {
                    Some(format!("{} {}", name.value, amount.value))
                }
                _ => None,
            }
        });
        let parameters: Vec<String> = parameters.collect();
        let offer = Offer::new(CompletionKind::Scheme, &name.value);
        offers.push(if parameters.is_empty() {
            offer
        } else {
            let with = parameters.join(", ");
            let insert = format!("{}, {with}", name.value);
            offer.detail(with).insert(insert)
        });
    }
    offers
}

/// Days of a programme.
pub fn days(asked: &CompletionRequest<'_>, programme: Option<&str>) -> Vec<Offer> {
    let wanted = programme.map(fold_name);
    let of_it = owned(asked).filter(|(owner, _)| *owner == wanted);
    let names = of_it.filter_map(|(_, node)| match &node.item.value {
        Item::Head(Head::Day { name, .. }) => Some(&name.value),
        _ => None,
    });
    names.map(|name| Offer::new(CompletionKind::Day, name)).collect()
}

/// All blocks, each with the folded name of the programme above it in its file.
fn owned<'a>(asked: &'a CompletionRequest<'_>) -> impl Iterator<Item = (Option<String>, &'a Node)> {
    asked.analysis.documents.iter().flat_map(|document| {
        document.nodes.iter().scan(None, |owner, node| {
            if let Item::Head(Head::Programme(name)) = &node.item.value {
                *owner = Some(fold_name(&name.value));
            }
            Some((owner.clone(), node))
        })
    })
}

/// Muscles.
pub fn muscles() -> Vec<Offer> {
    MUSCLES.iter().map(|word| Offer::new(CompletionKind::Term, *word).detail("muscle")).collect()
}

/// Movement patterns.
pub fn patterns() -> Vec<Offer> {
    PATTERNS.iter().map(|word| Offer::new(CompletionKind::Term, *word).detail("pattern")).collect()
}

/// Kinds of equipment, and names of stacks, machines and other things.
pub fn equipment(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let names = asked.catalogue().equipment_names().into_iter();
    names.map(|name| Offer::new(CompletionKind::Equipment, name)).collect()
}
