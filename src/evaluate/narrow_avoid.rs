//! Notes on `avoid` lines that cover one exercise but not similar ones.

use crate::catalogue::Exercise;
use crate::diagnostics::{Code, Diagnostic};
use crate::resolve::{ExerciseId, Programme, ResolvedAthlete};
use crate::syntax::ast::Name;
use crate::syntax::fold_name;

/// A note for each exercise that an athlete is to avoid, while others like it stand in the
/// programme, or bear its name with a word more. None, where a pattern or a muscle is to be avoided
/// too: then somebody has thought of the movement.
pub fn findings(programme: &Programme, wanted: &dyn Fn(&str) -> bool) -> Vec<Diagnostic> {
    let trainees = programme.trainees.iter();
    let trainees = trainees.filter(|trainee| wanted(&trainee.athlete.name));
    trainees.flat_map(|trainee| of_one(programme, trainee)).collect()
}

fn of_one(programme: &Programme, trainee: &ResolvedAthlete) -> Vec<Diagnostic> {
    let names = trainee.athlete.avoid.iter().map(|(name, _)| name);
    let named = names.map(|name| Some((name, ExerciseId(programme.names.find(&name.value)?))));
    let Some(named) = named.collect::<Option<Vec<_>>>() else { return Vec::new() };
    let found = named.into_iter();
    found.filter_map(|(name, avoided)| note(programme, trainee, name, avoided)).collect()
}

fn note(
    programme: &Programme,
    trainee: &ResolvedAthlete,
    name: &Name,
    avoided: ExerciseId,
) -> Option<Diagnostic> {
    let exercise = programme.exercises.get(avoided.0)?;
    let pattern = exercise.pattern.as_deref()?;
    let in_programme = |id: ExerciseId| {
        let mut lines = programme.days.iter().flat_map(|day| &day.lines);
        lines.any(|line| trainee.done_for(line.exercise, None) == id)
    };
    let relatives = programme.exercises.iter().enumerate().filter(|(index, other)| {
        let left = !trainee.avoid.contains_key(&ExerciseId(*index));
        left && is_near(exercise, other)
    });
    let (here, elsewhere): (Vec<_>, Vec<_>) =
        relatives.partition(|(index, _)| in_programme(ExerciseId(*index)));
    let named = elsewhere.into_iter().filter(|(_, other)| bears_name(exercise, other));
    let nearest = here.into_iter().chain(named).map(|(_, other)| other.name.as_str()).next()?;
    let message = format!("this only avoids {}: {nearest} is still allowed", exercise.name);
    Some(
        Diagnostic::new(Code::AvoidedAlone, name.span, message)
            .help(format!("to avoid the whole movement, write its pattern: `{pattern}`")),
    )
}

/// Whether two exercises have the same chief pattern and main muscle.
fn is_near(exercise: &Exercise, other: &Exercise) -> bool {
    exercise.name != other.name
        && exercise.pattern == other.pattern
        && exercise.main_muscle().is_some_and(|muscle| other.main_muscle() == Some(muscle))
}

/// Whether one of the other's names is that of the exercise with a word more: `Seated overhead
/// press`.
fn bears_name(exercise: &Exercise, other: &Exercise) -> bool {
    let own = fold_name(&exercise.name);
    let also = other.also.iter().map(|name| &name.value);
    let mut names = std::iter::once(&other.name).chain(also).map(|name| fold_name(name));
    names.any(|name| name.strip_suffix(own.as_str()).is_some_and(|more| more.ends_with(' ')))
}
