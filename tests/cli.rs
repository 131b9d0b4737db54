//! The commands as a coach runs them: output, files, exit codes; and every example in the docs.

#[path = "cli/bad_input.rs"]
mod bad_input;
#[path = "cli/commands.rs"]
mod commands;
#[path = "cli/docs.rs"]
mod docs;
#[path = "cli/pdf.rs"]
mod pdf;
#[path = "cli/support.rs"]
mod support;
