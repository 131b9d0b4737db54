//! `setwright cards`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use clap::ValueEnum;

use crate::sheets::{CardCopy, CardOptions, Paper, TwoUp};

use super::input::{File, PlanArgs};
use super::open::open;
use super::printing::{AthleteFiles, PrintJob, Printing};
use super::sheet::Which;
use super::{Failure, output, report};

/// Print session cards as a PDF
///
/// A card for each session: what to load, boxes for what was done, cues, cautions. As one
/// PDF, or as an image a page. For a folder, the cards of the one programme in it.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright cards examples/rowing-club/winter.sets -o cards.pdf
  setwright cards examples/first-steps --open
  setwright cards examples/rowing-club/winter.sets --weeks 3-4 --paper a4
  setwright cards examples/rowing-club/winter.sets --sheet block,overview
  setwright cards examples/rowing-club/winter.sets --sheet rack --weeks 1 \\
      --day Catch
  setwright cards examples/rowing-club/winter.sets --sheet wall \\
      --exercise \"Front squat\"
  setwright cards examples/rowing-club/winter.sets --per-athlete -o cards/
  setwright cards examples/rowing-club/winter.sets --weeks 3 --coach
  setwright cards examples/rowing-club/winter.sets --weeks 1 --format png \\
      -o week-1")]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch of the command line")]
pub struct Args {
    #[command(flatten)]
    file: File,

    #[command(flatten)]
    part: PlanArgs,

    #[command(flatten)]
    which: Which,

    /// The file to write, or - for standard output; with
    /// --per-athlete, a folder [default: the name of the
    /// programme's file with .pdf, in the current folder].
    /// For images, a folder or the start of their names:
    /// `-o week-1` writes week-1-1.png, week-1-2.png ...
    /// and `-o card.png` writes a single page as card.png.
    #[arg(short, long, value_name = "PATH", verbatim_doc_comment)]
    output: Option<PathBuf>,

    /// Open the PDF when it is written, with the system's program for PDFs
    #[arg(long, conflicts_with = "per_athlete")]
    open: bool,

    /// One PDF for each athlete
    #[arg(long)]
    per_athlete: bool,

    /// One PDF, or one image for each page [default: by
    /// the suffix of -o, .svg or .png; otherwise pdf]
    #[arg(long, value_enum, verbatim_doc_comment)]
    format: Option<Format>,

    /// Resolution of PNG images, in dots per inch
    #[arg(long, value_name = "DOTS", default_value_t = 150,
          value_parser = clap::value_parser!(u16).range(20..=600))]
    dpi: u16,

    /// Also print past sessions (done, skipped or not logged), which cards and rack sheets leave out
    /// by default
    #[arg(long)]
    all: bool,

    /// Print the coach's copy, which shows how each load was worked out and the sources of exercises,
    /// lines and cues
    #[arg(long)]
    coach: bool,

    /// The paper
    #[arg(long, value_enum, ignore_case = true, default_value_t = PaperName::A5)]
    paper: PaperName,

    /// Two cards on each sheet, with cutting marks: A5
    /// cards on A4, half-letter on letter. After cutting,
    /// put the left pile on the right one: the cards are
    /// in order
    #[arg(long, value_enum, value_name = "SHEET", num_args = 0..=1, require_equals = true,
          default_missing_value = "landscape", verbatim_doc_comment)]
    two_up: Option<SheetSide>,

    /// Type one and a half times as large, on more pages
    #[arg(long)]
    large_print: bool,

    /// Boxes to the left of the text, for left-handed athletes
    #[arg(long)]
    left_handed: bool,

    /// Draw plates in the colours of the competition rules
    #[arg(long)]
    plate_colours: bool,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// One file with all pages, for printing
    Pdf,
    /// One drawing for each page, for the web
    Svg,
    /// One picture for each page, for chats and previews
    Png,
}

impl Format {
    /// The suffix of its files.
    pub fn extension(self) -> &'static str {
        match self {
            Format::Pdf => "pdf",
            Format::Svg => "svg",
            Format::Png => "png",
        }
    }

    /// Whether a file's name ends in this format's suffix.
    fn is_of(self, path: &Path) -> bool {
        path.extension().is_some_and(|given| given.eq_ignore_ascii_case(self.extension()))
    }
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum SheetSide {
    /// Landscape sheet with upright cards
    Landscape,
    /// Portrait sheet, for printers that cannot print landscape
    Portrait,
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

impl Args {
    /// Whether the programme is read from standard input, or the sheets go to standard output.
    pub fn uses_standard_streams(&self) -> bool {
        self.file.is_standard_input() || self.output.as_deref() == Some(Path::new("-"))
    }

    /// Rejects switches that would have no effect on the chosen sheets.
    fn idle_switches(&self) -> Result<(), Failure> {
        let of_cards = [
            (self.two_up.is_some(), "--two-up"),
            (self.large_print, "--large-print"),
            (self.left_handed, "--left-handed"),
        ];
        if let Some((_, switch)) =
            of_cards.iter().find(|(given, _)| *given && !self.which.has_cards())
        {
            return Err(Failure::Usage(format!(
                "{switch} only works with session cards: add --sheet card"
            )));
        }
        if self.all && !self.which.has_sessions() {
            let why = "--all only works with sheets of sessions: add --sheet card or rack";
            return Err(Failure::Usage(why.to_owned()));
        }
        if self.plate_colours && !self.which.draws_plates() {
            let why =
                "--plate-colours only works with drawings of plates: add --sheet card or wall";
            return Err(Failure::Usage(why.to_owned()));
        }
        Ok(())
    }

    /// Refuses to open what is no PDF in a file.
    fn can_open(&self, format: Format) -> Result<(), Failure> {
        let why = match (self.open, format) {
            (true, Format::Svg | Format::Png) => "--open opens a PDF: leave --open out for images",
            (true, Format::Pdf) if self.output.as_deref() == Some(Path::new("-")) => {
                "--open opens a file: name one with -o, or leave -o out"
            }
            _ => return Ok(()),
        };
        Err(Failure::Usage(why.to_owned()))
    }

    /// Opens what was written, where that is asked for.
    pub fn open_written(&self, path: &Path) {
        if self.open {
            open(path);
        }
    }

    /// What to write: as asked, else as the suffix of the output says. A suffix that says another
    /// image than was asked for would name a file that no program opens.
    pub fn format(&self) -> Result<Format, Failure> {
        let path = self.output.as_deref().filter(|path| !self.per_athlete && !path.is_dir());
        let named = path.and_then(|path| {
            [Format::Pdf, Format::Svg, Format::Png].into_iter().find(|format| format.is_of(path))
        });
        if named.is_none() {
            let usual = self.format.unwrap_or(Format::Pdf).extension();
            output::fits(path, usual, &[("pdf", ""), ("svg", ""), ("png", "")])?;
        }
        match (self.format, named) {
            (Some(asked), Some(named)) if asked != named => {
                let (asked, named) = (asked.extension(), named.extension());
                Err(Failure::Usage(format!(
                    "-o names a .{named} file, but --format is {asked}: \
                     use --format {named}, or a name that ends in .{asked}"
                )))
            }
            (asked, named) => {
                let format = asked.or(named).unwrap_or(Format::Pdf);
                self.can_open(format).map(|()| format)
            }
        }
    }

    /// The folders of the project's files.
    pub fn folders(&self) -> Result<BTreeSet<PathBuf>, Failure> {
        self.file.in_folder()?.folders()
    }
}

pub fn run(args: &Args, epoch: Option<&str>) -> Result<(), Failure> {
    args.open_written(&print(args, epoch)?);
    Ok(())
}

/// Prints; gives the file, or for several the place where they are.
pub fn print(args: &Args, epoch: Option<&str>) -> Result<PathBuf, Failure> {
    let created = created(epoch)?;
    args.idle_switches()?;
    let format = args.format()?;
    let file = args.file.in_folder()?;
    let paper = match args.paper {
        PaperName::A4 => Paper::A4,
        PaperName::A5 => Paper::A5,
        PaperName::Letter => Paper::Letter,
        PaperName::HalfLetter => Paper::HalfLetter,
    };
    let copy = if args.coach { CardCopy::Coach } else { CardCopy::Athlete };
    let options = CardOptions {
        paper,
        copy,
        created,
        plate_colours: args.plate_colours,
        large_print: args.large_print,
        left_handed: args.left_handed,
        to_come: !args.all,
        two_up: args.two_up.map(|side| match side {
            SheetSide::Landscape => TwoUp::Landscape,
            SheetSide::Portrait => TwoUp::Portrait,
        }),
    };
    let stem = file.stem("cards");
    // Nobody takes one copy for the other.
    let stem = if args.coach { format!("{stem}-coach") } else { stem };
    let exact = args.output.as_deref().filter(|path| format.is_of(path));
    let weeks = args.part.chooses_weeks();
    let job = PrintJob { options, format, dpi: args.dpi, exact, which: &args.which, weeks };
    let sheets = args.which.sheets();
    let folder = || args.output.clone().unwrap_or_else(|| PathBuf::from("."));
    let to = if args.per_athlete { folder() } else { place(args, format, &stem) };
    let mut printing = if args.per_athlete {
        Printing::each(&job, sheets, AthleteFiles { folder: to.clone(), stem })
    } else {
        Printing::together(&job, sheets, to.clone())
    };
    let (plan, exercises) =
        file.compile_in_parts(&args.part, printing.most(), &mut |part| printing.take(part))?;
    if args.plate_colours && printing.has_pounds() {
        report::say(
            "--plate-colours: the competition colours only exist for kilogram plates; \
             pound plates stay white",
        );
    }
    printing.finish(plan, &exercises)?;
    Ok(to)
}

/// The file for all cards; for images, the name to which the page numbers are added.
fn place(args: &Args, format: Format, stem: &str) -> PathBuf {
    let extension = format.extension();
    let usual = format!("{stem}.{extension}");
    let Some(output) = &args.output else { return PathBuf::from(usual) };
    if format == Format::Pdf || output == Path::new("-") {
        return output.clone();
    }
    let folder = output.is_dir() || output.to_string_lossy().ends_with(['/', '\\']);
    match (folder, format.is_of(output)) {
        (true, _) => output.join(usual),
        (false, true) => output.clone(),
        // A name may contain a point: `week-1.5` is kept as it is.
        (false, false) => PathBuf::from(format!("{}.{extension}", output.display())),
    }
}

/// The file of a page: `cards-01.png` of twelve.
pub fn page_path(path: &Path, number: usize, all: usize) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let extension = path.extension().unwrap_or_default().to_string_lossy();
    let digits = all.to_string().len();
    path.with_file_name(format!("{stem}-{number:0digits$}.{extension}"))
}

/// The creation time in seconds since 1970, if the environment sets one.
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

/// The plural ending for a count.
pub fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}

/// A name as part of a file name: letters and digits of any script, everything else a hyphen.
pub fn file_name(name: &str) -> String {
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
