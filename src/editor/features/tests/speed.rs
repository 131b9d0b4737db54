//! Measures each feature on a large programme: `cargo test --release -- --ignored --nocapture
//! speed`.

use std::time::Instant;

use crate::editor::features::marked::marked;
use crate::editor::features::{
    Shown, actions, complete, definition, hover, inlay_hints, references, rename,
};
use crate::source::Span;

/// A programme of about 2,000 lines for 30 athletes.
fn large() -> String {
    let mut text = String::from(
        "gym G\n  bar: 20 kg\n  plates: 20 kg x 8, 15 kg x 4, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 4\n",
    );
    for n in 0..30 {
        text.push_str(&format!("athlete Athlete {n}x\n  max Back squat: {} kg\n", 100 + n));
    }
    text.push_str("programme P\n  weeks: 12\n");
    for day in 0..6 {
        text.push_str(&format!("day Day {day}x\n"));
        for order in 0..16_u8 {
            let letter = char::from(b'A' + order);
            text.push_str(&format!("  {letter} Back squat: 3 x 5 @ 70% +1%/week, rest 3:00\n"));
            for week in 5..12 {
                text.push_str(&format!("    week {week}: 3 x {} @ 80%\n", week % 5 + 1));
            }
            text.push_str("    cue: Breathe.\n    for Athlete 3x: 3 x 3\n    note: A note.\n");
            text.push_str(
                "    when any rep missed: load -7.5%\n    setting: hole 9\n    range: to the knee\n",
            );
            text.push_str(
                "    setup: Feet wide.\n    source: own\n    # a comment\n    # another\n",
            );
        }
    }
    text.push_str("  Z Back sq|uat: 3 x 5 @ 70%\n");
    text
}

#[test]
#[allow(clippy::disallowed_methods, reason = "it measures time")]
#[ignore = "a measurement, for a release build"]
fn each_question_on_a_large_programme() {
    let text = large();
    let start = Instant::now();
    let (analysis, file, at) = marked(&text);
    println!("{} lines, analysis {:?}", text.lines().count(), start.elapsed());
    let timed = |name: &str, ask: &dyn Fn() -> usize| {
        ask();
        let start = Instant::now();
        let found = ask();
        println!("{name}: {:?} ({found})", start.elapsed());
    };
    timed("complete", &|| complete(&analysis, file, at).len());
    timed("hover name", &|| hover(&analysis, file, at).map_or(0, |h| h.markdown.len()));
    timed("hover loads", &|| hover(&analysis, file, at + 10).map_or(0, |h| h.markdown.len()));
    timed("definition", &|| definition(&analysis, file, at).len());
    timed("references", &|| references(&analysis, file, at).len());
    let athlete = text.find("Athlete 3x").unwrap_or(0);
    timed("rename", &|| rename(&analysis, file, athlete, "Bea").unwrap_or_default().len());
    timed("hints", &|| inlay_hints(&analysis, file, &Shown::default()).len());
    timed("actions", &|| actions(&analysis, file, Span::new(file, at, at)).len());
}
