//! Laws that apply to every text and every programme, tested on generated ones. The number of cases
//! is fixed. A failure is reduced and printed as a stream of choices with the text that it makes.
//!
//! `generate` makes correct programmes and `diary` their logs; `inputs` makes both from the bytes
//! of a fuzzer; `laws` contains what is true of any text. The fuzzer (`fuzz/`) uses these four too.
//! `support` reads and compares.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests may fail loudly and stand at the edge"
)]

#[path = "properties/diary.rs"]
mod diary;
#[path = "properties/generate.rs"]
mod generate;
#[path = "properties/inputs.rs"]
mod inputs;
#[path = "properties/laws.rs"]
mod laws;
#[path = "properties/support.rs"]
mod support;

#[path = "properties/adding.rs"]
mod adding;
#[path = "properties/comparing.rs"]
mod comparing;
#[path = "properties/evaluating.rs"]
mod evaluating;
#[path = "properties/finds.rs"]
mod finds;
#[path = "properties/formatting.rs"]
mod formatting;
#[path = "properties/loading.rs"]
mod loading;
#[path = "properties/masses.rs"]
mod masses;
#[path = "properties/reading.rs"]
mod reading;
