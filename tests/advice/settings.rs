//! `advice:` lines: their effect, and the problem if they match nothing.

use setwright::diagnostics::Severity;

use super::support::{advice, checked, folder, messages};

/// Two athletes, two days, heavy work after isolation on both.
fn programme(lines: &str) -> String {
    format!(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 8, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2\n  \
         has: rack, safeties, bench, leg extension\n\nathlete Robin Vale\n  gym: Shed\n  max Back squat: 140 kg\n\n\
         athlete Wren Tallow\n  gym: Shed\n  max Back squat: 100 kg\n\nprogramme Small\n  weeks: 4\n  before: rowing\n\
         {lines}\nday One\n  A  Leg extension: 2 x 12, rest 60 s\n  B  Back squat: 4 x 4 @ 85%, rest 3:00\n  \
         C  Reverse lunge: 3 x 8 each side, rest 90 s\n  D  Hip thrust: 4 x 8, rest 90 s\n\n\
         day Two\n  A  Leg extension: 2 x 12, rest 60 s\n  B  Back squat: 4 x 4 @ 82.5%, rest 3:00\n  \
         D  Glute bridge: 4 x 8, rest 90 s\n"
    )
}

const LATE: &str = "late-compound";

#[test]
fn the_same_for_everybody_is_said_once_a_line() {
    let said = messages(&programme(""));
    assert_eq!(said.len(), 2, "{said:?}");
    for message in &said {
        assert!(message.ends_with("(every week; both athletes)"), "{message}");
    }
}

#[test]
fn allow_is_for_everywhere_or_for_what_it_names() {
    let count = |line: &str| advice(&programme(line)).iter().filter(|code| **code == LATE).count();
    for (line, left) in [
        ("", 2),
        ("  advice: allow late-compound\n", 0),
        ("  advice: allow late-compound (the racks are taken until half past)\n", 0),
        ("  advice: allow LATE-COMPOUND on B\n", 0),
        ("  advice: allow late-compound on back squat\n", 0),
        ("  advice: allow late-compound on One\n", 1),
        ("  advice: allow late-compound on One B (why not)\n", 1),
        ("  advice: allow late-compound on One, Two\n", 0),
        ("  advice: allow late-compound on One\n  advice: allow late-compound on Two\n", 0),
        ("  advice: allow late-compound on Robin Vale\n", 2),
        ("  advice: allow late-compound on Robin Vale, Wren Tallow\n", 0),
        ("  advice: allow late-compound on weeks 1-3\n", 2),
        ("  advice: allow late-compound on week 1, weeks 2-4\n", 0),
        ("  advice: none\n", 0),
        ("  advice: none (a colleague's programme)\n", 0),
    ] {
        assert_eq!(count(line), left, "{line}");
    }
    let only = messages(&programme("  advice: allow late-compound on Robin Vale, weeks 1-2\n"));
    assert!(only.iter().all(|m| m.ends_with("(weeks 3-4; Wren Tallow)")), "{only:?}");
}

#[test]
fn a_number_moves_and_a_level_changes() {
    let bound = |line: &str| advice(&programme(line));
    // Eight hard sets of squats a week, and two days of leg extension: twelve for the quadriceps.
    assert!(!bound("").contains(&"many-weekly-sets"));
    assert!(bound("  advice: many-weekly-sets at 10 sets\n").contains(&"many-weekly-sets"));
    assert!(bound("  advice: many-weekly-sets at 10 sets (a short block)\n").len() > 2);
    let noted = checked(&programme("  advice: late-compound as info\n"));
    assert!(noted.advice.iter().all(|advice| advice.severity() == Severity::Info));
    let louder = "  advice: many-weekly-sets at 10 sets\n  advice: many-weekly-sets as warning\n";
    let louder = checked(&programme(louder));
    assert!(louder.advice.iter().all(|advice| advice.severity() == Severity::Warning));
}

#[test]
fn an_allow_that_nothing_needs_is_said() {
    let found = advice(&programme("  advice: allow spine-superset on B\n"));
    assert_eq!(found.last(), Some(&"unused-allow"), "{found:?}");
}

/// What is wrong with an `advice:` line: code, and what to do.
fn wrong(line: &str) -> (&'static str, String) {
    let checked = checked(&programme(line));
    let found = &checked.diagnostics[0];
    assert!(checked.advice.is_empty(), "no advice beside an error");
    (found.code.name(), found.help.clone().unwrap_or_default())
}

#[test]
fn what_fits_nothing_is_an_error_that_says_what_would() {
    for (line, code, help) in [
        ("  advice: allow late-compond\n", "unknown-word", "did you mean `late-compound`?"),
        ("  advice: allow missing-max\n", "unknown-word", "fix the problem itself"),
        (
            "  advice: allow late-compound on Back sqaut\n",
            "bad-advice",
            "did you mean `Back squat`?",
        ),
        ("  advice: allow late-compound on Z1\n", "bad-advice", "write an order letter"),
        (
            "  advice: many-weekly-sets at 10 min\n",
            "bad-advice",
            "write `many-weekly-sets at 10 sets`",
        ),
        ("  advice: spine-superset at 3 sets\n", "bad-advice", "write `allow spine-superset`"),
        (
            "  advice: short-rest at 90 s\n  advice: short-rest at 100 s\n",
            "bad-advice",
            "keep one of the two lines",
        ),
        ("  advice: strict\n", "bad-value", "delete this line and run `setwright check"),
        (
            "  advice: many-weekly-sets at 34 sets on glute\n",
            "bad-advice",
            "did you mean `glutes`?",
        ),
        ("  advice: be kind\n", "bad-value", "write `allow late-compound on D1 (why)`"),
    ] {
        let found = wrong(line);
        assert_eq!(found.0, code, "{line}");
        assert!(found.1.starts_with(help), "{line}: {}", found.1);
    }
}

/// Thirty athletes, each with a max of their own.
#[test]
fn a_squad_of_thirty_does_not_drown_its_coach() {
    let rower =
        |n: u32| format!("athlete Rower {n}\n  gym: Shed\n  max Back squat: {} kg\n\n", 80 + 2 * n);
    let squad = (0..30).map(rower).collect::<Vec<String>>().concat();
    let text = programme("");
    let (gym, rest) = text.split_once("athlete Robin Vale").unwrap();
    let rest = rest.split_once("programme Small").unwrap().1;
    let text = format!("{gym}{squad}programme Small{rest}");
    let said = messages(&text);
    assert_eq!(said.len(), 2, "{said:?}");
    assert!(said.iter().all(|m| m.ends_with("(every week; all 30 athletes)")), "{said:?}");
}

/// Two muscles past the usual number: a number of its own takes out the one that it names.
#[test]
fn a_number_may_be_for_one_thing() {
    let text = |line: &str| {
        let programme = std::fs::read_to_string(folder().join("many-weekly-sets.sets")).unwrap();
        programme.replacen("  weeks: ", &format!("{line}  weeks: "), 1)
    };
    let said = |line: &str| advice(&text(line)).contains(&"many-weekly-sets");
    assert!(said(""));
    assert!(!said("  advice: many-weekly-sets at 60 sets on lats, chest\n"));
    assert!(said("  advice: many-weekly-sets at 60 sets on lats\n"));
    assert!(!said("  advice: many-weekly-sets at 60 sets\n"));
    let both =
        "  advice: many-weekly-sets at 60 sets\n  advice: many-weekly-sets at 5 sets on chest\n";
    assert!(said(both));
}
