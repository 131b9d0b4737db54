//! Conversion of an analysis's spans to the editor's positions.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

use super::Server;
use super::workspace::FileKey;
use crate::editor::Analysis;
use crate::editor::protocol::{Location, Position, Range, Text, Uri};
use crate::source::{FileId, Span};

/// An analysis with the URIs and texts that the editor has for its files.
pub struct View<'s> {
    server: &'s Server,
    /// The analysis.
    pub analysis: Arc<Analysis>,
    folder: usize,
    /// Texts read from disk, once for each answer.
    texts: RefCell<BTreeMap<FileId, Rc<Text>>>,
}

impl<'s> View<'s> {
    /// A view of the project with a root.
    pub fn new(server: &'s Server, root: &FileKey, analysis: Arc<Analysis>) -> Self {
        Self { server, analysis, folder: root.folder, texts: RefCell::default() }
    }

    /// The workspace file behind a file of the analysis; built-in files have none.
    pub fn key(&self, file: FileId) -> Option<FileKey> {
        if file < self.analysis.root {
            return None;
        }
        let path = self.analysis.sources.get(file)?.path.to_string();
        Some(FileKey { folder: self.folder, path })
    }

    /// The file of the analysis behind a workspace file.
    pub fn file(&self, key: &FileKey) -> Option<FileId> {
        let is_it = |(id, file): &(FileId, &crate::source::SourceFile)| {
            *id >= self.analysis.root && *file.path == *key.path
        };
        self.analysis.sources.iter().find(is_it).map(|(id, _)| id)
    }

    /// The URI of a file, and its version if it is open.
    pub fn name(&self, file: FileId) -> Option<(String, Option<i32>)> {
        let key = self.key(file)?;
        match self.server.buffers.of(&key) {
            Some((uri, buffer)) => Some((uri.to_owned(), Some(buffer.version))),
            None => Some((self.server.workspace.uri(&key)?, None)),
        }
    }

    /// The range of a span in its own text.
    pub fn range(&self, span: Span) -> Range {
        let encoding = self.server.client.encoding;
        if let Some((_, buffer)) = self.key(span.file).and_then(|k| self.server.buffers.of(&k)) {
            return buffer.text.range(span.start, span.end, encoding);
        }
        let mut texts = self.texts.borrow_mut();
        let text = texts.entry(span.file).or_insert_with(|| {
            let file = self.analysis.sources.get(span.file);
            Rc::new(Text::new(file.map_or_else(String::new, |file| file.text.to_string())))
        });
        text.range(span.start, span.end, encoding)
    }

    /// The location of a span; `None` in a built-in file, which no editor can open.
    pub fn location(&self, span: Span) -> Option<Location> {
        let (uri, _) = self.name(span.file)?;
        Some(Location { uri: Uri(uri), range: self.range(span) })
    }

    /// The byte of a file at a position of its text.
    pub fn byte(&self, key: &FileKey, position: Position) -> Option<usize> {
        let (_, buffer) = self.server.buffers.of(key)?;
        Some(buffer.text.byte(position, self.server.client.encoding))
    }
}
