//! Automatic checks of block, rack, overview and wall sheets: nothing leaves its page, nothing
//! overlaps, every box is large enough for a pen, and everything in the plan is printed.

use std::sync::OnceLock;

use super::card::{Deck, LEAST_BOX, LEAST_WIDTH};
use super::geometry_tests::{boxes, contrast, in_language, overlap, texts};
use super::labels::{ENGLISH, Labels, capital};
use super::layout::{Ink, Page, Rect, Role, Shape};
use super::render::{Pages, RenderJob};
use super::sample::{athlete, plan};
use super::sample_plans::{all, crowded, endless, full, typical, wild};
use super::wall::Poster;
use super::wording::{PRINTED, grouped};
use super::{CardOptions, Paper, Sheet, TwoUp, Wanted, block, overview, print, rack, wall};
use crate::compile::{Choice, compile};
use crate::diagnostics::Severity;
use crate::plan::{Assumed, Plan, PlannedExercise};
use crate::quantity::fold_name;
use crate::resolve::Project;
use crate::source::MemoryLoader;
use crate::tally::weekly;

fn compiled(text: &str) -> Plan {
    let project = Project::from_text(&MemoryLoader::new(), "test.sets", text.to_owned());
    let compiled = compile(project, &Choice::default()).unwrap();
    let errors: Vec<&str> = compiled
        .diagnostics
        .iter()
        .filter(|found| found.severity() == Severity::Error)
        .map(|found| found.message.as_str())
        .collect();
    assert!(errors.is_empty(), "{errors:?}");
    compiled.plan.expect("a plan")
}

fn rowing_club() -> Plan {
    let parts = [
        include_str!("../../examples/rowing-club/gym.sets"),
        include_str!("../../examples/rowing-club/squad.sets"),
        include_str!("../../examples/rowing-club/winter.sets"),
    ];
    let text = parts.concat();
    let kept: Vec<&str> = text.lines().filter(|line| !line.starts_with("use ")).collect();
    compiled(&kept.join("\n"))
}

/// A name of forty letters without a space.
const WORD: &str = "Oberarmstreckmaschinensitzhöhenverstellu";

/// A large squad in a gym with pound plates: forty-letter names, nine exercises a day, fourteen
/// sets, five cues, weeks that leave an exercise out, phases of one week.
fn big(athletes: usize, weeks: u32) -> Plan {
    let mut text =
        "gym Shed\n  bar: 45 lb, 35 lb\n  plates: 45 lb, 35 lb, 25 lb, 10 lb, 5 lb, 2.5 lb\n  \
        dumbbells: 5-100 lb by 5 lb\n  stack Cable: 10-200 lb by 10 lb\n\n"
            .to_owned();
    text.push_str(&format!(
        "exercise {WORD}\n  equipment: barbell\n  muscles: chest, triceps 1/2\n"
    ));
    for n in 1..=5 {
        text.push_str(&format!("  cue: Cue {n} says what to think of, and what to leave alone.\n"));
    }
    text.push_str("  safety: Spotter or safeties; collars on.\n\n");
    for n in 1..=athletes {
        text.push_str(&format!(
            "athlete Number {n} with a surname that is long\n  gym: Shed\n  rack: {}\n  body mass: 170 lb\n  \
             max Back squat: {} lb\n  max {WORD}: {} lb\n  max Deadlift: {} lb\n  \
             limit Knee {n}: nothing that hurts, and no jumping from a box (physio)\n\n",
            n % 4 + 1,
            150 + 7 * n,
            95 + 5 * n,
            200 + 11 * n
        ));
    }
    text.push_str(&format!("programme A big one\n  weeks: {weeks}\n  starts: 2026-01-05\n\n"));
    if weeks > 4 {
        text.push_str(
            "phase Accumulation of volume: weeks 1-3\n\n\
             phase Rest: week 4, sets -40%, load -10%\n\n",
        );
    }
    text.push_str(&format!(
        "day Monday, the long one (Mon)\n  \
         A Back squat: 1 x 5 @ 80%, 1 x 3 @ 85%, 1 x 1+ @ 90%, 3 x 5 @ 75%, rest 3:00\n  \
         B {WORD}: 14 x 2 @ 70% +0.5%/week, tempo 3-1-X-0, rest 60 s\n  \
         C Deadlift: 3+3+3 @ 70%, rest 3:00\n  \
         D Chin-up: 4 x 5-8 @ bodyweight, rest 2:00\n  \
         E Dumbbell row: 3 x 8-12 each side @ 40 lb, RIR 2\n  \
         F1 Face pull: 3 x 12-15 @ 30 lb\n  F2 Side plank: 3 x 30 s each side\n  \
         G Hip thrust: 5 x 5 @ RPE 8\n  H Calf raise: 4 x 15\n\n\
         day Thursday (Thu)\n  A Deadlift: 1 x 1 @ 90%, 4 x 3 @ 80%\n  B Push-up: 3 x AMRAP\n"
    ));
    compiled(&text)
}

/// Several weeks of a session, one of them empty.
fn weeks_of(count: u32) -> Plan {
    let sessions = (1..=count).filter(|week| *week != 3).map(|week| {
        let mut session = if week % 2 == 0 { crowded() } else { typical() };
        session.week = week;
        session.day = "Catch".to_owned();
        session.phase = (week > 4).then(|| format!("Phase {}", week / 5));
        session.deload = week % 5 == 0;
        session
    });
    let mut plan = plan(vec![athlete("Wren Tallow", sessions.collect())]);
    plan.weeks = count;
    plan
}

fn plans() -> Vec<(&'static str, Plan)> {
    let mut odd = all();
    odd.athletes.push(wild());
    odd.athletes.push(athlete("Bartholomew Augustine Featherstonhaugh", vec![full(), endless()]));
    let kettlebells = include_str!("../../examples/home-kettlebells/programme.sets");
    let first_steps = include_str!("../../examples/first-steps/programme.sets");
    vec![
        ("odd", odd),
        ("rowing club", rowing_club()),
        ("kettlebells", compiled(kettlebells)),
        ("first steps", compiled(first_steps)),
        ("thirty", big(30, 1)),
        ("sixteen weeks", big(1, 16)),
        ("with an empty week", weeks_of(22)),
        ("a year", weeks_of(53)),
    ]
}

/// A wall card for each exercise of a plan, and for extreme texts.
fn posters(plan: &Plan) -> Vec<Poster> {
    let mut out: Vec<Poster> = Vec::new();
    for session in plan.athletes.iter().flat_map(|athlete| &athlete.sessions) {
        for exercise in &session.exercises {
            if out.iter().all(|poster| fold_name(&poster.name) != fold_name(&exercise.name)) {
                out.push(Poster {
                    name: exercise.name.clone(),
                    setup: exercise.setup.clone(),
                    cues: exercise.cues.clone(),
                    safety: exercise.safety.clone(),
                    demo: exercise.demo.clone(),
                });
            }
        }
    }
    out
}

fn options(paper: Paper) -> CardOptions {
    CardOptions { paper, ..CardOptions::default() }
}

fn decks(plan: &Plan, paper: Paper) -> Vec<(&'static str, Deck)> {
    let options = options(paper);
    vec![
        ("block", block::deck(plan, &options)),
        ("rack", rack::deck(plan, &options)),
        ("overview", overview::deck(plan, &options)),
        ("wall", wall::deck(plan, &posters(plan), &options)),
    ]
}

/// Every page with a description of where it comes from, laid out once for all tests.
fn every_page() -> &'static [(String, Page)] {
    static PAGES: OnceLock<Vec<(String, Page)>> = OnceLock::new();
    PAGES.get_or_init(|| {
        let mut out = Vec::new();
        for (name, plan) in plans() {
            // Letter paper is wider and lower, so it is tested with the plans that fill their
            // pages.
            let letter = matches!(name, "odd" | "sixteen weeks");
            let papers = [Some(Paper::A5), letter.then_some(Paper::Letter)];
            for paper in papers.into_iter().flatten() {
                for (sheet, deck) in decks(&plan, paper) {
                    assert!(!deck.pages.is_empty(), "{name}: {sheet}");
                    let place = |at| format!("{name}, {sheet} on {paper}, page {at}");
                    out.extend((1..).map(place).zip(deck.pages));
                }
            }
            // Other languages have longer words, whatever the number of athletes or weeks.
            let others = Labels::ALL.into_iter().skip(1);
            let more = !matches!(name, "thirty" | "with an empty week" | "first steps");
            for labels in others.filter(|_| more) {
                let plan = in_language(plan.clone(), labels.language);
                for (sheet, deck) in decks(&plan, Paper::A5) {
                    let place = |at| format!("{name}, {sheet} in {}, page {at}", labels.language);
                    out.extend((1..).map(place).zip(deck.pages));
                }
            }
        }
        out
    })
}

/// Checks every page and reports each fault with its place.
fn each_page(judge: impl Fn(&Page) -> Vec<String>) {
    let pages = every_page().iter();
    let faults: Vec<String> = pages
        .flat_map(|(place, page)| judge(page).into_iter().map(move |f| format!("{place}: {f}")))
        .collect();
    let some: Vec<&str> =
        faults.iter().step_by(faults.len() / 12 + 1).map(String::as_str).collect();
    assert!(faults.is_empty(), "{} faults, such as\n{}", faults.len(), some.join("\n"));
}

/// Pairs of rectangles that overlap, from the top down.
fn overlapping<'a, T>(all: &'a mut [(Rect, T)]) -> Vec<(&'a T, &'a T)> {
    all.sort_by(|(a, _), (b, _)| a.y.total_cmp(&b.y));
    let all: &'a [(Rect, T)] = all;
    let mut out = Vec::new();
    for (i, (a, one)) in all.iter().enumerate() {
        let near = all[i + 1..].iter().take_while(|(b, _)| b.y < a.bottom());
        out.extend(near.filter(|(b, _)| overlap(a, b)).map(|(_, other)| (one, other)));
    }
    out
}

/// Describes a fault if a condition does not hold.
fn unless(holds: bool, what: impl FnOnce() -> String) -> Option<String> {
    (!holds).then(what)
}

#[test]
fn everything_stands_inside_its_page() {
    // Laser printers leave about 5 mm blank.
    let edge = 14.0;
    each_page(|page| {
        let inside = |item: &Shape| {
            let b = item.bounds()?;
            let inside = b.x >= edge - 0.1
                && b.y >= edge - 0.1
                && b.right() <= page.width - edge + 0.1
                && b.bottom() <= page.height - edge + 0.1;
            unless(inside, || format!("{item:?}"))
        };
        page.items.iter().filter_map(inside).collect()
    });
}

#[test]
fn no_text_overlaps_another_or_a_box() {
    each_page(|page| {
        let mut texts = texts(page);
        let pens = boxes(page, Role::WriteIn);
        let pair = |(a, b): (&String, &String)| format!("{a:?} and {b:?}");
        let mut faults: Vec<String> = overlapping(&mut texts).into_iter().map(pair).collect();
        let mut named: Vec<(Rect, String)> = pens.iter().map(|r| (*r, format!("{r:?}"))).collect();
        faults.extend(overlapping(&mut named).into_iter().map(pair));
        let plates = boxes(page, Role::Plate);
        // A box contains only its own small label, in its upper left corner.
        for (text, words) in &texts {
            for rect in pens.iter().filter(|rect| overlap(rect, text)) {
                let own = text.x >= rect.x
                    && text.right() <= rect.right() + 0.1
                    && text.bottom() < rect.y + 12.0;
                faults.extend(unless(own, || format!("{words:?} in {rect:?}")));
            }
            for plate in &plates {
                faults.extend(unless(!overlap(plate, text), || format!("{words:?} on a plate")));
            }
        }
        faults
    });
}

#[test]
fn boxes_are_for_pens() {
    each_page(|page| {
        let large = |rect: &Rect| rect.h >= LEAST_BOX && rect.w >= LEAST_WIDTH;
        let pens = boxes(page, Role::WriteIn);
        pens.iter().filter_map(|rect| unless(large(rect), || format!("{rect:?}"))).collect()
    });
}

#[test]
fn type_is_large_enough_and_dark_enough() {
    each_page(|page| {
        let fault = |item: &Shape| match item {
            Shape::Text { style, text, .. } => {
                // White text is on black.
                let dark = style.ink == Ink::White || contrast(style.ink, Ink::White) >= 4.5;
                unless(dark && style.size >= 7.0, || format!("{text:?} at {} pt", style.size))
            }
            Shape::Line { ink, .. } => {
                unless(contrast(*ink, Ink::White) >= 3.0, || format!("{item:?}"))
            }
            _ => None,
        };
        page.items.iter().filter_map(fault).collect()
    });
}

#[test]
fn points_stand_clear_of_words() {
    each_page(|page| {
        let mut faults = Vec::new();
        let texts = texts(page);
        for disc in page.items.iter().filter(|item| matches!(item, Shape::Disc { .. })) {
            let Some(bounds) = disc.bounds() else { continue };
            for (text, words) in &texts {
                faults.extend(unless(!overlap(&bounds, text), || format!("{words:?} on {disc:?}")));
            }
        }
        faults
    });
}

/// All text of a deck, page by page.
fn said(deck: &Deck) -> Vec<String> {
    let page =
        |page: &Page| texts(page).into_iter().map(|(_, text)| text).collect::<Vec<_>>().join(" ");
    deck.pages.iter().map(page).collect()
}

#[test]
fn a_block_sheet_says_every_load_of_every_week() {
    let plan = rowing_club();
    let wren = Plan { athletes: plan.athletes[..1].to_vec(), ..plan };
    let deck = block::deck(&wren, &options(Paper::A5));
    // A day on each page, all weeks side by side.
    assert_eq!(deck.pages.len(), 3);
    let pages = said(&deck);
    for session in &wren.athletes[0].sessions {
        let page = pages.iter().find(|page| page.contains(&session.day)).unwrap();
        assert!(page.contains(&format!("Week {}", session.week)));
        for set in session.exercises.iter().flat_map(PlannedExercise::working) {
            let Some(built) = &set.load else { continue };
            if !set.lifts_body() {
                let load = format!("{} kg", built.mass.in_unit(wren.athletes[0].unit));
                assert!(page.contains(&load), "{load} of {} is not on\n{page}", session.day);
            }
        }
    }
    assert!(pages[0].contains("Deload") && pages[0].contains("lighter"));
    assert!(pages.iter().all(|page| page.contains("Shoulder: no pressing below the bench")));
}

#[test]
fn a_rack_sheet_has_everyone_at_every_lift() {
    let plan = rowing_club();
    let deck = rack::deck(&plan, &options(Paper::A5));
    // Eight weeks of three sessions.
    assert_eq!(deck.bookmarks.len(), 24);
    let first = deck.bookmarks[0].page..deck.bookmarks[1].page;
    let session = said(&deck)[first].join(" ");
    for name in ["Wren Tallow", "Odhran Pellick", "Delphine Marrowgate", "Caspian Thorneholt"] {
        // Six lifts, and the limits.
        assert!(session.matches(name).count() >= 6, "{name}: {session}");
    }
    assert!(session.contains("Rack 1") && session.contains("Rack 2"));
    assert!(session.contains("replaces Bench press"));
    assert!(deck.bookmarks[0].text.contains("Catch"));
}

#[test]
fn a_long_session_says_again_where_it_goes_on() {
    let deck = rack::deck(&big(30, 1), &options(Paper::A5));
    let pages = said(&deck);
    assert!(pages.iter().any(|page| page.contains("Back squat, continued")));
    for (at, page) in pages.iter().take(3).enumerate() {
        assert!(page.contains(&format!("page {} of", at + 1)), "{page}");
    }
}

#[test]
fn an_overview_says_what_the_weekly_table_says() {
    let plan = rowing_club();
    let tally = weekly(&plan);
    let deck = overview::deck(&plan, &options(Paper::A5));
    assert_eq!(deck.pages.len(), plan.athletes.len());
    for (page, athlete) in said(&deck).iter().zip(&tally.athletes) {
        assert!(page.contains(&athlete.name) || athlete.name.len() > 40);
        for week in &athlete.weeks {
            let volume = grouped(&week.total.volume, athlete.unit, 0, (&ENGLISH, PRINTED));
            let intensity = week.total.intensity.mean_percent().unwrap().to_decimal(1).to_string();
            assert!(page.contains(&volume), "{volume}: {page}");
            assert!(page.contains(&intensity), "{intensity}: {page}");
            for lift in week.lifts.iter().filter(|lift| lift.main) {
                assert!(page.contains(&lift.lift), "{}: {page}", lift.lift);
            }
        }
    }
}

#[test]
fn a_wall_card_is_one_page_in_type_for_three_metres() {
    let plan = rowing_club();
    let posters = posters(&plan);
    let deck = wall::deck(&plan, &posters, &options(Paper::A5));
    assert_eq!(deck.pages.len(), posters.len());
    for page in &deck.pages {
        let sizes = page.items.iter().filter_map(|item| match item {
            Shape::Text { style, .. } => Some(style.size),
            _ => None,
        });
        assert!(sizes.fold(0.0, f32::max) >= 48.0);
    }
    // The heaviest deadlift of the plan.
    let deadlift = posters.iter().position(|poster| poster.name == "Deadlift").unwrap();
    let heaviest = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    let heaviest = heaviest.flat_map(|session| &session.exercises).filter(|e| e.name == "Deadlift");
    let heaviest = heaviest.flat_map(PlannedExercise::working).filter_map(|set| set.load.as_ref());
    let most = heaviest.map(|built| built.mass).max().unwrap();
    let load = format!("{} kg", most.in_unit(plan.athletes[0].unit));
    let page = &said(&deck)[deadlift];
    assert!(page.contains(&load), "{load}: {page}");
}

#[test]
fn a_plan_of_what_may_be_says_so_on_every_sheet() {
    let mut plan = big(2, 1);
    plan.assumed = Some(Assumed::Best);
    for (sheet, deck) in decks(&plan, Paper::A5) {
        let barred = |page: &&String| sheet != "wall" || page.contains("lb bar");
        for page in said(&deck).iter().filter(barred) {
            let page = page.replace('\u{a0}', " ");
            assert!(page.contains("WHAT IF: AT BEST"), "{sheet}: {page}");
        }
    }
}

#[test]
fn names_on_an_overview_are_whole_in_every_language() {
    let plan = rowing_club();
    for labels in Labels::ALL {
        let plan = in_language(plan.clone(), labels.language);
        let tally = weekly(&plan);
        let muscles = tally.athletes[0].weeks.iter().flat_map(|week| &week.muscles);
        let muscles = muscles.map(|muscle| capital(labels.word(&muscle.muscle)));
        let own = labels.broad;
        let pages = said(&overview::deck(&plan, &options(Paper::A5)));
        let page = pages[0].replace('\u{a0}', " ");
        for name in [own.intensity, own.intensity_small, own.volume_small]
            .map(str::to_owned)
            .into_iter()
            .chain(muscles)
        {
            let name = name.replace('\u{a0}', " ");
            assert!(page.contains(&name), "{}: {name}: {page}", labels.language);
        }
    }
}

#[test]
fn a_sheet_is_in_the_language_of_who_reads_it() {
    let plan = compiled(include_str!("../../tests/programmes/languages/programme.sets"));
    let whole = |deck: &Deck| {
        let pages = deck.pages.iter().zip(said(deck));
        pages.map(|(page, text)| (page.speaks(), text.replace('\u{a0}', " "))).collect::<Vec<_>>()
    };
    // The document's own language, German, is not marked again.
    let own = [
        (None, "Kniebeuge", ["Blockplan", "Woche 1", "Fr, 1. Mai", "RPE 7,5"]),
        (Some("pl"), "Przysiad ze sztangą", ["Arkusz bloku", "Tydzień 1", "pt., 1 maja", "powt."]),
        (Some("fr"), "Squat", ["Plan du bloc", "Semaine 1", "ven. 1er mai", "RPE 7,5"]),
        (Some("es"), "Back squat", ["Plan del bloque", "Semana 1", "vie, 1 may", "RPE 7,5"]),
    ];
    let block = whole(&block::deck(&plan, &options(Paper::A5)));
    assert_eq!(block.len(), own.len());
    for ((speaks, text), (language, squat, words)) in block.iter().zip(own) {
        assert_eq!(*speaks, language);
        for word in words.into_iter().chain([squat]) {
            assert!(text.contains(word), "{word}: {text}");
        }
    }
    let overview = whole(&overview::deck(&plan, &options(Paper::A5)));
    let muscles = ["Gesäß", "Pośladki", "Fessiers", "Glúteos"];
    for (((speaks, text), (language, squat, _)), glutes) in overview.iter().zip(own).zip(muscles) {
        assert_eq!(*speaks, language);
        assert!(text.contains(squat) && text.contains(glutes), "{text}");
    }
    // The squad reads these, in the programme's language.
    let rack = whole(&rack::deck(&plan, &options(Paper::A5)));
    let wall = whole(&wall::deck(&plan, &posters(&plan), &options(Paper::A5)));
    assert!(rack.iter().chain(&wall).all(|(speaks, _)| speaks.is_none()));
    assert!(wall[0].1.contains("Kniebeuge") && wall[0].1.contains("pro Seite"), "{}", wall[0].1);
    for word in ["Kniebeuge", "4 Personen", "ersetzt Bankdrücken", "je Seite"] {
        assert!(rack[0].1.contains(word), "{word}: {}", rack[0].1);
    }
}

#[test]
fn several_sheets_make_one_file_with_a_bookmark_each() {
    let plan = rowing_club();
    let one = Plan { athletes: plan.athletes[..1].to_vec(), ..plan };
    let posters = posters(&one);
    let alone = |sheet| {
        let wanted = Wanted { sheets: vec![sheet], posters: posters.clone() };
        print(&one, &wanted, &options(Paper::A5)).unwrap().pages
    };
    let wanted = Wanted { sheets: Sheet::ALL.to_vec(), posters: posters.clone() };
    let together = print(&one, &wanted, &options(Paper::A5)).unwrap();
    assert_eq!(together.pages, Sheet::ALL.into_iter().map(alone).sum::<usize>());
    assert_eq!(together, print(&one, &wanted, &options(Paper::A5)).unwrap());
    let (deck, turned) = several(&one, &wanted, &options(Paper::A5));
    assert!(turned.is_empty());
    let marks: Vec<(&str, usize)> =
        deck.bookmarks.iter().map(|mark| (mark.text.as_str(), mark.page)).collect();
    // Cards; the block, with a day on each page; at least one rack sheet for each session.
    let first: Vec<usize> = marks.iter().map(|(_, page)| *page).take(3).collect();
    assert_eq!(first, [0, 24, 27]);
    let names: Vec<&str> = marks.iter().map(|(name, _)| *name).collect();
    let all = ["Session cards", "Block sheets", "Rack sheets", "Overviews", "Wall cards"];
    assert_eq!(names, all);
    for mark in &deck.bookmarks {
        assert!(mark.below.iter().all(|below| below.page >= mark.page), "{}", mark.text);
    }
    // Cards, two on a portrait sheet, are rotated; the others are not.
    let two_up = CardOptions { two_up: Some(TwoUp::Portrait), ..options(Paper::A5) };
    let (deck, turned) = several(&one, &wanted, &two_up);
    assert_eq!(turned, (0..12).collect::<Vec<_>>());
    assert_eq!(deck.bookmarks[1].page, 12);
}

/// Several sheets put together as they are passed on, and which pages are rotated.
fn several(plan: &Plan, wanted: &Wanted, options: &CardOptions) -> (Deck, Vec<usize>) {
    let (mut all, mut lying) = (Vec::new(), Vec::new());
    let job = RenderJob { plan, wanted, options };
    let bookmarks = job.lay_out(&mut |Pages { pages, turned }| {
        lying.extend((all.len()..).take(pages.len()).filter(|_| turned));
        all.extend(pages);
        Ok(())
    });
    (Deck { pages: all, bookmarks: bookmarks.unwrap() }, lying)
}

/// Writes samples to look at: `cargo test --lib -- --ignored broad_samples`.
#[test]
#[ignore = "writes files for looking at"]
#[allow(clippy::disallowed_methods, reason = "a developer asked for the files")]
fn broad_samples() {
    let folder = std::env::temp_dir().join("setwright-samples");
    std::fs::create_dir_all(&folder).unwrap();
    for (name, plan) in plans() {
        let wanted = Wanted {
            sheets: vec![Sheet::Block, Sheet::Rack, Sheet::Overview, Sheet::Wall],
            posters: posters(&plan),
        };
        let rendered = print(&plan, &wanted, &options(Paper::A5)).unwrap();
        let name = name.replace(' ', "-");
        std::fs::write(folder.join(format!("broad-{name}.pdf")), rendered.bytes).unwrap();
    }
}
