//! The card's measures, for one paper and one density.

use crate::sheets::layout::{Grid, Style};
use crate::sheets::paper::Paper;

/// How closely a card is set. The roomiest that saves a page is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Density {
    /// Tall boxes, generous space.
    Roomy,
    /// What most sessions get.
    Normal,
    /// A little closer.
    Snug,
    /// For long sessions.
    Compact,
}

impl Density {
    /// From roomy to compact.
    pub const ALL: [Density; 4] =
        [Density::Roomy, Density::Normal, Density::Snug, Density::Compact];
}

/// Sizes and distances, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Metrics {
    /// The page's width.
    pub page_w: f32,
    /// The page's height.
    pub page_h: f32,
    /// The margin at the sides: laser printers leave about 5 mm blank.
    pub side: f32,
    /// The margin at head and foot.
    pub head: f32,
    /// The column of the bracket that ties a group together.
    pub bracket: f32,
    /// The column of the order letters and of the plate drawings.
    pub gutter: f32,
    /// The columns that targets and boxes stand in.
    pub grid: Grid,
    /// How many of them a target takes.
    pub target_columns: usize,
    /// The width of the RPE box.
    pub rpe: f32,
    /// The height of a write-in box.
    pub box_h: f32,
    /// The space between exercises.
    pub between: f32,
    /// The space between lines of different kinds.
    pub gap: f32,
    /// The athlete's name.
    pub title: Style,
    /// The day.
    pub day: Style,
    /// An order letter.
    pub letter: Style,
    /// An exercise's name.
    pub name: Style,
    /// Reps and load.
    pub target: Style,
    /// Rest, tempo, effort.
    pub meta: Style,
    /// Cues and other small print.
    pub small: Style,
    /// Rules for the next time, and the small print below targets.
    pub quiet: Style,
    /// Labels inside boxes, cautions.
    pub tiny: Style,
}

/// A box that a pen can use is at least 6.5 mm high.
pub const LEAST_BOX: f32 = 6.5 * 72.0 / 25.4;

impl Metrics {
    /// For a paper and a density.
    #[must_use]
    pub fn new(paper: Paper, density: Density) -> Self {
        let (page_w, page_h) = paper.points();
        // Bigger paper is held farther away: a little larger type, wider boxes.
        let (larger, columns, side, head) = match paper {
            Paper::A5 => (1.0, 8, 23.0, 20.0),
            Paper::HalfLetter => (1.0, 8, 18.0, 19.0),
            Paper::A4 | Paper::Letter => (1.18, 9, 38.0, 34.0),
        };
        // A session that does not fit big paper in large type may fit it in smaller.
        let scale = if density == Density::Compact { 1.0 } else { larger };
        let (box_h, between, gap, small, name) = match density {
            Density::Roomy => (25.5, 9.0, 2.2, 8.4, 13.4),
            Density::Normal => (22.5, 6.0, 1.4, 8.0, 13.0),
            Density::Snug => (21.0, 4.8, 1.0, 7.8, 12.8),
            Density::Compact => (19.5, 3.6, 0.6, 7.6, 12.5),
        };
        let (bracket, gutter, rpe) = (9.0, 34.0 * scale, 34.0 * scale);
        let body = page_w - 2.0 * side - bracket - gutter;
        let grid = Grid::new(body - rpe - 7.0 * scale, columns, 3.6 * scale);
        Self {
            page_w,
            page_h,
            side,
            head,
            bracket,
            gutter,
            grid,
            target_columns: 3,
            rpe,
            box_h: box_h * scale.min(1.12),
            between: between * scale,
            gap: gap * scale,
            title: Style::strong(16.0 * scale),
            day: Style::strong(12.5 * scale),
            letter: Style::strong(17.0 * scale),
            name: Style::strong(name * scale),
            target: Style::strong(12.0 * scale),
            meta: Style::regular(8.8 * scale),
            small: Style::regular(small * scale),
            quiet: Style::regular(small.min(7.8) * scale),
            tiny: Style::regular(7.0 * scale),
        }
    }

    /// The width between the margins.
    #[must_use]
    pub fn content(&self) -> f32 {
        self.page_w - 2.0 * self.side
    }

    /// The width right of the order letters.
    #[must_use]
    pub fn body(&self) -> f32 {
        self.content() - self.bracket - self.gutter
    }

    /// Where an exercise's own column begins.
    #[must_use]
    pub fn indent(&self) -> f32 {
        self.bracket + self.gutter
    }

    /// The space between the exercises and the session's own boxes.
    #[must_use]
    pub fn log_space(&self) -> f32 {
        self.between + 2.0
    }

    /// The gap between boxes above each other.
    #[must_use]
    pub fn box_gap(&self) -> f32 {
        self.grid.gap
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_are_big_enough_for_a_pen_on_every_paper() {
        for (_, paper) in Paper::ALL {
            for density in Density::ALL {
                let metrics = Metrics::new(paper, density);
                assert!(metrics.box_h >= LEAST_BOX, "{paper} {density:?}");
                assert!(metrics.grid.column >= 30.0, "{paper}: {}", metrics.grid.column);
                assert!(metrics.target.size >= 11.0);
                assert!(metrics.small.size >= 7.0 && metrics.tiny.size >= 7.0);
            }
        }
    }
}
