//! The texts that are open in the editor.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::workspace::FileKey;
use crate::bounds::FILE_BYTES;
use crate::editor::protocol::{Change, Encoding, Text};
use crate::source::{FileId, FolderLoader, LoadError, Loader};
use crate::syntax::{self, Document, ParseCache};

/// An open text, saved or not.
#[derive(Debug)]
pub struct Buffer {
    /// The file that it belongs to.
    pub key: FileKey,
    /// The editor's version number.
    pub version: i32,
    /// The text.
    pub text: Text,
    document: Option<Arc<Document>>,
    /// Its parsed lines.
    lines: ParseCache,
}

/// All open texts, by URI.
#[derive(Debug, Default)]
pub struct Buffers {
    by_uri: BTreeMap<String, Buffer>,
    by_key: BTreeMap<FileKey, String>,
}

impl Buffers {
    /// Adds an opened text.
    pub fn open(&mut self, uri: &str, key: FileKey, version: i32, text: String) {
        self.by_key.insert(key.clone(), uri.to_owned());
        let (text, lines) = (Text::new(text), ParseCache::default());
        let buffer = Buffer { key, version, text, document: None, lines };
        self.by_uri.insert(uri.to_owned(), buffer);
    }

    /// Changes a text. A partial change of a text that is not open is ignored.
    pub fn change(&mut self, uri: &str, version: i32, changes: &[Change], encoding: Encoding) {
        let Some(buffer) = self.by_uri.get_mut(uri) else { return };
        for change in changes {
            buffer.text.replace(change.range, &change.text, encoding);
        }
        buffer.version = version;
        buffer.document = None;
    }

    /// Removes a closed text.
    pub fn close(&mut self, uri: &str) -> Option<FileKey> {
        let buffer = self.by_uri.remove(uri)?;
        // The same file may still be open under another URI.
        if self.by_key.get(&buffer.key).is_some_and(|open| open == uri) {
            self.by_key.remove(&buffer.key);
            if let Some((other, left)) = self.by_uri.iter().find(|(_, b)| b.key == buffer.key) {
                self.by_key.insert(left.key.clone(), other.clone());
            }
        }
        Some(buffer.key)
    }

    /// The text of a URI.
    #[must_use]
    pub fn get(&self, uri: &str) -> Option<&Buffer> {
        self.by_uri.get(uri)
    }

    /// The text of a file, and its URI.
    #[must_use]
    pub fn of(&self, key: &FileKey) -> Option<(&str, &Buffer)> {
        let uri = self.by_key.get(key)?;
        Some((uri, self.by_uri.get(uri)?))
    }

    /// All texts with their URIs, sorted by URI.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Buffer)> {
        self.by_uri.iter().map(|(uri, buffer)| (uri.as_str(), buffer))
    }

    /// The parsed document of a text; parsed once for each version.
    pub fn document(&mut self, uri: &str) -> Option<Arc<Document>> {
        let buffer = self.by_uri.get_mut(uri)?;
        let (text, lines) = (buffer.text.as_str(), &mut buffer.lines);
        let read = || {
            let (document, _) = syntax::parse_again(text, FileId(1), lines);
            lines.drop_unused();
            Arc::new(document)
        };
        Some(buffer.document.get_or_insert_with(read).clone())
    }

    /// Assigns each text to a new file.
    pub fn move_all(&mut self, mut to: impl FnMut(&str) -> FileKey) {
        self.by_key.clear();
        for (uri, buffer) in &mut self.by_uri {
            buffer.key = to(uri);
            self.by_key.insert(buffer.key.clone(), uri.clone());
        }
    }
}

/// A loader that prefers open texts to the files of a folder.
pub struct Overlay<'b> {
    /// The texts.
    pub buffers: &'b Buffers,
    /// The folder.
    pub folder: usize,
    /// Its files, if the folder is on disk.
    pub disk: Option<FolderLoader>,
}

impl Loader for Overlay<'_> {
    fn load(&self, path: &str) -> Result<String, LoadError> {
        let key = FileKey { folder: self.folder, path: path.to_owned() };
        match (self.buffers.of(&key), &self.disk) {
            (Some((_, buffer)), _) if buffer.text.as_str().len() > FILE_BYTES => {
                Err(LoadError::TooLarge)
            }
            (Some((_, buffer)), _) => Ok(buffer.text.as_str().to_owned()),
            (None, Some(disk)) => disk.load(path),
            (None, None) => Err(LoadError::NotFound),
        }
    }
}
