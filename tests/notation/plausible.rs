//! Values that can be read but are probably wrong: the problem for each, and the result of its fix.
//! All bounds are common practice, no source, unless the code names one.

use setwright::compile::{Choice, Compiled, check, compile};
use setwright::diagnostics::{Code, Diagnostic, Severity};
use setwright::plan::Plan;
use setwright::resolve::Project;
use setwright::sheets::summary;
use setwright::source::MemoryLoader;

const CODES: [Code; 5] = [
    Code::UnlikelyValue,
    Code::UnlikelyMax,
    Code::EstimateRange,
    Code::ShortDeload,
    Code::LogUnlikely,
];

fn opened(text: &str, as_of: Option<&str>) -> Project {
    let as_of = as_of.map(|date| date.parse().unwrap());
    Project { as_of, ..Project::from_text(&MemoryLoader::new(), "small.sets", text.to_owned()) }
}

fn checked(text: &str, as_of: Option<&str>) -> Compiled {
    check(opened(text, as_of))
}

/// A programme with these lines of the gym, the athlete, a phase and the day, and a log.
fn project([gym, athlete, phase, day, log]: [&str; 5]) -> String {
    let gym_lines = if gym.contains("plates:") {
        String::new()
    } else {
        "  plates: 20 kg x 8, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 4\n".to_owned()
    };
    format!(
        "gym Shed\n  bar: 20 kg\n{gym_lines}{gym}  dumbbells: 4-40 kg by 2 kg\n  \
         kettlebells: 8-32 kg by 4 kg\n  has: rack\n\nathlete Robin Vale\n{athlete}\n\
         programme Small\n  weeks: 4\n  starts: 2026-01-05\n\n{phase}day One (Mon)\n{day}\n{log}"
    )
}

fn gym(line: &str) -> String {
    project([line, "", "", "  A Push-up: 3 x 8\n", ""])
}

fn athlete(lines: &str) -> String {
    project(["", lines, "", "  A Push-up: 3 x 8\n", ""])
}

fn line(line: &str) -> String {
    project(["", "  max Back squat: 140 kg\n", "", &format!("  A {line}\n"), ""])
}

fn log(line: &str) -> String {
    let log = format!("log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n    {line}\n");
    project(["", "  max Back squat: 140 kg\n", "", "  A Back squat: 3 x 5 @ 60%\n", &log])
}

fn doubts(compiled: &Compiled) -> Vec<&Diagnostic> {
    compiled.diagnostics.iter().filter(|d| CODES.contains(&d.code)).collect()
}

/// The text with the first fix of each doubt.
fn fixed(text: &str, compiled: &Compiled) -> String {
    let mut edits: Vec<_> = doubts(compiled)
        .iter()
        .filter_map(|found| found.fixes.first())
        .inspect(|fix| assert!(!fix.safe, "a guess is not safe"))
        .flat_map(|fix| fix.edits.clone())
        .collect();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span.start));
    edits.iter().fold(text.to_owned(), |mut text, edit| {
        text.replace_range(edit.span.start as usize..edit.span.end as usize, &edit.text);
        text
    })
}

/// A text, the start of what is said of it, and what its fix writes instead.
fn case(text: &str, message: &str, written: &str) {
    let compiled = checked(text, None);
    let found = doubts(&compiled);
    assert_eq!(found.len(), 1, "{text}\n{found:#?}");
    assert!(found[0].message.starts_with(message), "{text}\n{:?}", found[0].message);
    let after = fixed(text, &compiled);
    assert!(after.contains(written), "{after}");
    let again = checked(&after, None);
    assert!(doubts(&again).is_empty(), "{after}\n{:#?}", doubts(&again));
    assert!(
        !setwright::diagnostics::has_errors(&again.diagnostics),
        "the fix makes nothing worse\n{after}\n{:#?}",
        again.diagnostics
    );
}

/// A text of which nothing is said.
fn quiet(text: &str) {
    let compiled = checked(text, None);
    assert!(doubts(&compiled).is_empty(), "{text}\n{:#?}", doubts(&compiled));
}

#[test]
fn a_gym_s_pieces_and_collars() {
    case(&gym("  plates: 20 kg x 4, 125 kg x 2\n"), "a plate of 125 kg", "20 kg x 4, 1.25 kg x 2");
    case(&gym("  plates: 20 kg x 4, 250 kg x 2\n"), "a plate of 250 kg", "25 kg x 2");
    case(&gym("  collars: 2.5 kg\n"), "`2.5 kg` is read as both", "collars: 2.5 kg each");
    quiet(&gym("  collars: 2.5 kg each\n"));
    quiet(&gym("  collars: 2.5 kg a pair\n"));
    quiet(&gym("  collars: 5 kg\n"));
    quiet(&gym("  collars: 5 lb\n"));
    quiet(&gym("  plates: 50 kg x 2, 25 kg x 8\n"));
}

/// Both readings of the bare number are offered, and `a pair` keeps the load that was printed.
#[test]
fn a_pair_of_collars_weighs_what_the_bare_number_does() {
    let compiled = checked(&gym("  collars: 2.5 kg\n"), None);
    let titles: Vec<_> =
        doubts(&compiled)[0].fixes.iter().map(|fix| fix.title.clone().unwrap()).collect();
    assert_eq!(
        titles,
        ["2.5 kg is the mass of each collar", "2.5 kg is the mass of both together"]
    );
    let empty = |collars: &str| {
        let day = "  A Back squat: 1 x 5 @ 22.5 kg, no warm-up\n";
        let text = project([&format!("  collars: {collars}\n"), "", "", day, ""]);
        let plan = plan(&text);
        let set = &plan.athletes[0].sessions[0].exercises[0].sets[0];
        set.load.as_ref().unwrap().mass.show(setwright::quantity::Unit::Kg)
    };
    assert_eq!(empty("2.5 kg"), "22.5 kg");
    assert_eq!(empty("2.5 kg a pair"), "22.5 kg");
    assert_eq!(empty("2.5 kg each"), "25 kg");
}

fn plan(text: &str) -> Plan {
    compile(opened(text, None), &Choice::default()).unwrap().plan.unwrap()
}

#[test]
fn body_masses() {
    case(&athlete("  body mass: 7 kg\n"), "a body mass of 7 kg", "body mass: 70 kg");
    case(&athlete("  body mass: 710 kg\n"), "a body mass of 710 kg", "body mass: 71 kg");
    // Pounds typed as kilograms, where everything else is in pounds.
    let pounds = "  unit: lb\n  body mass: 165 kg\n  max Back squat: 225 lb\n";
    case(&athlete(pounds), "a body mass of 165 kg", "body mass: 165 lb");
    quiet(&athlete("  body mass: 165 kg\n"));
    quiet(&athlete("  body mass: 28 kg\n"));
    quiet(&athlete("  body mass: 200 lb\n"));
}

#[test]
fn maxes_by_themselves() {
    case(&athlete("  max Bench press: 900 kg\n"), "a max of 900 kg for Bench press", "90 kg");
    case(&athlete("  max Bench press: 9 kg\n"), "a max of 9 kg for Bench press", "90 kg");
    // The repetitions and the date stay.
    let set = "  max Bench press: 5 @ 800 kg (2025-12-01)\n";
    case(&athlete(set), "a max of 800 kg", "5 @ 80 kg (2025-12-01)");
    case(
        &athlete("  max Back squat: 100 kg\n  max Front squat: 850% of Back squat\n"),
        "a max of Front squat of 850% of Back squat",
        "85% of Back squat",
    );
    case(
        &athlete("  body mass: 80 kg\n  max Pull-up: bodyweight -500 kg\n"),
        "`-500 kg` on the body mass",
        "bodyweight -50 kg",
    );
    quiet(&athlete("  max Lateral raise: 9 kg\n  max Leg press: 420 kg\n"));
    quiet(&athlete("  max Bench press: 17.5 kg\n"));
}

#[test]
fn maxes_beside_each_other() {
    case(
        &athlete("  max Back squat: 20 kg\n  max Front squat: 100 kg\n"),
        "Front squat at 100 kg and Back squat at 20 kg",
        "max Back squat: 200 kg",
    );
    case(
        &athlete("  max Back squat: 120 kg\n  max Bench press: 100 lb\n"),
        "this max is in lb",
        "max Bench press: 100 kg",
    );
    // 220 kg would be more than this athlete lifts in anything: pounds are meant.
    quiet(&athlete("  max Back squat: 140 kg\n  max Bench press: 220 lb\n"));
    quiet(&athlete("  unit: lb\n  max Back squat: 120 kg\n  max Bench press: 225 lb\n"));
    quiet(&athlete("  max Back squat: 100 kg\n  max Front squat: 85 kg\n  max Deadlift: 150 kg\n"));
}

/// Common practice, no source.
#[test]
fn maxes_that_do_not_go_together() {
    for (lines, doubted) in [
        ("  max Back squat: 100 kg\n  max Bench press: 115 kg\n", true),
        ("  max Back squat: 100 kg\n  max Bench press: 110 kg\n", false),
        ("  max Back squat: 140 kg\n  max Deadlift: 100 kg\n", true),
        ("  max Back squat: 135 kg\n  max Deadlift: 100 kg\n", false),
        ("  max Back squat: 80 kg\n  max Deadlift: 165 kg\n", true),
        ("  max Back squat: 80 kg\n  max Deadlift: 160 kg\n", false),
        ("  max Bench press: 70 kg\n  max Overhead press: 75 kg\n", true),
        ("  max Bench press: 70 kg\n  max Overhead press: 70 kg\n", false),
    ] {
        let compiled = checked(&athlete(lines), None);
        let found: Vec<Code> = doubts(&compiled).iter().map(|found| found.code).collect();
        let expected = if doubted { vec![Code::UnlikelyMax] } else { Vec::new() };
        assert_eq!(found, expected, "{lines}");
    }
}

#[test]
fn maxes_in_logs() {
    case(&log("max Back squat: 1450 kg"), "a max of 1450 kg", "max Back squat: 145 kg");
    case(&log("max Back squat: 14.5 kg"), "a max of 14.5 kg", "max Back squat: 145 kg");
    case(&log("max Back squat: 320 kg"), "a max of 320 kg for Back squat is logged", "320 lb");
    case(&log("body mass: 7 kg"), "a body mass of 7 kg", "body mass: 70 kg");
    quiet(&log("max Back squat: 150 kg"));
    quiet(&log("max Back squat: 5 @ 130 kg"));
}

/// The clock is never read: "today" is given, or the end of the programme (2026-02-01).
#[test]
fn dates_in_the_future() {
    case(
        &athlete("  max Back squat: 140 kg (tested 2026-12-18)\n"),
        "this max is dated 2026-12-18, after the end of the programme, 2026-02-01",
        "(tested 2025-12-18)",
    );
    let text = athlete("  max Back squat: 140 kg (tested 2026-01-20)\n");
    quiet(&text);
    let messages = |as_of| -> Vec<String> {
        let text = log("note: early") + "  2026-01-12 week 2, One\n    A: done\n";
        let compiled = checked(&text, as_of);
        doubts(&compiled).iter().map(|found| found.message.clone()).collect()
    };
    assert!(messages(None).is_empty());
    assert!(messages(Some("2026-01-12")).is_empty());
    assert_eq!(
        messages(Some("2026-01-11")),
        ["this session is dated 2026-01-12, after 2026-01-11"]
    );
    let compiled = checked(&text, Some("2026-01-19"));
    assert_eq!(doubts(&compiled).len(), 1);
}

#[test]
fn rests_efforts_and_tempos() {
    case(&line("Back squat: 3 x 5 @ 60%, rest 90 min"), "a rest of 90 min", "rest 90 s");
    case(&line("Back squat: 3 x 5 @ 60%, rest 3 s"), "a rest of 3 s", "rest 3:00");
    case(&line("Back squat: 3 x 5 @ RIR 20"), "hardly anybody can judge that 20", "@ RIR 2");
    case(&line("Back squat: 3 x 5 @ 60%, RIR 12"), "hardly anybody can judge that 12", ", RIR 2");
    case(
        &line("Back squat: 3 x 5 @ 60%, tempo 30-1-X-0"),
        "a part of this tempo takes 30 s",
        "tempo 3-1-X-0",
    );
    quiet(&line("Back squat: 3 x 5 @ 60%, rest 15 min"));
    quiet(&line("Back squat: 3 x 5 @ 60%, rest 0 s"));
    case(&line("Back squat: 3 x 5 @ 60%, rest 9 s"), "a rest of 9 s", "rest 90 s");
    case(&line("Back squat: 3 x 5 @ RPE 3"), "RPE 3 is too easy", "@ RIR 3");
    case(&line("Back squat: 3 x 5 @ 60%, RPE 2"), "RPE 2 is too easy", "60%, RIR 2");
    case(&line("Back squat: 3 x 5 @ RIR 8"), "hardly anybody can judge that 8", "@ RPE 8");
    case(
        &line("B1 Push-up: 8\n  B2 Back squat: 5 @ 60%\n  B: circuit 3 rounds, change 20 min")
            .replace("A B1", "B1"),
        "a change of 20 min",
        "change 20 s",
    );
    quiet(&line("Back squat: 3 x 5 @ 60%, rest 15 s"));
    quiet(&line("Plank: 6 x 10 s, rest 5 s"));
    quiet(&line("Back squat: 3 x 5 @ RIR 5, tempo 10-0-X-0"));
    quiet(&line("Back squat: 3 x 5 @ RPE 5"));
}

#[test]
fn ranges_and_body_mass_loads() {
    case(&line("Back squat: 3 x 8-120 @ 60%"), "the range 8-120", "3 x 8-12 @ 60%");
    case(&line("Plank: 3 x 20-300 s"), "the range 20-300 s", "3 x 20-30 s");
    case(
        &project(["", "  body mass: 80 kg\n", "", "  A Pull-up: 3 x 5 @ bodyweight -500 kg\n", ""]),
        "`-500 kg` on the body mass",
        "@ bodyweight -50 kg",
    );
    quiet(&line("Back squat: 3 x 5-20 @ 40%"));
    quiet(&line("Push-up: 3 x 10-50"));
}

#[test]
fn help_of_the_whole_body_mass() {
    let pull_up = |body: &str, load: &str| {
        project(["", body, "", &format!("  A Pull-up: 3 x 5 @ bodyweight {load}\n"), ""])
    };
    case(
        &pull_up("  body mass: 61 kg\n", "-100 kg"),
        "`-100 kg` takes off the whole body mass of Robin Vale, 61 kg",
        "bodyweight -10 kg",
    );
    case(
        &pull_up("  max Push-up: 10 @ bodyweight\n", "-150 kg"),
        "`-150 kg` on the body",
        "-15 kg",
    );
    quiet(&pull_up("  body mass: 61 kg\n", "-40 kg"));
    quiet(&pull_up("  body mass: 61 kg\n", "+62.5 kg"));
}

#[test]
fn many_sets_and_repetitions() {
    case(&line("Back squat: 30 x 10 @ 40%"), "30 sets of one exercise", ": 3 x 10");
    case(&line("Back squat: 34 x 4 @ 60%"), "34 sets of one exercise", ": 3 x 4");
    case(&line("Back squat: 13 x 4 @ 60%"), "13 sets of one exercise", ": 3 x 4");
    case(&line("Push-up: 3 x 812"), "a set of 812 repetitions", "3 x 8\n");
    case(&line("Kettlebell swing: 3 x 150 @ 16 kg"), "a set of 150 repetitions", "3 x 15 @ 16 kg");
    case(&line("Back squat: 3 x 80 @ 40%"), "a set of 80 repetitions with a bar", "3 x 8 @ 40%");
    for sane in [
        "Back squat: 10 x 10 @ 50%",
        "Back squat: 12 x 2 @ 60%",
        "Deadlift: 20 x 1 @ 60 kg",
        "Back squat: 16 x 2 @ 60%, every 60 s",
        "Back squat: 1 x 30 @ 40%",
        "Kettlebell swing: 5 x 50 @ 16 kg",
        "Push-up: 2 x 50",
        "Walking lunge: 20 x 20 m",
    ] {
        quiet(&line(sane));
    }
    let rounds = |rounds: u32| {
        let day = format!("  A1 Push-up: 8\n  A2 Plank: 20 s\n  A: circuit {rounds} rounds\n");
        project(["", "", "", &day, ""])
    };
    let compiled = checked(&rounds(30), None);
    assert_eq!(doubts(&compiled)[0].message, "a circuit of 30 rounds is unlikely");
    quiet(&rounds(15));
}

#[test]
fn long_holds_and_steps() {
    case(&line("Plank: 3 x 300 s"), "a hold of 300 s", "3 x 30 s");
    case(&line("Plank: 3 x 30 min"), "a hold of 1800 s", "3 x 30 s");
    case(&line("Plank: 3 x 20 s +50 s/week"), "a step of `+50 s/week`", "20 s +5 s/week");
    case(&line("Back squat: 3 x 5 @ 40% +25%/week"), "a step of `+25%/week`", "+2.5%/week");
    case(&line("Back squat: 3 x 5 @ 40 kg +20 kg/week"), "a step of `+20 kg/week`", "+2 kg/week");
    quiet(&line("Plank: 3 x 4 min"));
    quiet(&line("Plank: 3 x 20 s +10 s/week"));
    quiet(&line("Push-up: 1 x 40 min"));
    quiet(&line("Back squat: 3 x 5 @ 40% +10%/week"));
    quiet(&line("Back squat: 3 x 5 @ 40 kg +10 kg/week"));
}

#[test]
fn what_an_exercise_is_counted_in() {
    case(
        &line("Plank: 3 x 8"),
        "Plank is held for a time, but this reads as 8 repetitions",
        "Plank: 3 x 8 s",
    );
    case(&line("Side plank: 3 x 8-12 each side"), "Side plank is held", "3 x 8-12 s each side");
    case(&line("Back squat: 3 x 5 s @ 60%"), "a set of Back squat lasts 5 s", "3 x 5 @ 60%");
    case(&line("Back squat: 3 x 5 m @ 60%"), "Back squat is done over 5 m", "3 x 5 @ 60%");
    case(
        &line("Farmer's carry: 3 x 40 @ 24 kg"),
        "Farmer's carry is done over a distance, but this reads as 40",
        "3 x 40 m @ 24 kg",
    );
    for sane in [
        "Plank: 3 x 30 s",
        "Plank shoulder tap: 3 x 8 each side",
        "Turkish get-up: 3 x 5 each side @ 12 kg",
        "Suitcase carry: 3 x 30 s each side @ 20 kg",
        "Farmer's carry: 3 x 2 @ 24 kg",
        "Wall sit: 3 x 45 s",
        "Walking lunge: 3 x 20 m",
        "Back squat: 3 x 30 s @ 40%",
        "Dead bug: 3 x 8 each side",
    ] {
        quiet(&line(sane));
    }
    // An exercise of one's own says it.
    let own = |unit: &str, sets: &str| {
        line(&format!("Wall lean: {sets}"))
            + &format!("\nexercise Wall lean\n  equipment: body mass\n  counted in: {unit}\n")
    };
    quiet(&own("reps", "3 x 8"));
    case(&own("seconds", "3 x 8"), "Wall lean is held", "Wall lean: 3 x 8 s");
    case(&own("metres", "3 x 8"), "Wall lean is done over", "Wall lean: 3 x 8 m");
    case(&own("reps", "3 x 8 s"), "a set of Wall lean lasts 8 s", "Wall lean: 3 x 8\n");
}

#[test]
fn each_side_of_a_lift_that_has_one_bar() {
    case(
        &line("Back squat: 3 x 5 each side @ 60%"),
        "Back squat works both sides at once",
        "Back squat: 3 x 5 @ 60%",
    );
    quiet(&line("Split squat: 3 x 8 each side @ 12 kg"));
    quiet(&line("Single-leg Romanian deadlift: 3 x 8 each side @ 12 kg"));
}

#[test]
fn a_deload_that_is_none() {
    let phase = |phase: &str| project(["", "", phase, "  A Push-up: 3 x 8\n", ""]);
    case(&phase("phase Deload: week 4, load -1%\n\n"), "`Deload` takes off only 1%", "load -10%");
    case(&phase("phase Deload: week 4, sets -4%\n\n"), "`Deload` takes off only 4%", "sets -40%");
    quiet(&phase("phase Deload: week 4, load -10%\n\n"));
    quiet(&phase("phase Taper: week 4, sets -50%, load -5%\n\n"));
    quiet(&phase("phase Peak: week 4, sets -5%, load +5%\n\n"));
}

/// Brzycki, Lander, Epley and Lombardi at 30 repetitions with 60 kg: 308.6, 283.5, 120 and 84.3 kg,
/// from the printed formulas [C].
#[test]
fn a_max_from_many_repetitions() {
    let of = |text: &str| {
        let compiled = checked(text, None);
        let said = |found: &&Diagnostic| (found.severity(), found.message.clone());
        doubts(&compiled).iter().map(said).collect::<Vec<_>>()
    };
    let max = |set: &str| of(&athlete(&format!("  max Back squat: {set}\n")));
    assert_eq!(
        max("30 @ 60 kg"),
        [(
            Severity::Error,
            "no max can be estimated from 30 repetitions: the equations differ by 266%, 84.3 to \
             308.6 kg"
                .to_owned()
        )]
    );
    let warns = |text: &str| [(Severity::Warning, text.to_owned())];
    assert_eq!(
        max("13 @ 100 kg"),
        warns(
            "this max is estimated from 13 repetitions: the equations differ by 16%, 129.2 to \
             150.2 kg"
        )
    );
    assert_eq!(max("11 @ 60 kg"), warns("this max is estimated from 11 repetitions"));
    assert_eq!(max("16 @ 60 kg")[0].0, Severity::Error);
    assert_eq!(max("40 @ 60 kg")[0].0, Severity::Error);
    assert!(max("10 @ 60 kg").is_empty());
    // In a log as well: the test counts for every load after it.
    assert_eq!(of(&log("max Back squat: 20 @ 90 kg"))[0].0, Severity::Error);
    assert_eq!(of(&log("max Back squat: 12 @ 100 kg"))[0].0, Severity::Warning);
}

/// The loads of a line with the rule, after a logged set of so many repetitions with 70 kg.
fn after(reps: u32) -> (Vec<String>, String) {
    let day = "  A Back squat: 1 x 5+ @ 70%, no warm-up\n     otherwise: max from last set\n";
    let log = format!("log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: {reps} @ 70 kg\n");
    let text = project(["", "  max Back squat: 100 kg\n", "", day, &log]);
    let compiled = checked(&text, None);
    let of_estimates = |found: &&&Diagnostic| found.code == Code::EstimateRange;
    let messages =
        doubts(&compiled).iter().filter(of_estimates).map(|found| found.message.clone()).collect();
    (messages, summary(&plan(&text)))
}

/// By Epley 70 × (1 + r/30): 93.3 kg from 10, 98 kg from 12; 70% of them, loaded in steps of 2.5 kg.
#[test]
fn a_logged_set_of_many_repetitions_makes_no_max() {
    let (messages, card) = after(10);
    assert!(messages.is_empty(), "{messages:?}");
    assert!(card.contains("65 kg"), "{card}");
    let (messages, card) = after(15);
    assert_eq!(messages, ["the max of Back squat is estimated from 15 repetitions"]);
    // 105 kg, of which 70% are 73.5 kg.
    assert!(card.contains("72.5 kg"), "{card}");
    let (messages, card) = after(18);
    let kept = "the last set has 18 repetitions, so the max of Back squat does not change";
    assert_eq!(messages, [kept]);
    // 112 kg would have made 77.5 kg of it.
    assert!(!card.contains("77.5 kg") && card.contains("1 x 5+ @ 70 kg"), "{card}");
}

#[test]
fn a_rule_that_never_makes_a_max_is_said_once() {
    let day = "  A Back squat: 2 x 20 @ 40%, no warm-up\n     otherwise: max from last set\n";
    let text = project(["", "  max Back squat: 100 kg\n", "", day, ""]);
    let compiled = checked(&text, None);
    let messages: Vec<_> = doubts(&compiled).iter().map(|found| &*found.message).collect();
    assert_eq!(messages, ["this rule does nothing after a set of 20 repetitions"]);
}

/// The same value for several weeks and athletes is said once.
#[test]
fn a_value_is_said_once() {
    let day = "  A Back squat: 3 x 5 @ 60%, rest 90 min\n     week 2: 4 x 5 @ 60%\n";
    let athletes = "  max Back squat: 140 kg\n\nathlete Sage Ford\n  max Back squat: 100 kg\n";
    let compiled = checked(&project(["", athletes, "", day, ""]), None);
    assert_eq!(doubts(&compiled).len(), 1);
}
