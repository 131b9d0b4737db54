//! Facts about gyms, exercises and days in the plan, worked out by hand.

use setwright::compile::{Choice, compile};
use setwright::diagnostics::{has_errors, render_text};
use setwright::plan::{Equipment, GroupKind, Plan, PlannedExercise, Step, StepKind};
use setwright::quantity::{Duration, Mass};
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

/// The plan of a gym, an athlete and days, without a mistake.
fn plan(before: &str, athlete: &str, programme: &str) -> Plan {
    let text = format!(
        "{before}\nathlete Robin Vale\n  body mass: 70 kg\n{athlete}\nprogramme Small\n{programme}\n"
    );
    let project = Project::from_text(&MemoryLoader::new(), "facts.sets", text.clone());
    let compiled = compile(project, &Choice::default()).unwrap();
    let shown: Vec<String> =
        compiled.diagnostics.iter().map(|d| render_text(d, &compiled.sources, false)).collect();
    assert!(!has_errors(&compiled.diagnostics), "{text}\n{}", shown.concat());
    compiled.plan.unwrap()
}

fn exercise(plan: &Plan, at: usize) -> &PlannedExercise {
    &plan.athletes[0].sessions[0].exercises[at]
}

const GYM: &str = "gym Shed\n  bar: 20 kg, Trap bar 25 kg\n  plates: 20 kg x 2, 10 kg x 2, 5 kg x 2\n  \
                   dumbbells: 10 kg x 2\n  kettlebells: 16 kg x 2\n  stack Cable: 5-50 kg by 5 kg\n  \
                   bands: light 5 kg\n  has: hoist, sandbag\n";

#[test]
fn what_an_exercise_is_loaded_with() {
    let rows = [
        ("barbell", Some(Equipment::Barbell)),
        ("dumbbells", Some(Equipment::Dumbbells)),
        ("dumbbell", Some(Equipment::Dumbbell)),
        ("kettlebells", Some(Equipment::Kettlebells)),
        ("kettlebell", Some(Equipment::Kettlebell)),
        ("stack Cable", Some(Equipment::Stack)),
        // A stack that is part of a machine.
        ("stack Cable, machine", Some(Equipment::Machine)),
        ("machine", Some(Equipment::Machine)),
        ("band", Some(Equipment::Band)),
        ("body mass", Some(Equipment::BodyMass)),
        ("other", Some(Equipment::Other)),
        // Something that it needs besides.
        ("other Sandbag", None),
        ("", None),
    ];
    for (equipment, expected) in rows {
        let line = if equipment.is_empty() {
            "  pattern: carry".to_owned()
        } else {
            format!("  equipment: {equipment}")
        };
        let before = format!("exercise Hoist\n{line}\n\n{GYM}");
        let plan = plan(&before, "  gym: Shed\n", "  weeks: 1\n\nday One\n  A Hoist: 3 x 5");
        assert_eq!(exercise(&plan, 0).equipment, expected, "{equipment}");
    }
}

#[test]
fn what_the_gym_has() {
    let plan = plan(GYM, "  gym: Shed\n", "  weeks: 1\n\nday One\n  A Push-up: 3 x 5");
    let bars = plan.athletes[0].gym_bars.iter();
    let bars: Vec<_> = bars.map(|bar| (bar.name.as_deref(), bar.mass)).collect();
    assert_eq!(bars, [(None, Mass::from_kg(20)), (Some("Trap bar"), Mass::from_kg(25))]);
    assert_eq!(plan.athletes[0].gym_has, ["hoist", "sandbag"]);
}

#[test]
fn how_the_exercises_of_a_letter_are_done_together() {
    let plan = plan(
        "",
        "",
        "  weeks: 1\n\nday One\n  A  Push-up: 3 x 5, rest 60 s\n  B1 Push-up: 3 x 5, rest 30 s\n  \
         B2 Squat jump: 3 x 5, rest 90 s\n  C1 Push-up: 2 x 5\n  C2 Squat jump: 2 x 5\n  \
         C3 Broad jump: 2 x 5, rest 120 s",
    );
    let groups = plan.athletes[0].sessions[0].groups.iter();
    let groups: Vec<_> =
        groups.map(|group| (group.letter, group.how.clone(), group.rest)).collect();
    let rest = |seconds| Some(Duration::seconds(seconds));
    let expected = [
        ('A', GroupKind::Single, None),
        ('B', GroupKind::Superset, rest(90)),
        ('C', GroupKind::GiantSet, rest(120)),
    ];
    assert_eq!(groups, expected);
}

#[test]
fn a_share_of_a_share_of_a_lift_that_was_tested() {
    let athlete = "  max Back squat: 100 kg\n  max Front squat: 80% of Back squat\n  \
                   max Goblet squat: 50% of Front squat\n";
    let athlete = format!("  gym: Shed\n{athlete}");
    let plan = plan(GYM, &athlete, "  weeks: 1\n\nday One\n  A  Goblet squat: 3 x 5 @ 75%");
    let steps = exercise(&plan, 0).sets[0].derivation.iter();
    let lifts = steps.filter_map(|step| match &step.kind {
        StepKind::Tested { lift } => Some(lift.clone()),
        StepKind::Derived { lift, from, percent } => Some(format!("{lift}: {percent}% of {from}")),
        _ => None,
    });
    let lifts: Vec<String> = lifts.collect();
    let shares = ["Front squat: 80% of Back squat", "Goblet squat: 50% of Front squat"];
    assert_eq!(lifts, ["Back squat", shares[0], shares[1]]);
    // 100 x 0.8 x 0.5 x 0.75
    assert_eq!(exercise(&plan, 0).sets[0].target, Some(Mass::from_kg(30).into()));
}

/// A chain of shares costs a step a share: the steps are there once, however many weeks, sets and
/// lifts lead through them.
#[test]
fn a_long_chain_of_shares_is_kept_once() {
    const LIFTS: u32 = 2_000;
    let letter =
        |digit: char| char::from(b'a' + u8::try_from(digit.to_digit(10).unwrap()).unwrap());
    let name = |n: u32| format!("Lift {}", n.to_string().chars().map(letter).collect::<String>());
    let lift = |n| format!("exercise {}\n  pattern: squat\n", name(n));
    let lifts = (0..LIFTS).map(lift).collect::<Vec<_>>().join("\n") + "\n";
    let share = |n| format!("  max {}: 100% of {}", name(n), name(n - 1));
    let shares = (1..LIFTS).map(share).collect::<Vec<_>>().join("\n") + "\n";
    let athlete = format!("  gym: Shed\n  max {}: 100 kg\n{shares}", name(0));
    let lines = format!(
        "  weeks: 2\n\nday One\n  A {}: 3 x 5 @ 75%\n  B {}: 3 x 5 @ 75%",
        name(LIFTS - 1),
        name(LIFTS - 2)
    );
    let plan = plan(&format!("{GYM}\n{lifts}"), &athlete, &lines);
    let weeks = plan.athletes[0].sessions.iter();
    let sets = weeks.flat_map(|session| &session.exercises).map(|exercise| &exercise.sets[0]);
    let firsts: Vec<*const Step> =
        sets.clone().map(|set| std::ptr::from_ref(set.derivation.iter().next().unwrap())).collect();
    assert_eq!(firsts.len(), 4);
    assert!(firsts.iter().all(|first| *first == firsts[0]));
    for set in sets {
        assert!(set.derivation.len() > LIFTS as usize);
        assert_eq!(set.target, Some(Mass::from_kg(75).into()));
    }
}
