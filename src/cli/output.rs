//! Where output goes: standard output, or a file that is whole or not there.

use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::Failure;

/// Writes text to standard output, or to a file.
pub fn text(path: Option<&Path>, text: &str) -> Result<(), Failure> {
    match path.filter(|path| *path != Path::new("-")) {
        Some(path) => bytes(path, anstream::adapter::strip_str(text).to_string().as_bytes()),
        None => standard(anstream::stdout(), text.as_bytes()),
    }
}

/// Writes bytes to a file, or to standard output for `-`. A file is written under a temporary name
/// beside it and renamed, so that a good file is never replaced by half of one.
pub fn bytes(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    if path == Path::new("-") {
        return standard(std::io::stdout(), bytes);
    }
    let cannot = |error: std::io::Error| cannot(path, &error);
    // A device or a pipe is written to; renaming over it would replace it.
    let special = std::fs::metadata(path).is_ok_and(|m| !m.is_file() && !m.is_dir());
    if special {
        let mut file = std::fs::OpenOptions::new().write(true).open(path).map_err(cannot)?;
        return file.write_all(bytes).and_then(|()| file.flush()).map_err(cannot);
    }
    let path = &target(path);
    persist(stage(path, bytes)?, path)
}

/// The file itself, where a path is a link to one: the link stays a link.
fn target(path: &Path) -> PathBuf {
    let is_link = std::fs::symlink_metadata(path).is_ok_and(|m| m.is_symlink());
    let real = is_link.then(|| path.canonicalize().ok()).flatten();
    real.unwrap_or_else(|| path.to_owned())
}

/// Writes several files: all of them, each whole, are beside their places before the first takes
/// its own, so that a full disk or a folder that is not there leaves what was there before.
pub fn all(files: &[(PathBuf, Vec<u8>)]) -> Result<(), Failure> {
    // What cannot be replaced by a file is found before any is.
    for (path, _) in files {
        if path.is_dir() {
            return Err(cannot(path, &ErrorKind::IsADirectory.into()));
        }
    }
    let places: Vec<PathBuf> = files.iter().map(|(path, _)| target(path)).collect();
    let staged = places.iter().zip(files).map(|(place, (_, bytes))| stage(place, bytes));
    let staged: Vec<tempfile::NamedTempFile> = staged.collect::<Result<_, _>>()?;
    places.iter().zip(staged).try_for_each(|(place, file)| persist(file, place))
}

fn cannot(path: &Path, error: &std::io::Error) -> Failure {
    Failure::File(format!("{}: {error}", path.display()))
}

fn persist(file: tempfile::NamedTempFile, path: &Path) -> Result<(), Failure> {
    file.persist(path).map(drop).map_err(|error| cannot(path, &error.error))
}

/// A whole file under a temporary name beside its place.
fn stage(path: &Path, bytes: &[u8]) -> Result<tempfile::NamedTempFile, Failure> {
    let cannot = |error: std::io::Error| cannot(path, &error);
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix(".setwright-").suffix(".part");
    // A temporary file is private; the finished one is as readable as any the coach makes.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder).map_err(|error| match error.kind() {
        // The name of the temporary file would lead away from what is wrong.
        ErrorKind::NotFound if !folder.exists() => {
            Failure::File(format!("{}: there is no folder {}", path.display(), folder.display()))
        }
        _ => cannot(error),
    })?;
    // What may be done with a file that is there is kept, whatever a new one may be used for.
    if let Ok(before) = std::fs::metadata(path) {
        file.as_file().set_permissions(before.permissions()).map_err(cannot)?;
    }
    file.write_all(bytes).and_then(|()| file.as_file().sync_all()).map_err(cannot)?;
    Ok(file)
}

/// The text of a file that may not be there yet.
pub fn existing(path: &Path) -> Result<String, Failure> {
    let cannot = |why: String| Failure::File(format!("{}: {why}", path.display()));
    match std::fs::File::open(path) {
        Ok(file) => crate::source::read_text(file).map_err(|error| cannot(error.to_string())),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(String::new()),
        Err(error) => Err(cannot(error.to_string())),
    }
}

/// Makes a folder, if it is not there.
pub fn folder(path: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(path)
        .map_err(|error| Failure::File(format!("{}: {error}", path.display())))
}

fn standard(mut out: impl Write, bytes: &[u8]) -> Result<(), Failure> {
    match out.write_all(bytes).and_then(|()| out.flush()) {
        // The reader has seen enough, as `head` does.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        done => done.map_err(|error| Failure::File(format!("standard output: {error}"))),
    }
}
