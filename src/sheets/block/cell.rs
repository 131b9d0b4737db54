//! A cell of the block sheet: one exercise in one week.

use crate::plan::{PlannedExercise, Session};
use crate::quantity::{Duration, Reps, Work};
use crate::sheets::card::target::{bare, own_details};
use crate::sheets::layout::{Align, Fragment, StyledText, lines, width};
use crate::sheets::runs::{Run, work_runs};
use crate::sheets::together::{group, how_done};
use crate::sheets::wording::Wording;

use super::table::{TableMetrics, on_each_side};

/// Maximum number of lines of a cell, since a row is never split.
const MOST_LINES: usize = 12;
/// A no-break space.
const FIXED: &str = "\u{a0}";

/// One target: sets, repetitions and load, with its small print.
#[derive(Clone, Debug, PartialEq)]
struct CellTarget {
    sets: usize,
    reps: String,
    load: Option<String>,
    captions: Vec<String>,
}

/// The content of a cell.
pub struct BlockCell<'a> {
    /// The session.
    pub session: &'a Session,
    /// The exercise in it.
    pub exercise: &'a PlannedExercise,
    /// The runs of all weeks. What they share is printed next to the name.
    pub all: &'a [Run<'a>],
}

impl BlockCell<'_> {
    /// The targets. Those that differ only in repetitions are joined.
    fn targets(&self, words: &Wording) -> Vec<CellTarget> {
        let letter = self.exercise.order.letter;
        let counted = group(self.session, letter).is_some_and(|group| group.how.is_counted());
        let (_, told) = how_done(self.session, letter, words);
        let mut out: Vec<CellTarget> = Vec::new();
        for run in work_runs(self.exercise) {
            let one = self.target(&run, counted, told, words);
            match out.last_mut() {
                Some(last) if last.load == one.load && last.captions == one.captions => {
                    last.sets += one.sets;
                    last.reps = format!("{}, {}", last.reps, one.reps);
                }
                _ => out.push(one),
            }
        }
        out
    }

    fn target(
        &self,
        run: &Run<'_>,
        counted: bool,
        told: Option<Duration>,
        words: &Wording,
    ) -> CellTarget {
        let set = run.set;
        let sides = set.reps.each_side && !on_each_side(self.all);
        let own = Reps { each_side: sides, ..set.reps.clone() };
        let reps = match (counted, &own.work) {
            (true, Work::Reps(count)) if !sides => words.counted_reps(*count).replace(' ', FIXED),
            (true, _) => words.reps(&own),
            (false, _) => format!("{}{}{}", run.count, words.signs.times, words.reps(&own)),
        };
        // The body mass alone is not a load that the athlete has to prepare.
        let chosen = set.to_choose.then(|| words.open(set).to_owned());
        let mut load = words.load(set).filter(|_| !bare(set)).or(chosen);
        if self.exercise.projected
            && let Some(load) = &mut load
        {
            load.push_str(words.labels.broad.projected_sign);
        }
        let plates = words.plates(set, "{0}").or(words.hung(set));
        let mut captions: Vec<String> = [words.off_target(set), plates, words.in_other_unit(set)]
            .into_iter()
            .flatten()
            .collect();
        captions.extend(own_details(words, self.all, run, told));
        let fixed = |text: String| match text.chars().count() {
            0..=16 => text.replace(' ', FIXED),
            _ => text,
        };
        let captions = captions.into_iter().map(fixed).collect();
        CellTarget { sets: run.count, reps, load, captions }
    }

    /// The lines of the cell, at most as many as any page has room for.
    #[must_use]
    pub fn lines(&self, words: &Wording, max: f32, m: &TableMetrics) -> Vec<Fragment> {
        let mut out: Vec<Fragment> = Vec::new();
        let targets = self.targets(words);
        for (at, target) in targets.iter().enumerate() {
            let text = set_target(target, max, m);
            if out.len() + text.len() > MOST_LINES && at > 0 {
                let left: usize = targets.iter().skip(at).map(|target| target.sets).sum();
                let left = u32::try_from(left).unwrap_or(u32::MAX);
                let more = words.labels.count(&words.labels.broad.more_on_card, left);
                out.extend(lines(&[StyledText::new(more, m.small)], max, Align::Left));
                break;
            }
            out.extend(text);
        }
        out.truncate(MOST_LINES + 3);
        out
    }
}

/// Repetitions and load, on one line if they fit, then the small print.
fn set_target(target: &CellTarget, max: f32, m: &TableMetrics) -> Vec<Fragment> {
    let whole = match &target.load {
        Some(load) => format!("{} · {load}", target.reps),
        None => target.reps.clone(),
    };
    let strong = |text: &str| lines(&[StyledText::new(text, m.strong)], max, Align::Left);
    let mut out = match &target.load {
        Some(load) if width(&whole, m.strong) > max => {
            let mut out = strong(&target.reps);
            out.extend(strong(load));
            out
        }
        _ => strong(&whole),
    };
    let captions = target.captions.join("  ·  ");
    let one = width(&captions, m.small) <= max;
    if one {
        out.extend(lines(&[StyledText::new(captions, m.small)], max, Align::Left));
    } else {
        for caption in &target.captions {
            out.extend(lines(&[StyledText::new(caption, m.small)], max, Align::Left));
        }
    }
    out
}
