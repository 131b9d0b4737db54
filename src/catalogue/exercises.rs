//! All exercises of a project.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Exercise, Library};

/// The exercises of a project by number: first the built-in ones in the order of the library, then its
/// own in the order of the files. Built-in exercises are parsed on first use; iterating over all of
/// them parses the whole library.
#[derive(Clone, Debug, Default)]
pub struct Exercises {
    built_in: Option<&'static Library>,
    /// Built-in exercises that start from one of the project's, by number.
    anew: Arc<BTreeMap<usize, Exercise>>,
    own: Arc<Vec<Exercise>>,
}

impl Exercises {
    /// The built-in exercises, some of them made anew, and a project's own.
    #[must_use]
    pub fn new(anew: BTreeMap<usize, Exercise>, own: Vec<Exercise>) -> Self {
        Self { built_in: Some(Library::get()), anew: Arc::new(anew), own: Arc::new(own) }
    }

    /// The exercise of a number.
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&Exercise> {
        let first = self.first_own();
        match (index.checked_sub(first), self.built_in) {
            (Some(own), _) => self.own.get(own),
            (None, Some(library)) => self.anew.get(&index).or_else(|| library.exercise(index)),
            (None, None) => None,
        }
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.first_own() + self.own.len()
    }

    /// Whether there are none at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The number of the first that is the project's own.
    fn first_own(&self) -> usize {
        self.built_in.map_or(0, Library::count)
    }

    /// All of them in the order of their numbers.
    #[must_use]
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &Exercise> {
        (0..self.len()).filter_map(|index| self.get(index))
    }

    /// The names of all of them in the order of their numbers, without their synonyms.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        (0..self.len()).filter_map(|index| self.name(index))
    }

    fn name(&self, index: usize) -> Option<&str> {
        match index.checked_sub(self.first_own()) {
            Some(own) => self.own.get(own).map(|exercise| exercise.name.as_str()),
            None => self.built_in?.name(index),
        }
    }

    /// The project's own.
    #[must_use]
    pub fn own(&self) -> &[Exercise] {
        &self.own
    }

    /// Those that have names in other languages, in the order of their numbers.
    pub fn translated(&self) -> impl Iterator<Item = &Exercise> {
        let built_in = self.built_in.into_iter().flat_map(Library::translated);
        let built_in = built_in.filter_map(|index| self.get(index));
        built_in.chain(self.own.iter().filter(|exercise| !exercise.names.is_empty()))
    }
}
