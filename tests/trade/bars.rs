//! Competition bars and plates, and published loadings.

use setwright::plan::Implement;
use setwright::quantity::Mass;
use setwright::strength::{Bar, BarLoads, Plate, Rounding};

use super::tools::{kg, kgs, lb, lbs, loads, nearest, side, unlimited};

/// Weightlifting federation rules [S2].
const COMPETITION: &str = "25 20 15 10 5 2.5 2 1.5 1 0.5";

#[test]
fn the_worked_110_kg() {
    // [S] Dziepak 1997: 25 + 15 + 2.5 a side, bar 20, collars 5 → 110 kg.
    let bar = Bar { name: Some("Men's".into()), mass: kg("20") };
    let plates = unlimited(&kgs(COMPETITION));
    let loads = BarLoads::new(&bar, &plates, kg("5")).unwrap();
    let built = nearest(&loads, kg("110"));
    assert_eq!(built.mass, kg("110"));
    let how = Implement::Bar {
        bar: kg("20"),
        name: Some("Men's".into()),
        collars: kg("5"),
        per_side: kgs("25 15 2.5"),
    };
    assert_eq!(built.how, how);
}

#[test]
fn competition_bars_and_collars() {
    // [S2] Bars 20 and 15 kg, collars 2.5 kg each and counted: also on the empty bar.
    for (bar, empty) in [("20", "25"), ("15", "20")] {
        let loads = BarLoads::new(&Bar::plain(kg(bar)), &unlimited(&kgs(COMPETITION)), kg("5"));
        let loads = loads.unwrap();
        assert_eq!(loads.lightest().mass, kg(empty));
        assert!(side(&loads.lightest()).is_empty());
        assert_eq!(loads.smallest_step(), kg("1"), "half a kilogram a side");
    }
}

#[test]
fn a_load_of_102_5_kg_needs_plates_of_1_25() {
    // [C] 41.25 a side; the competition set steps by 0.5. As near below as above: the lighter.
    let competition = loads(kg("20"), &unlimited(&kgs(COMPETITION)));
    assert_eq!(nearest(&competition, kg("102.5")).mass, kg("102"));
    assert_eq!(competition.build(&kg("102.5").into(), Rounding::Down).mass, kg("102"));
    assert_eq!(competition.next_up(kg("102.5")).unwrap().mass, kg("103"));
    // [C] With 1.25s: 25 + 15 + 1.25.
    let gym = loads(kg("20"), &unlimited(&kgs("25 20 15 10 5 2.5 1.25")));
    let built = nearest(&gym, kg("102.5"));
    assert_eq!((built.mass, side(&built)), (kg("102.5"), &kgs("25 15 1.25")[..]));
}

#[test]
fn fewest_plates_is_not_heaviest_first_in_pounds() {
    // [C, brute force] Pound plates 45/35/25/10/5/2.5 (common practice, no source).
    let bar = loads(lb("45"), &unlimited(&lbs("45 35 25 10 5 2.5")));
    for (a_side, plates) in
        [("60", "35 25"), ("62.5", "35 25 2.5"), ("105", "45 35 25"), ("107.5", "45 35 25 2.5")]
    {
        let built = nearest(&bar, lb("45") + lb(a_side) * 2);
        assert_eq!(side(&built), lbs(plates), "{a_side} lb a side");
    }
}

#[test]
fn heaviest_first_is_fewest_in_kilograms_up_to_120_a_side() {
    // [C, brute force] 25/20/15/10/5/2.5/1.25, unlimited.
    let discs = kgs("25 20 15 10 5 2.5 1.25");
    let bar = loads(kg("20"), &unlimited(&discs));
    for steps in 0..=96 {
        let a_side = kg("1.25") * steps;
        let mut greedy = Vec::new();
        let mut left = a_side;
        for &disc in &discs {
            while left >= disc {
                greedy.push(disc);
                left = left - disc;
            }
        }
        let built = nearest(&bar, kg("20") + a_side * 2);
        assert_eq!((built.mass, side(&built)), (kg("20") + a_side * 2, &greedy[..]));
    }
}

#[test]
fn an_ordinary_bar_takes_250_kg() {
    // Sets of plates and the most that a bar is loaded with: common practice, no source.
    for discs in ["25 20 15 10 5 2.5 1.25", "20 15 10 5 2.5 1.25", "20 10 5 2.5 1.25"] {
        let bar = loads(kg("20"), &unlimited(&kgs(discs)));
        assert_eq!(nearest(&bar, kg("250")).mass, kg("250"), "{discs}");
    }
    let pounds = loads(lb("45"), &unlimited(&lbs("45 35 25 10 5 2.5")));
    assert_eq!(nearest(&pounds, lb("585")).mass, lb("585"));
}

#[test]
fn what_does_not_fit_on_the_sleeve_is_no_load() {
    // [S2] Sleeves 415 mm (20 kg bar) and 320 mm (15 kg bar). Discs of 100 mm: four, and three.
    let thick = [Plate { mass: kg("20"), count: None, thickness_mm: Some(100) }];
    assert_eq!(loads(kg("20"), &thick).heaviest().mass, kg("180"));
    assert_eq!(loads(kg("15"), &thick).heaviest().mass, kg("135"));
    assert_eq!(loads(kg("15"), &thick).masses().len(), 4);
}

#[test]
fn more_plates_where_the_fewest_do_not_fit() {
    let disc =
        |mass, thickness| Plate { mass: kg(mass), count: Some(4), thickness_mm: Some(thickness) };
    let bar = loads(kg("20"), &[disc("20", 300), disc("10", 50)]);
    assert_eq!(side(&nearest(&bar, kg("60"))), kgs("20"), "one is fewest, and fits");
    assert_eq!(side(&nearest(&bar, kg("100"))), kgs("20 10 10"), "two thick ones do not fit");
    assert_eq!(bar.heaviest().mass, kg("100"));
    // The same mass in iron and in rubber: the thin ones first, both counted.
    let mixed = [disc("20", 80), disc("20", 38)];
    assert_eq!(loads(kg("20"), &mixed).heaviest().mass, kg("20") + kg("20") * 8);
}

#[test]
fn below_the_lightest_is_the_lightest_and_above_the_heaviest_the_heaviest() {
    let bar = loads(kg("20"), &[Plate::counted(kg("10"), 2)]);
    for rounding in [Rounding::Nearest, Rounding::Down] {
        assert_eq!(bar.build(&Mass::ZERO.into(), rounding).mass, kg("20"));
        assert_eq!(bar.build(&kg("500").into(), rounding).mass, kg("40"));
    }
    assert_eq!(bar.next_down(kg("20")), None);
    assert_eq!(bar.next_up(kg("40")), None);
    assert_eq!(loads(kg("20"), &[]).smallest_step(), Mass::ZERO);
}
