//! Outlines of glyphs, for back ends that draw shapes without fonts.

use super::face::Face;

/// A segment of an outline, in font units, with y growing upward.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Starts a new contour.
    Move(f32, f32),
    /// A straight line to this point.
    Line(f32, f32),
    /// A quadratic curve: control point, end point.
    Quad(f32, f32, f32, f32),
    /// A cubic curve: two control points, end point.
    Cubic(f32, f32, f32, f32, f32, f32),
    /// Closes the contour.
    Close,
}

struct Segments(Vec<Segment>);

impl ttf_parser::OutlineBuilder for Segments {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.push(Segment::Move(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.push(Segment::Line(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.push(Segment::Quad(x1, y1, x, y));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.push(Segment::Cubic(x1, y1, x2, y2, x, y));
    }

    fn close(&mut self) {
        self.0.push(Segment::Close);
    }
}

impl Face {
    /// The outline of a character's glyph; empty for a space and for a character that the face
    /// lacks.
    #[must_use]
    pub fn outline(self, character: char) -> Vec<Segment> {
        let mut out = Segments(Vec::new());
        let glyph = self.table().glyph(character);
        if let (Some(glyph), Ok(face)) = (glyph, ttf_parser::Face::parse(self.data(), 0)) {
            // `None` means a glyph without an outline; the list stays empty.
            let _ = face.outline_glyph(ttf_parser::GlyphId(glyph.id), &mut out);
        }
        out.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outlines_are_closed_and_a_space_has_none() {
        for face in Face::ALL {
            let outline = face.outline('8');
            let count = |wanted: fn(&Segment) -> bool| outline.iter().filter(|s| wanted(s)).count();
            let contours = count(|s| matches!(s, Segment::Move(..)));
            assert_eq!((contours, count(|s| *s == Segment::Close)), (3, 3), "{face:?}");
            assert!(face.outline(' ').is_empty() && face.outline('漢').is_empty());
        }
    }
}
