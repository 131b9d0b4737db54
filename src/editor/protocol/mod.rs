//! The Language Server Protocol: messages, answers and positions.
//!
//! No other module uses the protocol's crates (`gen-lsp-types`, which is pinned, and `lsp-server`).
//! The server passes its own types in and out, and the few plain types that are named here.

mod answers;
mod capabilities;
mod client;
mod findings;
mod frames;
mod read;
mod text;
mod transport;
mod uri;

pub use answers::{
    FileEdits, Located, actions, commands_shown, completions, edits, folds, highlights, hints,
    hover, places, prepared, selections, symbols, tokens, workspace_edit, workspace_symbols,
};
pub use capabilities::{SHOW, initialized, registrations};
pub use client::{Client, shown_in};
pub use findings::{Finding, finding, published, sort_and_dedup};
pub use gen_lsp_types::{Location, Uri};
pub use lsp_server::{Connection, Message, Notification, Request, RequestId, Response};
pub use read::{Change, EditorNotification, EditorRequest, ResponseError, ask, news};
pub use text::{Encoding, Position, Range, Text};
pub use transport::stdio;
pub use uri::{of_path, path_of};
