//! Checks that a card contains all text, in a sensible reading order.

use super::card::deck;
use super::layout::{Page, Shape};
use super::sample::{athlete, on, plan};
use super::sample_plans::{all, endless, full, wild};
use super::{Paper, layout};
use crate::plan::Limit;

/// The texts in the order in which they are drawn.
fn drawn(page: &Page) -> Vec<String> {
    let text = |item: &Shape| match item {
        Shape::Text { text, .. } => Some(text.clone()),
        Shape::Missing { character, .. } => Some(character.to_string()),
        _ => None,
    };
    page.items.iter().filter_map(text).collect()
}

/// Text without spaces, because lines break at them.
fn solid(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

#[test]
fn everything_written_is_printed() {
    let mut plan = all();
    plan.athletes.push(athlete("Wren Tallow", vec![full(), endless()]));
    for (_, paper) in Paper::ALL {
        let pages = deck(&plan, &on(paper)).pages;
        let printed = solid(&pages.iter().flat_map(drawn).collect::<String>());
        for exercise in
            plan.athletes.iter().flat_map(|a| &a.sessions).flat_map(|session| &session.exercises)
        {
            let texts = exercise.cues.iter().chain(&exercise.setup).chain(&exercise.safety);
            let own = exercise.settings.iter().chain(&exercise.notes).chain([&exercise.name]);
            for text in texts.chain(own) {
                assert!(printed.contains(&solid(text)), "{paper}: {text}");
            }
        }
    }
}

/// A page that gets separated from the others must still show the athlete's limits.
#[test]
fn limits_stand_on_every_page() {
    let mut session = endless();
    session.limits.push(Limit {
        name: "Shoulder".to_owned(),
        text: "no overhead work, physio, Dr Aldane".to_owned(),
        until: None,
    });
    let plan = plan(vec![athlete("Wren Tallow", vec![session])]);
    for (_, paper) in Paper::ALL {
        let pages = deck(&plan, &on(paper)).pages;
        let with = |page: &&Page| solid(&drawn(page).concat()).contains("nooverheadwork");
        // The session's boxes may be on a page of their own, where no exercise is done.
        let without = pages.iter().filter(|page| !with(page));
        let bare = without.filter(|page| solid(&drawn(page).concat()).contains("Station"));
        assert!(pages.len() > 1 && bare.count() == 0, "{paper}");
    }
}

#[test]
fn nothing_of_the_wild_plan_is_cut_off() {
    let plan = plan(vec![wild()]);
    for (_, paper) in Paper::ALL {
        let printed =
            solid(&deck(&plan, &on(paper)).pages.iter().flat_map(drawn).collect::<String>());
        // A name, a cue, a rule, an exercise's name, a phase, a text before, a limit: each has
        // sixty sentences.
        let sentences = printed.matches("ribsdown").count();
        assert!(sentences >= 7 * 60, "{paper}: {sentences}");
        // A day, a name, a setting, a set-up, a stack, a band, a limit: each has twelve words, some
        // broken over pages.
        let words = printed.matches("swort").count();
        assert!(words >= 7 * 12 - 3, "{paper}: {words}");
    }
}

#[test]
fn each_exercise_is_read_before_the_next() {
    let plan = plan(vec![athlete("Wren Tallow", vec![full()])]);
    for (_, paper) in Paper::ALL {
        let page = &deck(&plan, &on(paper)).pages[0];
        let told: Vec<&str> = page
            .items
            .iter()
            .filter_map(|item| match item {
                Shape::Tells(words) => Some(words.as_str()),
                _ => None,
            })
            .collect();
        let heads: Vec<String> = told
            .iter()
            .filter(|words| {
                words.starts_with(['A', 'B', 'C', 'D', 'E']) && !words.starts_with("Body")
            })
            .map(|words| words.replace('\u{a0}', " "))
            .collect();
        assert_eq!(
            heads,
            [
                "A Front squat 4 × 6 · 57.5 kg",
                "B Floor press 3 × 8 · 50 kg",
                "C Rear-foot-raised split squat 3 × 8–10 each side · 2 × 12 kg",
                "D Hip thrust 3 × 10 · 80 kg",
                "E1 Face pull 3 × 12–15 · pin 25 kg Cable",
                "E2 Side plank 3 × 30 s each side body mass",
            ]
        );
        let texts = drawn(page);
        let at = |needle: &str| {
            let found = texts.iter().position(|text| text.contains(needle));
            found.unwrap_or_else(|| panic!("{paper}: {needle} in {texts:#?}"))
        };
        let order = ["Wren Tallow", "Shoulder:", "Front squat", "57.5", "Floor press", "Face pull"];
        let order = order.into_iter().chain(["Side plank", "Session RPE", "Notes", "Stop"]);
        let places: Vec<usize> = order.map(at).collect();
        assert!(places.is_sorted(), "{paper}: {places:?}");
        // Marks for screen readers are closed before the next one is opened.
        let mut open = 0;
        for item in &page.items {
            match item {
                Shape::Tells(_) | Shape::Speaks(_) => open += 1,
                Shape::Told => open -= 1,
                _ => {}
            }
            assert!((0..=1).contains(&open));
        }
        assert_eq!(open, 0);
    }
}

#[test]
fn a_group_that_goes_on_says_so() {
    let plan = plan(vec![athlete("Wren Tallow", vec![endless()])]);
    let pages = deck(&plan, &on(Paper::A5)).pages;
    assert!(pages.len() > 1);
    let first = drawn(&pages[0]);
    assert!(first.iter().any(|text| text == "Circuit"), "{first:?}");
    for page in &pages[1..] {
        let texts = drawn(page);
        assert!(texts.iter().any(|text| text == "Circuit, continued"), "{texts:?}");
    }
}

#[test]
fn a_name_and_its_target_share_a_baseline() {
    let plan = plan(vec![athlete("Wren Tallow", vec![full()])]);
    let page = &deck(&plan, &on(Paper::A5)).pages[0];
    let baseline = |needle: &str| {
        page.items.iter().find_map(|item| match item {
            Shape::Text { y, text, style, .. } if text.starts_with(needle) => {
                Some((*y, style.face == layout::Face::SemiBold))
            }
            _ => None,
        })
    };
    let (name, target) = (baseline("Hip thrust").unwrap(), baseline("3 × 10").unwrap());
    assert!((name.0 - target.0).abs() < 0.01 && name.1 && target.1);
}
