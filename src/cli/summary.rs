//! `setwright summary`.

use std::path::PathBuf;

use clap::ValueEnum;

use crate::bounds::PASSED_SETS;
use crate::plan::Plan;
use crate::tally::Weekly;
use crate::{export, sheets, tally};

use super::input::{Athletes, File, PlanArgs};
use super::parts::{Manner, Parts};
use super::{Failure, output};

/// Show every session of every athlete as plain text
///
/// Shows every session of every athlete as plain text of 80 columns, for a terminal, an e-mail or a
/// diff. With --weekly, shows the totals of each week: hard sets and volume load per muscle, sets
/// per movement pattern, average intensity and top sets.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright summary examples/rowing-club/winter.sets --weeks 1 \\
      --athlete \"Wren Tallow\"
  setwright summary examples/rowing-club/winter.sets --weekly \\
      --athlete \"Wren Tallow\"
  setwright summary examples/rowing-club/winter.sets --weekly --format csv \\
      -o weeks.csv")]
pub struct Args {
    #[command(flatten)]
    file: File,

    #[command(flatten)]
    part: PlanArgs,

    /// The totals of each week, with weeks as columns, instead of the sessions
    #[arg(long)]
    weekly: bool,

    /// The format of the weekly table: text of 100 columns, JSON, or CSV with one row for each measure
    #[arg(long, value_enum, requires = "weekly", default_value_t = Format::Text)]
    format: Format,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// Plain text
    Text,
    /// JSON; the names of fields contain their units
    Json,
    /// Comma-separated values, one row for each measure
    Csv,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let suffix = match args.format {
        Format::Text => "txt",
        Format::Json => "json",
        Format::Csv => "csv",
    };
    let text = if args.weekly { "--format text" } else { "" };
    let kinds =
        [("txt", text), ("json", "--weekly --format json"), ("csv", "--weekly --format csv")];
    output::fits(args.output.as_deref(), suffix, &kinds)?;
    let mut out = Parts::new(args.output.as_deref(), Manner::Text);
    if args.weekly {
        out.add(&weekly(args)?)?;
        return out.finish();
    }
    let mut is_begun = false;
    let mut done = Ok(());
    let mut add = |plan: &Plan| {
        if !std::mem::replace(&mut is_begun, true) {
            out.add(&sheets::summary_head(plan))?;
        }
        out.add(&sheets::summary_athletes(plan))
    };
    let take = &mut |Athletes { plan, sound }| {
        // The errors are reported at the end, and nothing is written.
        if sound && done.is_ok() {
            done = add(&plan);
        }
    };
    let (plan, _) = args.file.compile_in_parts(&args.part, PASSED_SETS, take)?;
    done?;
    out.add(&sheets::summary_end(&plan))?;
    out.finish()
}

/// The weekly table. Of each athlete only the sums are kept.
fn weekly(args: &Args) -> Result<String, Failure> {
    let mut athletes = Vec::new();
    let take = &mut |part: Athletes| athletes.extend(tally::weekly(&part.plan).athletes);
    let (plan, _) = args.file.compile_in_parts(&args.part, PASSED_SETS, take)?;
    let weekly = Weekly { athletes, ..tally::weekly(&plan) };
    let cannot = |error: &dyn std::fmt::Display| Failure::File(error.to_string());
    match args.format {
        Format::Text => Ok(sheets::weekly_text(&weekly)),
        Format::Json => export::weekly_json(&weekly).map_err(|error| cannot(&error)),
        Format::Csv => export::weekly_csv(&weekly).map_err(|error| cannot(&error)),
    }
}
