//! From text to trees, problems and standard format.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests stop at the first surprise, and read and write files of their own"
)]

#[path = "notation/bounds.rs"]
mod bounds;
#[path = "notation/canonical.rs"]
mod canonical;
#[path = "notation/cases.rs"]
mod cases;
#[path = "notation/corpus.rs"]
mod corpus;
#[path = "notation/library.rs"]
mod library;
#[path = "notation/old_words.rs"]
mod old_words;
#[path = "notation/pages.rs"]
mod pages;
#[path = "notation/plausible.rs"]
mod plausible;
#[path = "notation/versions.rs"]
mod versions;
