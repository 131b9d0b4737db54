//! The recorded derivation of a load as text, step by step.

use crate::plan::{
    Assumed, AthletePlan, Derivation, Location, Plan, PlannedExercise, PlannedSet, Session,
    SetKind, Step, StepKind,
};
use crate::quantity::Exact;

use super::labels::fill;
use super::runs::work_runs;
use super::wording::{PLAIN, Wording};

/// Derivations are read next to the files, so they are in the language of the notation.
const NOTATION: &str = "en";
/// Width of the column of masses, in characters.
const MASS_WIDTH: usize = 14;
/// Width of the column of steps, in characters.
const WHAT_WIDTH: usize = 62;

/// The sets of an exercise in short form: `1 x 5 @ 77.5 kg, 3 x 5 @ 70 kg`.
#[must_use]
pub fn in_short(athlete: &AthletePlan, exercise: &PlannedExercise) -> String {
    let words = Wording::new(NOTATION, athlete, PLAIN);
    let runs = work_runs(exercise).into_iter().map(|run| {
        let what = format!("{} x {}", run.count, words.reps(&run.set.reps));
        let load = match words.load(run.set) {
            Some(load) => format!(" @ {load}"),
            None if run.set.to_choose => format!(" ({})", words.open(run.set)),
            None => String::new(),
        };
        let effort = run.set.effort.map_or_else(String::new, |effort| format!(", {effort}"));
        format!("{what}{load}{effort}")
    });
    runs.collect::<Vec<_>>().join(", ")
}

/// The derivation of each different load of an exercise in one session.
#[must_use]
pub fn reasons(
    plan: &Plan,
    athlete: &AthletePlan,
    session: &Session,
    exercise: &PlannedExercise,
) -> String {
    let words = Wording::new(NOTATION, athlete, PLAIN);
    let mut text = format!(
        "{}: week {}, {}, {} {}\n",
        athlete.name, session.week, session.day, exercise.order, exercise.name
    );
    if let Some(replaced) = &exercise.replaces {
        let why = replaced.reason.as_ref().map_or_else(String::new, |why| format!(" ({why})"));
        text.push_str(&format!("It replaces {}{why}.\n", replaced.name));
    }
    let mut shown: Vec<&Derivation> = Vec::new();
    for run in work_runs(exercise) {
        let set = run.set;
        if shown.contains(&&set.derivation) {
            continue;
        }
        shown.push(&set.derivation);
        let chosen = if set.to_choose { words.open(set) } else { "chosen on the day" };
        let load = words.load(set).unwrap_or_else(|| chosen.to_owned());
        let kind = match set.kind {
            SetKind::BackOff => ", back-off",
            SetKind::Drop => ", drop",
            SetKind::Work | SetKind::WarmUp => "",
        };
        text.push_str(&format!("\n{} x {} @ {load}{kind}\n", run.count, words.reps(&set.reps)));
        if set.derivation.is_empty() {
            text.push_str(&no_load(set, exercise));
            text.push_str(&row("", "", Some(&exercise.line)));
        }
        for step in &set.derivation {
            text.push_str(&line(step, set, &words));
        }
        if exercise.projected {
            text.push_str("  Projected: a rule acted on a session that is not logged yet, as if ");
            text.push_str(match plan.assumed {
                None => "it goes as prescribed.\n",
                Some(Assumed::Best) => "every set reaches its top.\n",
                Some(Assumed::Worst) => "every rule goes against the athlete.\n",
            });
        }
    }
    text
}

/// Why there is no load.
fn no_load(set: &PlannedSet, exercise: &PlannedExercise) -> String {
    match &exercise.replaces {
        Some(replaced) if set.to_choose => {
            format!("  the line's load is one of {}, not of {}\n", replaced.name, exercise.name)
        }
        _ => "  the line leaves the load to the day, or there is no max to start from\n".to_owned(),
    }
}

/// The derivation of a set's load in one line; `None` if the line states the load directly.
#[must_use]
pub fn in_a_line(set: &PlannedSet, words: &Wording) -> Option<String> {
    let worked_out = |step: &Step| !matches!(step.kind, StepKind::Stated | StepKind::Built { .. });
    if !set.derivation.iter().any(worked_out) {
        return None;
    }
    let steps = set.derivation.iter().map(|step| {
        let what = match &step.kind {
            // Its plates are on the card.
            StepKind::Built { rounding } => built(rounding, words).to_owned(),
            kind => what(kind, set, words),
        };
        let mass = mass(&step.result, words).replace(' ', words.signs.unit);
        format!("{mass} ({what})")
    });
    Some(steps.collect::<Vec<_>>().join(" → "))
}

/// A mass to at most three decimals, in the athlete's unit.
fn mass(value: &Exact, words: &Wording) -> String {
    words.labels.numbers.spell(&value.to_mass().show(words.unit))
}

fn row(result: &str, what: &str, at: Option<&Location>) -> String {
    let place = at.map_or_else(String::new, |at| format!("{}:{}", at.file, at.line));
    let text = format!("  {result:>MASS_WIDTH$}  {what:<WHAT_WIDTH$}  {place}");
    format!("{}\n", text.trim_end())
}

fn line(step: &Step, set: &PlannedSet, words: &Wording) -> String {
    row(&mass(&step.result, words), &what(&step.kind, set, words), step.line.as_ref())
}

/// A step in words, with its numbers.
fn what(kind: &StepKind, set: &PlannedSet, words: &Wording) -> String {
    let (labels, why) = (words.labels, words.labels.why);
    let spell = |number: &str| labels.numbers.spell(number);
    match kind {
        StepKind::Stated => why.stated.to_owned(),
        StepKind::Tested { lift } => fill(why.tested, &[lift]),
        StepKind::Estimated { lift, load, reps, equation, factor } => {
            let (reps, load) = (reps.to_string(), mass(load, words));
            fill(why.estimated, &[lift, &reps, &load, equation, &spell(factor)])
        }
        StepKind::Derived { lift, from, percent } => {
            fill(why.derived, &[lift, &spell(percent), from])
        }
        StepKind::TrainingMax { percent } => fill(why.training_max, &[&spell(percent)]),
        StepKind::Percent { percent } => fill(why.percent, &[&spell(percent)]),
        StepKind::OfTopSet { percent } => fill(why.of_top_set, &[&spell(percent)]),
        StepKind::FromEffort { effort, reps, equation, factor } => {
            let reps = labels.count(&labels.reps, *reps);
            fill(why.from_effort, &[&reps, &spell(effort), equation, &spell(factor)])
        }
        StepKind::Last => why.last.to_owned(),
        StepKind::Step { by, times, to_percent } => {
            let (by, times) = (labels.step(by), times.to_string());
            match to_percent {
                Some(to) => fill(why.step_to, &[&by, &times, &spell(to)]),
                None => fill(why.step, &[&by, &times]),
            }
        }
        StepKind::Plus => why.plus.to_owned(),
        StepKind::Rule { rule, session, projected } => {
            let template = if *projected { why.rule_projected } else { why.rule };
            fill(template, &[&labels.session(session), &labels.rule(rule)])
        }
        StepKind::MaxRule { rule, session, projected } => {
            let template = if *projected { why.max_rule_projected } else { why.max_rule };
            fill(template, &[&labels.session(session), &labels.rule(rule)])
        }
        StepKind::Phase { name, change } => fill(why.phase, &[name, &labels.action(change)]),
        StepKind::Drop { change } => fill(why.drop, &[&spell(change)]),
        StepKind::Ramp { percent } => fill(why.ramp, &[&spell(percent)]),
        StepKind::NoLess => why.no_less.to_owned(),
        StepKind::LessBodyMass => why.less_body_mass.to_owned(),
        StepKind::NoAssistance => why.no_assistance.to_owned(),
        StepKind::LittleAssistance => why.little_assistance.to_owned(),
        StepKind::Rounded { to } => fill(why.rounded, &[&spell(to)]),
        StepKind::Built { rounding } => {
            let how = words.plates(set, labels.a_side).map(|plates| format!(": {plates}"));
            let bar = set.load.as_ref().and_then(|built| words.bar(built));
            let bar = bar.map_or_else(String::new, |bar| format!(", {bar}"));
            format!("{}{}{bar}", built(rounding, words), how.unwrap_or_default())
        }
    }
}

fn built(rounding: &str, words: &Wording) -> &'static str {
    let why = words.labels.why;
    if rounding == "down" { why.next_below } else { why.nearest }
}
