//! The table of a block sheet: its head, the rows of its exercises, and their rules.

use crate::quantity::Duration;
use crate::sheets::card::metrics::LEAST_BOX;
use crate::sheets::card::parts::{capped, packed};
use crate::sheets::card::target::shared_details;
use crate::sheets::columns::{Columns, Week, weekday_month};
use crate::sheets::labels::{Labels, fill};
use crate::sheets::layout::{Align, Fragment, Ink, Style, count, line, stack, width};
use crate::sheets::leaf::{TINY, pen_box};
use crate::sheets::runs::{Run, work_runs};
use crate::sheets::together::how_done;
use crate::sheets::wording::Wording;

use super::cell::BlockCell;
use super::grid::{BlockDay, BlockGrid, BlockLine};

/// Sizes and distances, in points.
#[derive(Clone, Copy, Debug)]
pub struct TableMetrics {
    /// The width of the table.
    pub w: f32,
    /// Sets, repetitions and load.
    pub strong: Style,
    /// Plates and details.
    pub small: Style,
    /// Height of a box.
    pub box_h: f32,
    /// Space above and below the content of a row.
    pub pad: f32,
}

/// Width of the column of names, in points.
const NAMES: f32 = 138.0;
/// Width of the order letters in that column, in points.
const LETTERS: f32 = 20.0;
/// Least width of a week, in points.
const LEAST_WEEK: f32 = 64.0;
/// Space on both sides of a week's column, in points.
const INSET: f32 = 4.8;
/// Maximum number of lines of a name, of the text below it, and of the description of a group. A
/// row is never split.
const MOST: (usize, usize, usize) = (5, 6, 4);

impl TableMetrics {
    /// All sizes, roomiest first.
    pub fn all(w: f32) -> impl Iterator<Item = TableMetrics> {
        let sizes = [
            (10.4, 8.2, 36.0, 4.0),
            (10.0, 7.8, 30.0, 3.4),
            (9.6, 7.6, 26.0, 3.0),
            (9.2, 7.4, 22.0, 2.4),
            (8.8, 7.2, 20.0, 2.0),
            (8.4, 7.0, LEAST_BOX + 0.1, 1.4),
        ];
        sizes.into_iter().map(move |(strong, small, box_h, pad)| TableMetrics {
            w,
            strong: Style::strong(strong),
            small: Style::regular(small),
            box_h,
            pad,
        })
    }

    /// How many weeks fit side by side.
    #[must_use]
    pub fn most_weeks(&self) -> usize {
        let room = self.w - NAMES;
        (1..=60).take_while(|n| LEAST_WEEK * count(*n) <= room).count().max(1)
    }
}

/// The table of some weeks.
pub struct Table<'a> {
    columns: Columns,
    words: &'a Wording,
    m: TableMetrics,
    labels: &'static Labels,
    dated: bool,
}

impl<'a> Table<'a> {
    /// The table of some of the grid's weeks.
    #[must_use]
    pub fn new(
        grid: &BlockGrid<'_>,
        weeks: Vec<Week>,
        words: &'a Wording,
        m: TableMetrics,
    ) -> Self {
        let sessions = grid.days.iter().flat_map(|day| &day.sessions);
        let dated = sessions.clone().any(|session| session.date.is_some());
        let columns = Columns { weeks, names: NAMES, w: m.w, inset: INSET };
        Self { columns, words, m, labels: words.labels, dated }
    }

    /// The head with the weeks.
    #[must_use]
    pub fn header(&self) -> Fragment {
        self.columns.header(self.labels, self.dated)
    }

    /// The day's name, with its dates above the weeks.
    #[must_use]
    pub fn day_head(&self, day: &BlockDay<'_>, continued: bool) -> Fragment {
        let style = Style::strong(11.0);
        let name =
            if continued { fill(self.labels.continued, &[day.name]) } else { day.name.to_owned() };
        let name = stack(capped(&name, style, NAMES - 6.0, Align::Left, 2), 0.0);
        let h = name.h.max(style.leading()) + 3.0;
        let mut out = Fragment::space(self.m.w, h);
        out.put(name, 0.0, 1.5);
        for (at, week) in self.columns.weeks.iter().enumerate() {
            let session = day.sessions.iter().find(|session| session.week == week.number);
            let Some(date) = session.and_then(|session| session.date) else { continue };
            let date = line(&weekday_month(date, self.labels), TINY);
            let y = 1.5 + style.baseline() - TINY.baseline();
            out.put(date, self.columns.x(at) + INSET, y);
        }
        out.put(Fragment::rule(self.m.w, 1.2, Ink::Black), 0.0, 0.0);
        self.columns.uprights(&mut out);
        out
    }

    /// The rows of a day, one for each exercise. The first member of a group has a line above it
    /// that describes how the group is done.
    #[must_use]
    pub fn rows(&self, day: &BlockDay<'_>) -> Vec<Fragment> {
        let here = |number: u32| self.columns.weeks.iter().any(|week| week.number == number);
        let lines = day.lines.iter().filter(|line| line.weeks.iter().any(|(n, ..)| here(*n)));
        let mut out = Vec::new();
        let mut letter = None;
        for line in lines {
            let first = letter != Some(line.order.letter);
            letter = Some(line.order.letter);
            let how = first.then(|| self.how_row(day, line.order.letter)).flatten();
            out.push(stack(how.into_iter().chain([self.row(line)]), 0.0));
        }
        out
    }

    /// The description of a group, with the weeks if they differ.
    fn how_row(&self, day: &BlockDay<'_>, letter: char) -> Option<Fragment> {
        let of_week = |week: &Week| {
            let session = day.sessions.iter().find(|session| session.week == week.number)?;
            Some((week.number, how_done(session, letter, self.words).0?))
        };
        let all: Vec<(u32, String)> = self.columns.weeks.iter().filter_map(of_week).collect();
        let (_, first) = all.first()?;
        let text = if all.iter().all(|(_, text)| text == first) {
            first.clone()
        } else {
            let run = |run: &[(u32, String)]| {
                let (from, text) = run.first()?;
                let (to, _) = run.last()?;
                let (from, to) = (from.to_string(), to.to_string());
                let weeks = if from == to {
                    fill(self.labels.broad.week, &[&from])
                } else {
                    fill(self.labels.broad.weeks, &[&from, &to])
                };
                Some(self.labels.labelled(&weeks, text) + ".")
            };
            let runs = all.chunk_by(|(n, a), (m, b)| n + 1 == *m && a == b);
            runs.filter_map(run).collect::<Vec<_>>().join(" ")
        };
        let room = self.m.w - LETTERS - 4.0;
        let text = capped(&text, self.m.small, room, Align::Left, MOST.2);
        let text = stack(text, 0.0);
        let mut out = Fragment::space(self.m.w, text.h + 3.0);
        let style = Style::strong(self.m.small.size);
        out.put(line(&letter.to_string(), style), 0.0, 1.5);
        out.put(text, LETTERS, 1.5);
        out.put(Fragment::rule(self.m.w, 0.4, Ink::Faint), 0.0, 0.0);
        Some(out)
    }

    fn row(&self, line: &BlockLine<'_>) -> Fragment {
        let m = &self.m;
        let in_view: Vec<_> = self
            .columns
            .weeks
            .iter()
            .map(|week| line.weeks.iter().find(|(number, ..)| *number == week.number))
            .collect();
        let runs: Vec<Run<'_>> =
            in_view.iter().flatten().flat_map(|(_, _, exercise)| work_runs(exercise)).collect();
        let names = self.names(line, &runs);
        let inner = self.columns.inner();
        let cells: Vec<Option<Fragment>> = in_view
            .iter()
            .map(|week| {
                let (_, session, exercise) = (*week)?;
                let cell = BlockCell { session, exercise, all: &runs };
                Some(stack(cell.lines(self.words, inner, m), 0.0))
            })
            .collect();
        let text_h = cells.iter().flatten().map(|cell| cell.h).fold(0.0, f32::max);
        let h = (names.h + 2.0 * m.pad).max(text_h + m.box_h + 2.0 * m.pad + 2.0);
        let mut out = Fragment::space(m.w, h);
        out.put(names, 0.0, m.pad);
        // All boxes of a row have the same height, in the space that its tallest text leaves.
        let box_h = (h - text_h - 2.0 * m.pad - 2.0).clamp(m.box_h, m.box_h * 1.5);
        for (at, cell) in cells.into_iter().enumerate() {
            let x = self.columns.x(at) + INSET;
            let Some(cell) = cell else {
                let dash = crate::sheets::layout::line(self.labels.broad.nothing, m.small);
                out.put(dash, x, m.pad);
                continue;
            };
            out.put(cell, x, m.pad);
            out.put(pen_box(inner, box_h), x, h - m.pad - box_h);
        }
        out.put(Fragment::rule(m.w, 0.4, Ink::Faint), 0.0, 0.0);
        self.columns.uprights(&mut out);
        out
    }

    /// The letter, the name, and what all weeks share.
    fn names(&self, line: &BlockLine<'_>, runs: &[Run<'_>]) -> Fragment {
        let m = &self.m;
        let room = NAMES - LETTERS - 5.0;
        let name = Style::strong((m.strong.size + 0.4).min(10.2));
        let mut out = Fragment::default();
        let letter = line.order.to_string();
        let squeeze = ((LETTERS - 3.0) / width(&letter, name).max(1.0)).min(1.0);
        let letter_style = Style { size: (name.size * squeeze).max(7.0), ..name };
        let drop = name.baseline() - letter_style.baseline();
        out.put(crate::sheets::layout::line(&letter, letter_style), 0.0, drop);
        let mut texts = capped(line.name, name, room, Align::Left, MOST.0);
        let (mut details, equipment) = shared_details(self.words, runs, self.told(line));
        details.extend(equipment);
        if on_each_side(runs) {
            details.insert(0, self.labels.each_side.replace(' ', "\u{a0}"));
        }
        if let Some(replaced) = line.replaces {
            details.insert(0, fill(self.labels.replaces, &[replaced]));
        }
        let details = packed(&details, "  ·  ", m.small, room, Align::Left);
        texts.extend(details.into_iter().take(MOST.1));
        out.put(stack(texts, 0.0), LETTERS, 0.0);
        out
    }

    /// The rest that the group's description includes, if it is the same in every week.
    fn told(&self, line: &BlockLine<'_>) -> Option<Duration> {
        let mut all =
            line.weeks.iter().filter(|(n, ..)| self.columns.weeks.iter().any(|w| w.number == *n));
        let of = |session| how_done(session, line.order.letter, self.words).1;
        let first = all.next().and_then(|(_, session, _)| of(session));
        first.filter(|first| all.all(|(_, session, _)| of(session) == Some(*first)))
    }
}

/// Whether every set is done on each side, which is then printed once, next to the name.
#[must_use]
pub fn on_each_side(runs: &[Run<'_>]) -> bool {
    !runs.is_empty() && runs.iter().all(|run| run.set.reps.each_side)
}
