//! One exercise: order letter, name, instructions, sets.

use crate::plan::PlannedExercise;
use crate::quantity::Duration;
use crate::sheets::layout::{
    Align, Block, Fragment, Ink, Row, Shape, Style, Tied, count, line, stack, width,
};
use crate::sheets::plates::Discs;
use crate::sheets::runs::{Run, warm_up_runs, work_runs};
use crate::sheets::wording::{PRINTED, Wording, rule_in};

use super::demo::in_text;
use super::metrics::Metrics;
use super::parts::{inked, labelled, packed, plain, sentences};
use super::target::shared_details;
use super::work::{Boxes, TargetColumn, Work};

/// The position of an exercise in a group with a bracket.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tie {
    /// Whether the bracket starts here.
    pub first: bool,
    /// Whether the bracket ends here.
    pub last: bool,
}

/// The input for drawing an exercise, apart from the exercise.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'a> {
    /// The card's measurements.
    pub metrics: &'a Metrics,
    /// The words.
    pub wording: &'a Wording,
    /// The look of plates.
    pub discs: Discs<'a>,
    /// Which boxes it has.
    pub boxes: Boxes,
    /// The rest that the group prints once, so that its members do not repeat it.
    pub rest_told: Option<Duration>,
    /// Its position in a group.
    pub tie: Option<Tie>,
}

/// Lays out an exercise: letter and name on one line with the target, text on the left and boxes on
/// the right. It is kept on one page.
#[must_use]
pub fn block(exercise: &PlannedExercise, setting: Setting<'_>) -> Block {
    let m = setting.metrics;
    let runs = work_runs(exercise);
    let work = Work {
        metrics: m,
        wording: setting.wording,
        runs: &runs,
        discs: setting.discs,
        boxes: setting.boxes,
        rest_told: setting.rest_told,
    };
    let parts = Parts { exercise, setting, runs: &runs, column: work.column() };
    let whole = parts.side_by_side();
    // A block higher than half a page must be breakable.
    let mut rows = if whole.h > m.page_h * 0.45 {
        parts.one_below_the_other()
    } else {
        vec![Row::new(0.0, whole)]
    };
    match setting.tie {
        Some(tie) => tied(&mut rows, tie, m),
        None => {
            if let Some(row) = rows.first_mut() {
                (row.before, row.apart) = (m.between, true);
            }
        }
    }
    Block { rows, ..Block::default() }
}

/// The parts of an exercise's block.
struct Parts<'a> {
    exercise: &'a PlannedExercise,
    setting: Setting<'a>,
    runs: &'a [Run<'a>],
    column: TargetColumn,
}

impl Parts<'_> {
    /// Letter, name and first line of the target, which read as one line. Also returns how far down
    /// the name and the target reach.
    fn heading(&self, name: Vec<Fragment>) -> (Fragment, f32, f32) {
        let (m, exercise) = (self.setting.metrics, self.exercise);
        let order = exercise.order.to_string();
        let read: Vec<String> = name.iter().map(|line| inked(line).1).collect();
        let read = read.join(" ");
        let aside = self.column.aside.as_ref();
        let label = aside.map(|told| told.reads.as_str()).unwrap_or_default();
        let target = self.column.first.as_ref().map(|told| told.reads.as_str());
        let words = [&order, read.trim(), target.unwrap_or_default(), label];
        let words: Vec<&str> = words.into_iter().filter(|text| !text.is_empty()).collect();
        let mut out = Fragment::space(m.content(), m.name.leading());
        out.draw(Shape::Tells(words.join(" ")));
        // A long order letter, such as `D30`, is set smaller to fit its column.
        let squeeze = ((m.gutter - 2.0) / width(&order, m.letter).max(1.0)).min(1.0);
        let style = Style { size: (m.letter.size * squeeze).max(7.0), ..m.letter };
        let letter = line(&order, style);
        let rise = m.name.baseline() - style.baseline();
        // The letter may extend above the row, into the space between exercises.
        out.items.extend(letter.items.into_iter().map(|item| item.moved(m.letter_x(), rise)));
        if let Some(aside) = aside {
            let (x, h) = (m.right_x() + m.right - aside.piece.w, out.h);
            out.put(aside.piece.clone(), x, 0.5);
            if self.setting.boxes != Boxes::None {
                // Plates extend next to the small print too.
                out.h = h;
            }
        }
        let mut left = 0.0;
        for line in name {
            let h = line.h;
            out.put(line, m.indent(), left);
            left += h;
        }
        let left = left.max(m.name.leading());
        let drop = m.name.baseline() - m.target.baseline();
        let mut right = 0.0;
        if let Some(first) = self.column.first.clone().map(|told| told.piece) {
            right = drop + first.h;
            // A row is as wide as the card; a line's own width may exceed its text's.
            out.items.extend(first.items.into_iter().map(|item| item.moved(m.right_x(), drop)));
            out.h = out.h.max(right);
        }
        out.draw(Shape::Told);
        (out, left, right)
    }

    fn details(&self, max: f32) -> Vec<Fragment> {
        let Setting { metrics, wording, rest_told, .. } = self.setting;
        let (mut details, equipment) = shared_details(wording, self.runs, rest_told);
        details.extend(equipment.filter(|_| self.column.bare));
        let projected = self.exercise.projected.then(|| wording.labels.projected.to_owned());
        details.extend(projected);
        packed(&details, "  ·  ", metrics.meta, max, Align::Left)
    }

    /// What is always on the left, apart from the name: instructions, and below them the ramp on
    /// lines of its own. The ramp is done first and has the same place on every card.
    fn before(&self, max: f32) -> Vec<Fragment> {
        let mut out = self.details(max);
        out.extend(labelled(None, &[self.ramp()], self.setting.metrics.small, |_| max));
        out
    }

    /// The text that decides the height of the left column, apart from the name.
    fn text(&self, max: f32) -> Vec<Fragment> {
        let mut out = self.before(max);
        out.extend(self.small_print(&[], |_| max));
        out
    }

    /// Text on the left, target and boxes on the right, and the rules where they fit best.
    fn side_by_side(&self) -> Fragment {
        let m = self.setting.metrics;
        let name = plain(&self.exercise.name, m.name, m.left(), Align::Left);
        let (mut out, left, right) = self.heading(name);
        let mut first = stack(self.text(m.left()), 0.0);
        let mut second = Fragment::space(m.right, 0.0);
        let below = &self.column.below;
        let read: Vec<&str> = below.iter().map(|told| told.reads.as_str()).collect();
        let below = stack(below.iter().map(|told| told.piece.clone()), 0.0);
        second.put(
            below.with_reading(joined(&read, self.setting.wording.labels.semicolon)),
            0.0,
            0.0,
        );
        for (at, row) in self.column.boxes.iter().enumerate() {
            let y = second.h + if at == 0 { m.gap + 0.6 } else { m.box_gap };
            second.put(row.clone(), 0.0, y);
        }
        if m.wraps {
            return self.wrapped(out, (left, right), second);
        }
        // Preferably below the boxes; on the left if that saves height.
        let with = |column: &Fragment, text: Vec<Fragment>| {
            let mut column = column.clone();
            if !text.is_empty() {
                let y = column.h + m.gap;
                column.put(stack(text, 0.0), 0.0, y);
            }
            column
        };
        let after = |max: f32| labelled(None, &self.after(), m.small.in_ink(Ink::Soft), |_| max);
        let at_right = with(&second, after(m.right));
        let at_left = with(&first, after(m.left()));
        let height = |l: &Fragment, r: &Fragment| (left + l.h).max(right + r.h);
        if height(&at_left, &second) < height(&first, &at_right) - WORTH {
            first = at_left;
        } else {
            second = at_right;
        }
        out.put(first, m.indent(), left);
        out.put(second, m.right_x(), right);
        out
    }

    /// A lower version of the same: text also fills the free space below the right column.
    fn wrapped(&self, mut out: Fragment, (left, right): (f32, f32), column: Fragment) -> Fragment {
        let m = self.setting.metrics;
        let below = right + column.h + 1.0;
        let details = stack(self.before(m.left()), 0.0);
        let top = left + details.h;
        let [next, demo] = self.after();
        let text = self.small_print(&[next, demo], |line| {
            if top + count(line) * m.small.leading() >= below { m.body() } else { m.left() }
        });
        out.put(details, m.indent(), left);
        for (at, line) in text.into_iter().enumerate() {
            let y = top + count(at) * m.small.leading();
            out.put(line, if y >= below { m.wide_x() } else { m.indent() }, y);
        }
        out.put(column, m.right_x(), right);
        out
    }

    /// Rows between which a page may break.
    fn one_below_the_other(&self) -> Vec<Row> {
        let m = self.setting.metrics;
        let mut name = plain(&self.exercise.name, m.name, m.left(), Align::Left).into_iter();
        let mut rows = vec![Row::new(0.0, self.heading(name.by_ref().take(1).collect()).0)];
        let mut push = |before: f32, x: f32, pieces: Vec<Fragment>| {
            for (at, piece) in pieces.into_iter().enumerate() {
                let before = if at == 0 { before } else { 0.0 };
                rows.push(Row::new(before, piece.padded(x, 0.0, 0.0, 0.0)));
            }
        };
        let texts = |texts: &[(&str, String)]| labelled(None, texts, m.small, |_| m.body());
        push(0.0, m.indent(), name.collect());
        push(0.0, m.wide_x(), self.text(m.body()));
        let below = self.column.below.iter().cloned();
        push(m.gap, m.right_x(), below.map(|told| told.piece.with_reading(told.reads)).collect());
        for row in &self.column.boxes {
            push(m.box_gap, m.right_x(), vec![row.clone()]);
        }
        push(m.gap, m.wide_x(), texts(&self.after()));
        rows
    }

    /// The rules for the next session, and the link to a demonstration unless a code contains it.
    fn after(&self) -> [(&'static str, String); 2] {
        let labels = self.setting.wording.labels;
        let rules: Vec<String> =
            self.exercise.rules.iter().map(|rule| rule_in(labels, PRINTED, rule)).collect();
        [
            (labels.next_time, rules.join(labels.semicolon)),
            (labels.demo, in_text(self.exercise, self.setting.metrics)),
        ]
    }

    /// The small print: replaced exercise, the athlete's settings, set-up, cues, notes, safety, and
    /// `more`.
    fn small_print(&self, more: &[(&str, String)], room: impl Fn(usize) -> f32) -> Vec<Fragment> {
        let (exercise, labels) = (self.exercise, self.setting.wording.labels);
        let replaced = exercise.replaces.as_ref().map(|replaced| match &replaced.reason {
            Some(reason) => format!("{} ({reason})", replaced.name),
            None => replaced.name.clone(),
        });
        let own = exercise.settings.join(" · ");
        let how = [
            (labels.instead_of, replaced.unwrap_or_default()),
            (labels.set_up, exercise.setup.clone().unwrap_or_default()),
            (labels.cue, sentences(&exercise.cues, labels.semicolon)),
            (labels.note, sentences(&self.setting.wording.notes(exercise), labels.semicolon)),
            (labels.safety, exercise.safety.clone().unwrap_or_default()),
        ];
        let how: Vec<(&str, String)> = how.into_iter().chain(more.iter().cloned()).collect();
        labelled(Some((labels.yours, &own)), &how, self.setting.metrics.small, room)
    }

    /// The ramp in short form: `8 × 20 kg   5 × 35 (5 + 2.5)`.
    fn ramp(&self) -> (&'static str, String) {
        let words = self.setting.wording;
        let one = |run: &Run<'_>| {
            let reps = words.reps(&run.set.reps);
            let sets = if run.count > 1 {
                format!("{}{}", run.count, words.signs.times)
            } else {
                String::new()
            };
            let load = words.load(run.set).map(|load| format!("{}{load}", words.signs.times));
            let plates = match run.set.plates_per_side() {
                [] => String::new(),
                plates => format!(" ({})", words.pieces(plates)),
            };
            let text = format!("{sets}{reps}{}{plates}", load.unwrap_or_default());
            text.replace(' ', "\u{a0}")
        };
        let ramp: Vec<String> = warm_up_runs(self.exercise).iter().map(one).collect();
        (words.labels.warm_up, ramp.join("   "))
    }
}

/// Joins lines of small print for screen readers. Text in brackets belongs to the text before it.
fn joined(lines: &[&str], semicolon: &str) -> String {
    let mut out = String::new();
    for line in lines {
        if !out.is_empty() {
            out.push_str(if line.starts_with('(') { " " } else { semicolon });
        }
        out.push_str(line);
    }
    out
}

/// Height in points that must be saved before a text leaves its usual place.
const WORTH: f32 = 3.0;

/// The space above a row of a group that the bracket passes through, for this space between
/// exercises.
#[must_use]
pub fn tied_space(between: f32) -> f32 {
    between * 0.8 + 0.8
}

/// Adds the exercise's part of the group's bracket to its rows. Space above rows becomes part of
/// them, so that the bracket has no gaps.
pub fn tied(rows: &mut [Row], tie: Tie, m: &Metrics) {
    let end = rows.len().saturating_sub(1);
    for (at, row) in rows.iter_mut().enumerate() {
        let apart = at == 0 && !tie.first;
        let above = if at > 0 {
            row.before
        } else if tie.first {
            0.0
        } else {
            tied_space(m.between)
        };
        row.before = 0.0;
        let (first, last) = (at == 0 && tie.first, at == end && tie.last);
        row.tie = Some(Tied { above, apart, first, last });
    }
}

/// A row as it is drawn, with its part of the bracket.
#[must_use]
pub fn drawn(row: Row) -> Fragment {
    let Some(tie) = row.tie else { return row.piece };
    let mut piece = row.piece.padded(0.0, tie.above, 0.0, 0.0);
    let top = if tie.first { 1.0 } else { 0.0 };
    let bottom = if tie.last { piece.h - 1.0 } else { piece.h };
    bracket(&mut piece, (tie.first, top), (tie.last, bottom));
    piece
}

/// Draws a part of a bracket, with a foot where the bracket ends.
fn bracket(piece: &mut Fragment, top: (bool, f32), bottom: (bool, f32)) {
    let (x, weight, ink) = (1.1, 2.2, Ink::Black);
    // Parts overlap slightly, so that screens show no gaps.
    let begins = if top.0 { top.1 } else { top.1 - 0.5 };
    piece.draw(Shape::Line { from: (x, begins), to: (x, bottom.1), weight, ink });
    for (ends, y) in [top, bottom] {
        if ends {
            piece.draw(Shape::Line { from: (0.0, y), to: (6.0, y), weight, ink });
        }
    }
}
