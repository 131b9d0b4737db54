//! The working sets of an exercise: their targets, and a box to write in for each.

use crate::plan::PlannedSet;
use crate::quantity::Duration;
use crate::sheets::layout::{Fragment, Style, count};
use crate::sheets::plates::{Scale, sleeve};
use crate::sheets::runs::Run;
use crate::sheets::wording::Wording;

use super::metrics::Metrics;
use super::parts::{set_box, write_in};
use super::target::{Target, own_details};

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
    /// The rest that is told once for the group.
    pub rest_told: Option<Duration>,
}

/// After so many rows of boxes, further ones are pieces of their own, for a page to break at.
const ROWS_TOGETHER: usize = 3;

impl Work<'_> {
    /// The pieces, each as wide as the body; and the drawing that belongs into the gutter beside
    /// the first.
    #[must_use]
    pub fn pieces(&self) -> (Vec<Fragment>, Option<Fragment>) {
        match self.runs {
            [] => (vec![self.without_target()], None),
            [run] => (self.uniform(run), self.drawing(run, self.metrics.gutter - 4.0)),
            _ => (self.differing(), None),
        }
    }

    fn sides(&self, set: &PlannedSet) -> Option<(&'static str, &'static str)> {
        let labels = self.wording.labels;
        set.reps.each_side.then_some((labels.left, labels.right))
    }

    fn boxes_for(&self, run: &Run<'_>) -> usize {
        match self.boxes {
            Boxes::Rounds(rounds) if self.runs.len() == 1 => rounds,
            Boxes::PerSet | Boxes::Rounds(_) => run.count,
            Boxes::None => 0,
        }
    }

    fn target(&self, run: &Run<'_>) -> Target {
        let sets = (self.boxes == Boxes::PerSet).then_some(run.count);
        Target::new(self.wording, run, sets)
    }

    fn drawing(&self, run: &Run<'_>, most: f32) -> Option<Fragment> {
        let scale = Scale { height: (self.metrics.box_h - 2.0).min(26.0), width: most };
        sleeve(run.set.load.as_ref()?, scale)
    }

    fn put_rpe(&self, out: &mut Fragment, y: f32) {
        let m = self.metrics;
        out.put(write_in(m, m.rpe, m.box_h, self.wording.labels.rpe), m.body() - m.rpe, y);
    }

    /// An exercise without sets still gets a box.
    fn without_target(&self) -> Fragment {
        let m = self.metrics;
        let mut out = Fragment::space(m.body(), m.box_h);
        if self.boxes != Boxes::None {
            out.put(write_in(m, m.grid.column, m.box_h, ""), m.grid.x(m.target_columns), 0.0);
        }
        self.put_rpe(&mut out, 0.0);
        out
    }

    /// All sets alike: the target once, boxes to its right.
    fn uniform(&self, run: &Run<'_>) -> Vec<Fragment> {
        let m = self.metrics;
        let target = self.target(run);
        let boxes = self.boxes_for(run);
        let per_row = m.grid.columns - m.target_columns;
        let step = m.box_h + m.box_gap();
        let text_columns = m.target_columns - usize::from(target.blank);
        // Without boxes the target has the whole width.
        let wide = if boxes == 0 && !target.blank { m.grid.columns } else { text_columns };
        let text = target.set_in(m.target, m.quiet, m.grid.span(wide));

        let mut first = Fragment::space(m.body(), m.box_h);
        // A single line stands in the middle of its box's height.
        let drop = ((m.box_h - text.h) / 2.0).max(0.0);
        first.put(text, 0.0, drop);
        if target.blank {
            let unit = self.wording.unit.symbol();
            first.put(write_in(m, m.grid.column, m.box_h, unit), m.grid.x(text_columns), 0.0);
        }
        let mut more: Vec<Fragment> = Vec::new();
        for at in 0..boxes {
            let (row, column) = (at / per_row, at % per_row);
            // Where boxes need several rows, numbers tell which set this is.
            let label = if boxes > per_row { (at + 1).to_string() } else { String::new() };
            let piece = set_box(m, m.grid.column, self.sides(run.set), &label);
            let x = m.grid.x(m.target_columns + column);
            if row < ROWS_TOGETHER {
                first.put(piece, x, step * count(row));
                continue;
            }
            if column == 0 {
                more.push(Fragment::space(m.body(), 0.0));
            }
            if let Some(last) = more.last_mut() {
                last.put(piece, x, m.box_gap());
            }
        }
        self.put_rpe(&mut first, 0.0);
        more.insert(0, first);
        more
    }

    /// Sets that differ: each run has its target above its boxes. Reps and load stand on two lines
    /// where that saves a row.
    fn differing(&self) -> Vec<Fragment> {
        let beside = self.rows_of_cells(false);
        let rows = if beside.len() > 1 {
            let stacked = self.rows_of_cells(true);
            if stacked.len() < beside.len() { stacked } else { beside }
        } else {
            beside
        };
        let last = rows.len().saturating_sub(1);
        rows.into_iter().enumerate().map(|(at, row)| self.row_of_cells(row, at == last)).collect()
    }

    fn rows_of_cells(&self, stacked: bool) -> Vec<Vec<Cell>> {
        let columns = self.metrics.grid.columns;
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        let mut used = columns;
        for cell in self.runs.iter().map(|run| self.cell(run, stacked)) {
            if used + cell.columns > columns {
                rows.push(Vec::new());
                used = 0;
            }
            used += cell.columns;
            if let Some(row) = rows.last_mut() {
                row.push(cell);
            }
        }
        rows
    }

    fn cell(&self, run: &Run<'_>, stacked: bool) -> Cell {
        let m = self.metrics;
        let one_each = self.runs.iter().all(|run| run.count == 1);
        let sets = match self.boxes {
            Boxes::PerSet if one_each => Some(0),
            Boxes::PerSet => Some(run.count),
            Boxes::Rounds(_) | Boxes::None => None,
        };
        let mut target = Target::new(self.wording, run, sets);
        target.lead_with(own_details(self.wording, self.runs, run, self.rest_told));
        let style = Style { size: (m.target.size - 0.6).max(11.0), ..m.target };
        let small = m.quiet;
        let pens = self.boxes_for(run) + usize::from(target.blank);
        let wanted = target.wanted(style, small, m.grid.span(m.grid.columns / 2), stacked);
        let columns = m.grid.needed(wanted).max(pens.min(m.grid.columns)).max(1);
        let label = target.set_in(style, small, m.grid.span(columns));

        let mut below = Fragment::default();
        for at in 0..pens {
            let (x, y) = self.pen_at(at);
            let pen = if target.blank && at == 0 {
                write_in(m, m.grid.column, m.box_h, self.wording.unit.symbol())
            } else {
                set_box(m, m.grid.column, self.sides(run.set), "")
            };
            below.put(pen, x, y);
        }
        let drawing = self.drawing(run, m.grid.column - 2.0);
        Cell { columns, label, pens, below, drawing }
    }

    fn pen_at(&self, at: usize) -> (f32, f32) {
        let m = self.metrics;
        let (row, column) = (at / m.grid.columns, at % m.grid.columns);
        (m.grid.x(column), count(row) * (m.box_h + m.box_gap()))
    }

    fn row_of_cells(&self, cells: Vec<Cell>, last: bool) -> Fragment {
        let m = self.metrics;
        let label_h = cells.iter().map(|cell| cell.label.h).fold(0.0, f32::max);
        let boxes = label_h + 1.6;
        let mut out = Fragment::space(m.body(), 0.0);
        let mut spare =
            m.grid.columns.saturating_sub(cells.iter().map(|cell| cell.columns).sum::<usize>());
        let mut column = 0;
        for mut cell in cells {
            let x = m.grid.x(column);
            // Plates are drawn in a column that boxes leave free, in this cell or in the row;
            // where there is none, the numbers have to do.
            if let Some(drawing) = cell.drawing {
                if cell.columns <= cell.pens && spare > 0 {
                    spare -= 1;
                    cell.columns += 1;
                }
                if cell.columns > cell.pens {
                    let drop = (m.box_h - drawing.h) / 2.0;
                    cell.below.put(drawing, m.grid.x(cell.pens), drop);
                }
            }
            column += cell.columns;
            // Labels stand on their boxes.
            let lift = label_h - cell.label.h;
            out.put(cell.label, x, lift);
            out.put(cell.below, x, boxes);
        }
        if last {
            self.put_rpe(&mut out, boxes);
        } else {
            out.h += m.box_gap();
        }
        out
    }
}

/// A run of sets: its target, and what stands below it.
struct Cell {
    columns: usize,
    label: Fragment,
    pens: usize,
    below: Fragment,
    drawing: Option<Fragment>,
}
