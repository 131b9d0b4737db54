use super::club;
use crate::editor::features::hover;
use crate::editor::features::marked::marked;

fn says(text: &str) -> String {
    let (analysis, file, at) = marked(text);
    hover(&analysis, file, at).map(|hover| hover.markdown).unwrap_or_default()
}

#[test]
fn what_stands_there_is_told() {
    for (of, by, parts) in [
        (
            "B2 Split squat",
            "B2 Spl|it squat",
            &["**Split squat**", "- equipment: ", "- swap: ", "*built in*"][..],
        ),
        ("B1 Slow squat: 3", "B1 Tempo| squat: 3", &["**Slow squat**", "defined in main.sets:18"]),
        (
            "for Ana Brook: 3",
            "for Ana| Brook: 3",
            &["**Ana Brook**", "- gym: Club", "- max Bench press: 5 @ 60 kg"],
        ),
        (
            "  gym: Club",
            "  gym: Cl|ub",
            &["gym Club", "plates: 20 kg x 4", "The 20 kg bar makes ", "from 20 kg to "],
        ),
        (
            "follow: Small jumps",
            "follow: Small| jumps",
            &["```sets\nscheme Small jumps", "when top of range"],
        ),
        ("log Ana Brook: Winter", "log Ana Brook: Win|ter", &["- weeks: 3", "- days: Lower 1"]),
        ("week 1, Lower 1", "week 1, Low|er 1", &["day Lower 1 (Mon)", "B1 Slow squat"]),
        ("  weeks: 3", "  we|eks: 3", &["`weeks`: how many weeks it runs"]),
        ("gym Club", "gy|m Club", &["`gym`: what a gym has"]),
        ("    week 3: 2 x 5", "    we|ek 3: 2 x 5", &["`week`: what changes in one week"]),
        ("when top of range: load", "when top of r|ange: load", &["every set met the upper end"]),
        ("reps to bottom", "reps to bot|tom", &["back to the lower end of the range"]),
        ("rest 3:00", "rest| 3:00", &["`rest 3:00`: rest after each set", "| who | week |"]),
        ("Trap bar 25 kg", "Trap| bar 25 kg", &["**Trap bar**: in Club"]),
    ] {
        let text = says(&club(of, by));
        for part in parts {
            assert!(text.contains(part), "{by}: {part:?} is not in\n{text}");
        }
    }
}

#[test]
fn a_prescription_is_worked_out_for_everybody() {
    let text = says(&club("A  Back squat: 3 x 5", "A  Back squat: 3 |x 5"));
    let (table, why) = text.split_once("\n\n").expect("a table and a derivation");
    assert_eq!(
        table,
        "| who | week | sets |\n|---|---|---|\n\
         | Ana Brook | 1 | 3 x 5 @ 70 kg |\n\
         |  | 2 | 3 x 5 @ 75 kg |\n\
         |  | 3 | 2 x 5 @ 80 kg, 1 x 5 @ 60 kg |\n\
         | Žofie Łęska | 1 | 3 x 5 @ 55 kg |\n\
         |  | 2 | 3 x 5 @ 60 kg |\n\
         |  | 3 | 2 x 5 @ 65 kg, 1 x 5 @ 47.5 kg |"
    );
    assert!(why.starts_with("```text\nAna Brook: week 1, Lower 1, A Back squat\n"), "{why}");
    assert!(why.contains("70% of it") && why.ends_with("```"), "{why}");
    let text = says(&club("    week 3: 2 x 5", "    week 3: 2 |x 5"));
    assert!(text.contains("| Ana Brook | 3 | 2 x 5 @ 80 kg, 1 x 5 @ 60 kg |"), "{text}");
    assert!(!text.contains("70 kg |"), "{text}");
}

#[test]
fn a_finding_is_explained() {
    let text = says("athlete A\nprogramme P\n  weeks: 1\nday D\n  A Pushupp|: 3 x 5\n");
    assert!(text.contains("unknown-exercise"), "{text}");
}

#[test]
fn a_table_is_cut() {
    let athletes: Vec<String> =
        (10..60).map(|n| format!("athlete P{n}\n  max Back squat: {n} kg\n")).collect();
    let athletes = athletes.concat();
    let text = format!(
        "gym G\n  bar: 5 kg\n  plates: 5 kg x 20, 0.5 kg x 4\n{athletes}programme P\n  weeks: 4\nday D\n  A Back squat: 3 |x 5 @ 70% +5%/week\n"
    );
    let table = says(&text);
    let rows = table.lines().filter(|line| line.starts_with('|')).count();
    assert_eq!(rows, 19, "{table}");
    assert!(table.contains(" more | | |"), "{table}");
}
