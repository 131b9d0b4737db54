//! Exercises, gyms and athletes: what they are, read from the notation.

mod athlete;
mod exercise;
mod gym;
mod language;
mod library;
mod words;

pub use athlete::{Athlete, LimitSet, Max, MaxKind, Replacement};
pub use exercise::{BarChoice, Equipment, Exercise};
pub use gym::Gym;
pub use language::{LANGUAGES, check_tag, known_language};
pub use library::{LIBRARY, LIBRARY_NAME};
pub use words::{MUSCLES, PATTERNS};
