//! What no eye should have to check: nothing leaves its page, nothing overlaps, every box is big
//! enough for a pen, and the same plan gives the same bytes.

use super::card::{LEAST_BOX, LEAST_WIDTH, deck};
use super::labels::Labels;
use super::layout::{Ink, Item, Page, Rect, Role};
use super::sample::{athlete, on, plan};
use super::sample_plans::{all, crowded, endless, full, groups, sourced, typical, wild};
use super::{CardCopy, CardOptions, Paper, SheetError, cards};
use crate::plan::Plan;

fn overlap(a: &Rect, b: &Rect) -> bool {
    let slack = 0.3;
    a.x + slack < b.right()
        && b.x + slack < a.right()
        && a.y + slack < b.bottom()
        && b.y + slack < a.bottom()
}

fn texts(page: &Page) -> Vec<(Rect, String)> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Item::Text { text, .. } => Some((item.bounds()?, text.clone())),
            Item::Missing { character, .. } => Some((item.bounds()?, character.to_string())),
            _ => None,
        })
        .collect()
}

fn boxes(page: &Page, wanted: Role) -> Vec<Rect> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Item::Shape { rect, role, .. } if *role == wanted => Some(*rect),
            _ => None,
        })
        .collect()
}

fn every_page() -> Vec<(Paper, usize, Page)> {
    let mut plan = all();
    plan.athletes.push(wild());
    plan.athletes.push(athlete("Bartholomew Augustine Featherstonhaugh", vec![full(), endless()]));
    let sourced = sourced(plan.clone());
    let copies = [(&plan, CardCopy::Athlete), (&sourced, CardCopy::Coach)];
    let all_papers = Paper::ALL.into_iter().flat_map(|paper| copies.map(|copy| (paper, copy)));
    let mut out: Vec<(Paper, usize, Page)> = Vec::new();
    for ((_, paper), (plan, copy)) in all_papers {
        let pages = deck(plan, &CardOptions { copy, ..on(paper) }).pages.into_iter().enumerate();
        out.extend(pages.map(|(at, page)| (paper, at, page)));
    }
    // In other languages words are longer; what nobody should write is no different there.
    for labels in Labels::ALL.into_iter().skip(1) {
        let mut plan = all();
        plan.athletes.push(athlete("Wren Tallow", vec![full()]));
        let plan = in_language(super::sample_plans::sourced(plan), labels.language);
        for copy in [CardCopy::Athlete, CardCopy::Coach] {
            let options = CardOptions { copy, ..on(Paper::A5) };
            let pages = deck(&plan, &options).pages.into_iter().enumerate();
            out.extend(pages.map(|(at, page)| (Paper::A5, at, page)));
        }
    }
    out
}

/// The same plan with its sheets in another language.
fn in_language(mut plan: Plan, language: &str) -> Plan {
    language.clone_into(&mut plan.language);
    for athlete in &mut plan.athletes {
        language.clone_into(&mut athlete.language);
    }
    plan
}

#[test]
fn everything_stands_inside_its_page() {
    // Laser printers leave about 5 mm blank.
    let edge = 14.0;
    for (paper, at, page) in every_page() {
        for item in &page.items {
            let Some(b) = item.bounds() else { continue };
            let inside = b.x >= edge - 0.1
                && b.y >= edge - 0.1
                && b.right() <= page.width - edge + 0.1
                && b.bottom() <= page.height - edge + 0.1;
            assert!(inside, "{paper} page {}: {item:?}", at + 1);
        }
    }
}

#[test]
fn no_text_overlaps_another() {
    for (paper, at, page) in every_page() {
        let texts = texts(&page);
        for (i, (a, text)) in texts.iter().enumerate() {
            for (b, other) in &texts[i + 1..] {
                assert!(!overlap(a, b), "{paper} page {}: {text:?} and {other:?}", at + 1);
            }
        }
    }
}

#[test]
fn boxes_are_for_pens_and_do_not_overlap() {
    for (paper, at, page) in every_page() {
        let write_in = boxes(&page, Role::WriteIn);
        let tally = boxes(&page, Role::Tally);
        let plates = boxes(&page, Role::Plate);
        for rect in &write_in {
            assert!(
                rect.h >= LEAST_BOX && rect.w >= LEAST_WIDTH,
                "{paper} page {}: {rect:?}",
                at + 1
            );
        }
        for rect in &tally {
            assert!(
                rect.h >= LEAST_BOX && rect.w >= LEAST_BOX,
                "{paper} page {}: {rect:?}",
                at + 1
            );
        }
        let pens: Vec<&Rect> = write_in.iter().chain(&tally).collect();
        for (i, a) in pens.iter().enumerate() {
            for b in &pens[i + 1..] {
                assert!(!overlap(a, b), "{paper} page {}: {a:?} and {b:?}", at + 1);
            }
            for plate in &plates {
                assert!(!overlap(a, plate), "{paper} page {}: {a:?} and {plate:?}", at + 1);
            }
        }
        // A box holds nothing but its own small label, in its upper left corner.
        for (text, words) in texts(&page) {
            for rect in pens.iter().filter(|rect| overlap(rect, &text)) {
                let own = text.x >= rect.x
                    && text.right() <= rect.right() + 0.1
                    && text.bottom() < rect.y + 12.0;
                assert!(own, "{paper} page {}: {words:?} in {rect:?}", at + 1);
            }
        }
        for plate in &plates {
            for (text, words) in texts(&page) {
                assert!(!overlap(plate, &text), "{paper} page {}: {words:?} on a plate", at + 1);
            }
        }
    }
}

#[test]
fn no_type_is_smaller_than_seven_points() {
    for (_, _, page) in every_page() {
        for item in &page.items {
            if let Item::Text { style, text, .. } = item {
                assert!(style.size >= 7.0, "{text:?} at {} pt", style.size);
            }
        }
    }
}

/// The contrast of an ink on white, as accessibility guidelines reckon it (WCAG 2.2, 1.4.3).
fn contrast(ink: Ink) -> f32 {
    let linear = ((ink.level() + 0.055) / 1.055).powf(2.4);
    1.05 / (linear + 0.05)
}

#[test]
fn labels_of_boxes_are_whole() {
    for labels in Labels::ALL {
        for session in [typical(), full()] {
            let plan =
                in_language(plan(vec![athlete("Wren Tallow", vec![session])]), labels.language);
            for (_, paper) in Paper::ALL {
                let pages = deck(&plan, &on(paper)).pages;
                let texts: Vec<String> =
                    pages.iter().flat_map(texts).map(|(_, text)| text.to_lowercase()).collect();
                let mass = format!("{}, kg", labels.body_mass);
                for label in [&mass, labels.session_rpe, labels.sleep, labels.pain, labels.notes] {
                    let whole = label.to_lowercase();
                    assert!(texts.contains(&whole), "{paper}: {label}: {texts:?}");
                }
            }
        }
        let plan = in_language(plan(vec![athlete("Wren Tallow", vec![groups()])]), labels.language);
        let pages = deck(&plan, &on(Paper::A5)).pages;
        let texts: Vec<String> = pages.iter().flat_map(texts).map(|(_, text)| text).collect();
        for label in [labels.rounds_done, labels.extra_reps, labels.left, labels.right] {
            assert!(texts.iter().any(|text| text == label), "{label}: {texts:?}");
        }
    }
}

#[test]
fn grey_can_be_read_on_white() {
    for (paper, at, page) in every_page() {
        for item in &page.items {
            let page = at + 1;
            match item {
                // White text stands on black.
                Item::Text { style, text, .. } if style.ink != Ink::White => {
                    assert!(contrast(style.ink) >= 4.5, "{paper} page {page}: {text:?}");
                }
                Item::Line { ink, .. } => assert!(contrast(*ink) >= 3.0, "{paper} page {page}"),
                Item::Shape { stroke: Some((_, ink)), .. } => {
                    assert!(contrast(*ink) >= 3.0, "{paper} page {page}");
                }
                _ => {}
            }
        }
    }
}

#[test]
fn a_full_session_fits_one_small_page() {
    for paper in [Paper::A5, Paper::HalfLetter] {
        for (session, labels) in
            [typical, full].into_iter().flat_map(|s| Labels::ALL.map(|l| (s(), l)))
        {
            let plan = plan(vec![athlete("Wren Tallow", vec![session])]);
            let pages = deck(&in_language(plan, labels.language), &on(paper)).pages;
            assert_eq!(pages.len(), 1, "{paper}, {}", labels.language);
        }
    }
}

#[test]
fn a_long_session_flows_and_says_so() {
    let plan = plan(vec![athlete("Wren Tallow", vec![crowded()])]);
    let pages = deck(&plan, &on(Paper::A5)).pages;
    assert_eq!(pages.len(), 2);
    for (at, page) in pages.iter().enumerate() {
        let texts: String = texts(page).into_iter().map(|(_, text)| text + "\n").collect();
        assert!(texts.contains(&format!("page {} of 2", at + 1)), "{texts}");
        assert!(texts.contains("Wren Tallow"));
    }
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let options = CardOptions { created: Some(1_767_225_600), ..CardOptions::default() };
    let first = cards(&all(), &options).unwrap();
    assert_eq!(first, cards(&all(), &options).unwrap());
    let find = |needle: &str| first.bytes.windows(needle.len()).any(|at| at == needle.as_bytes());
    assert!(find("/CreationDate(D:20260101000000Z)"));
    assert!(!find("GTS_PDFXVersion"));
    let undated = cards(&all(), &CardOptions::default()).unwrap();
    assert!(!undated.bytes.windows(12).any(|at| at == b"CreationDate"));
    assert_ne!(undated.bytes, first.bytes);
}

#[test]
fn what_the_font_lacks_is_reported_once() {
    let missing = cards(&all(), &CardOptions::default()).unwrap().missing;
    let found: Vec<(char, &str)> = missing.iter().map(|m| (m.character, m.text.as_str())).collect();
    assert_eq!(found, [('漢', "Přítah činky v předklonu (漢)")]);
}

#[test]
fn a_plan_without_sessions_is_refused() {
    let empty = plan(vec![athlete("Wren Tallow", Vec::new())]);
    assert_eq!(cards(&empty, &CardOptions::default()), Err(SheetError::NoSessions));
}

/// Writes the samples for the eye: `cargo test --lib -- --ignored samples`.
#[test]
#[ignore = "writes files for looking at"]
#[allow(clippy::disallowed_methods, reason = "a developer asked for the files")]
fn samples() {
    let folder = std::env::temp_dir().join("setwright-samples");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, paper) in Paper::ALL {
        let rendered = cards(&all(), &on(paper)).unwrap();
        std::fs::write(folder.join(format!("{name}.pdf")), rendered.bytes).unwrap();
    }
    let wild = cards(&plan(vec![wild()]), &CardOptions::default()).unwrap();
    std::fs::write(folder.join("wild.pdf"), wild.bytes).unwrap();
    std::fs::write(folder.join("summary.txt"), super::summary(&all())).unwrap();
}

/// For timing from outside: `time cargo test --lib -- --ignored five_hundred`.
#[test]
#[ignore = "for timing"]
fn five_hundred_pages() {
    let sessions = vec![typical(); 480];
    let plan = plan(vec![athlete("Wren Tallow", sessions)]);
    let rendered = cards(&plan, &CardOptions::default()).unwrap();
    assert_eq!(rendered.pages, 480);
    let one = super::sample::plan(vec![athlete("Wren Tallow", vec![typical()])]);
    let one = cards(&one, &CardOptions::default()).unwrap();
    eprintln!(
        "{} bytes for 480 pages, {} for one: {} a page beyond the fonts",
        rendered.bytes.len(),
        one.bytes.len(),
        (rendered.bytes.len() - one.bytes.len()) / 479
    );
}
