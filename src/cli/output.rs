//! Writes output to standard output or to a file. A file is written completely or not at all.

use std::fs::TryLockError;
use std::io::{ErrorKind, IsTerminal, Seek, Write};
use std::path::{Path, PathBuf};

use tempfile::SpooledTempFile;

use super::Failure;
use crate::diagnostics::{coloured, or_list, printable};

/// Writes text to standard output, or to a file.
pub fn text(path: Option<&Path>, text: &str) -> Result<(), Failure> {
    match path.filter(|path| *path != Path::new("-")) {
        Some(path) => bytes(path, anstream::adapter::strip_str(text).to_string().as_bytes()),
        None => standard(anstream::stdout(), coloured(text).as_bytes()),
    }
}

/// Writes text to standard output as it is, byte for byte; to a terminal only what does not steer it.
pub fn exact(text: &str) -> Result<(), Failure> {
    let out = std::io::stdout();
    let text = if out.is_terminal() { printable(text) } else { text.into() };
    standard(out, text.as_bytes())
}

/// Writes bytes to a file, or to standard output for `-`. A file is written under a temporary name
/// beside it and renamed, so that a good file is never replaced by half of one.
pub fn bytes(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    if path == Path::new("-") {
        return standard(std::io::stdout(), bytes);
    }
    let cannot = |error: std::io::Error| cannot(path, &error);
    // A device or a pipe is written to; renaming over it would replace it.
    if is_special(path) {
        let mut file = std::fs::OpenOptions::new().write(true).open(path).map_err(cannot)?;
        return file.write_all(bytes).and_then(|()| file.flush()).map_err(cannot);
    }
    let path = &place(path)?;
    persist(stage(path, bytes)?, path)
}

/// As much waits in memory of what goes to standard output, a device or a pipe.
const IN_MEMORY: usize = 2 << 20;

/// A file that is written as its bytes come, and takes its place when it is whole. Standard output, a
/// device or a pipe gets all of it or nothing: until it is whole it waits in memory or, where it is
/// long, in a file without a name, which goes with the process.
pub enum OutputFile {
    /// What is told all at once.
    Waiting(PathBuf, SpooledTempFile),
    /// A file beside its place.
    Beside(PathBuf, tempfile::NamedTempFile),
}

impl OutputFile {
    /// Begins a file.
    pub fn begin(path: &Path) -> Result<Self, Failure> {
        if path == Path::new("-") || is_special(path) {
            return Ok(Self::Waiting(path.to_owned(), SpooledTempFile::new(IN_MEMORY)));
        }
        let place = place(path)?;
        let file = part(&place)?;
        Ok(Self::Beside(place, file))
    }

    /// Puts it in its place.
    pub fn finish(self) -> Result<(), Failure> {
        let out: Box<dyn Write> = match &self {
            Self::Waiting(path, _) if path != Path::new("-") => {
                let device = std::fs::OpenOptions::new().write(true).open(path);
                Box::new(device.map_err(|error| cannot(path, &error))?)
            }
            _ => Box::new(std::io::stdout()),
        };
        self.finish_to(out)
    }

    /// The same; what waits goes to `out`.
    pub fn finish_to(self, mut out: impl Write) -> Result<(), Failure> {
        match self {
            Self::Waiting(path, mut all) => {
                let copied = all.rewind().and_then(|()| std::io::copy(&mut all, &mut out));
                let done = copied.and_then(|_| out.flush());
                if path == Path::new("-") {
                    written(done)
                } else {
                    done.map_err(|error| cannot(&path, &error))
                }
            }
            Self::Beside(place, file) => persist(synced(file, &place)?, &place),
        }
    }
}

impl Write for OutputFile {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        match self {
            Self::Waiting(_, all) => all.write(bytes),
            Self::Beside(_, file) => file.write(bytes),
        }
    }

    fn flush(&mut self) -> std::io::Result<()> {
        match self {
            Self::Waiting(..) => Ok(()),
            Self::Beside(_, file) => file.flush(),
        }
    }
}

/// Rejects a file whose suffix does not match the output, because no program could open it. `kinds` are
/// the suffixes of everything that the command writes, each with its options.
pub fn fits(path: Option<&Path>, suffix: &str, kinds: &[(&str, &str)]) -> Result<(), Failure> {
    let path = path.filter(|path| *path != Path::new("-") && !is_special(path) && !path.is_dir());
    let Some(given) = path.and_then(suffix_of) else { return Ok(()) };
    // What replaces a programme is refused where it is written, for that reason.
    let is_source = given == "sets" && path.is_some_and(|path| path.exists() || path.is_symlink());
    if given == suffix || is_source {
        return Ok(());
    }
    if let Some((_, options)) = kinds.iter().find(|(kind, _)| *kind == given) {
        return Err(Failure::Usage(format!(
            "-o names a .{given} file, but the output is .{suffix}: add {options}, or end the \
             name in .{suffix}"
        )));
    }
    let kinds: Vec<String> = kinds.iter().map(|(kind, _)| format!(".{kind}")).collect();
    let kinds: Vec<&str> = kinds.iter().map(String::as_str).collect();
    Err(Failure::Usage(format!(
        "-o names a .{given} file, but this command writes {}: end the name in .{suffix}",
        or_list(&kinds)
    )))
}

/// The suffix of a file's name, in small letters. A name may hold a point: `week-1.5` has none.
pub fn suffix_of(path: &Path) -> Option<String> {
    let suffix = path.extension()?.to_string_lossy().to_lowercase();
    suffix.starts_with(|first: char| first.is_ascii_alphabetic()).then_some(suffix)
}

/// A device or a pipe.
pub fn is_special(path: &Path) -> bool {
    std::fs::metadata(path).is_ok_and(|m| !m.is_file() && !m.is_dir())
}

/// The file itself, where a path is a link to one: the link stays a link. One that leads to no file
/// yet is replaced; one that leads in a ring is an error.
pub fn target(path: &Path) -> Result<PathBuf, Failure> {
    if !std::fs::symlink_metadata(path).is_ok_and(|m| m.is_symlink()) {
        return Ok(path.to_owned());
    }
    match path.canonicalize() {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(path.to_owned()),
        found => found.map_err(|error| cannot(path, &error)),
    }
}

/// The place of a file that is printed. A folder is none, and what is printed never takes the place
/// of what a coach has written.
fn place(path: &Path) -> Result<PathBuf, Failure> {
    let place = target(path)?;
    let no = |why: &str| Err(Failure::File(format!("{}: {why}", path.display())));
    if place.is_dir() {
        return no("this is a folder: name a file in it");
    }
    let is_source = place.extension().is_some_and(|end| end.eq_ignore_ascii_case("sets"));
    if is_source && place.exists() {
        return no("this would overwrite one of your .sets files: choose another name");
    }
    Ok(place)
}

/// Writes several files: all of them, each whole, are beside their places before the first takes
/// its own, so that a full disk or a folder that is not there leaves what was there before.
pub fn all(files: &[(PathBuf, Vec<u8>)]) -> Result<(), Failure> {
    // What cannot be replaced is found before any is.
    let places: Vec<PathBuf> =
        files.iter().map(|(path, _)| place(path)).collect::<Result<_, _>>()?;
    let staged = places.iter().zip(files).map(|(place, (_, bytes))| stage(place, bytes));
    let staged: Vec<tempfile::NamedTempFile> = staged.collect::<Result<_, _>>()?;
    places.iter().zip(staged).try_for_each(|(place, file)| persist(file, place))
}

/// That a file cannot be read or written, in the system's words.
pub fn cannot(path: &Path, error: &std::io::Error) -> Failure {
    Failure::File(format!("{}: {error}", path.display()))
}

/// Gives a whole file its place.
pub fn persist(file: tempfile::NamedTempFile, path: &Path) -> Result<(), Failure> {
    file.persist(path).map(drop).map_err(|error| cannot(path, &error.error))
}

/// A whole file under a temporary name beside its place.
pub fn stage(path: &Path, bytes: &[u8]) -> Result<tempfile::NamedTempFile, Failure> {
    let mut file = part(path)?;
    file.write_all(bytes).map_err(|error| cannot(path, &error))?;
    synced(file, path)
}

/// The same file, on the disk.
fn synced(file: tempfile::NamedTempFile, path: &Path) -> Result<tempfile::NamedTempFile, Failure> {
    file.as_file().sync_all().map_err(|error| cannot(path, &error))?;
    Ok(file)
}

/// The folder of a file.
pub fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// How temporary files are named: hidden, and after the program.
pub fn names<'a>() -> tempfile::Builder<'a, 'a> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(PREFIX).suffix(SUFFIX);
    builder
}

/// That nothing can be made beside a file. The name of what is made would lead away from what is
/// wrong.
pub fn cannot_in(path: &Path, folder: &Path, error: &std::io::Error) -> Failure {
    match error.kind() {
        ErrorKind::NotFound if !folder.exists() => {
            Failure::File(format!("{}: there is no folder {}", path.display(), folder.display()))
        }
        _ => cannot(path, error),
    }
}

/// A file to write to under a temporary name beside its place.
fn part(path: &Path) -> Result<tempfile::NamedTempFile, Failure> {
    let folder = folder_of(path);
    sweep(folder);
    let mut builder = names();
    // A temporary file is private; the finished one is as readable as any the coach makes.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let file = loop {
        let file = builder.tempfile_in(folder).map_err(|error| cannot_in(path, folder, &error))?;
        // While the lock is held, no other run removes it; it ends with the process. Another run may
        // have taken it for left over before that. Some file systems have no locks: there nothing
        // is swept.
        let is_swept = matches!(file.as_file().try_lock(), Err(TryLockError::WouldBlock));
        if !is_swept && file.path().exists() {
            break file;
        }
    };
    if let Ok(before) = std::fs::metadata(path) {
        keep(&file, &before).map_err(|error| cannot(path, &error))?;
    }
    Ok(file)
}

/// Gives a file the owner and the permissions of the one that it replaces. The owner only where this
/// process may: the group may be had where the user may not.
fn keep(file: &tempfile::NamedTempFile, before: &std::fs::Metadata) -> std::io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::{MetadataExt, fchown};
        let now = file.as_file().metadata()?;
        if (now.uid(), now.gid()) != (before.uid(), before.gid())
            && fchown(file.as_file(), Some(before.uid()), Some(before.gid())).is_err()
        {
            let _ = fchown(file.as_file(), None, Some(before.gid()));
        }
    }
    // After the owner, for a new owner takes permissions away.
    file.as_file().set_permissions(before.permissions())
}

/// How a temporary file is named.
pub const PREFIX: &str = ".setwright-";
const SUFFIX: &str = ".part";

/// The end of the name of a file that runs lock to take turns.
pub const LOCK: &str = ".lock";

/// Removes what a run that was killed left behind: temporary files and locks that no living process
/// has locked. No failure counts, for all this is only tidying.
fn sweep(folder: &Path) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        // Where open files keep their names, locks stay: nobody notices that one is gone.
        let is_lock = cfg!(unix) && name.ends_with(LOCK);
        let is_ours = name.starts_with(PREFIX) && (name.ends_with(SUFFIX) || is_lock);
        if !is_ours || !entry.metadata().is_ok_and(|m| m.is_file()) {
            continue;
        }
        let Ok(file) = std::fs::File::open(entry.path()) else { continue };
        if file.try_lock().is_ok() {
            let _ = std::fs::remove_file(entry.path());
        }
    }
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
    std::fs::create_dir_all(path).map_err(|error| cannot(path, &error))
}

fn standard(mut out: impl Write, bytes: &[u8]) -> Result<(), Failure> {
    written(out.write_all(bytes).and_then(|()| out.flush()))
}

/// How writing to standard output ended.
fn written(done: std::io::Result<()>) -> Result<(), Failure> {
    match done {
        // A script must not take half of a plan for the whole.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Err(Failure::File(
            "standard output was closed before everything was written".to_owned(),
        )),
        done => done.map_err(|error| Failure::File(format!("standard output: {error}"))),
    }
}

#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "tests stop at the first surprise, and write files of their own"
)]
mod tests {
    use super::*;

    #[test]
    fn what_a_killed_run_left_is_swept_and_what_lives_stays() {
        let folder = tempfile::tempdir().unwrap();
        let left = folder.path().join(".setwright-aaaa.part");
        std::fs::write(&left, "half").unwrap();
        let empty = folder.path().join(".setwright-bbbb.part");
        std::fs::write(&empty, "").unwrap();
        let other = folder.path().join(".setwright-notes");
        std::fs::write(&other, "the coach's").unwrap();
        let living = stage(&folder.path().join("living.pdf"), b"half").unwrap();
        assert!(!left.exists() && !empty.exists());
        bytes(&folder.path().join("cards.pdf"), b"whole").unwrap();
        assert!(living.path().exists() && other.exists());
    }
}
