//! At home in the editor: what is asked of a project at a place in its text, and the language
//! server that asks it.
//!
//! Questions (completion, hover, names and their uses …) are pure functions of an [`Analysis`] and
//! a byte of a file, and answer in byte spans. Only the server knows of the protocol, its
//! positions and its encodings.

mod analysis;
pub mod questions;

pub use analysis::Analysis;
