//! What a file's shape answers without working anything out: its outline, what folds, what is
//! coloured how, what a selection grows to, and what the standard format changes. Pure functions of
//! a [`Document`](crate::syntax::Document) and its text, in bytes.

mod edits;
mod folds;
mod selections;
mod symbols;
mod tokens;

pub use edits::{OutlineEdit, formatting};
pub use folds::{Fold, FoldKind, folds};
pub use selections::selections;
pub use symbols::{Symbol, SymbolKind, symbols};
pub use tokens::{Token, TokenKind, tokens};
