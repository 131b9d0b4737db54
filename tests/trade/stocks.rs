//! Limited stocks: what a gym has, disc by disc. Values are [C], added up by hand.

use setwright::quantity::Exact;
use setwright::strength::{HungLoads, Plate, Rounding};

use super::tools::{counted, kg, kgs, lb, lbs, loads, nearest, side};

#[test]
fn heaviest_first_fails_where_a_choice_exists() {
    // [C] Stock a side {20 x 1, 15 x 2}, 30 a side.
    let bar = loads(kg("20"), &counted(&[(kg("20"), 2), (kg("15"), 4)]));
    let built = nearest(&bar, kg("80"));
    assert_eq!((built.mass, side(&built)), (kg("80"), &kgs("15 15")[..]));
    // [C, brute force] Stock a side {25 x 1, 20 x 2}, 40 a side.
    let bar = loads(kg("20"), &counted(&[(kg("25"), 2), (kg("20"), 4)]));
    let built = nearest(&bar, kg("100"));
    assert_eq!((built.mass, side(&built)), (kg("100"), &kgs("20 20")[..]));
    // [C, brute force] Stock a side {45 x 1, 35 x 1, 25 x 1}, 60 a side.
    let bar = loads(lb("45"), &counted(&[(lb("45"), 2), (lb("35"), 2), (lb("25"), 2)]));
    let built = nearest(&bar, lb("165"));
    assert_eq!((built.mass, side(&built)), (lb("165"), &lbs("35 25")[..]));
}

#[test]
fn an_odd_disc_stays_on_the_rack() {
    let bar = loads(kg("20"), &counted(&[(kg("20"), 3), (kg("10"), 1)]));
    assert_eq!(bar.masses(), [kg("20"), kg("60")]);
    // Two lines of one disc each make a pair.
    let bar = loads(kg("20"), &counted(&[(kg("10"), 1), (kg("10"), 1)]));
    assert_eq!(bar.heaviest().mass, kg("40"));
    // The heaviest kind of all is a single one.
    let bar = loads(kg("20"), &counted(&[(kg("25"), 1), (kg("20"), 2)]));
    assert_eq!(side(&bar.heaviest()), kgs("20"));
    assert_eq!(bar.next_down(kg("60")), Some(bar.lightest()));
    assert_eq!(bar.next_up(kg("60")), None);
}

#[test]
fn discs_without_mass_are_ignored() {
    let none = [Plate::unlimited(kg("0")), Plate::unlimited(kg("0") - kg("5"))];
    assert_eq!(loads(kg("20"), &none).masses(), [kg("20")]);
}

#[test]
fn kilograms_and_pounds_mix_on_one_bar() {
    let bar = loads(kg("20"), &counted(&[(kg("20"), 2), (lb("45"), 2), (kg("1.25"), 2)]));
    let masses = [
        kg("20"),
        kg("22.5"),
        kg("60"),
        kg("20") + lb("90"),
        kg("62.5"),
        kg("22.5") + lb("90"),
        kg("60") + lb("90"),
        kg("62.5") + lb("90"),
    ];
    assert_eq!(bar.masses(), masses);
    assert_eq!(side(&bar.heaviest()), [lb("45"), kg("20"), kg("1.25")], "heaviest inside");
    assert_eq!(bar.smallest_step(), lb("90") - kg("40"));
}

#[test]
fn the_loads_between_two_bounds_include_both() {
    let bar = loads(kg("20"), &counted(&[(kg("10"), 2), (kg("5"), 2), (kg("2.5"), 2)]));
    let masses = |low: &str, high: &str| -> Vec<_> {
        let [low, high] = [low, high].map(|mass| Exact::from_mass(kg(mass)));
        bar.between(&low, &high).map(|built| built.mass).collect()
    };
    assert_eq!(masses("30", "40"), kgs("30 35 40"));
    assert_eq!(masses("31", "34"), []);
    assert_eq!(masses("40", "30"), []);
}

#[test]
fn a_belt_takes_single_discs() {
    let discs = counted(&[(kg("10"), 1), (kg("5"), 1), (kg("1.25"), 2)]);
    let belt = HungLoads::new(&discs).unwrap();
    assert_eq!(belt.build(&kg("6").into(), Rounding::Nearest).mass, kg("6.25"));
    assert_eq!(belt.build(&kg("6").into(), Rounding::Down).mass, kg("5"));
    assert_eq!(belt.masses().last(), Some(&kg("17.5")));
}
