//! Editor features at a position in a project's text.
//!
//! Each feature is a pure function of an [`Analysis`] and a position, and returns byte spans. None
//! of them fails; if there is nothing at the position, the answer is empty.
//!
//! Returned spans are on character boundaries. Spans in the built-in library occur only as answers
//! of go to definition; no edit ever touches it.

mod actions;
mod complete;
mod edits;
mod guess;
mod hints;
mod hover;
#[cfg(test)]
mod marked;
mod mentions;
mod names;
mod place;
mod rename;
#[cfg(test)]
mod tests;
mod written;

pub use actions::{CodeAct, actions};
pub use complete::{Completion, CompletionKind, complete};
pub use hints::{Hint, Shown, inlay_hints};
pub use hover::{Hover, hover};
pub use names::{definition, references};
pub use rename::{prepare_rename, rename};

#[cfg(doc)]
use super::Analysis;
