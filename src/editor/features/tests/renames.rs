use super::{CLUB, club};
use crate::editor::features::edits::apply;
use crate::editor::features::marked::{marked, marked_with, plain};
use crate::editor::features::{prepare_rename, rename};

fn renamed(text: &str, new: &str) -> Result<String, String> {
    let (analysis, file, at) = marked(text);
    let edits = rename(&analysis, file, at, new)?;
    Ok(apply(&text.replacen('|', "", 1), file, &edits))
}

#[test]
fn a_new_name_is_written_everywhere_and_changes_nothing_else() {
    for (of, by, new) in [
        ("athlete Ana Brook", "athlete |Ana Brook", "Ana Vale"),
        ("gym Club", "gym Cl|ub", "The Shed"),
        ("programme Winter", "programme |Winter", "Spring"),
        ("scheme Small jumps", "scheme |Small jumps", "Steps"),
        ("exercise Slow squat", "exercise |Slow squat", "Grinder squat"),
        ("day Lower 1 (Mon)", "day |Lower 1 (Mon)", "Legs"),
        ("phase Base", "phase |Base", "First"),
    ] {
        let old = by.replace('|', "");
        let old = old.split_once(' ').unwrap().1.trim_end_matches(" (Mon)").to_owned();
        let after = renamed(&club(of, by), new).unwrap();
        assert!(!after.contains(&old), "{after}");
        let (before, _) = plain(CLUB);
        let (analysis, _) = plain(&after);
        assert_eq!(
            analysis.diagnostics.len(),
            before.diagnostics.len(),
            "{:?}",
            analysis.diagnostics
        );
        let summary =
            |analysis: &crate::editor::Analysis| crate::sheets::summary(&analysis.plans[0]);
        let spoken = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let (was, is) = (spoken(summary(&before)), spoken(summary(&analysis)));
        assert!(
            was.replace(&old, new).replace(['-', '='], "") == is.replace(['-', '='], ""),
            "{new}"
        );
        // And back.
        let again = after.replacen(new, &format!("|{new}"), 1);
        assert_eq!(renamed(&again, &old).unwrap(), CLUB);
    }
}

#[test]
fn uses_by_a_synonym_stay_and_a_synonym_changes_by_itself() {
    let text = club("B2 Split squat: 3 x 8 each side @ 16 kg", "B2 Pause squat: 3 x 8 @ 40 kg");
    let after = renamed(&text.replacen("exercise Slow", "exercise |Slow", 1), "Grinder").unwrap();
    assert!(after.contains("B2 Pause squat") && after.contains("B1 Grinder: 3"), "{after}");
    let after = renamed(&text.replacen("B2 Pause", "B2 |Pause", 1), "Stop squat").unwrap();
    assert!(
        after.contains("also called: Tempo squat, Stop squat") && after.contains("B2 Stop squat")
    );
    assert!(after.contains("exercise Slow squat"));
}

#[test]
fn a_name_that_would_not_read_or_is_taken_is_refused() {
    for (of, by, new, why) in [
        ("B2 Split squat", "B2 |Split squat", "Lunge of mine", "is built in"),
        ("exercise Slow squat", "exercise |Slow squat", "Back squat", "built-in exercise"),
        ("athlete Ana Brook", "athlete |Ana Brook", "Žofie Łęska", "already"),
        ("athlete Ana Brook", "athlete |Ana Brook", "Ana: Brook", "would not read"),
        ("athlete Ana Brook", "athlete |Ana Brook", "Ana, Brook", "would not read"),
        ("athlete Ana Brook", "athlete |Ana Brook", "Ana # Brook", "would not read"),
        ("athlete Ana Brook", "athlete |Ana Brook", "Ana\nBrook", "would not read"),
        ("athlete Ana Brook", "athlete |Ana Brook", " ", "at least one letter"),
        ("  weeks: 3", "  wee|ks: 3", "months", "nothing here has a name"),
    ] {
        let found = renamed(&club(of, by), new);
        assert!(found.as_ref().is_err_and(|error| error.contains(why)), "{new}: {found:?}");
    }
}

#[test]
fn only_what_is_the_projects_own_can_be_renamed() {
    for (of, by, can) in [
        ("B2 Split squat", "B2 |Split squat", false),
        ("B1 Slow squat: 3", "B1 |Slow squat: 3", true),
        ("  weeks: 3", "  we|eks: 3", false),
        ("Trap bar 25 kg", "Trap| bar 25 kg", false),
    ] {
        let (analysis, file, at) = marked(&club(of, by));
        assert_eq!(prepare_rename(&analysis, file, at).is_some(), can, "{by}");
    }
}

#[test]
fn other_files_are_changed_too() {
    let squad = "athlete Ana\n  max Back squat: 100 kg\n";
    let text = "use squad.sets\nprogramme P\n  weeks: 1\n  athletes: A|na\nday D\n  A Back squat: 3 x 5 @ 70%\n    for Ana: 3 x 4\n";
    let (analysis, file, at) = marked_with(text, &[("squad.sets", squad)]);
    let edits = rename(&analysis, file, at, "Bea").unwrap();
    assert_eq!(edits.len(), 3);
    assert!(edits.iter().any(|(span, _)| span.file != file));
}
