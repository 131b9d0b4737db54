//! Finds names on a line that cannot be parsed: the name may still be complete.

use super::mentions::{Mention, Thing};
use super::place::{Spot, order};
use crate::editor::Analysis;
use crate::source::FileId;
use crate::syntax::fold_name;
use crate::syntax::keys::BlockPlace;

/// The exercise, athlete or gym that the text names at a byte, if one with that name exists.
pub fn guess(analysis: &Analysis, file: FileId, offset: usize) -> Option<Mention> {
    let spot = Spot::at(analysis, file, offset)?;
    let key_end = spot.key_end();
    let key = spot.text.get(spot.start..key_end)?;
    let from_key = match spot.place? {
        BlockPlace::Day | BlockPlace::Session => order(key).map(|(_, name)| name),
        BlockPlace::Athlete | BlockPlace::Line => ["max ", "replace ", "setting ", "for "]
            .iter()
            .find(|word| key.starts_with(**word))
            .map(|word| word.len()),
        _ => None,
    };
    let (start, end) = match from_key {
        Some(from) if spot.offset <= key_end => (spot.start + from, key_end),
        _ => {
            let one_name = matches!(key.trim_end(), "gym" | "like" | "athletes" | "swap" | "avoid");
            one_name.then_some(())?;
            spot.item((key_end + 1).min(spot.end))
        }
    };
    let text = spot.text.get(start..end)?;
    let name = text.trim();
    let start = start + (text.len() - text.trim_start().len());
    let span = spot.span(start, start + name.len());
    (start <= spot.offset && !name.is_empty()).then_some(())?;
    let folded = fold_name(name);
    let thing = if key.starts_with("for ") || key.trim_end() == "athletes" {
        let known = |one: &crate::resolve::ResolvedAthlete| fold_name(&one.athlete.name) == folded;
        analysis.athletes.iter().any(known).then_some(Thing::Athlete(folded))?
    } else if key.trim_end() == "gym" {
        let known = |gym: &crate::catalogue::Gym| fold_name(&gym.name) == folded;
        analysis.gyms.iter().any(known).then_some(Thing::Gym(folded))?
    } else {
        let exercise = analysis.exercises.get(analysis.names.find(name)?)?;
        Thing::Exercise(fold_name(&exercise.name))
    };
    Some(Mention { thing, name: name.to_owned(), span, defines: false })
}
