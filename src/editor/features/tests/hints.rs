use super::CLUB;
use crate::editor::features::marked::plain;
use crate::editor::features::{Shown, inlay_hints};

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
    assert_eq!(
        hints(&Shown::default()),
        [
            "A  Back squat: 3 x 5 @ 70% -> 75%, rest 3:00 | Ana w1: 70 kg",
            "week 3: 2 x 5 @ 80%, 1 x 5 @ 60% | Ana w3: 80 · 60 kg",
            "for Ana Brook: 3 x 8-10 @ 45 kg | Ana w1: 45 kg",
            "B2 Split squat: 3 x 8 each side @ 16 kg | Ana w1: 2 x 16 kg",
        ]
    );
}

#[test]
fn an_athlete_and_a_week_can_be_chosen() {
    let shown = Shown { athlete: Some("žofie łęska".to_owned()), week: Some(2) };
    assert_eq!(
        hints(&shown),
        [
            "A  Back squat: 3 x 5 @ 70% -> 75%, rest 3:00 | Žofie w2: 60 kg",
            "week 3: 2 x 5 @ 80%, 1 x 5 @ 60% | Žofie w3: 65 · 47.5 kg",
            "B1 Slow squat: 3 x 8-10 @ 40 kg | Žofie w2: 40 kg",
            "for Ana Brook: 3 x 8-10 @ 45 kg | Ana w2: 47.5 kg",
            "B2 Split squat: 3 x 8 each side @ 16 kg | Žofie w2: 2 x 16 kg",
        ]
    );
}

#[test]
fn plates_are_in_the_tooltip() {
    let (analysis, file) = plain(CLUB);
    let found = inlay_hints(&analysis, file, &Shown::default());
    assert_eq!(found[0].tooltip.as_deref(), Some("70 kg: 20 kg bar, 20 + 5 a side"));
}
