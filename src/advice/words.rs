//! Short texts for weeks, athletes and numbers.

use std::collections::BTreeSet;

use crate::plan::PlannedSet;
use crate::quantity::{Exact, Unit};

use super::Squad;

/// `week 3`, `weeks 3, 5-7`.
pub fn weeks(weeks: &BTreeSet<u32>) -> String {
    let numbers: Vec<u32> = weeks.iter().copied().collect();
    let runs: Vec<String> = numbers
        .chunk_by(|a, b| a + 1 == *b)
        .map(|run| match run {
            [first, .., last] => format!("{first}-{last}"),
            _ => run.iter().map(ToString::to_string).collect(),
        })
        .collect();
    let word = if numbers.len() == 1 { "week" } else { "weeks" };
    format!("{word} {}", runs.join(", "))
}

/// When and for whom, in brackets: `(weeks 3, 5-7; Wren Tallow and 4 more)`. What goes without
/// saying is left out: the only week, the only athlete. Each comes with those of whom the worst is
/// said, where they are not all alike: `(every week, worst in week 6)`.
pub fn scope(
    squad: &Squad,
    (in_weeks, worst_weeks): (&BTreeSet<u32>, &BTreeSet<u32>),
    (athletes, worst_athletes): (&BTreeSet<usize>, &BTreeSet<usize>),
) -> String {
    let mut parts = Vec::new();
    let count = u32::try_from(in_weeks.len()).unwrap_or(u32::MAX);
    if squad.weeks > 1 && count > 0 {
        parts.push(if count == squad.weeks { "every week".to_owned() } else { weeks(in_weeks) });
    }
    if let (Some(part), false) = (parts.last_mut(), worst_weeks.is_empty() || count < 2) {
        part.push_str(&format!(", worst in {}", weeks(worst_weeks)));
    }
    let names: Vec<&str> =
        athletes.iter().filter_map(|at| squad.athletes.get(*at)).map(String::as_str).collect();
    match names.as_slice() {
        [] => {}
        _ if squad.athletes.len() == 1 => {}
        [_, _] if squad.athletes.len() == 2 => parts.push("both athletes".to_owned()),
        all if all.len() == squad.athletes.len() => {
            parts.push(format!("all {} athletes", all.len()));
        }
        [only] => parts.push((*only).to_owned()),
        [first, rest @ ..] => parts.push(format!("{first} and {} more", rest.len())),
    }
    let worst = worst_athletes.iter().find_map(|at| squad.athletes.get(*at));
    if let (Some(part), Some(worst)) = (parts.last_mut(), worst.filter(|_| athletes.len() > 1)) {
        part.push_str(&format!(", worst for {worst}"));
    }
    if parts.is_empty() { String::new() } else { format!(" ({})", parts.join("; ")) }
}

/// A share as a percentage with at most one decimal: `88 %`, `92.5 %`.
pub fn percent(share: &Exact) -> String {
    format!("{} %", (share * &Exact::whole(100)).to_decimal(1))
}

/// A load as the sheet shows it.
pub fn load(mass: &Exact, unit: Unit) -> String {
    mass.to_mass().show(unit)
}

/// What a set asks for in short: `5 at 85 %`, `5` without a known share.
pub fn set(set: &PlannedSet) -> String {
    let work = set.reps.work.to_string();
    match &set.share_of_1rm {
        Some(share) => format!("{work} at {}", percent(share)),
        None => work,
    }
}

/// `1 set`, `3 sets`.
pub fn count(n: u64, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weeks_run_together() {
        let of = |list: &[u32]| weeks(&list.iter().copied().collect());
        assert_eq!(of(&[3]), "week 3");
        assert_eq!(of(&[3, 5, 6, 7]), "weeks 3, 5-7");
        assert_eq!(of(&[1, 2, 4]), "weeks 1-2, 4");
    }
}
