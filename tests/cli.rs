//! The commands as a coach runs them: output, files, exit codes; and every example in the docs.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    clippy::format_collect,
    reason = "tests stop at the first surprise, and read and write files of their own"
)]

#[path = "cli/bad_input.rs"]
mod bad_input;
#[path = "cli/commands.rs"]
mod commands;
#[path = "cli/compare.rs"]
mod compare;
#[path = "cli/docs.rs"]
mod docs;
#[path = "cli/exercises.rs"]
mod exercises;
#[path = "cli/exports.rs"]
mod exports;
#[cfg(unix)]
#[path = "cli/faults.rs"]
mod faults;
#[path = "cli/fmt.rs"]
mod fmt;
#[path = "cli/git.rs"]
mod git;
#[path = "cli/habits.rs"]
mod habits;
#[path = "cli/languages.rs"]
mod languages;
#[path = "cli/loads.rs"]
mod loads;
#[path = "cli/packaging.rs"]
mod packaging;
#[path = "cli/pdf.rs"]
mod pdf;
#[path = "cli/same_bytes.rs"]
mod same_bytes;
#[path = "cli/schema.rs"]
mod schema;
#[cfg(unix)]
#[path = "cli/shell.rs"]
mod shell;
#[cfg(unix)]
#[path = "cli/squads.rs"]
mod squads;
#[path = "cli/support.rs"]
mod support;
#[cfg(unix)]
#[path = "cli/watch.rs"]
mod watch;
#[cfg(unix)]
#[path = "cli/writers.rs"]
mod writers;
