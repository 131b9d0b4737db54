//! `setwright plan`.

use std::path::PathBuf;

use clap::ValueEnum;

use crate::export;

use super::input::{File, Part};
use super::{Failure, output};

/// The whole plan, every set with its load and how it came about; fields are named in the units
/// they carry.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Example: setwright plan examples/first-steps/programme.sets --format json")]
pub struct Args {
    #[command(flatten)]
    file: File,

    #[command(flatten)]
    part: Part,

    /// The format
    #[arg(long, value_enum, default_value_t = Format::Json)]
    format: Format,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// JSON
    Json,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let plan = args.file.compile(&args.part)?;
    match args.format {
        Format::Json => {
            let text = export::json(&plan).map_err(|error| Failure::File(error.to_string()))?;
            output::text(args.output.as_deref(), &text)
        }
    }
}
