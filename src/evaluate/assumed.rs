//! What a gym is taken to have, as nobody says that it lacks it.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::LoadNeed;
use crate::diagnostics::{Code, Diagnostic};
use crate::resolve::{Programme, ResolvedAthlete};

/// One note a gym that lists what else it has: the things that the programme needs there and that
/// it names nowhere.
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
        let message =
            format!("`{}` does not name, and is taken to have: {}", gym.name, things.join(", "));
        Some(
            Diagnostic::new(Code::AssumedEquipment, gym.span, message).help(format!(
                "if {one} not there, write `lacks: …`; else add {them} to its `has:`"
            )),
        )
    });
    gyms.collect()
}

/// What an athlete's lines need and their gym does not name, in small letters.
fn things(programme: &Programme, trainee: &ResolvedAthlete, gym: usize) -> Vec<String> {
    let Some(gym) = programme.gyms.get(gym) else { return Vec::new() };
    // Without a list nothing can be left out of it; and a line that did not read may name it.
    if gym.has.is_empty() || gym.incomplete {
        return Vec::new();
    }
    let lines = programme.days.iter().flat_map(|day| &day.lines);
    let lifts = lines.map(|line| trainee.done_for(line.exercise, None));
    let exercises = lifts.filter_map(|lift| programme.exercises.get(lift.0));
    // What cannot be done there anyway has been reported.
    let exercises = exercises.filter(|exercise| gym.means(exercise, LoadNeed::Anything).is_ok());
    let needs = exercises.flat_map(|exercise| gym.taken_to_be_there(exercise));
    needs.map(str::to_lowercase).collect()
}
