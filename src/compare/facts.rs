//! The facts of a plan, and the differences between two lists of facts.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::plan::{
    AthletePlan, CitationOf, Plan, PlannedExercise, Session, SessionStatus, StepKind, Switch,
};
use crate::quantity::{Exact, Unit};

use super::{Change, FactNumbers, FactValue, Field, Sides, prescription, words};

/// One fact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    pub what: Field,
    pub of: Option<String>,
    pub value: FactValue,
}

impl Fact {
    pub fn new(what: Field, value: FactValue) -> Self {
        Self { what, of: None, value }
    }

    fn text(what: Field, text: impl Into<String>) -> Self {
        Self::new(what, FactValue::plain(text))
    }

    fn of(what: Field, of: &str, text: impl Into<String>) -> Self {
        Self { what, of: Some(of.to_owned()), value: FactValue::plain(text) }
    }
}

/// The differences between two lists of facts. Among several facts of the same kind, those on both
/// sides are removed first; the rest are paired in order.
pub fn differences(old: &[Fact], new: &[Fact]) -> Vec<Change> {
    type FactKind = (Field, Option<String>);
    let mut kinds: BTreeMap<FactKind, (Vec<&FactValue>, Vec<&FactValue>)> = BTreeMap::new();
    for fact in old {
        kinds.entry((fact.what, fact.of.clone())).or_default().0.push(&fact.value);
    }
    for fact in new {
        kinds.entry((fact.what, fact.of.clone())).or_default().1.push(&fact.value);
    }
    let mut changes = Vec::new();
    for ((what, of), (old, new)) in kinds {
        let before = lone(&old, &new);
        let after = lone(&new, &old);
        for at in 0..before.len().max(after.len()) {
            let value = |side: &[&FactValue]| side.get(at).map(|value| (*value).clone());
            let sides = Sides { before: value(&before), after: value(&after) };
            changes.push(Change { what, of: of.clone(), sides });
        }
    }
    changes
}

/// The values that one list has more often than the other.
fn lone<'v>(all: &[&'v FactValue], others: &[&FactValue]) -> Vec<&'v FactValue> {
    let mut others: Vec<&FactValue> = others.to_vec();
    let mut lone = Vec::new();
    for value in all {
        match others.iter().position(|other| other == value) {
            Some(at) => {
                others.swap_remove(at);
            }
            None => lone.push(*value),
        }
    }
    lone
}

/// The facts of a programme.
pub fn of_plan(plan: &Plan) -> Vec<Fact> {
    let weeks = FactValue {
        text: words::count(plan.weeks as usize, "week"),
        numbers: Some(FactNumbers::Count(plan.weeks)),
    };
    let mut facts = vec![
        Fact::text(Field::Programme, &plan.programme),
        Fact::new(Field::Weeks, weeks),
        Fact::text(Field::Estimate, &plan.estimate),
        Fact::text(Field::Language, &plan.language),
    ];
    for (what, text) in [
        (Field::Goal, &plan.goal),
        (Field::Supervision, &plan.supervision),
        (Field::Source, &plan.source),
    ] {
        facts.extend(text.iter().map(|text| Fact::text(what, text)));
    }
    facts.extend(plan.notes.iter().map(|note| Fact::text(Field::Note, note)));
    facts.extend(plan.advice.iter().map(|switch| {
        let reason = switch.reason.as_ref().map_or_else(String::new, |why| format!(" ({why})"));
        Fact::text(Field::Advice, format!("{}{reason}", advice(&switch.what)))
    }));
    facts
}

/// A decision about advice, in the notation's words.
fn advice(switch: &Switch) -> String {
    let on = |on: &[String]| {
        if on.is_empty() { String::new() } else { format!(" on {}", on.join(", ")) }
    };
    match switch {
        Switch::None => "none".to_owned(),
        Switch::Allow { code, on: places } => format!("allow {code}{}", on(places)),
        Switch::Bound { code, value, unit, on: places } => {
            format!("{code} at {value} {unit}{}", on(places))
        }
        Switch::Level { code, severity } => format!("{code} as {}", severity.word()),
    }
}

/// The facts of an athlete that apply to all sessions.
pub fn of_athlete(athlete: &AthletePlan) -> Vec<Fact> {
    let mut facts = maxes(athlete);
    facts.extend(athlete.gym.iter().map(|gym| Fact::text(Field::Gym, gym)));
    facts.extend(athlete.gym_bars.iter().map(|bar| {
        let name = bar.name.as_ref().map_or_else(String::new, |name| format!("{name} "));
        Fact::text(Field::GymBar, format!("{name}{}", bar.mass.show(athlete.unit)))
    }));
    facts.extend(athlete.gym_has.iter().map(|has| Fact::text(Field::GymHas, has)));
    facts.extend(athlete.plate_sizes.iter().map(|size| {
        let mm = format!("{} x {} mm", size.diameter_mm, size.thickness_mm);
        Fact::of(Field::PlateSize, &size.mass.show(athlete.unit), mm)
    }));
    facts.extend(
        athlete.body_mass.map(|mass| Fact::text(Field::BodyMass, mass.show(shown(athlete)))),
    );
    facts.push(Fact::of(Field::Unit, "gym", athlete.unit.symbol()));
    facts.extend(athlete.also_unit.map(|unit| Fact::of(Field::Unit, "athlete", unit.symbol())));
    for (what, text) in [(Field::Rack, &athlete.rack), (Field::Level, &athlete.level)] {
        facts.extend(text.iter().map(|text| Fact::text(what, text)));
    }
    facts.extend(athlete.avoid.iter().map(|avoid| {
        let until = avoid.until.map_or_else(String::new, |date| format!(" (until {date})"));
        Fact::text(Field::Avoid, format!("{}{until}", avoid.name))
    }));
    facts.push(Fact::text(Field::Language, &athlete.language));
    facts.extend(limits(athlete));
    let logged = athlete.sessions.iter().filter(|session| {
        matches!(session.status, SessionStatus::Done { .. } | SessionStatus::Skipped { .. })
    });
    let logged = logged.count();
    if logged > 0 {
        facts.push(Fact::text(Field::Logged, words::count(logged, "session")));
    }
    let extras = athlete.extras.iter();
    facts.extend(extras.map(|e| Fact::text(Field::Extra, format!("{}: {}", e.date, e.what))));
    facts
}

/// The limits, each once. How many sessions print a limit follows from its dates.
fn limits(athlete: &AthletePlan) -> Vec<Fact> {
    let mut all: Vec<Fact> = Vec::new();
    for limit in athlete.sessions.iter().flat_map(|session| &session.limits) {
        let until = limit.until.map_or_else(String::new, |date| format!(" (until {date})"));
        let fact = Fact::of(Field::Limit, &limit.name, format!("{}{until}", limit.text));
        if !all.contains(&fact) {
            all.push(fact);
        }
    }
    all
}

/// The unit in which the athlete's own masses are easiest to read.
fn shown(athlete: &AthletePlan) -> Unit {
    athlete.also_unit.unwrap_or(athlete.unit)
}

/// The maxes that the sessions are based on, each as it is first used, and the training max.
fn maxes(athlete: &AthletePlan) -> Vec<Fact> {
    let unit = shown(athlete);
    let exercises = athlete.sessions.iter().flat_map(|session| &session.exercises);
    let sets = exercises.flat_map(|exercise| &exercise.sets);
    let mut maxes: BTreeMap<&str, (String, &Exact)> = BTreeMap::new();
    let mut training: BTreeMap<&str, &str> = BTreeMap::new();
    for set in sets {
        let mut lift = None;
        for step in &set.derivation {
            let (of, from) = match &step.kind {
                StepKind::Tested { lift } => (lift, String::new()),
                StepKind::Estimated { lift, load, reps, .. } => {
                    (lift, format!(" ({reps} @ {})", load.to_mass().show(unit)))
                }
                StepKind::Derived { lift, from, percent } => {
                    (lift, format!(" ({percent}% of {from})"))
                }
                StepKind::TrainingMax { percent } => {
                    if let Some(lift) = lift {
                        training.entry(lift).or_insert(percent);
                    }
                    continue;
                }
                _ => continue,
            };
            lift = Some(of.as_str());
            maxes.entry(of).or_insert((from, &step.result));
        }
    }
    let max = |(lift, (from, value)): (&str, (String, &Exact))| Fact {
        what: Field::Max,
        of: Some(lift.to_owned()),
        value: FactValue {
            // One decimal, because a gram more or less comes from the estimate, not from the
            // athlete.
            text: format!(
                "{} {unit}{from}",
                (value / &Exact::whole(unit.in_units())).to_decimal(1)
            ),
            numbers: Some(FactNumbers::Kg(vec![value.to_mass()])),
        },
    };
    let mut facts: Vec<Fact> = maxes.into_iter().map(max).collect();
    // A share that is the same for all lifts is written once.
    let shares: std::collections::BTreeSet<&str> = training.values().copied().collect();
    match (shares.len(), shares.first()) {
        (1, Some(share)) => facts.push(Fact::text(Field::TrainingMax, format!("{share}%"))),
        _ => facts.extend(
            training
                .iter()
                .map(|(lift, share)| Fact::of(Field::TrainingMax, lift, format!("{share}%"))),
        ),
    }
    facts
}

/// The facts of a whole session.
pub fn of_session(session: &Session) -> Vec<Fact> {
    let date =
        |date: Date| FactValue { text: date.to_string(), numbers: Some(FactNumbers::Date(date)) };
    let mut facts: Vec<Fact> = session
        .date
        .or(session.week_starts)
        .map(|day| Fact::new(Field::Date, date(day)))
        .into_iter()
        .collect();
    for (what, text) in [
        (Field::Phase, session.phase.clone()),
        (Field::Before, session.before.clone()),
        (Field::After, session.after.clone()),
        (Field::Time, session.time.map(|time| time.to_string())),
    ] {
        facts.extend(text.map(|text| Fact::text(what, text)));
    }
    facts.extend(session.notes.iter().map(|note| Fact::text(Field::Note, note)));
    facts
}

/// The facts of a line that do not depend on the exercise: what it prescribes.
pub fn of_line(exercise: &PlannedExercise, unit: Unit, with_rules: bool) -> Vec<Fact> {
    let mut facts = prescription::facts(exercise, unit);
    facts.extend(exercise.rules.iter().filter(|_| with_rules).map(|rule| {
        let (condition, action) = rule.split_once(": ").unwrap_or(("", rule));
        Fact::of(Field::Rule, condition, action)
    }));
    facts.extend(exercise.notes.iter().map(|note| Fact::text(Field::Note, note)));
    facts
}

/// The facts that belong to the exercise and change with it.
pub fn of_exercise(exercise: &PlannedExercise) -> Vec<Fact> {
    let mut facts = Vec::new();
    facts.extend(exercise.replaces.iter().map(|replaced| {
        let why = replaced.reason.as_ref().map_or_else(String::new, |why| format!(" ({why})"));
        Fact::text(Field::Instead, format!("{}{why}", replaced.name))
    }));
    for (what, text) in [
        (Field::Setup, &exercise.setup),
        (Field::Safety, &exercise.safety),
        (Field::Demo, &exercise.demo),
    ] {
        facts.extend(text.iter().map(|text| Fact::text(what, text)));
    }
    facts.extend(exercise.settings.iter().map(|text| Fact::text(Field::Setting, text)));
    facts.extend(exercise.cues.iter().map(|text| Fact::text(Field::Cue, text)));
    facts.extend(exercise.sources.iter().map(|evidence| match &evidence.of {
        CitationOf::Exercise => Fact::of(Field::Source, "exercise", &evidence.text),
        CitationOf::Line => Fact::of(Field::Source, "line", &evidence.text),
        CitationOf::Cue { cue } => Fact::of(Field::Source, &format!("cue: {cue}"), &evidence.text),
    }));
    facts
}
