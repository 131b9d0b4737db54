//! The sums of a block and its weeks before and after, used by all output formats.

use std::collections::BTreeSet;

use super::fold::ChangeKind;
use super::series::spanned;
use super::{AthleteChange, BlockChange, Comparison, Sides, Volume, WeekChange, words};
use crate::quantity::Exact;

/// Number of athletes above which the sums of weeks are given for all of them together.
const MOST_TOLD: usize = 12;

/// The sums of a block: `hard sets 423 → 430, volume load 134,386 → 139,196 kg (+3.6 %)`. Equal
/// sums are left out.
pub fn of_block(block: &BlockChange) -> String {
    let (sets, volume) = (&block.hard_sets, &block.volume_load_kg);
    let mut parts = Vec::new();
    if sets.before != sets.after {
        parts.push(format!("hard sets {}", counts(sets)));
    }
    if volume.before != volume.after {
        parts.push(format!("volume load {}", volumes(volume)));
    }
    parts.join(", ")
}

/// Lines with their indentation: the block of each athlete and, below it, the weeks, one by one if
/// requested.
pub fn lines(
    comparison: &Comparison,
    weekly: bool,
    who: impl Fn(&BTreeSet<usize>) -> String,
) -> Vec<(usize, String)> {
    let all: Vec<(usize, &AthleteChange, &BlockChange)> = staying(comparison).collect();
    if all.len() > MOST_TOLD && !weekly {
        let athletes = all.iter().map(|(at, ..)| *at).collect();
        let blocks: Vec<&BlockChange> = all.iter().map(|(.., block)| *block).collect();
        return vec![(0, format!("{}: {}", who(&athletes), of_many(&blocks)))];
    }
    let mut lines = Vec::new();
    for (at, athlete, block) in all {
        let told = of_block(block);
        let told = if told.is_empty() { "in all the same as before" } else { told.as_str() };
        lines.push((0, format!("{}: {told}", who(&BTreeSet::from([at])))));
        let weeks = if weekly { one_by_one(&athlete.weeks) } else { together(&athlete.weeks) };
        lines.extend(weeks.into_iter().map(|line| (4, line)));
    }
    lines
}

/// The athletes on both sides whose sums changed.
fn staying(comparison: &Comparison) -> impl Iterator<Item = (usize, &AthleteChange, &BlockChange)> {
    comparison.athletes.iter().filter_map(|one| {
        let (_, name) = one.athlete.both()?;
        let at = comparison.athletes_on_both_sides.iter().position(|other| other == name)?;
        Some((at, one, one.block.as_ref()?))
    })
}

/// The least and the greatest of several sums.
fn of_many(blocks: &[&BlockChange]) -> String {
    let sets = blocks.iter().filter_map(|block| more_sets(&block.hard_sets));
    let growths: Vec<Exact> =
        blocks.iter().filter_map(|block| growth(&block.volume_load_kg)).collect();
    format!("{} over the block", changed(&sets.collect::<Vec<_>>(), &growths, "").join(", "))
}

/// Each week that changed.
fn one_by_one(weeks: &[WeekChange]) -> Vec<String> {
    let line = |change: &WeekChange| {
        let (sets, volume) = (&change.hard_sets, &change.volume_load_kg);
        let (sets, volume) = (counts(sets), volumes(volume));
        format!("{}: hard sets {sets}, volume load {volume}", name(&change.week))
    };
    weeks.iter().map(line).collect()
}

/// Added and dropped weeks with their sums; the other weeks with their differences.
fn together(weeks: &[WeekChange]) -> Vec<String> {
    let mut lines = Vec::new();
    for (fate, told) in [(ChangeKind::Dropped, "dropped"), (ChangeKind::Added, "new")] {
        let lone: Vec<&WeekChange> =
            weeks.iter().filter(|change| ChangeKind::of(&change.week) == fate).collect();
        if lone.is_empty() {
            continue;
        }
        let numbers: Vec<u32> = lone.iter().filter_map(|one| one.week.either()).copied().collect();
        let sets: u32 = lone.iter().filter_map(|one| one.hard_sets.either()).sum();
        let volumes = lone.iter().map(|one| volume(one.volume_load_kg.either()));
        let volume = words::kilograms(&volumes.fold(Exact::zero(), |sum, more| &sum + &more));
        let weeks = words::weeks(&numbers);
        lines.push(format!("{weeks}, {told}: hard sets {sets}, volume load {volume} kg"));
    }
    let both: Vec<&WeekChange> = weeks.iter().filter(|one| one.week.both().is_some()).collect();
    let each = if both.len() > 1 { " a week" } else { "" };
    let sets: Vec<i64> = both.iter().filter_map(|one| more_sets(&one.hard_sets)).collect();
    let growths: Vec<Exact> = both.iter().filter_map(|one| growth(&one.volume_load_kg)).collect();
    let told = changed(&sets, &growths, each);
    if !told.is_empty() {
        let numbers: Vec<&Sides<u32>> = both.iter().map(|one| &one.week).collect();
        lines.push(format!("{}: {}", words::paired_weeks(&numbers), told.join(", ")));
    }
    lines
}

/// The differences of sets and volumes: `hard sets 0 to +1 a week`, `volume load -0.7 to -0.3 %`.
fn changed(sets: &[i64], growths: &[Exact], each: &str) -> Vec<String> {
    let mut parts = Vec::new();
    if let (Some(least), Some(most)) = (sets.iter().min(), sets.iter().max())
        && (*least, *most) != (0, 0)
    {
        let span = spanned(&(Exact::whole(*least), Exact::whole(*most)), "");
        parts.push(format!("hard sets {}{each}", span.trim_end()));
    }
    if growths.iter().any(|by| !by.is_zero())
        && let (Some(least), Some(most)) = (growths.iter().min(), growths.iter().max())
    {
        let percent = |share: &Exact| (share * &Exact::whole(100)).to_decimal(1).to_string();
        let (least, most) = (percent(least), percent(most));
        let until = words::signed(&most, "%");
        let span = if least == most {
            until
        } else {
            format!("{} to {until}", words::signed(&least, "").trim_end())
        };
        parts.push(format!("volume load {span}{each}"));
    }
    parts
}

/// The name of a week: `week 3`, `week 3, dropped`, `week 4, now week 3`.
fn name(week: &Sides<u32>) -> String {
    match (week.before, week.after) {
        (Some(before), Some(after)) if before != after => {
            format!("week {before}, now week {after}")
        }
        (Some(week), Some(_)) => format!("week {week}"),
        (Some(week), None) => format!("week {week}, dropped"),
        (None, Some(week)) => format!("week {week}, new"),
        (None, None) => String::new(),
    }
}

/// A count before and after: `44`, `57 → 58`.
fn counts(sides: &Sides<u32>) -> String {
    let (was, is) = (sides.before.unwrap_or_default(), sides.after.unwrap_or_default());
    if was == is { is.to_string() } else { format!("{was} → {is}") }
}

/// A volume before and after: `18,135 → 19,005 kg (+4.8 %)`.
fn volumes(sides: &Sides<Volume>) -> String {
    let (before, after) = (volume(sides.before.as_ref()), volume(sides.after.as_ref()));
    if before == after {
        return format!("{} kg", words::kilograms(&after));
    }
    let there = sides.both().and_then(|_| words::growth(&before, &after));
    let grown = there.map_or_else(String::new, |growth| format!(" ({growth})"));
    format!("{} → {} kg{grown}", words::kilograms(&before), words::kilograms(&after))
}

fn volume(volume: Option<&Volume>) -> Exact {
    volume.map_or_else(Exact::zero, |volume| volume.0.clone())
}

fn more_sets(sides: &Sides<u32>) -> Option<i64> {
    sides.both().map(|(was, is)| i64::from(*is) - i64::from(*was))
}

fn growth(sides: &Sides<Volume>) -> Option<Exact> {
    let (before, after) = sides.both()?;
    (&after.0 - &before.0).checked_div(&before.0)
}
