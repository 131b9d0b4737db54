//! Vector plots: axes, bars, points, lines. Sizes are in points; values are plain numbers, with
//! their unit in the title.

mod strip;

pub use strip::{Mark, bars, points};

use crate::sheets::labels::Numbers;
use crate::sheets::layout::{
    Align, Fragment, Ink, Rect, Role, Shape, Style, StyledText, count, lines, width,
};

/// Small type for axes.
pub const SMALL: Style = Style { size: 7.2, ..Style::regular(7.2) };

/// The vertical axis of a plot.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// The lowest value.
    pub low: f64,
    /// The highest value.
    pub high: f64,
    /// Positions and labels of the horizontal lines.
    pub ticks: Vec<(f64, String)>,
}

/// The lowest value (at most zero for bars) and the highest; 0 and 1 if there are no values.
fn extremes(values: impl Iterator<Item = f64>, from_zero: bool) -> (f64, f64) {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for value in values.filter(|value| value.is_finite()) {
        low = low.min(value);
        high = high.max(value);
    }
    if low > high {
        (low, high) = (0.0, 1.0);
    }
    (if from_zero { low.min(0.0) } else { low }, high)
}

impl Axis {
    /// An axis for all values, with round ticks formatted in a language. `from_zero` is for values
    /// that are shown as bars.
    #[must_use]
    pub fn around(values: impl Iterator<Item = f64>, from_zero: bool, numbers: Numbers) -> Self {
        let (mut low, mut high) = extremes(values, from_zero);
        // Equal values still need room.
        let least = if from_zero { 1.0 } else { (high.abs() * 0.06).max(1.0) };
        if high - low < least {
            high += least / 2.0;
            low -= if from_zero { 0.0 } else { least / 2.0 };
        }
        if !from_zero {
            // Keep points away from the frame.
            let clear = (high - low) * 0.08;
            low -= clear;
            high += clear;
        }
        let step = round_step((high - low) / 4.0);
        let first = libm::floor(low / step);
        let last = libm::ceil(high / step);
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a handful of steps, from low to high"
        )]
        let steps = (last - first) as u32;
        let ticks = (0..=steps.min(12))
            .map(|n| first * step + f64::from(n) * step)
            .map(|value| (value, show(value, step, numbers)))
            .collect();
        Self { low: first * step, high: last * step, ticks }
    }

    /// An axis without ticks, from the lowest value (from zero, for bars) to the highest. It is for
    /// plots with each number next to its mark.
    #[must_use]
    pub fn tight(values: impl Iterator<Item = f64>, from_zero: bool) -> Self {
        let (mut low, mut high) = extremes(values, from_zero);
        // Nearly equal values are nearly level, and equal ones are half-way up.
        let least = (high.abs() * 0.08).max(1e-6);
        if high - low < least {
            let more = (least - (high - low)) / 2.0;
            high += more;
            low -= if from_zero { 0.0 } else { more };
        }
        Self { low, high, ticks: Vec::new() }
    }

    /// An axis between two values with a tick at each whole number.
    #[must_use]
    pub fn whole(low: u32, high: u32) -> Self {
        let ticks = (low..=high).map(|n| (f64::from(n), n.to_string())).collect();
        Self { low: f64::from(low), high: f64::from(high), ticks }
    }

    /// The vertical position of a value, from 0 to 1.
    fn share(&self, value: f64) -> f32 {
        let span = (self.high - self.low).max(1e-9);
        #[allow(clippy::cast_possible_truncation, reason = "a place on paper")]
        let share = ((value - self.low) / span) as f32;
        share.clamp(0.0, 1.0)
    }
}

/// The next step of at least this size that is 1, 2, 2.5 or 5 times a power of ten.
fn round_step(least: f64) -> f64 {
    let mut power = 1e-3;
    while power < 1e12 {
        for times in [1.0, 2.0, 2.5, 5.0] {
            if power * times >= least {
                return power * times;
            }
        }
        power *= 10.0;
    }
    power
}

/// A tick's number with as many decimals as its step needs and grouped thousands.
fn show(value: f64, step: f64, numbers: Numbers) -> String {
    let places = usize::from(libm::fabs(step - libm::round(step)) >= 1e-9);
    let out = numbers.group(&format!("{:.places$}", libm::fabs(value)));
    if value < -1e-9 { format!("−{out}") } else { out }
}

/// The frame of a plot: a title with the unit, and the area for values.
pub struct Frame {
    /// The fragment to draw in.
    pub out: Fragment,
    /// The area for values.
    pub area: Rect,
    axis: Axis,
}

impl Frame {
    /// Draws the title, horizontal lines at the ticks, and their labels.
    #[must_use]
    pub fn new(w: f32, h: f32, title: &str, axis: Axis) -> Self {
        let mut out = Fragment::space(w, h);
        let head = Style::strong(8.4);
        let mut top = 0.0;
        for line in lines(&[StyledText::new(title, head)], w, Align::Left).into_iter().take(2) {
            let height = line.h;
            out.put(line, 0.0, top);
            top += height;
        }
        let quiet = SMALL.in_ink(Ink::Soft);
        let widest = axis.ticks.iter().map(|(_, text)| width(text, SMALL)).fold(0.0, f32::max);
        let left = widest + 4.0;
        let foot = SMALL.leading() + 5.0;
        let top = top + 6.0;
        let area = Rect::new(left, top, w - left - 2.0, h - top - foot);
        for (value, text) in &axis.ticks {
            let y = area.bottom() - axis.share(*value) * area.h;
            let bottom = (y - area.bottom()).abs() < 0.01;
            let (weight, ink) = if bottom { (0.8, Ink::Black) } else { (0.3, Ink::Faint) };
            out.draw(Shape::Line { from: (area.x, y), to: (area.right(), y), weight, ink });
            let line = text_line(text, quiet);
            let (x, y) = (left - 4.0 - line.w, y - line.h / 2.0);
            out.put(line, x.max(0.0), y);
        }
        out.w = w;
        out.h = h;
        Self { out, area, axis }
    }

    /// The y position of a value.
    #[must_use]
    pub fn y(&self, value: f64) -> f32 {
        self.area.bottom() - self.axis.share(value) * self.area.h
    }

    /// The x position of a share of the width. A margin keeps points away from the edges.
    #[must_use]
    pub fn x(&self, share: f32) -> f32 {
        let margin = 7.0_f32.min(self.area.w / 6.0);
        self.area.x + margin + share * (self.area.w - 2.0 * margin)
    }

    /// Draws numbers below the axis, each centred at its position. Numbers that would touch the
    /// previous one are left out. The first one includes what is counted.
    pub fn names(&mut self, what: &str, numbers: &[(f32, u32)]) {
        let quiet = SMALL.in_ink(Ink::Soft);
        // Away from the label of the lowest tick, which is next to the axis.
        let y = self.area.bottom() + 4.6;
        let mut free = 0.0;
        for (at, (x, number)) in numbers.iter().enumerate() {
            let name = if at == 0 { format!("{what} {number}") } else { number.to_string() };
            let line = text_line(&name, quiet);
            // The number is centred at its position, whatever text precedes it.
            let half = width(&number.to_string(), quiet) / 2.0;
            let mut left = (x + half - line.w).min(self.area.right() + 2.0 - line.w);
            if at == 0 {
                left = left.max(0.0);
            }
            if left >= free {
                free = left + line.w + 4.0;
                self.out.put(line, left, y);
            }
        }
    }

    /// Draws a bar upward from the axis.
    pub fn bar(&mut self, x: f32, w: f32, value: f64, filled: bool) {
        let y = self.y(value);
        let rect = Rect::new(x, y, w, self.area.bottom() - y);
        if rect.h < 0.05 {
            return;
        }
        let (stroke, fill) = if filled {
            (None, Some(Ink::Soft))
        } else {
            (Some((0.8, Ink::Black)), Some(Ink::White))
        };
        self.out.draw(Shape::Rectangle { rect, stroke, fill, role: Role::Decoration });
    }

    /// Draws a point.
    pub fn point(&mut self, x: f32, value: f64) {
        let centre = (x, self.y(value));
        self.out.draw(Shape::Disc { centre, radius: 2.2, ink: Ink::Black });
    }

    /// Draws a straight line between two values.
    pub fn line(&mut self, from: (f32, f64), to: (f32, f64), weight: f32, ink: Ink) {
        let (from, to) = ((from.0, self.y(from.1)), (to.0, self.y(to.1)));
        self.out.draw(Shape::Line { from, to, weight, ink });
    }
}

/// One line of text of any width.
#[must_use]
pub fn text_line(text: &str, style: Style) -> Fragment {
    crate::sheets::layout::line(text, style)
}

/// The centre of one of `n` equal places, as a share.
#[must_use]
pub fn middle(at: usize, n: usize) -> f32 {
    (count(at) + 0.5) / count(n.max(1))
}

/// A table of small numbers. The first column is aligned left, the others right.
#[must_use]
pub fn table(head: &[String], rows: &[Vec<String>], max: f32, style: Style) -> Fragment {
    let strong = Style { face: Style::strong(0.0).face, ..style };
    let columns = head.len().max(1);
    let mut wide: Vec<f32> = head.iter().map(|text| width(text, strong)).collect();
    for row in rows {
        for (most, text) in wide.iter_mut().zip(row) {
            *most = most.max(width(text, style));
        }
    }
    let rest: f32 = wide.iter().skip(1).sum();
    let gaps = 7.0 * count(columns - 1);
    let first = (max - rest - gaps).max(24.0);
    if let Some(most) = wide.first_mut() {
        *most = most.min(first);
    }
    let mut out = Fragment::default();
    let mut y = 0.0;
    let all = [(head, strong)].into_iter().chain(rows.iter().map(|row| (row.as_slice(), style)));
    for (number, (row, style)) in all.enumerate() {
        let mut x = 0.0;
        let mut height: f32 = style.leading();
        for (at, (text, wide)) in row.iter().zip(&wide).enumerate() {
            if at == 0 {
                let text =
                    lines(&[StyledText::new(text.as_str(), style)], *wide + 0.05, Align::Left);
                let text = crate::sheets::layout::stack(text.into_iter().take(2), 0.0);
                height = height.max(text.h);
                out.put(text, x, y);
            } else {
                let line = text_line(text, style);
                out.put(line.clone(), x + wide - line.w.min(*wide), y);
            }
            x += wide + 7.0;
        }
        y += height + 0.6;
        if number == 0 {
            let w = wide.iter().sum::<f32>() + gaps;
            out.put(Fragment::rule(w, 0.5, Ink::Black), 0.0, y);
            y += 1.6;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_hold_all_values() {
        let axis = Axis::around([61.3, 72.9].into_iter(), false, Numbers::ENGLISH);
        let names: Vec<&str> = axis.ticks.iter().map(|(_, name)| name.as_str()).collect();
        assert_eq!(names, ["60", "65", "70", "75"]);
        let axis = Axis::around([0.0, 24_330.0].into_iter(), true, Numbers::ENGLISH);
        assert_eq!(axis.ticks.last().map(|(_, name)| name.as_str()), Some("30,000"));
    }

    #[test]
    fn one_value_and_none_still_make_an_axis() {
        for values in [vec![], vec![0.0], vec![88.7], vec![f64::NAN]] {
            let axis = Axis::around(values.into_iter(), false, Numbers::ENGLISH);
            assert!(axis.high > axis.low && axis.ticks.len() > 1, "{axis:?}");
        }
    }
}
