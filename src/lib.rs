//! Setwright: a plain-text notation for strength programmes, and a compiler from it to gym cards.

pub mod evaluate;
pub mod plan;
pub mod quantity;
pub mod sheets;
pub mod strength;
pub mod bounds;
pub mod catalogue;
pub mod diagnostics;
pub mod resolve;
pub mod source;
pub mod syntax;
