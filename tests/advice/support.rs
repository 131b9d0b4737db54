//! Checks a text and shows it with its advice.

use std::path::{Path, PathBuf};

use setwright::compile::{Compiled, check};
use setwright::diagnostics::{has_errors, render_text};
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

pub fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/advice")
}

pub fn checked(text: &str) -> Compiled {
    check(Project::from_text(&MemoryLoader::new(), "case.sets", text.to_owned()))
}

/// The names of the advice on a text, in order; the text itself has no errors.
pub fn advice(text: &str) -> Vec<&'static str> {
    let checked = checked(text);
    let shown: Vec<String> =
        checked.diagnostics.iter().map(|d| render_text(d, &checked.sources, false)).collect();
    assert!(!has_errors(&checked.diagnostics), "{text}\n{}", shown.concat());
    checked.advice.iter().map(|d| d.code.name()).collect()
}

/// The messages of the advice on a text, in order.
pub fn messages(text: &str) -> Vec<String> {
    checked(text).advice.iter().map(|d| d.message.clone()).collect()
}

/// The source, and the advice as a terminal prints it.
pub fn shown(text: &str) -> String {
    let checked = checked(text);
    let mut out = format!("{text}\n======== advice: {}\n", checked.advice.len());
    for advice in checked.diagnostics.iter().chain(&checked.advice) {
        out.push_str(render_text(advice, &checked.sources, false).trim_end());
        out.push_str("\n\n");
    }
    out
}

pub fn snapshot(name: &str, shown: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(folder());
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| insta::assert_snapshot!(name, shown));
}
