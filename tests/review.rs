//! The review and the weekly table: numbers worked out by hand, snapshots of text, JSON and CSV,
//! commands.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests stop at the first surprise, and read and write files of their own"
)]

#[path = "review/command.rs"]
mod command;
#[path = "review/looks.rs"]
mod looks;
#[path = "review/numbers.rs"]
mod numbers;
#[path = "cli/support.rs"]
#[allow(dead_code, reason = "shared with the tests of the other commands")]
mod support;
#[path = "review/weekly.rs"]
mod weekly;

use serde_json::Value;
use setwright::compile::{Choice, compile};
use setwright::diagnostics::has_errors;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

/// The review of a project, as the JSON that other programs read.
fn review(text: &str) -> Value {
    let project = Project::from_text(&MemoryLoader::new(), "test.sets", text.to_owned());
    let compiled = compile(project, &Choice::default()).unwrap();
    assert!(!has_errors(&compiled.diagnostics), "{:#?}", compiled.diagnostics);
    let review = setwright::history::review(&compiled.plan.unwrap());
    serde_json::to_value(review).unwrap()
}
