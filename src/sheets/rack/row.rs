//! One athlete's row: name, load with plates, and a box for each set.

use crate::plan::GroupKind;
use crate::quantity::Duration;
use crate::sheets::CardOptions;
use crate::sheets::card::metrics::{Density, LEAST_BOX, LEAST_WIDTH, Metrics};
use crate::sheets::card::parts::{capped, packed, set_box};
use crate::sheets::card::target::{CardTarget, details_beside};
use crate::sheets::layout::{Align, Fragment, Ink, Style, count, stack, width};
use crate::sheets::paper::Paper;
use crate::sheets::runs::Run;
use crate::sheets::together::group;
use crate::sheets::wording::Wording;

use super::lifts::LiftEntry;

/// What all sets of a station share, each detail at a fixed index.
pub type Shared = [Option<String>];

/// Sizes and distances, in points.
#[derive(Clone, Copy, Debug)]
pub struct RackMetrics {
    /// Width of the sheet.
    pub w: f32,
    /// A lift's name.
    pub title: Style,
    /// An athlete's name.
    pub name: Style,
    /// Repetitions and load.
    pub target: Style,
    /// Bars, plates, rests.
    pub meta: Style,
    /// Safety notes, settings.
    pub small: Style,
    /// Height of a box.
    pub box_h: f32,
    /// Space above and below a row.
    pub pad: f32,
}

impl RackMetrics {
    /// All sizes, roomiest first.
    pub fn all(w: f32) -> impl Iterator<Item = RackMetrics> {
        let sizes = [
            (14.0, 11.0, 12.6, 9.0, 8.2, 27.0, 4.0),
            (13.4, 10.4, 12.0, 8.6, 7.8, 23.0, 3.0),
            (12.8, 9.8, 11.2, 8.2, 7.4, 20.5, 2.0),
            (12.2, 9.2, 10.6, 7.8, 7.0, LEAST_BOX + 0.1, 1.2),
        ];
        sizes.into_iter().map(move |(title, name, target, meta, small, box_h, pad)| RackMetrics {
            w,
            title: Style::strong(title),
            name: Style::strong(name),
            target: Style::strong(target),
            meta: Style::regular(meta),
            small: Style::regular(small),
            box_h,
            pad,
        })
    }
}

/// A no-break space.
const FIXED: &str = "\u{a0}";
/// Width of the column of names, in points.
const NAMES: f32 = 126.0;
/// Width of the column of targets, in points, if all sets of each athlete are the same.
const TARGETS: f32 = 160.0;
/// Space between columns, in points.
const ALLEY: f32 = 8.0;
/// Space between boxes, in points.
const GAP: f32 = 2.6;
/// Least width of a box that is divided for two sides, in points.
const LEAST_HALVED: f32 = 34.0;
/// Least width of a column with a target above it, in points.
const LEAST_COLUMN: f32 = 46.0;
/// Maximum width of a box, in points.
const MOST_BOX: f32 = 74.0;
/// Maximum number of lines of a name, of an athlete's settings, and of a target. A row is never
/// split.
const MOST: (usize, usize, usize) = (3, 3, 6);

/// The rows of one lift, with aligned columns.
pub struct Rows<'a> {
    m: &'a RackMetrics,
    rest_told: Option<Duration>,
    /// Whether the sets of some athlete differ, so that targets are above the boxes.
    differ: bool,
    /// Maximum number of sets side by side.
    across: usize,
    /// Width of a box.
    box_w: f32,
}

impl<'a> Rows<'a> {
    /// The rows for all athletes of the lift.
    #[must_use]
    pub fn new(
        entries: &[&LiftEntry<'_>],
        m: &'a RackMetrics,
        rest_told: Option<Duration>,
    ) -> Self {
        let alike = |entry: &&LiftEntry<'_>| {
            let same =
                |run: &Run<'_>| entry.runs.first().is_none_or(|f| f.set.load == run.set.load);
            entry.runs.iter().all(same) && entry.runs.len() <= 3
        };
        let differ = !entries.iter().all(alike);
        let halved = entries.iter().any(|entry| entry.exercise.each_side);
        let least = match (differ, halved) {
            (true, _) => LEAST_COLUMN,
            (_, true) => LEAST_HALVED,
            _ => LEAST_WIDTH + 1.0,
        };
        let room = m.w - NAMES - ALLEY - if differ { 0.0 } else { TARGETS + ALLEY };
        let most = (1..=40).take_while(|n| least * count(*n) + GAP * count(n - 1) <= room).count();
        let sets = entries.iter().map(|entry| boxes(entry)).max().unwrap_or(1).max(1);
        let lines = sets.div_ceil(most.max(1));
        let across = sets.div_ceil(lines.max(1)).max(1);
        let even = (room - GAP * count(across - 1)) / count(across);
        let box_w = if differ { even.min(MOST_BOX * 1.9) } else { even.min(MOST_BOX) };
        Self { m, rest_told, differ, across, box_w }
    }

    /// Lays out one athlete's row.
    #[must_use]
    pub fn row(&self, entry: &LiftEntry<'_>, shared: &Shared, words: &Wording) -> Fragment {
        let m = self.m;
        let mut out = Fragment::space(m.w, 0.0);
        // Names and targets share a baseline.
        let drop = m.target.baseline() - m.name.baseline();
        out.put(self.name(entry), 0.0, m.pad + drop);
        let x = NAMES + ALLEY;
        if self.differ {
            out.put(self.sets_with_targets(entry, shared, words), x, m.pad);
        } else {
            let target = self.target(entry, shared, words);
            let boxes = self.plain_boxes(entry, words);
            out.put(target, x, m.pad);
            out.put(boxes, x + TARGETS + ALLEY, m.pad);
        }
        out.h += m.pad;
        out.put(Fragment::rule(m.w, 0.4, Ink::Faint), 0.0, out.h - 0.4);
        out
    }

    fn name(&self, entry: &LiftEntry<'_>) -> Fragment {
        let m = self.m;
        let mut all = capped(&entry.athlete.name, m.name, NAMES, Align::Left, MOST.0);
        let settings = packed(&entry.exercise.settings, "  ·  ", m.small, NAMES, Align::Left);
        all.extend(settings.into_iter().take(MOST.1));
        stack(all, 0.0)
    }

    /// The single target of an athlete whose sets all have the same load.
    fn target(&self, entry: &LiftEntry<'_>, shared: &Shared, words: &Wording) -> Fragment {
        let runs = &entry.runs;
        let counted = is_counted(entry);
        let joint = CardTarget::joint(words, runs, self.rest_told).filter(|_| !counted);
        let mut all = Vec::new();
        let each = if joint.is_some() { 1 } else { runs.len() };
        for run in runs.iter().take(each) {
            let sets = (!counted).then_some(run.count);
            let target = joint.clone().unwrap_or_else(|| CardTarget::new(words, run, sets));
            all.extend(self.set_in(target, run, shared, words, TARGETS));
        }
        all.truncate(MOST.2);
        stack(all, 0.0)
    }

    /// The lines of a target, with its small print.
    fn set_in(
        &self,
        mut target: CardTarget,
        run: &Run<'_>,
        shared: &Shared,
        words: &Wording,
        max: f32,
    ) -> Vec<Fragment> {
        let m = self.m;
        target.lead_with(details_beside(words, shared, run, self.rest_told));
        let (mut lines, mut captions) = target.set_in(m.target, max);
        // If the column is narrow, only the foot explains that plates are those of one side.
        let long =
            words.plates(run.set, words.labels.per_side).map(|text| text.replace(' ', FIXED));
        if let (Some(long), Some(short)) = (long, words.plates(run.set, "{0}")) {
            for caption in captions.iter_mut().filter(|caption| **caption == long) {
                if width(caption, m.meta) > max {
                    caption.clone_from(&short);
                }
            }
        }
        lines.extend(packed(&captions, "  ·  ", m.meta, max, Align::Left));
        lines
    }

    /// Rows of numbered boxes.
    fn plain_boxes(&self, entry: &LiftEntry<'_>, words: &Wording) -> Fragment {
        let n = boxes(entry);
        let mut out = Fragment::default();
        for at in 0..n {
            let (column, row) = (at % self.across, at / self.across);
            let x = count(column) * (self.box_w + GAP);
            let y = count(row) * (self.m.box_h + GAP);
            out.put(self.pen(entry, at, words), x, y);
        }
        out
    }

    fn pen(&self, entry: &LiftEntry<'_>, at: usize, words: &Wording) -> Fragment {
        // The card's boxes, at the height of these rows.
        let card = CardOptions { paper: Paper::A4, ..CardOptions::default() };
        let metrics = Metrics {
            box_h: self.m.box_h,
            tiny: Style::regular(7.0),
            ..Metrics::new(&card, Density::Tight)
        };
        let sides = entry.exercise.each_side.then_some((words.labels.left, words.labels.right));
        let number = if is_open(entry) { String::new() } else { (at + 1).to_string() };
        set_box(&metrics, self.box_w, sides, &number)
    }

    /// Boxes with the target of each run of sets above them.
    fn sets_with_targets(
        &self,
        entry: &LiftEntry<'_>,
        shared: &Shared,
        words: &Wording,
    ) -> Fragment {
        let mut out = Fragment::default();
        let mut at = 0;
        let mut runs = pieces(&entry.runs, self.across);
        runs.truncate(if is_counted(entry) { 1 } else { MOST_SETS.div_ceil(self.across.max(1)) });
        for line in runs {
            let top = if out.h > 0.0 { out.h + 3.0 } else { 0.0 };
            let mut texts = Vec::new();
            let mut column = 0;
            for run in &line {
                // Keep the text of adjacent columns apart.
                let w = (self.box_w + GAP) * count(run.count) - 2.0 * GAP;
                let target = CardTarget::new(words, run, Some(0));
                let text: Vec<Fragment> = self.set_in(target, run, shared, words, w);
                let text = stack(text.into_iter().take(MOST.2), 0.0);
                texts.push((count(column) * (self.box_w + GAP), text));
                column += run.count;
            }
            let text_h = texts.iter().map(|(_, text)| text.h).fold(0.0, f32::max);
            for (x, text) in texts {
                // Loads are level, however much small print is below them.
                out.put(text, x, top);
            }
            for place in 0..column {
                let x = count(place) * (self.box_w + GAP);
                out.put(self.pen(entry, at, words), x, top + text_h + 1.0);
                at += 1;
            }
        }
        out
    }
}

/// The runs, divided where a row is full.
fn pieces<'a>(runs: &[Run<'a>], across: usize) -> Vec<Vec<Run<'a>>> {
    let mut out: Vec<Vec<Run<'a>>> = Vec::new();
    let mut free = 0;
    for run in runs {
        let mut left = run.count;
        while left > 0 {
            if free == 0 {
                out.push(Vec::new());
                free = across.max(1);
            }
            let now = left.min(free);
            if let Some(line) = out.last_mut() {
                line.push(Run { set: run.set, count: now });
            }
            left -= now;
            free -= now;
        }
    }
    out
}

/// How the group of an exercise is done.
fn kind<'a>(entry: &'a LiftEntry<'_>) -> Option<&'a GroupKind> {
    group(entry.session, entry.exercise.order.letter).map(|group| &group.how)
}

/// Whether the group itself gives the number of rounds or intervals.
fn is_counted(entry: &LiftEntry<'_>) -> bool {
    kind(entry).is_some_and(GroupKind::is_counted)
}

/// Whether sets are counted while training, so that one box is enough.
fn is_open(entry: &LiftEntry<'_>) -> bool {
    matches!(kind(entry), Some(GroupKind::Every { .. } | GroupKind::RoundsIn { .. }))
}

/// Number of boxes of an athlete.
fn boxes(entry: &LiftEntry<'_>) -> usize {
    let sets = entry.runs.iter().map(|run| run.count).sum::<usize>();
    if is_open(entry) { 1 } else { sets.min(MOST_SETS) }
}

/// Maximum number of boxes in a row, which is never split.
const MOST_SETS: usize = 48;
