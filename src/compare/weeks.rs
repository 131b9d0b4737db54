//! Pairs the weeks of the old programme with those of the new one.

use std::collections::BTreeMap;

use crate::plan::Plan;
use crate::quantity::fold_name;

use super::prescription::line;
use super::{Change, FactNumbers, FactValue, Field, Sides, words};

/// Pairs the weeks. If one side has more, those stay unpaired whose removal leaves most of the rest
/// unchanged; among equal choices, the last.
pub fn pair(old: &Plan, new: &Plan) -> Vec<Sides<u32>> {
    let (more, fewer, turned) =
        if old.weeks >= new.weeks { (old, new, false) } else { (new, old, true) };
    let kept = if more.weeks == fewer.weeks {
        (0..fewer.weeks as usize).collect()
    } else {
        kept(&contents(more), &contents(fewer))
    };
    let number = |index: usize| u32::try_from(index + 1).unwrap_or(u32::MAX);
    (0..more.weeks as usize)
        .map(|index| {
            let long = Some(number(index));
            let short = kept.iter().position(|week| *week == index).map(number);
            let (before, after) = if turned { (short, long) } else { (long, short) };
            Sides { before, after }
        })
        .collect()
}

/// What each week prescribes for all athletes, sorted.
fn contents(plan: &Plan) -> Vec<Vec<String>> {
    let mut weeks = vec![Vec::new(); plan.weeks as usize];
    for athlete in &plan.athletes {
        for session in &athlete.sessions {
            let Some(week) = (session.week as usize).checked_sub(1).and_then(|w| weeks.get_mut(w))
            else {
                continue;
            };
            let place = format!("{}|{}", fold_name(&athlete.name), fold_name(&session.day));
            week.push(format!("{place}|{:?}", session.phase));
            let asked = session.exercises.iter().map(|e| format!("{place}|{}|{}", e.name, line(e)));
            week.extend(asked);
        }
    }
    for week in &mut weeks {
        week.sort();
    }
    weeks
}

/// The weeks of the longer side that correspond to those of the shorter one: the cheapest choice
/// that keeps the order.
fn kept(long: &[Vec<String>], short: &[Vec<String>]) -> Vec<usize> {
    let spare = long.len() - short.len();
    // Least cost for the first weeks of the short side, by their number and by the number of weeks
    // left out.
    let mut best: BTreeMap<(usize, usize), usize> = BTreeMap::from([((0, 0), 0)]);
    let mut left_out: BTreeMap<(usize, usize), bool> = BTreeMap::new();
    for taken in 0..=short.len() {
        for out in 0..=spare {
            let keep = taken.checked_sub(1).and_then(|before| {
                let (a, b) = (long.get(before + out)?, short.get(before)?);
                Some(best.get(&(before, out))? + difference(a, b))
            });
            let leave = out.checked_sub(1).and_then(|before| best.get(&(taken, before)).copied());
            let cheapest = match (keep, leave) {
                // The last one is left out, if that costs no more.
                (Some(keep), Some(leave)) if leave <= keep => (leave, true),
                (Some(keep), _) => (keep, false),
                (None, Some(leave)) => (leave, true),
                (None, None) => continue,
            };
            best.insert((taken, out), cheapest.0);
            left_out.insert((taken, out), cheapest.1);
        }
    }
    let (mut taken, mut out) = (short.len(), spare);
    let mut kept = Vec::new();
    while taken > 0 || out > 0 {
        if left_out.get(&(taken, out)).copied().unwrap_or(taken == 0) {
            out = out.saturating_sub(1);
        } else {
            taken = taken.saturating_sub(1);
            kept.push(taken + out);
        }
    }
    kept.reverse();
    kept
}

/// Number of items that are in only one of two sorted lists.
fn difference(a: &[String], b: &[String]) -> usize {
    let (mut a, mut b) = (a.iter().peekable(), b.iter().peekable());
    let mut lone = 0;
    loop {
        match (a.peek(), b.peek()) {
            (Some(x), Some(y)) if x == y => {
                a.next();
                b.next();
            }
            (Some(x), Some(y)) if x < y => {
                a.next();
                lone += 1;
            }
            (_, Some(_)) => {
                b.next();
                lone += 1;
            }
            (Some(_), None) => {
                a.next();
                lone += 1;
            }
            (None, None) => return lone,
        }
    }
}

/// Changes for weeks that are new, dropped or renumbered.
pub fn changes(pairs: &[Sides<u32>]) -> Vec<Change> {
    let lone = pairs.iter().filter(|pair| pair.both().is_none());
    let mut all: Vec<Change> = lone
        .map(|pair| {
            let value = |week: &u32| FactValue {
                text: format!("week {week}"),
                numbers: Some(FactNumbers::Count(*week)),
            };
            Change { what: Field::Week, of: None, sides: Sides::of(pair, value) }
        })
        .collect();
    let moved = pairs.iter().filter_map(Sides::both).filter(|(before, after)| before != after);
    let moved: Vec<(u32, u32)> = moved.map(|(before, after)| (*before, *after)).collect();
    // Consecutive weeks that move by the same number are reported as one change.
    for run in
        moved.chunk_by(|a, b| i64::from(a.0) - i64::from(a.1) == i64::from(b.0) - i64::from(b.1))
    {
        let text = |pick: fn(&(u32, u32)) -> u32| {
            FactValue::plain(words::weeks(&run.iter().map(pick).collect::<Vec<_>>()))
        };
        let sides = Sides { before: Some(text(|pair| pair.0)), after: Some(text(|pair| pair.1)) };
        all.push(Change { what: Field::Week, of: Some("number".to_owned()), sides });
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weeks(texts: &[&str]) -> Vec<Vec<String>> {
        texts.iter().map(|text| text.chars().map(String::from).collect()).collect()
    }

    #[test]
    fn the_week_that_is_gone_is_found() {
        let long = weeks(&["abc", "abd", "x", "abe"]);
        assert_eq!(kept(&long, &weeks(&["abc", "abd", "abe"])), [0, 1, 3]);
        assert_eq!(kept(&long, &weeks(&["abc", "abd", "x"])), [0, 1, 2]);
        assert_eq!(kept(&long, &weeks(&["abd", "abe"])), [1, 3]);
        // If all weeks are equal, the last one was dropped.
        assert_eq!(kept(&weeks(&["a", "a", "a"]), &weeks(&["a", "a"])), [0, 1]);
        assert_eq!(kept(&long, &weeks(&[])), [0_usize; 0]);
    }

    #[test]
    fn differences_are_counted_on_both_sides() {
        let list = |text: &str| -> Vec<String> { text.chars().map(String::from).collect() };
        assert_eq!(difference(&list("aabc"), &list("abd")), 3);
        assert_eq!(difference(&list(""), &list("abd")), 3);
    }
}
