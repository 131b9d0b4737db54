//! `setwright fmt`.

use std::path::{Path, PathBuf};

use crate::diagnostics::has_errors;
use crate::source::{FolderLoader, Loader, SourceFile, Sources, read_text};
use crate::syntax;

use super::{Failure, output, report};

/// Rewrites files in the canonical form: two spaces a level, one spelling for each thing. Comments
/// stay. A file with an error is left as it is.
#[derive(clap::Args, Debug)]
#[command(after_help = "Example: setwright fmt --check examples/rowing-club/winter.sets")]
pub struct Args {
    /// The files (.sets), or - to go from standard input to standard output
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,

    /// Change nothing; exit with 1 if a file is not in the canonical form
    #[arg(long)]
    check: bool,
}

pub fn run(args: &Args) -> Result<(), Failure> {
    let mut failed = None;
    for path in &args.files {
        // Go on with the other files; the worst failure decides the exit code.
        if let Err(failure) = one(path, args.check) {
            if let Failure::File(why) | Failure::Usage(why) = &failure {
                report::say(&format!("setwright: {why}"));
            }
            failed = match (failed, failure) {
                (Some(Failure::File(why)), _) => Some(Failure::File(why)),
                (_, failure) => Some(failure),
            };
        }
    }
    match failed {
        Some(Failure::File(_)) => Err(Failure::File("some files were not formatted".to_owned())),
        Some(_) => Err(Failure::Programme),
        None => Ok(()),
    }
}

fn one(path: &Path, check: bool) -> Result<(), Failure> {
    let is_standard = path == Path::new("-");
    let cannot = |error| Failure::File(format!("{}: {error}", path.display()));
    let text = if is_standard {
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
    let mut sources = Sources::default();
    let file = SourceFile::new(&path.display().to_string(), &text);
    let clean = file.text.clone();
    let id = sources.add(file);
    let (document, problems) = syntax::parse(&clean, id);
    let formatted = syntax::format(&document, &clean).filter(|_| !has_errors(&problems));
    let Some(formatted) = formatted else {
        report::show(&problems, &sources);
        return Err(Failure::Programme);
    };
    if check {
        if formatted != text {
            report::say(&format!("{} is not in the canonical form", path.display()));
            return Err(Failure::Programme);
        }
        return Ok(());
    }
    if is_standard {
        return output::text(None, &formatted);
    }
    if formatted == text { Ok(()) } else { output::bytes(path, formatted.as_bytes()) }
}
