//! Completion: what can be written at a position.

mod asked;
mod heads;
mod keys;
mod loads;
mod logged;
mod names;
mod prescription;
mod rank;
mod values;

use self::asked::CompletionRequest;
use super::place::Spot;
use crate::catalogue::LIBRARY_FILE;
use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::keys::BlockPlace;

/// The kind of a completion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CompletionKind {
    /// An exercise, by its name or a synonym.
    Exercise,
    /// An athlete.
    Athlete,
    /// A gym.
    Gym,
    /// A scheme.
    Scheme,
    /// A programme.
    Programme,
    /// A day of a programme.
    Day,
    /// A word that starts a block.
    Head,
    /// A key of a block.
    Key,
    /// A condition of a rule.
    Condition,
    /// An action of a rule.
    Action,
    /// A unit.
    Unit,
    /// A load that the gym can make.
    Load,
    /// A word of the notation.
    Word,
    /// A muscle or a movement pattern.
    Term,
    /// A piece of equipment.
    Equipment,
    /// An option of a prescription, such as `rest`.
    Option,
    /// A kind of advice.
    Advice,
    /// A language.
    Language,
    /// A file of the project.
    File,
}

/// One text that can be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Completion {
    /// Text shown in the list.
    pub label: String,
    /// A short note shown next to it.
    pub detail: Option<String>,
    /// Documentation in Markdown.
    pub documentation: Option<String>,
    /// Its kind.
    pub kind: CompletionKind,
    /// The text that it replaces.
    pub replace: Span,
    /// The text that is inserted.
    pub insert: String,
}

/// Completions at a byte of a file, the most likely first, up to a fixed number. They match what
/// was typed without regard to case and accents, and by synonyms; the editor should not filter them
/// again.
#[must_use]
pub fn complete(analysis: &Analysis, file: FileId, offset: usize) -> Vec<Completion> {
    if file == LIBRARY_FILE {
        return Vec::new();
    }
    let Some(spot) = Spot::at(analysis, file, offset) else { return Vec::new() };
    let (place, value) = (spot.place, spot.value_start());
    let asked = CompletionRequest { analysis, spot };
    match (place, value) {
        (None, _) => heads::offers(&asked),
        (Some(BlockPlace::Log), _) => logged::sessions(&asked),
        (Some(place), None) => keys::offers(&asked, place),
        (Some(place), Some(from)) => values::offers(&asked, place, from),
    }
}
