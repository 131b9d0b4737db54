//! The load of a replacement, the equipment of a line, and the rests of a superset: the programme's
//! text, and the output of summary, plan and `why`.

use setwright::compile::{Choice, check, compile};
use setwright::diagnostics::{Code, Diagnostic, Severity};
use setwright::export::sets_csv;
use setwright::plan::Plan;
use setwright::resolve::Project;
use setwright::sheets::{in_short, reasons, summary};
use setwright::source::MemoryLoader;

const GYM: &str = "gym Shed
  bar: 20 kg
  plates: 20 kg x 4, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 2
  dumbbells: 4-30 kg by 2 kg
  kettlebells: 12 kg x 2, 16 kg x 2
  stack Cable: 5-80 kg by 5 kg
  bands: light 10 kg, heavy 20 kg
";

fn text(athlete: &str, day: &str) -> String {
    format!(
        "{GYM}\nathlete Robin Vale\n  gym: Shed\n  body mass: 70 kg\n{athlete}\nprogramme Small\n  \
         weeks: 3\n  starts: 2026-01-05\n\nday One (Mon)\n{day}\n"
    )
}

fn project(text: &str) -> Project {
    Project::from_text(&MemoryLoader::new(), "one.sets", text.to_owned())
}

fn found(text: &str) -> Vec<Diagnostic> {
    check(project(text)).diagnostics
}

fn planned(text: &str) -> Plan {
    let compiled = compile(project(text), &Choice::default()).unwrap();
    compiled.plan.unwrap_or_else(|| panic!("{text}\n{:#?}", compiled.diagnostics))
}

/// The summary's exercise lines, each with the lines about its loads, week by week.
fn lines(text: &str) -> Vec<String> {
    let all = summary(&planned(text));
    let of_line = |line: &&str| {
        let own =
            line.chars().next().is_some_and(|c| c.is_ascii_uppercase()) && line.contains("  ");
        own || line.contains("Next time")
    };
    let lines = all.lines().filter(of_line);
    lines.map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

const ROW: &str = "  A  Bent-over row: 3 x 8 @ 40 kg\n    when all reps made: load +2.5 kg";

#[test]
fn another_implement_or_pattern_leaves_the_load_open() {
    let text = text("  replace Bent-over row: Lateral raise (back)\n", ROW);
    assert_eq!(lines(&text), ["A Lateral raise 3 x 8 (choose a load)"; 3]);
    let plan = planned(&text);
    let (athlete, session) = (&plan.athletes[0], &plan.athletes[0].sessions[0]);
    let exercise = &session.exercises[0];
    assert_eq!(in_short(athlete, exercise), "3 x 8 (choose a load)");
    let why = reasons(&plan, athlete, session, exercise);
    assert!(why.contains("3 x 8 @ choose a load"), "{why}");
    assert!(why.contains("the line's load is one of Bent-over row, not of Lateral raise"), "{why}");
    let json = serde_json::to_value(&plan).unwrap();
    let set = &json["athletes"][0]["sessions"][0]["exercises"][0]["sets"][0];
    assert!(set["target_kg"].is_null() && set["load_kg"].is_null(), "{set}");
    assert_eq!((&set["to_choose"], &set["about"]), (&true.into(), &false.into()));
    assert!(exercise.replaces.as_ref().is_some_and(|replaced| !replaced.load_kept));
    let csv = sets_csv(&plan).unwrap();
    assert!(csv.lines().next().unwrap().ends_with(",to_choose"));
    assert!(csv.lines().skip(1).all(|row| row.ends_with(",true")), "{csv}");
    // In each language.
    for (language, words) in [
        ("de", "Gewicht wählen"),
        ("fr", "choisis une charge"),
        ("es", "elige una carga"),
        ("pl", "dobierz ciężar"),
    ] {
        let text = text.replace("  gym: Shed", &format!("  gym: Shed\n  language: {language}"));
        assert!(summary(&planned(&text)).contains(words), "{language}");
    }
}

#[test]
fn the_same_implement_and_pattern_keep_it() {
    let day = "  A  Bench press: 3 x 5 @ 40 kg\n    when all reps made: load +2.5 kg";
    let text = text("  replace Bench press: Floor press (shoulder)\n", day);
    let found = lines(&text);
    assert_eq!(found[0], "A Floor press 3 x 5 @ 40 kg (10 a side)");
    assert_eq!(found[1], "Next time: all reps made: load +2.5 kg");
    assert_eq!(found[2], "A Floor press 3 x 5 @ 42.5 kg (10 + 1.25 a side) projected");
    let plan = planned(&text);
    let replaced = plan.athletes[0].sessions[0].exercises[0].replaces.clone().unwrap();
    assert!(replaced.load_kept);
}

#[test]
fn a_load_of_the_athletes_own_is_used_as_written() {
    let day = format!("{ROW}\n    for Robin Vale: @ 8 kg");
    let text = text("  replace Bent-over row: Lateral raise (back)\n", &day);
    // No rule acts after it either: 2.5 kg is a step of the row.
    assert_eq!(lines(&text), ["A Lateral raise 3 x 8 @ 2 x 8 kg"; 3]);
}

#[test]
fn a_percentage_is_of_the_replacements_own_max() {
    let day = "  A  Back squat: 3 x 5 @ 70%";
    let replaced = "  max Back squat: 120 kg\n  replace Back squat: Front squat (knee)\n";
    let own = text(&format!("{replaced}  max Front squat: 80 kg\n"), day);
    // 70 % of 80 kg is 56: the plates make 55 [C].
    assert_eq!(lines(&own)[0], "A Front squat 3 x 5 @ 55 kg (10 + 5 + 2.5 a side)");
    // No max carries over: the load is open, also where implement and pattern are the same.
    let none = text(replaced, day);
    assert_eq!(lines(&none), ["A Front squat 3 x 5 (choose a load)"; 3]);
}

#[test]
fn loads_on_the_body() {
    let day = |load: &str| format!("  A  Pull-up: 3 x 5 @ {load}");
    let row = "  replace Pull-up: Kettlebell row (elbow)\n";
    let open = "A Kettlebell row 3 x 5 each side (choose a load)";
    assert_eq!(lines(&text(row, &day("bodyweight")))[0], open);
    assert_eq!(lines(&text(row, &day("bodyweight +5 kg")))[0], open);
    let chin = "  replace Pull-up: Chin-up (elbow)\n";
    let kept = lines(&text(chin, &day("bodyweight +5 kg")));
    assert!(kept[0].starts_with("A Chin-up 3 x 5 @ body mass + 5 kg"), "{kept:?}");
    // Kilograms of a bar are not hung from a body.
    let push = "  replace Bench press: Push-up (no bench)\n";
    let text = text(push, "  A  Bench press: 3 x 5 @ 60 kg");
    assert_eq!(lines(&text)[0], "A Push-up 3 x 5 @ body mass");
}

#[test]
fn a_chain_is_followed_to_its_end_on_each_day() {
    let chain = "  avoid: Chest-supported row\n  \
                 replace Bent-over row: Chest-supported row (back, until 2026-01-12)\n  \
                 replace Chest-supported row: Lateral raise (shoulder)\n";
    let text = text(chain, ROW);
    // What is avoided in the middle of a chain is not done.
    assert!(found(&text).iter().all(|f| f.severity() != Severity::Error), "{:#?}", found(&text));
    let found = lines(&text);
    assert_eq!(found[..2], ["A Lateral raise 3 x 8 (choose a load)"; 2]);
    // The replacement ends: the row goes on from its own load, which no rule moved meanwhile.
    assert_eq!(found[2], "A Bent-over row 3 x 8 @ 40 kg (10 a side)");
    let plan = planned(&text);
    let replaced = plan.athletes[0].sessions[0].exercises[0].replaces.clone().unwrap();
    assert_eq!(replaced.name, "Bent-over row");
    assert_eq!(replaced.reason.as_deref(), Some("back, until 2026-01-12; shoulder"));
    // The end of the chain is what `avoid` is held against.
    let avoided = text.replace("avoid: Chest-supported row", "avoid: Lateral raise");
    let avoided = check(project(&avoided)).diagnostics;
    let avoided = avoided.iter().find(|f| f.code == Code::AvoidedExercise).unwrap();
    assert_eq!(avoided.message, "Robin Vale must avoid Lateral raise");
    let help = avoided.help.as_ref().unwrap();
    assert!(help.contains("in place of `replace Chest-supported row: Lateral raise`"), "{help}");
}

#[test]
fn a_ring_is_an_error_at_both_lines() {
    let ring = |until: &str| {
        let athlete = format!(
            "  replace Bent-over row: Bench pull (back{until})\n  replace Bench pull: Bent-over row\n"
        );
        let found = found(&text(&athlete, ROW));
        found.into_iter().filter(|f| f.code == Code::ReplaceCycle).collect::<Vec<_>>()
    };
    for until in ["", ", until 2026-01-12"] {
        let found = ring(until);
        assert_eq!(found.len(), 1, "{found:#?}");
        assert_eq!(found[0].related.len(), 1);
        assert!(found[0].message.starts_with("Robin Vale replaces exercises in a circle: "));
    }
    // It ended before the programme began.
    assert!(ring(", until 2026-01-04").is_empty());
}

#[test]
fn a_line_keeps_the_tool_that_makes_its_loads() {
    let exercise = |equipment: &str| format!("exercise Hoist\n  equipment: {equipment}\n\n");
    let of = |equipment: &str, load: &str| {
        let text =
            format!("{}{}", exercise(equipment), text("", &format!("  A  Hoist: 3 x 8 @ {load}")));
        let plain = lines(&text);
        let off = check(project(&text)).advice.iter().any(|a| a.code == Code::LoadOffTarget);
        (plain, off)
    };
    // The first that can.
    assert_eq!(of("band, stack Cable", "20 kg").0[0], "A Hoist 3 x 8 @ heavy band (20 kg)");
    let (found, off) = of("band, stack Cable", "30 kg");
    assert_eq!((found[0].as_str(), off), ("A Hoist 3 x 8 @ pin 30 kg (Cable)", false));
    // One tool for all weeks: the band makes the first week's load, the stack makes all three.
    let (found, _) = of("band, stack Cable", "20 kg +5 kg/week");
    assert_eq!(found[0], "A Hoist 3 x 8 @ pin 20 kg (Cable)");
    assert_eq!(found[2], "A Hoist 3 x 8 @ pin 30 kg (Cable)");
    // A pair is no single piece: 2 x 35 kg does not become 35 kg.
    let (found, off) = of("dumbbells, stack Cable", "35 kg");
    assert_eq!(found[0], "A Hoist 3 x 8 @ 2 x 30 kg (target 35 kg)");
    assert!(off);
    // With bands alone, what is off is said.
    let (found, off) = of("band", "30 kg");
    assert_eq!(
        (found[0].as_str(), off),
        ("A Hoist 3 x 8 @ heavy band (20 kg) (target 30 kg)", true)
    );
    let (found, off) = of("band", "18 kg");
    assert_eq!((found[0].as_str(), off), ("A Hoist 3 x 8 @ heavy band (20 kg)", false));
}

#[test]
fn members_of_a_superset_that_state_different_rests() {
    let of = |day: &str| -> Vec<Diagnostic> {
        let found = found(&text("", day));
        found.into_iter().filter(|f| f.code == Code::GroupRest).collect()
    };
    let day =
        "  A1 Bench press: 3 x 5 @ 40 kg, rest 2:00\n  A2 Bench pull: 3 x 8 @ 40 kg, rest 60 s";
    let found = of(day);
    assert_eq!(found.len(), 1);
    assert_eq!(
        found[0].message,
        "the exercises of A have different rests (A1 2:00, A2 60 s); the card prints `rest 60 s after \
         both`, the last member's"
    );
    let printed = summary(&planned(&text("", day)));
    assert!(
        printed.contains("A   Superset; alternate A1 and A2; rest 60 s after both"),
        "{printed}"
    );
    // Either fix leaves one rest.
    let source = text("", day);
    assert_eq!(found[0].fixes.len(), 2);
    for (fix, rest) in found[0].fixes.iter().zip(["60 s", "2:00"]) {
        let edit = &fix.edits[0];
        let (start, end) = (edit.span.start as usize, edit.span.end as usize);
        let fixed = format!("{}{}{}", &source[..start], edit.text, &source[end..]);
        assert!(check(project(&fixed)).diagnostics.iter().all(|f| f.code != Code::GroupRest));
        let printed = summary(&planned(&fixed));
        assert!(printed.contains(&format!("rest {rest} after both")), "{printed}");
        assert_eq!(printed.matches("rest ").count(), 3, "once a week: {printed}");
    }
    for quiet in [
        "  A1 Bench press: 3 x 5 @ 40 kg, rest 60 s\n  A2 Bench pull: 3 x 8 @ 40 kg, rest 60 s",
        "  A1 Bench press: 3 x 5 @ 40 kg\n  A2 Bench pull: 3 x 8 @ 40 kg, rest 60 s",
        "  A: circuit 3 rounds, change 20 s\n  A1 Bench press: 5 @ 40 kg, rest 15 s\n  A2 Bench pull: 8 @ 40 kg, rest 60 s",
    ] {
        assert!(of(quiet).is_empty(), "{quiet}");
    }
    let group = "  A: rest 90 s\n  A1 Bench press: 3 x 5 @ 40 kg, rest 2:00\n  A2 Bench pull: 3 x 8 @ 40 kg";
    assert!(of(group)[0].message.ends_with("the group line's"));
}
