//! Plots over columns of weeks. They have no axis, because each number is below its mark.

use crate::sheets::columns::Columns;
use crate::sheets::layout::{Fragment, Ink, Rect, Role, Shape, count, line, width};
use crate::sheets::leaf::hatch;

use super::{Axis, SMALL};

/// The mark of a week.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mark {
    /// Its value; `None` if there is nothing to show.
    pub value: Option<f64>,
    /// The lines of text below it.
    pub texts: Vec<String>,
}

/// Maximum width of a bar, in points.
const MOST_BAR: f32 = 17.0;
/// Radius of a point, in points.
const POINT: f32 = 2.3;

/// Width of a bar in its column.
fn bar_w(columns: &Columns) -> f32 {
    (columns.inner() * 0.6).clamp(0.8, MOST_BAR)
}

/// Bars from zero, one for each week, hatched in deload weeks.
#[must_use]
pub fn bars(columns: &Columns, marks: &[Mark], axis: &Axis, h: f32) -> Fragment {
    let mut out = ground(columns, h);
    let w = bar_w(columns);
    for (at, (mark, week)) in marks.iter().zip(&columns.weeks).enumerate() {
        let Some(value) = mark.value else { continue };
        let high = axis.share(value) * h;
        let x = columns.x(at) + columns.inset;
        if high < 0.2 {
            continue;
        }
        let rect = Rect::new(x, h - high, w, high);
        let (stroke, fill) =
            if week.deload { (Some((0.8, Ink::Black)), None) } else { (None, Some(Ink::Soft)) };
        if week.deload {
            out.put(hatch(w, high, 3.0), x, h - high);
        }
        out.draw(Shape::Rectangle { rect, stroke, fill, role: Role::Decoration });
    }
    out.w = columns.w;
    // Next to their bars if all fit, otherwise below.
    let texts = marks.iter().flat_map(|mark| &mark.texts);
    let widest = texts.map(|text| width(text, SMALL)).fold(0.0, f32::max);
    if w + 4.5 + widest > columns.inner() || h < SMALL.leading() {
        return numbers(out, columns, marks, h);
    }
    for (at, mark) in marks.iter().enumerate() {
        let x = columns.x(at) + columns.inset + w + 2.5;
        for (text, up) in mark.texts.iter().rev().zip(1..) {
            out.put(line(text, SMALL), x, h - SMALL.leading() * count(up));
        }
    }
    out
}

/// Points joined by lines, one for each week, hollow in deload weeks.
#[must_use]
pub fn points(columns: &Columns, marks: &[Mark], axis: &Axis, h: f32) -> Fragment {
    let mut out = ground(columns, h);
    let half = bar_w(columns) / 2.0;
    // Keep points away from the baseline and from the content above.
    let room = h - 4.0 * POINT;
    let places: Vec<(f32, f32, bool)> = marks
        .iter()
        .zip(&columns.weeks)
        .enumerate()
        .filter_map(|(at, (mark, week))| {
            let y = h - 2.0 * POINT - axis.share(mark.value?) * room;
            Some((columns.x(at) + columns.inset + half, y, week.deload))
        })
        .collect();
    for pair in places.windows(2) {
        if let [(x, y, _), (u, v, _)] = pair {
            out.draw(Shape::Line { from: (*x, *y), to: (*u, *v), weight: 0.9, ink: Ink::Soft });
        }
    }
    for (x, y, light) in places {
        out.draw(Shape::Disc { centre: (x, y), radius: POINT, ink: Ink::Black });
        if light {
            out.draw(Shape::Disc { centre: (x, y), radius: POINT - 0.9, ink: Ink::White });
        }
    }
    numbers(out, columns, marks, h)
}

/// The baseline of the marks.
fn ground(columns: &Columns, h: f32) -> Fragment {
    let mut out = Fragment::space(columns.w, h);
    let (from, to) = ((columns.x(0), h), (columns.w, h));
    out.draw(Shape::Line { from, to, weight: 0.6, ink: Ink::Black });
    out
}

/// Draws the numbers below. If they would touch, every other one is a line lower; numbers that
/// still touch are left out.
fn numbers(mut out: Fragment, columns: &Columns, marks: &[Mark], h: f32) -> Fragment {
    let lines = marks.iter().map(|mark| mark.texts.len()).max().unwrap_or(0);
    let mut y = h + 1.5;
    for place in 0..lines {
        let texts: Vec<(usize, Fragment)> = marks
            .iter()
            .enumerate()
            .filter_map(|(at, mark)| Some((at, line(mark.texts.get(place)?, SMALL))))
            .collect();
        let start = |at: usize| columns.x(at) + columns.inset;
        let close = texts.windows(2).any(|pair| match pair {
            [(at, text), (next, _)] => start(*at) + text.w + 3.0 > start(*next),
            _ => false,
        });
        let rows = if close { 2 } else { 1 };
        let mut free = [0.0_f32; 2];
        for (number, (at, text)) in texts.into_iter().enumerate() {
            let row = number % rows;
            // A number before a line or at the edge is moved to the left.
            let x = start(at).min(columns.reach(at) - text.w);
            let Some(free) = free.get_mut(row).filter(|free| x >= **free) else { continue };
            *free = x + text.w + 3.0;
            out.put(text, x, y + SMALL.leading() * count(row));
        }
        y += SMALL.leading() * count(rows);
        out.h = y;
    }
    out.w = columns.w;
    out
}
