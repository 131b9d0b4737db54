//! `setwright lsp`.

use crate::editor;

use super::Failure;

/// Serve an editor, which starts it by itself
///
/// Serves an editor over standard input and output: findings while you type, completion, loads
/// beside their lines, renaming, formatting. Editors start it; `docs/editors.md` says how.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright lsp")]
pub struct Args {
    /// For editors that say how they talk: standard input and output is all there is
    #[arg(long)]
    stdio: bool,
}

pub fn run(_: &Args) -> Result<(), Failure> {
    if editor::stdio(editor::serve) { Ok(()) } else { Err(Failure::Programme) }
}
