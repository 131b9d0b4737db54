//! Replacements that `check` suggests for exercises that cannot be done or must be avoided. The
//! tests define their own exercises. Suggested lines are compiled to check that they work.

use setwright::compile::check;
use setwright::diagnostics::{Code, Diagnostic, Severity};
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

/// Exercises that only their swaps join together: Press 1 to 2 and 3, 3 to 4, 4 to 5.
const EXERCISES: &str = "
exercise Press one
  equipment: stack One
  swap: Press two, Press three
exercise Press two
  equipment: barbell, other Seat
  swap: Press one
exercise Press three
  equipment: stack Three
  swap: Press four
exercise Press four
  equipment: dumbbells
  swap: Press five
exercise Press five
  equipment: kettlebell
exercise Pull one
  equipment: body mass, other Rafter
  swap: Pull two, Pull three
exercise Pull two
  equipment: body mass
exercise Pull three
  equipment: barbell
exercise Turn one
  equipment: stack One
  pattern: rotate
  muscles: neck
exercise Turn two
  equipment: dumbbell
  pattern: rotate
  muscles: neck 1/2
exercise Turn three
  equipment: dumbbell
  pattern: rotate
  muscles: obliques, neck
exercise Alone
  equipment: stack One
  swap: Floor work
exercise Floor work
  equipment: body mass
";

fn text(gym: &str, athletes: &str, day: &str) -> String {
    format!(
        "{EXERCISES}\ngym Shed\n{gym}\n{athletes}\nprogramme Small\n  weeks: 2\n  starts: 2026-01-05\n\n\
         day One (Mon)\n{day}\n"
    )
}

fn findings(text: &str) -> Vec<Diagnostic> {
    let loader = MemoryLoader::new();
    check(Project::from_text(&loader, "one.sets", text.to_owned())).diagnostics
}

fn wrong(text: &str) -> Vec<Diagnostic> {
    let mut found = findings(text);
    found.retain(|finding| finding.severity() == Severity::Error);
    found
}

fn only(text: &str) -> Diagnostic {
    let found = wrong(text);
    assert_eq!(found.len(), 1, "{found:#?}");
    found.into_iter().next().unwrap()
}

/// The lines to paste, each `replace` with the `max` below it.
fn lines(finding: &Diagnostic) -> Vec<Vec<String>> {
    let help = finding.help.clone().unwrap();
    let mut found: Vec<Vec<String>> = Vec::new();
    for line in help.lines().filter_map(|line| line.strip_prefix("  ")) {
        match found.last_mut() {
            Some(last) if line.starts_with("max ") => last.push(line.to_owned()),
            _ => found.push(vec![line.to_owned()]),
        }
    }
    found
}

/// Pastes lines below the head of each athlete; a coach fills the max in.
fn pasted(text: &str, athletes: &[&str], lines: &[String]) -> String {
    let mut out = text.to_owned();
    for athlete in athletes {
        let head = format!("athlete {athlete}\n");
        let below = format!("  {}\n", lines.join("\n  "));
        let below = below.replace("bodyweight …", "bodyweight +10 kg").replace('…', "60 kg");
        assert!(out.contains(&head));
        out = out.replace(&head, &format!("{head}{below}"));
    }
    out
}

/// The text with the changes that an editor makes when one of the choices is taken; a coach fills
/// in what stands in a comment.
fn taken(text: &str, finding: &Diagnostic, choice: usize) -> String {
    let mut edits = finding.fixes[choice].edits.clone();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span.start));
    let mut out = text.to_owned();
    for edit in edits {
        out.replace_range(edit.span.start as usize..edit.span.end as usize, &edit.text);
    }
    let filled = out.replace("bodyweight …", "bodyweight +10 kg").replace("… kg", "60 kg");
    filled.replace('…', "60 kg").replace("# max ", "max ").replace("# body mass", "body mass")
}

/// Every proposal, pasted as it stands or taken in an editor, compiles.
fn assert_all_compile(text: &str, athletes: &[&str]) {
    let finding = only(text);
    let lines = lines(&finding);
    assert_eq!(finding.fixes.len(), lines.len());
    for (at, lines) in lines.into_iter().enumerate() {
        let fixed = pasted(text, athletes, &lines);
        assert_eq!(wrong(&fixed), [], "{lines:?}");
        let fixed = taken(text, &finding, at);
        assert_eq!(wrong(&fixed), [], "{fixed}");
        assert_eq!(fixed.matches(&lines[0]).count(), athletes.len(), "{fixed}");
    }
}

fn firsts(finding: &Diagnostic) -> Vec<String> {
    lines(finding).into_iter().map(|lines| lines[0].clone()).collect()
}

const BARS: &str = "  bar: 20 kg\n  plates: 20 kg, 10 kg, 5 kg, 2.5 kg\n";
const ROBIN: &str = "athlete Robin Vale\n  gym: Shed\n  body mass: 70 kg\n";

#[test]
fn direct_swaps_in_their_order() {
    let gym = format!("{BARS}  stack Three: 5-50 kg by 5 kg\n");
    let text = text(&gym, ROBIN, "  A Press one: 3 x 5 @ 60 kg");
    let found = only(&text);
    assert_eq!(found.code, Code::MissingEquipment);
    assert_eq!(found.message, "Robin Vale cannot do Press one: the gym `Shed` has no stack `One`");
    assert_eq!(
        found.help.as_deref().unwrap(),
        "write one of these under `athlete Robin Vale`, the closest first:\n  \
         replace Press one: Press two (no stack One)\n  \
         replace Press one: Press three (no stack One)\n\
         or add what is missing to the gym\n\
         the load in kilograms is kept only if implement and pattern are the same; otherwise the card\n\
         leaves it open, unless a `for` line below the exercise gives one"
    );
    assert_all_compile(&text, &["Robin Vale"]);
}

#[test]
fn the_first_fix_can_be_applied_by_other_programs() {
    for athlete in [
        ROBIN.to_owned(),
        ROBIN.replace("  ", "     "),
        ROBIN.replace("Vale", "Vale  # captain"),
        "athlete Robin Vale".to_owned(),
    ] {
        let text = text(BARS, &athlete, "  A Press one: 3 x 5 @ 60 kg");
        let fixed = taken(&text, &only(&text), 0);
        assert_eq!(findings(&fixed), [], "{fixed}");
        assert!(fixed.contains("replace Press one: Press two (no stack One)\n"));
    }
}

#[test]
fn swaps_of_swaps_when_no_swap_can_be_loaded() {
    let gym = "  dumbbells: 4-80 kg by 2 kg\n  lacks: Seat\n";
    let text = text(gym, ROBIN, "  A Press one: 3 x 5 @ 60 kg");
    let found = only(&text);
    assert!(
        found.help.as_ref().unwrap().starts_with("no swap of Press one can be done, but swaps")
    );
    assert_eq!(firsts(&found), ["replace Press one: Press four (no stack One)"]);
    assert_all_compile(&text, &["Robin Vale"]);
}

#[test]
fn then_what_has_the_same_pattern_and_main_muscle() {
    let gym = "  dumbbells: 4-80 kg by 2 kg\n";
    let text = text(gym, ROBIN, "  A Turn one: 3 x 5 @ 20 kg");
    let found = only(&text);
    assert!(found.help.as_ref().unwrap().contains("exercises with its pattern and main muscle"));
    let firsts = firsts(&found);
    let place = |name: &str| firsts.iter().position(|line| line.contains(name)).unwrap();
    // The larger share of the neck comes first.
    assert!(place("Turn three") < place("Turn two"), "{firsts:?}");
    assert_all_compile(&text, &["Robin Vale"]);
}

#[test]
fn nothing_is_said_to_be_nothing() {
    let text = text(BARS, ROBIN, "  A Alone: 3 x 5 @ 20 kg");
    let found = only(&text);
    assert_eq!(lines(&found), [] as [Vec<String>; 0]);
    assert_eq!(found.fixes, []);
    assert_eq!(
        found.help.as_deref().unwrap(),
        "without the load of this exercise, these could be done: Floor work\n\
         to use one, write `replace Alone: Floor work` under `athlete Robin Vale`,\n\
         or add what is missing to the gym"
    );
}

#[test]
fn a_load_on_the_body_asks_for_the_body() {
    // A bar cannot stand in for the body, nor the body for a bar.
    let lacks = format!("{BARS}  lacks: Rafter\n");
    let on_body = text(&lacks, ROBIN, "  A Pull one: 3 x 5 @ bodyweight");
    assert_eq!(firsts(&only(&on_body)), ["replace Pull one: Pull two (no rafter)"]);
    assert_all_compile(&on_body, &["Robin Vale"]);
    // What is added to the body may be added to another exercise of the body, or go on a bar.
    let added = text(&lacks, ROBIN, "  A Pull one: 3 x 5 @ 10 kg");
    assert_eq!(firsts(&only(&added)).len(), 2);
    assert_all_compile(&added, &["Robin Vale"]);
}

#[test]
fn athletes_of_one_gym_share_a_finding() {
    let two = format!("{ROBIN}\nathlete Ida Corran\n  gym: Shed\n");
    let text_of_two = text(BARS, &two, "  A Press one: 3 x 5 @ 60 kg");
    let found = only(&text_of_two);
    assert!(found.message.starts_with("Robin Vale and Ida Corran cannot do Press one"));
    let help = found.help.as_ref().unwrap();
    assert!(
        help.starts_with("write this under each of `athlete Robin Vale` and `athlete Ida Corran`:"),
        "{help}"
    );
    assert!(help.ends_with("or, because it concerns everybody, write another exercise in the programme\n\
         the load in kilograms is kept only if implement and pattern are the same; otherwise the card\n\
         leaves it open, unless a `for` line below the exercise gives one"), "{help}");
    assert_all_compile(&text_of_two, &["Robin Vale", "Ida Corran"]);

    let names = ["A", "B", "C", "D", "E", "F", "G", "H", "I", "J"];
    let many = names.map(|name| format!("athlete {name} Vale\n  gym: Shed\n")).concat();
    let found = only(&text(BARS, &many, "  A Press one: 3 x 5 @ 60 kg"));
    assert!(found.message.starts_with(
        "A Vale, B Vale, C Vale, D Vale, E Vale, F Vale, G Vale, H Vale and 2 more cannot do"
    ));
    assert!(found.help.unwrap().contains("under each of the 10 athletes"));

    // Who avoids the closest gets a finding of their own.
    let two = two.replace("Ida Corran\n  gym", "Ida Corran\n  avoid: Press two\n  gym");
    let gym = format!("{BARS}  stack Three: 5-50 kg by 5 kg\n");
    let found = wrong(&text(&gym, &two, "  A Press one: 3 x 5 @ 60 kg"));
    assert_eq!(found.len(), 2);
    let of = |name: &str| found.iter().find(|f| f.message.starts_with(name)).unwrap();
    assert_eq!(firsts(of("Robin Vale cannot")).len(), 2);
    assert_eq!(firsts(of("Ida Corran cannot")), ["replace Press one: Press three (no stack One)"]);
}

#[test]
fn a_percentage_needs_a_max_that_only_the_coach_can_give() {
    let text_of = |max: &str| {
        let athlete = format!("{ROBIN}  max Press one: 80 kg\n{max}");
        text(BARS, &athlete, "  A Press one: 3 x 5 @ 70%")
    };
    let found = only(&text_of(""));
    let both = vec![
        "replace Press one: Press two (no stack One)".to_owned(),
        "max Press two: …".to_owned(),
    ];
    assert_eq!(lines(&found), std::slice::from_ref(&both));
    let help = found.help.as_ref().unwrap();
    assert!(help.contains("replace `…` with a tested load"), "{help}");
    // No number is guessed, and none is taken in silence.
    assert!(!help.chars().any(|sign| sign.is_ascii_digit()), "{help}");
    let unfilled = format!("athlete Robin Vale\n  {}\n  {}\n", both[0], both[1]);
    let unfilled = text_of("").replace("athlete Robin Vale\n", &unfilled);
    assert!(!wrong(&unfilled).is_empty());
    assert_all_compile(&text_of(""), &["Robin Vale"]);
    // A max, or a share of one, that the file has is enough.
    for max in ["  max Press two: 70 kg\n", "  max Press two: 90% of Press one\n"] {
        let text = text_of(max);
        assert_eq!(lines(&only(&text)), [vec![both[0].clone()]]);
        assert_all_compile(&text, &["Robin Vale"]);
    }
    // A percentage of another lift needs none.
    let athlete = format!("{ROBIN}  max Press four: 80 kg\n");
    let other = text(BARS, &athlete, "  A Press one: 3 x 5 @ 70% of Press four");
    assert_eq!(lines(&only(&other)), [vec![both[0].clone()]]);
    assert_all_compile(&other, &["Robin Vale"]);
    // Any week counts, not the first only.
    let athlete = format!("{ROBIN}  max Press one: 80 kg\n");
    let day = "  A Press one: 3 x 5\n    week 2: 3 x 5 @ 70%";
    assert_eq!(lines(&only(&text(BARS, &athlete, day))), [both]);
}

#[test]
fn a_percentage_of_a_lift_of_the_body() {
    let athlete = format!("{ROBIN}  max Pull one: bodyweight +20 kg\n");
    let gym = format!("{BARS}  lacks: Rafter\n");
    let text = text(&gym, &athlete, "  A Pull one: 3 x 5 @ 80%");
    let found = lines(&only(&text));
    assert_eq!(found[0][1], "max Pull two: bodyweight …");
    assert_eq!(found[1][1], "max Pull three: …");
    assert_all_compile(&text, &["Robin Vale"]);
}

#[test]
fn a_lift_of_the_body_stands_in_where_its_load_can_be_worked_out_and_made() {
    let proposed = |gym: &str, athlete: &str, load: &str| -> bool {
        let gym = format!("  bar: 20 kg\n  lacks: Rafter\n{gym}");
        let athlete = format!("athlete Robin Vale\n  gym: Shed\n{athlete}");
        let found = wrong(&text(&gym, &athlete, &format!("  A Pull one: 3 x 5 @ {load}")));
        let found = found.iter().find(|f| f.code == Code::MissingEquipment).unwrap();
        firsts(found).contains(&"replace Pull one: Pull two (no rafter)".to_owned())
    };
    let (plates, body) = ("  plates: 10 kg\n", "  body mass: 70 kg\n");
    let max = "  max Pull one: bodyweight +20 kg\n";
    assert!(proposed(plates, &format!("{body}{max}"), "80%"));
    assert!(!proposed(plates, max, "80%"), "the body mass is not known");
    let plain = format!("{body}{max}  max Pull two: 60 kg\n");
    assert!(!proposed(plates, &plain, "80%"), "its max is that of a bar");
    let added = format!("{body}{max}  max Pull two: bodyweight +10 kg\n");
    assert!(proposed(plates, &added, "80%"));
    // Kilograms ask for something to add, and for no more.
    assert!(proposed(plates, "", "10 kg"));
    assert!(proposed("  dumbbells: 10 kg\n", "", "10 kg"));
    assert!(proposed("  kettlebells: 8 kg\n", "", "10 kg"));
    assert!(!proposed("", "", "10 kg"));
}

#[test]
fn a_max_with_a_pair_is_of_one() {
    let athlete = format!("{ROBIN}  max Press three: 80 kg\n");
    let day = "  A Press three: 3 x 5 @ 70%";
    let help = |gym: &str| only(&text(gym, &athlete, day)).help.unwrap();
    let note = "\nwith a pair of dumbbells, the max is the mass of one dumbbell";
    assert!(help("  dumbbells: 4-30 kg by 2 kg\n").contains(note));
    // Done with one there is nothing to say.
    assert!(!help("  kettlebells: 16 kg\n").contains("a pair of"));
}

#[test]
fn what_is_to_be_avoided_has_proposals_too() {
    let gym = format!("{BARS}  stack One: 5-50 kg by 5 kg\n  dumbbells: 4-30 kg by 2 kg\n");
    for (avoid, exercise, proposed) in [
        ("Press one", "Press one", "replace Press one: Press two"),
        ("rotate", "Turn one", ""),
        ("Press one, Press two, Press three", "Press one", "replace Press one: Press four"),
    ] {
        let athlete = format!("{ROBIN}  avoid: {avoid}\n");
        let text = text(&gym, &athlete, &format!("  A {exercise}: 3 x 5 @ 20 kg"));
        let found = only(&text);
        assert_eq!(found.code, Code::AvoidedExercise);
        assert!(!found.help.as_ref().unwrap().contains("to the gym"));
        let firsts = firsts(&found);
        assert_eq!(firsts.first().map_or("", String::as_str), proposed, "{avoid}");
        assert_all_compile(&text, &["Robin Vale"]);
    }
    // A muscle: what does not work it may stand in.
    let muscle = EXERCISES.replace("  muscles: neck\n", "  muscles: neck\n  swap: Press four\n");
    let athlete = format!("{ROBIN}  avoid: neck (physio, until 2026-01-12)\n");
    let text = text(&gym, &athlete, "  A Turn one: 3 x 5 @ 20 kg").replace(EXERCISES, &muscle);
    assert_eq!(firsts(&only(&text)), ["replace Turn one: Press four (avoids neck)"]);
    assert_all_compile(&text, &["Robin Vale"]);
}

#[test]
fn a_replacement_that_cannot_be_done_is_replaced() {
    let athlete = format!("{ROBIN}  replace Press one: Press three (grip)\n");
    let text = text(BARS, &athlete, "  A Press one: 3 x 5 @ 20 kg");
    let found = only(&text);
    let help = found.help.as_ref().unwrap();
    assert!(
        help.starts_with(
            "write this under `athlete Robin Vale` in place of `replace Press one: Press three`:\n  \
             replace Press one: Press two (grip)\n"
        ),
        "{help}"
    );
    let edit = &found.fixes[0].edits[0];
    let (start, end) = (edit.span.start as usize, edit.span.end as usize);
    assert_eq!(&text[start..end], "Press three");
    let fixed = format!("{}{}{}", &text[..start], edit.text, &text[end..]);
    assert_eq!(wrong(&fixed), []);
    // In an editor it is the same change.
    assert_eq!(found.fixes.len(), 1);
    assert_eq!(
        found.fixes[0].title.as_deref().unwrap(),
        "replace Press three with Press two for Robin Vale"
    );
    assert_eq!(taken(&text, &only(&text), 0), fixed);
}

#[test]
fn a_line_to_be_filled_in_stands_below_the_athlete() {
    let day = "  A Press two: 3 x 5 @ 70%";
    let text_of = |athlete: &str, day: &str| text(BARS, athlete, day);
    for athlete in [ROBIN.to_owned(), ROBIN.replace("  ", "    ")] {
        let text = text_of(&athlete, day);
        let found = only(&text);
        assert_eq!(found.code, Code::MissingMax);
        assert_eq!(found.message, "Robin Vale has no max for Press two");
        let title = "add a max of Press two to Robin Vale, for you to fill in";
        assert_eq!(found.fixes[0].title.as_deref(), Some(title));
        let fixed = taken(&text, &found, 0);
        let indent = athlete.lines().nth(1).unwrap().split("gym").next().unwrap();
        assert!(fixed.contains(&format!("Robin Vale\n{indent}max Press two: 60 kg\n{indent}gym")));
        assert_eq!(wrong(&fixed), []);
    }
    let athlete = "athlete Robin Vale\n  gym: Shed\n  max Pull one: bodyweight +20 kg\n";
    let text = text_of(athlete, "  A Pull one: 3 x 5 @ 80%\n  B Pull one: 3 x 5 @ 60%");
    let found = only(&text);
    assert_eq!(found.code, Code::MissingBodyMass);
    let fixed = taken(&text, &found, 0);
    assert!(fixed.contains("athlete Robin Vale\n  body mass: 60 kg\n  gym"), "{fixed}");
    assert_eq!(wrong(&fixed), []);
}

#[test]
fn what_is_replaced_itself_stands_in_for_nothing() {
    let gym = format!("{BARS}  stack Three: 5-50 kg by 5 kg\n");
    let day = "  A Press one: 3 x 5 @ 20 kg";
    let athlete = format!("{ROBIN}  replace Press two: Press three (grip)\n");
    let found = only(&text(&gym, &athlete, day));
    assert_eq!(firsts(&found), ["replace Press one: Press three (no stack One)"]);
}

#[test]
fn what_may_stand_in_an_unread_line_is_not_missed() {
    let athlete = format!("{ROBIN}  replace Press one; Press two\n");
    let found = wrong(&text(BARS, &athlete, "  A Press one: 3 x 5 @ 20 kg"));
    assert!(found.iter().all(|finding| finding.code != Code::MissingEquipment), "{found:#?}");
}
