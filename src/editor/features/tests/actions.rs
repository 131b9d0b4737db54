use crate::editor::features::edits::apply;
use crate::editor::features::marked::marked;
use crate::editor::features::{CodeAct, actions};
use crate::source::Span;

/// The titles of the actions, each with the text after it is applied.
fn acts(text: &str) -> Vec<(String, String)> {
    let (analysis, file, at) = marked(text);
    let plain = text.replacen('|', "", 1);
    let found = actions(&analysis, file, Span::new(file, at, at));
    found.into_iter().map(|act: CodeAct| (act.title, apply(&plain, file, &act.edits))).collect()
}

const HOME: &str = "\
gym Home
  dumbbells: 4-20 kg by 2 kg
  has: bench

athlete Ana  # who
  gym: Home

programme P
  weeks: 2

day D
  A Bench press: 3 x 8 @ 20 kg
";

#[test]
fn a_typo_is_fixed() {
    let found = acts("day D\n  A Back sqat|: 3 x 5\nprogramme P\n  weeks: 1\n");
    let found: Vec<&str> = found.iter().map(|(title, _)| title.as_str()).collect();
    assert!(found.is_empty(), "a day outside a programme names nothing: {found:?}");
    let found = acts("programme P\n  weeks: 1\nday D\n  A Back sqat|: 3 x 5\n");
    assert_eq!(found[0].0, "replace `Back sqat` with `Back squat`");
    assert!(found[0].1.contains("A Back squat: 3 x 5"));
}

#[test]
fn swaps_are_offered_for_everybody_who_needs_one() {
    let text = HOME.replace("A Bench", "A |Bench");
    let found = acts(&text);
    assert!(!found.is_empty());
    let (title, after) = &found[0];
    assert!(after.contains("athlete Ana  # who\n  replace Bench press: "), "{title}\n{after}");
    let two = text.replace("programme P", "athlete Bea\n  gym: Home\n\nprogramme P");
    let found = acts(&two);
    assert!(
        found.iter().any(|(_, after)| after
            .matches("  replace Bench press: Dumbbell bench press (no bar)")
            .count()
            == 2),
        "{found:?}"
    );
}

#[test]
fn a_missing_max_is_left_to_be_filled_in() {
    let text = "gym G\n  bar: 20 kg\n\nathlete Ana\n  gym: G\n\nprogramme P\n  weeks: 1\n\nday D\n  A Back squat: 3 x 5 @ 7|0%\n";
    let found = acts(text);
    let after = &found.iter().find(|(title, _)| title.starts_with("add a max")).expect("an act").1;
    assert!(after.contains("athlete Ana\n  # max Back squat: … kg\n  gym: G"), "{after}");
}

#[test]
fn advice_can_be_allowed_where_it_is_given() {
    let text = "gym G\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2\n\nathlete Ana\n  gym: G\n  max Back squat: 100 kg\n\nprogramme P  # p\n  weeks: 1\n  goal: strength  # g\n\nday D\n  A Back squat: 5 x 8 @ 90%|, rest 3:00\n";
    let found = acts(text);
    let allowed =
        found.iter().find(|(title, _)| title.starts_with("allow `reps-past-percent` on D A"));
    let after = &allowed.unwrap_or_else(|| panic!("{found:?}")).1;
    assert!(
        after.contains("  goal: strength  # g\n  advice: allow reps-past-percent on D A (why)\n"),
        "{after}"
    );
    let (analysis, _, _) = marked(&format!("{after}|"));
    assert!(analysis.advice.iter().all(|found| found.code.name() != "reps-past-percent"));
    assert!(analysis.diagnostics.is_empty(), "{:?}", analysis.diagnostics);
}
