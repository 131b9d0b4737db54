//! Why a number is what it is: the recorded derivation of a load, step by step, as text.

use crate::plan::{
    Assumed, AthletePlan, Plan, PlannedExercise, PlannedSet, Session, SetKind, Step, StepKind,
    Where,
};
use crate::quantity::{Exact, Unit};

use super::runs::work_runs;
use super::wording::{PLAIN, Wording};

/// Derivations stand beside files, and are told in the language of the notation.
const NOTATION: &str = "en";
/// Width of the column of masses.
const MASS_WIDTH: usize = 14;
/// Width of the column that says what was done.
const WHAT_WIDTH: usize = 62;

/// The sets of an exercise in short: `1 x 5 @ 77.5 kg, 3 x 5 @ 70 kg`.
#[must_use]
pub fn in_short(athlete: &AthletePlan, exercise: &PlannedExercise) -> String {
    let words = Wording::new(NOTATION, athlete, PLAIN);
    let runs = work_runs(exercise).into_iter().map(|run| {
        let what = format!("{} x {}", run.count, words.reps(&run.set.reps));
        let load = words.load(run.set).map_or_else(String::new, |load| format!(" @ {load}"));
        let effort = run.set.effort.map_or_else(String::new, |effort| format!(", {effort}"));
        format!("{what}{load}{effort}")
    });
    runs.collect::<Vec<_>>().join(", ")
}

/// The derivation of every different load of an exercise in one session.
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
    let mut shown: Vec<&[Step]> = Vec::new();
    for run in work_runs(exercise) {
        let set = run.set;
        if shown.contains(&set.derivation.as_slice()) {
            continue;
        }
        shown.push(&set.derivation);
        let load = words.load(set).unwrap_or_else(|| "chosen on the day".to_owned());
        let kind = match set.kind {
            SetKind::BackOff => ", back-off",
            SetKind::Drop => ", drop",
            SetKind::Work | SetKind::WarmUp => "",
        };
        text.push_str(&format!("\n{} x {} @ {load}{kind}\n", run.count, words.reps(&set.reps)));
        if set.derivation.is_empty() {
            text.push_str(
                "  the line leaves the load to the day, or there is no max to start from\n",
            );
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

/// A mass to at most three decimals, in the athlete's unit.
fn mass(value: &Exact, unit: Unit) -> String {
    value.to_mass().show(unit)
}

fn row(result: &str, what: &str, at: Option<&Where>) -> String {
    let place = at.map_or_else(String::new, |at| format!("{}:{}", at.file, at.line));
    let text = format!("  {result:>MASS_WIDTH$}  {what:<WHAT_WIDTH$}  {place}");
    format!("{}\n", text.trim_end())
}

fn line(step: &Step, set: &PlannedSet, words: &Wording) -> String {
    let unit = words.unit;
    row(&mass(&step.result, unit), &what(&step.kind, set, words), step.line.as_ref())
}

/// What a step did, in words with the numbers in.
fn what(kind: &StepKind, set: &PlannedSet, words: &Wording) -> String {
    let unit = words.unit;
    match kind {
        StepKind::Stated => "as written".to_owned(),
        StepKind::Tested { lift } => format!("tested maximum of {lift}"),
        StepKind::Estimated { lift, load, reps, equation, factor } => {
            format!("{lift}, {reps} at {}: {equation} estimates x {factor}", mass(load, unit))
        }
        StepKind::Derived { lift, from, percent } => format!("max of {lift}: {percent}% of {from}"),
        StepKind::TrainingMax { percent } => format!("training max: {percent}%"),
        StepKind::Percent { percent } => format!("{percent}% of it"),
        StepKind::OfTopSet { percent } => format!("{percent}% of the top set"),
        StepKind::FromEffort { effort, reps, equation, factor } => {
            format!("{reps} reps at {effort}: {equation} gives x {factor} of the maximum")
        }
        StepKind::Last => "the latest session's load".to_owned(),
        StepKind::Step { by, times, to_percent } => {
            let to = to_percent.as_ref().map_or_else(String::new, |to| format!(": {to}%"));
            format!("{by}, {times} times{to}")
        }
        StepKind::Plus => "changed as the line says".to_owned(),
        StepKind::Rule { rule, session, projected } => {
            format!("after {session}{}: {rule}", if *projected { ", projected" } else { "" })
        }
        StepKind::MaxRule { rule, session, projected } => {
            let mark = if *projected { ", projected" } else { "" };
            format!("training max after {session}{mark}: {rule}")
        }
        StepKind::Phase { name, change } => format!("phase {name}: {change}"),
        StepKind::Drop { change } => format!("drop: {change}"),
        StepKind::Ramp { percent } => format!("{percent}% of the working load"),
        StepKind::NoLess => "a load is not below nothing".to_owned(),
        StepKind::LessBodyMass => "less the body mass".to_owned(),
        StepKind::Built { rounding } => {
            let how = words.plates(set, words.labels.a_side).map(|plates| format!(": {plates}"));
            let bar = set.load.as_ref().and_then(|built| words.bar(built));
            let bar = bar.map_or_else(String::new, |bar| format!(", {bar}"));
            let word = if rounding == "down" { "the next below" } else { "the nearest" };
            format!("{word} the gym can build{}{bar}", how.unwrap_or_default())
        }
    }
}
