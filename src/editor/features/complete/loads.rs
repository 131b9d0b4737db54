//! Completions for loads that the gyms can make.

use std::collections::BTreeMap;

use super::CompletionKind;
use super::asked::CompletionRequest;
use super::rank::Offer;
use crate::catalogue::{Exercise, Gym, LoadNeed, LoadingMethod};
use crate::plan::{Built, Implement};
use crate::quantity::{Decimal, Exact, Mass, Unit};
use crate::sheets::labels::{Labels, fill};
use crate::sheets::wording::{PLAIN, Wording};
use crate::strength::{BarLoads, HungLoads, MassList, Rounding};

/// Maximum number of loads in one answer.
const MOST: usize = 12;
/// Maximum number of gyms that are considered.
const GYMS: usize = 4;

/// Loads whose number starts with what was typed, lightest first, then the loads nearest to it.
pub fn offers(asked: &CompletionRequest<'_>, typed: &str, on_body: bool) -> Vec<Offer> {
    let Some(exercise) = asked.exercise() else { return Vec::new() };
    let wants = if on_body { LoadNeed::BodyMass } else { LoadNeed::Load };
    let mut gyms = asked.gyms();
    gyms.truncate(GYMS);
    let able: Vec<(&Gym, Vec<(Mass, String)>)> =
        gyms.iter().filter_map(|gym| Some((*gym, loads(gym, exercise, wants, typed)?))).collect();
    // Several gyms may make a mass: it is offered once, with the number of gyms that can make it.
    let mut found: BTreeMap<Mass, (Unit, String, usize)> = BTreeMap::new();
    let mut order: Vec<Mass> = Vec::new();
    for (gym, loads) in &able {
        for (mass, how) in loads {
            let entry = found.entry(*mass).or_insert_with(|| {
                order.push(*mass);
                (gym.unit, how.clone(), 0)
            });
            entry.2 += 1;
        }
    }
    let offers = order.into_iter().filter_map(|mass| {
        let (unit, how, gyms) = found.get(&mass)?;
        let everywhere = *gyms == able.len();
        let only = if everywhere { "" } else { "; not in every gym" };
        Some(Offer::new(CompletionKind::Load, mass.show(*unit)).detail(format!("{how}{only}")))
    });
    offers.take(MOST).collect()
}

/// The loads of one gym that match what was typed, each with its parts.
fn loads(
    gym: &Gym,
    exercise: &Exercise,
    wants: LoadNeed,
    typed: &str,
) -> Option<Vec<(Mass, String)>> {
    let means = gym.means(exercise, wants).ok()?;
    let bell = |list: Option<&MassList>| Some(list?.masses().to_vec());
    let listed = |masses: Vec<Mass>| {
        let words = means.words(gym);
        let chosen = chosen(masses, typed, gym.unit).into_iter();
        chosen.map(|mass| (mass, words.clone())).collect()
    };
    let built = |masses: &[Mass], build: &dyn Fn(&Exact) -> Built| {
        let chosen = chosen(masses.to_vec(), typed, gym.unit).into_iter();
        chosen.map(|mass| (mass, made_of(&build(&Exact::from_mass(mass)), gym.unit))).collect()
    };
    match &means {
        LoadingMethod::Bars(bars) => {
            let bar = gym.bars.get(*bars.first()?)?;
            let loads = BarLoads::new(bar, &gym.plates, gym.collars).ok()?;
            Some(built(loads.masses(), &|target| loads.build(target, Rounding::Nearest)))
        }
        LoadingMethod::Dumbbells => {
            Some(listed(bell(gym.dumbbells.as_ref().map(MassList::pairs).as_ref())?))
        }
        LoadingMethod::Kettlebells => {
            Some(listed(bell(gym.kettlebells.as_ref().map(MassList::pairs).as_ref())?))
        }
        LoadingMethod::Dumbbell => Some(listed(bell(gym.dumbbells.as_ref())?)),
        LoadingMethod::Kettlebell => Some(listed(bell(gym.kettlebells.as_ref())?)),
        LoadingMethod::Stack(index) => {
            Some(listed(bell(gym.stacks.get(*index).map(|(_, pins)| pins))?))
        }
        LoadingMethod::Band => {
            Some(listed(gym.bands.iter().filter_map(|(_, mass)| *mass).collect()))
        }
        LoadingMethod::BodyMass => {
            let loads = HungLoads::new(&gym.plates).ok()?;
            Some(built(loads.masses(), &|target| loads.build(target, Rounding::Nearest)))
        }
        LoadingMethod::Other => None,
    }
}

/// Selects the masses whose number starts with the text, lightest first, then the nearest of the
/// others.
fn chosen(mut masses: Vec<Mass>, typed: &str, unit: Unit) -> Vec<Mass> {
    masses.retain(|mass| *mass > Mass::ZERO);
    masses.dedup();
    let begins = |mass: &Mass| mass.in_unit(unit).to_string().starts_with(typed);
    let (mut first, mut rest): (Vec<Mass>, Vec<Mass>) = masses.into_iter().partition(begins);
    first.truncate(MOST);
    let wanted = Decimal::parse(typed.trim_end_matches('.'));
    if let Some(wanted) = wanted.and_then(|number| Mass::from_decimal(number, unit)) {
        rest.sort_by_key(|mass| ((*mass - wanted).abs(), *mass));
        first.extend(rest.into_iter().take(MOST.saturating_sub(first.len()).min(4)));
    }
    first
}

/// The parts of a load: `20 kg bar, 20 + 10 a side`.
fn made_of(built: &Built, unit: Unit) -> String {
    let words = Wording { labels: Labels::of("en"), signs: PLAIN, unit, also: None };
    match &built.how {
        Implement::Bar { per_side, .. } => {
            let plates = if per_side.is_empty() {
                words.labels.no_plates.to_owned()
            } else {
                fill(words.labels.a_side, &[&words.pieces(per_side)])
            };
            let bar = words.bar(built).map_or_else(String::new, |bar| format!("{bar}, "));
            format!("{bar}{plates}")
        }
        Implement::BodyMass { pieces } => words.pieces(pieces),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_that_begin_so_come_first() {
        let masses: Vec<Mass> = [5, 8, 20, 78, 80, 82, 100].map(Mass::from_kg).to_vec();
        let found = chosen(masses, "8", Unit::Kg);
        let kg: Vec<String> = found.iter().map(|mass| mass.show(Unit::Kg)).collect();
        assert_eq!(kg, ["8 kg", "80 kg", "82 kg", "5 kg", "20 kg", "78 kg", "100 kg"]);
    }
}
