//! Sample sessions with everything that a card can contain.
#![allow(
    missing_docs,
    clippy::must_use_candidate,
    clippy::missing_panics_doc,
    reason = "test support"
)]

use jiff::civil::date;

use crate::plan::{
    AthletePlan, Citation, CitationOf, GroupKind, Implement, Limit, Op, Plan, PlannedSet, Session,
    SetKind, Step, StepKind,
};
use crate::quantity::{Exact, Mass, SideRest, Unit};

use super::sample::{athlete, exercise, kg, lb, plan, s, session, set};

fn bells(r: &str, mass: &str) -> PlannedSet {
    set(r).with(kg(mass), Implement::Dumbbells)
}

fn pin(r: &str, mass: &str) -> PlannedSet {
    set(r).with(kg(mass), Implement::Stack { name: "Cable".to_owned() })
}

/// A typical session: six exercises, a superset, a limit.
pub fn typical() -> Session {
    let mut session = session(
        "Catch",
        date(2026, 1, 19),
        vec![
            exercise(
                "A",
                "Front squat",
                set("6").barbell(&["15", "2.5", "1.25"]).rest(180).tempo().times(4),
            )
            .ramp(&[("8", &[]), ("5", &["2.5"]), ("3", &["10"]), ("1", &["10", "2.5"])])
            .cue("Elbows high; sit between the heels.")
            .rule("when last set >= 8 reps: max +2.5 kg"),
            exercise("B", "Floor press", set("8").barbell(&["10", "5"]).rest(120).rpe(14).times(3))
                .ramp(&[("8", &[]), ("5", &["5"]), ("3", &["10"])])
                .replacing("Bench press", "shoulder")
                .safety("Spotter or safeties."),
            exercise(
                "C",
                "Rear-foot-raised split squat",
                bells("8-10 each side", "12").rir(2).rest(90).times(3),
            )
            .setup("Long step; chest leans over the front thigh.")
            .yours("back foot on the low block")
            .rule("when top of range: load +2 kg, reps to bottom")
            .rule("when missed 2 in a row: load -10%"),
            exercise("D", "Hip thrust", set("10").barbell(&["20", "10"]).rest(90).times(3)),
            exercise("E1", "Face pull", pin("12-15", "25").times(3)).cue("Thumbs back, ribs down."),
            exercise("E2", "Side plank", set("30 s each side").body("0").rest(60).times(3)),
        ],
    );
    session.before = Some("8 min easy rowing".to_owned());
    session.limits.push(Limit {
        name: "Shoulder".to_owned(),
        text: "no pressing below the bench (physio, until 2026-02-01)".to_owned(),
        until: Some(date(2026, 2, 1)),
    });
    session
}

/// A full session: six exercises, each with all kinds of text.
pub fn full() -> Session {
    let mut session = typical();
    session.notes.push("Learn the positions. Nobody misses a rep.".to_owned());
    for exercise in &mut session.exercises {
        exercise.cues = vec![
            "Elbows up from the first inch to the last.".to_owned(),
            "Sit between the hips; stay tall.".to_owned(),
        ];
        exercise.setup = Some("Bar on the shoulders, elbows high, feet hip width.".to_owned());
        exercise.safety = Some("Set the safeties; step well back.".to_owned());
    }
    session
}

/// More rounds than fit on a small page.
pub fn endless() -> Session {
    let cue = "Keep the ribs down and the hips level, and breathe out on the way up.";
    let members = (1..=20).map(|n| {
        let name = format!("Station {n}");
        exercise(&format!("A{n}"), &name, set("10").body("0").times(1)).cue(cue).setup(cue)
    });
    session("Round and round", date(2026, 1, 25), members.collect()).how(
        'A',
        GroupKind::Circuit { rounds: 4, change: Some(s(20)) },
        Some(120),
    )
}

/// All kinds of groups.
pub fn groups() -> Session {
    session(
        "Power",
        date(2026, 1, 21),
        vec![
            exercise("A", "Power clean", set("2").barbell(&["20", "5"]).times(1)),
            exercise(
                "B1",
                "Kettlebell swing",
                set("12").with(kg("24"), Implement::Kettlebell).times(1),
            ),
            exercise("B2", "Push-up", set("10").body("0").times(1)),
            exercise(
                "C1",
                "Farmer's walk",
                set("40 m").with(kg("28"), Implement::Kettlebells).times(1),
            ),
            exercise("C2", "Inverted row", set("8-12").body("0").times(1)),
            exercise(
                "C3",
                "Step-up",
                set("8 each side").with(kg("10"), Implement::Dumbbell).times(1),
            ),
            exercise("D1", "Goblet squat", set("10").times(1)),
            exercise("D2", "Plank", set("45 s").body("0").times(1)),
            exercise("E1", "Bench press", set("5").barbell(&["15"]).times(3)),
            exercise("E2", "Bench pull", set("5").barbell(&["15"]).times(3)),
        ],
    )
    .how('A', GroupKind::Every { interval: s(60), length: s(600), alternate: false }, None)
    .how('B', GroupKind::Every { interval: s(60), length: s(1200), alternate: true }, None)
    .how('C', GroupKind::Circuit { rounds: 3, change: Some(s(20)) }, Some(120))
    .how('D', GroupKind::RoundsIn { length: s(720) }, None)
    .how('E', GroupKind::Paired, Some(90))
}

/// Sets that differ, clusters, drop sets, loads by effort, open loads.
pub fn schemes() -> Session {
    let triple = vec![
        set("5").barbell(&["25", "5"]).rest(180),
        set("3").barbell(&["25", "10", "1.25"]).rest(180).group(1),
        set("1+").barbell(&["25", "15", "2.5"]).rest(180).group(2),
    ];
    let mut top = vec![set("3").barbell(&["25", "15"]).rest(240).rpe(16)];
    top.extend(
        set("5").barbell(&["25", "5", "2.5"]).rest(180).kind(SetKind::BackOff).group(1).times(3),
    );
    let mut drop = bells("10", "20").rest(90).times(3);
    drop.push(bells("AMRAP", "16").kind(SetKind::Drop));
    drop.push(bells("AMRAP", "12").kind(SetKind::Drop));
    session(
        "Heavy",
        date(2026, 1, 23),
        vec![
            exercise("A", "Back squat", triple).ramp(&[("5", &[]), ("5", &["10"]), ("3", &["20"])]),
            exercise("B", "Deadlift", top),
            exercise("C", "Bench press", set("3+3+3").barbell(&["20", "2.5"]).rest(150).times(3)),
            exercise("D", "Dumbbell row", drop),
            exercise(
                "E",
                "Overhead press",
                set("8").barbell(&["7.5"]).about().rpe(15).rest(120).times(3),
            ),
            exercise("F", "Chin-up", set("5").body("-15").rest(120).off("-17.3").times(4)),
        ],
    )
}

/// Nine exercises, long names, five cues, fourteen sets, odd letters, a character that the font
/// lacks.
pub fn crowded() -> Session {
    let mut session = session(
        "Whole body, the long one before the break",
        date(2026, 1, 24),
        vec![
            exercise(
                "A",
                "Rear-foot-raised split squat from a deficit",
                set("1").barbell(&["20", "20", "10", "5", "2.5", "1.25"]).rest(60).times(14),
            )
            .cue("Sink straight down.")
            .cue("Push the floor away.")
            .cue("Keep the front shin where it is.")
            .cue("Breathe out through the hardest part of the lift.")
            .cue("Stop the set when the hips turn.")
            .setup("Two plates under each foot; rack pins at hip height; step well back.")
            .yours("pins at 14, grip at the second ring")
            .yours("left foot on the wedge")
            .ramp(&[
                ("8", &[]),
                ("5", &["20"]),
                ("3", &["20", "10"]),
                ("1", &["20", "20"]),
            ]),
            exercise("B", "Přítah činky v předklonu (漢)", set("12").times(3)).cue("Žádné házení."),
            exercise("C", "Leg curl", pin("12", "35").rest(60).times(3)),
            exercise("D", "Calf raise", set("15").times(4)),
            exercise("E", "Dip", set("6").body("10").rest(120).times(5)),
            exercise("F", "Back extension", set("10").with(kg("5"), Implement::Other).times(2)),
            exercise(
                "G",
                "Band pull-apart",
                set("20").with(Mass::ZERO, Implement::Band { name: "red".to_owned() }).times(2),
            ),
            exercise("H", "Hollow hold", set("20-40 s").body("0").times(3)),
            exercise(
                "I",
                "Suitcase carry",
                set("30 m each side").with(kg("24"), Implement::Kettlebell).rest(60).times(3),
            ),
        ],
    );
    session.after = Some("5 min walking, then stretch what feels short.".to_owned());
    session.notes.push("Share racks; the last pair sweeps the floor.".to_owned());
    session
}

/// Extreme texts that a coach should not write but might.
pub fn wild() -> AthletePlan {
    let long = "Unaussprechlichlangesübungswort".repeat(12);
    let text = "Keep the ribs down and the hips level. ".repeat(60);
    let mut sets = set("1").barbell(&["20"]).times(90);
    sets.extend((1..40).map(|n| set(&format!("{n}")).barbell(&["10", "5"]).rest(60 + n)));
    let mut exercises = vec![
        exercise("A", &long, sets).cue(&text).yours(&long).rule(&text).setup(&long),
        exercise("B", "", Vec::new()),
        exercise(
            "C",
            &text,
            set("AMRAP").with(kg("5"), Implement::Stack { name: long.clone() }).times(3),
        ),
        exercise("D1", "Row", set("99-999 each side").times(40)),
        exercise(
            "D2",
            "Band walk",
            set("3+3+3+3+3+3+3+3+3+3+3+3")
                .with(kg("1"), Implement::Band { name: long.clone() })
                .times(2),
        ),
    ];
    exercises.extend(
        (1..=30).map(|n| exercise(&format!("E{n}"), "Push-up", set("10").body("0").times(1))),
    );
    exercises.push(exercise("F", "Press", set("3").barbell(&["25"; 14]).times(2)));
    let mut session = session(&long, date(2026, 12, 31), exercises)
        .how('D', GroupKind::Circuit { rounds: 4_000_000, change: None }, None)
        .how('E', GroupKind::Every { interval: s(0), length: s(86_400), alternate: false }, None);
    session.phase = Some(text.clone());
    session.before = Some(text.clone());
    session.limits.push(Limit {
        name: long.clone(),
        text: text.clone(),
        until: Some(date(2026, 2, 1)),
    });
    athlete(&text, vec![session])
}

/// A gym with pound plates.
pub fn pounds() -> AthletePlan {
    let plates = vec![lb("45"), lb("35"), lb("2.5")];
    let mut half = set("5").rest(180);
    half.reps.between = Some(SideRest(s(30)));
    half.reps.each_side = true;
    let sets = vec![
        exercise("A", "Deadlift", set("5").bar(lb("45"), plates).rest(180).times(5)),
        exercise("B", "Pistol squat", half.with(lb("25"), Implement::Dumbbell).times(2)),
    ];
    let mut athlete =
        athlete("Žofie Ďurková-Łęska", vec![session("Pull", date(2026, 1, 20), sets)]);
    athlete.unit = Unit::Lb;
    athlete.also_unit = Some(Unit::Kg);
    athlete
}

/// A plan with everything at once, sources for everything, and loads with derivations.
pub fn sourced(mut plan: Plan) -> Plan {
    plan.source = Some("handed down in the club; written up in 2025".to_owned());
    let evidence = |of: CitationOf, text: String| Citation { of, text };
    for athlete in &mut plan.athletes {
        for exercise in athlete.sessions.iter_mut().flat_map(|session| &mut session.exercises) {
            let name = exercise.name.clone();
            exercise.sources = vec![
                evidence(CitationOf::Exercise, format!("source of {name}")),
                evidence(CitationOf::Line, format!("{}-source", "long ".repeat(30))),
            ];
            exercise.sources.extend(exercise.cues.iter().map(|cue| {
                evidence(CitationOf::Cue { cue: cue.clone() }, "the handbook, page 3".to_owned())
            }));
            for set in &mut exercise.sets {
                set.derivation = worked_out(set).into_iter().collect();
            }
        }
    }
    plan
}

/// A percentage of a max, changed by a rule, then built.
fn worked_out(set: &PlannedSet) -> Vec<Step> {
    let Some(built) = &set.load else { return Vec::new() };
    let result = Exact::from_mass(built.mass);
    let rule = StepKind::Rule {
        rule: "when any rep missed: load -7.5%".to_owned(),
        session: "week 2, Catch (2026-01-12)".to_owned(),
        projected: false,
    };
    let kinds = [
        StepKind::Tested { lift: "Front squat".to_owned() },
        StepKind::Percent { percent: "70".to_owned() },
        rule,
        StepKind::Built { rounding: "nearest".to_owned() },
    ];
    let step =
        |kind| Step { kind, op: Op::Set(result.clone()), result: result.clone(), line: None };
    kinds.into_iter().map(step).collect()
}

pub fn all() -> Plan {
    let sessions = vec![typical(), groups(), schemes(), crowded()];
    plan(vec![athlete("Wren Tallow", sessions), pounds()])
}
