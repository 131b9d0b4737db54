//! Opening a project from the command line.

use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use clap::builder::{EnumValueParser, PossibleValue, TypedValueParser};
use clap::error::ErrorKind;
use clap::{Args, ValueEnum};
use jiff::civil::Date;

use crate::bounds::{FOLDER_FILES, PLANNED_SETS};
use crate::catalogue::Exercises;
use crate::compile::{Choice, Compiled, compile_in_parts};
use crate::diagnostics::{has_errors, no_such};
use crate::evaluate::{Assumptions, MissingLogPolicy, Path as Future};
use crate::plan::{Plan, Selection};
use crate::resolve::Project;
use crate::source::{Depth, FolderLoader, LoadError, files_of, read_text};

use super::progress::Progress;
use super::{Failure, nearby, report};

/// The name under which standard input appears as a file.
const STANDARD_INPUT: &str = "standard-input.sets";

/// The file a command works on.
#[derive(Args, Debug)]
pub struct File {
    /// The programme (.sets), or - for standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,

    /// The folder that `use` cannot leave [default: the folder of the file]
    #[arg(long, value_name = "FOLDER")]
    pub project: Option<PathBuf>,
}

/// Which part of the plan.
#[derive(Args, Debug)]
pub struct PlanArgs {
    /// Which programme, if the project has several
    #[arg(long, value_name = "NAME")]
    pub programme: Option<String>,

    /// Only this athlete: the name, or as much of it as no other begins with (may be given several
    /// times)
    #[arg(long, value_name = "NAME")]
    pub athlete: Vec<String>,

    /// Only these weeks: 3, 3-4, or 1,4,6-8
    #[arg(long, alias = "week", value_name = "WEEKS", value_parser = weeks)]
    pub weeks: Option<Weeks>,

    /// Only this day: its name or its weekday, such as Mon (may be given several times)
    #[arg(long, value_name = "NAME")]
    pub day: Vec<String>,

    /// What to assume of sessions that no log mentions (may be given for both kinds)
    #[arg(long, value_parser = AssumeParser::<Assume>::new(), value_name = "WHAT")]
    pub assume: Vec<Assume>,

    /// Today as year-month-day: later dates of maxes and
    /// sessions are reported [default: the end of the
    /// programme or the latest logged session, whichever
    /// is later]
    #[arg(long, value_name = "DATE", verbatim_doc_comment)]
    pub as_of: Option<Date>,
}

/// What no log says.
#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assume {
    /// A session passed over neither progresses nor counts as missed (the default)
    Neutral,
    /// A session passed over was done as planned
    Done,
    /// Past sessions were missed
    Missed,
    /// Future sessions are done as prescribed (the default)
    Planned,
    /// Every future set reaches the top of its range
    Best,
    /// Every future rule goes against the athlete
    Worst,
}

/// What to make of a session that was passed over: the part of [`Assume`] that looks back.
#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassedOver {
    /// It neither progresses nor counts as missed (the default)
    Neutral,
    /// It was done as planned
    Done,
    /// They were missed
    Missed,
}

/// Reads what to assume; the old word is an error that names the new one.
#[derive(Clone, Debug)]
pub struct AssumeParser<T: ValueEnum + Clone + Send + Sync + 'static>(EnumValueParser<T>);

impl<T: ValueEnum + Clone + Send + Sync + 'static> AssumeParser<T> {
    /// A parser of the enum's words.
    pub fn new() -> Self {
        Self(EnumValueParser::new())
    }
}

impl<T: ValueEnum + Clone + Send + Sync + 'static> TypedValueParser for AssumeParser<T> {
    type Value = T;

    fn parse_ref(
        &self,
        command: &clap::Command,
        argument: Option<&clap::Arg>,
        value: &OsStr,
    ) -> Result<T, clap::Error> {
        if value == "ask" {
            let why = "`--assume ask` is now written `--assume neutral`\n";
            return Err(clap::Error::raw(ErrorKind::InvalidValue, why).with_cmd(command));
        }
        self.0.parse_ref(command, argument, value)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        self.0.possible_values()
    }
}

impl From<PassedOver> for Assume {
    fn from(what: PassedOver) -> Self {
        match what {
            PassedOver::Neutral => Self::Neutral,
            PassedOver::Done => Self::Done,
            PassedOver::Missed => Self::Missed,
        }
    }
}

impl PlanArgs {
    /// The assumptions, the last word of each kind.
    fn assumptions(&self) -> Assumptions {
        let mut found = Assumptions::default();
        for assume in &self.assume {
            match assume {
                Assume::Neutral => found.missing = MissingLogPolicy::Neutral,
                Assume::Done => found.missing = MissingLogPolicy::Done,
                Assume::Missed => found.missing = MissingLogPolicy::Missed,
                Assume::Planned => found.path = Future::Planned,
                Assume::Best => found.path = Future::Best,
                Assume::Worst => found.path = Future::Worst,
            }
        }
        found
    }
}

/// Weeks of a programme: the first and the last of each run.
#[derive(Clone, Debug)]
pub struct Weeks(pub Vec<(u32, u32)>);

fn weeks(text: &str) -> Result<Weeks, String> {
    let number = |part: &str| part.trim().parse::<u32>().ok().filter(|n| *n > 0);
    let run = |text: &str| {
        let (first, last) = text.split_once(['-', '–']).unwrap_or((text, text));
        number(first).zip(number(last)).filter(|(first, last)| first <= last)
    };
    let runs: Option<Vec<(u32, u32)>> = text.split(',').map(run).collect();
    runs.map(Weeks).ok_or_else(|| {
        "write weeks and ranges with commas between them, such as 3, 3-4 or 1,4,6-8".to_owned()
    })
}

impl File {
    /// Whether the text comes from standard input.
    pub fn is_standard_input(&self) -> bool {
        self.file == Path::new("-")
    }

    /// The first part of the names of files that are made from it: its own name, or `usual` for
    /// standard input.
    pub fn stem(&self, usual: &str) -> String {
        let own = self.file.file_stem().filter(|_| !self.is_standard_input());
        own.map_or_else(|| usual.to_owned(), |stem| stem.to_string_lossy().into_owned())
    }

    /// Opens the project.
    pub fn open(&self) -> Result<Project, Failure> {
        let cannot = |why: &dyn std::fmt::Display| Failure::File(why.to_string());
        if self.is_standard_input() {
            let folder = self.project.clone().unwrap_or_else(|| PathBuf::from("."));
            let loader = FolderLoader::new(&folder);
            return match read_text(std::io::stdin().lock()) {
                Ok(text) => Ok(Project::from_text(&loader, STANDARD_INPUT, text)),
                Err(LoadError::Unreadable(why)) => Err(cannot(&format!("standard input: {why}"))),
                Err(error) => Ok(Project::unread(&loader, STANDARD_INPUT, error)),
            };
        }
        if self.file.is_dir() {
            return Err(nearby::is_folder(&self.file));
        }
        let (own, folder) = (self.own_folder(), self.project_folder());
        let inside = path_inside(&folder, &own, &self.file)?;
        Project::open(&FolderLoader::new(&folder), &inside).map_err(|error| cannot(&error))
    }

    /// The file; of a folder, its one programme.
    pub fn in_folder(&self) -> Result<Self, Failure> {
        let (mut file, mut project) = (self.file.clone(), self.project.clone());
        if file.is_dir() {
            project = project.or_else(|| Some(file.clone()));
            file = nearby::only_programme(&file)?;
        }
        Ok(Self { file, project })
    }

    /// The folder of the file.
    fn own_folder(&self) -> PathBuf {
        let parent = self.file.parent().filter(|p| !p.as_os_str().is_empty());
        parent.map_or_else(|| PathBuf::from("."), Path::to_owned)
    }

    /// The folder that the paths of the project start from.
    pub fn project_folder(&self) -> PathBuf {
        self.project.clone().unwrap_or_else(|| self.own_folder())
    }

    /// The folders of the project's files.
    pub fn folders(&self) -> Result<BTreeSet<PathBuf>, Failure> {
        let project = self.open()?;
        let folder = |path: PathBuf| path.parent().map(Path::to_owned);
        Ok(self.paths(&project).filter_map(folder).collect())
    }

    /// The files of its project, where they really are.
    pub fn uses(&self, project: &Project) -> BTreeSet<PathBuf> {
        self.paths(project).filter_map(|path| path.canonicalize().ok()).collect()
    }

    /// The files of its project, the built-in ones left out.
    fn paths(&self, project: &Project) -> impl Iterator<Item = PathBuf> {
        let root = self.project_folder();
        let files = project.sources.iter().filter(|(id, _)| *id >= project.root);
        files.map(move |(_, file)| root.join(&*file.path))
    }

    /// Opens and compiles the project, and shows what is wrong with it on standard error. A
    /// programme with errors stops here.
    pub fn compile(&self, part: &PlanArgs) -> Result<Plan, Failure> {
        let mut athletes = Vec::new();
        let take = &mut |part: Athletes| athletes.extend(part.plan.athletes);
        let (plan, _) = self.compile_in_parts(part, PLANNED_SETS, take)?;
        Ok(Plan { athletes, ..plan })
    }

    /// The same, with the chosen sessions handed on, some athletes at a time: what is made of them
    /// may be kept only if this ends well. What comes back has no athletes. More planned sets
    /// than `most` are an error.
    pub fn compile_in_parts(
        &self,
        part: &PlanArgs,
        most: usize,
        take: &mut dyn FnMut(Athletes),
    ) -> Result<(Plan, Exercises), Failure> {
        let project = Project { as_of: part.as_of, ..self.open()? };
        let mut days: Vec<String> = Vec::new();
        let mut unmet = part.day.clone();
        let selection = part.selection();
        let mut progress = Progress::new();
        let compiled = compile_in_parts(project, &part.choice(), most, &mut |worked| {
            let (all, done) = worked.progress;
            for name in worked.plan.day_names() {
                if !days.iter().any(|known| known == name) {
                    days.push(name.to_owned());
                }
            }
            unmet.retain(|day| !worked.plan.has_day(day));
            take(Athletes { plan: worked.plan.select(&selection), sound: worked.sound });
            progress.tell(done, all);
        });
        drop(progress);
        let compiled = compiled.map_err(|wrong| Failure::Usage(wrong.0))?;
        let (plan, exercises) = self.sound(compiled)?;
        if let Some(day) = unmet.first() {
            let names: Vec<&str> = days.iter().map(String::as_str).collect();
            return Err(Failure::Usage(no_such("day", day, &names)));
        }
        part.fits(&plan)?;
        Ok((plan, exercises))
    }

    /// Shows what is wrong with a project on standard error. A programme with errors stops here.
    fn sound(&self, compiled: Compiled) -> Result<(Plan, Exercises), Failure> {
        report::show(&compiled.diagnostics, &compiled.sources);
        if has_errors(&compiled.diagnostics) {
            return Err(Failure::Programme);
        }
        let Some(plan) = compiled.plan else {
            if !self.is_standard_input() {
                report::say(&nearby::no_programme(&self.file, &self.own_folder()));
            }
            return Err(Failure::Programme);
        };
        Ok((plan, compiled.exercises))
    }
}

/// The files of the notation in a folder and below it, by their paths from there, sorted; what a
/// `.gitignore` there names and what is hidden is left out.
pub fn files_below(folder: &Path) -> Result<Vec<String>, Failure> {
    let mut files = Vec::new();
    for file in files_of(folder, Depth::Below) {
        files.extend(file.map_err(|error| Failure::File(error.to_string()))?);
        if files.len() > FOLDER_FILES {
            let why = format!("more than {FOLDER_FILES} files: name its subfolders instead");
            return Err(Failure::File(format!("{}: {why}", folder.display())));
        }
    }
    files.sort();
    Ok(files)
}

/// The path of a file as seen from the project folder.
fn path_inside(folder: &Path, own: &Path, file: &Path) -> Result<String, Failure> {
    let real = |path: &Path| {
        path.canonicalize().map_err(|error| Failure::File(format!("{}: {error}", path.display())))
    };
    let (root, own) = (real(folder)?, real(own)?);
    let outside =
        || Failure::Usage(format!("{} is not in the folder {}", file.display(), folder.display()));
    let below = own.strip_prefix(&root).map_err(|_| outside())?;
    let name = file
        .file_name()
        .ok_or_else(|| Failure::Usage(format!("{} is not a file", file.display())))?;
    let parts: Vec<String> = below
        .components()
        .map(std::path::Component::as_os_str)
        .chain([name])
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    Ok(parts.join("/"))
}

/// Some athletes of a plan, with their chosen sessions.
pub struct Athletes {
    /// Their plan.
    pub plan: Plan,
    /// Whether no error has been found so far.
    pub sound: bool,
}

impl PlanArgs {
    /// Which programme, and whose plans.
    fn choice(&self) -> Choice {
        Choice {
            programme: self.programme.clone(),
            athletes: self.athlete.clone(),
            assumptions: self.assumptions(),
        }
    }

    /// Whether weeks are chosen.
    pub fn chooses_weeks(&self) -> bool {
        self.weeks.is_some()
    }

    /// The chosen sessions.
    fn selection(&self) -> Selection {
        let weeks = self.weeks.as_ref().map_or_else(Vec::new, |weeks| weeks.0.clone());
        Selection { weeks, days: self.day.clone() }
    }

    /// Whether a plan has the weeks that are chosen.
    fn fits(&self, plan: &Plan) -> Result<(), Failure> {
        let weeks = self.selection().weeks;
        match weeks.iter().find(|(first, _)| *first > plan.weeks) {
            Some((first, _)) => Err(Failure::Usage(format!(
                "there is no week {first}: the programme has {}",
                plan.weeks
            ))),
            None => Ok(()),
        }
    }
}
