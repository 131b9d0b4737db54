//! Loads lighter than the usual bar, and other equipment that makes a load; tried one by one, by
//! hand.

use setwright::compile::{Choice, check, compile};
use setwright::diagnostics::Code;
use setwright::plan::{Built, Implement, Plan, PlannedSet, StepKind};
use setwright::quantity::Unit;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

fn project(gym: &str, day: &str) -> Project {
    let text = format!(
        "gym Shed\n{gym}\nathlete Robin Vale\n  gym: Shed\n  body mass: 70 kg\n  \
         max Pull-up: 5 @ bodyweight +21 kg\n\n\
         programme Small\n  weeks: 1\n\nday One\n  A  {day}\n"
    );
    Project::from_text(&MemoryLoader::new(), "light.sets", text)
}

fn plan(gym: &str, day: &str) -> Plan {
    compile(project(gym, day), &Choice::default()).unwrap().plan.unwrap()
}

fn first(gym: &str, day: &str) -> PlannedSet {
    plan(gym, day).athletes[0].sessions[0].exercises[0].sets[0].clone()
}

/// The bar and the plates of one side, in kilograms.
fn bar(gym: &str, target: &str) -> String {
    let set = first(gym, &format!("Back squat: 1 x 5 @ {target}, no warm-up"));
    let Built { how, .. } = set.load.unwrap();
    let Implement::Bar { bar, per_side, .. } = how else { panic!("{how:?}") };
    let kilograms =
        [bar].into_iter().chain(per_side).map(|mass| mass.in_unit(Unit::Kg).to_string());
    kilograms.collect::<Vec<_>>().join(" ")
}

#[test]
fn a_load_below_the_usual_bar_goes_on_the_bar_that_comes_nearest() {
    let three = "  bar: 20 kg, 15 kg, 10 kg\n  plates: 5 kg x 2, 1.25 kg x 2\n";
    assert_eq!(bar(three, "20 kg"), "20");
    assert_eq!(bar(three, "12 kg"), "10 1.25", "12.5: half a kilogram away");
    assert_eq!(bar(three, "17.5 kg"), "15 1.25");
    // One bar is all there is.
    assert_eq!(bar("  bar: 20 kg\n  plates: 5 kg x 2\n", "12 kg"), "20");
}

#[test]
fn collars_belong_to_the_bar_alone() {
    // With its collars the usual bar is 21 kg: 20 is 15 + 1 + 2 a side.
    let gym = "  bar: 20 kg, 15 kg\n  plates: 5 kg x 2, 2 kg x 2\n  collars: 0.5 kg each\n";
    assert_eq!(bar(gym, "20 kg"), "15 2");
    assert_eq!(bar(gym, "21 kg"), "20");
}

#[test]
fn of_bars_as_near_the_fewest_plates() {
    // 17 is 15 + 1 a side (two discs), or 10 + 3.5 a side (one).
    let gym = "  bar: 20 kg, 15 kg, 10 kg\n  plates: 3.5 kg x 2, 0.5 kg x 4\n";
    assert_eq!(bar(gym, "17 kg"), "10 3.5");
}

#[test]
fn rounding_down_takes_no_heavier_bar() {
    let gym = "  bar: 20 kg, 15 kg, 10 kg\n  plates: 10 kg x 2\n  rounding: down\n";
    assert_eq!(bar(gym, "14 kg"), "10");
    assert_eq!(bar(gym, "15 kg"), "15");
    // Nothing is light enough: the lightest.
    assert_eq!(bar(gym, "8 kg"), "10");
}

#[test]
fn what_else_makes_a_load_exactly() {
    // The bar makes 20 and 40 kg; one line keeps one tool, which misses 70 or 20.
    let with = |equipment: &str, gym: &str| {
        let gym = format!("  bar: 20 kg\n  plates: 10 kg x 2\n{gym}");
        let exercise = format!("exercise Hoist\n  equipment: {equipment}\n");
        let line = "Hoist: 1 x 5 @ 20 kg, 1 x 5 @ 40 kg, 1 x 5 @ 70 kg";
        let plan = plan(&format!("{gym}\n{exercise}"), line);
        let set = plan.athletes[0].sessions[0].exercises[0].sets.last().unwrap().clone();
        assert!(set.off_target);
        set.exact_with
    };
    let exact = with("barbell, kettlebell", "  kettlebells: 70 kg\n");
    assert_eq!(exact.as_deref(), Some("kettlebell"));
    assert_eq!(with("barbell, kettlebell", "  kettlebells: 68 kg\n"), None);
    assert_eq!(with("barbell, body mass", "  kettlebells: 70 kg\n"), None);
    // A pair of 70 kg is no load of 70 kg.
    assert_eq!(with("barbell, kettlebells", "  kettlebells: 70 kg x 2\n"), None);
    // A band is about so strong.
    assert_eq!(with("barbell, band", "  bands: heavy 70 kg\n"), None);
}

#[test]
fn how_a_load_was_rounded_is_said() {
    let rounding = |gym: &str| {
        let set = first(gym, "Back squat: 1 x 5 @ 62 kg, no warm-up");
        match &set.derivation.last().unwrap().kind {
            StepKind::Built { rounding } => rounding.clone(),
            other => panic!("{other:?}"),
        }
    };
    let gym = "  bar: 20 kg\n  plates: 20 kg x 2\n";
    assert_eq!(rounding(gym), "nearest");
    assert_eq!(rounding(&format!("{gym}  rounding: down\n")), "down");
}

#[test]
fn what_is_added_to_the_body_may_miss_its_target_and_assistance_does_not() {
    // One disc of 10 kg: steps of 10.
    let gym = "  plates: 10 kg x 1\n";
    assert!(!first(gym, "Pull-up: 1 x 5 @ bodyweight +20 kg").off_target);
    assert!(first(gym, "Pull-up: 1 x 5 @ bodyweight +21 kg").off_target);
    // Half of 91 x 7/6 kg, less 70: no whole number of anything, and as it is asked for.
    assert!(!first(gym, "Pull-up: 1 x 5 @ 50%").off_target);
}

#[test]
fn nothing_to_load_an_exercise_with_is_said_once() {
    let line = "Pull-up: 1 x 5 @ bodyweight +5 kg";
    for day in [line.to_owned(), format!("{line}\n  B  {line}")] {
        let found = check(project("  has: rack\n", &day)).diagnostics;
        let found = found.into_iter().filter(|found| found.code == Code::MissingEquipment);
        let found: Vec<String> = found.map(|found| found.message).collect();
        assert_eq!(found, ["the gym `Shed` has nothing to load Pull-up of Robin Vale with"]);
    }
}
