//! The working sets of an exercise: their targets, and a box to write in for each.

use crate::plan::{PlannedSet, SetKind};
use crate::sheets::labels::fill;
use crate::sheets::layout::{Align, Fragment, Style, count, stack, width};
use crate::sheets::plates::{Scale, sleeve};
use crate::sheets::runs::{Run, shared};
use crate::sheets::wording::Wording;

use super::metrics::Metrics;
use super::parts::{fits, plain, set_box, write_in};

/// Which boxes an exercise gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Boxes {
    /// One for each set.
    PerSet,
    /// One for each round of its group.
    Rounds(usize),
    /// None: the group counts its rounds.
    None,
}

/// What an exercise's working sets are drawn from.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// The card's measures.
    pub metrics: &'a Metrics,
    /// The words.
    pub wording: &'a Wording,
    /// The runs of identical sets.
    pub runs: &'a [Run<'a>],
    /// Which boxes they get.
    pub boxes: Boxes,
    /// The rest is told once for the group.
    pub rest_told: bool,
}

/// Reps and load of a run, and the small print below them.
struct Target {
    reps: String,
    load: Option<String>,
    blank: bool,
    captions: Vec<String>,
}

impl Work<'_> {
    /// Details that every run shares, for the line beside the exercise's name.
    #[must_use]
    pub fn shared_details(&self) -> Vec<String> {
        let all = self.details_of(|detail| shared(self.solid(), detail).flatten());
        let bar = shared(self.runs, |set| {
            set.load.as_ref().and_then(|built| self.wording.bar(built))
        });
        all.into_iter().chain(bar.flatten()).collect()
    }

    /// The runs whose details count: a drop set has no rest of its own before it.
    fn solid(&self) -> &[Run<'_>] {
        let drops = self.runs.iter().rev().take_while(|run| run.set.kind == SetKind::Drop).count();
        let kept = self.runs.len() - drops;
        self.runs.get(..kept.max(1)).unwrap_or(self.runs)
    }

    /// Effort, rest, tempo, range, interval and pause, each as `pick` gives it.
    fn details_of(
        &self,
        pick: impl Fn(&dyn Fn(&PlannedSet) -> Option<String>) -> Option<String>,
    ) -> Vec<String> {
        let labels = self.wording.labels;
        let told = self.rest_told;
        let unbroken = |text: String| text.replace(' ', "\u{a0}");
        let tell = |template: &'static str, value: Option<String>| {
            value.map(|value| unbroken(fill(template, &[&value])))
        };
        [
            pick(&|set| set.effort.map(|effort| unbroken(effort.to_string()))),
            pick(&|set| {
                tell(labels.rest, set.rest.filter(|_| !told).map(|rest| rest.to_string()))
            }),
            pick(&|set| tell(labels.every, set.every.map(|every| every.to_string()))),
            pick(&|set| tell(labels.tempo, set.tempo.map(|tempo| tempo.to_string()))),
            pick(&|set| tell(labels.rest_pause, set.rest_pause.map(|pause| pause.to_string()))),
            pick(&|set| set.range.as_ref().map(|range| fill(labels.range, &[range]))),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// The details of one run that the others do not share.
    fn own_details(&self, run: &Run<'_>) -> Vec<String> {
        if self.runs.len() < 2 {
            return Vec::new();
        }
        let mut out = Vec::new();
        match run.set.kind {
            SetKind::Drop => out.push(self.wording.labels.drop.to_owned()),
            SetKind::BackOff => out.push(self.wording.labels.back_off.to_owned()),
            SetKind::Work | SetKind::WarmUp => {}
        }
        let own = self.details_of(|detail| {
            let value = detail(run.set)?;
            let told = shared(self.solid(), detail).flatten();
            (told.as_ref() != Some(&value)).then_some(value)
        });
        out.extend(own);
        out
    }

    fn target(&self, run: &Run<'_>, sets: usize) -> Target {
        let (words, set) = (self.wording, run.set);
        let reps = words.reps(&set.reps);
        let reps = if sets > 1 { format!("{sets}{}{reps}", words.signs.times) } else { reps };
        let load = words.load(set);
        let blank = load.is_none();
        // An effort is what the athlete goes by when no load is given.
        let effort = set.effort.filter(|_| blank).map(|effort| effort.to_string());
        let captions = [
            words.off_target(set),
            words.make_up(set, words.labels.per_side),
            words.in_other_unit(set),
        ];
        Target {
            reps,
            load: load.or(effort.map(|effort| effort.replace(' ', "\u{a0}"))),
            blank,
            captions: captions.into_iter().flatten().collect(),
        }
    }

    fn sides(&self, set: &PlannedSet) -> Option<(&'static str, &'static str)> {
        let labels = self.wording.labels;
        set.reps.each_side.then_some((labels.left, labels.right))
    }

    fn boxes_for(&self, run: &Run<'_>) -> usize {
        match self.boxes {
            Boxes::PerSet => run.count,
            Boxes::Rounds(rounds) if self.runs.len() == 1 => rounds,
            Boxes::Rounds(_) => run.count,
            Boxes::None => 0,
        }
    }

    /// The number of sets that the target names: a group's rounds are told for the group.
    fn sets_named(&self, run: &Run<'_>) -> usize {
        if self.boxes == Boxes::PerSet { run.count } else { 1 }
    }

    /// The pieces, each as wide as the body; and the drawing that belongs into the gutter beside
    /// the first.
    #[must_use]
    pub fn pieces(&self) -> (Vec<Fragment>, Option<Fragment>) {
        match self.runs {
            [] => (vec![self.rpe_only()], None),
            [run] => (self.uniform(run), self.drawing(run, self.metrics.gutter - 4.0)),
            _ => (self.differing(), None),
        }
    }

    fn drawing(&self, run: &Run<'_>, most: f32) -> Option<Fragment> {
        let scale = Scale { height: self.metrics.box_h.min(26.0), width: most };
        sleeve(run.set.load.as_ref()?, scale)
    }

    fn rpe(&self) -> Fragment {
        write_in(self.metrics, self.metrics.rpe, self.metrics.box_h, self.wording.labels.rpe)
    }

    fn rpe_x(&self) -> f32 {
        self.metrics.body() - self.metrics.rpe
    }

    fn rpe_only(&self) -> Fragment {
        let m = self.metrics;
        let mut out = Fragment::space(m.body(), m.box_h);
        if self.boxes != Boxes::None {
            out.put(write_in(m, m.grid.column, m.box_h, ""), m.grid.x(m.target_columns), 0.0);
        }
        out.put(self.rpe(), self.rpe_x(), 0.0);
        out
    }

    /// All sets alike: the target once, boxes to its right.
    fn uniform(&self, run: &Run<'_>) -> Vec<Fragment> {
        let m = self.metrics;
        let target = self.target(run, self.sets_named(run));
        let boxes = self.boxes_for(run);
        let per_row = m.grid.columns - m.target_columns;
        let step = m.box_h + m.box_gap();
        let text_columns = m.target_columns - usize::from(target.blank);
        // Without boxes the target has the whole width.
        let wide = if boxes == 0 && !target.blank { m.grid.columns } else { text_columns };
        let text = self.target_text(&target, m.target, m.grid.span(wide));

        let mut first = Fragment::space(m.body(), m.box_h);
        // A single line stands in the middle of its box's height.
        let drop = ((m.box_h - text.h) / 2.0).max(0.0);
        first.put(text, 0.0, drop);
        if target.blank {
            let unit = self.wording.unit.symbol();
            first.put(write_in(m, m.grid.column, m.box_h, unit), m.grid.x(text_columns), 0.0);
        }
        let mut pieces = Vec::new();
        for at in 0..boxes {
            let (row, column) = (at / per_row, at % per_row);
            let label = if boxes > per_row { (at + 1).to_string() } else { String::new() };
            let piece = set_box(m, m.grid.column, self.sides(run.set), &label);
            let x = m.grid.x(m.target_columns + column);
            // A fourth row and those after it are pieces of their own, for the page to break at.
            if row < 3 {
                first.put(piece, x, step * count(row));
            } else {
                if column == 0 {
                    pieces.push(Fragment::space(m.body(), 0.0));
                }
                if let Some(last) = pieces.last_mut() {
                    last.put(piece, x, m.box_gap());
                }
            }
        }
        first.put(self.rpe(), self.rpe_x(), 0.0);
        pieces.insert(0, first);
        pieces
    }

    /// Reps and load, on one line where they fit, with the small print below.
    fn target_text(&self, target: &Target, style: Style, max: f32) -> Fragment {
        let mut out = self.target_lines(target, style, max);
        let small = Style { size: self.metrics.small.size.min(8.0), ..self.metrics.small };
        out.extend(plain(&target.captions.join(" · "), small, max, Align::Left));
        stack(out, 0.0)
    }

    fn target_lines(&self, target: &Target, style: Style, max: f32) -> Vec<Fragment> {
        let Some(load) = &target.load else {
            return plain(&target.reps, style, max, Align::Left);
        };
        let joined = format!("{} · {load}", target.reps);
        if fits(&joined, style, max) {
            return plain(&joined, style, max, Align::Left);
        }
        let mut out = plain(&target.reps, style, max, Align::Left);
        out.extend(plain(load, style, max, Align::Left));
        out
    }

    /// Sets that differ: each run has its target above its boxes.
    fn differing(&self) -> Vec<Fragment> {
        let m = self.metrics;
        let cells: Vec<Cell> = self.runs.iter().map(|run| self.cell(run)).collect();
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        let mut used = m.grid.columns;
        for cell in cells {
            if used + cell.columns > m.grid.columns {
                rows.push(Vec::new());
                used = 0;
            }
            used += cell.columns;
            if let Some(row) = rows.last_mut() {
                row.push(cell);
            }
        }
        let last = rows.len().saturating_sub(1);
        rows.into_iter().enumerate().map(|(at, row)| self.row_of_cells(row, at == last)).collect()
    }

    fn cell(&self, run: &Run<'_>) -> Cell {
        let m = self.metrics;
        let mut target = self.target(run, self.sets_named(run));
        let mut captions = self.own_details(run);
        captions.append(&mut target.captions);
        target.captions = captions;
        let style = Style { size: m.target.size - 0.6, ..m.target };
        let drawing = self.drawing(run, 40.0);
        let beside = drawing.as_ref().map_or(0.0, |drawing| drawing.w + 5.0);

        let boxes = self.boxes_for(run);
        let box_columns = (boxes + usize::from(target.blank)).min(m.grid.columns);
        let joined =
            target.load.as_ref().map_or(target.reps.clone(), |l| format!("{} · {l}", target.reps));
        let half = m.grid.span(m.grid.columns / 2);
        let one_line = width(&joined, style) + beside;
        let two_lines = [Some(&target.reps), target.load.as_ref()]
            .into_iter()
            .flatten()
            .map(|text| width(text, style) + beside)
            .fold(0.0, f32::max);
        let wanted = if one_line <= half { one_line } else { two_lines };
        let columns = m.grid.needed(wanted).max(box_columns).max(1);
        let text = self.target_text(&target, style, m.grid.span(columns) - beside);
        let mut label = Fragment::space(m.grid.span(columns), 0.0);
        if let Some(drawing) = drawing {
            let x = (text.items.iter().map(|item| item.bounds().right()).fold(0.0, f32::max) + 5.0)
                .min(m.grid.span(columns) - drawing.w);
            label.put(drawing, x, 0.5);
        }
        label.put(text, 0.0, 0.0);

        let mut pens = Fragment::default();
        let mut at = 0;
        if target.blank {
            pens.put(write_in(m, m.grid.column, m.box_h, self.wording.unit.symbol()), 0.0, 0.0);
            at = 1;
        }
        for _ in 0..boxes {
            let (row, column) = (at / m.grid.columns, at % m.grid.columns);
            let w = m.grid.column;
            let y = count(row) * (m.box_h + m.box_gap());
            pens.put(set_box(m, w, self.sides(run.set), ""), m.grid.x(column), y);
            at += 1;
        }
        Cell { columns, label, pens }
    }

    fn row_of_cells(&self, cells: Vec<Cell>, last: bool) -> Fragment {
        let m = self.metrics;
        let label_h = cells.iter().map(|cell| cell.label.h).fold(0.0, f32::max) + 1.2;
        let mut out = Fragment::space(m.body(), 0.0);
        let mut column = 0;
        for cell in cells {
            let x = m.grid.x(column);
            column += cell.columns;
            let lift = label_h - 1.2 - cell.label.h;
            out.put(cell.label, x, lift);
            out.put(cell.pens, x, label_h);
        }
        if last {
            out.put(self.rpe(), self.rpe_x(), label_h);
        }
        if !last {
            out.h += m.box_gap();
        }
        out
    }
}

/// A run of sets with its target above its boxes.
struct Cell {
    columns: usize,
    label: Fragment,
    pens: Fragment,
}
