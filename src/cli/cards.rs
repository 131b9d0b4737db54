//! `setwright cards`.

use std::path::{Path, PathBuf};

use clap::ValueEnum;

use crate::plan::Plan;
use crate::sheets::{self, CardCopy, CardOptions, Paper};

use super::input::{File, Part};
use super::{Failure, output, report};

/// Makes a PDF with one card for each session: what to load, boxes for what was done, cues,
/// cautions.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright cards examples/rowing-club/winter.sets -o cards.pdf
  setwright cards examples/rowing-club/winter.sets --weeks 3-4 --paper a4
  setwright cards examples/rowing-club/winter.sets --per-athlete -o cards/
  setwright cards examples/rowing-club/winter.sets --weeks 3 --coach")]
pub struct Args {
    #[command(flatten)]
    file: File,

    #[command(flatten)]
    part: Part,

    /// Where to write: a PDF, - for standard output, or a folder with --per-athlete
    /// [default: the programme's file name with .pdf, in the current folder]
    #[arg(short, long, value_name = "PATH", verbatim_doc_comment)]
    output: Option<PathBuf>,

    /// One PDF for each athlete
    #[arg(long)]
    per_athlete: bool,

    /// The coach's copy: with how each load came about, and the sources of exercises, lines and
    /// cues
    #[arg(long)]
    coach: bool,

    /// The paper
    #[arg(long, value_enum, default_value_t = PaperName::A5)]
    paper: PaperName,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum PaperName {
    /// 210 × 297 mm
    A4,
    /// 148 × 210 mm
    A5,
    /// 8.5 × 11 in
    Letter,
    /// 5.5 × 8.5 in
    HalfLetter,
}

pub fn run(args: &Args, epoch: Option<&str>) -> Result<(), Failure> {
    let created = created(epoch)?;
    let paper = match args.paper {
        PaperName::A4 => Paper::A4,
        PaperName::A5 => Paper::A5,
        PaperName::Letter => Paper::Letter,
        PaperName::HalfLetter => Paper::HalfLetter,
    };
    let copy = if args.coach { CardCopy::Coach } else { CardCopy::Athlete };
    let options = CardOptions { paper, created, copy };
    let plan = args.file.compile(&args.part)?;
    let stem = args.file.file.file_stem().map_or("cards".into(), |stem| stem.to_string_lossy());
    let stem = if args.file.is_standard_input() { "cards".into() } else { stem };
    // Nobody takes one copy for the other.
    let stem = if args.coach { format!("{stem}-coach") } else { stem.into_owned() };
    if !args.per_athlete {
        let usual = PathBuf::from(format!("{stem}.pdf"));
        return one(&plan, &options, args.output.as_deref().unwrap_or(&usual));
    }
    let folder = args.output.clone().unwrap_or_else(|| PathBuf::from("."));
    if folder == Path::new("-") {
        return Err(Failure::Usage("--per-athlete writes several files: name a folder".to_owned()));
    }
    output::folder(&folder)?;
    for (number, part) in (1..).zip(plan.per_athlete()) {
        let name = part.athletes.first().map_or("", |athlete| athlete.name.as_str());
        one(&part, &options, &folder.join(format!("{stem}-{number:02}-{}.pdf", file_name(name))))?;
    }
    Ok(())
}

/// The time of making, in seconds since 1970, where the environment states one.
pub fn created(epoch: Option<&str>) -> Result<Option<i64>, Failure> {
    match epoch.map(str::parse::<i64>) {
        None => Ok(None),
        Some(Ok(seconds)) if seconds >= 0 => Ok(Some(seconds)),
        Some(_) => {
            let why = "SOURCE_DATE_EPOCH is not a number of seconds since 1970";
            Err(Failure::Usage(why.to_owned()))
        }
    }
}

fn one(plan: &Plan, options: &CardOptions, path: &Path) -> Result<(), Failure> {
    let rendered = match sheets::cards(plan, options) {
        Ok(rendered) => rendered,
        Err(error @ sheets::SheetError::NoSessions) => {
            report::say(&format!("setwright: {error}"));
            return Err(Failure::Programme);
        }
        Err(error) => return Err(Failure::File(error.to_string())),
    };
    output::bytes(path, &rendered.bytes)?;
    if path != Path::new("-") {
        let sessions: usize = plan.athletes.iter().map(|athlete| athlete.sessions.len()).sum();
        let people = plan.athletes.len();
        report::say(&format!(
            "{}: {sessions} card{} for {people} athlete{}, {} page{}",
            path.display(),
            plural(sessions),
            plural(people),
            rendered.pages,
            plural(rendered.pages),
        ));
    }
    Ok(())
}

fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}

/// A name as part of a file name: letters and digits of any script, everything else a hyphen.
fn file_name(name: &str) -> String {
    let mut out = String::new();
    for sign in name.chars().flat_map(char::to_lowercase).take(60) {
        if sign.is_alphanumeric() {
            out.push(sign);
        } else if !out.ends_with('-') && !out.is_empty() {
            out.push('-');
        }
    }
    out.trim_end_matches('-').to_owned()
}
