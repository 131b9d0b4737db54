//! The protocol of editors: what its messages ask, what its answers look like, how it counts
//! places. Nothing outside this module knows the protocol's crates (`gen-lsp-types`, which is
//! pinned, and `lsp-server`); what the server hands in and gets out are its own types, and the few
//! plain ones named here.

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
