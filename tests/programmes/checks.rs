//! Numbers of the projects, worked out by hand (exact fractions, plates tried one by one) before
//! the tool was run. The equations are those of `strength::estimate`, with the sources in
//! `tests/trade/estimates.rs`; the rest is arithmetic: computed by hand, no source.

use setwright::plan::{Built, Implement, Plan, PlannedExercise, PlannedSet};
use setwright::quantity::{Exact, Mass, Unit};

use super::listing::compiled;

fn plan(name: &str) -> Plan {
    compiled(&format!("tests/programmes/{name}"), None).plan
}

fn line<'p>(
    plan: &'p Plan,
    athlete: &str,
    week: u32,
    day: &str,
    order: &str,
) -> &'p PlannedExercise {
    let athlete = plan.athletes.iter().find(|a| a.name == athlete).unwrap();
    let session = athlete.sessions.iter().find(|s| s.week == week && s.day == day).unwrap();
    session.exercises.iter().find(|e| e.order.to_string() == order).unwrap()
}

/// What a set comes to, all in one unit: the exact target as a fraction, the load, and the plates
/// of one side (or what is hung on the body).
type Sum<'a> = ((i64, i64), &'a str, &'a [&'a str]);

fn mass(text: &str, unit: Unit) -> Mass {
    let (sign, text) = text.strip_prefix('-').map_or((1, text), |rest| (-1, rest));
    let decimal = setwright::quantity::Decimal::parse(text).unwrap();
    Mass::from_decimal(decimal, unit).unwrap() * sign
}

fn assert_set(set: &PlannedSet, unit: Unit, (target, load, pieces): Sum<'_>, at: &str) {
    let one = Exact::from_mass(Mass::from_units(unit.in_units()));
    let wanted = &Exact::ratio(target.0, target.1) * &one;
    assert_eq!(set.target.as_ref(), Some(&wanted), "target of {at}");
    let Built { mass: built, how } = set.load.as_ref().unwrap();
    assert_eq!(*built, mass(load, unit), "load of {at}");
    let found = match how {
        Implement::Bar { per_side, .. } => per_side.as_slice(),
        Implement::BodyMass { pieces } => pieces.as_slice(),
        _ => &[],
    };
    let wanted: Vec<Mass> = pieces.iter().map(|piece| mass(piece, unit)).collect();
    assert_eq!(found, wanted, "plates of {at}");
}

/// Checks the n-th set of each line of day One.
fn assert_all(name: &str, unit: Unit, rows: &[(&str, u32, &str, usize, Sum<'_>)]) {
    let plan = plan(name);
    for (athlete, week, order, nth, sum) in rows {
        let at = format!("{name}: {athlete}, week {week}, {order}, set {nth}");
        let set = &line(&plan, athlete, *week, "One", order).sets[*nth];
        assert_set(set, unit, *sum, &at);
    }
}

/// Sets and repetitions of each line.
fn assert_counts(name: &str, rows: &[(&str, u32, &str, usize, &str)]) {
    let plan = plan(name);
    for (athlete, week, order, count, reps) in rows {
        let sets = &line(&plan, athlete, *week, "One", order).sets;
        let at = format!("{name}: {athlete}, week {week}, {order}");
        assert_eq!(sets.len(), *count, "{at}");
        assert_eq!(sets[0].reps.to_string(), *reps, "{at}");
    }
}

const P: &str = "Perrin Oake";
const T: &str = "Tamsin Groat";

/// Perrin: squat 142.5, bench 90 x (1 + 5/30) = 105, front squat 4/5 of 142.5 = 114; at 90 %:
/// 128.25, 94.5, 102.6. Tamsin: squat 70 x 38/30 = 266/3, front squat 60 x 33/30 = 66; at 85 %.
#[test]
fn percentages() {
    assert_all(
        "percentages",
        Unit::Kg,
        &[
            // 142.5 x 0.9 x 0.725
            (P, 1, "A", 0, ((9_298_125, 100_000), "92.5", &["25", "10", "1.25"])),
            // 266/3 x 0.85 x 0.725
            (T, 1, "A", 0, ((65_569, 1_200), "55", &["15", "2.5"])),
            // 142.5 x 0.8; 115 is 1 away, 112.5 is 1.5 away
            (P, 1, "B", 0, ((114, 1), "115", &["25", "20", "2.5"])),
            (T, 1, "B", 0, ((1_064, 15), "70", &["25"])),
            // half of the squat's training max
            (P, 1, "C", 0, ((64_125, 1_000), "65", &["20", "2.5"])),
            (T, 1, "C", 0, ((2_261, 60), "37.5", &["5", "2.5", "1.25"])),
            // 102.6 x 0.85, then nine tenths and four fifths of that
            (P, 1, "D", 0, ((8_721, 100), "87.5", &["25", "5", "2.5", "1.25"])),
            (P, 1, "D", 1, ((78_489, 1_000), "77.5", &["25", "2.5", "1.25"])),
            (P, 1, "D", 3, ((69_768, 1_000), "70", &["25"])),
            // 94.5 x 0.7, 0.725, 0.75
            (P, 1, "E", 0, ((6_615, 100), "65", &["20", "2.5"])),
            (P, 2, "E", 0, ((685_125, 10_000), "67.5", &["20", "2.5", "1.25"])),
            (P, 3, "E", 0, ((70_875, 1_000), "70", &["25"])),
            (P, 3, "F", 0, ((65, 1), "65", &["20", "2.5"])),
            // the latest session's load and 2.5 kg more, twice
            (P, 3, "G", 0, ((65, 1), "65", &["20", "2.5"])),
            // 128.25 x 0.55
            (P, 3, "H", 0, ((705_375, 10_000), "70", &["25"])),
        ],
    );
}

/// All in pounds. A kilogram is 100,000,000/45,359,237 lb.
#[test]
fn pounds() {
    let c = "Corin Vane";
    assert_all(
        "pounds",
        Unit::Lb,
        &[
            (c, 1, "A", 0, ((945, 4), "235", &["45", "45", "5"])),
            // 144 kg are 317.466 lb: 315 is nearer than 320
            (c, 1, "B", 0, ((14_400_000_000, 45_359_237), "315", &["45", "45", "25", "10", "10"])),
            // 185 x 35/30 x 0.7
            (c, 1, "C", 0, ((1_813, 12), "150", &["45", "5", "2.5"])),
            // between 95 and 100
            (c, 1, "D", 0, ((195, 2), "95", &["25"])),
            // 132.277 lb: 130 is 2.277 away, 135 is 2.723
            (c, 1, "E", 0, ((6_000_000_000, 45_359_237), "130", &["25", "10", "5", "2.5"])),
            // 44.092 lb
            (c, 1, "F", 0, ((2_000_000_000, 45_359_237), "45", &[])),
        ],
    );
}

/// Max 100. Epley: 100 / (1 + (reps + reserve)/30); between one rep and two, the line from 1 to
/// 32/30, so 1.5 reps are 31/30.
#[test]
fn efforts() {
    assert_all(
        "efforts",
        Unit::Kg,
        &[
            (P, 1, "A", 0, ((3_000, 37), "80", &["20", "10"])),
            (P, 1, "B", 0, ((75, 1), "75", &["20", "5", "2.5"])),
            (P, 1, "C", 0, ((6_000, 67), "90", &["20", "10", "5"])),
            (P, 1, "D", 0, ((3_000, 31), "97.5", &["20", "10", "5", "2.5", "1.25"])),
            (P, 1, "E", 0, ((100, 1), "100", &["20", "20"])),
            (P, 1, "F", 0, ((3_000, 38), "80", &["20", "10"])),
            (P, 2, "F", 0, ((3_000, 36), "82.5", &["20", "10", "1.25"])),
            (P, 1, "G", 0, ((600, 7), "85", &["20", "10", "2.5"])),
            (P, 1, "G", 1, ((540, 7), "77.5", &["20", "5", "2.5", "1.25"])),
            (P, 1, "H", 0, ((3_000, 37), "80", &["20", "10"])),
            // a tenth lighter
            (P, 3, "A", 0, ((2_700, 37), "72.5", &["20", "5", "1.25"])),
        ],
    );
    let plan = plan("efforts");
    for order in ["A", "B", "C", "D", "E", "F", "G", "H"] {
        assert!(line(&plan, P, 1, "One", order).sets.iter().all(|set| set.about), "{order}");
    }
    assert!(!line(&plan, P, 1, "One", "J").sets[0].about);
    for order in ["I", "K", "L"] {
        let set = &line(&plan, P, 1, "One", order).sets[0];
        assert_eq!((&set.target, &set.load), (&None, &None), "{order}");
    }
}

/// Perrin weighs 80: pull-up 100 in all, dip 90 x 35/30 = 105. Isla weighs 61: pull-up
/// 61 x 33/30 = 67.1, dip 65.
#[test]
fn body_mass() {
    let i = "Isla Brandt";
    assert_all(
        "body-mass",
        Unit::Kg,
        &[
            (P, 1, "A", 0, ((5, 1), "5", &["5"])),
            // 85 x 0.9 - 80 is below the body mass, where a phase stops
            (P, 2, "A", 0, ((0, 1), "0", &[])),
            (P, 1, "B", 0, ((10, 1), "10", &["10"])),
            // 90 x 0.9 - 80
            (P, 2, "B", 0, ((1, 1), "1.25", &["1.25"])),
            (P, 2, "C", 0, ((0, 1), "0", &[])),
            // 65 x 0.9 - 80
            (P, 2, "D", 0, ((-43, 2), "-21.5", &[])),
            (P, 1, "E", 0, ((40, 37), "1.25", &["1.25"])),
            // 105 x 0.8 - 80; there are two 1.25s and two 2.5s
            (P, 1, "F", 0, ((4, 1), "3.75", &["2.5", "1.25"])),
            (P, 2, "F", 0, ((0, 1), "0", &[])),
            // 67.1 x 0.85 - 61
            (i, 1, "A", 0, ((-3_965, 1_000), "-3.965", &[])),
            // between the bells of 8 and 12
            (i, 1, "B", 0, ((10, 1), "8", &["8"])),
        ],
    );
}

/// 71 x 0.9 - 61 = 2.9: nothing at all is 2.9 away, the bell of 8 is 5.1 away.
#[test]
fn a_light_load_on_the_body_may_be_nothing() {
    assert_all("body-mass", Unit::Kg, &[("Isla Brandt", 2, "B", 0, ((29, 10), "0", &[]))]);
}

/// Sets: 4 x 0.6 = 2.4 gives 2, 3 x 0.6 = 1.8 gives 2, 5 x 0.6 = 3.
#[test]
fn weeks() {
    assert_all(
        "weeks",
        Unit::Kg,
        &[
            (P, 3, "A", 0, ((65, 1), "65", &["20", "2.5"])),
            // a tenth off week 3; 57.5 is 1 away, 60 is 1.5 away
            (P, 4, "A", 0, ((117, 2), "57.5", &["15", "2.5", "1.25"])),
            (P, 5, "A", 0, ((70, 1), "70", &["25"])),
            (P, 8, "A", 1, ((95, 1), "95", &["25", "10", "2.5"])),
            (P, 4, "B", 0, ((99, 2), "50", &["15"])),
            (P, 7, "B", 0, ((70, 1), "70", &["25"])),
            // six steps: week 4 takes none of its own
            (P, 8, "D", 0, ((55, 1), "55", &["15", "2.5"])),
            (P, 4, "D", 0, ((81, 2), "40", &["10"])),
            (P, 4, "E", 0, ((60, 1), "60", &["20"])),
            (P, 4, "F", 0, ((54, 1), "55", &["15", "2.5"])),
            (P, 4, "G", 0, ((60, 1), "60", &["20"])),
            (T, 1, "I", 0, ((50, 1), "50", &["15"])),
            (T, 4, "I", 0, ((45, 1), "45", &["10", "2.5"])),
            (T, 8, "I", 0, ((50, 1), "50", &["15"])),
        ],
    );
    assert_counts(
        "weeks",
        &[
            (P, 3, "A", 4, "6"),
            (P, 4, "A", 2, "6"),
            (P, 8, "A", 2, "4"),
            (P, 4, "B", 3, "6"),
            (P, 5, "B", 4, "4"),
            (P, 3, "C", 3, "10"),
            (P, 4, "C", 2, "10"),
            (P, 5, "C", 3, "11"),
            (P, 8, "C", 3, "14"),
            (P, 4, "E", 3, "5"),
            (P, 4, "F", 2, "5"),
            (P, 4, "G", 3, "5"),
            (P, 3, "H", 4, "5"),
            (P, 4, "H", 2, "5"),
            (P, 8, "H", 4, "5"),
            (T, 1, "I", 2, "8"),
            (T, 4, "I", 1, "8"),
            (T, 8, "I", 1, "8"),
        ],
    );
}

#[test]
fn schemes() {
    assert_all(
        "schemes",
        Unit::Kg,
        &[
            (P, 2, "B", 0, ((125, 2), "62.5", &["20", "1.25"])),
            (P, 2, "C", 0, ((75, 1), "75", &["20", "5", "2.5"])),
            (P, 4, "C", 1, ((153, 2), "77.5", &["20", "5", "2.5", "1.25"])),
        ],
    );
    assert_counts(
        "schemes",
        &[
            (P, 1, "A", 3, "5-8"),
            // 1.5 sets give 2
            (P, 3, "A", 2, "5-8"),
            (P, 4, "A", 2, "5"),
            (P, 1, "C", 4, "6"),
            // one week's line stands as written
            (P, 3, "C", 2, "5"),
            (P, 4, "C", 3, "3"),
        ],
    );
    let plan = plan("schemes");
    let rules = |week, order| line(&plan, P, week, "One", order).rules.clone();
    assert_eq!(
        rules(2, "B"),
        [
            "all reps made: hold",
            "top of range: load +5 lb, reps to bottom",
            "missed 3 in a row: load -10%"
        ]
    );
    assert_eq!(rules(3, "B"), [""; 0], "no rule acts in a deload week");
}

/// Rounds and minutes x 0.6, half up: 3 gives 2, 10 min give 6, 9 give 5, 12 give 7.
#[test]
fn together() {
    assert_counts(
        "together",
        &[
            (P, 2, "A1", 2, "8"),
            (P, 2, "B3", 3, "30 s"),
            (P, 2, "C2", 1, "10"),
            (P, 1, "D1", 3, "8"),
            (P, 2, "D1", 2, "8"),
            (P, 2, "E1", 3, "8"),
            (P, 1, "F2", 10, "10"),
            (P, 2, "F2", 6, "10"),
            // nine intervals in turn: five and four; then five: three and two
            (P, 1, "G1", 5, "8"),
            (P, 1, "G2", 4, "10"),
            (P, 2, "G1", 3, "8"),
            (P, 2, "G2", 2, "10"),
            // 6 min by 90 s; 3.6 give 4 min, in which two intervals are whole
            (P, 1, "H1", 4, "8"),
            (P, 2, "H1", 2, "8"),
            (P, 2, "I1", 1, "8"),
        ],
    );
}

#[test]
fn set_forms() {
    assert_all(
        "set-forms",
        Unit::Kg,
        &[
            (P, 1, "A", 0, ((75, 1), "75", &["20", "5", "2.5"])),
            // 60, then four fifths, then four fifths of that
            (P, 1, "C", 2, ((48, 1), "47.5", &["10", "2.5", "1.25"])),
            (P, 1, "C", 3, ((192, 5), "37.5", &["5", "2.5", "1.25"])),
            (P, 1, "D", 1, ((45, 1), "45", &["10", "2.5"])),
            (P, 1, "D", 3, ((45, 1), "45", &["10", "2.5"])),
            (P, 1, "N", 4, ((54, 1), "55", &["10", "5", "2.5"])),
        ],
    );
    assert_counts(
        "set-forms",
        &[
            (P, 1, "A", 3, "3+3+3"),
            (P, 1, "C", 4, "8"),
            (P, 1, "D", 4, "8"),
            (P, 1, "F", 3, "8-10 each side (30 s between)"),
            (P, 1, "G", 3, "30 s each side"),
            (P, 1, "N", 5, "5"),
        ],
    );
}

#[test]
fn gear() {
    let (l, y) = ("Lofty", "Yardley");
    assert_all(
        "gear",
        Unit::Kg,
        &[
            // 20 and both collars are 21
            (l, 1, "A", 0, ((613, 10), "61", &["20"])),
            // too light for 21; 16 and nothing more, for 18.5 is above
            (l, 1, "B", 0, ((18, 1), "16", &[])),
            // all there is: three 2.5s make one a side
            (l, 1, "C", 0, ((200, 1), "98.5", &["20", "10", "5", "2.5", "1.25"])),
            (l, 1, "D", 0, ((45, 1), "43.5", &["10", "2.5", "1.25"])),
            (y, 1, "E", 0, ((45, 2), "20", &[])),
            (y, 1, "F", 0, ((45, 2), "22.5", &[])),
            (l, 1, "G", 0, ((24, 1), "16", &[])),
            (l, 1, "H", 0, ((21, 1), "16", &[])),
            (y, 1, "H", 0, ((21, 1), "24", &[])),
            (y, 1, "I", 0, ((55, 2), "25", &[])),
            (y, 1, "K", 0, ((70, 1), "70", &["20", "5"])),
            (y, 1, "L", 0, ((65, 1), "60", &["20"])),
            // between 10 and 12.5
            (y, 1, "M", 0, ((45, 4), "10", &[])),
        ],
    );
    let plan = plan("gear");
    let off: Vec<String> = plan.athletes[0].sessions[0]
        .exercises
        .iter()
        .filter(|e| e.sets.iter().any(|set| set.off_target))
        .map(|e| e.order.to_string())
        .collect();
    // A band has no step: 9 kg with one of 5 kg is more than 2.5 kg off.
    assert_eq!(off, ["C", "G", "J"], "more than the smallest step away");
}

/// The yard has bars of 20 and 15 kg, and no plate below 5 kg. For 18 kg the empty 20 is 2 away,
/// the empty 15 is 3 away.
#[test]
fn a_light_target_goes_to_the_nearest_bar() {
    assert_all("gear", Unit::Kg, &[("Yardley", 1, "B", 0, ((18, 1), "20", &[]))]);
}

/// Working load 105, so loads within 2.625 of a target may stand for it: 40 or 42.5, 62.5 or 65,
/// 82.5 or 85. All ways by those take 11 changes of plates or more, a side; of those with 11 the
/// nearest to the targets is 40, 62.5, 85.
#[test]
fn warm_ups() {
    assert_all(
        "warm-ups",
        Unit::Kg,
        &[
            (P, 1, "A", 0, ((20, 1), "20", &[])),
            (P, 1, "A", 1, ((42, 1), "40", &["10"])),
            (P, 1, "A", 2, ((63, 1), "62.5", &["20", "1.25"])),
            (P, 1, "A", 3, ((84, 1), "85", &["20", "10", "2.5"])),
            (P, 1, "A", 4, ((105, 1), "105", &["20", "20", "2.5"])),
            (P, 1, "E", 1, ((60, 1), "60", &["20"])),
            (P, 1, "E", 2, ((80, 1), "80", &["20", "10"])),
        ],
    );
    // B is the day's second line of its lift, D says none, F is no bar; 95 % of E is left out.
    assert_counts(
        "warm-ups",
        &[
            (P, 1, "A", 7, "8"),
            (P, 1, "B", 3, "8"),
            (P, 1, "D", 3, "5"),
            (P, 1, "E", 5, "5"),
            (P, 1, "F", 3, "10"),
        ],
    );
    assert_eq!(line(&plan("warm-ups"), P, 1, "Two", "A").sets.len(), 3);
}

/// 2026-01-28 is a Wednesday (any calendar).
#[test]
fn squad() {
    let plan = plan("squad");
    let names: Vec<&str> = plan.athletes.iter().map(|a| a.name.as_str()).collect();
    assert_eq!(names, [P, T]);
    let dates = |day: &str| -> Vec<String> {
        let sessions = plan.athletes[0].sessions.iter().filter(|s| s.day == day);
        sessions.map(|s| s.date.map_or("-".to_owned(), |date| date.to_string())).collect()
    };
    assert_eq!(dates("Early"), ["2026-01-30", "2026-02-06", "2026-02-13"]);
    assert_eq!(dates("Late"), ["2026-01-28", "2026-02-04", "2026-02-11"]);
    assert_eq!(dates("Some time"), ["-", "-", "-"]);
    let kg = |week, order, target: (i64, i64), load: &str, plates: &[&str]| {
        let set = &line(&plan, T, week, "Early", order).sets[0];
        assert_set(set, Unit::Kg, (target, load, plates), order);
    };
    // The programme's `nearest` stands over the gym's `down`: 56 is 1 from 55, 1.5 from 57.5.
    kg(1, "A", (56, 1), "55", &["10", "5", "2.5"]);
    // The replacement's own max for a percentage; the kilograms of a press with both arms are none
    // of a press with one.
    kg(1, "B", (35, 1), "35", &["5", "2.5"]);
    let landmine = &line(&plan, T, 1, "Early", "C").sets[0];
    assert!(landmine.to_choose && landmine.target.is_none() && landmine.load.is_none());
    let perrin = &line(&plan, P, 1, "Early", "A").sets[0];
    // 84 is 1 from 85, 1.5 from 82.5; `down` would say 82.5.
    assert_set(perrin, Unit::Kg, ((84, 1), "85", &["20", "10", "2.5"]), "Perrin");
    let limits = |week: u32, day: &str| -> usize {
        let session = plan.athletes[1].sessions.iter().find(|s| s.week == week && s.day == day);
        session.unwrap().limits.len()
    };
    // Until 3 February: Wednesday the 4th is after it, and so is week 2's first day.
    assert_eq!([limits(1, "Late"), limits(1, "Some time"), limits(2, "Late")], [2, 2, 1]);
    assert_eq!(limits(2, "Some time"), 1);
}

/// Rubber discs of 130 mm: three fit on the 415 mm of a 20 kg bar's sleeve, where iron ones of the
/// usual thickness would be nine. Computed by hand.
#[test]
fn plates_are_as_thick_as_the_gym_says() {
    let text = |size: &str| {
        format!(
            "gym Shed\n  bar: 20 kg\n  plates: 25 kg\n{size}\nathlete Robin Vale\n  gym: Shed\n\n\
             programme Thick\n  weeks: 1\n\nday One\n  A Deadlift: 1 x 5 @ 500 kg\n"
        )
    };
    let planned = |size: &str| {
        let loader = setwright::source::MemoryLoader::new();
        let project = setwright::resolve::Project::from_text(&loader, "t.sets", text(size));
        let choice = setwright::compile::Choice::default();
        let plan = setwright::compile::compile(project, &choice).unwrap().plan.unwrap();
        let sizes: Vec<(u32, u32)> = plan.athletes[0]
            .plate_sizes
            .iter()
            .map(|size| (size.diameter_mm, size.thickness_mm))
            .collect();
        (
            line(&plan, "Robin Vale", 1, "One", "A").sets.last().unwrap().plates_per_side().len(),
            sizes,
        )
    };
    assert_eq!(planned("  plate 25 kg: 450 x 130 mm\n"), (3, vec![(450, 130)]));
    assert_eq!(planned(""), (9, Vec::new()));
}
