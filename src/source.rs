//! Files, spans and locations; the project folder and the paths of `use`.

mod folder;
mod loader;
mod not_utf8;

use std::borrow::Cow;
use std::sync::{Arc, OnceLock};

pub use folder::{Depth, below, files_of};
pub use loader::{FolderLoader, LoadError, Loader, MemoryLoader, join, read_text};
pub use not_utf8::{Cause, NotUtf8};

/// Converts a text to lines that end with LF or CRLF. In a text without any LF, lines end with CR,
/// as old Mac programs write them; each CR becomes LF, so that no byte moves. In any other text, a
/// CR without LF does not end a line.
#[must_use]
pub fn line_ends(text: &str) -> Cow<'_, str> {
    if text.contains('\r') && !text.contains('\n') {
        Cow::Owned(text.replace('\r', "\n"))
    } else {
        Cow::Borrowed(text)
    }
}

/// Start of the comment in a line without its indentation: at a `#` that is the first character, or
/// that has a space before it and a space or the line's end after it.
#[must_use]
pub fn comment_start(content: &str) -> Option<usize> {
    let is_space = |sign: char| matches!(sign, ' ' | '\t' | '\u{a0}');
    content.match_indices('#').map(|(at, _)| at).find(|&at| {
        let (before, rest) = content.split_at(at);
        let mut after = rest.chars().skip(1);
        at == 0 || before.ends_with(is_space) && after.next().is_none_or(is_space)
    })
}

/// A file: an index into [`Sources`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// A range of bytes in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl Span {
    /// The span of `start..end`.
    #[must_use]
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { file, start: narrow(start), end: narrow(end) }
    }

    /// A span from this span's start to the other's end.
    #[must_use]
    pub fn to(self, other: Span) -> Self {
        Self { end: other.end.max(self.start), ..self }
    }
}

/// A value with the place where it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Its place.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value at a place.
    pub const fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }
}

/// One source file.
#[derive(Clone, Debug)]
pub struct SourceFile {
    /// Path relative to the project folder, with `/` between folders.
    pub path: Arc<str>,
    /// The text, without a byte-order mark; its lines end with LF or CRLF (see [`line_ends`]).
    pub text: Arc<str>,
    /// Computed on first use, because most files never need it.
    line_starts: Arc<OnceLock<Vec<usize>>>,
}

impl SourceFile {
    /// A file from its path and its text.
    #[must_use]
    pub fn new(path: &str, text: &str) -> Self {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        Self {
            path: Arc::from(path),
            text: Arc::from(line_ends(text)),
            line_starts: Arc::default(),
        }
    }

    /// The first byte of each line.
    fn line_starts(&self) -> &[usize] {
        self.line_starts.get_or_init(|| {
            let breaks = self.text.match_indices('\n').map(|(at, _)| at + 1);
            std::iter::once(0).chain(breaks).collect()
        })
    }

    /// The line of a byte, counted from 1.
    #[must_use]
    pub fn line_of(&self, byte: u32) -> u32 {
        let line = self.line_starts().partition_point(|&start| start <= byte as usize);
        u32::try_from(line).unwrap_or(u32::MAX)
    }

    /// Line and column of a byte, both counted from 1; the column in characters.
    #[must_use]
    pub fn position(&self, byte: u32) -> (u32, u32) {
        let line = self.line_of(byte);
        let start = self.line_starts().get(line.saturating_sub(1) as usize).copied().unwrap_or(0);
        let before = self.text.get(start..byte as usize).unwrap_or("");
        (line, u32::try_from(before.chars().count() + 1).unwrap_or(u32::MAX))
    }
}

/// All files of a project, in the order in which they were read.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<SourceFile>,
}

impl Sources {
    /// Adds a file and returns its id.
    pub fn add(&mut self, file: SourceFile) -> FileId {
        let id = self.next();
        self.files.push(file);
        id
    }

    /// The id that the next added file will have.
    #[must_use]
    pub fn next(&self) -> FileId {
        FileId(u32::try_from(self.files.len()).unwrap_or(u32::MAX))
    }

    /// The file of an id, if it exists.
    #[must_use]
    pub fn get(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(id.0 as usize)
    }

    /// The text a span covers.
    #[must_use]
    pub fn text(&self, span: Span) -> &str {
        self.get(span.file)
            .and_then(|file| file.text.get(span.start as usize..span.end as usize))
            .unwrap_or("")
    }

    /// The file and line where a span starts.
    #[must_use]
    pub fn locate(&self, span: Span) -> crate::plan::Location {
        let file = self.get(span.file);
        crate::plan::Location {
            file: file.map_or_else(|| Arc::from(""), |f| f.path.clone()),
            line: file.map_or(0, |f| f.line_of(span.start)),
        }
    }

    /// The span of a line that a plan refers to, without indentation and comment. If several files
    /// have the same name, the last one is used, because built-in exercises come first.
    #[must_use]
    pub fn line(&self, place: &crate::plan::Location) -> Option<Span> {
        let index = self.files.iter().rposition(|file| file.path == place.file)?;
        let file = self.files.get(index)?;
        let start = *file.line_starts().get(place.line.checked_sub(1)? as usize)?;
        let line = file.text.get(start..)?.lines().next()?;
        let content = line.trim_start();
        let from = start + (line.len() - content.len());
        let end = comment_start(content).unwrap_or(content.len());
        let text = content.get(..end).unwrap_or(content).trim_end();
        let id = FileId(u32::try_from(index).unwrap_or(u32::MAX));
        Some(Span::new(id, from, from + text.len()))
    }

    /// All files with their ids.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &SourceFile)> {
        (0..).map(FileId).zip(&self.files)
    }
}
