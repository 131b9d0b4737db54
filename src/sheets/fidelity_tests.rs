//! Checks that everything in a plan, drawn, projected, logged or left out, is printed as it is, and
//! that no long text is lost.

use jiff::civil::date;

use super::card::deck;
use super::layout::{Ink, Page, Role, Shape};
use super::sample::{athlete, exercise, kg, on, plan, session, set};
use super::sample_plans::{full, schemes, wild};
use super::{Paper, summary};
use crate::plan::{
    DoneSet, DoneWork, Extra, Fired, Limit, Location, Outcome, Plan, PlannedExercise,
    SessionStatus, SetKind,
};
use crate::quantity::{Effort, HalfPoints};

fn texts(pages: &[Page]) -> Vec<(String, Ink)> {
    let text = |item: &Shape| match item {
        Shape::Text { text, style, .. } => Some((text.replace('\u{a0}', " "), style.ink)),
        _ => None,
    };
    pages.iter().flat_map(|page| &page.items).filter_map(text).collect()
}

/// Text without spaces, because lines break at them.
fn solid(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

fn printed(plan: &Plan, paper: Paper) -> String {
    solid(
        &texts(&deck(plan, &on(paper)).pages).into_iter().map(|(text, _)| text).collect::<String>(),
    )
}

/// The plates on a page, one list for each bar. A bar starts with its shaft.
fn bars(page: &Page) -> Vec<usize> {
    let mut out: Vec<usize> = Vec::new();
    let mut shapes = 0;
    for item in &page.items {
        match item {
            Shape::Rectangle { role: Role::Plate, fill: Some(Ink::White), .. } => {
                shapes = 0;
                if let Some(bar) = out.last_mut() {
                    *bar += 1;
                }
            }
            Shape::Rectangle { role: Role::Plate, .. } => {
                // Shaft, shoulder and sleeve.
                if shapes == 0 {
                    out.push(0);
                }
                shapes += 1;
            }
            _ => shapes = 0,
        }
    }
    out
}

fn top_and_back_offs() -> PlannedExercise {
    let mut sets = vec![set("5").barbell(&["20", "5", "2.5", "1.25"]).rest(180)];
    let off = set("5").barbell(&["20", "5"]).rest(180).kind(SetKind::BackOff).group(1);
    sets.extend(off.times(3));
    exercise("A", "Deadlift", sets)
}

#[test]
fn sets_that_differ_have_their_plates_drawn() {
    for (_, paper) in Paper::ALL {
        let alone = session("Drive", date(2026, 1, 7), vec![top_and_back_offs()]);
        let pages = deck(&plan(vec![athlete("Wren Tallow", vec![alone])]), &on(paper)).pages;
        assert_eq!(bars(&pages[0]), [4, 2], "{paper}: the top set's and the back-offs'");
        // If there is little room, only the plates of the heaviest set.
        let mut dense = full();
        dense.exercises[0] = top_and_back_offs();
        let pages = deck(&plan(vec![athlete("Wren Tallow", vec![dense])]), &on(paper)).pages;
        assert_eq!(bars(&pages[0])[0], 4, "{paper}");
        let pages = deck(&plan(vec![athlete("Wren Tallow", vec![schemes()])]), &on(paper)).pages;
        let heaviest: Vec<usize> = bars(&pages[0]);
        assert!(heaviest.contains(&3) && heaviest.contains(&2), "{paper}: {heaviest:?}");
    }
}

#[test]
fn projected_is_a_word_in_black() {
    let mut session = full();
    session.exercises[0].projected = true;
    session.exercises[4].projected = true;
    let plan = plan(vec![athlete("Wren Tallow", vec![session])]);
    for (_, paper) in Paper::ALL {
        let all = texts(&deck(&plan, &on(paper)).pages);
        let found: Vec<Ink> =
            all.iter().filter(|(text, _)| text.ends_with("projected")).map(|(_, i)| *i).collect();
        assert_eq!(found, [Ink::Black, Ink::Black], "{paper}: {all:?}");
    }
    assert_eq!(summary(&plan).matches("  projected\n").count(), 2, "{}", summary(&plan));
}

fn outcome(reps: &[(u32, &str)]) -> Outcome {
    let set = |(reps, load): &(u32, &str)| DoneSet {
        work: DoneWork::Reps(*reps),
        sides: None,
        load: Some(kg(load)),
        made: true,
    };
    Outcome {
        sets: reps.iter().map(set).collect(),
        skipped: false,
        reason: None,
        all_made: true,
        effort: None,
        pain: None,
        line: None,
    }
}

#[test]
fn the_summary_says_what_was_done() {
    let place = Location { file: "sample.sets".into(), line: 9 };
    let fired = |projected| Fired {
        rule: "when any rep missed: load -7.5%".to_owned(),
        projected,
        line: place.clone(),
    };
    let mut squat = exercise("A", "Front squat", set("5").barbell(&["20"]).times(3));
    squat.outcome = Some(Outcome {
        effort: Some(Effort::Rpe(HalfPoints(18))),
        ..outcome(&[(5, "60"), (5, "60"), (4, "60")])
    });
    squat.fired = Some(fired(false));
    let mut lift = top_and_back_offs();
    lift.outcome = Some(outcome(&[(5, "77.5"), (5, "70"), (5, "70")]));
    let mut chin = exercise("C", "Chin-up", set("5").body("10").times(2));
    chin.outcome = Some(Outcome { pain: Some(HalfPoints(4)), ..outcome(&[(5, "10"), (4, "-5")]) });
    let mut bench = exercise("D", "Bench press", set("5").barbell(&["20"]).times(3));
    bench.outcome =
        Some(Outcome { skipped: true, reason: Some("no time".to_owned()), ..outcome(&[]) });
    let row = exercise("E", "Row", set("5").barbell(&["20"]).times(3));
    let mut done = session("Drive", date(2026, 1, 7), vec![squat, lift, chin, bench, row]);
    done.status = SessionStatus::Done { done_on: date(2026, 1, 8) };
    done.log_notes.push("slept badly".to_owned());
    done.repeats_week = Some(2);
    let mut skipped = session("Catch", date(2026, 1, 9), vec![top_and_back_offs()]);
    skipped.status =
        SessionStatus::Skipped { skipped_on: date(2026, 1, 9), reason: Some("cold".to_owned()) };
    let mut missing = session("Finish", date(2026, 1, 10), vec![top_and_back_offs()]);
    missing.status = SessionStatus::Missing;
    let mut to_come = session("Drive", date(2026, 1, 14), vec![top_and_back_offs()]);
    to_come.exercises[0].fired = Some(fired(true));
    let mut who = athlete("Wren Tallow", vec![done, skipped, missing, to_come]);
    who.extras.push(Extra { date: date(2026, 1, 11), what: "easy row".to_owned() });
    let mut plan = plan(vec![who]);
    let text = summary(&plan);
    for line in [
        "Week 3 of 8 · Drive · repeats week 2 · Wed 7 Jan 2026 · Base",
        "Done on Thu 8 Jan 2026",
        "Log note: slept badly",
        "      Done: 5, 5, 4 @ 60 kg  RPE 9",
        "      Rule: any rep missed: load -7.5%",
        "      Done: 5 @ 77.5 kg; 5, 5 @ 70 kg",
        "      Done: 5 @ body mass + 10 kg; 4 @ body mass - 5 kg (assisted)  pain 2/10",
        "      Done: left out (no time)",
        "      Not logged",
        "Skipped (cold)",
        "Not logged",
        "Outside the plan: Sun 11 Jan 2026: easy row",
    ] {
        assert_eq!(text.lines().filter(|l| *l == line).count(), 1, "{line}\n\n{text}");
    }
    // The card still has its boxes for writing.
    let card = printed(&plan, Paper::A5);
    assert!(card.contains("repeatsweek2"));
    // A card of the past, printed all the same, says that it is one.
    for word in ["Doneon", "Notlogged", "Skipped(cold)"] {
        assert!(card.contains(word), "{word}");
    }
    for word in ["sleptbadly", "pain2", "Rule", "RPE9"] {
        assert!(!card.contains(word), "{word}");
    }
    plan.weeks = 1;
    assert!(summary(&plan).starts_with("Winter water-strength (1 week)\n"));
}

#[test]
fn a_plan_that_says_little_reads_well() {
    let mut bare = session("Lower", date(2026, 1, 7), vec![exercise("A", "Press", vec![])]);
    (bare.date, bare.week_starts, bare.phase, bare.week) = (None, None, None, 104);
    let mut who = athlete("Wren Tallow", vec![bare]);
    (who.gym, who.rack, who.body_mass) = (None, None, None);
    let mut plan = plan(vec![who]);
    plan.weeks = 1_040;
    for (_, paper) in Paper::ALL {
        let all: Vec<String> =
            texts(&deck(&plan, &on(paper)).pages).into_iter().map(|(text, _)| text).collect();
        for line in ["Wren Tallow", "Winter water-strength", "Lower", "Week 104 of 1040"] {
            assert!(all.iter().any(|text| text == line), "{paper}: {line} in {all:?}");
        }
    }
    let text = summary(&plan);
    for line in ["Week 104 of 1040 · Lower", "Wren Tallow · loads in kg"] {
        assert!(text.lines().any(|l| l == line), "{line}\n\n{text}");
    }
}

#[test]
fn nothing_long_is_lost() {
    let long = |what: &str| format!("{what} {}", "keep the hips level, ribs down; ".repeat(40));
    let mut odd = full();
    odd.limits.push(Limit { name: "Knee".to_owned(), text: long("limit"), until: None });
    odd.notes.push(long("day"));
    (odd.before, odd.after) = (Some(long("before")), Some(long("after")));
    let exercise = &mut odd.exercises[1];
    exercise.cues = vec![long("cue"), long("more")];
    exercise.notes = vec![long("note")];
    exercise.settings = vec![long("own")];
    exercise.rules = vec![long("rule")];
    (exercise.setup, exercise.safety) = (Some(long("set-up")), Some(long("safety")));
    exercise.demo = Some("https://example.org/".to_owned() + &"press/".repeat(200));
    if let Some(replaced) = &mut exercise.replaces {
        replaced.reason = Some(long("reason").trim().to_owned());
    }
    let what = ["limit", "day", "before", "after", "cue", "more", "note", "own", "rule", "set-up"];
    let what: Vec<&str> = what.into_iter().chain(["safety", "reason"]).collect();
    let plan = plan(vec![athlete("Wren Tallow", vec![odd.clone()])]);
    for (_, paper) in Paper::ALL {
        let printed = printed(&plan, paper);
        for what in &what {
            let line = solid(&long(what));
            assert!(printed.contains(&line) || runs_over(&printed, &line), "{paper}: {what}");
        }
        let demo = "press/".repeat(200);
        assert!(printed.contains(&demo) || runs_over(&printed, &demo), "{paper}");
    }
    let text = solid(&summary(&plan));
    assert!(text.contains(&"press/".repeat(200)));
    for what in &what {
        assert!(text.contains(&solid(&long(what))), "{what}");
    }
}

/// Whether there is one page break in the middle of the text, with both parts printed.
fn runs_over(printed: &str, text: &str) -> bool {
    (1..text.len()).filter(|at| text.is_char_boundary(*at)).any(|at| {
        let (head, tail) = text.split_at(at);
        let found = printed.find(head).map(|found| found + head.len());
        found.and_then(|from| printed.get(from..)).is_some_and(|rest| rest.contains(tail))
    })
}

#[test]
fn the_summary_of_the_wild_plan_is_whole() {
    let text = solid(&summary(&plan(vec![wild()])));
    assert!(text.matches("ribsdown").count() >= 7 * 60);
    assert!(text.matches("swort").count() >= 6 * 12);
}
