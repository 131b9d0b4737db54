//! Fragments: pieces of a page that are laid out already, and ways to put them together.

use super::display::{Ink, Item, Rect, Role};

/// A laid-out piece: its items stand relative to its upper left corner.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fragment {
    /// Width.
    pub w: f32,
    /// Height.
    pub h: f32,
    /// What is in it, in reading order.
    pub items: Vec<Item>,
}

impl Fragment {
    /// Empty space.
    #[must_use]
    pub fn space(w: f32, h: f32) -> Self {
        Self { w, h, items: Vec::new() }
    }

    /// A rectangle.
    #[must_use]
    pub fn shape(
        w: f32,
        h: f32,
        stroke: Option<(f32, Ink)>,
        fill: Option<Ink>,
        role: Role,
    ) -> Self {
        let rect = Rect::new(0.0, 0.0, w, h);
        Self { w, h, items: vec![Item::Shape { rect, stroke, fill, role }] }
    }

    /// A horizontal line.
    #[must_use]
    pub fn rule(w: f32, weight: f32, ink: Ink) -> Self {
        let y = weight / 2.0;
        let line = Item::Line { from: (0.0, y), to: (w, y), weight, ink };
        Self { w, h: weight, items: vec![line] }
    }

    /// Draws another fragment into this one, which grows to hold it.
    pub fn put(&mut self, other: Fragment, x: f32, y: f32) {
        self.w = self.w.max(x + other.w);
        self.h = self.h.max(y + other.h);
        self.items.extend(other.items.into_iter().map(|item| item.moved(x, y)));
    }

    /// Draws an item into this one, which does not grow.
    pub fn draw(&mut self, item: Item) {
        self.items.push(item);
    }

    /// The same, in a frame of space.
    #[must_use]
    pub fn padded(self, left: f32, top: f32, right: f32, bottom: f32) -> Self {
        let mut out = Self::space(self.w + left + right, self.h + top + bottom);
        out.put(self, left, top);
        out
    }
}

/// One below the other.
#[must_use]
pub fn stack(pieces: impl IntoIterator<Item = Fragment>, gap: f32) -> Fragment {
    let mut out = Fragment::default();
    let mut first = true;
    for piece in pieces {
        let y = if first { 0.0 } else { out.h + gap };
        first = false;
        out.put(piece, 0.0, y);
    }
    out
}

/// Side by side, upper edges level.
#[must_use]
pub fn beside(pieces: impl IntoIterator<Item = Fragment>, gap: f32) -> Fragment {
    let mut out = Fragment::default();
    let mut first = true;
    for piece in pieces {
        let x = if first { 0.0 } else { out.w + gap };
        first = false;
        out.put(piece, x, 0.0);
    }
    out
}

/// Columns of equal width with a gap between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    /// How many columns.
    pub columns: usize,
    /// The width of one.
    pub column: f32,
    /// The gap between two.
    pub gap: f32,
}

impl Grid {
    /// As many columns as asked for in this width.
    #[must_use]
    pub fn new(width: f32, columns: usize, gap: f32) -> Self {
        let columns = columns.max(1);
        let column = (width - gap * count(columns - 1)) / count(columns);
        Self { columns, column, gap }
    }

    /// The left edge of a column, counted from zero.
    #[must_use]
    pub fn x(&self, column: usize) -> f32 {
        count(column) * (self.column + self.gap)
    }

    /// The width of several columns with the gaps between them.
    #[must_use]
    pub fn span(&self, columns: usize) -> f32 {
        (self.x(columns) - self.gap).max(0.0)
    }

    /// How many columns something of this width needs; all of them at most.
    #[must_use]
    pub fn needed(&self, width: f32) -> usize {
        (1..self.columns).find(|n| self.span(*n) + 0.01 >= width).unwrap_or(self.columns)
    }
}

/// A small count as a number of points.
#[must_use]
pub fn count(n: usize) -> f32 {
    f32::from(u16::try_from(n).unwrap_or(u16::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grid_fills_its_width() {
        let grid = Grid::new(310.0, 8, 4.0);
        assert!((grid.span(8) - 310.0).abs() < 0.001);
        assert_eq!(grid.needed(grid.column), 1);
        assert_eq!(grid.needed(grid.column + 1.0), 2);
        assert_eq!(grid.needed(1000.0), 8);
    }
}
