//! The display list: what stands where on a page, in points, y growing downward from the top.
//!
//! Nothing here knows of PDF. Tests read it to prove that nothing overflows or overlaps.

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
    /// From its upper left corner and its size.
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

/// How dark something is printed. A laser printer screens greys into dots, so text is never
/// lighter than [`Ink::Soft`], which has a contrast of more than 9:1 on white; hairlines have 3:1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ink {
    /// Black.
    Black,
    /// For quiet text.
    Soft,
    /// For hairlines.
    Faint,
    /// Paper, on black.
    White,
    /// Competition plates of 25 kg. Colours are for grounds only: text stands beside them, and
    /// nothing is told by a colour alone.
    Red,
    /// Competition plates of 20 kg.
    Blue,
    /// Competition plates of 15 kg.
    Yellow,
    /// Competition plates of 10 kg.
    Green,
}

impl Ink {
    /// 0 is black, 1 is white.
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

    /// Whether it is neither black, white nor between.
    #[must_use]
    pub fn is_colour(self) -> bool {
        matches!(self, Ink::Red | Ink::Blue | Ink::Yellow | Ink::Green)
    }
}

/// From one line to the next, in ems: the letters with accents of one just clear the other.
const LEADING: f32 = 1.19;

/// How a run of text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// The face.
    pub face: Face,
    /// The size, in points.
    pub size: f32,
    /// How dark.
    pub ink: Ink,
}

impl Style {
    /// Regular, black.
    #[must_use]
    pub const fn regular(size: f32) -> Self {
        Self { face: Face::Regular, size, ink: Ink::Black }
    }

    /// Semi-bold, black.
    #[must_use]
    pub const fn strong(size: f32) -> Self {
        Self { face: Face::SemiBold, size, ink: Ink::Black }
    }

    /// The same, in another ink.
    #[must_use]
    pub const fn in_ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The distance from one line to the next.
    #[must_use]
    pub fn leading(self) -> f32 {
        self.size * LEADING
    }

    /// How far below a line's upper edge its baseline is: the letters' visual middle, half-way up a
    /// capital, stands in the middle of the line.
    #[must_use]
    pub fn baseline(self) -> f32 {
        self.leading() / 2.0 + self.size * 0.345
    }
}

/// What a rectangle is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// A box that a pen writes in.
    WriteIn,
    /// A box that a pen ticks or counts in.
    Tally,
    /// Part of a plate drawing.
    Plate,
    /// Anything else.
    Decoration,
}

/// Something on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A run of text in one style, on one line.
    Text {
        /// Left edge.
        x: f32,
        /// Baseline.
        y: f32,
        /// The width that its advances add up to.
        width: f32,
        /// How it is set.
        style: Style,
        /// The text; every character is in the face.
        text: String,
    },
    /// A character that the face lacks, drawn as a crossed box.
    Missing {
        /// Where it is drawn.
        rect: Rect,
        /// The character.
        character: char,
        /// The text it stands in.
        text: String,
    },
    /// What is drawn from here to the next [`Shape::Told`] reads as this, as one line: a name and
    /// what stands far to its right.
    Tells(String),
    /// What is drawn from here to its [`Shape::Told`] is in this language (BCP 47), which is not the
    /// document's.
    Speaks(&'static str),
    /// The end of what [`Shape::Tells`] or [`Shape::Speaks`] began.
    Told,
    /// A straight line.
    Line {
        /// Start.
        from: (f32, f32),
        /// End.
        to: (f32, f32),
        /// Thickness.
        weight: f32,
        /// How dark.
        ink: Ink,
    },
    /// A rectangle.
    Shape {
        /// Where.
        rect: Rect,
        /// Thickness and ink of its outline.
        stroke: Option<(f32, Ink)>,
        /// Ink of its ground.
        fill: Option<Ink>,
        /// What it is for.
        role: Role,
    },
    /// Rectangles that are filled as one: no seam shows where they touch.
    Mosaic {
        /// Where.
        rects: Vec<Rect>,
        /// How dark.
        ink: Ink,
    },
    /// A place that opens a link, where the back end can. Nothing is drawn.
    Link {
        /// Where.
        rect: Rect,
        /// The link, in ASCII.
        to: String,
    },
    /// A filled circle.
    Disc {
        /// Its middle.
        centre: (f32, f32),
        /// Its radius.
        radius: f32,
        /// How dark.
        ink: Ink,
    },
}

/// The part of the em above the baseline that letters with accents take, and the part below.
#[cfg(test)]
const RISE: f32 = 0.93;
#[cfg(test)]
const FALL: f32 = 0.24;

impl Shape {
    /// The same thing, moved.
    #[must_use]
    pub fn moved(mut self, dx: f32, dy: f32) -> Self {
        self.shift(dx, dy);
        self
    }

    /// Moves it.
    pub fn shift(&mut self, dx: f32, dy: f32) {
        match self {
            Shape::Text { x, y, .. } => {
                *x += dx;
                *y += dy;
            }
            Shape::Missing { rect, .. } | Shape::Shape { rect, .. } | Shape::Link { rect, .. } => {
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

    /// The rectangle around it, by which tests judge a page; `None` for what is not seen.
    #[cfg(test)]
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        Some(match self {
            Shape::Tells(_) | Shape::Speaks(_) | Shape::Told | Shape::Link { .. } => return None,
            Shape::Text { x, y, width, style, .. } => {
                Rect::new(*x, y - RISE * style.size, *width, (RISE + FALL) * style.size)
            }
            Shape::Missing { rect, .. } | Shape::Shape { rect, .. } => *rect,
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
    /// What stands on it, in reading order.
    pub items: Vec<Shape>,
}

impl Page {
    /// The page in a language, in a document that is in another.
    #[must_use]
    pub fn speaking(mut self, language: &'static str, document: &str) -> Self {
        if language != document {
            self.items.insert(0, Shape::Speaks(language));
            self.items.push(Shape::Told);
        }
        self
    }

    /// The language that it begins in, where that is not the document's.
    #[must_use]
    pub fn speaks(&self) -> Option<&'static str> {
        match self.items.first() {
            Some(Shape::Speaks(language)) => Some(*language),
            _ => None,
        }
    }

    /// What the page says, in reading order: a line for each run of text, and for what is told as
    /// one.
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
