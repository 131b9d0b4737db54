//! Pairs programmes, athletes, days and exercises of the old side with those of the new side. Every
//! pairing is symmetric.

use crate::plan::{AthletePlan, Plan, PlannedExercise, Session};
use crate::quantity::fold_name;

use super::Sides;

/// Pairs two lists. Each index is used at most once, and pairs with the highest `score` come first.
/// Among equal pairs, those nearest the start come first. Pairs on the same diagonal never compete
/// for an index, so the result does not depend on which side is the first.
fn pair(lengths: (usize, usize), score: impl Fn(usize, usize) -> u32) -> Vec<(usize, usize)> {
    let mut wanted: Vec<(u32, usize, usize)> = Vec::new();
    for a in 0..lengths.0 {
        for b in 0..lengths.1 {
            wanted.push((score(a, b), a, b));
        }
    }
    wanted.retain(|(score, ..)| *score > 0);
    wanted.sort_by_key(|(score, a, b)| (std::cmp::Reverse(*score), a + b, *a));
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    for (_, a, b) in wanted {
        if !pairs.iter().any(|(x, y)| *x == a || *y == b) {
            pairs.push((a, b));
        }
    }
    pairs
}

/// Paired and unpaired items of two lists, in the order of the new one; dropped items come last.
fn sides<T: Clone>(old: &[T], new: &[T], pairs: &[(usize, usize)]) -> Vec<Sides<T>> {
    let partner = |b: usize| pairs.iter().find(|(_, y)| *y == b).and_then(|(a, _)| old.get(*a));
    let now = new
        .iter()
        .enumerate()
        .map(|(b, item)| Sides { before: partner(b).cloned(), after: Some(item.clone()) });
    let gone = old.iter().enumerate().filter(|(a, _)| !pairs.iter().any(|(x, _)| x == a));
    let gone = gone.map(|(_, item)| Sides { before: Some(item.clone()), after: None });
    now.chain(gone).collect()
}

/// Pairs programmes by name and file, then by name. If one is left on each side, it was renamed.
#[must_use]
pub fn pair_programmes<'p>(old: &[&'p Plan], new: &[&'p Plan]) -> Vec<Sides<&'p Plan>> {
    let mut pairs = pair((old.len(), new.len()), |a, b| match (old.get(a), new.get(b)) {
        (Some(a), Some(b)) if fold_name(&a.programme) == fold_name(&b.programme) => {
            1 + u32::from(a.line.file == b.line.file)
        }
        _ => 0,
    });
    let lone = |length: usize, taken: Vec<usize>| -> Vec<usize> {
        (0..length).filter(|index| !taken.contains(index)).collect()
    };
    let olds = lone(old.len(), pairs.iter().map(|(a, _)| *a).collect());
    let news = lone(new.len(), pairs.iter().map(|(_, b)| *b).collect());
    if let ([a], [b]) = (olds.as_slice(), news.as_slice()) {
        pairs.push((*a, *b));
    }
    sides(old, new, &pairs)
}

/// Pairs athletes by name only.
pub fn athletes<'p>(old: &'p Plan, new: &'p Plan) -> Vec<Sides<&'p AthletePlan>> {
    let old: Vec<&AthletePlan> = old.athletes.iter().collect();
    let new: Vec<&AthletePlan> = new.athletes.iter().collect();
    let pairs = pair((old.len(), new.len()), |a, b| match (old.get(a), new.get(b)) {
        (Some(a), Some(b)) => u32::from(fold_name(&a.name) == fold_name(&b.name)),
        _ => 0,
    });
    sides(&old, &new, &pairs)
}

/// Pairs days by name. The rest are paired by their exercises, of which at least half must be the
/// same.
pub fn days(old: &Plan, new: &Plan) -> Vec<Sides<String>> {
    let list = |plan: &Plan| -> Vec<(String, Vec<String>)> {
        let day = |name: &&str| ((*name).to_owned(), exercises_of(plan, name));
        plan.day_names().iter().map(day).collect()
    };
    let (old, new) = (list(old), list(new));
    let pairs = pair((old.len(), new.len()), |a, b| match (old.get(a), new.get(b)) {
        (Some((a, _)), Some((b, _))) if fold_name(a) == fold_name(b) => u32::MAX,
        // A day whose name exists on the other side is paired with that day.
        (Some((a, _)), Some(_)) if new.iter().any(|(b, _)| fold_name(b) == fold_name(a)) => 0,
        (Some(_), Some((b, _))) if old.iter().any(|(a, _)| fold_name(a) == fold_name(b)) => 0,
        (Some((_, a)), Some((_, b))) => alike(a, b),
        _ => 0,
    });
    let names = |list: &[(String, Vec<String>)]| -> Vec<String> {
        list.iter().map(|(name, _)| name.clone()).collect()
    };
    sides(&names(&old), &names(&new), &pairs)
}

/// The exercises of a day in all its weeks, each once.
fn exercises_of(plan: &Plan, day: &str) -> Vec<String> {
    let sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    let of_day = sessions.filter(|session| session.day == day);
    let mut names: Vec<String> =
        of_day.flat_map(|session| &session.exercises).map(|e| fold_name(&e.name)).collect();
    names.sort();
    names.dedup();
    names
}

/// Number of names that two lists share, if that is at least half of all names.
fn alike(a: &[String], b: &[String]) -> u32 {
    let same = a.iter().filter(|name| b.contains(name)).count();
    let all = a.len() + b.len() - same;
    if all > 0 && same * 2 >= all { u32::try_from(same).unwrap_or(u32::MAX) } else { 0 }
}

/// An exercise with its index in the session.
pub type Placed<'p> = (usize, &'p PlannedExercise);

/// Pairs the exercises of two sessions. Equal names come first, the first occurrence with the
/// first. The rest are paired by order letter, or by movement pattern between the same neighbours,
/// because another exercise took the place.
pub fn exercises<'p>(old: &'p Session, new: &'p Session) -> Vec<Sides<Placed<'p>>> {
    let old: Vec<Placed<'p>> = old.exercises.iter().enumerate().collect();
    let new: Vec<Placed<'p>> = new.exercises.iter().enumerate().collect();
    let (of_old, of_new) = (numbered(&old), numbered(&new));
    let mut pairs = pair((old.len(), new.len()), |a, b| u32::from(of_old.get(a) == of_new.get(b)));
    let named = pairs.clone();
    let is_free = |a: usize, b: usize| !named.iter().any(|(x, y)| *x == a || *y == b);
    let gap = |a: usize, b: usize| {
        let before = named.iter().filter(|(x, _)| *x < a).count();
        before == named.iter().filter(|(_, y)| *y < b).count()
    };
    pairs.extend(pair((old.len(), new.len()), |a, b| {
        let (Some((_, x)), Some((_, y))) = (old.get(a), new.get(b)) else { return 0 };
        if !is_free(a, b) {
            return 0;
        }
        let same_pattern = x.pattern.is_some() && x.pattern == y.pattern;
        match (x.order == y.order, same_pattern) {
            (true, true) => 3,
            (true, false) => 2,
            (false, true) if gap(a, b) => 1,
            _ => 0,
        }
    }));
    sides(&old, &new, &pairs)
}

/// Each exercise's name, with the number of its occurrence.
fn numbered(all: &[Placed<'_>]) -> Vec<(String, usize)> {
    let names: Vec<String> = all.iter().map(|(_, e)| fold_name(&e.name)).collect();
    let nth = |at: usize, name: &String| names.iter().take(at).filter(|n| *n == name).count();
    names.iter().enumerate().map(|(at, name)| (name.clone(), nth(at, name))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pairs_are_the_same_from_either_side() {
        // All lengths, and all scores up to two for three items on each side.
        for code in 0..3_u32.pow(9) {
            let score = |a: usize, b: usize| {
                let place = u32::try_from(3 * a + b).unwrap();
                code / 3_u32.pow(place) % 3
            };
            let mut there = pair((3, 3), score);
            let mut back: Vec<(usize, usize)> =
                pair((3, 3), |a, b| score(b, a)).into_iter().map(|(a, b)| (b, a)).collect();
            there.sort_unstable();
            back.sort_unstable();
            assert_eq!(there, back, "{code}");
        }
    }
}
