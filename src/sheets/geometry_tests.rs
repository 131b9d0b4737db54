//! Automatic checks of cards: nothing leaves its page, nothing overlaps, every box is large enough
//! for a pen, and the same plan gives the same bytes.

use std::sync::OnceLock;

use jiff::civil::date;
use proptest::prelude::*;

use super::card::{LEAST_BOX, LEAST_WIDTH, deck};
use super::labels::Labels;
use super::layout::{Ink, Page, Rect, Role, Shape};
use super::sample::{athlete, exercise, kg, on, plan, session, set};
use super::sample_plans::{all, endless, full, groups, sourced, typical, wild};
use super::{CardCopy, CardOptions, Paper, SheetError, TwoUp, cards, deck as printed};
use crate::plan::{GroupKind, Implement, Limit, Plan, PlannedExercise};
use crate::quantity::Duration;

pub fn overlap(a: &Rect, b: &Rect) -> bool {
    let slack = 0.3;
    a.x + slack < b.right()
        && b.x + slack < a.right()
        && a.y + slack < b.bottom()
        && b.y + slack < a.bottom()
}

pub fn texts(page: &Page) -> Vec<(Rect, String)> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Shape::Text { text, .. } => Some((item.bounds()?, text.clone())),
            Shape::Missing { character, .. } => Some((item.bounds()?, character.to_string())),
            _ => None,
        })
        .collect()
}

pub fn boxes(page: &Page, wanted: Role) -> Vec<Rect> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Shape::Rectangle { rect, role, .. } if *role == wanted => Some(*rect),
            _ => None,
        })
        .collect()
}

/// All options that change the layout of cards.
fn every_option() -> Vec<CardOptions> {
    let mut out = Vec::new();
    for (_, paper) in Paper::ALL {
        for two_up in [None, Some(TwoUp::Landscape)] {
            for (large_print, left_handed) in
                [(false, false), (false, true), (true, false), (true, true)]
            {
                let more = CardOptions { large_print, left_handed, two_up, ..on(paper) };
                out.push(CardOptions { plate_colours: left_handed, ..more });
                if large_print == left_handed {
                    out.push(CardOptions { copy: CardCopy::Coach, ..more });
                }
            }
        }
    }
    // A sheet with two cards is the same whichever of the two papers is given.
    out.retain(|options| options.two_up.is_none() || options.paper == options.paper.half());
    out
}

/// The sample cards, all at once, with all options; laid out once for all tests.
fn every_page() -> &'static [(CardOptions, Vec<Page>)] {
    static PAGES: OnceLock<Vec<(CardOptions, Vec<Page>)>> = OnceLock::new();
    PAGES.get_or_init(|| {
        let mut plan = all();
        plan.athletes.push(wild());
        let long = vec![full(), endless(), session("Rest", date(2026, 1, 26), Vec::new())];
        plan.athletes.push(athlete("Bartholomew Augustine Featherstonhaugh", long));
        let sourced = sourced(plan.clone());
        let pages = |options: CardOptions| match options.copy {
            CardCopy::Athlete => (options, printed(&plan, &options).pages),
            CardCopy::Coach => (options, printed(&sourced, &options).pages),
        };
        let own = every_option().into_iter().map(pages);
        own.chain(in_other_languages()).collect()
    })
}

/// Other languages have longer words; the extreme plan is the same in all of them.
fn in_other_languages() -> Vec<(CardOptions, Vec<Page>)> {
    let mut out = Vec::new();
    for labels in Labels::ALL.into_iter().skip(1) {
        let mut plan = all();
        plan.athletes.push(athlete("Wren Tallow", vec![full()]));
        let plan = in_language(sourced(plan), labels.language);
        for (copy, large_print) in
            [(CardCopy::Athlete, false), (CardCopy::Athlete, true), (CardCopy::Coach, false)]
        {
            let options = CardOptions { large_print, copy, ..on(Paper::A5) };
            out.push((options, printed(&plan, &options).pages));
        }
    }
    out
}

/// The same plan with its sheets in another language.
pub(super) fn in_language(mut plan: Plan, language: &str) -> Plan {
    language.clone_into(&mut plan.language);
    for athlete in &mut plan.athletes {
        language.clone_into(&mut athlete.language);
    }
    plan
}

/// Checks a page and describes its fault, if there is one. Also used for other sheets.
pub(super) fn fault(page: &Page) -> Option<String> {
    outside(page).or_else(|| overlapping(page)).or_else(|| bad_box(page))
}

/// Items outside the page's margins. Laser printers leave about 5 mm blank.
fn outside(page: &Page) -> Option<String> {
    let edge = 14.0;
    let bounds = page.items.iter().filter_map(|item| Some((item, item.bounds()?)));
    let mut outside = bounds.filter(|(_, b)| {
        b.x < edge - 0.1
            || b.y < edge - 0.1
            || b.right() > page.width - edge + 0.1
            || b.bottom() > page.height - edge + 0.1
    });
    outside.next().map(|(item, _)| format!("{item:?} leaves the page"))
}

/// Texts that overlap, and texts on plates.
fn overlapping(page: &Page) -> Option<String> {
    let texts = texts(page);
    let plates = boxes(page, Role::Plate);
    for (i, (a, text)) in texts.iter().enumerate() {
        if let Some((_, other)) = texts[i + 1..].iter().find(|(b, _)| overlap(a, b)) {
            return Some(format!("{text:?} and {other:?} overlap"));
        }
        if plates.iter().any(|plate| overlap(plate, a)) {
            return Some(format!("{text:?} stands on a plate"));
        }
    }
    None
}

/// Boxes that a pen cannot use, or that contain more than their own small label in the upper left
/// corner.
fn bad_box(page: &Page) -> Option<String> {
    let (write_in, tally) = (boxes(page, Role::WriteIn), boxes(page, Role::Tally));
    let small = write_in.iter().find(|rect| rect.h < LEAST_BOX || rect.w < LEAST_WIDTH);
    let small = small.or(tally.iter().find(|rect| rect.h < LEAST_BOX || rect.w < LEAST_BOX));
    if let Some(rect) = small {
        return Some(format!("{rect:?} is too small for a pen"));
    }
    let plates = boxes(page, Role::Plate);
    let pens: Vec<&Rect> = write_in.iter().chain(&tally).collect();
    for (i, a) in pens.iter().enumerate() {
        if let Some(b) = pens[i + 1..].iter().copied().chain(&plates).find(|b| overlap(a, b)) {
            return Some(format!("the box {a:?} and {b:?} overlap"));
        }
    }
    for (text, words) in texts(page) {
        for rect in pens.iter().filter(|rect| overlap(rect, &text)) {
            let own = text.x >= rect.x
                && text.right() <= rect.right() + 0.1
                && text.bottom() < rect.y + text.h + 4.0;
            if !own {
                return Some(format!("{words:?} stands in the box {rect:?}"));
            }
        }
    }
    None
}

#[test]
fn nothing_leaves_its_page_and_nothing_overlaps() {
    for (options, pages) in every_page() {
        for (at, page) in pages.iter().enumerate() {
            if let Some(fault) = fault(page) {
                panic!("page {}: {fault}\n{options:?}", at + 1);
            }
        }
    }
}

/// A name with this many letters, in words of up to eleven.
fn name(letters: usize) -> String {
    "Abdominaler Wechselschrittkniebeugenheber mit".chars().cycle().take(letters.max(1)).collect()
}

/// An exercise of a given size: letters of its name, sets, cues.
fn sized(order: usize, (letters, sets, cues, kind): (usize, usize, usize, u8)) -> PlannedExercise {
    let letter = char::from(b'A' + u8::try_from(order).unwrap());
    let work = match kind {
        0 => set("6").barbell(&["20", "10", "2.5", "1.25"]).rest(180).tempo().rpe(16),
        1 => set("8-12 each side").with(kg("22.5"), Implement::Dumbbells).rir(2).rest(90),
        2 => set("30 s").body("0"),
        3 => set("5+").barbell(&["25", "25", "15"]).about(),
        _ => set("3+3+3").body("-17.5"),
    };
    let mut out = exercise(&letter.to_string(), &name(letters), work.times(sets));
    for n in 0..sets.min(usize::from(kind)) {
        out.sets[n].load = set("5").barbell(&["20"; 6][..=n.min(5)]).load;
    }
    for _ in 0..cues {
        out = out.cue("Keep the ribs down and the hips level, and breathe out on the way up.");
    }
    if kind == 1 {
        out = out.ramp(&[("8", &[]), ("5", &["10"]), ("3", &["15", "2.5"])]).yours(&name(letters));
    }
    if kind % 2 == 1 {
        out.demo = Some(format!("https://example.org/{}", "demo/".repeat(letters * sets)));
    }
    out.rule("when top of range: load up one, reps to bottom")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Names of 40 letters, 14 sets, 9 exercises and five cues, on every paper, with all options.
    #[test]
    fn generated_programmes_keep_to_their_pages(
        sizes in prop::collection::vec((1_usize..=40, 0_usize..=14, 0_usize..=5, 0_u8..5), 0..=9),
        letters in 1_usize..=40,
        circuit in any::<bool>(),
        limits in 0_usize..3,
        way in 0_usize..36,
    ) {
        let exercises = sizes.into_iter().enumerate().map(|(n, size)| sized(n, size)).collect();
        let mut day = session(&name(letters), date(2026, 1, 7), exercises);
        if let Some(group) = day.groups.first_mut().filter(|_| circuit) {
            group.how = GroupKind::RoundsIn { length: Duration::seconds(720) };
        }
        let limit = Limit { name: name(letters), text: name(40), until: None };
        day.limits.extend(std::iter::repeat_n(limit, limits));
        let plan = plan(vec![athlete(&name(letters), vec![day.clone(), day])]);
        let ways = every_option();
        let options = ways[way % ways.len()];
        for page in &printed(&plan, &options).pages {
            prop_assert_eq!(fault(page), None, "{:?}", options);
        }
    }
}

#[test]
fn no_type_is_smaller_than_seven_points() {
    for (options, pages) in every_page() {
        let least = if options.large_print { 10.0 } else { 7.0 };
        for item in pages.iter().flat_map(|page| &page.items) {
            if let Shape::Text { style, text, .. } = item {
                assert!(style.size >= least - 0.01, "{text:?} at {} pt", style.size);
            }
        }
    }
}

/// The relative luminance of an ink, used for contrast (WCAG 2.2, 1.4.3).
fn luminance(ink: Ink) -> f32 {
    let linear = |part: f32| {
        if part <= 0.040_45 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
    };
    let [red, green, blue] = ink.rgb().map(linear);
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

pub fn contrast(a: Ink, b: Ink) -> f32 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The ink behind an item: that of the last shape below it that contains its centre.
fn ground(below: &[Shape], bounds: &Rect) -> Ink {
    let (x, y) = (bounds.x + bounds.w / 2.0, bounds.y + bounds.h / 2.0);
    let holds = |item: &&Shape| {
        let b = item.bounds();
        b.is_some_and(|b| b.x <= x && x <= b.right() && b.y <= y && y <= b.bottom())
    };
    let fill = |item: &Shape| match item {
        Shape::Rectangle { fill, .. } => *fill,
        _ => None,
    };
    below.iter().rev().filter(holds).find_map(fill).unwrap_or(Ink::White)
}

/// Text has a contrast of 4.5:1 with its background, lines and outlines 3:1 (WCAG 2.2, 1.4.3 and
/// 1.4.11).
#[test]
fn everything_can_be_told_from_its_ground() {
    for (options, pages) in every_page() {
        for page in pages {
            for (at, item) in page.items.iter().enumerate() {
                let Some(bounds) = item.bounds() else { continue };
                let ground = ground(&page.items[..at], &bounds);
                let (ink, least) = match item {
                    Shape::Text { style, .. } => (style.ink, 4.5),
                    // An outline needs contrast on one side only; the colour of a disc is
                    // decoration.
                    Shape::Line { ink, .. }
                    | Shape::Disc { ink, .. }
                    | Shape::Mosaic { ink, .. }
                    | Shape::Rectangle { stroke: Some((_, ink)), .. } => (*ink, 3.0),
                    _ => continue,
                };
                let inside = match item {
                    Shape::Rectangle { fill: Some(fill), .. } => contrast(ink, *fill),
                    _ => 0.0,
                };
                let found = contrast(ink, ground).max(inside);
                assert!(found >= least, "{item:?} on {ground:?}: {found:.1}, {options:?}");
            }
        }
    }
}

#[test]
fn labels_of_boxes_are_whole() {
    for labels in Labels::ALL {
        for session in [typical(), full()] {
            let plan =
                in_language(plan(vec![athlete("Wren Tallow", vec![session])]), labels.language);
            let ways =
                Paper::ALL.into_iter().flat_map(|(_, paper)| [(paper, false), (paper, true)]);
            for (paper, large_print) in ways {
                let pages = deck(&plan, &CardOptions { large_print, ..on(paper) }).pages;
                let texts: Vec<String> =
                    pages.iter().flat_map(texts).map(|(_, text)| text.to_lowercase()).collect();
                let mass = format!("{}, kg", labels.weigh_in);
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

/// Colours fill only discs whose mass is printed next to them or listed in the target.
#[test]
fn nothing_is_told_by_colour_alone() {
    for (options, pages) in every_page() {
        for item in pages.iter().flat_map(|page| &page.items) {
            let coloured = match item {
                Shape::Text { style, .. } => style.ink.is_colour(),
                Shape::Line { ink, .. } | Shape::Disc { ink, .. } | Shape::Mosaic { ink, .. } => {
                    ink.is_colour()
                }
                Shape::Rectangle { stroke, fill, role, .. } => {
                    let plate = *role == Role::Plate && options.plate_colours && stroke.is_some();
                    let outline = stroke.is_some_and(|(_, ink)| ink.is_colour());
                    outline || (!plate && fill.is_some_and(Ink::is_colour))
                }
                Shape::Missing { .. }
                | Shape::Tells(_)
                | Shape::Speaks(_)
                | Shape::Told
                | Shape::Link { .. } => false,
            };
            assert!(!coloured, "{item:?} {options:?}");
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
    let plan = plan(vec![athlete("Wren Tallow", vec![endless()])]);
    let pages = deck(&plan, &on(Paper::A5)).pages;
    let count = pages.len();
    assert!(count >= 2);
    for (at, page) in pages.iter().enumerate() {
        let texts: String = texts(page).into_iter().map(|(_, text)| text + "\n").collect();
        assert!(texts.contains(&format!("page {} of {count}", at + 1)), "{texts}");
        assert!(texts.contains("Wren Tallow"));
    }
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let options = CardOptions { created: Some(1_767_225_600), ..CardOptions::default() };
    let first = cards(&all(), &options).unwrap();
    assert_eq!(first, cards(&all(), &options).unwrap());
    let made = |bytes: &[u8]| {
        let document = lopdf::Document::load_mem(bytes).unwrap();
        let info = document.trailer.get(b"Info").and_then(lopdf::Object::as_reference).unwrap();
        let info = document.get_dictionary(info).unwrap();
        assert!(!info.has(b"GTS_PDFXVersion"));
        info.get(b"CreationDate").and_then(lopdf::Object::as_str).map(<[u8]>::to_vec).ok()
    };
    assert_eq!(made(&first.bytes).as_deref(), Some(&b"D:20260101000000Z"[..]));
    let undated = cards(&all(), &CardOptions::default()).unwrap();
    assert_eq!(made(&undated.bytes), None);
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

/// Writes samples to look at: `cargo test --lib -- --ignored samples`.
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
    for (at, options) in every_option().into_iter().enumerate() {
        let rendered = cards(&all(), &options).unwrap();
        std::fs::write(folder.join(format!("way-{at:02}.pdf")), rendered.bytes).unwrap();
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
