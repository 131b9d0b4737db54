//! `setwright lsp`.

use crate::editor;

use super::Failure;

/// Run the language server for an editor
///
/// Serves an editor over standard input and output: problems while you type, completion, loads
/// beside their lines, renaming and formatting. Your editor starts it: see `docs/editors.md`.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright lsp")]
pub struct Args {
    /// Use standard input and output (the default, for editors that pass this option)
    #[arg(long)]
    stdio: bool,
}

pub fn run(_: &Args) -> Result<(), Failure> {
    if editor::stdio(editor::serve) { Ok(()) } else { Err(Failure::Programme) }
}
