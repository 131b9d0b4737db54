//! Setwright: a plain-text notation for strength programmes, and a compiler that turns it into gym
//! cards.
//!
//! The pipeline is text → [`syntax::parse`] → `Document` → [`resolve::resolve`] → `Programme` →
//! [`evaluate::evaluate`] → [`plan::Plan`] → [`sheets`] and [`export`]. [`compile()`] runs all of
//! it.

pub mod advice;
pub mod bounds;
pub mod catalogue;
pub mod cli;
pub mod compare;
pub mod compile;
pub mod diagnostics;
pub mod editor;
pub mod evaluate;
pub mod export;
pub mod history;
pub mod plan;
pub mod quantity;
pub mod resolve;
pub mod sheets;
pub mod source;
pub mod strength;
pub mod syntax;
pub mod tally;

pub use compile::compile;
