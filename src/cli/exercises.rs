//! `setwright exercises`.

mod able;
mod json;
mod list;
mod show;

use std::path::PathBuf;

use clap::ValueEnum;

use crate::catalogue::{Catalogue, MUSCLES, PATTERNS, Query};
use crate::diagnostics::{has_errors, nearest, no_such, printable};
use crate::quantity::fold_name;
use crate::resolve::{Project, resolve};
use crate::source::MemoryLoader;

use super::input::File;
use super::{Failure, output, report};
use able::Able;

/// Find exercises by name, pattern, muscle or equipment
///
/// Lists built-in exercises and those of a project, by words, by what they train, or by what a gym or
/// an athlete can do. A full name shows everything about that exercise, with its swaps.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright exercises row
  setwright exercises bench press
  setwright exercises --muscle hamstrings --equipment kettlebell
  setwright exercises --pattern \"vertical pull\" --one-sided
  setwright exercises squat --file examples/rowing-club/winter.sets \\
      --gym Boathouse
  setwright exercises --pattern \"horizontal push\" \\
      --file examples/rowing-club/winter.sets --athlete \"Wren Tallow\"")]
pub struct Args {
    /// Words to search for in names, synonyms, patterns, muscles and equipment; all must match. The
    /// full name of an exercise shows everything about it
    #[arg(value_name = "WORD")]
    words: Vec<String>,

    /// Only exercises that train this muscle, sorted by its share
    #[arg(long, value_name = "NAME")]
    muscle: Option<String>,

    /// Only exercises with this movement pattern
    #[arg(long, value_name = "NAME")]
    pattern: Option<String>,

    /// Only exercises with this kind or piece of equipment
    #[arg(long, value_name = "NAME")]
    equipment: Option<String>,

    /// Only unilateral exercises
    #[arg(long)]
    one_sided: bool,

    /// Only compound exercises
    #[arg(long, conflicts_with = "isolation")]
    compound: bool,

    /// Only isolation exercises
    #[arg(long)]
    isolation: bool,

    /// A project, for its exercises, gyms and athletes
    #[arg(long, value_name = "FILE")]
    file: Option<PathBuf>,

    /// Only exercises that this gym can load
    #[arg(long, value_name = "NAME", requires = "file")]
    gym: Option<String>,

    /// Only exercises that this athlete can do in their gym, without those that they avoid or
    /// replace
    #[arg(long, value_name = "NAME", requires = "file")]
    athlete: Option<String>,

    /// The output format: for people, or for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// A table of at most 100 columns
    Text,
    /// A JSON object with a list of exercises
    Json,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let suffix = if args.format == Format::Json { "json" } else { "txt" };
    let kinds = [("txt", "--format text"), ("json", "--format json")];
    output::fits(args.output.as_deref(), suffix, &kinds)?;
    let resolved = resolve(args.open()?);
    let able = Able::new(&resolved, args.gym.as_deref(), args.athlete.as_deref())?;
    if able.is_some() && has_errors(&resolved.diagnostics) {
        report::say("the file has errors: the lines with errors are ignored here");
    }
    let catalogue = Catalogue::new(&resolved.exercises, &resolved.names);
    let query = args.query(&catalogue)?;
    let found = catalogue.search(&query);
    let able = able.as_ref();
    let can = |index: &usize| {
        let refuses = |able: &Able<'_>| able.refuses(*index, catalogue.get(*index)?);
        able.and_then(refuses).is_none()
    };
    let text = match (args.whole_name(&catalogue), args.format) {
        (Some(one), Format::Json) => json::text(&[one], &resolved, able)?,
        (Some(one), Format::Text) => {
            let found: Vec<usize> = found.into_iter().filter(can).collect();
            printable(&show::one(one, &found, &catalogue, able)).into_owned()
        }
        (None, format) => {
            let found = args.able_ones(found, &catalogue, able)?;
            match format {
                Format::Json => json::text(&found, &resolved, able)?,
                // Names come out of lines with errors, too.
                Format::Text => {
                    let table = list::table(&found, &catalogue, query.muscle.as_deref());
                    printable(&table).into_owned()
                }
            }
        }
    };
    output::text(args.output.as_deref(), &text)
}

impl Args {
    fn open(&self) -> Result<Project, Failure> {
        match &self.file {
            None => Ok(Project::from_text(&MemoryLoader::new(), "none.sets", String::new())),
            Some(path) => File { file: path.clone(), project: None }.open(),
        }
    }

    /// The query, with its fixed words checked.
    fn query(&self, catalogue: &Catalogue<'_>) -> Result<Query, Failure> {
        let known = |kind: &str, name: &Option<String>, words: &[&str]| {
            let Some(name) = name else { return Ok(None) };
            let folded = fold_name(name);
            let found = words.iter().find(|word| fold_name(word) == folded);
            let unknown = || Failure::Usage(no_such(kind, name, words));
            found.map(|word| Some((*word).to_owned())).ok_or_else(unknown)
        };
        Ok(Query {
            words: self.words.clone(),
            muscle: known("muscle", &self.muscle, MUSCLES)?,
            pattern: known("pattern", &self.pattern, PATTERNS)?,
            equipment: known("equipment", &self.equipment, &catalogue.equipment_names())?,
            each_side: self.one_sided.then_some(true),
            compound: if self.isolation { Some(false) } else { self.compound.then_some(true) },
        })
    }

    /// The exercise whose full name the words are, if no option narrows the search.
    fn whole_name(&self, catalogue: &Catalogue<'_>) -> Option<usize> {
        let narrowed = self.muscle.is_some()
            || self.pattern.is_some()
            || self.equipment.is_some()
            || self.one_sided
            || self.compound
            || self.isolation;
        let name = self.words.join(" ");
        catalogue.named(&name).map(|(index, _)| index).filter(|_| !narrowed)
    }

    /// The exercises that can be done, or an error with the reasons why none can.
    fn able_ones(
        &self,
        found: Vec<usize>,
        catalogue: &Catalogue<'_>,
        able: Option<&Able<'_>>,
    ) -> Result<Vec<usize>, Failure> {
        if found.is_empty() {
            return Err(Failure::Usage(self.nothing(catalogue)));
        }
        let Some(able) = able else { return Ok(found) };
        let exercises = found.iter().filter_map(|index| Some((*index, catalogue.get(*index)?)));
        let (can, cannot): (Vec<_>, Vec<_>) =
            exercises.partition(|(index, exercise)| able.refuses(*index, exercise).is_none());
        if can.is_empty() {
            // Why not, for as many as are read.
            let why = cannot.iter().take(3).filter_map(|(index, exercise)| {
                Some(format!("{}: {}", exercise.name, able.refuses(*index, exercise)?))
            });
            let more = cannot.len().saturating_sub(3);
            let more = if more > 0 { format!("; and {more} more") } else { String::new() };
            return Err(Failure::Usage(format!(
                "none of the exercises that match {} can be done: {}{more}",
                self.asked(),
                why.collect::<Vec<_>>().join("; ")
            )));
        }
        Ok(can.into_iter().map(|(index, _)| index).collect())
    }

    fn nothing(&self, catalogue: &Catalogue<'_>) -> String {
        let names = catalogue.all().map(|(_, exercise)| exercise.name.as_str());
        let near = nearest(&self.words.join(" "), names);
        let help = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => "use fewer words to find more".to_owned(),
        };
        format!("no exercise matches {}: {help}", self.asked())
    }

    /// Everything that was asked for, in words.
    fn asked(&self) -> String {
        let words = (!self.words.is_empty()).then(|| format!("`{}`", self.words.join(" ")));
        let one = |kind: &str, name: &Option<String>| {
            name.as_ref().map(|name| format!("the {kind} `{name}`"))
        };
        let flags = [
            (self.one_sided, "unilateral exercises"),
            (self.compound, "compound"),
            (self.isolation, "isolation"),
        ];
        let flags = flags.into_iter().filter(|(on, _)| *on).map(|(_, word)| word.to_owned());
        let all = [
            words,
            one("muscle", &self.muscle),
            one("pattern", &self.pattern),
            one("equipment", &self.equipment),
        ];
        let all: Vec<String> = all.into_iter().flatten().chain(flags).collect();
        if all.is_empty() { "that".to_owned() } else { all.join(", ") }
    }
}
