//! Prints sheets while athletes are evaluated. The files are put in place at the end, if there is no
//! error.

use std::path::{Path, PathBuf};

use crate::bounds::{PASSED_SETS, PLANNED_SETS};
use crate::catalogue::Exercises;
use crate::plan::{AthletePlan, Past, Plan};
use crate::quantity::Unit;
use crate::sheets::{self, CardOptions, PdfRenderer, Picture, Printed, Sheet, SheetError, Wanted};

use super::cards::{Format, file_name, page_path, plural};
use super::input::Athletes;
use super::output::OutputFile;
use super::sheet::Which;
use super::spool::{Files, Spool};
use super::{Failure, output, report};

/// How sheets are written.
pub struct PrintJob<'a> {
    pub options: CardOptions,
    pub format: Format,
    pub dpi: u16,
    /// The name that a single page is written under, not numbered: the coach gave it in full.
    pub exact: Option<&'a Path>,
    pub which: &'a Which,
    /// The coach chose weeks.
    pub weeks: bool,
}

/// Where each athlete's file goes, and what its name begins with.
pub struct AthleteFiles {
    pub folder: PathBuf,
    pub stem: String,
}

/// Sheets that are being printed.
pub struct Printing<'a> {
    job: &'a PrintJob<'a>,
    /// The sheets, without the exercises of wall cards.
    wanted: Wanted,
    to: Destination,
    /// How many athletes have come.
    come: usize,
    /// How many athletes and sessions are printed.
    people: usize,
    sessions: usize,
    /// Sessions that get no card.
    left_out: Past,
    pounds: bool,
    /// What stopped the printing, if not the programme.
    failed: Option<Failure>,
}

/// Where sheets go.
enum Destination {
    /// Into one PDF, which is written as athletes come.
    Book(PathBuf, Option<Box<PdfRenderer<OutputFile>>>),
    /// Into files of each athlete.
    Files(AthleteFiles, Spool),
    /// They take all athletes at once.
    Whole(Option<AthleteFiles>, PathBuf, Vec<AthletePlan>),
}

impl<'a> Printing<'a> {
    fn new(job: &'a PrintJob<'a>, sheets: Vec<Sheet>, to: Destination) -> Self {
        let wanted = Wanted { sheets, posters: Vec::new() };
        Self {
            job,
            wanted,
            to,
            come: 0,
            people: 0,
            sessions: 0,
            left_out: Past::default(),
            pounds: false,
            failed: None,
        }
    }

    /// One PDF of all athletes, or an image a page.
    pub fn together(job: &'a PrintJob<'a>, sheets: Vec<Sheet>, path: PathBuf) -> Self {
        let mut printing = Self::new(job, sheets, Destination::Whole(None, path, Vec::new()));
        if job.format == Format::Pdf
            && printing.wanted.is_by_athlete(&job.options)
            && let Destination::Whole(_, path, _) = &mut printing.to
        {
            printing.to = Destination::Book(std::mem::take(path), None);
        }
        printing
    }

    /// The most planned sets that can be printed like this.
    pub fn most(&self) -> usize {
        if matches!(self.to, Destination::Whole(..)) { PLANNED_SETS } else { PASSED_SETS }
    }

    /// A PDF for each athlete, or their images.
    pub fn each(job: &'a PrintJob<'a>, sheets: Vec<Sheet>, folder: AthleteFiles) -> Self {
        // Wall cards need to know the exercises.
        let to = if sheets.contains(&Sheet::Wall) {
            Destination::Whole(Some(folder), PathBuf::new(), Vec::new())
        } else {
            let spool = Spool::beside(&folder.folder);
            Destination::Files(folder, spool)
        };
        Self::new(job, sheets, to)
    }

    /// Whether any athlete's plates are marked in pounds.
    pub fn has_pounds(&self) -> bool {
        self.pounds
    }

    /// Prints some athletes' sheets.
    pub fn take(&mut self, Athletes { plan, sound }: Athletes) {
        let (people, sessions) = self.job.printed(&plan.athletes);
        self.come += plan.athletes.len();
        self.people += people;
        self.sessions += sessions;
        if self.job.options.to_come && self.job.which.has_sessions() {
            let past = Past::of(&plan.athletes);
            self.left_out.skipped += past.skipped;
            self.left_out.past += past.past;
        }
        self.pounds |= plan.athletes.iter().any(|athlete| athlete.unit == Unit::Lb);
        // The errors are told at the end, and nothing is made.
        if sound && self.failed.is_none() {
            self.failed = self.print(plan).err();
        }
    }

    fn print(&mut self, plan: Plan) -> Result<(), Failure> {
        let Self { job, wanted, to, come, .. } = self;
        match to {
            Destination::Whole(.., athletes) => athletes.extend(plan.athletes),
            Destination::Book(path, press) => {
                if press.is_none() {
                    *press =
                        Some(Box::new(PdfRenderer::new(OutputFile::begin(path)?, job.options)));
                }
                if let Some(press) = press {
                    press.add(&plan, wanted).map_err(|error| failure(error, path))?;
                }
            }
            Destination::Files(folder, spool) => {
                let first = *come - plan.athletes.len() + 1;
                for (number, part) in (first..).zip(plan.per_athlete()) {
                    if job.printed(&part.athletes).1 == 0 {
                        continue;
                    }
                    spool.add(&job.files(
                        &part,
                        wanted,
                        &folder.path(number, &part, job.format),
                    )?)?;
                }
            }
        }
        Ok(())
    }

    /// Puts what was printed into its place. The plan needs no athletes any more.
    pub fn finish(self, mut plan: Plan, exercises: &Exercises) -> Result<(), Failure> {
        let Self { job, to, people, sessions, left_out, failed, .. } = self;
        if let Some(said) = job.left_out(left_out) {
            report::say(&said);
        }
        if sessions == 0 && left_out.count() > 0 {
            let why = "there is nothing left to print, so no file was written";
            return Err(Failure::NothingLeft(why.to_owned()));
        }
        match to {
            Destination::Whole(None, path, athletes) => {
                plan.athletes = athletes;
                let wanted = job.which.wanted(&plan, exercises)?;
                job.files(&plan, &wanted, &path)?.write()
            }
            Destination::Whole(Some(folder), _, athletes) => {
                plan.athletes = athletes;
                folder.make()?;
                for (number, part) in (1..).zip(plan.per_athlete()) {
                    let wanted = job.which.wanted(&part, exercises)?;
                    job.files(&part, &wanted, &folder.path(number, &part, job.format))?.write()?;
                }
                Ok(())
            }
            Destination::Files(folder, spool) => {
                job.which.wanted(&plan, exercises)?;
                folder.make()?;
                spool.write()?;
                failed.map_or(Ok(()), Err)
            }
            Destination::Book(path, press) => {
                let wanted = job.which.wanted(&plan, exercises)?;
                if let Some(failed) = failed {
                    return Err(failed);
                }
                let Some(press) = press else { return Err(failure(SheetError::NoSessions, &path)) };
                let printed =
                    press.finish(&plan, &wanted).map_err(|error| failure(error, &path))?;
                let Printed { to, pages, .. } = printed;
                to.finish()?;
                let said = told(&wanted, &path.display().to_string(), (people, sessions), pages);
                if path != Path::new("-") {
                    report::say(&said);
                }
                Ok(())
            }
        }
    }
}

impl AthleteFiles {
    fn path(&self, number: usize, part: &Plan, format: Format) -> PathBuf {
        let name = part.athletes.first().map_or("", |athlete| athlete.name.as_str());
        let (stem, extension) = (&self.stem, format.extension());
        self.folder.join(format!("{stem}-{number:02}-{}.{extension}", file_name(name)))
    }

    /// Makes the folder.
    fn make(&self) -> Result<(), Failure> {
        if self.folder == Path::new("-") {
            let why = "--per-athlete writes several files: name a folder".to_owned();
            return Err(Failure::Usage(why));
        }
        output::folder(&self.folder)
    }
}

/// The message about written sheets.
fn told(wanted: &Wanted, what: &str, (people, sessions): (usize, usize), pages: usize) -> String {
    format!(
        "{what}: {} for {people} athlete{}, {pages} page{}",
        Which::told(wanted, sessions),
        plural(people),
        plural(pages),
    )
}

/// Images of pages.
struct Pictured {
    /// What they are called together.
    what: String,
    pages: usize,
    files: Vec<(PathBuf, Vec<u8>)>,
}

impl PrintJob<'_> {
    /// How many athletes and sessions are printed.
    fn printed(&self, athletes: &[AthletePlan]) -> (usize, usize) {
        let by_session = self.which.sheets().into_iter().all(Sheet::is_by_session);
        let only_to_come = self.options.to_come && by_session;
        let sessions = athletes.iter().map(|athlete| {
            let sessions = athlete.sessions.iter();
            sessions.filter(|session| !only_to_come || session.is_to_come()).count()
        });
        let sessions: Vec<usize> = sessions.collect();
        let people = sessions.iter().filter(|count| !only_to_come || **count > 0).count();
        (people, sessions.into_iter().sum())
    }

    /// The message about sessions without a card; `None` if there are none.
    fn left_out(&self, left_out: Past) -> Option<String> {
        let Past { skipped, past } = left_out;
        let counts = [(skipped, "skipped"), (past, "already past according to the log")];
        let counts = counts.iter().filter(|(count, _)| *count > 0);
        let counts: Vec<String> = counts.map(|(count, what)| format!("{count} {what}")).collect();
        let what =
            if self.which.has_cards() { "cards left out" } else { "left out of rack sheets" };
        let chosen = if self.weeks { ", in the weeks you chose" } else { "" };
        (!counts.is_empty())
            .then(|| format!("{what}: {}{chosen}; --all prints them", counts.join(", ")))
    }

    /// The files of a plan, for a path or, of images, paths like it.
    fn files(&self, plan: &Plan, wanted: &Wanted, path: &Path) -> Result<Files, Failure> {
        let Pictured { what, pages, files } = match self.format {
            Format::Pdf => {
                let printed = sheets::print(plan, wanted, &self.options);
                let printed = printed.map_err(|error| failure(error, path))?;
                let files = vec![(path.to_owned(), printed.bytes)];
                Pictured { what: path.display().to_string(), pages: printed.pages, files }
            }
            Format::Svg => self.pictures(plan, wanted, path, Picture::Svg)?,
            Format::Png => self.pictures(plan, wanted, path, Picture::Png(self.dpi))?,
        };
        let said = told(wanted, &what, self.printed(&plan.athletes), pages);
        let said = Some(said).filter(|_| path != Path::new("-"));
        // A PDF is put where there is a folder; images get one.
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
        let folder = folder.filter(|_| self.format != Format::Pdf).map(Path::to_owned);
        Ok(Files { said, folder, written: files })
    }

    /// An image a page.
    fn pictures(
        &self,
        plan: &Plan,
        wanted: &Wanted,
        path: &Path,
        picture: Picture,
    ) -> Result<Pictured, Failure> {
        let pages = sheets::pictures(plan, wanted, &self.options, picture);
        let pages = pages.map_err(|error| failure(error, path))?.pages;
        let all = pages.len();
        let name = |number| match self.exact {
            Some(exact) if all == 1 && exact == path => path.to_owned(),
            _ if path == Path::new("-") => path.to_owned(),
            _ => page_path(path, number, all),
        };
        if path == Path::new("-") && all != 1 {
            return Err(Failure::Usage(format!(
                "there are {all} pages, one file for each: name a file or a folder"
            )));
        }
        let numbered = pages.into_iter().zip(1..);
        let files = numbered.map(|(bytes, number)| (name(number), bytes)).collect();
        let name = |number| name(number).display().to_string();
        let what = if all == 1 { name(1) } else { format!("{} … {}", name(1), name(all)) };
        Ok(Pictured { what, pages: all, files })
    }
}

fn failure(error: SheetError, path: &Path) -> Failure {
    match error {
        SheetError::NoSessions => {
            report::say(&format!("setwright: {error}"));
            Failure::Programme
        }
        SheetError::Write(why) => Failure::File(format!("{}: {why}", path.display())),
        error => Failure::File(error.to_string()),
    }
}
