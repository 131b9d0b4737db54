//! `setwright fmt`.

use std::path::{Path, PathBuf};

use crate::diagnostics::has_errors;
use crate::source::{FolderLoader, Loader, SourceFile, Sources, read_text};
use crate::syntax;

use super::input::files_below;
use super::rewrite::rewrite;
use super::{Failure, output, report};

/// Put files into the standard format
///
/// Rewrites files in the standard format: two spaces for each level, the letters and names of a day
/// in columns, one spelling for each thing, keys in a fixed order. Keeps comments and blank lines.
/// Does not change a file with errors. For a folder, formats all .sets files in it and below it,
/// except those that a .gitignore names.
#[derive(clap::Args, Debug)]
#[command(after_help = "\
Examples:
  setwright fmt examples/rowing-club/winter.sets
  setwright fmt --check examples
  setwright fmt - --stdin-filename winter.sets < winter.sets")]
pub struct Args {
    /// Files (.sets) and folders, or - to format standard input to standard output
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,

    /// Change nothing, but exit with code 1 if a file is not in the standard format
    #[arg(long)]
    check: bool,

    /// The file name for standard input in messages
    #[arg(long, value_name = "FILE")]
    stdin_filename: Option<PathBuf>,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let standard = args.files.iter().filter(|path| is_standard(path)).count();
    if standard > 1 || (standard == 0 && args.stdin_filename.is_some()) {
        let why = if standard > 1 {
            "standard input can only be read once: write - only once"
        } else {
            "--stdin-filename needs standard input: write - as the file"
        };
        return Err(Failure::Usage(why.to_owned()));
    }
    let mut worst = None;
    // Go on with the other files; the worst failure decides the exit code.
    for path in &args.files {
        let done = match files_of(path) {
            Ok(files) => files,
            Err(failure) => {
                worst = Some(worse(worst, failure));
                continue;
            }
        };
        for file in done {
            if let Err(failure) = one(&file, args) {
                worst = Some(worse(worst, failure));
            }
        }
    }
    match worst {
        Some(Failure::File(_)) => Err(Failure::File("some files were not formatted".to_owned())),
        Some(_) => Err(Failure::Programme),
        None => Ok(()),
    }
}

/// Says why a file failed, and keeps the worse of two failures.
fn worse(before: Option<Failure>, failure: Failure) -> Failure {
    if let Failure::File(why) | Failure::Usage(why) = &failure {
        report::say(&format!("setwright: {why}"));
    }
    match before {
        Some(Failure::File(why)) => Failure::File(why),
        _ => failure,
    }
}

fn is_standard(path: &Path) -> bool {
    path == Path::new("-")
}

/// A file is itself; a folder is the files of the notation in it and below it, by name. Links in a
/// folder are not followed, hidden files and what a .gitignore names are passed over.
fn files_of(path: &Path) -> Result<Vec<PathBuf>, Failure> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let files = files_below(path)?.into_iter().map(|name| path.join(name));
    let files: Vec<PathBuf> = files.filter(|file| !file.is_symlink()).collect();
    if files.is_empty() {
        return Err(Failure::File(format!("{}: this folder has no .sets files", path.display())));
    }
    Ok(files)
}

fn one(path: &Path, args: &Args) -> Result<(), Failure> {
    let cannot = |error| Failure::File(format!("{}: {error}", path.display()));
    let text = if is_standard(path) {
        read_text(std::io::stdin().lock()).map_err(cannot)?
    } else {
        let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
        FolderLoader::new(folder).load(&name.unwrap_or_default()).map_err(|error| {
            Failure::File(
                crate::resolve::OpenError { path: path.display().to_string(), error }.to_string(),
            )
        })?
    };
    let called = args.stdin_filename.as_deref().filter(|_| is_standard(path)).unwrap_or(path);
    let formatted = formatted(called, &text)?;
    if args.check {
        if formatted != text {
            report::say(&format!("{} is not in the standard format", called.display()));
            return Err(Failure::Programme);
        }
        return Ok(());
    }
    if is_standard(path) {
        return output::exact(&formatted);
    }
    if formatted == text {
        return Ok(());
    }
    // What another run or an editor has saved meanwhile is formatted instead.
    rewrite(path, |now| self::formatted(path, now))
}

/// A text in the standard format. What is wrong with it is shown.
fn formatted(called: &Path, text: &str) -> Result<String, Failure> {
    let mut sources = Sources::default();
    let file = SourceFile::new(&called.display().to_string(), text);
    let clean = file.text.clone();
    let id = sources.add(file);
    let (document, problems) = syntax::parse(&clean, id);
    let formatted = syntax::format(&document, &clean).filter(|_| !has_errors(&problems));
    formatted.ok_or_else(|| {
        report::show(&problems, &sources);
        Failure::Programme
    })
}
