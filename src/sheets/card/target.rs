//! The target of a run of sets: repetitions and load in large type, the rest below.

use crate::plan::{PlannedSet, SetKind};
use crate::quantity::{Duration, Mass, Work as Task};
use crate::sheets::layout::{Align, Fragment, Style};
use crate::sheets::runs::Run;
use crate::sheets::wording::Wording;

use super::parts::{fits, plain};

/// Repetitions and load of a run, and the small print below them.
#[derive(Clone, Debug)]
pub struct CardTarget {
    reps: String,
    joint: &'static str,
    load: Option<String>,
    /// The load in the second unit. It is the first item of the small print, close to the load that
    /// it repeats.
    other: Option<String>,
    captions: Vec<String>,
    /// Whether the load is chosen on the day, so that it needs a box of its own.
    pub blank: bool,
}

/// A no-break space.
const FIXED: &str = "\u{a0}";

impl CardTarget {
    /// Makes the target of a run. `sets` is the number of sets to print: 0 for a set that is
    /// clearly single, `None` if a group counts its rounds.
    #[must_use]
    pub fn new(words: &Wording, run: &Run<'_>, sets: Option<usize>) -> Self {
        let (set, labels) = (run.set, words.labels);
        let reps = match (sets, &set.reps.work) {
            // `3 × 80 kg` would read as three sets, so a single set prints what it counts.
            (Some(0) | None, Task::Reps(count)) if !set.reps.each_side => {
                words.counted_reps(*count)
            }
            (Some(0) | None, _) => words.reps(&set.reps),
            (Some(sets), _) => format!("{sets}{}{}", words.signs.times, words.reps(&set.reps)),
        };
        let blank = words.load(set).is_none();
        // The body mass alone is not a load that the athlete has to prepare: it is next to the
        // name.
        let load = words.load(set).filter(|_| !bare(set));
        // Without a load, the effort is the athlete's guide.
        let effort = set.effort.filter(|_| blank).map(|effort| words.effort(effort));
        let by_effort = effort.is_some();
        let load = load.or(effort.map(|effort| effort.replace(' ', FIXED)));
        let choose = set.to_choose.then(|| words.open(set).replace(' ', FIXED));
        let (load, aside) = if by_effort { (load, choose) } else { (load.or(choose), None) };
        let joint = " · ";
        let own = [words.off_target(set), words.plates(set, labels.per_side).or(words.hung(set))];
        let captions = aside.into_iter().chain(own.into_iter().flatten());
        let captions = captions.map(|text| text.replace(' ', FIXED)).collect();
        let other = words.in_other_unit(set).map(|text| text.replace(' ', FIXED));
        Self { reps, joint, load, other, captions, blank }
    }

    /// Puts details before the small print.
    pub fn lead_with(&mut self, mut details: Vec<String>) {
        details.append(&mut self.captions);
        self.captions = details;
    }

    /// Puts equipment after the small print.
    pub fn end_with(&mut self, equipment: Option<String>) {
        self.captions.extend(equipment);
    }

    /// Several runs on one line, if only their repetitions differ: `2 × 5, 1 × 5+ · 35 kg`.
    #[must_use]
    pub fn joint(words: &Wording, runs: &[Run<'_>], rest_told: Option<Duration>) -> Option<Self> {
        let mut targets = runs.iter().map(|run| Self::new(words, run, Some(run.count)));
        let mut out = targets.next()?;
        for other in targets {
            if out.blank || other.load != out.load || other.captions != out.captions {
                return None;
            }
            out.reps = format!("{}, {}", out.reps, other.reps);
        }
        let alike = runs.iter().all(|run| own_details(words, runs, run, rest_told).is_empty());
        alike.then_some(out)
    }

    /// The text in large type, on one line.
    #[must_use]
    pub fn joined(&self) -> String {
        match &self.load {
            Some(load) => format!("{}{}{load}", self.reps, self.joint),
            None => self.reps.clone(),
        }
    }

    /// Repetitions and load, on one line if they fit, and the small print. Text in brackets moves
    /// to the small print if it does not fit.
    #[must_use]
    pub fn set_in(&self, style: Style, max: f32) -> (Vec<Fragment>, Vec<String>) {
        let mut target = self.clone();
        if let Some(other) = target.other.take() {
            target.captions.insert(0, other);
        }
        // Moving text in brackets to the small print is better than breaking a line.
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
        let lines = match &target.load {
            Some(load) if !fits(&joined, style, max) => {
                let mut lines = plain(&target.reps, style, max, Align::Left);
                lines.extend(plain(load, style, max, Align::Left));
                lines
            }
            _ => plain(&joined, style, max, Align::Left),
        };
        (lines, target.captions)
    }
}

/// Whether it is a body-mass set without added load.
#[must_use]
pub fn bare(set: &PlannedSet) -> bool {
    set.bodyweight && set.load.as_ref().is_none_or(|built| built.mass == Mass::ZERO)
}

/// The equipment of a set if the load does not include it: bar, stack or body.
fn equipment(words: &Wording, set: &PlannedSet) -> Option<String> {
    if bare(set) {
        return Some(words.labels.body_mass.replace(' ', FIXED));
    }
    words.bar(set.load.as_ref()?).or(words.stack(set))
}

/// The runs whose details count, without drop sets, which have no rest before them.
fn solid<'a, 'b>(runs: &'a [Run<'b>]) -> &'a [Run<'b>] {
    let drops = runs.iter().rev().take_while(|run| run.set.kind == SetKind::Drop).count();
    runs.get(..(runs.len() - drops).max(1)).unwrap_or(runs)
}

/// The details of a set and its equipment, each at a fixed index. Short ones are not broken.
fn facts(words: &Wording, set: &PlannedSet, rest_told: Option<Duration>) -> Vec<Option<String>> {
    let fixed = |text: String| match text.chars().count() {
        0..=24 => text.replace(' ', FIXED),
        _ => text,
    };
    let all = words.details(set, rest_told).into_iter();
    all.chain([equipment(words, set)]).map(|fact| fact.map(fixed)).collect()
}

/// The details that all runs share; `None` at the indices where runs differ.
#[must_use]
pub fn common(
    words: &Wording,
    runs: &[Run<'_>],
    rest_told: Option<Duration>,
) -> Vec<Option<String>> {
    let mut runs = solid(runs).iter().map(|run| facts(words, run.set, rest_told));
    let first = runs.next().unwrap_or_default();
    runs.fold(first, |common, run| {
        let pairs = common.into_iter().zip(run);
        pairs.map(|(a, b)| a.filter(|a| Some(a) == b.as_ref())).collect()
    })
}

/// The details that all runs share, for the line below the exercise's name, and the equipment,
/// which belongs to the load.
#[must_use]
pub fn shared_details(
    words: &Wording,
    runs: &[Run<'_>],
    rest_told: Option<Duration>,
) -> (Vec<String>, Option<String>) {
    let mut all = common(words, runs, rest_told);
    let equipment = all.pop().flatten();
    (all.into_iter().flatten().collect(), equipment)
}

/// The details of one run that the others do not share.
#[must_use]
pub fn own_details(
    words: &Wording,
    runs: &[Run<'_>],
    run: &Run<'_>,
    rest_told: Option<Duration>,
) -> Vec<String> {
    details_beside(words, &common(words, runs, rest_told), run, rest_told)
}

/// The details of a run that are not among those it shares with others, as returned by [`common`].
#[must_use]
pub fn details_beside(
    words: &Wording,
    common: &[Option<String>],
    run: &Run<'_>,
    rest_told: Option<Duration>,
) -> Vec<String> {
    let own = facts(words, run.set, rest_told).into_iter().zip(common);
    let own = own.filter_map(|(own, told)| own.filter(|own| Some(own) != told.as_ref()));
    words.kind(run.set).map(str::to_owned).into_iter().chain(own).collect()
}
