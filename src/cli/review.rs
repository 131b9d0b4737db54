//! `setwright review`.

use std::path::PathBuf;

use clap::ValueEnum;
use jiff::civil::Date;

use crate::history;
use crate::{export, sheets};

use super::input::{Assume, AssumeParser, File, PassedOver, PlanArgs};
use super::{Failure, output};

/// Compare what was done with the plan
///
/// Compares the logs with the plan: completed sessions, volume and hard sets, estimated maxes and
/// their trend, misses, rules that acted, what changes next and why, and who to look at first.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright review examples/rowing-club/winter-so-far.sets
  setwright review examples/rowing-club/winter-so-far.sets \\
      --athlete \"Wren Tallow\"
  setwright review examples/rowing-club/winter-so-far.sets --format pdf \\
      -o review.pdf")]
pub struct Args {
    #[command(flatten)]
    file: File,

    /// Which programme, if the project has several
    #[arg(long, value_name = "NAME")]
    programme: Option<String>,

    /// Only this athlete: the name, or as much of it as no other begins with (may be given several
    /// times)
    #[arg(long, value_name = "NAME")]
    athlete: Vec<String>,

    /// What to assume of a session that was passed over without a log
    #[arg(long, value_parser = AssumeParser::<PassedOver>::new(), value_name = "WHAT")]
    assume: Option<PassedOver>,

    /// Today as year-month-day: later dates of maxes and
    /// sessions are reported [default: the end of the
    /// programme or the latest logged session, whichever
    /// is later]
    #[arg(long, value_name = "DATE", verbatim_doc_comment)]
    as_of: Option<Date>,

    /// Text of 80 columns, JSON, or a PDF with at least one page for each athlete
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,

    /// Where to write [default: standard output; for a PDF,
    /// the name of the file with -review.pdf, in the current
    /// folder]
    #[arg(short, long, value_name = "PATH", verbatim_doc_comment)]
    output: Option<PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// Plain text
    Text,
    /// JSON; the names of fields contain their units
    Json,
    /// A4 pages with plots
    Pdf,
}

pub fn run(args: &Args, epoch: Option<&str>) -> Result<(), Failure> {
    let part = PlanArgs {
        programme: args.programme.clone(),
        athlete: args.athlete.clone(),
        weeks: None,
        day: Vec::new(),
        assume: args.assume.map(Assume::from).into_iter().collect(),
        as_of: args.as_of,
    };
    let suffix = match args.format {
        Format::Text => "txt",
        Format::Json => "json",
        Format::Pdf => "pdf",
    };
    let kinds = [("txt", "--format text"), ("json", "--format json"), ("pdf", "--format pdf")];
    output::fits(args.output.as_deref(), suffix, &kinds)?;
    let plan = args.file.compile(&part)?;
    let review = history::review(&plan);
    match args.format {
        Format::Text => output::text(args.output.as_deref(), &sheets::review_text(&review)),
        Format::Json => {
            let text =
                export::review_json(&review).map_err(|error| Failure::File(error.to_string()))?;
            output::text(args.output.as_deref(), &text)
        }
        Format::Pdf => {
            let created = super::cards::created(epoch)?;
            let stem = args.file.stem("programme");
            let usual = PathBuf::from(format!("{stem}-review.pdf"));
            let path = args.output.as_deref().unwrap_or(&usual);
            let rendered = sheets::review_pdf(&review, created)
                .map_err(|error| Failure::File(error.to_string()))?;
            output::bytes(path, &rendered.bytes)?;
            if path != std::path::Path::new("-") {
                let (people, pages) = (review.athletes.len(), rendered.pages);
                let many = |n: usize| if n == 1 { "" } else { "s" };
                super::report::say(&format!(
                    "{}: the review of {people} athlete{}, {pages} page{}",
                    path.display(),
                    many(people),
                    many(pages)
                ));
            }
            Ok(())
        }
    }
}
