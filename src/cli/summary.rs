//! `setwright summary`.

use std::path::PathBuf;

use crate::sheets;

use super::input::{File, Part};
use super::{Failure, output};

/// Every session of every athlete as plain text of 80 columns: for a terminal, an e-mail, a diff.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Example: setwright summary examples/rowing-club/winter.sets --athlete \"Wren Tallow\" --weeks 1")]
pub struct Args {
    #[command(flatten)]
    file: File,

    #[command(flatten)]
    part: Part,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let plan = args.file.compile(&args.part)?;
    output::text(args.output.as_deref(), &sheets::summary(&plan))
}
