//! Every planned load is one that the gym can make, and no other is nearer: checked by trying all.

use std::collections::BTreeMap;

use proptest::prelude::*;
use setwright::plan::{Built, Implement, PlannedSet, SetKind};
use setwright::quantity::{Exact, Mass};
use setwright::strength::{Bar, Plate};

use super::generate::{Made, Stock};
use super::support::{cases, compiled, findings, streams};

/// The room on a belt's chain, in millimetres (`strength::hung`; common practice, no source).
const CHAIN: u32 = 250;

/// Every sum of so many discs at a time that fits, with the fewest pieces for it.
fn sums(plates: &[(Mass, u32)], at_once: u32, room: u32) -> BTreeMap<Mass, usize> {
    let mut all: Vec<(Mass, u32, usize)> = vec![(Mass::ZERO, 0, 0)];
    for (mass, count) in plates {
        let thick = Plate::unlimited(*mass).thickness();
        let mut more = Vec::new();
        for n in 0..=count / at_once {
            let with = all.iter().map(|(sum, thickness, pieces)| {
                (*sum + *mass * i64::from(n), thickness + thick * n, pieces + n as usize)
            });
            more.extend(with.filter(|(_, thickness, _)| *thickness <= room));
        }
        all = more;
    }
    let mut best = BTreeMap::new();
    for (sum, _, pieces) in all {
        let fewest = best.entry(sum).or_insert(pieces);
        *fewest = pieces.min(*fewest);
    }
    best
}

/// The load that stands for a target, by looking at all of them.
fn stands_for(target: &Exact, loads: impl Iterator<Item = Mass> + Clone, down: bool) -> Mass {
    let lightest = loads.clone().min().unwrap();
    let not_heavier = loads.clone().filter(|load| Exact::from(*load) <= *target).max();
    if down {
        return not_heavier.unwrap_or(lightest);
    }
    loads.min_by_key(|load| ((&Exact::from(*load) - target).abs(), *load)).unwrap()
}

fn smallest_step(loads: &[Mass]) -> Mass {
    let mut loads = loads.to_vec();
    loads.sort_unstable();
    loads.dedup();
    loads.windows(2).map(|pair| pair[1] - pair[0]).min().unwrap_or_default()
}

fn assert_pieces(pieces: &[Mass], stock: &Stock, at_once: u32) {
    assert!(pieces.is_sorted_by(|a, b| a >= b), "heaviest first");
    for (mass, count) in &stock.plates {
        let used = pieces.iter().filter(|piece| *piece == mass).count();
        assert!(used <= (count / at_once) as usize, "{used} of {count}");
    }
    assert!(pieces.iter().all(|piece| stock.plates.iter().any(|(mass, _)| mass == piece)));
}

fn assert_set(set: &PlannedSet, stock: &Stock, down: bool) {
    let Some(Built { mass, how }) = &set.load else {
        assert!(!set.off_target);
        return;
    };
    let target = set.target.as_ref().expect("a load has a target");
    let loads: Vec<Mass> = match how {
        Implement::Bar { bar, collars, per_side, name } => {
            assert!(stock.bars.contains(bar) && name.is_none());
            assert_eq!(*collars, stock.collars);
            let side: Mass = per_side.iter().copied().sum();
            assert_eq!(*mass, *bar + *collars + side * 2, "the same on both sides");
            assert_pieces(per_side, stock, 2);
            let sums = sums(&stock.plates, 2, Bar::plain(*bar).sleeve_mm());
            assert_eq!(sums.get(&side), Some(&per_side.len()), "the fewest plates");
            sums.keys().map(|side| *bar + *collars + *side * 2).collect()
        }
        Implement::Dumbbells => stock.dumbbells.clone(),
        Implement::Stack { .. } => stock.pins.clone(),
        Implement::BodyMass { pieces } if target > &Exact::zero() => {
            assert_eq!(*mass, pieces.iter().copied().sum());
            if stock.plates.is_empty() {
                // Then a bell hangs, if any.
                assert!(pieces.iter().all(|piece| stock.dumbbells.contains(piece)));
                return;
            }
            assert_pieces(pieces, stock, 1);
            let sums = sums(&stock.plates, 1, CHAIN);
            assert_eq!(sums.get(mass), Some(&pieces.len()), "the fewest pieces");
            sums.into_keys().collect()
        }
        Implement::BodyMass { pieces } => {
            assert!(pieces.is_empty());
            assert_eq!(*mass, target.to_mass(), "nothing hung: assistance stands as asked");
            return;
        }
        other => panic!("no such thing in the gym: {other:?}"),
    };
    assert!(loads.contains(mass), "{mass:?} cannot be made");
    if set.kind != SetKind::WarmUp {
        assert_eq!(*mass, stands_for(target, loads.iter().copied(), down), "the nearest");
        let missed = (&Exact::from(*mass) - target).abs();
        assert_eq!(set.off_target, missed > Exact::from(smallest_step(&loads)), "off target");
    }
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn every_load_can_be_made_and_none_is_nearer(stream in streams()) {
        let made = Made::new(&stream);
        let text = made.text();
        let compiled = compiled(&text);
        let Some(plan) = &compiled.plan else {
            return Err(TestCaseError::fail(format!("{text}\n{}", findings(&compiled))));
        };
        for (athlete, home) in plan.athletes.iter().zip(&made.homes) {
            let stock = &made.stocks[*home];
            let down = made.rounding.unwrap_or(stock.down);
            let exercises = athlete.sessions.iter().flat_map(|session| &session.exercises);
            for set in exercises.flat_map(|exercise| &exercise.sets) {
                assert_set(set, stock, down);
            }
        }
    }
}
