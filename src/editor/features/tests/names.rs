use super::club;
use crate::catalogue::LIBRARY_FILE;
use crate::editor::features::marked::{marked, marked_with};
use crate::editor::features::{definition, references};
use crate::source::Span;

fn texts(analysis: &crate::editor::Analysis, spans: &[Span]) -> Vec<(u32, String)> {
    let of = |span: &Span| {
        (analysis.sources.locate(*span).line, analysis.sources.text(*span).to_owned())
    };
    spans.iter().map(of).collect()
}

#[test]
fn a_name_leads_to_where_it_is_defined() {
    for (of, by, line, name) in [
        ("  gym: Club", "  gym: Cl|ub", 1, "Club"),
        ("B1 Slow squat: 3", "B1 Slow| squat: 3", 18, "Slow squat"),
        ("B1 Slow squat: 3", "B1 Tempo| squat: 3", 18, "Slow squat"),
        ("for Ana Brook: 3", "for |Ana Brook: 3", 7, "Ana Brook"),
        ("follow: Small jumps", "follow: Small jumps|", 28, "Small jumps"),
        ("log Ana Brook: Winter", "log Ana Brook: Win|ter", 22, "Winter"),
        ("week 1, Lower 1", "week 1, Low|er 1", 32, "Lower 1"),
        ("    B1 Slow squat: 10", "    B1 Slow squat|: 10", 18, "Slow squat"),
    ] {
        let (analysis, file, at) = marked(&club(of, by));
        let found = definition(&analysis, file, at);
        assert_eq!(texts(&analysis, &found), [(line, name.to_owned())], "{by}");
    }
}

#[test]
fn a_built_in_exercise_is_defined_in_the_library() {
    let (analysis, file, at) = marked(&club("B2 Split squat", "B2 Spl|it squat"));
    let found = definition(&analysis, file, at);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].file, LIBRARY_FILE);
    assert_eq!(analysis.sources.text(found[0]), "Split squat");
}

#[test]
fn uses_are_found_everywhere_in_logs_and_by_synonym_too() {
    let text = club("B2 Split squat: 3 x 8 each side @ 16 kg", "B2 Pause squat: 3 x 8 @ 40 kg");
    let (analysis, file, at) = marked(&text.replacen("exercise Slow", "exercise Sl|ow", 1));
    let found: Vec<String> = texts(&analysis, &references(&analysis, file, at))
        .into_iter()
        .map(|(_, text)| text)
        .collect();
    let wanted =
        ["Slow squat", "Tempo squat", "Pause squat", "Slow squat", "Pause squat", "Slow squat"];
    assert_eq!(found, wanted);
    let (analysis, file, at) = marked(&club("athlete Ana", "athlete |Ana"));
    assert_eq!(references(&analysis, file, at).len(), 4);
}

#[test]
fn names_are_followed_into_other_files() {
    let squad = "gym Club\n  bar: 20 kg\nathlete Ana\n  gym: Club\n  max Back squat: 100 kg\n";
    let (analysis, file, at) = marked_with(
        "use squad.sets\nprogramme P\n  weeks: 1\n  athletes: A|na\nday D\n  A Back squat: 3 x 5 @ 70%\n",
        &[("squad.sets", squad)],
    );
    let found = definition(&analysis, file, at);
    assert_eq!(found.len(), 1);
    assert_ne!(found[0].file, file);
    assert_eq!(references(&analysis, file, at).len(), 2);
}

#[test]
fn advice_names_days_athletes_and_exercises() {
    let text = club(
        "  weeks: 3\n",
        "  weeks: 3\n  advice: allow late-compound on Lower 1 B1, Ana Brook, Slow squat (why)\n",
    );
    for (by, line) in [("on Lo|wer 1", 33), ("B1, An|a", 7), ("Brook, Slow s|quat", 18)] {
        let marked_text = text.replacen(&by.replace('|', ""), by, 1);
        let (analysis, file, at) = marked(&marked_text);
        let found = definition(&analysis, file, at);
        assert_eq!(texts(&analysis, &found).first().map(|(line, _)| *line), Some(line), "{by}");
    }
}

#[test]
fn where_nothing_is_named_there_is_nothing() {
    let (analysis, file, at) = marked(&club("  weeks: 3", "  we|eks: 3"));
    assert!(definition(&analysis, file, at).is_empty());
    assert!(references(&analysis, file, at).is_empty());
}

#[test]
fn a_name_on_a_line_that_does_not_read_is_still_known() {
    for (of, by, line) in [
        ("B1 Slow squat: 3 x 8-10 @ 40 kg", "B1 Slow |squat: 3 x 8-10 @@ 40", 18),
        ("B1 Slow squat: 3 x 8-10 @ 40 kg", "B1 Slow |squat", 18),
        ("    for Ana Brook: 3 x", "    for Ana| Brook: 3 xx", 7),
        ("  max Back squat: 100 kg", "  max Slow squ|at: hundred", 18),
    ] {
        let (analysis, file, at) = marked(&club(of, by));
        let found = definition(&analysis, file, at);
        assert_eq!(texts(&analysis, &found).first().map(|(line, _)| *line), Some(line), "{by}");
    }
}
