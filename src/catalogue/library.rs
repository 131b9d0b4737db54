//! The built-in exercises: one file for each family in `library/`, joined into one text.
//!
//! A programme uses about a dozen of them. An index of positions and names is built from the starts of
//! lines; an exercise itself is parsed on first use with the normal parser. A test compares the two.

use std::collections::{BTreeSet, HashMap};
use std::ops::Range;
use std::sync::{Arc, OnceLock};

use super::Exercise;
use crate::source::FileId;
use crate::syntax::ast::{Head, Item, Node};
use crate::syntax::{Document, fold_name, parse, parse_part};

/// Puts the families together, in the order given, with a blank line between.
macro_rules! families {
    ($first:literal $(, $more:literal)* $(,)?) => {
        concat!(include_str!($first) $(, "\n", include_str!($more))*)
    };
}

/// The exercises that are always there, in the notation itself.
pub const LIBRARY: &str = families![
    "library/squat.sets",
    "library/hinge.sets",
    "library/lunge.sets",
    "library/horizontal-push.sets",
    "library/vertical-push.sets",
    "library/horizontal-pull.sets",
    "library/vertical-pull.sets",
    "library/carry.sets",
    "library/brace.sets",
    "library/rotate.sets",
    "library/calf.sets",
    "library/leg-isolation.sets",
    "library/arm-isolation.sets",
    "library/jump.sets",
    "library/power.sets",
];
/// The name under which the built-in exercises appear as a file.
pub const LIBRARY_NAME: &str = "built-in library";
/// About as many names and synonyms as there are.
const NAMES: usize = 512;

/// The file that the built-in exercises are, in every project.
pub const LIBRARY_FILE: FileId = FileId(0);

/// The built-in exercises by their numbers, in the order of the text.
#[derive(Debug)]
pub struct Library {
    entries: Vec<LibraryEntry>,
    names: HashMap<String, LibraryMatch>,
}

/// A built-in exercise.
#[derive(Debug)]
struct LibraryEntry {
    name: &'static str,
    /// The bytes of its lines.
    at: Range<usize>,
    /// The exercise it starts from.
    like: Option<usize>,
    /// It has names in other languages.
    is_translated: bool,
    /// Boxed: most are never read.
    read: OnceLock<Box<Exercise>>,
}

/// What a name of the library stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LibraryMatch {
    /// The exercise.
    pub index: usize,
    /// It is the exercise's name, not a synonym.
    pub is_full: bool,
}

impl Library {
    /// The library: part of the program, it never changes.
    #[must_use]
    pub fn get() -> &'static Self {
        static LIBRARY: OnceLock<Library> = OnceLock::new();
        LIBRARY.get_or_init(|| Library::index(self::LIBRARY))
    }

    /// The whole library as a document, for callers that need positions.
    #[must_use]
    pub fn document() -> &'static Arc<Document> {
        static DOCUMENT: OnceLock<Arc<Document>> = OnceLock::new();
        DOCUMENT.get_or_init(|| Arc::new(parse(self::LIBRARY, LIBRARY_FILE).0))
    }

    /// Finds the exercises of a text, their names, and what they start from.
    fn index(text: &'static str) -> Self {
        let mut library = Self { entries: Vec::new(), names: HashMap::with_capacity(NAMES) };
        let mut likes = Vec::new();
        let mut at = 0;
        for line in text.split_inclusive('\n') {
            let start = at;
            at += line.len();
            let index = library.entries.len();
            // Most lines are told apart by their first signs.
            match line.as_bytes() {
                [b'#' | b'\r' | b'\n', ..] => {}
                [b' ', b' ', first, ..] => {
                    let Some(entry) = library.entries.last_mut() else { continue };
                    entry.at.end = at;
                    let index = index - 1;
                    let named = |key: &str| line.trim_end().strip_prefix(key);
                    match first {
                        b'a' => {
                            for name in
                                named("  also called:").into_iter().flat_map(|n| n.split(','))
                            {
                                let known = LibraryMatch { index, is_full: false };
                                library.names.entry(fold_name(name)).or_insert(known);
                            }
                        }
                        b'l' => likes.extend(named("  like:").map(|name| (index, fold_name(name)))),
                        b'n' => entry.is_translated |= named("  name ").is_some(),
                        _ => {}
                    }
                }
                _ => {
                    let Some(name) = line.trim_end().strip_prefix("exercise ") else { continue };
                    library.names.insert(fold_name(name), LibraryMatch { index, is_full: true });
                    library.entries.push(LibraryEntry::new(name, start..at));
                }
            }
        }
        for (index, name) in likes {
            let like = library.find(&name).map(|known| known.index);
            if let Some(entry) = library.entries.get_mut(index) {
                entry.like = like;
            }
        }
        library
    }

    /// Parses the whole library in advance, so that later calls do not wait.
    pub fn read_all(&self) {
        for index in 0..self.count() {
            let _ = self.exercise(index);
        }
    }

    /// How many exercises there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.entries.len()
    }

    /// The exercise of a name or a synonym, as names are compared.
    #[must_use]
    pub fn find(&self, folded: &str) -> Option<LibraryMatch> {
        self.names.get(folded).copied()
    }

    /// The name of an exercise.
    #[must_use]
    pub fn name(&self, index: usize) -> Option<&'static str> {
        self.entries.get(index).map(|entry| entry.name)
    }

    /// The names of all exercises, without their synonyms.
    pub fn names(&self) -> impl Iterator<Item = &'static str> {
        self.entries.iter().map(|entry| entry.name)
    }

    /// How many names and synonyms there are.
    #[cfg(test)]
    pub(crate) fn names_known(&self) -> usize {
        self.names.len()
    }

    /// The exercises that have names in other languages.
    pub(crate) fn translated(&self) -> impl Iterator<Item = usize> {
        self.entries.iter().enumerate().filter(|(_, entry)| entry.is_translated).map(|(i, _)| i)
    }

    /// The exercises that start from one of these names, by way of others or not.
    #[must_use]
    pub fn resting_on(&self, folded: &BTreeSet<String>) -> BTreeSet<usize> {
        let named = folded.iter().filter_map(|name| self.find(name));
        let named: BTreeSet<usize> =
            named.filter(|known| known.is_full).map(|known| known.index).collect();
        if named.is_empty() {
            return BTreeSet::new();
        }
        let rests = |index: &usize| {
            self.bases(*index).into_iter().skip(1).any(|base| named.contains(&base))
        };
        (0..self.count()).filter(rests).collect()
    }

    /// An exercise and what it starts from, up to the one that starts from none.
    fn bases(&self, index: usize) -> Vec<usize> {
        let mut chain = vec![index];
        while let Some(like) = chain.last().and_then(|last| self.entries.get(*last)?.like)
            && !chain.contains(&like)
        {
            chain.push(like);
        }
        chain
    }

    /// The lines of an exercise.
    #[must_use]
    pub fn node(&self, index: usize) -> Option<Node> {
        let entry = self.entries.get(index)?;
        parse_part(LIBRARY, LIBRARY_FILE, entry.at.clone()).into_iter().next()
    }

    /// An exercise, with what it starts from.
    #[must_use]
    pub fn exercise(&self, index: usize) -> Option<&Exercise> {
        let known = |index: usize| self.entries.get(index)?.read.get().map(Box::as_ref);
        if let Some(exercise) = known(index) {
            return Some(exercise);
        }
        // From the ground up: what one starts from has been read before it.
        for at in self.bases(index).into_iter().rev() {
            let entry = self.entries.get(at)?;
            entry.read.get_or_init(|| Box::new(self.read(at, entry)));
        }
        known(index)
    }

    fn read(&self, index: usize, entry: &LibraryEntry) -> Exercise {
        let base = entry.like.and_then(|like| self.entries.get(like)?.read.get()).map(Box::as_ref);
        let node = self.node(index);
        let read = node.as_ref().and_then(|node| match &node.item.value {
            Item::Head(Head::Exercise(name)) => {
                Some(Exercise::over(base, name, &node.children, &mut Vec::new()))
            }
            _ => None,
        });
        // Every entry opens with its head: a test reads them all.
        read.unwrap_or_else(|| {
            let span = crate::source::Span::new(LIBRARY_FILE, entry.at.start, entry.at.start);
            Exercise::named(&crate::source::Spanned::new(entry.name.to_owned(), span))
        })
    }
}

impl LibraryEntry {
    fn new(name: &'static str, at: Range<usize>) -> Self {
        Self { name, at, like: None, is_translated: false, read: OnceLock::new() }
    }
}
