//! Plans for tests, built by hand. All people in them are invented.
#![allow(
    missing_docs,
    clippy::must_use_candidate,
    clippy::return_self_not_must_use,
    clippy::missing_panics_doc,
    reason = "test support"
)]

use jiff::civil::{Date, date};

use super::{CardOptions, Paper};
use crate::plan::{
    AthletePlan, Built, Derivation, Group, GroupKind, Implement, Location, Order, Plan,
    PlannedExercise, PlannedSet, Replaced, Session, SetKind,
};
use crate::quantity::{
    Decimal, Duration, Effort, Exact, HalfPoints, Mass, RepCount, Reps, Tempo, TempoPart, Unit,
    Work,
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
    if negative { Mass::ZERO - size.unwrap() } else { size.unwrap() }
}

pub fn s(seconds: u32) -> Duration {
    Duration::seconds(seconds)
}

/// Parses `6`, `8-12`, `5+`, `AMRAP`, `3+3+3`, `30 s` or `40 m`, each optionally with `each side`.
pub fn reps(text: &str) -> Reps {
    let (text, each_side) = match text.strip_suffix(" each side") {
        Some(text) => (text, true),
        None => (text, false),
    };
    let count = |text: &str| -> RepCount {
        if let Some(min) = text.strip_suffix('+') {
            RepCount { min: min.parse().unwrap(), max: None }
        } else if let Some((min, max)) = text.split_once('-') {
            RepCount { min: min.parse().unwrap(), max: Some(max.parse().unwrap()) }
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
        Work::Cluster { parts, pause: Some(s(20)) }
    } else {
        Work::Reps(count(text))
    };
    Reps { work, each_side, between: None }
}

/// Default options for cards on a paper.
pub fn on(paper: Paper) -> CardOptions {
    CardOptions { paper, ..CardOptions::default() }
}

/// A set without a load.
pub fn set(text: &str) -> PlannedSet {
    PlannedSet {
        kind: SetKind::Work,
        reps: reps(text),
        target: None,
        share_of_1rm: None,
        load: None,
        bodyweight: false,
        about: false,
        to_choose: false,
        off_target: false,
        exact_with: None,
        effort: None,
        rest: None,
        tempo: None,
        range: None,
        every: None,
        rest_pause: None,
        group: 0,
        derivation: Derivation::default(),
    }
}

impl PlannedSet {
    pub fn with(mut self, mass: Mass, how: Implement) -> Self {
        self.target = Some(Exact::from_mass(mass));
        self.load = Some(Built { mass, how });
        self
    }

    /// Puts the load on a 20 kg bar with these plates on each side.
    pub fn barbell(self, plates: &[&str]) -> Self {
        self.bar(kg("20"), plates.iter().map(|plate| kg(plate)).collect())
    }

    pub fn bar(self, bar: Mass, per_side: Vec<Mass>) -> Self {
        let total = bar + per_side.iter().copied().sum::<Mass>() * 2;
        let how = Implement::Bar { bar, name: None, collars: Mass::ZERO, per_side };
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

fn here() -> Location {
    Location { file: "sample.sets".into(), line: 1 }
}

/// An exercise with its sets.
pub fn exercise(order: &str, name: &str, sets: Vec<PlannedSet>) -> PlannedExercise {
    let mut letters = order.chars();
    let letter = letters.next().unwrap();
    PlannedExercise {
        projected: false,
        outcome: None,
        fired: None,
        over_max: None,
        order: Order { letter, number: letters.as_str().parse().ok() },
        name: name.to_owned(),
        each_side: sets.iter().any(|set| set.reps.each_side),
        pattern: None,
        also_patterns: Vec::new(),
        compound: None,
        equipment: None,
        needs: Vec::new(),
        muscles: Vec::new(),
        replaces: None,
        setup: None,
        settings: Vec::new(),
        cues: Vec::new(),
        notes: Vec::new(),
        safety: None,
        programme_safety: None,
        demo: None,
        sources: Vec::new(),
        rules: Vec::new(),
        sets,
        line: here(),
    }
}

impl PlannedExercise {
    /// Adds warm-up sets: repetitions, then plates on each side.
    pub fn ramp(mut self, steps: &[(&str, &[&str])]) -> Self {
        let ramp = steps.iter().map(|(r, plates)| set(r).barbell(plates).kind(SetKind::WarmUp));
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
            load_kept: false,
        });
        self
    }
}

/// A session of week 3. Letters without a number are single exercises.
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
        status: crate::plan::SessionStatus::Projected,
        repeats_week: None,
        log_notes: Vec::new(),
        week: 3,
        day: day.to_owned(),
        date: Some(on),
        weekday: None,
        week_starts: Some(date(2026, 1, 19)),
        phase: Some("Base".to_owned()),
        deload: false,
        body_mass: None,
        before: None,
        after: None,
        notes: Vec::new(),
        limits: Vec::new(),
        time: None,
        groups,
        exercises,
        line: here(),
    }
}

impl Session {
    pub fn how(mut self, letter: char, how: GroupKind, rest: Option<u32>) -> Self {
        let group = self.groups.iter_mut().find(|group| group.letter == letter).unwrap();
        group.how = how;
        group.rest = rest.map(s);
        self
    }
}

pub fn athlete(name: &str, sessions: Vec<Session>) -> AthletePlan {
    AthletePlan {
        extras: Vec::new(),
        name: name.to_owned(),
        language: "en".to_owned(),
        gym: Some("Boathouse".to_owned()),
        unit: Unit::Kg,
        also_unit: None,
        plate_sizes: Vec::new(),
        body_mass: Some(kg("68")),
        rack: Some("1".to_owned()),
        level: None,
        avoid: Vec::new(),
        gym_bars: Vec::new(),
        gym_has: Vec::new(),
        sessions,
    }
}

pub fn plan(athletes: Vec<AthletePlan>) -> Plan {
    Plan {
        programme: "Winter water-strength".to_owned(),
        language: "en".to_owned(),
        weeks: 8,
        estimate: "Epley".to_owned(),
        assumed: None,
        goal: None,
        supervision: None,
        source: None,
        notes: Vec::new(),
        exercise_names: crate::plan::ExerciseNames::new(),
        line: here(),
        advice: Vec::new(),
        athletes,
    }
}
