//! `source` lines in the plan, with what each is a source of.

use setwright::plan::CitationOf;

use super::listing::compiled;

fn evidence(week: u32) -> Vec<(String, String)> {
    let plan = compiled("tests/notation/cases/sources.sets", None).plan;
    assert_eq!(
        plan.source.as_deref(),
        Some("handed down; written up in 2025 (see https://example.org/small)")
    );
    let session = plan.athletes[0].sessions.iter().find(|session| session.week == week).unwrap();
    let found = session.exercises[0].sources.iter().map(|evidence| {
        let of = match &evidence.of {
            CitationOf::Exercise => "exercise".to_owned(),
            CitationOf::Line => "line".to_owned(),
            CitationOf::Cue { cue } => cue.clone(),
        };
        (of, evidence.text.clone())
    });
    found.collect()
}

#[test]
fn exercise_line_week_athlete_and_the_cues_that_are_printed() {
    let pairs = |texts: &[(&str, &str)]| -> Vec<(String, String)> {
        texts.iter().map(|(of, text)| ((*of).to_owned(), (*text).to_owned())).collect()
    };
    let cues = [
        // The line's cues stand in for the exercise's, and so do their sources.
        ("Breathe behind the shield.", "club handbook, page 3"),
        ("Slower.", "the same talk"),
    ];
    let lines = [
        ("exercise", "own observation, winter 2025"),
        ("line", "distances of last year's block"),
        ("line", "agreed on 2026-01-02"),
    ];
    assert_eq!(evidence(1), pairs(&[&lines[..], &cues].concat()));
    let more = [("line", "one set more is enough")];
    assert_eq!(evidence(2), pairs(&[&lines[..], &more, &cues].concat()));
}
