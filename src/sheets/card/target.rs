//! What a run of sets asks for, in words and set in type: reps and load big, the rest below.

use crate::plan::{PlannedSet, SetKind};
use crate::quantity::{Duration, Mass, Work as Task};
use crate::sheets::labels::fill;
use crate::sheets::layout::{Align, Fragment, Style, stack, width};
use crate::sheets::runs::Run;
use crate::sheets::wording::Wording;

use super::parts::{capped, fits, packed};

/// Reps and load of a run, and the small print below them.
#[derive(Clone, Debug)]
pub struct Target {
    reps: String,
    joint: &'static str,
    load: Option<String>,
    captions: Vec<String>,
    /// The load is left to the day: it needs a box of its own.
    pub blank: bool,
}

/// The most lines of reps, and of load: a target stays on a page with its boxes.
const MOST_LINES: usize = 6;

/// A space that no line breaks at.
const FIXED: &str = "\u{a0}";

impl Target {
    /// `sets` is how many sets it names: zero for a set whose place says that it is one, none
    /// where a group counts its rounds.
    #[must_use]
    pub fn new(words: &Wording, run: &Run<'_>, sets: Option<usize>) -> Self {
        let (set, labels) = (run.set, words.labels);
        let plain_reps = matches!(set.reps.work, Task::Reps(_)) && !set.reps.each_side;
        let reps = words.reps(&set.reps);
        let reps = match sets {
            Some(0) => reps,
            Some(sets) => format!("{sets}{}{reps}", words.signs.times),
            None if plain_reps => fill(labels.reps, &[&reps]),
            None => reps,
        };
        let blank = words.load(set).is_none();
        // A bare body mass is no load to find: it stands beside the name.
        let load = words.load(set).filter(|_| !bare(set));
        // An effort is what the athlete goes by when no load is given.
        let effort = set.effort.filter(|_| blank).map(|effort| effort.to_string());
        let load = load.or(effort.map(|effort| effort.replace(' ', FIXED)));
        // `5 × 80 kg` reads as reps times load where no count of sets stands before it.
        let by = sets == Some(0)
            && plain_reps
            && load.as_ref().is_some_and(|load| {
                load.starts_with(|c: char| c.is_ascii_digit()) && !load.contains('×')
            });
        let joint = if by { words.signs.times } else { " · " };
        let own = [
            words.off_target(set),
            words.plates(set, labels.per_side).or(words.hung(set)),
            words.in_other_unit(set),
        ];
        let captions = own.into_iter().flatten().map(|text| text.replace(' ', FIXED)).collect();
        Self { reps, joint, load, captions, blank }
    }

    /// Puts details before the small print.
    pub fn lead_with(&mut self, mut details: Vec<String>) {
        details.append(&mut self.captions);
        self.captions = details;
    }

    /// The width that it would like, up to `most`, with reps and load on one line or on two.
    #[must_use]
    pub fn wanted(&self, style: Style, small: Style, most: f32, stacked: bool) -> f32 {
        let one_line = width(&self.joined(), style);
        let parts = [Some(&self.reps), self.load.as_ref()].into_iter().flatten();
        let two_lines = parts.map(|text| width(text, style)).fold(0.0, f32::max);
        let big = if one_line <= most && !stacked { one_line } else { two_lines };
        let captions = self.captions.iter().map(|text| width(text, small)).fold(0.0, f32::max);
        big.max(captions.min(most))
    }

    fn joined(&self) -> String {
        match &self.load {
            Some(load) => format!("{}{}{load}", self.reps, self.joint),
            None => self.reps.clone(),
        }
    }

    /// Reps and load, on one line where they fit, with the small print below.
    #[must_use]
    pub fn set_in(&self, style: Style, small: Style, max: f32) -> Fragment {
        let mut target = self.clone();
        // What stands in brackets may stand small below rather than break a line.
        for aside in [true, false] {
            if fits(&target.joined(), style, max) {
                break;
            }
            let text = if aside { target.load.as_mut() } else { Some(&mut target.reps) };
            if let Some((kept, aside)) = text
                .as_ref()
                .and_then(|text| text.split_once(" (").map(|(k, a)| (k.to_owned(), a.to_owned())))
            {
                target.captions.insert(0, format!("({}", aside.replace(' ', FIXED)));
                if let Some(text) = text {
                    *text = kept;
                }
            }
        }
        let joined = target.joined();
        let captions = &target.captions;
        let mut lines = match &target.load {
            Some(load) if !fits(&joined, style, max) => {
                let mut lines = capped(&target.reps, style, max, Align::Left, MOST_LINES);
                lines.extend(capped(load, style, max, Align::Left, MOST_LINES));
                lines
            }
            _ => capped(&joined, style, max, Align::Left, MOST_LINES),
        };
        lines.extend(packed(captions, " · ", small, max, Align::Left).into_iter().take(10));
        stack(lines, 0.0)
    }
}

/// A body-mass set to which nothing is added.
fn bare(set: &PlannedSet) -> bool {
    set.bodyweight && set.load.as_ref().is_none_or(|built| built.mass == Mass::ZERO)
}

/// What a set is done with, when that is not part of its load: the bar, the stack, the body.
fn equipment(words: &Wording, set: &PlannedSet) -> Option<String> {
    if bare(set) {
        return Some(words.labels.body_mass.replace(' ', FIXED));
    }
    words.bar(set.load.as_ref()?).or(words.stack(set))
}

/// The runs whose details count: a drop set has no rest before it.
fn solid<'a, 'b>(runs: &'a [Run<'b>]) -> &'a [Run<'b>] {
    let drops = runs.iter().rev().take_while(|run| run.set.kind == SetKind::Drop).count();
    runs.get(..(runs.len() - drops).max(1)).unwrap_or(runs)
}

/// How a set is done, and with what, each in its place. Short ones are not broken.
fn facts(words: &Wording, set: &PlannedSet, rest_told: Option<Duration>) -> Vec<Option<String>> {
    let fixed = |text: String| match text.chars().count() {
        0..=24 => text.replace(' ', FIXED),
        _ => text,
    };
    let all = words.details(set, rest_told).into_iter();
    all.chain([equipment(words, set)]).map(|fact| fact.map(fixed)).collect()
}

/// The facts that every run shares; `None` in the places where runs differ.
fn common(words: &Wording, runs: &[Run<'_>], rest_told: Option<Duration>) -> Vec<Option<String>> {
    let mut runs = solid(runs).iter().map(|run| facts(words, run.set, rest_told));
    let first = runs.next().unwrap_or_default();
    runs.fold(first, |common, run| {
        let pairs = common.into_iter().zip(run);
        pairs.map(|(a, b)| a.filter(|a| Some(a) == b.as_ref())).collect()
    })
}

/// Details that every run shares, for the line beside the exercise's name.
#[must_use]
pub fn shared_details(
    words: &Wording,
    runs: &[Run<'_>],
    rest_told: Option<Duration>,
) -> Vec<String> {
    common(words, runs, rest_told).into_iter().flatten().collect()
}

/// The details of one run that the others do not share.
#[must_use]
pub fn own_details(
    words: &Wording,
    runs: &[Run<'_>],
    run: &Run<'_>,
    rest_told: Option<Duration>,
) -> Vec<String> {
    let own = facts(words, run.set, rest_told).into_iter();
    let own = own.zip(common(words, runs, rest_told));
    let own = own.filter_map(|(own, told)| own.filter(|own| Some(own) != told.as_ref()));
    words.kind(run.set).map(str::to_owned).into_iter().chain(own).collect()
}
