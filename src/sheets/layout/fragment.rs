//! Fragments: parts of a page that have been laid out, and functions that combine them.

use super::display::{Ink, Rect, Role, Shape};

/// A part of a page. Its items are relative to its upper left corner.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fragment {
    /// Width.
    pub w: f32,
    /// Height.
    pub h: f32,
    /// Its items, in reading order.
    pub items: Vec<Shape>,
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
        Self { w, h, items: vec![Shape::Rectangle { rect, stroke, fill, role }] }
    }

    /// A horizontal line.
    #[must_use]
    pub fn rule(w: f32, weight: f32, ink: Ink) -> Self {
        let y = weight / 2.0;
        let line = Shape::Line { from: (0.0, y), to: (w, y), weight, ink };
        Self { w, h: weight, items: vec![line] }
    }

    /// Draws another fragment into this one, which grows to contain it.
    pub fn put(&mut self, mut other: Fragment, x: f32, y: f32) {
        self.w = self.w.max(x + other.w);
        self.h = self.h.max(y + other.h);
        other.items.iter_mut().for_each(|item| item.shift(x, y));
        if self.items.is_empty() {
            self.items = other.items;
        } else {
            self.items.append(&mut other.items);
        }
    }

    /// Draws an item into this one, which does not grow.
    pub fn draw(&mut self, item: Shape) {
        self.items.push(item);
    }

    /// The same fragment, with this text for screen readers instead of its own texts.
    #[must_use]
    pub fn with_reading(mut self, words: String) -> Self {
        if !words.is_empty() {
            self.items.insert(0, Shape::Tells(words));
            self.items.push(Shape::Told);
        }
        self
    }

    /// The same fragment with space around it.
    #[must_use]
    pub fn padded(self, left: f32, top: f32, right: f32, bottom: f32) -> Self {
        let mut out = Self::space(self.w + left + right, self.h + top + bottom);
        out.put(self, left, top);
        out
    }
}

/// Fragments one below another.
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

/// Fragments side by side, aligned at the top.
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

/// Converts a small count to a number for calculations in points.
#[must_use]
pub fn count(n: usize) -> f32 {
    f32::from(u16::try_from(n).unwrap_or(u16::MAX))
}
