//! The Setwright grammar for tree-sitter.
//!
//! Hand [`LANGUAGE`] to a parser of the `tree-sitter` crate.

use tree_sitter_language::LanguageFn;

unsafe extern "C" {
    fn tree_sitter_setwright() -> *const ();
}

/// The language.
// SAFETY: the function is that of the parser compiled beside this file.
pub const LANGUAGE: LanguageFn = unsafe { LanguageFn::from_raw(tree_sitter_setwright) };

/// What each node is, as JSON.
pub const NODE_TYPES: &str = include_str!("../../src/node-types.json");
/// The colours.
pub const HIGHLIGHTS_QUERY: &str = include_str!("../../queries/highlights.scm");
/// What can be folded.
pub const FOLDS_QUERY: &str = include_str!("../../queries/folds.scm");
/// How far lines are indented.
pub const INDENTS_QUERY: &str = include_str!("../../queries/indents.scm");
/// What defines a name and what uses it.
pub const LOCALS_QUERY: &str = include_str!("../../queries/locals.scm");
/// What an outline lists.
pub const TAGS_QUERY: &str = include_str!("../../queries/tags.scm");
/// What can be selected as a whole.
pub const TEXTOBJECTS_QUERY: &str = include_str!("../../queries/textobjects.scm");
