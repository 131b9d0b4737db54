//! Exercises, gyms and athletes: what they are, read from the notation.

mod athlete;
mod exercise;
mod gym;
mod language;
mod words;

pub use athlete::{Athlete, LimitSet, Max, MaxKind, Replacement};
pub use exercise::{BarChoice, Equipment, Exercise};
pub use gym::Gym;
pub use language::{LANGUAGES, check_tag, known_language};
pub use words::{MUSCLES, PATTERNS};

/// The exercises that are always there, in the notation itself.
pub const LIBRARY: &str = include_str!("library.sets");
/// The name under which the built-in exercises appear as a file.
pub const LIBRARY_NAME: &str = "built-in library";
