//! The parts of a prescription, so that each can change on its own.

use crate::plan::{PlannedExercise, PlannedSet, SetKind, StepKind};
use crate::quantity::{Decimal, Unit, fold_name};

use super::facts::Fact;
use super::words::{counted, distinct, joined, load};
use super::{FactNumbers, FactValue, Field};

/// The parts of a prescription.
pub fn facts(exercise: &PlannedExercise, unit: Unit) -> Vec<Fact> {
    let sets: Vec<&PlannedSet> = exercise.working().collect();
    let mut all = vec![Fact::new(Field::Sets, scheme(exercise))];
    all.extend(percent(exercise).map(|value| Fact::new(Field::Percent, value)));
    if !sets.is_empty() {
        all.push(Fact::new(Field::Load, loads(&sets, unit)));
    }
    all.extend(
        [
            (Field::PhaseLoad, phase_load(exercise)),
            (Field::Drops, drops(exercise, unit)),
            (Field::Effort, each(&sets, |set| set.effort.map(|effort| effort.to_string()))),
            (Field::Rest, each(&sets, |set| set.rest.map(|rest| rest.to_string()))),
            (Field::Tempo, each(&sets, |set| set.tempo.map(|tempo| tempo.to_string()))),
            (Field::Range, each(&sets, |set| set.range.clone())),
            (Field::Every, each(&sets, |set| set.every.map(|every| every.to_string()))),
            (Field::RestPause, each(&sets, |set| set.rest_pause.map(|pause| pause.to_string()))),
            (Field::WarmUp, ramp(exercise, unit)),
        ]
        .into_iter()
        .filter(|(_, text)| !text.is_empty())
        .map(|(what, text)| Fact::new(what, FactValue::plain(text))),
    );
    all
}

/// The prescription on one line, without parts that depend on the athlete: `4 x 5 @ 75%, RPE 8`.
pub fn line(exercise: &PlannedExercise) -> String {
    let sets: Vec<&PlannedSet> = exercise.working().collect();
    let mut text = scheme(exercise).text;
    if let Some(percent) = percent(exercise) {
        text.push_str(&format!(" @ {}", percent.text));
    } else if let Some(stated) = stated(&sets) {
        text.push_str(&format!(" @ {stated}"));
    }
    let details = [
        each(&sets, |set| set.effort.map(|effort| effort.to_string())),
        each(&sets, |set| set.tempo.map(|tempo| format!("tempo {tempo}"))),
        each(&sets, |set| set.rest.map(|rest| format!("rest {rest}"))),
    ];
    for detail in details.iter().filter(|detail| !detail.is_empty()) {
        text.push_str(&format!(", {detail}"));
    }
    text
}

/// Whether the prescription on one line contains the load itself.
pub fn states_load(exercise: &PlannedExercise) -> bool {
    let sets: Vec<&PlannedSet> = exercise.working().collect();
    percent(exercise).is_none() && stated(&sets).is_some()
}

/// Sets and repetitions: `4 x 5`, `1 x 3, 1 x 3+`.
fn scheme(exercise: &PlannedExercise) -> FactValue {
    let reps: Vec<_> = exercise.working().map(|set| set.reps.clone()).collect();
    let count = u32::try_from(reps.len()).unwrap_or(u32::MAX);
    FactValue { text: counted(&reps), numbers: Some(FactNumbers::Count(count)) }
}

/// The prescribed percentages, if the load comes from a max.
fn percent(exercise: &PlannedExercise) -> Option<FactValue> {
    let asked: Option<Vec<(String, String)>> =
        exercise.working().map(|set| asked(exercise, set)).collect();
    let asked = distinct(asked?.into_iter());
    let numbers: Option<Vec<Decimal>> =
        asked.iter().map(|(percent, _)| Decimal::parse(percent)).collect();
    let of = |(percent, of): &(String, String)| format!("{percent}%{of}");
    (!asked.is_empty()).then(|| FactValue {
        text: joined(asked.iter().map(of)),
        numbers: numbers.map(FactNumbers::Percent),
    })
}

/// One set's percentage, and what it is a percentage of if that is not the default.
fn asked(exercise: &PlannedExercise, set: &PlannedSet) -> Option<(String, String)> {
    let lift = set.derivation.iter().find_map(|step| match &step.kind {
        StepKind::Tested { lift }
        | StepKind::Estimated { lift, .. }
        | StepKind::Derived { lift, .. } => Some(lift.as_str()),
        _ => None,
    });
    let own = lift.is_none_or(|lift| fold_name(lift) == fold_name(&exercise.name));
    let of = if own { String::new() } else { format!(" of {}", lift.unwrap_or_default()) };
    set.derivation.backwards().find_map(|step| match &step.kind {
        StepKind::OfTopSet { percent } => Some((percent.clone(), " of top set".to_owned())),
        StepKind::Percent { percent } | StepKind::Step { to_percent: Some(percent), .. } => {
            Some((percent.clone(), of.clone()))
        }
        _ => None,
    })
}

/// A load written in the line, before rules and phase: `20 kg`.
fn stated(sets: &[&PlannedSet]) -> Option<String> {
    let stated: Option<Vec<String>> = sets
        .iter()
        .map(|set| {
            let first =
                set.derivation.iter().next().filter(|step| step.kind == StepKind::Stated)?;
            Some(first.result.to_mass().show(Unit::Kg))
        })
        .collect();
    stated.filter(|all| !all.is_empty()).map(|all| joined(all.into_iter()))
}

/// The loads, once for each run of sets with the same load.
fn loads(sets: &[&PlannedSet], unit: Unit) -> FactValue {
    let runs: Vec<&&PlannedSet> = sets
        .chunk_by(|a, b| a.load == b.load && a.about == b.about && a.bodyweight == b.bodyweight)
        .filter_map(|run| run.first())
        .collect();
    let numbers: Option<Vec<_>> =
        runs.iter().map(|set| set.load.as_ref().map(|built| built.mass)).collect();
    let text = runs.iter().map(|set| load(set, unit)).collect::<Vec<_>>().join(", ");
    FactValue { text, numbers: numbers.map(FactNumbers::Kg) }
}

/// The phase's change of the load, such as `-10%`; empty if it does not change.
pub fn phase_load(exercise: &PlannedExercise) -> String {
    let sets: Vec<&PlannedSet> = exercise.working().collect();
    each(&sets, |set| {
        set.derivation.iter().find_map(|step| match &step.kind {
            // The name of the fact already includes what the percentage applies to.
            StepKind::Phase { change, .. } => {
                Some(change.strip_prefix("load ").unwrap_or(change).to_owned())
            }
            _ => None,
        })
    })
}

/// The drop sets: `AMRAP @ -20%`.
fn drops(exercise: &PlannedExercise, unit: Unit) -> String {
    let drops = exercise.sets.iter().filter(|set| set.kind == SetKind::Drop);
    let text = drops.map(|set| {
        let change = set.derivation.backwards().find_map(|step| match &step.kind {
            StepKind::Drop { change } => Some(change.clone()),
            _ => None,
        });
        format!("{} @ {}", set.reps, change.unwrap_or_else(|| load(set, unit)))
    });
    counted(&text.collect::<Vec<_>>())
}

/// The ramp: `8 @ 20 kg, 5 @ 40%`. Percentages of the working load stay the same when the load
/// changes.
fn ramp(exercise: &PlannedExercise, unit: Unit) -> String {
    let sets = exercise.sets.iter().filter(|set| set.kind == SetKind::WarmUp);
    let text = sets.map(|set| {
        let share = set.derivation.backwards().find_map(|step| match &step.kind {
            StepKind::Ramp { percent } => Some(format!("{percent}%")),
            _ => None,
        });
        format!("{} @ {}", set.reps, share.unwrap_or_else(|| load(set, unit)))
    });
    text.collect::<Vec<_>>().join(", ")
}

/// A detail of every set, with repeated values once; empty if no set has it.
fn each(sets: &[&PlannedSet], detail: impl Fn(&PlannedSet) -> Option<String>) -> String {
    let details: Vec<Option<String>> = sets.iter().map(|set| detail(set)).collect();
    if details.iter().all(Option::is_none) {
        return String::new();
    }
    joined(details.into_iter().map(|detail| detail.unwrap_or_else(|| "none".to_owned())))
}
