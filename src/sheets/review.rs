//! The review on paper and as text: plan against done.

mod text;
mod words;

pub use text::text;
