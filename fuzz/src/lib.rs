//! What the targets share: the laws and the makers of texts, which are the property tests' own.
#![allow(dead_code, reason = "the property tests use more of it")]

#[path = "../../tests/properties/diary.rs"]
mod diary;
#[path = "../../tests/properties/generate.rs"]
mod generate;
#[path = "../../tests/properties/inputs.rs"]
pub mod inputs;
#[path = "../../tests/properties/laws.rs"]
pub mod laws;
