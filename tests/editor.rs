//! `setwright lsp` as editors use it: a scripted client over standard input and output, a real
//! editor, and odd input to the server itself.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests stop at the first surprise, and read and write files of their own"
)]

#[path = "editor/client.rs"]
mod client;
#[path = "editor/conversation.rs"]
mod conversation;
#[path = "editor/framing.rs"]
mod framing;
#[path = "editor/neovim.rs"]
mod neovim;
#[path = "editor/odd.rs"]
mod odd;
#[path = "editor/plans.rs"]
mod plans;
#[path = "editor/projects.rs"]
mod projects;
