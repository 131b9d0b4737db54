//! Suggests an exercise for an unknown name that is part of a name rather than a typo.

use std::cmp::Reverse;
use std::collections::HashMap;

use crate::syntax::ast::EquipmentKind;
use crate::syntax::fold_name;

use super::{Exercise, Exercises};

/// What a name may mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meant<'a> {
    /// The exercise.
    pub exercise: &'a Exercise,
    /// The name says what it is loaded with, which the exercise's own name does not: the equipment,
    /// as its `equipment` line has it.
    pub with: Option<&'a super::Equipment>,
}

/// The exercise whose name has all words of a written one, or has some of them and is loaded with
/// what the others say: `Squat`, `Cable curl`. Of several a compound lift with a bar, then the one
/// with fewer words, then the one that more others name as
/// what they are like or swapped for.
#[must_use]
pub fn meant<'a>(written: &str, exercises: &'a Exercises) -> Option<Meant<'a>> {
    let wanted = plain_words(written);
    if wanted.iter().all(|word| word.chars().count() < 3) {
        return None;
    }
    // A basic lift is what others are changes of, or are swapped for.
    let mut named: HashMap<String, usize> = HashMap::new();
    for name in exercises.iter().flat_map(|other| other.like.iter().chain(&other.swaps)) {
        *named.entry(fold_name(&name.value)).or_default() += 1;
    }
    let found = exercises.iter().enumerate().filter_map(|(index, exercise)| {
        let own = plain_words(&exercise.name);
        let rest: Vec<&String> = wanted.iter().filter(|word| !own.contains(word)).collect();
        let with = match rest.as_slice() {
            [] => None,
            rest if rest.len() == wanted.len() => return None,
            rest => Some(exercise.equipment.iter().find(|item| {
                let item = [item.kind.word(), item.name.as_deref().unwrap_or("")]
                    .map(plain_words)
                    .concat();
                rest.iter().all(|word| item.contains(word))
            })?),
        };
        let bar = exercise.equipment.first().is_some_and(|item| {
            item.kind == EquipmentKind::Barbell && exercise.compound == Some(true)
        });
        let named = named.get(&fold_name(&exercise.name)).copied().unwrap_or(0);
        let length = exercise.name.split(' ').count();
        let rank = (with.is_some(), !bar, length, Reverse(named), index);
        Some((rank, Meant { exercise, with }))
    });
    found.min_by_key(|(rank, _)| *rank).map(|(_, meant)| meant)
}

/// The words of a name, in one form each: `Dumbbells` is `dumbbell`.
#[must_use]
pub fn plain_words(name: &str) -> Vec<String> {
    let folded = fold_name(name);
    let words = folded.split([' ', '-']).filter(|word| !word.is_empty());
    let one = |word: &str| match word.strip_suffix('s') {
        Some(one) if one.len() > 2 && !one.ends_with('s') => one.to_owned(),
        _ => word.to_owned(),
    };
    words.map(one).collect()
}
