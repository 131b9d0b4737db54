//! Setwright: a plain-text notation for strength programmes, and a compiler from it to gym cards.

pub mod plan;
pub mod quantity;
pub mod sheets;
pub mod strength;
pub mod bounds;
pub mod diagnostics;
pub mod source;
pub mod syntax;
