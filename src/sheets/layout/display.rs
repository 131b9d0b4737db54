//! The display list: the content of a page in points, with y growing downward from the top.
//!
//! It is independent of PDF. Tests use it to check that nothing overflows or overlaps.

use super::face::Face;

/// A rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f32,
    /// Upper edge.
    pub y: f32,
    /// Width.
    pub w: f32,
    /// Height.
    pub h: f32,
}

impl Rect {
    /// A rectangle from its upper left corner and its size.
    #[must_use]
    pub const fn new(x: f32, y: f32, w: f32, h: f32) -> Self {
        Self { x, y, w, h }
    }

    /// Right edge.
    #[must_use]
    pub fn right(&self) -> f32 {
        self.x + self.w
    }

    /// Lower edge.
    #[must_use]
    pub fn bottom(&self) -> f32 {
        self.y + self.h
    }
}

/// The darkness of printed items. A laser printer prints greys as dots, so text is never lighter
/// than [`Ink::Soft`], which has a contrast of more than 9:1 on white. Hairlines have 3:1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ink {
    /// Black.
    Black,
    /// For less important text.
    Soft,
    /// For hairlines.
    Faint,
    /// Paper colour, on black.
    White,
    /// Competition plates of 25 kg. Colours are for areas only: text is next to them, and no
    /// information is given by colour alone.
    Red,
    /// Competition plates of 20 kg.
    Blue,
    /// Competition plates of 15 kg.
    Yellow,
    /// Competition plates of 10 kg.
    Green,
}

impl Ink {
    /// Lightness from 0 (black) to 1 (white).
    #[must_use]
    pub fn level(self) -> f32 {
        match self {
            Ink::Black => 0.0,
            Ink::Soft => 0.27,
            Ink::Faint => 0.55,
            Ink::White => 1.0,
            // The lightness of a colour on a black-and-white printer (ITU-R BT.601 luma).
            Ink::Red | Ink::Blue | Ink::Yellow | Ink::Green => {
                let [red, green, blue] = self.rgb();
                0.299 * red + 0.587 * green + 0.114 * blue
            }
        }
    }

    /// Red, green and blue, each from 0 to 1.
    #[must_use]
    pub fn rgb(self) -> [f32; 3] {
        match self {
            Ink::Red => [0.85, 0.12, 0.12],
            Ink::Blue => [0.16, 0.42, 0.85],
            Ink::Yellow => [0.98, 0.82, 0.10],
            Ink::Green => [0.10, 0.58, 0.25],
            Ink::Black | Ink::Soft | Ink::Faint | Ink::White => [self.level(); 3],
        }
    }

    /// Whether it is a colour, not black, white or grey.
    #[must_use]
    pub fn is_colour(self) -> bool {
        matches!(self, Ink::Red | Ink::Blue | Ink::Yellow | Ink::Green)
    }
}

/// Line spacing in ems: accented letters of one line just clear the line above.
const LEADING: f32 = 1.19;

/// The style of a run of text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// The face.
    pub face: Face,
    /// The size, in points.
    pub size: f32,
    /// Its darkness.
    pub ink: Ink,
}

impl Style {
    /// Regular weight, black.
    #[must_use]
    pub const fn regular(size: f32) -> Self {
        Self { face: Face::Regular, size, ink: Ink::Black }
    }

    /// Semi-bold weight, black.
    #[must_use]
    pub const fn strong(size: f32) -> Self {
        Self { face: Face::SemiBold, size, ink: Ink::Black }
    }

    /// The same style in another ink.
    #[must_use]
    pub const fn in_ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// Line spacing in points.
    #[must_use]
    pub fn leading(self) -> f32 {
        self.size * LEADING
    }

    /// Distance from a line's upper edge to its baseline. The visual middle of the letters, half
    /// the height of a capital, is in the middle of the line.
    #[must_use]
    pub fn baseline(self) -> f32 {
        self.leading() / 2.0 + self.size * 0.345
    }
}

/// The purpose of a rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// A box for writing.
    WriteIn,
    /// A box for ticking or counting.
    Tally,
    /// Part of a plate drawing.
    Plate,
    /// Anything else.
    Decoration,
}

/// An item on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A run of text in one style, on one line.
    Text {
        /// Left edge.
        x: f32,
        /// Baseline.
        y: f32,
        /// The sum of its advances.
        width: f32,
        /// Its style.
        style: Style,
        /// The text; the face has every character.
        text: String,
    },
    /// A character that the face lacks, drawn as a crossed box.
    Missing {
        /// Its place.
        rect: Rect,
        /// The character.
        character: char,
        /// The text that contains it.
        text: String,
    },
    /// Start of items that screen readers read as this text, up to the next [`Shape::Told`]. It
    /// joins a name and the items far to its right into one line.
    Tells(String),
    /// Start of items in this language (BCP 47), up to its [`Shape::Told`], if it is not the
    /// document's.
    Speaks(&'static str),
    /// The end of [`Shape::Tells`] or [`Shape::Speaks`].
    Told,
    /// A straight line.
    Line {
        /// Start.
        from: (f32, f32),
        /// End.
        to: (f32, f32),
        /// Thickness.
        weight: f32,
        /// Its darkness.
        ink: Ink,
    },
    /// A rectangle.
    Rectangle {
        /// Its place.
        rect: Rect,
        /// Thickness and ink of its outline.
        stroke: Option<(f32, Ink)>,
        /// Ink of its area.
        fill: Option<Ink>,
        /// Its purpose.
        role: Role,
    },
    /// Rectangles filled as one path, so that no seam shows between them.
    Mosaic {
        /// Their places.
        rects: Vec<Rect>,
        /// Their darkness.
        ink: Ink,
    },
    /// An area that opens a link, if the back end supports it. Nothing is drawn.
    Link {
        /// Its place.
        rect: Rect,
        /// The link, in ASCII.
        to: String,
    },
    /// A filled circle.
    Disc {
        /// Its centre.
        centre: (f32, f32),
        /// Its radius.
        radius: f32,
        /// Its darkness.
        ink: Ink,
    },
}

/// The share of the em that accented letters take above the baseline, and the share below.
#[cfg(test)]
const RISE: f32 = 0.93;
#[cfg(test)]
const FALL: f32 = 0.24;

impl Shape {
    /// Returns the item, moved.
    #[must_use]
    pub fn moved(mut self, dx: f32, dy: f32) -> Self {
        self.shift(dx, dy);
        self
    }

    /// Moves the item.
    pub fn shift(&mut self, dx: f32, dy: f32) {
        match self {
            Shape::Text { x, y, .. } => {
                *x += dx;
                *y += dy;
            }
            Shape::Missing { rect, .. }
            | Shape::Rectangle { rect, .. }
            | Shape::Link { rect, .. } => {
                rect.x += dx;
                rect.y += dy;
            }
            Shape::Line { from, to, .. } => {
                *from = (from.0 + dx, from.1 + dy);
                *to = (to.0 + dx, to.1 + dy);
            }
            Shape::Tells(_) | Shape::Speaks(_) | Shape::Told => {}
            Shape::Mosaic { rects, .. } => {
                for rect in rects {
                    rect.x += dx;
                    rect.y += dy;
                }
            }
            Shape::Disc { centre, .. } => *centre = (centre.0 + dx, centre.1 + dy),
        }
    }

    /// The bounding rectangle, which tests use; `None` for invisible items.
    #[cfg(test)]
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        Some(match self {
            Shape::Tells(_) | Shape::Speaks(_) | Shape::Told | Shape::Link { .. } => return None,
            Shape::Text { x, y, width, style, .. } => {
                Rect::new(*x, y - RISE * style.size, *width, (RISE + FALL) * style.size)
            }
            Shape::Missing { rect, .. } | Shape::Rectangle { rect, .. } => *rect,
            Shape::Mosaic { rects, .. } => {
                let first = rects.first()?;
                rects.iter().fold(*first, |all, rect| {
                    let (x, y) = (all.x.min(rect.x), all.y.min(rect.y));
                    let right = all.right().max(rect.right());
                    Rect::new(x, y, right - x, all.bottom().max(rect.bottom()) - y)
                })
            }
            Shape::Line { from, to, .. } => Rect::new(
                from.0.min(to.0),
                from.1.min(to.1),
                (from.0 - to.0).abs(),
                (from.1 - to.1).abs(),
            ),
            Shape::Disc { centre, radius, .. } => {
                let across = 2.0 * radius;
                Rect::new(centre.0 - radius, centre.1 - radius, across, across)
            }
        })
    }
}

/// One finished page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Width.
    pub width: f32,
    /// Height.
    pub height: f32,
    /// Its items, in reading order.
    pub items: Vec<Shape>,
}

impl Page {
    /// Marks the page's language, in a document with another language.
    #[must_use]
    pub fn speaking(mut self, language: &'static str, document: &str) -> Self {
        if language != document {
            self.items.insert(0, Shape::Speaks(language));
            self.items.push(Shape::Told);
        }
        self
    }

    /// The language that the page starts with, if it is not the document's.
    #[must_use]
    pub fn speaks(&self) -> Option<&'static str> {
        match self.items.first() {
            Some(Shape::Speaks(language)) => Some(*language),
            _ => None,
        }
    }

    /// The text of the page, in reading order: one line for each run of text, and for each text
    /// that replaces several.
    #[must_use]
    pub fn reads(&self) -> String {
        let mut out: Vec<String> = Vec::new();
        let mut told = false;
        for item in &self.items {
            match item {
                Shape::Tells(words) => {
                    told = true;
                    out.push(words.clone());
                }
                Shape::Told => told = false,
                Shape::Text { text, .. } if !told => out.push(text.clone()),
                Shape::Missing { character, .. } if !told => out.push(character.to_string()),
                _ => {}
            }
        }
        out.join("\n").replace(['\u{a0}', '\u{202f}'], " ")
    }
}
