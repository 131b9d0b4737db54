//! The highlighters in `editors/` against the compiler: they have the same words, and the
//! tree-sitter grammar accepts the same lines.
//!
//! The word lists in the highlighters are between marks and generated from
//! `setwright::syntax::words`:
//!
//! `SETWRIGHT_ACCEPT_WORDS=1 cargo test --test highlighting words`
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    clippy::format_collect,
    reason = "tests stop at the first surprise, and read and write files of their own"
)]

#[path = "highlighting/corpus.rs"]
mod corpus;
#[path = "highlighting/lines.rs"]
mod lines;
#[path = "highlighting/neovim.rs"]
mod neovim;
#[path = "highlighting/queries.rs"]
mod queries;
#[path = "highlighting/support.rs"]
mod support;
#[path = "highlighting/vim.rs"]
mod vim;
#[path = "highlighting/words.rs"]
mod words;
