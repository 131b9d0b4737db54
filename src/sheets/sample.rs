//! Plans for tests, built by hand: nobody in them exists.
#![allow(
    missing_docs,
    clippy::must_use_candidate,
    clippy::return_self_not_must_use,
    clippy::missing_panics_doc,
    reason = "test support"
)]

use jiff::civil::{Date, date};

use crate::plan::{
    AthletePlan, Built, Group, GroupKind, Implement, Limit, Order, Plan, PlannedExercise,
    PlannedSet, Replaced, Session, SetKind, Where,
};
use crate::quantity::{
    Decimal, Duration, Effort, Exact, HalfPoints, Mass, RepCount, Reps, SideRest, Tempo, TempoPart,
    Unit, Work,
};

pub fn kg(text: &str) -> Mass {
    mass(text, Unit::Kg)
}

pub fn lb(text: &str) -> Mass {
    mass(text, Unit::Lb)
}

fn mass(text: &str, unit: Unit) -> Mass {
    let negative = text.starts_with('-');
    let size = Mass::from_decimal(Decimal::parse(text.trim_start_matches('-')).unwrap(), unit);
    if negative {
        Mass::ZERO - size.unwrap()
    } else {
        size.unwrap()
    }
}

pub fn s(seconds: u32) -> Duration {
    Duration::seconds(seconds)
}

/// `6`, `8-12`, `5+`, `AMRAP`, `3+3+3`, `30 s`, `40 m`, each with `each side`.
pub fn reps(text: &str) -> Reps {
    let (text, each_side) = match text.strip_suffix(" each side") {
        Some(text) => (text, true),
        None => (text, false),
    };
    let count = |text: &str| -> RepCount {
        if let Some(min) = text.strip_suffix('+') {
            RepCount {
                min: min.parse().unwrap(),
                max: None,
            }
        } else if let Some((min, max)) = text.split_once('-') {
            RepCount {
                min: min.parse().unwrap(),
                max: Some(max.parse().unwrap()),
            }
        } else {
            RepCount::exactly(text.parse().unwrap())
        }
    };
    let work = if text == "AMRAP" {
        Work::Amrap
    } else if let Some(text) = text.strip_suffix(" s") {
        Work::Seconds(count(text))
    } else if let Some(text) = text.strip_suffix(" m") {
        Work::Metres(count(text))
    } else if text.matches('+').count() > 1 {
        let parts = text.split('+').map(|part| part.parse().unwrap()).collect();
        Work::Cluster {
            parts,
            pause: Some(s(20)),
        }
    } else {
        Work::Reps(count(text))
    };
    Reps {
        work,
        each_side,
        between: None,
    }
}

/// A set without a load.
pub fn set(text: &str) -> PlannedSet {
    PlannedSet {
        kind: SetKind::Work,
        reps: reps(text),
        target: None,
        load: None,
        bodyweight: false,
        about: false,
        off_target: false,
        effort: None,
        rest: None,
        tempo: None,
        range: None,
        every: None,
        rest_pause: None,
        group: 0,
        derivation: Vec::new(),
    }
}

impl PlannedSet {
    pub fn with(mut self, mass: Mass, how: Implement) -> Self {
        self.target = Some(Exact::from_mass(mass));
        self.load = Some(Built { mass, how });
        self
    }

    /// On a 20 kg bar with these plates a side.
    pub fn barbell(self, plates: &[&str]) -> Self {
        self.bar(kg("20"), plates.iter().map(|plate| kg(plate)).collect())
    }

    pub fn bar(self, bar: Mass, per_side: Vec<Mass>) -> Self {
        let total = bar + per_side.iter().copied().sum::<Mass>() * 2;
        let how = Implement::Bar {
            bar,
            name: None,
            collars: Mass::ZERO,
            per_side,
        };
        self.with(total, how)
    }

    pub fn body(mut self, added: &str) -> Self {
        self = self.with(kg(added), Implement::BodyMass { pieces: Vec::new() });
        self.bodyweight = true;
        self
    }

    pub fn rest(mut self, seconds: u32) -> Self {
        self.rest = Some(s(seconds));
        self
    }

    pub fn rpe(mut self, halves: u16) -> Self {
        self.effort = Some(Effort::Rpe(HalfPoints(halves)));
        self
    }

    pub fn rir(mut self, reps: u16) -> Self {
        self.effort = Some(Effort::Rir(HalfPoints(reps * 2)));
        self
    }

    pub fn tempo(mut self) -> Self {
        let part = TempoPart::Seconds;
        self.tempo = Some(Tempo([part(3), part(1), TempoPart::Explosive, part(0)]));
        self
    }

    pub fn about(mut self) -> Self {
        self.about = true;
        self
    }

    pub fn off(mut self, target: &str) -> Self {
        self.off_target = true;
        self.target = Some(Exact::from_mass(kg(target)));
        self
    }

    pub fn kind(mut self, kind: SetKind) -> Self {
        self.kind = kind;
        self
    }

    pub fn group(mut self, group: usize) -> Self {
        self.group = group;
        self
    }

    pub fn times(self, n: usize) -> Vec<PlannedSet> {
        vec![self; n]
    }
}

/// An exercise with its sets.
pub fn exercise(order: &str, name: &str, sets: Vec<PlannedSet>) -> PlannedExercise {
    let mut letters = order.chars();
    let letter = letters.next().unwrap();
    PlannedExercise {
        order: Order {
            letter,
            number: letters.as_str().parse().ok(),
        },
        name: name.to_owned(),
        each_side: sets.iter().any(|set| set.reps.each_side),
        replaces: None,
        setup: None,
        settings: Vec::new(),
        cues: Vec::new(),
        notes: Vec::new(),
        safety: None,
        demo: None,
        rules: Vec::new(),
        sets,
        line: Where {
            file: "sample.sets".to_owned(),
            line: 1,
        },
    }
}

impl PlannedExercise {
    /// Warm-ups before the sets: reps, then plates a side.
    pub fn ramp(mut self, steps: &[(&str, &[&str])]) -> Self {
        let ramp = steps
            .iter()
            .map(|(r, plates)| set(r).barbell(plates).kind(SetKind::WarmUp));
        self.sets = ramp.chain(self.sets).collect();
        self
    }

    pub fn cue(mut self, cue: &str) -> Self {
        self.cues.push(cue.to_owned());
        self
    }

    pub fn setup(mut self, setup: &str) -> Self {
        self.setup = Some(setup.to_owned());
        self
    }

    pub fn yours(mut self, setting: &str) -> Self {
        self.settings.push(setting.to_owned());
        self
    }

    pub fn rule(mut self, rule: &str) -> Self {
        self.rules.push(rule.to_owned());
        self
    }

    pub fn safety(mut self, safety: &str) -> Self {
        self.safety = Some(safety.to_owned());
        self
    }

    pub fn replacing(mut self, name: &str, reason: &str) -> Self {
        self.replaces = Some(Replaced {
            name: name.to_owned(),
            reason: Some(reason.to_owned()),
        });
        self
    }
}

/// A session of week 3; letters that stand alone are single exercises.
pub fn session(day: &str, on: Date, exercises: Vec<PlannedExercise>) -> Session {
    let groups = exercises
        .chunk_by(|a, b| a.order.letter == b.order.letter)
        .map(|members| Group {
            letter: members[0].order.letter,
            how: match members.len() {
                1 => GroupKind::Single,
                2 => GroupKind::Superset,
                _ => GroupKind::GiantSet,
            },
            rest: None,
        })
        .collect();
    Session {
        week: 3,
        day: day.to_owned(),
        date: Some(on),
        week_starts: Some(date(2026, 1, 19)),
        phase: Some("Base".to_owned()),
        before: None,
        after: None,
        notes: Vec::new(),
        limits: Vec::new(),
        time: None,
        groups,
        exercises,
    }
}

impl Session {
    pub fn how(mut self, letter: char, how: GroupKind, rest: Option<u32>) -> Self {
        let group = self
            .groups
            .iter_mut()
            .find(|group| group.letter == letter)
            .unwrap();
        group.how = how;
        group.rest = rest.map(s);
        self
    }
}

pub fn athlete(name: &str, sessions: Vec<Session>) -> AthletePlan {
    AthletePlan {
        name: name.to_owned(),
        gym: Some("Boathouse".to_owned()),
        unit: Unit::Kg,
        also_unit: None,
        body_mass: Some(kg("68")),
        rack: Some("1".to_owned()),
        sessions,
    }
}

pub fn plan(athletes: Vec<AthletePlan>) -> Plan {
    Plan {
        programme: "Winter water-strength".to_owned(),
        language: "en".to_owned(),
        weeks: 8,
        goal: None,
        supervision: None,
        notes: Vec::new(),
        athletes,
    }
}

fn bells(r: &str, mass: &str) -> PlannedSet {
    set(r).with(kg(mass), Implement::Dumbbells)
}

fn pin(r: &str, mass: &str) -> PlannedSet {
    set(r).with(
        kg(mass),
        Implement::Stack {
            name: "Cable".to_owned(),
        },
    )
}

/// What most evenings look like: six exercises, a superset, a limit.
pub fn typical() -> Session {
    let mut session = session(
        "Catch",
        date(2026, 1, 19),
        vec![
            exercise(
                "A",
                "Front squat",
                set("6")
                    .barbell(&["15", "2.5", "1.25"])
                    .rest(180)
                    .tempo()
                    .times(4),
            )
            .ramp(&[
                ("8", &[]),
                ("5", &["2.5"]),
                ("3", &["10"]),
                ("1", &["10", "2.5"]),
            ])
            .cue("Elbows high; sit between the heels.")
            .rule("when last set >= 8 reps: max +2.5 kg"),
            exercise(
                "B",
                "Floor press",
                set("8").barbell(&["10", "5"]).rest(120).rpe(14).times(3),
            )
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
            exercise(
                "D",
                "Hip thrust",
                set("10").barbell(&["20", "10"]).rest(90).times(3),
            ),
            exercise("E1", "Face pull", pin("12-15", "25").times(3)).cue("Thumbs back, ribs down."),
            exercise(
                "E2",
                "Side plank",
                set("30 s each side").body("0").rest(60).times(3),
            ),
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

/// Every way of grouping.
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
                set("8 each side")
                    .with(kg("10"), Implement::Dumbbell)
                    .times(1),
            ),
            exercise("D1", "Goblet squat", set("10").times(1)),
            exercise("D2", "Plank", set("45 s").body("0").times(1)),
            exercise("E1", "Bench press", set("5").barbell(&["15"]).times(3)),
            exercise("E2", "Bench pull", set("5").barbell(&["15"]).times(3)),
        ],
    )
    .how(
        'A',
        GroupKind::Every {
            interval: s(60),
            length: s(600),
            alternate: false,
        },
        None,
    )
    .how(
        'B',
        GroupKind::Every {
            interval: s(60),
            length: s(1200),
            alternate: true,
        },
        None,
    )
    .how(
        'C',
        GroupKind::Circuit {
            rounds: 3,
            change: Some(s(20)),
        },
        Some(120),
    )
    .how('D', GroupKind::RoundsIn { length: s(720) }, None)
    .how('E', GroupKind::Paired, Some(90))
}

/// Sets that differ, clusters, drop sets, loads by effort, loads left open.
pub fn schemes() -> Session {
    let triple = vec![
        set("5").barbell(&["25", "5"]).rest(180),
        set("3").barbell(&["25", "10", "1.25"]).rest(180).group(1),
        set("1+").barbell(&["25", "15", "2.5"]).rest(180).group(2),
    ];
    let mut top = vec![set("3").barbell(&["25", "15"]).rest(240).rpe(16)];
    top.extend(
        set("5")
            .barbell(&["25", "5", "2.5"])
            .rest(180)
            .kind(SetKind::BackOff)
            .group(1)
            .times(3),
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
            exercise(
                "C",
                "Bench press",
                set("3+3+3").barbell(&["20", "2.5"]).rest(150).times(3),
            ),
            exercise("D", "Dumbbell row", drop),
            exercise(
                "E",
                "Overhead press",
                set("8")
                    .barbell(&["7.5"])
                    .about()
                    .rpe(15)
                    .rest(120)
                    .times(3),
            ),
            exercise(
                "F",
                "Chin-up",
                set("5").body("-15").rest(120).off("-17.3").times(4),
            ),
        ],
    )
}

/// Nine exercises, long names, five cues, fourteen sets, odd letters, a character the font lacks.
pub fn crowded() -> Session {
    let mut session = session(
        "Whole body, the long one before the break",
        date(2026, 1, 24),
        vec![
            exercise(
                "A",
                "Rear-foot-raised split squat from a deficit",
                set("1")
                    .barbell(&["20", "20", "10", "5", "2.5", "1.25"])
                    .rest(60)
                    .times(14),
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
            exercise(
                "F",
                "Back extension",
                set("10").with(kg("5"), Implement::Other).times(2),
            ),
            exercise(
                "G",
                "Band pull-apart",
                set("20")
                    .with(
                        Mass::ZERO,
                        Implement::Band {
                            name: "red".to_owned(),
                        },
                    )
                    .times(2),
            ),
            exercise("H", "Hollow hold", set("20-40 s").body("0").times(3)),
            exercise(
                "I",
                "Suitcase carry",
                set("30 m each side")
                    .with(kg("24"), Implement::Kettlebell)
                    .rest(60)
                    .times(3),
            ),
        ],
    );
    session.after = Some("5 min walking, then stretch what feels short.".to_owned());
    session
        .notes
        .push("Share racks; the last pair sweeps the floor.".to_owned());
    session
}

/// What nobody should write, and somebody will.
pub fn wild() -> AthletePlan {
    let long = "Unaussprechlichlangesübungswort".repeat(12);
    let text = "Keep the ribs down and the hips level. ".repeat(60);
    let mut sets = set("1").barbell(&["20"]).times(90);
    sets.extend((1..40).map(|n| set(&format!("{n}")).barbell(&["10", "5"]).rest(60 + n)));
    let mut exercises = vec![
        exercise("A", &long, sets)
            .cue(&text)
            .yours(&long)
            .rule(&text)
            .setup(&long),
        exercise("B", "", Vec::new()),
        exercise(
            "C",
            &text,
            set("AMRAP")
                .with(kg("5"), Implement::Stack { name: long.clone() })
                .times(3),
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
    exercises.push(exercise(
        "F",
        "Press",
        set("3").barbell(&["25"; 14]).times(2),
    ));
    let mut session = session(&long, date(2026, 12, 31), exercises)
        .how(
            'D',
            GroupKind::Circuit {
                rounds: 4_000_000,
                change: None,
            },
            None,
        )
        .how(
            'E',
            GroupKind::Every {
                interval: s(0),
                length: s(86_400),
                alternate: false,
            },
            None,
        );
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
        exercise(
            "A",
            "Deadlift",
            set("5").bar(lb("45"), plates).rest(180).times(5),
        ),
        exercise(
            "B",
            "Pistol squat",
            half.with(lb("25"), Implement::Dumbbell).times(2),
        ),
    ];
    let mut athlete = athlete(
        "Žofie Ďurková-Łęska",
        vec![session("Pull", date(2026, 1, 20), sets)],
    );
    athlete.unit = Unit::Lb;
    athlete.also_unit = Some(Unit::Kg);
    athlete
}

/// Everything at once.
pub fn all() -> Plan {
    let sessions = vec![typical(), groups(), schemes(), crowded()];
    plan(vec![athlete("Wren Tallow", sessions), pounds()])
}
