//! The card's measurements, for a paper and a density.

use crate::sheets::CardOptions;
use crate::sheets::layout::{Style, count};
use crate::sheets::paper::Paper;

/// How densely a card is set. The roomiest density that needs the fewest pages is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Density {
    /// High boxes, generous space.
    Roomy,
    /// For short sessions.
    Normal,
    /// A little denser.
    Snug,
    /// The density of most full sessions.
    Compact,
    /// The smallest type that can be read at arm's length.
    Tight,
    /// The same, with text continuing below the boxes.
    Wrapped,
}

impl Density {
    /// Index of the density of most full sessions.
    pub const USUAL: usize = 3;

    /// All densities, roomiest first.
    pub const ALL: [Density; 6] = [
        Density::Roomy,
        Density::Normal,
        Density::Snug,
        Density::Compact,
        Density::Tight,
        Density::Wrapped,
    ];
}

/// Sizes and distances, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(clippy::struct_excessive_bools, reason = "each is a way of its own to set a card")]
pub struct Metrics {
    /// Width of the page.
    pub page_w: f32,
    /// Height of the page.
    pub page_h: f32,
    /// Margin at the sides. Laser printers leave about 5 mm blank.
    pub side: f32,
    /// Margin at the top and bottom.
    pub head: f32,
    /// Width of the column for the bracket of a group.
    pub bracket: f32,
    /// Width of the column for order letters.
    pub gutter: f32,
    /// Width of the column for targets and boxes, on the right.
    pub right: f32,
    /// Space between the text and that column.
    pub alley: f32,
    /// Width that the boxes of the sets share, on the left of that column.
    pub sets: f32,
    /// Width of the RPE box, on the right of that column.
    pub rpe: f32,
    /// Space between boxes.
    pub box_gap: f32,
    /// Height of a box for writing.
    pub box_h: f32,
    /// Least number of rows of the session's own boxes.
    pub log_rows: usize,
    /// Whether text continues below the boxes.
    pub wraps: bool,
    /// Whether small print makes room for the plates of every different set, not only of the
    /// heaviest.
    pub every_bar: bool,
    /// Maximum height of a drawing of plates.
    pub most_drawing: f32,
    /// Whether the boxes are left of the text, where a left hand does not cover it.
    pub left_handed: bool,
    /// Whether links to demonstrations are printed as QR codes instead of text.
    pub codes: bool,
    /// Side of a box to tick.
    pub tally: f32,
    /// Space between exercises.
    pub between: f32,
    /// Space between lines of different kinds.
    pub gap: f32,
    /// The athlete's name.
    pub title: Style,
    /// The day.
    pub day: Style,
    /// An order letter.
    pub letter: Style,
    /// An exercise's name.
    pub name: Style,
    /// Repetitions and load.
    pub target: Style,
    /// Rest, tempo, effort, plates.
    pub meta: Style,
    /// Cues and other small print.
    pub small: Style,
    /// Labels inside boxes, disclaimers.
    pub tiny: Style,
}

/// Factor of large print. Its smallest type is 10 pt; text that is read between sets is 17 to 24
/// pt.
const LARGE: f32 = 1.5;

/// Least height of a box that a pen can use: 6.5 mm, in points.
pub const LEAST_BOX: f32 = 6.5 * 72.0 / 25.4;
/// Least width of a box that a pen can use: 9 mm, in points.
pub const LEAST_WIDTH: f32 = 9.0 * 72.0 / 25.4;

impl Metrics {
    /// The measurements for a card and a density.
    #[must_use]
    pub fn new(options: &CardOptions, density: Density) -> Self {
        let paper = options.card();
        let usual = Self::usual(paper, density);
        let sized = if options.large_print { usual.large(paper) } else { usual };
        Self { left_handed: options.left_handed, ..sized }
    }

    /// The same with type and boxes at 1.5 times their size.
    fn large(self, paper: Paper) -> Self {
        let style = |style: Style| Style { size: style.size * LARGE, ..style };
        let (right, rpe) = match paper {
            Paper::A5 | Paper::HalfLetter => (178.0, 37.0),
            Paper::A4 | Paper::Letter => (246.0, 46.0),
        };
        Self {
            gutter: (self.gutter - 3.5) * LARGE + 3.5,
            right,
            rpe,
            sets: right - rpe - 4.4,
            box_h: self.box_h * 1.3,
            tally: self.tally * 1.3,
            log_rows: 3,
            most_drawing: self.most_drawing * LARGE,
            between: self.between * 1.3,
            gap: self.gap * 1.3,
            title: style(self.title),
            day: style(self.day),
            letter: style(self.letter),
            name: style(self.name),
            target: style(self.target),
            meta: style(self.meta),
            small: style(self.small),
            tiny: style(self.tiny),
            ..self
        }
    }

    fn usual(paper: Paper, density: Density) -> Self {
        let (page_w, page_h) = paper.points();
        // Larger paper is held farther away, so it has slightly larger type and wider boxes.
        let (larger, right, side, head) = match paper {
            Paper::A5 => (1.0, 168.0, 20.0, 19.0),
            Paper::HalfLetter => (1.0, 168.0, 17.0, 19.0),
            Paper::A4 | Paper::Letter => (1.18, 212.0, 38.0, 34.0),
        };
        // A session that does not fit large paper in larger type may fit in smaller type.
        let close = matches!(density, Density::Compact | Density::Tight | Density::Wrapped);
        let scale = if close { 1.0 } else { larger };
        let (box_h, between, gap) = match density {
            Density::Roomy => (25.5, 7.0, 2.4),
            Density::Normal => (23.0, 5.4, 1.8),
            Density::Snug => (21.0, 4.0, 1.4),
            Density::Compact => (19.4, 3.0, 1.2),
            Density::Tight => (18.6, 2.4, 1.0),
            Density::Wrapped => (18.6, 1.6, 0.8),
        };
        let (name, target, meta, small) = match density {
            Density::Roomy => (13.6, 12.6, 8.8, 8.5),
            Density::Normal => (13.2, 12.2, 8.5, 8.1),
            Density::Snug => (12.8, 11.9, 8.2, 7.7),
            Density::Compact => (12.4, 11.6, 7.9, 7.4),
            Density::Tight | Density::Wrapped => (12.0, 11.3, 7.6, 7.1),
        };
        let roomy = matches!(density, Density::Roomy | Density::Normal);
        let letter = name + 1.2;
        let rpe = 27.0 * larger;
        Self {
            page_w,
            page_h,
            side,
            head,
            bracket: 8.0,
            // Enough for `D1` and a little space.
            gutter: letter * scale * 1.3 + 3.5,
            right,
            alley: 9.0 * scale,
            sets: right - rpe - 4.4,
            rpe,
            box_gap: 2.2 * larger,
            box_h: box_h * scale.min(1.12),
            log_rows: if roomy { 2 } else { 1 },
            every_bar: roomy,
            most_drawing: 26.0 * scale,
            left_handed: false,
            codes: true,
            tally: (box_h * scale.min(1.12)).min(LEAST_BOX + 2.0),
            wraps: density == Density::Wrapped,
            between: between * scale,
            gap: gap * scale,
            title: Style::strong(if close { 15.0 } else { 16.0 } * scale),
            day: Style::strong(12.5 * scale),
            letter: Style::strong(letter * scale),
            name: Style::strong(name * scale),
            target: Style::strong(target * scale),
            meta: Style::regular(meta * scale),
            small: Style::regular(small * scale),
            tiny: Style::regular(7.0 * scale),
        }
    }

    /// The width between the margins.
    #[must_use]
    pub fn content(&self) -> f32 {
        self.page_w - 2.0 * self.side
    }

    /// Left edge and width of text next to a letter at the left edge, for either writing hand.
    #[must_use]
    pub fn lettered(&self) -> (f32, f32) {
        let x = self.bracket + self.gutter;
        (x, self.content() - x)
    }

    /// Width of text and boxes together.
    #[must_use]
    pub fn body(&self) -> f32 {
        self.content() - self.wide_x()
    }

    /// Left edge of an exercise's letter.
    #[must_use]
    pub fn letter_x(&self) -> f32 {
        if self.left_handed { self.bracket + self.right + self.alley } else { self.bracket }
    }

    /// Left edge of an exercise's text.
    #[must_use]
    pub fn indent(&self) -> f32 {
        self.letter_x() + self.gutter
    }

    /// Left edge of texts and lines that span both text and boxes.
    #[must_use]
    pub fn wide_x(&self) -> f32 {
        if self.left_handed { self.bracket } else { self.indent() }
    }

    /// Width of an exercise's text, without targets and boxes.
    #[must_use]
    pub fn left(&self) -> f32 {
        self.content() - self.bracket - self.gutter - self.alley - self.right
    }

    /// Left edge of targets and boxes.
    #[must_use]
    pub fn right_x(&self) -> f32 {
        if self.left_handed { self.bracket } else { self.content() - self.right }
    }

    /// Space between the exercises and the session's own boxes.
    #[must_use]
    pub fn log_space(&self) -> f32 {
        self.between + 2.0
    }

    /// Width of a set's box if there are `per_row` in a row.
    #[must_use]
    pub fn box_w(&self, per_row: usize) -> f32 {
        let gaps = self.box_gap * count(per_row.saturating_sub(1));
        (self.sets - gaps) / count(per_row.max(1))
    }

    /// Maximum number of boxes in a row that a pen can use.
    #[must_use]
    pub fn most_boxes(&self, least: f32) -> usize {
        (1..=12).rev().find(|n| self.box_w(*n) >= least).unwrap_or(1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_are_big_enough_for_a_pen_on_every_paper() {
        for (_, paper) in Paper::ALL {
            for density in Density::ALL {
                for (large_print, left_handed) in
                    [(false, false), (false, true), (true, false), (true, true)]
                {
                    let options =
                        CardOptions { paper, large_print, left_handed, ..CardOptions::default() };
                    let metrics = Metrics::new(&options, density);
                    assert!(metrics.box_h >= LEAST_BOX, "{paper} {density:?}");
                    assert!(metrics.rpe >= LEAST_WIDTH, "{paper}: {}", metrics.rpe);
                    // Five sets, which are very common, fit in one row.
                    assert!(metrics.most_boxes(LEAST_WIDTH) >= 5, "{paper}: {}", metrics.box_w(5));
                    let more = if large_print { LARGE } else { 1.0 };
                    assert!(metrics.name.size >= 11.0 * more && metrics.target.size >= 11.0 * more);
                    assert!(metrics.small.size >= 7.0 * more && metrics.tiny.size >= 7.0 * more);
                    let least = if large_print { 120.0 } else { 150.0 };
                    assert!(metrics.left() >= least, "{paper}: {}", metrics.left());
                }
            }
        }
    }
}
