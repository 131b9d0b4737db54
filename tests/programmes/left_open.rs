//! Cases that `avoid`, `replace`, `has` and `lacks` leave open, and the problems that `check`
//! reports.

use setwright::compile::{Choice, check, compile};
use setwright::diagnostics::{Code, Diagnostic};
use setwright::plan::Plan;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

fn text(gym: &str, athlete: &str, day: &str) -> String {
    format!(
        "gym Shed\n{gym}\nathlete Robin Vale\n  gym: Shed\n  body mass: 70 kg\n{athlete}\n\
         programme Small\n  weeks: 4\n  starts: 2026-01-05\n\nday One (Mon)\n{day}\n"
    )
}

fn project(text: &str) -> Project {
    Project::from_text(&MemoryLoader::new(), "one.sets", text.to_owned())
}

fn findings(text: &str) -> Vec<Diagnostic> {
    check(project(text)).diagnostics
}

fn planned(text: &str) -> Plan {
    compile(project(text), &Choice::default()).unwrap().plan.unwrap()
}

fn of(code: Code, text: &str) -> Vec<String> {
    let found = findings(text).into_iter().filter(|finding| finding.code == code);
    found.map(|finding| finding.message).collect()
}

const BELLS: &str = "  kettlebells: 12 kg x 2, 16 kg x 2\n  dumbbells: 4-30 kg by 2 kg\n";

#[test]
fn an_arm_overhead_is_a_vertical_push_whatever_the_chief_pattern() {
    let overhead = [
        "Kettlebell clean and press",
        "Kettlebell snatch",
        "Dumbbell snatch",
        "Dumbbell thruster",
        "Dumbbell push press",
        "Overhead carry",
        "Turkish get-up",
        "Half get-up",
        "Windmill",
        "Overhead triceps extension",
        "Kettlebell press",
    ];
    for name in overhead {
        let day = format!("  A {name}: 3 x 5 @ 12 kg");
        let found = of(Code::AvoidedExercise, &text(BELLS, "  avoid: vertical push\n", &day));
        assert_eq!(found.len(), 1, "{name}");
    }
    let day = "  A Dumbbell thruster: 3 x 5 @ 12 kg\n  B Suitcase carry: 3 x 20 m @ 12 kg";
    assert_eq!(of(Code::AvoidedExercise, &text(BELLS, "  avoid: squat\n", day)).len(), 1);
}

#[test]
fn the_chief_pattern_is_the_first_and_the_one_that_is_counted() {
    let own = "exercise Hoist\n  equipment: kettlebell\n  pattern: carry, hinge, carry\n";
    let text = format!("{own}{}", text(BELLS, "", "  A Hoist: 3 x 5 @ 12 kg"));
    let plan = planned(&text);
    let exercise = &plan.athletes[0].sessions[0].exercises[0];
    assert_eq!(exercise.pattern.as_deref(), Some("carry"));
    assert_eq!(exercise.also_patterns, ["hinge"]);
}

#[test]
fn an_avoided_exercise_with_near_relatives_is_noted() {
    let note = |avoid: &str, day: &str| {
        of(Code::AvoidedAlone, &text(BELLS, &format!("  avoid: {avoid}\n"), day))
    };
    let day = "  A Kettlebell press: 3 x 5 @ 12 kg";
    let found = note("Overhead press", day);
    assert_eq!(found, ["this only avoids Overhead press: Kettlebell press is still allowed"]);
    // In the library alone: what bears the name with a word more.
    assert_eq!(note("Overhead press", "  A Goblet squat: 3 x 5 @ 12 kg").len(), 1);
    assert!(note("Broad jump", day).is_empty());
    assert!(note("Overhead press, hinge", day).is_empty());
    assert!(note("Overhead press, side delts", day).is_empty());
}

#[test]
fn what_a_list_does_not_name_is_noted_once_a_gym() {
    let day = "  A Incline dumbbell press: 3 x 5 @ 12 kg\n  B Pull-up: 3 x 5\n  C Push-up: 3 x 5";
    let found = |gym: &str| of(Code::AssumedEquipment, &text(&format!("{BELLS}{gym}"), "", day));
    let both =
        ["`Shed` does not list these, but is assumed to have them: incline bench, pull-up bar"];
    assert_eq!(found("  has: bench\n"), both);
    let help = |gym: &str| {
        let found = findings(&text(&format!("{BELLS}{gym}"), "", day));
        let noted = found.into_iter().find(|finding| finding.code == Code::AssumedEquipment);
        noted.unwrap().help.unwrap()
    };
    assert!(help("  has: bench\n").starts_with("if one of them is missing"));
    assert!(help("  has: pull-up bar\n").starts_with("if it is missing"));
    assert!(found("").is_empty());
    assert!(found("  has: Pull-up bar, incline bench\n").is_empty());
    assert_eq!(found("  has: pull-up bar\n  lacks: incline bench\n"), [""; 0]);
    // A bar is missing: that its rack is not named says nothing.
    let squat = "  A Back squat: 3 x 5 @ 40 kg";
    let found = findings(&text(&format!("{BELLS}  has: bench\n"), "", squat));
    assert!(!found.iter().any(|finding| finding.code == Code::AssumedEquipment));
}

#[test]
fn a_machine_that_nobody_names_is_not_there() {
    let day = "  A Machine-assisted pull-up: 3 x 8";
    let found = |gym: &str| of(Code::MissingEquipment, &text(gym, "", day)).len();
    assert_eq!(found(BELLS), 1);
    assert_eq!(found("  has: assisted pull-up machine, pull-up bar\n"), 0);
    assert_eq!(found("  has: Machine-assisted pull-up\n"), 0);
}

#[test]
fn a_replacement_ends_with_its_day() {
    let done = |reason: &str| -> Vec<String> {
        let athlete = format!("  replace Kettlebell press: Push-up ({reason})\n");
        let day = "  A Kettlebell press: 3 x 5";
        let plan = planned(&text(BELLS, &athlete, day));
        let sessions = plan.athletes[0].sessions.iter();
        sessions.map(|session| session.exercises[0].name.clone()).collect()
    };
    let press = "Kettlebell press";
    assert_eq!(done("shoulder"), ["Push-up"; 4]);
    assert_eq!(done("shoulder, until 2026-01-12"), ["Push-up", "Push-up", press, press]);
    assert_eq!(done("until 2026-01-11"), ["Push-up", press, press, press]);
    assert_eq!(done("until the wrist is well"), ["Push-up"; 4]);
}

#[test]
fn a_load_of_the_body_for_somebody_whose_replacement_is_not_done_on_it_names_whose_it_is() {
    let day = "  A Pull-up: 3 x 5 @ bodyweight\n    for Robin Vale: @ bodyweight +5 kg";
    let text = text(BELLS, "  replace Pull-up: Kettlebell row (elbow)\n", day);
    let found = findings(&text);
    let found = found.iter().find(|f| f.code == Code::BodyweightMismatch).unwrap();
    assert!(found.message.starts_with("Robin Vale does Kettlebell row instead"));
    assert!(found.help.as_ref().unwrap().contains("`for Robin Vale: "));
    let fixed = text.replace("@ bodyweight +5 kg", "@ 12 kg");
    assert_eq!(of(Code::BodyweightMismatch, &fixed), [""; 0]);
}

#[test]
fn what_cannot_be_done_asks_for_no_max() {
    let day = "  A Front squat: 3 x 5 @ 70%";
    let text = text(BELLS, "", day);
    assert_eq!(of(Code::MissingEquipment, &text).len(), 1);
    assert_eq!(of(Code::MissingMax, &text), [""; 0]);
    let found = findings(&text);
    let found = found.iter().find(|f| f.code == Code::MissingEquipment).unwrap();
    assert!(found.help.as_ref().unwrap().contains("is the mass of one kettlebell"), "{found:#?}");
}

#[test]
fn what_the_day_holds_already_is_offered_last() {
    let own = "exercise One\n  equipment: stack One\n  swap: Two, Three\nexercise Four\n  \
               equipment: stack One\n  swap: Two, Three\nexercise Two\n  equipment: kettlebell\n\
               exercise Three\n  equipment: kettlebell\n";
    let first = |day: &str| -> Vec<String> {
        let found = findings(&format!("{own}{}", text(BELLS, "", day)));
        let help = found.iter().filter_map(|finding| finding.help.clone());
        let line = |help: String| {
            help.lines().nth(1).and_then(|line| Some(line.split_once(": ")?.1.to_owned()))
        };
        help.filter_map(line).map(|line| line.split(" (").next().unwrap().to_owned()).collect()
    };
    assert_eq!(first("  A One: 3 x 5"), ["Two"]);
    assert_eq!(first("  A One: 3 x 5\n  B Two: 3 x 5"), ["Three"]);
    assert_eq!(first("  A One: 3 x 5\n  B Four: 3 x 5"), ["Two", "Three"]);
    // Another day holds and offers what it likes.
    assert_eq!(first("  A Two: 3 x 5\n\nday Two (Thu)\n  B One: 3 x 5"), ["Two"]);
    let both = first("  A One: 3 x 5\n\nday Two (Thu)\n  A Push-up: 3 x 5\n  B Four: 3 x 5");
    assert_eq!(both, ["Two", "Two"]);
}

#[test]
fn a_limit_that_ends_before_the_last_session_is_noted() {
    // The fourth Monday is 26 January.
    let found = |until: &str| {
        let limit = format!("  limit Knee: no jumping (physio, until {until})\n");
        of(Code::LimitPassed, &text(BELLS, &limit, "  A Push-up: 3 x 5"))
    };
    assert!(found("2026-01-26").is_empty());
    let ended = "the limit `Knee` of Robin Vale ends on 2026-01-25, but the programme runs until 2026-01-26";
    assert_eq!(found("2026-01-25"), [ended]);
}

#[test]
fn a_max_of_the_bar_alone_for_a_lift_of_the_body_is_said_once() {
    let athlete = "  max Pull-up: 90 kg\n";
    let day = "  A Pull-up: 3 x 5 @ 70%\n  B Pull-up: 3 x 5 @ 60%";
    let text = text(BELLS, athlete, day);
    let found = findings(&text);
    let found: Vec<_> = found.iter().filter(|f| f.code == Code::PlainBodyMax).collect();
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(found[0].message.starts_with("Pull-up also lifts the body"), "{}", found[0].message);
    let place = found[0].label.span;
    let line = text[..place.end as usize].lines().last().unwrap();
    assert!(line.starts_with("  max Pull-up"), "{line}");
}
