//! The description of an exercise's group, shared by the sheets.

use crate::plan::{Group, PlannedExercise, Session};
use crate::quantity::Duration;

use super::card::{how, rest_told};
use super::wording::Wording;

/// The group of a letter.
#[must_use]
pub fn group(session: &Session, letter: char) -> Option<&Group> {
    session.groups.iter().find(|group| group.letter == letter)
}

/// How a group is done, in words, and the rest that this includes; `None` for a single exercise.
#[must_use]
pub fn how_done(
    session: &Session,
    letter: char,
    words: &Wording,
) -> (Option<String>, Option<Duration>) {
    let members: Vec<&PlannedExercise> =
        session.exercises.iter().filter(|member| member.order.letter == letter).collect();
    let Some(group) = group(session, letter) else { return (None, None) };
    let text = how(group, &members, words);
    let told = text.is_some().then(|| rest_told(group, &members)).flatten();
    (text, told)
}
