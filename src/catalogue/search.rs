//! Searches exercises.

use std::cmp::Ordering;

use crate::syntax::ast::EquipmentKind;
use crate::syntax::fold_name;

use super::{Catalogue, Exercise};

/// A search query: all given conditions must match.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Query {
    /// Each is part of a name, a synonym, a pattern, a muscle or the equipment.
    pub words: Vec<String>,
    /// A muscle that does some of the work. What is found is then ranked by its share.
    pub muscle: Option<String>,
    /// One of its movement patterns.
    pub pattern: Option<String>,
    /// A kind of equipment, or the name of a stack, a machine or a thing needed besides.
    pub equipment: Option<String>,
    /// Done on each side (true), or on both at once.
    pub each_side: Option<bool>,
    /// Compound (true), or isolation.
    pub compound: Option<bool>,
}

impl<'a> Catalogue<'a> {
    /// The exercises that a query finds, by index: in the order of the files, or with a muscle
    /// those first in which it does the larger share.
    #[must_use]
    pub fn search(&self, query: &Query) -> Vec<usize> {
        let found = self.all().filter(|(_, exercise)| query.finds(exercise));
        let mut found: Vec<(usize, &Exercise)> = found.collect();
        if let Some(muscle) = &query.muscle {
            let share = |exercise: &Exercise| exercise.share_of(muscle).unwrap_or((0, 1));
            found.sort_by(|(_, a), (_, b)| by_share(share(b), share(a)));
        }
        found.into_iter().map(|(index, _)| index).collect()
    }

    /// Every name that the equipment of a query may have: the kinds, then the names, sorted.
    #[must_use]
    pub fn equipment_names(&self) -> Vec<&'a str> {
        let kinds = EquipmentKind::ALL.into_iter().map(|(_, word)| word);
        let mut names: Vec<&str> = self
            .all()
            .flat_map(|(_, exercise)| {
                let names = exercise.equipment.iter().filter_map(|item| item.name.as_deref());
                names.chain(exercise.needs.iter().map(String::as_str))
            })
            .collect();
        names.sort_unstable();
        names.dedup();
        kinds.chain(names).collect()
    }
}

impl Query {
    fn finds(&self, exercise: &Exercise) -> bool {
        let about = fold_name(&exercise.about());
        let holds = |wanted: Option<bool>, own: Option<bool>| wanted.is_none() || wanted == own;
        self.words.iter().all(|word| about.contains(&fold_name(word)))
            && self.muscle.as_ref().is_none_or(|muscle| exercise.share_of(muscle).is_some())
            && self.pattern.as_ref().is_none_or(|pattern| exercise.has_pattern(pattern))
            && self.equipment.as_ref().is_none_or(|item| exercise.uses(item))
            && holds(self.each_side, Some(exercise.each_side))
            && holds(self.compound, exercise.compound)
    }
}

/// Which of two shares is the larger.
pub(super) fn by_share(a: (u32, u32), b: (u32, u32)) -> Ordering {
    let cross = |(part, _): (u32, u32), (_, whole): (u32, u32)| u64::from(part) * u64::from(whole);
    cross(a, b).cmp(&cross(b, a))
}

impl Exercise {
    /// The share of the work that a muscle does, as a fraction.
    #[must_use]
    pub fn share_of(&self, muscle: &str) -> Option<(u32, u32)> {
        let folded = fold_name(muscle);
        let own = self.muscles.iter().find(|(name, _)| fold_name(name) == folded);
        own.map(|(_, share)| *share)
    }

    /// Its equipment in words: the kinds, the best first, then what it needs besides.
    #[must_use]
    pub fn equipment_words(&self) -> String {
        let names = self.equipment.iter().map(ToString::to_string);
        let needs = self.needs.iter().map(|need| need.to_lowercase());
        names.chain(needs).collect::<Vec<_>>().join(", ")
    }

    /// Whether it uses a kind of equipment, or a thing of this name.
    fn uses(&self, item: &str) -> bool {
        let folded = fold_name(item);
        let is = |name: &str| fold_name(name) == folded;
        self.equipment.iter().any(|own| is(own.kind.word()) || own.name.as_deref().is_some_and(is))
            || self.needs.iter().any(|need| is(need))
    }

    /// Everything a word may be found in.
    fn about(&self) -> String {
        let also: Vec<&str> = self.also.iter().map(|name| name.value.as_str()).collect();
        let muscles: Vec<&str> = self.muscles.iter().map(|(muscle, _)| muscle.as_str()).collect();
        format!(
            "{} {} {} {} {}",
            self.name,
            also.join(" "),
            self.patterns().collect::<Vec<_>>().join(" "),
            muscles.join(" "),
            self.equipment_words()
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_compared_as_fractions() {
        assert_eq!(by_share((1, 2), (2, 4)), Ordering::Equal);
        assert_eq!(by_share((1, 3), (1, 2)), Ordering::Less);
        assert_eq!(by_share((1, 1), (9, 10)), Ordering::Greater);
    }
}
