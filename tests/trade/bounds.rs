//! The maximum size of a stock, and the limit in the message.

use setwright::quantity::Mass;
use setwright::strength::{Bar, BarLoads, HungLoads, Plate};

use super::tools::{kg, kgs, lbs, loads, unlimited};

#[test]
fn every_disc_that_a_gym_may_own_stays_within_the_bound() {
    // 11 kinds of kilogram discs and 7 of pound discs, four of each: more than any wall holds.
    let all = [kgs("25 20 15 10 5 2.5 2 1.5 1.25 1 0.5"), lbs("45 35 25 10 5 2.5 1.25")].concat();
    let plates: Vec<_> = all.iter().map(|&mass| Plate::counted(mass, 4)).collect();
    let count = loads(kg("20"), &plates).masses().len();
    assert!(count > 10_000, "{count}");
    assert!(HungLoads::new(&plates).is_ok());
}

#[test]
fn huge_counts_are_cut_by_the_sleeve() {
    let discs = kgs("25 20 15 10 5 2.5 1.25 0.5");
    let counted: Vec<_> = discs.iter().map(|&mass| Plate::counted(mass, u32::MAX)).collect();
    let bar = loads(kg("20"), &counted);
    assert_eq!(bar.masses(), loads(kg("20"), &unlimited(&discs)).masses());
}

#[test]
fn too_many_loads_is_an_error_that_names_its_limit() {
    // Each disc twice the one before: every choice is another sum.
    let doubling: Vec<_> = (0..40)
        .map(|n| Plate {
            mass: Mass::from_units(1_000_000 << n),
            count: Some(2),
            thickness_mm: Some(1),
        })
        .collect();
    let error = BarLoads::new(&Bar::plain(kg("20")), &doubling, Mass::ZERO).err().unwrap();
    assert_eq!(error.limit, 200_000);
    assert_eq!(error.to_string(), "these plates make more than 200000 different loads");
    // More kinds than a choice can be written down for.
    let many: Vec<_> = (1..=200)
        .map(|n| Plate { mass: kg("1") * n, count: None, thickness_mm: Some(1) })
        .collect();
    assert!(BarLoads::new(&Bar::plain(kg("20")), &many, Mass::ZERO).is_err());
}
