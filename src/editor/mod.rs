//! At home in the editor: what is asked of a project at a place in its text, and the language
//! server that asks it.
//!
//! Questions (completion, hover, names and their uses …) are pure functions of an [`Analysis`] and
//! a byte of a file, and answer in byte spans; so is the outline of a file. Only `protocol` knows
//! of the protocol, its positions and its encodings; `server` keeps the texts and the projects, and
//! brings the two together.

mod analysis;
pub mod features;
pub mod outline;
mod protocol;
mod rebase;
mod server;

pub use analysis::Analysis;
pub use protocol::stdio;
pub use server::serve;
