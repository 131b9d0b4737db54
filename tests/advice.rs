//! Advice: for every lint, a programme that gets the advice and a near twin that does not, each
//! with a snapshot of source and advice; and whole sessions as a senior coach would judge them.
//! Names are invented, and the numbers have no meaning.
//!
//! `INSTA_UPDATE=always cargo test --test advice` accepts what changed; read the diff.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests may fail loudly and stand at the edge"
)]

mod advice {
    mod cases;
    mod command;
    mod examples;
    mod guide;
    mod settings;
    mod spotting;
    pub mod support;
}
