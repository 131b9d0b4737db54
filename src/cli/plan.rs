//! `setwright plan`.

use std::path::{Path, PathBuf};

use clap::ValueEnum;

use crate::bounds::PASSED_SETS;
use crate::export::{self, JsonParts, NoDates};
use crate::plan::Plan;

use super::cards::{created, file_name};
use super::input::{Athletes, File, PlanArgs};
use super::parts::{Manner, Parts};
use super::{Failure, output, report};

/// Write the whole plan for other programs
///
/// Writes the whole plan: as JSON with every set, its load and how it was worked out; as CSV with one
/// row for each set; or as a calendar with one event for each dated session. The names of fields
/// and columns contain their units.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright plan examples/first-steps/programme.sets --format json
  setwright plan examples/rowing-club/winter.sets --format csv -o sets.csv
  setwright plan examples/rowing-club/winter.sets --format ics \\
      --per-athlete -o calendars
  setwright plan --schema")]
pub struct Args {
    #[command(flatten)]
    file: Option<File>,

    #[command(flatten)]
    part: PlanArgs,

    /// The format
    #[arg(long, value_enum, default_value_t = Format::Json)]
    format: Format,

    /// Where to write; with --per-athlete, a folder
    /// [default: standard output, or the current folder]
    #[arg(short, long, value_name = "FILE", verbatim_doc_comment)]
    output: Option<PathBuf>,

    /// One file for each athlete
    #[arg(long)]
    per_athlete: bool,

    /// Print only the JSON Schema of the JSON format
    #[arg(long, exclusive = true)]
    schema: bool,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// JSON; `setwright plan --schema` describes it
    Json,
    /// Comma-separated values, one row for each set
    Csv,
    /// A calendar, one event for each session
    Ics,
}

impl Format {
    fn extension(self) -> &'static str {
        match self {
            Format::Json => "json",
            Format::Csv => "csv",
            Format::Ics => "ics",
        }
    }
}

pub fn run(args: &Args, epoch: Option<&str>) -> Result<(), Failure> {
    let Some(file) = &args.file else {
        return output::text(None, &export::plan_schema().map_err(|error| cannot(&error))?);
    };
    if !args.per_athlete {
        let kinds = [("json", "--format json"), ("csv", "--format csv"), ("ics", "--format ics")];
        output::fits(args.output.as_deref(), args.format.extension(), &kinds)?;
    }
    if args.format != Format::Ics && !args.per_athlete {
        return in_parts(args, file);
    }
    let stamp = if args.format == Format::Ics { created(epoch)? } else { None };
    let plan = file.compile(&args.part)?;
    if args.format == Format::Ics {
        tell_undated(&plan);
    }
    if !args.per_athlete {
        let text = written(&plan, args.format, stamp)?;
        return match args.output.as_deref().filter(|path| *path != Path::new("-")) {
            Some(path) => output::bytes(path, text.as_bytes()),
            // A calendar's lines end with a carriage return: another program reads every byte.
            None => output::exact(&text),
        };
    }
    let folder = args.output.clone().unwrap_or_else(|| PathBuf::from("."));
    if folder == Path::new("-") {
        return Err(Failure::Usage("--per-athlete writes several files: name a folder".to_owned()));
    }
    let stem = file.stem("plan");
    let mut files = Vec::new();
    for (number, part) in (1..).zip(plan.per_athlete()) {
        let name = part.athletes.first().map_or("", |athlete| athlete.name.as_str());
        let extension = args.format.extension();
        let name = format!("{stem}-{number:02}-{}.{extension}", file_name(name));
        files.push((folder.join(name), written(&part, args.format, stamp)?.into_bytes()));
    }
    output::folder(&folder)?;
    output::all(&files)?;
    for (path, _) in &files {
        report::say(&path.display().to_string());
    }
    Ok(())
}

/// Writes the plan as JSON or CSV as its athletes come.
fn in_parts(args: &Args, file: &File) -> Result<(), Failure> {
    let mut out = Parts::new(args.output.as_deref(), Manner::Exact);
    let mut json = None;
    let mut is_begun = false;
    let mut add = |plan: &Plan| {
        if args.format == Format::Csv {
            let is_first = !std::mem::replace(&mut is_begun, true);
            return out.add(&export::sets_rows(plan, is_first).map_err(|error| cannot(&error))?);
        }
        let json = match &mut json {
            Some(json) => json,
            none => none.insert(JsonParts::begin(plan).map_err(|error| cannot(&error))?),
        };
        out.add(&json.add(plan).map_err(|error| cannot(&error))?)
    };
    let mut done = Ok(());
    file.compile_in_parts(&args.part, PASSED_SETS, &mut |Athletes { plan, sound }| {
        if sound && done.is_ok() {
            done = add(&plan);
        }
    })?;
    done?;
    out.add(&json.map(JsonParts::end).unwrap_or_default())?;
    out.finish()
}

/// The plan in a format.
fn written(plan: &Plan, format: Format, stamp: Option<i64>) -> Result<String, Failure> {
    match format {
        Format::Json => export::json(plan).map_err(|error| cannot(&error)),
        Format::Csv => export::sets_csv(plan).map_err(|error| cannot(&error)),
        Format::Ics => export::calendar(plan, stamp).map_err(|error| undated(&error)),
    }
}

fn cannot(error: &dyn std::fmt::Display) -> Failure {
    Failure::File(error.to_string())
}

/// A programme that lacks dates is to be fixed, not the command line.
fn undated(error: &NoDates) -> Failure {
    report::say(&format!("setwright: {error}"));
    Failure::Programme
}

/// Says which days a calendar leaves out.
fn tell_undated(plan: &Plan) {
    let days = export::undated_days(plan);
    let dated = plan.athletes.iter().flat_map(|a| &a.sessions).any(|s| s.date.is_some());
    if dated && !days.is_empty() {
        let wanted = export::weekday_wanted(&days);
        report::say(&format!(
            "setwright: days without a weekday are not in the calendar: {wanted}"
        ));
    }
}
