//! The parser that is generated from the grammar. pest stays private to `syntax`.
#![allow(missing_docs, clippy::all, clippy::pedantic, reason = "generated code")]

/// The parser generated from `grammar/setwright.pest`.
#[derive(pest_derive::Parser)]
#[grammar = "../grammar/setwright.pest"]
pub struct LineParser;
