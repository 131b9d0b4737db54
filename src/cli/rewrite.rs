//! Changes a file that others may change at the same time: other runs of this program, which wait for
//! each other, and editors, which do not.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::output::{self, cannot, existing, folder_of, is_special, persist, stage, target};
use super::{Failure, report};

/// How often a file may change while it is being rewritten.
const TRIES: usize = 5;

/// Replaces a file's text by what `make` makes of it; there may be no file yet. Runs of this program
/// take turns. What an editor saves meanwhile is kept: the new text is made of that, and it is
/// reported.
pub fn rewrite(path: &Path, make: impl Fn(&str) -> Result<String, Failure>) -> Result<(), Failure> {
    if is_special(path) {
        return output::bytes(path, make(&existing(path)?)?.as_bytes());
    }
    let place = target(path)?;
    let _turn = Turn::take(&place)?;
    for _ in 0..TRIES {
        let before = existing(&place)?;
        let text = make(&before)?;
        let staged = stage(&place, text.as_bytes())?;
        let old = Old::hold(&place);
        if existing(&place)? == before {
            persist(staged, &place)?;
            // An editor may have saved after that look, into the old file or over the new one.
            let is_whole = match old {
                Some(old) if !old.says(&before) => {
                    old.put_back(&place)?;
                    false
                }
                _ => existing(&place)? == text,
            };
            if is_whole {
                return Ok(());
            }
        }
        report::say(&format!(
            "{} was changed in the meantime and has been read again",
            path.display()
        ));
    }
    Err(Failure::File(format!(
        "{}: the file keeps changing, so nothing was written",
        path.display()
    )))
}

/// The turn of one run to change a file: a lock on a hidden file beside it. The file itself cannot be
/// locked, for it is replaced.
struct Turn {
    path: PathBuf,
    file: Option<File>,
}

impl Turn {
    /// Waits for the turn. Where the file system has no locks, nobody waits.
    fn take(place: &Path) -> Result<Self, Failure> {
        let folder = folder_of(place);
        let name = place.file_name().unwrap_or_default().to_string_lossy();
        let path = folder.join(format!("{}{name}{}", output::PREFIX, output::LOCK));
        loop {
            let file = open(&path).map_err(|error| output::cannot_in(place, folder, &error))?;
            match file.lock() {
                // The run before may have removed the file.
                Ok(()) if is_at(&file, &path) => return Ok(Self { path, file: Some(file) }),
                Ok(()) => {}
                Err(error) if error.kind() == ErrorKind::Unsupported => {
                    return Ok(Self { path, file: Some(file) });
                }
                Err(error) => return Err(cannot(place, &error)),
            }
        }
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        // Where open files keep their names, it stays: the next run uses it.
        if cfg!(unix) {
            let _ = std::fs::remove_file(&self.path);
        }
        drop(self.file.take());
    }
}

/// Opens the file of a lock, which another user may have left.
fn open(path: &Path) -> std::io::Result<File> {
    match OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path) {
        Err(error) if error.kind() == ErrorKind::PermissionDenied && path.exists() => {
            File::open(path)
        }
        opened => opened,
    }
}

/// Whether an open file still has its name.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let same =
        |a: std::fs::Metadata, b: std::fs::Metadata| (a.dev(), a.ino()) == (b.dev(), b.ino());
    file.metadata().ok().zip(std::fs::symlink_metadata(path).ok()).is_some_and(|(a, b)| same(a, b))
}

/// Where a file is open, it cannot lose its name.
#[cfg(not(unix))]
fn is_at(_: &File, _: &Path) -> bool {
    true
}

/// A second name of a file that is about to be replaced, so that what is written into it at that
/// moment is not lost.
struct Old {
    name: tempfile::TempPath,
    /// Locked, so that no other run removes the name as left over.
    _file: File,
}

impl Old {
    /// `None` where there is no file, or the file system has no second names.
    fn hold(place: &Path) -> Option<Self> {
        // Elsewhere a lock keeps everybody from reading.
        let file = File::open(place).ok().filter(|_| cfg!(unix))?;
        if let Err(TryLockError::WouldBlock) = file.try_lock() {
            return None;
        }
        let linked =
            output::names().make_in(folder_of(place), |name| std::fs::hard_link(place, name));
        Some(Self { name: linked.ok()?.into_temp_path(), _file: file })
    }

    /// Whether it still has this text.
    fn says(&self, text: &str) -> bool {
        existing(&self.name).is_ok_and(|now| now == text)
    }

    /// Gives it its place again: an editor that has it open goes on writing into it.
    fn put_back(self, place: &Path) -> Result<(), Failure> {
        self.name.persist(place).map_err(|error| cannot(place, &error.error))
    }
}

#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "tests stop at the first surprise, and write files of their own"
)]
mod tests {
    use std::cell::Cell;

    use super::*;

    #[test]
    fn lines_that_an_editor_saves_meanwhile_are_kept() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("log.sets");
        std::fs::write(&path, "mine\n").unwrap();
        let calls = Cell::new(0);
        let add = |text: &str| {
            calls.set(calls.get() + 1);
            if calls.get() == 1 {
                std::fs::write(&path, "mine\nthe editor's\n").unwrap();
            }
            Ok(format!("{text}added\n"))
        };
        rewrite(&path, add).unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine\nthe editor's\nadded\n");
        assert_eq!(calls.get(), 2);
    }

    #[test]
    fn a_file_that_never_rests_stays_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("log.sets");
        let calls = Cell::new(0);
        let restless = |_: &str| {
            calls.set(calls.get() + 1);
            std::fs::write(&path, format!("{}", calls.get())).unwrap();
            Ok("lost".to_owned())
        };
        assert!(rewrite(&path, restless).is_err());
        assert_eq!(std::fs::read_to_string(&path).unwrap(), calls.get().to_string());
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing lies about");
    }

    #[cfg(unix)]
    #[test]
    fn an_editor_that_writes_into_the_old_file_is_noticed() {
        use std::os::unix::fs::MetadataExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("log.sets");
        std::fs::write(&path, "mine\n").unwrap();
        let inode = std::fs::metadata(&path).unwrap().ino();
        let old = Old::hold(&path).unwrap();
        assert!(old.says("mine\n"));
        // The editor has the file open while it is replaced.
        let mut editor = OpenOptions::new().append(true).open(&path).unwrap();
        persist(stage(&path, b"mine\nadded\n").unwrap(), &path).unwrap();
        std::io::Write::write_all(&mut editor, b"the editor's\n").unwrap();
        assert!(!old.says("mine\n"));
        old.put_back(&path).unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine\nthe editor's\n");
        assert_eq!(std::fs::metadata(&path).unwrap().ino(), inode);
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left behind");
    }

    #[test]
    fn a_lock_that_a_killed_run_left_does_no_harm() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("log.sets");
        std::fs::write(folder.path().join(".setwright-log.sets.lock"), "").unwrap();
        rewrite(&path, |before| Ok(format!("{before}added\n"))).unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "added\n");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left behind");
    }
}
