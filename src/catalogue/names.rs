//! Maps the names and synonyms of exercises to exercises.

use std::collections::BTreeMap;

use super::{Exercise, Exercises, Library};
use crate::syntax::fold_name;

/// The names and synonyms of a project's exercises, each with the exercise it stands for: a number
/// of the project's exercises.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names {
    /// Names of the library stand for its exercises, unless the project gives them to its own.
    has_built_in: bool,
    own: BTreeMap<String, usize>,
}

impl Names {
    /// The names of the library.
    #[must_use]
    pub fn built_in() -> Self {
        Self { has_built_in: true, own: BTreeMap::new() }
    }

    /// The exercise of a name or a synonym.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<usize> {
        let folded = fold_name(name);
        let built_in = || Library::get().find(&folded).filter(|_| self.has_built_in);
        self.own.get(&folded).copied().or_else(|| Some(built_in()?.index))
    }

    /// A name for an exercise; a later one stands over an earlier one.
    pub fn insert(&mut self, name: &str, index: usize) {
        self.own.insert(fold_name(name), index);
    }
}

/// A project's exercises with their names.
#[derive(Clone, Copy, Debug)]
pub struct Catalogue<'a> {
    exercises: &'a Exercises,
    names: &'a Names,
}

impl<'a> Catalogue<'a> {
    /// Exercises, and where their names lead.
    #[must_use]
    pub fn new(exercises: &'a Exercises, names: &'a Names) -> Self {
        Self { exercises, names }
    }

    /// The exercise of an index.
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&'a Exercise> {
        self.exercises.get(index)
    }

    /// The exercise of a name or a synonym, with its index.
    #[must_use]
    pub fn named(&self, name: &str) -> Option<(usize, &'a Exercise)> {
        let index = self.names.find(name)?;
        Some((index, self.get(index)?))
    }

    /// Every exercise with its index, in the order of the files, the built-in ones first. Of two
    /// definitions of one name only the one that counts is among them.
    pub fn all(&self) -> impl Iterator<Item = (usize, &'a Exercise)> + use<'a> {
        let names = self.names;
        let counts = move |(index, exercise): &(usize, &Exercise)| {
            names.find(&exercise.name) == Some(*index)
        };
        self.exercises.iter().enumerate().filter(counts)
    }

    /// The swaps of an exercise that are known, closest first.
    pub fn swaps(&self, exercise: &'a Exercise) -> impl Iterator<Item = (usize, &'a Exercise)> {
        exercise.swaps.iter().filter_map(|swap| self.named(&swap.value))
    }
}
