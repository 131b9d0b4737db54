//! Loading of texts: from a project folder on disk, or from memory in tests and editors.

use std::collections::BTreeMap;
use std::fmt;
use std::io::Read;
use std::path::{Path, PathBuf};

use super::NotUtf8;
use crate::bounds::FILE_BYTES;

/// Why a file could not be loaded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LoadError {
    /// The file does not exist.
    NotFound,
    /// It is outside the project folder, by its path or through a link.
    Outside,
    /// It is not UTF-8.
    NotUtf8(Box<NotUtf8>),
    /// It is larger than [`FILE_BYTES`].
    TooLarge,
    /// The system could not read it; this is the system's message.
    Unreadable(String),
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LoadError::NotFound => f.write_str("there is no such file"),
            LoadError::Outside => f.write_str("it lies outside the project folder"),
            LoadError::NotUtf8(found) => found.fmt(f),
            LoadError::TooLarge => {
                write!(f, "it has more than {} MiB, the most a file may have", FILE_BYTES >> 20)
            }
            LoadError::Unreadable(why) => f.write_str(why),
        }
    }
}

/// Loads the text of a file by its path inside the project folder.
pub trait Loader {
    /// The text at `path` (relative to the project folder, `/` between folders).
    fn load(&self, path: &str) -> Result<String, LoadError>;
}

/// Loads files from a folder on disk. Links are followed, unless they lead out of the folder.
#[derive(Clone, Debug)]
pub struct FolderLoader {
    folder: PathBuf,
}

impl FolderLoader {
    /// A loader for the project folder.
    #[must_use]
    pub fn new(folder: &Path) -> Self {
        Self { folder: folder.to_owned() }
    }
}

impl Loader for FolderLoader {
    fn load(&self, path: &str) -> Result<String, LoadError> {
        let other = |error: std::io::Error| match error.kind() {
            std::io::ErrorKind::NotFound => LoadError::NotFound,
            _ => LoadError::Unreadable(error.to_string()),
        };
        let root = self.folder.canonicalize().map_err(other)?;
        let full = root.join(path).canonicalize().map_err(other)?;
        if !full.starts_with(&root) {
            return Err(LoadError::Outside);
        }
        // Opening a pipe could block forever, and a device may never end, so only regular files are
        // read.
        if !std::fs::metadata(&full).map_err(other)?.is_file() {
            return Err(LoadError::Unreadable("it is not a plain file".to_owned()));
        }
        read_text(std::fs::File::open(&full).map_err(other)?)
    }
}

/// Reads UTF-8 text up to the size limit.
pub fn read_text(from: impl Read) -> Result<String, LoadError> {
    let mut bytes = Vec::new();
    from.take(FILE_BYTES as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| LoadError::Unreadable(error.to_string()))?;
    if bytes.len() > FILE_BYTES {
        return Err(LoadError::TooLarge);
    }
    String::from_utf8(bytes).map_err(|error| {
        let found = error.utf8_error();
        let is_cut = found.error_len().is_none();
        LoadError::NotUtf8(Box::new(NotUtf8::new(error.as_bytes(), found.valid_up_to(), is_cut)))
    })
}

/// Loads texts from memory, by path.
#[derive(Clone, Debug, Default)]
pub struct MemoryLoader {
    files: BTreeMap<String, String>,
}

impl MemoryLoader {
    /// A loader without files.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a file.
    #[must_use]
    pub fn with(mut self, path: &str, text: &str) -> Self {
        self.files.insert(path.to_owned(), text.to_owned());
        self
    }
}

impl Loader for MemoryLoader {
    fn load(&self, path: &str) -> Result<String, LoadError> {
        self.files.get(path).cloned().ok_or(LoadError::NotFound)
    }
}

/// The path, relative to the project folder, of the file `used` in a `use` line of `from`. `None`
/// if it leads out of the folder: an absolute path, a drive, or too many `..`.
#[must_use]
pub fn join(from: &str, used: &str) -> Option<String> {
    if used.starts_with(['/', '\\', '~']) || used.contains([':', '\\', '\0']) {
        return None;
    }
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in used.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            other => parts.push(other),
        }
    }
    Some(parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn use_stays_inside_the_project_folder() {
        assert_eq!(join("a/b.sets", "c.sets").as_deref(), Some("a/c.sets"));
        assert_eq!(join("a/b.sets", "../c.sets").as_deref(), Some("c.sets"));
        assert_eq!(join("b.sets", "../../etc/passwd"), None);
        assert_eq!(join("b.sets", "/etc/passwd"), None);
    }
}
