//! Features that need only the text of one file: outline, folds, colours, selections and format.
//!
//! They are pure functions of a [`Document`](crate::syntax::Document) and its text, in bytes.

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
