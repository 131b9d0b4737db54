//! `setwright check`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use clap::ValueEnum;
use jiff::civil::Date;

use crate::bounds::PASSED_SETS;
use crate::compile::{Compiled, check_in_parts};
use crate::diagnostics::{Code, Diagnostic, Severity, has_errors, nearest, printable, render_json};
use crate::plan::{AdviceSwitch, Switch};
use crate::resolve::{Project, roots};
use crate::source::FolderLoader;

use super::cards::plural;
use super::input::{File, files_below};
use super::progress::Progress;
use super::{Failure, output, report};

/// Check a programme and everything it uses
///
/// Reads the programme and all files it uses, evaluates it for every athlete, and reports all
/// problems. A file that another one uses is checked together with it. If there are no errors,
/// check also gives advice on the programme: `setwright explain NAME` explains it, and `advice:`
/// lines in the programme configure it.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright check examples/rowing-club/winter.sets
  setwright check examples")]
pub struct Args {
    /// Programmes (.sets), folders with programmes, or - for standard input
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,

    /// The folder that `use` cannot leave [default: the
    /// folder of the file, or the folder that is checked]
    #[arg(long, value_name = "FOLDER", verbatim_doc_comment)]
    project: Option<PathBuf>,

    /// Today as year-month-day: later dates of maxes and
    /// sessions are reported [default: the end of the
    /// programme or the latest logged session, whichever
    /// is later]
    #[arg(long, value_name = "DATE", verbatim_doc_comment)]
    as_of: Option<Date>,

    /// The output format: for people, or for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,

    /// Show advice from this level up
    #[arg(long, value_enum, default_value_t = Least::Info, value_name = "LEVEL")]
    advice: Least,

    /// Do not show this advice (can be repeated)
    #[arg(long, value_name = "NAME")]
    allow: Vec<String>,

    /// Exit with code 1 if there is any advice
    #[arg(long)]
    strict: bool,

    /// Where to write [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<std::path::PathBuf>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    /// Plain text, with the source line underlined
    Text,
    /// A JSON object with lists of problems and advice
    Json,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum Least {
    /// No advice
    Off,
    /// Warnings and info
    Info,
    /// Warnings only
    Warning,
}

impl Least {
    fn wants(self, advice: &Diagnostic) -> bool {
        match self {
            Least::Off => false,
            Least::Info => true,
            Least::Warning => advice.severity() <= Severity::Warning,
        }
    }
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let allowed: Vec<AdviceSwitch> =
        args.allow.iter().map(|name| allow(name)).collect::<Result<_, _>>()?;
    let suffix = if args.format == Format::Json { "json" } else { "txt" };
    let kinds = [("txt", "--format text"), ("json", "--format json")];
    output::fits(args.output.as_deref(), suffix, &kinds)?;
    let mut all = Vec::new();
    let mut failed = None;
    for (name, project) in projects(args)? {
        match project {
            Ok(project) => {
                let project = Project { as_of: args.as_of, ..project };
                let root = project.root;
                let mut progress = Progress::new();
                let mut programmes = BTreeSet::new();
                let mut compiled = check_in_parts(project, &allowed, PASSED_SETS, &mut |part| {
                    let (all, done) = part.progress;
                    programmes.insert(part.plan.line);
                    progress.tell(done, all);
                });
                drop(progress);
                compiled.advice.retain(|advice| args.advice.wants(advice));
                let files = compiled.sources.iter().filter(|(id, _)| *id >= root).count();
                let read = [
                    counted(files, "file"),
                    counted(programmes.len(), "programme"),
                    counted(compiled.athletes.len(), "athlete"),
                ];
                all.push(Checked { name, read: read.join(", "), compiled });
            }
            // The other files are checked anyway.
            Err(failure) => failed = Some(tell_last(failed, failure)),
        }
    }
    if !all.is_empty() {
        let text = match args.format {
            Format::Json => as_json(&all),
            Format::Text => as_text(&all),
        };
        output::text(args.output.as_deref(), &text)?;
    }
    let fails = |Checked { compiled, .. }: &Checked| {
        has_errors(&compiled.diagnostics) || (args.strict && !compiled.advice.is_empty())
    };
    match failed {
        Some(failure) => Err(failure),
        None if all.iter().any(fails) => Err(Failure::Programme),
        None => Ok(()),
    }
}

/// A file that was checked.
struct Checked {
    /// As it was named.
    name: String,
    /// What was read: `2 files, 1 programme, 6 athletes`.
    read: String,
    compiled: Compiled,
}

fn counted(count: usize, what: &str) -> String {
    format!("{count} {what}{}", plural(count))
}

/// Keeps the newest failure to end with, and says the one before.
fn tell_last(before: Option<Failure>, failure: Failure) -> Failure {
    if let Some(before) = before {
        before.tell();
    }
    failure
}

/// A project under the name it was asked for by.
type NamedProject = (String, Result<Project, Failure>);

/// The projects that are asked for: one for each file that no other of them uses.
fn projects(args: &Args) -> Result<Vec<NamedProject>, Failure> {
    let mut files: Vec<File> = Vec::new();
    for path in &args.files {
        if !path.is_dir() {
            files.push(File { file: path.clone(), project: args.project.clone() });
            continue;
        }
        let project = args.project.clone().or_else(|| Some(path.clone()));
        let below = files_below(path)?;
        if below.is_empty() {
            return Err(Failure::Usage(format!(
                "{}: this folder has no .sets files",
                path.display()
            )));
        }
        let roots = roots(&FolderLoader::new(path), &below).into_iter();
        files.extend(roots.map(|file| File { file: path.join(file), project: project.clone() }));
    }
    let opened: Vec<(&File, Result<Project, Failure>)> =
        files.iter().map(|file| (file, file.open())).collect();
    let used: Vec<BTreeSet<PathBuf>> = opened
        .iter()
        .map(|(file, project)| project.as_ref().map_or_else(|_| BTreeSet::new(), |p| file.uses(p)))
        .collect();
    let paths: Vec<Option<PathBuf>> =
        files.iter().map(|file| file.file.canonicalize().ok()).collect();
    let is_covered = covered(&paths, &used);
    let kept = opened.into_iter().enumerate().filter(|(at, _)| !is_covered.contains(at));
    Ok(kept.map(|(_, (file, project))| (file.file.display().to_string(), project)).collect())
}

/// Which files, by index, others use. Of files that use each other, or that are the same, the first
/// counts as used by nobody. Each file has its path, where it has one, and the paths that it uses;
/// every use is looked at once.
fn covered(paths: &[Option<PathBuf>], used: &[BTreeSet<PathBuf>]) -> BTreeSet<usize> {
    let mut at_path: BTreeMap<&Path, Vec<usize>> = BTreeMap::new();
    for (at, path) in paths.iter().enumerate() {
        at_path.entry(path.as_deref().unwrap_or(Path::new(""))).or_default().push(at);
    }
    let uses = |by: usize, file: usize| {
        let path = paths.get(file).and_then(Option::as_ref);
        path.zip(used.get(by)).is_some_and(|(path, used)| used.contains(path))
    };
    let mut found = BTreeSet::new();
    for (by, used) in used.iter().enumerate() {
        for &at in used.iter().filter_map(|path| at_path.get(path.as_path())).flatten() {
            if by != at && !(at < by && uses(at, by)) {
                found.insert(at);
            }
        }
    }
    found
}

/// What was found, for programs: of one file its lists, of several an object for each.
fn as_json(all: &[Checked]) -> String {
    let lists = |compiled: &Compiled| {
        let list = |all: &[Diagnostic]| -> Vec<_> {
            all.iter().map(|d| render_json(d, &compiled.sources)).collect()
        };
        serde_json::json!({
            "diagnostics": list(&compiled.diagnostics),
            "advice": list(&compiled.advice),
        })
    };
    let file = |Checked { name, compiled, .. }: &Checked| {
        let mut value = lists(compiled);
        if let Some(fields) = value.as_object_mut() {
            fields.insert("file".to_owned(), name.clone().into());
        }
        value
    };
    let value = if let [only] = all {
        lists(&only.compiled)
    } else {
        serde_json::json!({ "files": all.iter().map(file).collect::<Vec<_>>() })
    };
    let mut text = serde_json::to_string_pretty(&value).unwrap_or_default();
    text.push('\n');
    text
}

/// What was found, for people: of several files each under its name.
fn as_text(all: &[Checked]) -> String {
    let mut text = String::new();
    for Checked { name, read, compiled } in all {
        let name = printable(name);
        let found: Vec<Diagnostic> =
            compiled.diagnostics.iter().chain(&compiled.advice).cloned().collect();
        let several = all.len() > 1;
        match (found.is_empty(), several) {
            (true, false) => text.push_str(&format!("{read}, no problems\n")),
            (true, true) => text.push_str(&format!("{name}: {read}, no problems\n")),
            (false, _) => {
                if several {
                    text.push_str(&format!("{name}:\n"));
                }
                text.push_str(&report::text(&found, &compiled.sources));
            }
        }
    }
    text
}

/// Advice that the command line allows everywhere.
fn allow(name: &str) -> Result<AdviceSwitch, Failure> {
    let code = Code::from_name(name.trim()).filter(|code| code.is_advice());
    let Some(code) = code else {
        let known = Code::ADVICE.iter().map(|code| code.name());
        return Err(Failure::Usage(match nearest(name, known) {
            Some(near) => format!("there is no advice `{name}`: did you mean `{near}`?"),
            None => format!("there is no advice `{name}`: `setwright explain` lists it"),
        }));
    };
    let what = Switch::Allow { code: code.name().to_owned(), on: Vec::new() };
    Ok(AdviceSwitch { what, reason: None, line: None })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_files_that_use_each_other_the_first_is_checked() {
        let path = |name: &str| PathBuf::from(name);
        let paths: Vec<Option<PathBuf>> =
            [Some("a"), Some("b"), Some("c"), Some("a"), None].map(|p| p.map(path)).into();
        let uses = |names: &[&str]| names.iter().copied().map(path).collect::<BTreeSet<_>>();
        // Each uses itself; `b` and `c` use each other; `a` is given twice.
        let used = [uses(&["a"]), uses(&["b", "c"]), uses(&["c", "b"]), uses(&["a"]), uses(&[])];
        assert_eq!(covered(&paths, &used), BTreeSet::from([2, 3]));
        let used = [uses(&["a", "b"]), uses(&["b"]), uses(&["c"]), uses(&["a", "b"]), uses(&[])];
        assert_eq!(covered(&paths, &used), BTreeSet::from([1, 3]));
    }
}
