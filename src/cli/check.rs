//! `setwright check`.

use clap::ValueEnum;

use crate::compile::check;
use crate::diagnostics::{has_errors, render_json};

use super::input::File;
use super::{Failure, output, report};

/// Reads the programme and everything it uses, works it out for every athlete, and reports what is
/// wrong: all of it, not the first only.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright check examples/rowing-club/winter.sets")]
pub struct Args {
    #[command(flatten)]
    file: File,

    /// How findings are written: for people, or for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,

    /// Where findings are written [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<std::path::PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// Plain text, with the source line underlined
    Text,
    /// A JSON object with a list of findings
    Json,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let compiled = check(args.file.open()?);
    let found = &compiled.diagnostics;
    let text = match args.format {
        Format::Json => {
            let all: Vec<_> = found.iter().map(|d| render_json(d, &compiled.sources)).collect();
            let mut text = serde_json::to_string_pretty(&serde_json::json!({ "diagnostics": all }))
                .unwrap_or_default();
            text.push('\n');
            text
        }
        Format::Text if found.is_empty() => "no findings\n".to_owned(),
        Format::Text => report::text(found, &compiled.sources),
    };
    output::text(args.output.as_deref(), &text)?;
    if has_errors(found) { Err(Failure::Programme) } else { Ok(()) }
}
