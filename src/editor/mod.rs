//! The language server behind `setwright lsp`, and the features it offers.
//!
//! | module | contents |
//! |---|---|
//! | `analysis` | [`Analysis`]: a project that was read, with its plans; immutable |
//! | `features` | completion, hover, rename …: pure functions of an [`Analysis`] and a byte offset |
//! | `outline` | outline, folds, colours, format: pure functions of one document |
//! | `rebase` | carries problems over to a text that has changed |
//! | `protocol` | the protocol, its positions and encodings; no other module knows them |
//! | `server` | the texts and projects; connects the editor's requests with the features |
//!
//! # How the server works
//!
//! The server is one loop (`server/mod.rs`) and one thread that evaluates plans
//! (`server/worker.rs`). Each turn of the loop has four steps:
//!
//! 1. Take all messages that have arrived. A change of a text makes the analyses that read the file
//!    stale. A request is put in a queue.
//! 2. Answer the queued requests from the newest texts and the newest plans.
//! 3. Read each stale project again ([`Analysis::read`]) and publish its problems. If a new message
//!    arrives between two projects, the rest is postponed.
//! 4. Give the worker the next project to evaluate.
//!
//! So the loop never sleeps while there is work, and after a burst of keystrokes only the last text
//! is evaluated. Requests never wait for an evaluation, except for the first inlay hints, which
//! need plans.
//!
//! Problems are published in two steps. The first comes right after reading: problems of lines,
//! names and numbers, together with the evaluation's earlier problems on lines that have not
//! changed (`rebase`). The second comes when the worker has finished. If a text changes before
//! that, the evaluation is cancelled; the next one waits a tenth of a second for another keystroke.
//! Tests and tools that need all problems send the request `setwright/settled`, which is answered
//! after both steps.
//!
//! Reading is fast because unchanged lines and files are not parsed again (`syntax::ParseCache`)
//! and lines of days without problems are not resolved again (`resolve::resolve_cache`).
//!
//! `server/uses.rs` decides which root files a file is checked with. Features at a position use the
//! first of them; references and renaming use all. `protocol/text.rs` is the only place that
//! converts between bytes and lines with columns.

mod analysis;
pub mod features;
pub mod outline;
mod protocol;
mod rebase;
mod server;

pub use analysis::Analysis;
pub use protocol::stdio;
pub use server::serve;
