//! Shell completion: options, words, files, and names from the project.
//!
//! The scripts of `setwright completions` ask the program itself: it is run with
//! `SETWRIGHT_COMPLETE` set to the shell's name and the words of the command line after `--`.

use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::{Arc, OnceLock};

use clap::Command;
use clap_complete::engine::{ArgValueCompleter, CompletionCandidate, PathCompleter};
use clap_complete::env::Shells;

use crate::catalogue::{MUSCLES, PATTERNS};
use crate::diagnostics::{Code, printable};
use crate::quantity::fold_name;
use crate::resolve::{Resolved, resolve};

use super::input::File;
use super::{command, output};

/// The variable that requests candidates instead of running a command. `main` passes its value in.
pub const VARIABLE: &str = "SETWRIGHT_COMPLETE";
/// How many files of the folder are searched for names if the command line has no file.
const MOST_FILES: usize = 20;

/// What kind of name an option or a word takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum NameKind {
    Athletes,
    Exercises,
    Programmes,
    Days,
    Gyms,
    Muscles,
    Patterns,
    Findings,
    Advice,
    /// A file of the notation, or a folder on the way to it.
    Files,
}

/// Which names belong to an argument, by its place and its own name.
fn names_of(command: &str, argument: &str) -> Option<NameKind> {
    Some(match (command, argument) {
        ("explain", "name") => NameKind::Findings,
        ("exercises", "words") | ("why", "order") | (_, "exercise") => NameKind::Exercises,
        (_, "athlete") => NameKind::Athletes,
        (_, "programme") => NameKind::Programmes,
        (_, "day") => NameKind::Days,
        (_, "gym") => NameKind::Gyms,
        (_, "muscle") => NameKind::Muscles,
        (_, "pattern") => NameKind::Patterns,
        ("check", "allow") => NameKind::Advice,
        (_, "file" | "files") => NameKind::Files,
        _ => return None,
    })
}

/// Prints what fits where the cursor is, for one of the shells.
#[must_use]
pub fn candidates(arguments: impl IntoIterator<Item = OsString>, shell: &str) -> ExitCode {
    let words: Vec<OsString> =
        arguments.into_iter().skip_while(|word| word != "--").skip(1).collect();
    let shells = Shells::builtins();
    let Some(completer) = shells.completer(shell) else { return ExitCode::from(2) };
    if words.is_empty() {
        return ExitCode::from(2);
    }
    let mut command = with_names(command(), &words);
    command.build();
    let mut found = Vec::new();
    let done = completer.write_complete(&mut command, words, None, &mut found);
    if done.is_ok() && output::bytes(Path::new("-"), &found).is_ok() {
        ExitCode::SUCCESS
    } else {
        ExitCode::from(2)
    }
}

/// The command line with candidates for everything that takes a name.
fn with_names(command: Command, words: &[OsString]) -> Command {
    let projects = Arc::new(Projects { words: words.to_vec(), read: OnceLock::new() });
    command.mut_subcommands(|sub| {
        let name = sub.get_name().to_owned();
        sub.mut_args(|argument| {
            let Some(names) = names_of(&name, argument.get_id().as_str()) else { return argument };
            let projects = Arc::clone(&projects);
            argument.add(match names {
                NameKind::Files => ArgValueCompleter::new(files()),
                names => {
                    ArgValueCompleter::new(move |start: &OsStr| projects.fitting(names, start))
                }
            })
        })
    })
}

fn files() -> PathCompleter {
    PathCompleter::any().filter(|path| {
        let name = path.to_string_lossy();
        path.extension().is_some_and(|end| end == "sets") && printable(&name) == name
    })
}

/// The projects that names are taken from, read when the first name is asked for.
struct Projects {
    words: Vec<OsString>,
    read: OnceLock<Vec<Resolved>>,
}

impl Projects {
    /// The names that begin as what is typed so far, in the order of the files.
    fn fitting(&self, names: NameKind, start: &OsStr) -> Vec<CompletionCandidate> {
        let start = fold_name(&plain(&start.to_string_lossy()));
        let mut found: Vec<String> = Vec::new();
        for name in self.all(names) {
            // A name out of a line that a finding is about must not steer the terminal.
            let fits = fold_name(&name).starts_with(&start) && printable(&name) == name;
            if fits && !found.contains(&name) {
                found.push(name);
            }
        }
        found.into_iter().map(CompletionCandidate::new).collect()
    }

    fn all(&self, names: NameKind) -> Vec<String> {
        let known = |words: &[&str]| words.iter().map(|word| (*word).to_owned()).collect();
        let codes = |wanted: fn(Code) -> bool| -> Vec<String> {
            let wanted = Code::ALL.iter().filter(|code| wanted(**code));
            wanted.map(|code| code.name().to_owned()).collect()
        };
        match names {
            NameKind::Muscles => known(MUSCLES),
            NameKind::Patterns => known(PATTERNS),
            NameKind::Findings => codes(|_| true),
            NameKind::Advice => codes(Code::is_advice),
            NameKind::Files => Vec::new(),
            _ => self.read().iter().flat_map(|project| of_project(names, project)).collect(),
        }
    }

    fn read(&self) -> &[Resolved] {
        self.read.get_or_init(|| {
            let named: Vec<PathBuf> = self.words.iter().filter_map(named_file).collect();
            let files = if named.is_empty() { beside() } else { named };
            let mut read: Vec<Resolved> = files.iter().filter_map(|file| open(file)).collect();
            // The built-in exercises are there without any file.
            if read.is_empty() {
                let loader = crate::source::MemoryLoader::new();
                let nothing =
                    crate::resolve::Project::from_text(&loader, "none.sets", String::new());
                read.push(resolve(nothing));
            }
            read
        })
    }
}

fn of_project(names: NameKind, project: &Resolved) -> Vec<String> {
    let programmes = || project.programmes.iter();
    match names {
        NameKind::Athletes => project.athletes.iter().map(|of| of.athlete.name.clone()).collect(),
        NameKind::Exercises => project.exercises.iter().map(|of| of.name.clone()).collect(),
        NameKind::Programmes => programmes().map(|of| of.name.clone()).collect(),
        NameKind::Days => {
            programmes().flat_map(|of| &of.days).map(|day| day.name.clone()).collect()
        }
        NameKind::Gyms => project.gyms.iter().map(|gym| gym.name.clone()).collect(),
        _ => Vec::new(),
    }
}

/// A word of the command line that is a file of the notation.
fn named_file(word: impl AsRef<OsStr>) -> Option<PathBuf> {
    let is_file = |path: &Path| path.extension().is_some_and(|end| end == "sets") && path.is_file();
    let word = word.as_ref();
    let as_typed = PathBuf::from(word);
    let unquoted = PathBuf::from(plain(&word.to_string_lossy()));
    [as_typed, unquoted].into_iter().find(|path| is_file(path))
}

/// The files of the notation in this folder, by name.
fn beside() -> Vec<PathBuf> {
    let entries = std::fs::read_dir(".").into_iter().flatten().filter_map(Result::ok);
    let mut files: Vec<PathBuf> =
        entries.filter_map(|entry| named_file(entry.file_name())).collect();
    files.sort();
    files.truncate(MOST_FILES);
    files
}

/// A project with all that could be read of it: names are wanted while a programme is being written.
fn open(file: &Path) -> Option<Resolved> {
    File { file: file.to_owned(), project: None }.open().ok().map(resolve)
}

/// A word as it is meant, not as it is quoted for a shell.
fn plain(word: &str) -> String {
    let mut out = String::new();
    let mut signs = word.chars();
    while let Some(sign) = signs.next() {
        match sign {
            '\\' => out.extend(signs.next()),
            '"' | '\'' => {}
            sign => out.push(sign),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotes_of_a_shell_are_no_part_of_a_name() {
        for typed in ["Wren\\ Tallow", "\"Wren Tallow\"", "'Wren Tallow", "Wren Tallow"] {
            assert_eq!(plain(typed), "Wren Tallow");
        }
    }

    /// An option that takes a name and has no candidates would be a silent gap.
    #[test]
    fn every_argument_that_takes_a_name_has_candidates() {
        let mut without = Vec::new();
        for sub in command().get_subcommands() {
            for argument in sub.get_arguments() {
                let id = argument.get_id().as_str();
                let named = argument.get_value_names().is_some_and(|all| {
                    all.iter().any(|name| ["NAME", "ATHLETE"].contains(&name.as_str()))
                });
                if named && names_of(sub.get_name(), id).is_none() {
                    without.push(format!("{} {id}", sub.get_name()));
                }
            }
        }
        // Equipment has words of its own and the names of a gym's things: any word may follow.
        assert_eq!(without, ["exercises equipment"]);
    }
}
