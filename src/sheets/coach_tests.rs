//! Checks that the coach's copy contains the athlete's card, and that the athlete's card contains
//! nothing that is only for the coach.

use super::card::deck;
use super::labels::ENGLISH;
use super::layout::{Page, Role, Shape};
use super::sample::{athlete, on, plan};
use super::sample_plans::{all, crowded, full, groups, sourced, typical};
use super::{CardCopy, CardOptions, Paper, cards, summary};
use crate::plan::Plan;

fn coach(paper: Paper) -> CardOptions {
    CardOptions { copy: CardCopy::Coach, ..on(paper) }
}

/// All printed text without spaces, because lines break at them.
fn printed(pages: &[Page]) -> String {
    let items = pages.iter().flat_map(|page| &page.items);
    let texts = items.filter_map(|item| match item {
        Shape::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    solid(&texts.collect::<String>())
}

fn solid(text: &str) -> String {
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}

fn boxes(page: &Page) -> usize {
    let pen = |item: &&Shape| matches!(item, Shape::Rectangle { role: Role::WriteIn, .. });
    page.items.iter().filter(pen).count()
}

fn one(session: crate::plan::Session) -> Plan {
    plan(vec![athlete("Wren Tallow", vec![session])])
}

#[test]
fn sources_change_no_byte_of_the_athletes_copy() {
    let with = {
        let mut plan = sourced(all());
        // A plan with loads from derivations is a different plan; sources alone do not make one.
        for (athlete, usual) in plan.athletes.iter_mut().zip(&all().athletes) {
            for (session, usual) in athlete.sessions.iter_mut().zip(&usual.sessions) {
                for (exercise, usual) in session.exercises.iter_mut().zip(&usual.exercises) {
                    exercise.sets.clone_from(&usual.sets);
                }
            }
        }
        plan
    };
    assert_ne!(with, all());
    for (_, paper) in Paper::ALL {
        assert_eq!(cards(&with, &on(paper)).unwrap(), cards(&all(), &on(paper)).unwrap());
    }
    assert_eq!(summary(&with), summary(&all()));
}

#[test]
fn the_coachs_copy_says_every_source_and_why_a_load_changed() {
    for (_, paper) in Paper::ALL {
        let plan = sourced(all());
        let (own, theirs) = (deck(&plan, &coach(paper)).pages, deck(&plan, &on(paper)).pages);
        let (own, theirs) = (printed(&own), printed(&theirs));
        let exercises = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
        for exercise in exercises.flat_map(|session| &session.exercises) {
            for evidence in exercise.sources.iter().filter(|e| e.text.is_ascii()) {
                let text = solid(&evidence.text);
                assert!(own.contains(&text), "{paper}: {text}");
                assert!(!theirs.contains(&text), "{paper}: {text}");
            }
        }
        assert!(own.contains(&solid("handed down in the club")));
        let why = solid("after week 2, Catch, Mon 12 Jan 2026: any rep missed: load −7.5%");
        assert!(own.contains(&why) && !theirs.contains(&why));
    }
}

#[test]
fn every_page_bears_the_mark_and_no_page_of_the_athletes() {
    let plan = sourced(all());
    let mark = solid(ENGLISH.coach_copy);
    for (_, paper) in Paper::ALL {
        for page in deck(&plan, &coach(paper)).pages {
            assert!(printed(std::slice::from_ref(&page)).contains(&mark), "{paper}");
        }
        assert!(!printed(&deck(&plan, &on(paper)).pages).contains(&mark));
    }
}

#[test]
fn notes_that_do_not_fit_get_a_page_of_their_own() {
    for session in [typical(), full(), groups(), crowded()] {
        for (_, paper) in Paper::ALL {
            let plan = sourced(one(session.clone()));
            let (own, theirs) = (deck(&plan, &coach(paper)).pages, deck(&plan, &on(paper)).pages);
            assert!(own.len() >= theirs.len());
            // The card itself needs no additional page, and its boxes occur once, before the notes.
            let with_boxes = own.iter().rposition(|page| boxes(page) > 0).unwrap();
            assert!(with_boxes < theirs.len(), "{paper}: {with_boxes} of {}", theirs.len());
            let session_boxes = |pages: &[Page]| printed(pages).matches("SessionRPE").count();
            assert_eq!(session_boxes(&own), 1, "{paper}");
        }
    }
}

#[test]
fn nothing_to_say_leaves_the_card_as_it_is_but_for_the_mark_and_the_legend() {
    let plan = one(typical());
    let (own, theirs) = (deck(&plan, &coach(Paper::A5)).pages, deck(&plan, &on(Paper::A5)).pages);
    assert_eq!(own.len(), theirs.len());
    let mark = solid(ENGLISH.coach_copy);
    // The coach knows the terms.
    let theirs = printed(&theirs);
    let all =
        [ENGLISH.what_rpe_is, ENGLISH.what_rir_is, ENGLISH.what_amrap_is, ENGLISH.what_tempo_is];
    let used: Vec<&str> = all.into_iter().filter(|text| theirs.contains(&solid(text))).collect();
    assert!(used.contains(&ENGLISH.what_rpe_is), "{theirs}");
    let theirs = theirs.replacen(&solid(&used.join(ENGLISH.semicolon)), "", 1);
    assert_eq!(printed(&own).replacen(&mark, "", 1), theirs);
}
