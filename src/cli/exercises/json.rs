//! Exercises for other programs.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::catalogue::{BarChoice, Catalogue, Exercise};
use crate::evaluate::muscles;
use crate::export;
use crate::plan::MuscleShare;
use crate::quantity::Unit;
use crate::resolve::Resolved;
use crate::syntax::ast::CountedIn;

use super::super::Failure;
use super::able::Able;

/// What is written, in this order of fields.
#[derive(Serialize)]
struct ExercisesJson<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    gym: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    athlete: Option<&'a str>,
    exercises: Vec<ExerciseJson<'a>>,
}

/// One exercise.
#[derive(Serialize)]
struct ExerciseJson<'a> {
    name: &'a str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    also_called: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pattern: Option<&'a str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    also_patterns: Vec<&'a str>,
    /// `compound` or `isolation`.
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<&'static str>,
    each_side: bool,
    /// `reps`, `seconds` or `metres`, where it says so.
    #[serde(skip_serializing_if = "Option::is_none")]
    counted_in: Option<&'static str>,
    muscles: Vec<MuscleShare>,
    /// Ways to load it, the best first.
    equipment: Vec<EquipmentJson<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    needs: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bar: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    setup: Option<&'a str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cues: Vec<&'a str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cue_sources: Vec<CueSource<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    range: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    safety: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    demo: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<&'a str>,
    /// The set-up by language, as far as the files say.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    setups: BTreeMap<&'a str, &'a str>,
    /// The caution by language, as far as the files say.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    safeties: BTreeMap<&'a str, &'a str>,
    /// By language.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    names: BTreeMap<&'a str, &'a str>,
    /// The closest first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    swaps: Vec<Swap<'a>>,
    #[serde(flatten)]
    able: Option<Answer>,
}

/// Where a cue comes from.
#[derive(Serialize)]
struct CueSource<'a> {
    cue: &'a str,
    source: &'a str,
}

#[derive(Serialize)]
struct EquipmentJson<'a> {
    kind: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<&'a str>,
}

#[derive(Serialize)]
struct Swap<'a> {
    name: &'a str,
    #[serde(flatten)]
    able: Option<Answer>,
}

/// Whether the gym or the athlete that was asked about can do it.
#[derive(Serialize)]
struct Answer {
    possible: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    why_not: Option<String>,
}

/// The exercises as JSON, in the order in which they were found.
pub fn text(
    found: &[usize],
    resolved: &Resolved,
    able: Option<&Able<'_>>,
) -> Result<String, Failure> {
    let catalogue = Catalogue::new(&resolved.exercises, &resolved.names);
    let answer = |index: usize, exercise: &Exercise| {
        let why_not = able?.refuses(index, exercise);
        Some(Answer { possible: why_not.is_none(), why_not })
    };
    let found = found.iter().filter_map(|index| Some((*index, catalogue.get(*index)?)));
    let exercises = found.map(|(index, exercise)| ExerciseJson {
        able: answer(index, exercise),
        swaps: catalogue
            .swaps(exercise)
            .map(|(index, swap)| Swap { name: &swap.name, able: answer(index, swap) })
            .collect(),
        ..entry(exercise)
    });
    let listing = ExercisesJson {
        gym: able.map(|able| able.gym.name.as_str()),
        athlete: able.and_then(|able| Some(able.athlete?.athlete.name.as_str())),
        exercises: exercises.collect(),
    };
    export::lines(&listing).map_err(|error| Failure::File(error.to_string()))
}

/// Texts by language; of several for one language the first, which is the exercise's own.
fn by_language(texts: &[(String, String)]) -> BTreeMap<&str, &str> {
    texts.iter().rev().map(|(tag, text)| (tag.as_str(), text.as_str())).collect()
}

fn entry(exercise: &Exercise) -> ExerciseJson<'_> {
    ExerciseJson {
        name: &exercise.name,
        also_called: exercise.also.iter().map(|name| name.value.as_str()).collect(),
        pattern: exercise.pattern.as_deref(),
        also_patterns: exercise.also_patterns.iter().map(String::as_str).collect(),
        kind: exercise.compound.map(|compound| if compound { "compound" } else { "isolation" }),
        each_side: exercise.each_side,
        counted_in: exercise.counted_in.map(CountedIn::word),
        muscles: muscles(exercise),
        equipment: exercise
            .equipment
            .iter()
            .map(|item| EquipmentJson { kind: item.kind.word(), name: item.name.as_deref() })
            .collect(),
        needs: exercise.needs.iter().map(String::as_str).collect(),
        bar: exercise.bar.as_ref().map(|bar| match bar {
            BarChoice::Mass(mass) => mass.show(Unit::Kg),
            BarChoice::Named(name) => name.clone(),
        }),
        setup: exercise.setup.as_deref(),
        cues: exercise.cues.iter().map(|cue| cue.text.as_str()).collect(),
        cue_sources: exercise
            .cues
            .iter()
            .filter_map(|cue| Some(CueSource { cue: &cue.text, source: cue.source.as_deref()? }))
            .collect(),
        range: exercise.range.as_deref(),
        safety: exercise.safety.as_deref(),
        demo: exercise.demo.as_deref(),
        source: exercise.source.as_deref(),
        setups: by_language(&exercise.setups),
        safeties: by_language(&exercise.safeties),
        names: exercise.names.iter().map(|(t, name)| (t.as_str(), name.as_str())).collect(),
        swaps: Vec::new(),
        able: None,
    }
}
