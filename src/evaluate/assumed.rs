//! Notes on equipment that a gym is assumed to have because its file does not say otherwise.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::LoadNeed;
use crate::diagnostics::{Code, Diagnostic};
use crate::resolve::{Programme, ResolvedAthlete};

/// One diagnostic for each gym with a `has` list: the things that the programme needs there and that
/// the gym does not name.
pub fn findings(programme: &Programme, wanted: &dyn Fn(&str) -> bool) -> Vec<Diagnostic> {
    let mut assumed: BTreeMap<usize, BTreeSet<String>> = BTreeMap::new();
    for trainee in programme.trainees.iter().filter(|trainee| wanted(&trainee.athlete.name)) {
        let Some(index) = trainee.gym else { continue };
        let things = things(programme, trainee, index);
        if !things.is_empty() {
            assumed.entry(index).or_default().extend(things);
        }
    }
    let gyms = assumed.into_iter().filter_map(|(index, things)| {
        let gym = programme.gyms.get(index)?;
        let things: Vec<String> = things.into_iter().collect();
        let (one, them) =
            if things.len() == 1 { ("it is", "it") } else { ("one of them is", "them") };
        let message = format!(
            "`{}` does not list these, but is assumed to have them: {}",
            gym.name,
            things.join(", ")
        );
        Some(Diagnostic::new(Code::AssumedEquipment, gym.span, message).help(format!(
            "if {one} missing, write `lacks: …`; otherwise add {them} to its `has:`"
        )))
    });
    gyms.collect()
}

/// What an athlete's exercises need and their gym does not name, in lower case.
fn things(programme: &Programme, trainee: &ResolvedAthlete, gym: usize) -> Vec<String> {
    let Some(gym) = programme.gyms.get(gym) else { return Vec::new() };
    // Without a list nothing is missing from it, and a line that cannot be read may name it.
    if gym.has.is_empty() || gym.incomplete {
        return Vec::new();
    }
    let lines = programme.days.iter().flat_map(|day| &day.lines);
    let lifts = lines.map(|line| trainee.done_for(line.exercise, None));
    let exercises = lifts.filter_map(|lift| programme.exercises.get(lift.0));
    // Exercises that cannot be done there have been reported already.
    let exercises = exercises.filter(|exercise| gym.means(exercise, LoadNeed::Anything).is_ok());
    let needs = exercises.flat_map(|exercise| gym.taken_to_be_there(exercise));
    needs.map(str::to_lowercase).collect()
}
