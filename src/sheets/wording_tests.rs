use super::*;
use crate::plan::PlannedSet;
use crate::sheets::sample::{athlete, kg, lb, reps, set};
use crate::sheets::sample_plans::all;

fn words(signs: Signs) -> Wording {
    Wording::new("en", &athlete("Wren Tallow", Vec::new()), signs)
}

fn load(set: &PlannedSet) -> String {
    words(PRINTED).load(set).unwrap().replace('\u{a0}', " ")
}

#[test]
fn loads_read_as_the_athlete_picks_them_up() {
    let name = || "Cable".to_owned();
    for (set, text) in [
        (set("5").barbell(&["15", "2.5", "1.25"]), "57.5 kg"),
        (set("5").with(kg("16"), Implement::Dumbbells), "2 × 16 kg"),
        (set("5").with(kg("16"), Implement::Kettlebells), "2 × 16 kg"),
        (set("5 each side").with(kg("16"), Implement::Dumbbell), "16 kg, one hand"),
        (set("5").with(kg("16"), Implement::Dumbbell), "16 kg, one dumbbell"),
        (set("5").with(kg("25"), Implement::Stack { name: name() }), "pin 25 kg"),
        (set("5").with(Mass::ZERO, Implement::Band { name: "red".to_owned() }), "red band"),
        (set("5").with(kg("60"), Implement::Other).about(), "about 60 kg"),
        (set("5").body("0"), "body mass"),
        (set("5").body("10"), "body mass + 10 kg"),
        (set("5").body("-15"), "body mass − 15 kg (assisted)"),
    ] {
        assert_eq!(load(&set), text);
    }
    assert_eq!(words(PRINTED).load(&set("5")), None);
}

#[test]
fn reps_read_as_on_a_whiteboard() {
    for (text, printed) in [
        ("6", "6"),
        ("8-12", "8–12"),
        ("5+", "5+"),
        ("AMRAP", "AMRAP"),
        ("3+3+3", "3+3+3 (20 s between)"),
        ("30 s", "30 s"),
        ("20-40 s", "20–40 s"),
        ("40 m each side", "40 m each side"),
    ] {
        assert_eq!(words(PRINTED).reps(&reps(text)).replace('\u{a0}', " "), printed);
        assert_eq!(words(PLAIN).reps(&reps(text)), printed.replace('–', "-"));
    }
}

#[test]
fn a_load_off_its_target_says_so() {
    let set = set("5").barbell(&["15"]).off("51.3");
    assert_eq!(words(PLAIN).off_target(&set).unwrap(), "target 51.3 kg");
}

#[test]
fn the_other_unit_stands_beside() {
    let plan = all();
    let words = Wording::new("en", plan.athletes.last().unwrap(), PLAIN);
    let set = set("5").bar(lb("45"), vec![lb("45")]);
    assert_eq!(words.load(&set).unwrap(), "135 lb");
    assert_eq!(words.in_other_unit(&set).unwrap(), "61.2 kg");
}

#[test]
fn alike_plates_are_counted_from_three_on() {
    let plates: Vec<Mass> = ["20", "20", "20", "5", "5", "1.25"].map(kg).to_vec();
    assert_eq!(words(PLAIN).pieces(&plates), "20 + 20 + 20 + 5 + 5 + 1.25");
}
