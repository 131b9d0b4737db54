//! The warm-up ramp: lighter sets that lead to the working load.

use std::collections::BTreeMap;

use super::{BarLoads, Rounding};
use crate::plan::{Built, Implement};
use crate::quantity::{Exact, Mass};

/// The target of one set of a ramp.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RampTarget {
    /// The empty bar.
    Bar,
    /// A share of the working load.
    Share(Exact),
}

/// The cost of a ramp up to one of its sets. Compared in this order: plates taken off or put on, on
/// one side; distance from the targets; mass.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Cost {
    changes: usize,
    distance: Exact,
    mass: Exact,
}

/// A possible load for one set of the ramp, and the best path to it.
struct Candidate {
    built: Built,
    cost: Cost,
    /// Index of the candidate of the set before.
    before: usize,
}

/// The loads of a warm-up ramp, one for each target, for a working load on the same bar.
///
/// Candidates are loads within 2.5 % of the working load from their target; if there are none, the
/// nearest load. The chosen loads need the fewest plate changes from the first ramp set to the
/// working load: plates taken off and put on, on one side. Only the outermost plate can come off,
/// and the heaviest is innermost. Ties go to loads nearer to the targets, then to the lower sum,
/// then to lighter loads in later sets. Each load always has the same plates, so an athlete never
/// sees two arrangements for one number.
///
/// `None` for a set that is left out, because its target or the nearest load is at or above 90 % of
/// the working load.
#[must_use]
pub fn ramp(loads: &BarLoads, targets: &[RampTarget], working: &Built) -> Vec<Option<Built>> {
    let mut stages: Vec<Vec<Candidate>> = Vec::new();
    let mut is_kept = Vec::new();
    for target in targets {
        let choices = choices(loads, target, working.mass);
        is_kept.push(!choices.is_empty());
        if !choices.is_empty() {
            let stage = reach(stages.last().map(Vec::as_slice), choices);
            stages.push(stage);
        }
    }
    let mut chosen = best_path(&stages, working).into_iter();
    is_kept.into_iter().map(|kept| kept.then(|| chosen.next()).flatten()).collect()
}

/// The possible loads for a target, with their distance from it; empty if the set is left out.
fn choices(loads: &BarLoads, target: &RampTarget, working: Mass) -> Vec<(Built, Exact)> {
    let working = Exact::from_mass(working);
    let most = &working * &Exact::ratio(9, 10);
    let reach = &working * &Exact::ratio(25, 1000);
    let (wish, mut near) = match target {
        RampTarget::Bar => (Exact::from_mass(loads.lightest().mass), vec![loads.lightest()]),
        RampTarget::Share(share) => {
            let wish = &working * share;
            let near = loads.between(&(&wish - &reach), &(&wish + &reach)).collect();
            (wish, near)
        }
    };
    if near.is_empty() {
        near.push(loads.build(&wish, Rounding::Nearest));
    }
    if wish >= most {
        near.clear();
    }
    near.into_iter()
        .map(|built| (Exact::from_mass(built.mass), built))
        .filter(|(mass, _)| *mass < most)
        .map(|(mass, built)| (built, (&mass - &wish).abs()))
        .collect()
}

/// The best path to each choice from the stage before.
fn reach(before: Option<&[Candidate]>, choices: Vec<(Built, Exact)>) -> Vec<Candidate> {
    let stripped = before.map(strip);
    let candidate = |(built, distance): (Built, Exact)| {
        let (start, before) = match &stripped {
            Some(stripped) => load_up(stripped, plates(&built))?,
            None => (Cost { changes: 0, distance: Exact::zero(), mass: Exact::zero() }, 0),
        };
        let cost = Cost {
            changes: start.changes,
            distance: &start.distance + &distance,
            mass: &start.mass + &Exact::from_mass(built.mass),
        };
        Some(Candidate { built, cost, before })
    };
    choices.into_iter().filter_map(candidate).collect()
}

/// For each innermost part that the plates of some candidate can be reduced to: the cheapest such
/// candidate, including the cost of the reduction.
fn strip(stage: &[Candidate]) -> BTreeMap<&[Mass], (Cost, usize)> {
    let mut best: BTreeMap<&[Mass], (Cost, usize)> = BTreeMap::new();
    for (index, candidate) in stage.iter().enumerate() {
        let mut left = plates(&candidate.built);
        let mut cost = candidate.cost.clone();
        loop {
            if best.get(left).is_none_or(|(known, _)| cost < *known) {
                best.insert(left, (cost.clone(), index));
            }
            let Some((_, inner)) = left.split_last() else {
                break;
            };
            left = inner;
            cost.changes += 1;
        }
    }
    best
}

/// The cheapest way to load `plates` starting from one of those parts.
fn load_up(stripped: &BTreeMap<&[Mass], (Cost, usize)>, plates: &[Mass]) -> Option<(Cost, usize)> {
    let mut best: Option<(Cost, usize)> = None;
    for (put_on, inner) in inner_parts(plates).enumerate() {
        let Some((cost, index)) = stripped.get(inner) else {
            continue;
        };
        let way = (Cost { changes: cost.changes + put_on, ..cost.clone() }, *index);
        if best.as_ref().is_none_or(|best| way < *best) {
            best = Some(way);
        }
    }
    best
}

/// All plates, then all but the outermost, and so on down to none.
fn inner_parts(plates: &[Mass]) -> impl Iterator<Item = &[Mass]> {
    std::iter::successors(Some(plates), |left| left.split_last().map(|(_, inner)| inner))
}

/// The cheapest sequence that ends at the working load, with one load for each stage.
fn best_path(stages: &[Vec<Candidate>], working: &Built) -> Vec<Built> {
    let Some(last) = stages.last() else {
        return Vec::new();
    };
    let Some((_, mut index)) = load_up(&strip(last), plates(working)) else {
        return Vec::new();
    };
    let mut path = Vec::new();
    for stage in stages.iter().rev() {
        let Some(candidate) = stage.get(index) else {
            break;
        };
        path.push(candidate.built.clone());
        index = candidate.before;
    }
    path.reverse();
    path
}

/// The plates of one side, innermost first.
fn plates(built: &Built) -> &[Mass] {
    match &built.how {
        Implement::Bar { per_side, .. } => per_side,
        _ => &[],
    }
}
