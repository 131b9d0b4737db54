//! The working sets of an exercise: their targets, and a box for each.

use crate::quantity::Duration;
use crate::sheets::layout::{Align, Fragment, count, line, width};
use crate::sheets::plates::{Discs, PlateStyle, draw};
use crate::sheets::runs::Run;
use crate::sheets::wording::Wording;

use super::metrics::{LEAST_WIDTH, Metrics};
use super::parts::{inked, packed, set_box, spoken, write_in};
use super::target::{CardTarget, shared_details};

/// Which boxes an exercise has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Boxes {
    /// One for each set.
    PerSet,
    /// One for each round of its group.
    Rounds(usize),
    /// None, because the group counts its rounds.
    None,
}

/// The input for drawing an exercise's working sets.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// The card's measurements.
    pub metrics: &'a Metrics,
    /// The words.
    pub wording: &'a Wording,
    /// The runs of equal sets.
    pub runs: &'a [Run<'a>],
    /// The look of plates.
    pub discs: Discs<'a>,
    /// Which boxes they have.
    pub boxes: Boxes,
    /// The rest that the group prints once.
    pub rest_told: Option<Duration>,
}

/// The content of the right column.
#[derive(Clone, Debug, Default)]
pub struct TargetColumn {
    /// The first line of the target, level with the name.
    pub first: Option<ReadPiece>,
    /// Further lines of the target, and its small print.
    pub below: Vec<ReadPiece>,
    /// Rows of boxes.
    pub boxes: Vec<Fragment>,
    /// The plates or a box, to the right of the target and level with its first line.
    pub aside: Option<ReadPiece>,
    /// Whether the small print does not mention the equipment.
    pub bare: bool,
}

/// A piece and its text for screen readers. A drawing of plates is not read out, because the text
/// next to it lists them.
#[derive(Clone, Debug, Default)]
pub struct ReadPiece {
    /// The piece.
    pub piece: Fragment,
    /// Its text.
    pub reads: String,
}

impl ReadPiece {
    /// A piece that reads as its own texts.
    pub fn new(piece: Fragment) -> Self {
        let reads = inked(&piece).1;
        Self { piece, reads }
    }
}

/// Least width of a box that is divided for two sides, in points.
const LEAST_HALVED: f32 = 32.0;
/// Least width of a drawing of plates, in points.
pub(super) const LEAST_DRAWING: f32 = 24.0;
/// Least space to the left of a drawing, in points.
pub(super) const CLEAR: f32 = 6.0;

impl Work<'_> {
    /// Lays out the column.
    #[must_use]
    pub fn column(&self) -> TargetColumn {
        let mut out = match self.runs {
            [] => TargetColumn::default(),
            [run] => {
                let sets = (self.boxes == Boxes::PerSet).then_some(run.count);
                self.alike(CardTarget::new(self.wording, run, sets), run)
            }
            [run, ..] => match self.joint() {
                Some(target) => self.alike(target, run),
                None => self.listed(),
            },
        };
        out.boxes = self.rows_of_boxes();
        out
    }

    /// Whether the RPE box is next to the target, because there are no other boxes.
    pub(super) fn beside(&self) -> bool {
        self.boxes == Boxes::None && self.pens().is_empty()
    }

    /// The RPE box next to the target.
    pub(super) fn rpe_box(&self) -> ReadPiece {
        let m = self.metrics;
        ReadPiece::new(write_in(m, m.rpe, m.box_h, self.wording.labels.rpe))
    }

    /// Width of the target. Without rows of boxes, the RPE box is next to it.
    pub(super) fn target_w(&self) -> f32 {
        let m = self.metrics;
        if self.beside() { m.sets } else { m.right }
    }

    /// One target for runs that differ only in repetitions, if it fits on one line.
    fn joint(&self) -> Option<CardTarget> {
        let joint = (self.boxes == Boxes::PerSet)
            .then(|| CardTarget::joint(self.wording, self.runs, self.rest_told))??;
        (width(&joint.joined(), self.metrics.target) <= self.metrics.right).then_some(joint)
    }

    /// One target, because all sets are equal.
    fn alike(&self, mut target: CardTarget, run: &Run<'_>) -> TargetColumn {
        target.end_with(shared_details(self.wording, self.runs, self.rest_told).1);
        let max = self.target_w();
        // If plates are drawn, the small print goes below, so that both have room.
        let drawn = !run.set.plates_per_side().is_empty();
        let mut lines = self.lines(&target, max, !drawn).into_iter();
        let first = lines.next();
        let below: Vec<Fragment> = lines.collect();
        let aside = if self.beside() {
            Some(self.rpe_box())
        } else {
            let drawing = self.drawing(run, first.as_ref(), &below);
            drawing.map(|piece| ReadPiece { piece, reads: String::new() })
        };
        let first = first.map(ReadPiece::new);
        let below = below.into_iter().map(ReadPiece::new).collect();
        TargetColumn { first, below, aside, ..TargetColumn::default() }
    }

    /// The plates, as high as the lines next to which they have room.
    fn drawing(
        &self,
        run: &Run<'_>,
        first: Option<&Fragment>,
        below: &[Fragment],
    ) -> Option<Fragment> {
        let m = self.metrics;
        let load = run.set.load.as_ref()?;
        let lines: Vec<&Fragment> = first.into_iter().chain(below).collect();
        // Next to all lines if these are short, otherwise next to the first.
        [lines.len().min(2), 1].into_iter().find_map(|n| {
            let lines = lines.get(..n)?;
            let text = lines.iter().map(|line| inked(line).0).fold(0.0, f32::max);
            let height: f32 = lines.iter().map(|line| line.h).sum::<f32>() - 1.0;
            let room = m.right - text - CLEAR;
            if room < LEAST_DRAWING {
                return None;
            }
            draw(load, &self.look(height, room))
        })
    }

    /// The style of plates in this room.
    pub(super) fn look(&self, height: f32, room: f32) -> PlateStyle<'_> {
        let m = self.metrics;
        let masses = Some((self.wording.unit, m.tiny, self.wording.labels.numbers));
        let (height, width) = (height.min(m.most_drawing), room.min(m.box_w(2)));
        PlateStyle { height, width, masses, discs: self.discs }
    }

    /// The lines of a target, with its small print next to it if allowed and if it fits, otherwise
    /// below.
    pub(super) fn lines(&self, target: &CardTarget, max: f32, beside: bool) -> Vec<Fragment> {
        let m = self.metrics;
        let (mut big, captions) = target.set_in(m.target, max);
        let small = captions.join(" · ");
        let big_w = big.iter().map(|line| inked(line).0).fold(0.0, f32::max);
        match big.as_mut_slice() {
            [only] if beside && big_w + CLEAR + width(&small, m.meta) <= max => {
                if !small.is_empty() {
                    let drop = m.target.baseline() - m.meta.baseline();
                    only.put(line(&small, m.meta), big_w + CLEAR, drop);
                }
            }
            _ => big.extend(packed(&captions, " · ", m.meta, max, Align::Left)),
        }
        big
    }

    /// The boxes in order: one for a load chosen on the day, then one for each set.
    fn pens(&self) -> Vec<Pen> {
        let labels = self.wording.labels;
        let boxes = |run: &Run<'_>| match self.boxes {
            Boxes::Rounds(rounds) if self.runs.len() == 1 => rounds,
            Boxes::PerSet | Boxes::Rounds(_) => run.count,
            Boxes::None => 0,
        };
        let mut out = Vec::new();
        for run in self.runs {
            if self.wording.load(run.set).is_none() {
                let label = self.wording.unit.symbol().to_owned();
                out.push(Pen { sides: None, label, numbered: false });
            }
            let sides = run.set.reps.each_side.then_some((labels.left, labels.right));
            let label = self.tells_apart(run);
            let pen = Pen { sides, label, numbered: true };
            out.extend(std::iter::repeat_n(pen, boxes(run)));
        }
        if self.runs.is_empty() && self.boxes != Boxes::None {
            out.push(Pen { sides: None, label: String::new(), numbered: false });
        }
        out
    }

    /// The label that distinguishes a run's boxes from those of other runs: its load, otherwise its
    /// repetitions.
    fn tells_apart(&self, run: &Run<'_>) -> String {
        if self.runs.len() < 2 {
            return String::new();
        }
        let load = |run: &Run<'_>| {
            let built = run.set.load.as_ref()?;
            Some(self.wording.number(built.mass))
        };
        let mine = load(run);
        if self.runs.iter().any(|other| load(other) != mine) {
            return mine.unwrap_or_default();
        }
        self.wording.reps(&run.set.reps)
    }

    fn rows_of_boxes(&self) -> Vec<Fragment> {
        let m = self.metrics;
        let pens = self.pens();
        let halved = pens.iter().any(|pen| pen.sides.is_some());
        let (least, usual) = if halved { (LEAST_HALVED, 3) } else { (LEAST_WIDTH, 4) };
        let most = m.most_boxes(least);
        let rows = pens.len().div_ceil(most).max(1);
        // At least as many columns as most exercises need, so that boxes are aligned down the page.
        let per_row = pens.len().div_ceil(rows).max(usual);
        let mut out: Vec<Fragment> = Vec::new();
        let mut number = 0;
        for (row, pens_here) in pens.chunks(per_row).enumerate() {
            let mut piece = Fragment::space(m.right, m.box_h);
            for (column, pen) in pens_here.iter().enumerate() {
                // If nothing else distinguishes the sets, they are numbered.
                number += usize::from(pen.numbered);
                let bare = pen.numbered && pen.label.is_empty();
                let label = if bare { number.to_string() } else { pen.label.clone() };
                let w = m.box_w(per_row);
                let drawn = set_box(m, w, pen.sides, &label);
                piece.put(drawn, count(column) * (w + m.box_gap), 0.0);
            }
            if row == 0 {
                let rpe = write_in(m, m.rpe, m.box_h, self.wording.labels.rpe);
                piece.put(rpe, m.right - m.rpe, 0.0);
            }
            let labels = spoken(&piece);
            out.push(piece.with_reading(labels));
        }
        out
    }
}

/// A box for writing.
#[derive(Clone, Debug)]
struct Pen {
    sides: Option<(&'static str, &'static str)>,
    label: String,
    numbered: bool,
}
