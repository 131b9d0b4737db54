//! One side of a comparison: its files and its plans.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use crate::compile::check;
use crate::diagnostics::has_errors;
use crate::plan::Plan;
use crate::resolve::{Project, roots};
use crate::source::{FolderLoader, Loader};

use super::super::input::{File, files_below};
use super::super::{Failure, report};
use super::git::{self, ObjectKind};

/// The plans of a side. What is wrong with it is shown on standard error. The other side serves as
/// an example, where this one is a revision without a path.
pub fn plans(
    argument: &OsStr,
    other: &OsStr,
    project: Option<&Path>,
) -> Result<Vec<Plan>, Failure> {
    let path = Path::new(argument);
    let shown = path.display().to_string();
    // A file on disk comes first: its name may contain a colon.
    if path.is_dir() {
        let folder = project.unwrap_or(path);
        let below = below(path, folder)?;
        let inside = |file: String| if below.is_empty() { file } else { format!("{below}/{file}") };
        let files: Vec<String> = files_below(path)?.into_iter().map(inside).collect();
        return of_folder(&FolderLoader::new(folder), &files, &shown);
    }
    if path.exists() || argument == "-" {
        let file = File { file: path.to_owned(), project: project.map(Path::to_owned) };
        return of_project(file.open()?, &shown);
    }
    let Some((revision, inside)) = argument.to_str().and_then(git::split) else {
        return Err(Failure::File(format!("{shown}: {}", unnamed(&shown, other))));
    };
    of_revision(revision, inside, project, &shown)
}

/// What is wrong with a side that is neither a file nor REV:PATH, and how it is written: of a revision
/// alone with the path of the other side, of a path with the last revision.
fn unnamed(shown: &str, other: &OsStr) -> String {
    if !git::is_revision(shown) {
        let why = "there is no such file or folder; for a git revision, write REV:PATH, such as";
        return format!("{why} HEAD:./{shown}");
    }
    let path = match other.to_str().and_then(git::split) {
        Some((_, inside)) if !Path::new(other).exists() => inside.to_owned(),
        _ if Path::new(other).is_relative() => {
            let path = Path::new(other).display().to_string();
            let is_plain = !path.starts_with("./") && !path.starts_with("../");
            if is_plain { format!("./{path}") } else { path }
        }
        _ => "./PATH".to_owned(),
    };
    let why = "this is a whole revision; for one of its files or folders, write REV:PATH, such as";
    format!("{why} {shown}:{path}")
}

/// A file or a folder of a revision, with what it uses from the same revision.
fn of_revision(
    revision: &str,
    inside: &str,
    project: Option<&Path>,
    shown: &str,
) -> Result<Vec<Plan>, Failure> {
    let place = git::GitPath::find(revision, inside)?;
    match place.kind()? {
        ObjectKind::Folder => {
            let files = place.files()?;
            of_folder(&place.loader(&place.path), &files, shown)
        }
        ObjectKind::File => {
            let own = place.path.rsplit_once('/').map_or("", |(folder, _)| folder).to_owned();
            let folder = match project {
                Some(folder) => place.inside_working_folder(&folder.to_string_lossy())?,
                None => own,
            };
            let start = if folder.is_empty() { String::new() } else { format!("{folder}/") };
            let file = place
                .path
                .strip_prefix(&start)
                .ok_or_else(|| Failure::Usage(format!("{shown} is not in the folder {folder}")))?;
            let opened = Project::open(&place.loader(&folder), file)
                .map_err(|error| Failure::File(format!("{shown}: {}", error.error)))?;
            of_project(opened, shown)
        }
    }
}

/// All programmes among some files.
fn of_folder(loader: &dyn Loader, files: &[String], shown: &str) -> Result<Vec<Plan>, Failure> {
    let mut all: Vec<Plan> = Vec::new();
    let mut failed = None;
    for root in roots(loader, files) {
        let opened = Project::open(loader, &root)
            .map_err(|error| Failure::File(format!("{shown}: {error}")));
        match opened.and_then(|project| of_project(project, shown)) {
            // A programme that two files use counts once.
            Ok(plans) => {
                let is_new = |plan: &Plan| {
                    !all.iter()
                        .any(|p| p.line.file == plan.line.file && p.programme == plan.programme)
                };
                let new: Vec<Plan> = plans.into_iter().filter(is_new).collect();
                all.extend(new);
            }
            Err(failure) => failed = Some(failure),
        }
    }
    failed.map_or(Ok(all), Err)
}

/// The plans of a project, unless it has errors.
fn of_project(project: Project, shown: &str) -> Result<Vec<Plan>, Failure> {
    let compiled = check(project);
    if has_errors(&compiled.diagnostics) {
        report::say(&format!("{shown} has errors:"));
        report::show(&compiled.diagnostics, &compiled.sources);
        return Err(Failure::Programme);
    }
    Ok(compiled.plans)
}

/// A folder's path as seen from another one above it.
fn below(folder: &Path, from: &Path) -> Result<String, Failure> {
    let real = |path: &Path| {
        path.canonicalize().map_err(|error| Failure::File(format!("{}: {error}", path.display())))
    };
    let (inner, outer): (PathBuf, PathBuf) = (real(folder)?, real(from)?);
    let below = inner.strip_prefix(&outer).map_err(|_| {
        Failure::Usage(format!("{} is not in the folder {}", folder.display(), from.display()))
    })?;
    let parts = below.components().map(|part| part.as_os_str().to_string_lossy().into_owned());
    Ok(parts.collect::<Vec<_>>().join("/"))
}
