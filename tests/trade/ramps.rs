//! Warm-up ramps: known cases [C], worked out by hand, and every ramp compared with brute force.
//! The margin of 2.5 % and the limit of 90 % are common practice, no source.

use setwright::plan::Built;
use setwright::quantity::{Exact, Mass};
use setwright::strength::{BarLoads, Plate, RampTarget, Rounding, ramp};

use super::tools::{Chance, counted, kg, kgs, lbs, loads, nearest, side, unlimited};

fn share(percent: i64) -> RampTarget {
    RampTarget::Share(Exact::ratio(percent, 100))
}

/// The masses of a ramp in kilograms, `-` for a set left out.
fn shown(ramp: &[Option<Built>]) -> String {
    let show = |set: &Option<Built>| {
        let kilograms =
            |built: &Built| built.mass.in_unit(setwright::quantity::Unit::Kg).to_string();
        set.as_ref().map_or("-".into(), kilograms)
    };
    ramp.iter().map(show).collect::<Vec<_>>().join(" ")
}

fn boathouse() -> BarLoads {
    let stock = [("20", 4), ("15", 2), ("10", 4), ("5", 4), ("2.5", 4), ("1.25", 2)]
        .map(|(m, n)| (kg(m), n));
    loads(kg("20"), &counted(&stock))
}

#[test]
fn a_ramp_loads_outward_where_it_can() {
    // 60 % of 102.5 kg is 61.5 kg: 60 (20 a side) is the nearest but one and needs no plate moved.
    let bar = boathouse();
    let working = nearest(&bar, kg("102.5"));
    assert_eq!(side(&working), kgs("20 20 1.25"));
    let sets = ramp(&bar, &[RampTarget::Bar, share(60), share(80)], &working);
    assert_eq!(shown(&sets), "20 60 80");
}

#[test]
fn a_set_at_or_above_ninety_percent_is_left_out() {
    let bar = boathouse();
    let working = nearest(&bar, kg("100"));
    let sets = ramp(&bar, &[share(50), share(89), share(90), share(95)], &working);
    assert_eq!(shown(&sets), "50 87.5 - -");
    // The empty bar as the working load leaves nothing to ramp up through.
    let sets = ramp(&bar, &[RampTarget::Bar, share(40), share(80)], &bar.lightest());
    assert_eq!(shown(&sets), "- - -");
}

#[test]
fn the_nearest_load_where_none_is_near() {
    // Steps of 20 kg: 40 % of 100 is 40, 70 % is 70 (60 and 80 as near: the lighter).
    let bar = loads(kg("20"), &unlimited(&kgs("10")));
    let sets = ramp(&bar, &[share(40), share(70)], &nearest(&bar, kg("100")));
    assert_eq!(shown(&sets), "40 60");
    // 10 % of 100 kg is lighter than the bar.
    let sets = ramp(&bar, &[share(10)], &nearest(&bar, kg("100")));
    assert_eq!(shown(&sets), "20");
}

#[test]
fn ties_go_to_what_is_nearer_and_then_to_the_lighter() {
    let bar = loads(kg("20"), &unlimited(&kgs("10 5 2.5")));
    let working = nearest(&bar, kg("100"));
    // 45 (10 + 2.5 a side) and 50 (10 + 5) take as many changes, and are as near to 47.5.
    let near = |thousandths| RampTarget::Share(Exact::ratio(thousandths, 1000));
    assert_eq!(shown(&ramp(&bar, &[near(475)], &working)), "45");
    assert_eq!(shown(&ramp(&bar, &[near(476)], &working)), "50");
}

#[test]
fn a_tie_over_several_sets_goes_to_the_lighter_sum_and_then_to_the_lighter_later_set() {
    // Working load 20 + 20 a side. 60 67 69 takes 3 + 1 + 4 + 1 plates and is 10 + 1 + 2 off its
    // targets, 60 68.5 68.5 takes 4 + 0 + 4 + 1 and is 10 + 0.5 + 2.5 off: 196 kg against 197.
    let stock = [("20", 12), ("1.25", 4), ("1", 8)].map(|(m, n)| (kg(m), n));
    let bar = loads(kg("20"), &counted(&stock));
    let sets = ramp(&bar, &[share(50), share(68), share(71)], &nearest(&bar, kg("100")));
    assert_eq!(shown(&sets), "60 67 69");
    // 25 31 40 and 24 32 40 both take 2 + 4 + 2 plates, are 1.5 off, and come to 96 kg.
    let stock = [("10", 2), ("2.5", 4), ("2", 8), ("0.5", 4)].map(|(m, n)| (kg(m), n));
    let bar = loads(kg("20"), &counted(&stock));
    let sets = ramp(&bar, &[share(50), share(64), share(79)], &nearest(&bar, kg("50")));
    assert_eq!(shown(&sets), "25 31 40");
}

#[test]
fn no_targets_no_ramp() {
    assert!(ramp(&boathouse(), &[], &boathouse().heaviest()).is_empty());
}

/// Plates off and on, counted anew: on sleeves as stacks.
fn changes(from: &Built, to: &Built) -> usize {
    let (from, to) = (side(from), side(to));
    let common = from.iter().zip(to).take_while(|(a, b)| a == b).count();
    from.len() + to.len() - 2 * common
}

/// The choices for a target by the rule, slowly: all loads are looked at.
fn choices(bar: &BarLoads, percent: i64, working: Mass) -> Vec<Built> {
    // In thousandths of the working load, to stay in whole numbers.
    let scaled = |mass: Mass| i128::from(mass.units()) * 1000;
    let of_working = |thousandths: i64| i128::from(working.units()) * i128::from(thousandths);
    let wish = of_working(percent * 10);
    let near = |m: &&Mass| (scaled(**m) - wish).abs() <= of_working(25);
    let mut masses: Vec<Mass> = bar.masses().iter().filter(near).copied().collect();
    if masses.is_empty() {
        masses.extend(bar.masses().iter().min_by_key(|&&m| ((scaled(m) - wish).abs(), m)));
    }
    masses.retain(|&m| scaled(m) < of_working(900) && percent < 90);
    masses.into_iter().map(|m| bar.build(&m.into(), Rounding::Nearest)).collect()
}

/// (changes, distance from the targets in thousandths, sum of masses) of the best of all sequences.
fn best(
    stages: &[(i64, Vec<Built>)],
    working: &Built,
    path: &mut Vec<Built>,
) -> (usize, i128, i128) {
    let Some((_, choices)) = stages.get(path.len()) else {
        return cost(stages, working, path);
    };
    let all = choices.iter().map(|choice| {
        path.push(choice.clone());
        let cost = best(stages, working, path);
        path.pop();
        cost
    });
    all.min().unwrap()
}

fn cost(stages: &[(i64, Vec<Built>)], working: &Built, path: &[Built]) -> (usize, i128, i128) {
    let moves = path.iter().zip(path.iter().skip(1).chain([working]));
    let distance = path.iter().zip(stages).map(|(built, (percent, _))| {
        let wish = i128::from(working.mass.units()) * i128::from(*percent) * 10;
        (i128::from(built.mass.units()) * 1000 - wish).abs()
    });
    let mass = path.iter().map(|built| i128::from(built.mass.units())).sum();
    (moves.map(|(a, b)| changes(a, b)).sum(), distance.sum(), mass)
}

#[test]
fn no_sequence_is_better_than_the_ramp() {
    let mut chance = Chance(7);
    let discs = [kgs("25 20 15 10 5 2.5 2 1.25 1 0.5"), lbs("45 35 25 10 5 2.5")].concat();
    let (mut compared, mut had_choice) = (0, 0);
    for round in 0..300 {
        let kinds = 3 + chance.below(5);
        let plates: Vec<Plate> = (0..kinds)
            .map(|_| {
                Plate::counted(chance.pick(&discs), u32::try_from(2 + 2 * chance.below(3)).unwrap())
            })
            .collect();
        let bar = loads(kg("20"), &plates);
        let working = nearest(&bar, chance.pick(bar.masses()));
        let percents = [30 + chance.below(20), 55 + chance.below(15), 72 + chance.below(20)];
        let percents = percents.map(|percent| i64::try_from(percent).unwrap());
        let sets = ramp(&bar, &percents.map(share), &working);
        let mut stages = Vec::new();
        let mut path = Vec::new();
        for (percent, set) in percents.into_iter().zip(sets) {
            let choices: Vec<Built> =
                choices(&bar, percent, working.mass).into_iter().take(40).collect();
            assert_eq!(set.is_some(), !choices.is_empty(), "round {round}");
            if let Some(set) = set {
                path.push(set);
                stages.push((percent, choices));
            }
        }
        if stages.is_empty() || stages.iter().any(|(_, choices)| choices.len() == 40) {
            continue;
        }
        compared += 1;
        had_choice += usize::from(stages.iter().any(|(_, choices)| choices.len() > 1));
        let ours = cost(&stages, &working, &path);
        assert_eq!(ours, best(&stages, &working, &mut Vec::new()), "round {round}");
    }
    assert!(compared > 150 && had_choice > 100, "{compared} compared, {had_choice} with a choice");
}
