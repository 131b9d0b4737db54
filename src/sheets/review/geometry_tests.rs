//! Checks on the display list that nothing leaves its page, nothing overlaps, and no type is too
//! small.

use crate::compile::{Choice, compile};
use crate::history::{Review, review};
use crate::resolve::Project;
use crate::sheets::labels::Labels;
use crate::sheets::layout::{Page, Rect, Shape};
use crate::source::MemoryLoader;

use super::deck;

/// The review of a project's text.
fn reviewed(text: &str) -> Review {
    let project = Project::from_text(&MemoryLoader::new(), "test.sets", text.to_owned());
    review(&compile(project, &Choice::default()).unwrap().plan.expect("a plan"))
}

fn rowing_club() -> Review {
    let parts = [
        include_str!("../../../examples/rowing-club/gym.sets"),
        include_str!("../../../examples/rowing-club/squad.sets"),
        include_str!("../../../examples/rowing-club/winter.sets"),
        include_str!("../../../examples/rowing-club/logs.sets"),
    ];
    let text = parts.concat();
    let kept: Vec<&str> = text.lines().filter(|line| !line.starts_with("use ")).collect();
    reviewed(&kept.join("\n"))
}

const GYM: &str = "gym Shed\n  bar: 45 lb\n  plates: 45 lb, 25 lb, 10 lb, 5 lb, 2.5 lb\n\n";

/// Twenty weeks of logs in pounds, for an athlete with the longest names.
fn long() -> Review {
    let name = "Maximiliana Wolkenstein-Trautenfels von und zu Hohenasperg-Unterberghausen";
    let lift = "Paused close-grip incline press with the feet up on a second bench";
    let mut text = format!(
        "{GYM}exercise {lift}\n  equipment: barbell\n  muscles: chest, triceps 1/2\n\n\
         athlete {name}\n  gym: Shed\n  max {lift}: 250 lb\n\n\
         programme A programme with a name that does not end soon, and then some more words\n  \
         weeks: 20\n  starts: 2026-01-05\n\nday One (Mon)\n  A {lift}: 5 x 5 @ 80%, RPE 8\n    \
         when any rep missed: load -5 lb\n\n\
         log {name}: A programme with a name that does not end soon, and then some more words\n"
    );
    let first = jiff::civil::date(2026, 1, 5);
    for week in 1..=20_i64 {
        let date = first.checked_add(jiff::Span::new().days(7 * (week - 1))).unwrap();
        text.push_str(&format!(
            "  {date} week {week}, One\n    A: 5, 5, 5, 5, {} @ 200 lb, RPE 9.5, pain 1\n    \
             note: {}\n",
            week % 6,
            "a note that goes on ".repeat(12)
        ));
    }
    reviewed(&text)
}

fn sparse(log: &str) -> Review {
    reviewed(&format!(
        "{GYM}athlete Robin Vale\n  gym: Shed\n  max Back squat: 250 lb\n\n\
         programme Small\n  weeks: 2\n\nday One\n  A Back squat: 3 x 5 @ 70%\n{log}"
    ))
}

fn every_page() -> Vec<(String, Page)> {
    let once = "\nlog Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n";
    let all = [
        ("rowing club", rowing_club()),
        ("long", long()),
        ("nothing logged", sparse("")),
        ("one session", sparse(once)),
    ];
    let mut out: Vec<(String, Page)> = Vec::new();
    for (name, mut review) in all {
        for labels in Labels::ALL {
            labels.language.clone_into(&mut review.language);
            let name = format!("{name}, {}", labels.language);
            out.extend(deck(&review).0.into_iter().map(|page| (name.clone(), page)));
        }
    }
    out
}

fn texts(page: &Page) -> Vec<(Rect, String)> {
    let text = |item: &Shape| match item {
        Shape::Text { text, .. } => item.bounds().map(|bounds| (bounds, text.clone())),
        _ => None,
    };
    page.items.iter().filter_map(text).collect()
}

#[test]
fn everything_stands_inside_its_page() {
    for (name, page) in every_page() {
        for item in &page.items {
            let Some(b) = item.bounds() else { continue };
            let inside = b.x >= 14.0
                && b.y >= 14.0
                && b.right() <= page.width - 14.0
                && b.bottom() <= page.height - 14.0;
            assert!(inside, "{name}: {item:?}");
        }
    }
}

#[test]
fn no_text_overlaps_another() {
    let slack = 0.4;
    for (name, page) in every_page() {
        let texts = texts(&page);
        for (i, (a, text)) in texts.iter().enumerate() {
            for (b, other) in &texts[i + 1..] {
                let apart = a.x + slack >= b.right()
                    || b.x + slack >= a.right()
                    || a.y + slack >= b.bottom()
                    || b.y + slack >= a.bottom();
                assert!(apart, "{name}: {text:?} and {other:?}");
            }
        }
    }
}

#[test]
fn no_text_stands_on_a_point() {
    for (name, page) in every_page() {
        for disc in page.items.iter().filter(|item| matches!(item, Shape::Disc { .. })) {
            let Some(a) = disc.bounds() else { continue };
            for (b, text) in texts(&page) {
                let apart =
                    a.x >= b.right() || b.x >= a.right() || a.y >= b.bottom() || b.y >= a.bottom();
                assert!(apart, "{name}: {text:?} on {disc:?}");
            }
        }
    }
}

#[test]
fn no_type_is_smaller_than_seven_points() {
    for (name, page) in every_page() {
        for item in &page.items {
            if let Shape::Text { style, text, .. } = item {
                assert!(style.size >= 7.0, "{name}: {text:?} at {} pt", style.size);
            }
        }
    }
}

#[test]
fn the_squad_comes_first_and_a_single_athlete_has_no_overview() {
    let (pages, bookmarks) = deck(&rowing_club());
    assert_eq!(bookmarks.len(), 7);
    assert!(texts(&pages[0]).iter().any(|(_, text)| text == "Who needs a look first"));
    let (pages, bookmarks) = deck(&sparse(""));
    assert_eq!((pages.len(), bookmarks.len()), (1, 1));
    assert!(texts(&pages[0]).iter().any(|(_, text)| text == "Nothing logged yet."));
}

#[test]
fn the_same_review_gives_the_same_bytes() {
    let review = rowing_club();
    assert_eq!(super::pdf(&review, None).unwrap(), super::pdf(&review, None).unwrap());
}

/// Writes samples to look at: `cargo test --lib -- --ignored review_samples`.
#[test]
#[ignore = "writes files for looking at"]
#[allow(clippy::disallowed_methods, reason = "a developer asked for the files")]
fn review_samples() {
    let folder = std::env::temp_dir().join("setwright-samples");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, review) in [("review-long", long()), ("review-rowing", rowing_club())] {
        let rendered = super::pdf(&review, None).unwrap();
        std::fs::write(folder.join(format!("{name}.pdf")), rendered.bytes).unwrap();
    }
}
