//! The files of a project: the first one and all files it uses, each read once, in a fixed order.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

use jiff::civil::Date;

use crate::bounds::{FILES, USE_DEPTH};
use crate::catalogue::{LIBRARY, LIBRARY_NAME};
use crate::diagnostics::{Code, Diagnostic};
use crate::source::{FileId, LoadError, Loader, NotUtf8, SourceFile, Sources, Span, join};
use crate::syntax::ast::{Head, Item, Name};
use crate::syntax::{Document, ParseCache, parse, parse_again};

use super::resolve_cache::ResolveCache;

/// A project that is parsed but not resolved.
#[derive(Clone, Debug)]
pub struct Project {
    /// All files; the first is the built-in library.
    pub sources: Sources,
    /// The documents in the order of use: what a file uses comes before it.
    pub documents: Vec<Arc<Document>>,
    /// The file the project was opened with.
    pub root: FileId,
    /// "Today": what is dated later looks wrong. `None` for the latest date that makes sense.
    pub as_of: Option<Date>,
    /// What was wrong with files and lines.
    pub diagnostics: Vec<Diagnostic>,
}

/// What has been read of a project before, for [`Project::open_again`] and [`super::resolve_cached`].
#[derive(Clone, Debug, Default)]
pub struct Memory {
    files: Vec<FileRead>,
    lines: ParseCache,
    clean: ResolveCache,
}

impl Memory {
    /// Lines of days that were resolved before without a word about them.
    pub(super) fn clean_lines(&mut self) -> &mut ResolveCache {
        &mut self.clean
    }
}

/// A file read by itself: what it says depends on its text alone.
#[derive(Clone, Debug)]
struct FileRead {
    source: SourceFile,
    document: Arc<Document>,
    problems: Vec<Diagnostic>,
}

/// Why a project could not be opened at all: its first file could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenError {
    /// The path.
    pub path: String,
    /// Why.
    pub error: LoadError,
}

impl std::fmt::Display for OpenError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.path, self.error)
    }
}

impl Project {
    /// Opens a project from its first file, by its path inside the project folder.
    ///
    /// A first file that is not UTF-8 or too large is a finding about the coach's text, like any
    /// other; one that is not there or cannot be read is an [`OpenError`].
    pub fn open(loader: &dyn Loader, path: &str) -> Result<Self, OpenError> {
        Self::open_known(loader, path, None)
    }

    /// Opens a project that has been read before: files and lines that say the same are not read
    /// again. The same as [`Project::open`], sooner.
    pub fn open_again(
        loader: &dyn Loader,
        path: &str,
        memory: &mut Memory,
    ) -> Result<Self, OpenError> {
        let found = Self::open_known(loader, path, Some(memory));
        memory.lines.drop_unused();
        found
    }

    fn open_known(
        loader: &dyn Loader,
        path: &str,
        memory: Option<&mut Memory>,
    ) -> Result<Self, OpenError> {
        let text = match loader.load(path) {
            Ok(text) => Ok(text),
            Err(error @ (LoadError::NotUtf8(_) | LoadError::TooLarge)) => Err(error),
            Err(error) => return Err(OpenError { path: path.to_owned(), error }),
        };
        Ok(Self::read(loader, path, text, memory))
    }

    /// Reads a project whose first file's text is at hand (standard input, an unsaved buffer).
    #[must_use]
    pub fn from_text(loader: &dyn Loader, path: &str, text: String) -> Self {
        Self::read(loader, path, Ok(text), None)
    }

    /// A project whose first file's text could not be taken in: the finding says why.
    #[must_use]
    pub fn unread(loader: &dyn Loader, path: &str, error: LoadError) -> Self {
        Self::read(loader, path, Err(error), None)
    }

    fn read(
        loader: &dyn Loader,
        path: &str,
        text: Result<String, LoadError>,
        memory: Option<&mut Memory>,
    ) -> Self {
        let mut project = Self {
            sources: built_in().clone(),
            documents: Vec::new(),
            root: FileId(1),
            as_of: None,
            diagnostics: Vec::new(),
        };
        let mut opener =
            Opener { loader, memory, read: Vec::new(), known: BTreeMap::new(), open: Vec::new() };
        match text {
            Ok(text) => opener.add(&mut project, path, &text),
            Err(LoadError::NotUtf8(error)) => {
                not_utf8(&mut project, path, &error, None);
            }
            Err(error) => {
                let root = project.sources.add(SourceFile::new(path, ""));
                let at = Span::new(root, 0, 0);
                let found = Diagnostic::new(Code::TooLarge, at, format!("{path}: {error}"));
                project.diagnostics.push(found.help(help_for(&error)));
            }
        }
        let Opener { memory, read, .. } = opener;
        if let Some(memory) = memory {
            memory.files = read;
        }
        project
    }
}

/// Reports a file that is not UTF-8 at its first byte that does not read: its text becomes a source
/// for that, and is not read further.
fn not_utf8(project: &mut Project, path: &str, error: &NotUtf8, used: Option<Span>) -> FileId {
    let file = project.sources.add(SourceFile::new(path, &error.text));
    let at = Span::new(file, error.at, (error.at + 1).min(error.text.len()));
    let found = Diagnostic::new(Code::NotUtf8, at, format!("{path}: {error}"));
    let mut found = found.label(error.cause.label()).help(error.cause.help());
    if let Some(used) = used {
        found = found.and(used, "included here");
    }
    project.diagnostics.push(found);
    file
}

/// The files among some that none of the others uses: each is the start of a project. Of files that
/// use each other in a ring, and are used by no other, the first is.
#[must_use]
pub fn roots(loader: &dyn Loader, paths: &[String]) -> Vec<String> {
    let mut uses: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for path in paths {
        // A file that cannot be read uses nothing; opening it says why.
        let text = loader.load(path).unwrap_or_default();
        let (document, _) = parse(&text, FileId(0));
        let used = document.nodes.iter().filter_map(|node| match &node.item.value {
            Item::Head(Head::Use(name)) => join(path, &name.value),
            _ => None,
        });
        uses.insert(path, used.filter(|used| used != path).collect());
    }
    let by_others: BTreeSet<&str> = uses.values().flatten().map(String::as_str).collect();
    let mut roots: Vec<String> =
        paths.iter().filter(|path| !by_others.contains(path.as_str())).cloned().collect();
    let mut reached = BTreeSet::new();
    let mut open: Vec<&str> = roots.iter().map(String::as_str).collect();
    reach(&uses, &mut open, &mut reached);
    for path in paths {
        if !reached.contains(path.as_str()) {
            roots.push(path.clone());
            reach(&uses, &mut vec![path], &mut reached);
        }
    }
    roots
}

/// Adds all that the open files use, and what that uses.
fn reach<'p>(
    uses: &'p BTreeMap<&'p str, Vec<String>>,
    open: &mut Vec<&'p str>,
    reached: &mut BTreeSet<String>,
) {
    while let Some(path) = open.pop() {
        if reached.insert(path.to_owned()) {
            open.extend(uses.get(path).into_iter().flatten().map(String::as_str));
        }
    }
}

/// The built-in library as the first file of every project: it is part of the program and never
/// changes.
fn built_in() -> &'static Sources {
    static BUILT_IN: OnceLock<Sources> = OnceLock::new();
    BUILT_IN.get_or_init(|| {
        let mut sources = Sources::default();
        sources.add(SourceFile::new(LIBRARY_NAME, LIBRARY));
        sources
    })
}

fn help_for(error: &LoadError) -> &'static str {
    match error {
        LoadError::NotUtf8(_) => "save it as UTF-8",
        LoadError::TooLarge => "split it into several files and include them with `use`",
        LoadError::NotFound => "check the path: it is relative to the folder of this file",
        LoadError::Outside => {
            "`use` cannot leave the project folder: copy the file into it, or choose a wider folder with \
             --project"
        }
        LoadError::Unreadable(_) => {
            "check that it is a plain file and that you have permission to read it"
        }
    }
}

struct Opener<'l> {
    loader: &'l dyn Loader,
    memory: Option<&'l mut Memory>,
    /// The files as they were read.
    read: Vec<FileRead>,
    known: BTreeMap<String, FileId>,
    /// The files being read, outermost first, each with the place that uses the next.
    open: Vec<(String, Span)>,
}

impl Opener<'_> {
    fn add(&mut self, project: &mut Project, path: &str, text: &str) {
        let file = self.file(path, text, project.sources.next());
        let document = file.document.clone();
        let id = project.sources.add(file.source.clone());
        self.known.insert(path.to_owned(), id);
        project.diagnostics.extend(file.problems.iter().cloned());
        self.read.push(file);
        if document.nodes.is_empty() && project.diagnostics.iter().all(|d| d.label.span.file != id)
        {
            project.diagnostics.push(
                Diagnostic::new(Code::EmptyFile, Span::new(id, 0, 0), format!("{path} is empty"))
                    .help("`setwright new FOLDER` makes a small project to start from"),
            );
        }
        self.open.push((path.to_owned(), Span::new(id, 0, 0)));
        for node in &document.nodes {
            if let Item::Head(Head::Use(name)) = &node.item.value {
                if let Some((_, at)) = self.open.last_mut() {
                    *at = name.span;
                }
                self.bring_in(project, path, name);
            }
        }
        self.open.pop();
        project.documents.push(document);
    }

    /// A file, read; or as it was read before.
    fn file(&mut self, path: &str, text: &str, id: FileId) -> FileRead {
        let source = SourceFile::new(path, text);
        let same = |known: &&FileRead| {
            known.document.file == id
                && known.source.path == source.path
                && known.source.text == source.text
        };
        if let Some(known) = self.memory.as_ref().and_then(|m| m.files.iter().find(same)) {
            return known.clone();
        }
        let (document, problems) = match &mut self.memory {
            Some(memory) => parse_again(&source.text, id, &mut memory.lines),
            None => parse(&source.text, id),
        };
        FileRead { source, document: Arc::new(document), problems }
    }

    fn bring_in(&mut self, project: &mut Project, from: &str, name: &Name) {
        let wrong = |code, message: String| Diagnostic::new(code, name.span, message);
        let Some(path) = join(from, &name.value) else {
            project.diagnostics.push(
                wrong(
                    Code::OutsideProject,
                    format!("`{}` is outside the project folder", name.value),
                )
                .help(help_for(&LoadError::Outside)),
            );
            return;
        };
        if let Some(first) = self.open.iter().position(|(open, _)| *open == path) {
            let mut found =
                wrong(Code::UseCycle, format!("`{path}` uses itself through other files"));
            // The first use of the ring, if it is another line than this.
            if let Some((_, at)) = self.open.get(first).filter(|(_, at)| *at != name.span) {
                found = found.and(*at, "the circle starts here");
            }
            project.diagnostics.push(found.help("delete one of the `use` lines"));
            return;
        }
        if self.known.contains_key(&path) {
            return;
        }
        if self.open.len() > USE_DEPTH || self.known.len() >= FILES {
            project.diagnostics.push(
                wrong(
                    Code::TooLarge,
                    format!("a project can have at most {FILES} files, nested {USE_DEPTH} deep"),
                )
                .help("include only the files you need, directly"),
            );
            return;
        }
        match self.loader.load(&path) {
            Ok(text) => self.add(project, &path, &text),
            Err(LoadError::NotUtf8(error)) => {
                let file = not_utf8(project, &path, &error, Some(name.span));
                self.known.insert(path, file);
            }
            Err(error) => {
                let code = match error {
                    LoadError::NotFound => Code::FileNotFound,
                    LoadError::Outside => Code::OutsideProject,
                    LoadError::NotUtf8(_) => Code::NotUtf8,
                    LoadError::TooLarge => Code::TooLarge,
                    LoadError::Unreadable(_) => Code::FileUnreadable,
                };
                let found = wrong(code, format!("`{path}` cannot be used: {error}"));
                project.diagnostics.push(found.help(help_for(&error)));
                self.known.insert(path, name.span.file);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::MemoryLoader;

    #[test]
    fn projects_start_where_nothing_else_uses_them() {
        let loader = MemoryLoader::new()
            .with("a/logs.sets", "use plan.sets\n")
            .with("a/plan.sets", "use ../gym.sets\n")
            .with("gym.sets", "gym Shed\n")
            .with("ring/one.sets", "use two.sets\n")
            .with("ring/two.sets", "use one.sets\n");
        let paths: Vec<String> = [
            "a/logs.sets",
            "a/plan.sets",
            "gym.sets",
            "lost.sets",
            "ring/one.sets",
            "ring/two.sets",
        ]
        .map(str::to_owned)
        .into();
        assert_eq!(roots(&loader, &paths), ["a/logs.sets", "lost.sets", "ring/one.sets"]);
    }
}
