//! What an editor asks at a place of a project's text. Each question is a pure function of an
//! [`Analysis`] and a place, and answers in byte spans; none of them ever fails: a place that says
//! nothing gets an empty answer.
//!
//! Spans of answers lie on character boundaries. A span in the built-in library is an answer to
//! "where is it defined" only: no edit ever touches it.

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
