use super::CLUB;
use crate::editor::questions::marked::plain;
use crate::editor::questions::{Shown, inlay_hints};

fn hints(shown: &Shown) -> Vec<String> {
    let (analysis, file) = plain(CLUB);
    let found = inlay_hints(&analysis, file, shown);
    let line = |at: u32| {
        let text = &analysis.sources.get(file).unwrap().text;
        text[..at as usize].lines().last().unwrap().trim().to_owned()
    };
    found.iter().map(|hint| format!("{} | {}", line(hint.at), hint.text)).collect()
}

#[test]
fn each_line_says_what_the_first_athlete_lifts() {
    insta::assert_debug_snapshot!(hints(&Shown::default()), @"");
}

#[test]
fn an_athlete_and_a_week_can_be_chosen() {
    let shown = Shown { athlete: Some("žofie łęska".to_owned()), week: Some(2) };
    insta::assert_debug_snapshot!(hints(&shown), @"");
}

#[test]
fn plates_are_in_the_tooltip() {
    let (analysis, file) = plain(CLUB);
    let found = inlay_hints(&analysis, file, &Shown::default());
    assert_eq!(found[0].tooltip.as_deref(), Some("70 kg: 20 kg bar, 20 + 5 a side"));
}
