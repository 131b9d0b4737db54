//! Where the names of exercises lead.

use std::collections::BTreeMap;

use crate::syntax::fold_name;

use super::Exercise;

/// The names and synonyms of a project's exercises, each with the exercise it stands for: an index
/// into the project's exercises.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names(BTreeMap<String, usize>);

impl Names {
    /// The exercise of a name or a synonym.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<usize> {
        self.0.get(&fold_name(name)).copied()
    }

    /// A name for an exercise; a later one stands over an earlier one.
    pub fn insert(&mut self, name: &str, index: usize) {
        self.0.insert(fold_name(name), index);
    }
}

/// A project's exercises with their names.
#[derive(Clone, Copy, Debug)]
pub struct Catalogue<'a> {
    exercises: &'a [Exercise],
    names: &'a Names,
}

impl<'a> Catalogue<'a> {
    /// Exercises, and where their names lead.
    #[must_use]
    pub fn new(exercises: &'a [Exercise], names: &'a Names) -> Self {
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
