//! Exercises, gyms and athletes, read from the notation.

mod athlete;
mod exercise;
mod exercises;
mod gym;
mod language;
mod library;
mod means;
mod name_suggestion;
mod names;
mod says;
mod search;
mod swaps;
mod translations;
mod words;

pub use athlete::{Athlete, LimitSet, Max, MaxKind, Replacement};
pub use exercise::{BarChoice, Cue, Equipment, Exercise};
pub use exercises::Exercises;
pub use gym::Gym;
pub use language::{LANGUAGES, check_tag, known_language};
pub use library::{LIBRARY, LIBRARY_FILE, LIBRARY_NAME, Library};
pub use means::{LoadNeed, LoadingMethod, Unavailable};
pub use name_suggestion::{Meant, meant, plain_words};
pub use names::{Catalogue, Names};
pub use search::Query;
pub use swaps::{Nearness, StandIns};
pub use translations::library_text;
pub use words::{MUSCLES, PATTERNS};
