//! Conversion of a page to PNG, from the same display list as the PDF.

use std::collections::BTreeMap;

use tiny_skia::{Color, FillRule, Paint, Path, PathBuilder, Pixmap, Shader, Stroke, Transform};

use super::SheetError;
use super::layout::{Face, Ink, Page, Rect, Segment, Shape, Style};

/// Least and greatest resolution in dots per inch: a thumbnail, and the resolution of a printer.
pub const DOTS: (u16, u16) = (20, 600);

/// Draws a page at a resolution in dots per inch, upright or rotated by 90°. The image is greyscale
/// if nothing has a colour. The same page gives the same bytes.
///
/// # Errors
/// [`SheetError::Image`] if the resolution is out of bounds or the page has no size.
pub fn write(page: &Page, dots_per_inch: u16, turned: bool) -> Result<Vec<u8>, SheetError> {
    let fault = |why: &str| SheetError::Image(why.to_owned());
    if !(DOTS.0..=DOTS.1).contains(&dots_per_inch) {
        return Err(SheetError::Image(format!(
            "{dots_per_inch} dots per inch: they go from {} to {}",
            DOTS.0, DOTS.1
        )));
    }
    let scale = f32::from(dots_per_inch) / 72.0;
    let to_dots = Transform::from_scale(scale, scale);
    let (width, height, transform) = if turned {
        let quarter = Transform::from_row(0.0, 1.0, -1.0, 0.0, page.height, 0.0);
        (page.height, page.width, quarter.post_concat(to_dots))
    } else {
        (page.width, page.height, to_dots)
    };
    let (width, height) = (dots(width * scale), dots(height * scale));
    let mut pixmap = Pixmap::new(width, height).ok_or_else(|| fault("the page has no size"))?;
    pixmap.fill(Color::WHITE);
    let mut painter = Rasteriser { pixmap, transform, glyphs: BTreeMap::new() };
    page.items.iter().for_each(|item| painter.item(item));
    encode(&painter.pixmap, dots_per_inch).map_err(|e| SheetError::Image(e.to_string()))
}

/// A length in whole dots, rounded up: 2,480 for the width of A4 at 300 dots per inch.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded")]
fn dots(length: f32) -> u32 {
    (length - 0.5).ceil().clamp(0.0, 40_000.0) as u32
}

fn encode(pixmap: &Pixmap, dots_per_inch: u16) -> Result<Vec<u8>, png::EncodingError> {
    let dots = || pixmap.pixels().iter();
    let grey = dots().all(|dot| dot.red() == dot.green() && dot.green() == dot.blue());
    let data: Vec<u8> = if grey {
        dots().map(|dot| dot.red()).collect()
    } else {
        dots().flat_map(|dot| [dot.red(), dot.green(), dot.blue()]).collect()
    };
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, pixmap.width(), pixmap.height());
    encoder.set_color(if grey { png::ColorType::Grayscale } else { png::ColorType::Rgb });
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Balanced);
    // Dots per metre, rounded to the nearest: an inch is 0.0254 m.
    let per_metre = (u32::from(dots_per_inch) * 10_000 + 127) / 254;
    let unit = png::Unit::Meter;
    encoder.set_pixel_dims(Some(png::PixelDimensions { xppu: per_metre, yppu: per_metre, unit }));
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&data)?;
    writer.finish()?;
    Ok(bytes)
}

struct Rasteriser {
    pixmap: Pixmap,
    /// The transform from points to dots.
    transform: Transform,
    /// The outlines that have been used, in font units; `None` for a space.
    glyphs: BTreeMap<(Face, char), Option<Path>>,
}

impl Rasteriser {
    fn item(&mut self, item: &Shape) {
        match item {
            Shape::Text { x, y, style, text, .. } => self.text((*x, *y), *style, text),
            Shape::Line { from, to, weight, ink } => self.line(*from, *to, *weight, *ink),
            Shape::Rectangle { rect, stroke, fill, .. } => {
                let path = tiny_skia::Rect::from_xywh(rect.x, rect.y, rect.w, rect.h)
                    .map(PathBuilder::from_rect);
                if let Some((path, ink)) = path.as_ref().zip(*fill) {
                    self.fill(path, ink, self.transform);
                }
                if let Some((path, (weight, ink))) = path.zip(*stroke) {
                    self.stroke(&path, weight, ink);
                }
            }
            Shape::Disc { centre, radius, ink } => {
                if let Some(path) = PathBuilder::from_circle(centre.0, centre.1, *radius) {
                    self.fill(&path, *ink, self.transform);
                }
            }
            Shape::Mosaic { rects, ink } => {
                let mut path = PathBuilder::new();
                for rect in rects {
                    if let Some(rect) = tiny_skia::Rect::from_xywh(rect.x, rect.y, rect.w, rect.h) {
                        path.push_rect(rect);
                    }
                }
                if let Some(path) = path.finish() {
                    self.fill(&path, *ink, self.transform);
                }
            }
            Shape::Missing { rect, .. } => self.missing(rect),
            Shape::Tells(_) | Shape::Speaks(_) | Shape::Told | Shape::Link { .. } => {}
        }
    }

    fn missing(&mut self, rect: &Rect) {
        let (right, bottom) = (rect.right(), rect.bottom());
        let corners = [(rect.x, rect.y), (right, rect.y), (right, bottom), (rect.x, bottom)];
        for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            self.line(*from, *to, 0.6, Ink::Black);
        }
        self.line((rect.x, rect.y), (right, bottom), 0.6, Ink::Black);
        self.line((rect.x, bottom), (right, rect.y), 0.6, Ink::Black);
    }

    fn line(&mut self, from: (f32, f32), to: (f32, f32), weight: f32, ink: Ink) {
        let mut path = PathBuilder::new();
        path.move_to(from.0, from.1);
        path.line_to(to.0, to.1);
        if let Some(path) = path.finish() {
            self.stroke(&path, weight, ink);
        }
    }

    fn stroke(&mut self, path: &Path, weight: f32, ink: Ink) {
        let stroke = Stroke { width: weight, ..Stroke::default() };
        let transform = self.transform;
        self.pixmap.stroke_path(path, &paint(ink), &stroke, transform, None);
    }

    fn fill(&mut self, path: &Path, ink: Ink, transform: Transform) {
        self.pixmap.fill_path(path, &paint(ink), FillRule::Winding, transform, None);
    }

    fn text(&mut self, (x, y): (f32, f32), style: Style, text: &str) {
        let table = style.face.table();
        let units = style.size / f32::from(table.units_per_em.max(1));
        let mut at = 0.0;
        for character in text.chars() {
            let Some(glyph) = table.glyph(character) else { continue };
            let path = self
                .glyphs
                .entry((style.face, character))
                .or_insert_with(|| path(&style.face.outline(character)))
                .clone();
            if let Some(path) = path {
                let upright = Transform::from_row(units, 0.0, 0.0, -units, x + at * units, y);
                self.fill(&path, style.ink, upright.post_concat(self.transform));
            }
            at += f32::from(glyph.advance);
        }
    }
}

fn path(outline: &[Segment]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for segment in outline {
        match *segment {
            Segment::Move(x, y) => path.move_to(x, y),
            Segment::Line(x, y) => path.line_to(x, y),
            Segment::Quad(x1, y1, x, y) => path.quad_to(x1, y1, x, y),
            Segment::Cubic(x1, y1, x2, y2, x, y) => path.cubic_to(x1, y1, x2, y2, x, y),
            Segment::Close => path.close(),
        }
    }
    path.finish()
}

fn paint(ink: Ink) -> Paint<'static> {
    let [red, green, blue] = ink.rgb();
    // Every component of an ink is between 0 and 1.
    let colour = Color::from_rgba(red, green, blue, 1.0).unwrap_or(Color::BLACK);
    Paint { shader: Shader::SolidColor(colour), anti_alias: true, ..Paint::default() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::layout::Role;

    fn page(ink: Ink) -> Page {
        let rect = Rect::new(36.0, 0.0, 36.0, 72.0);
        let shape =
            Shape::Rectangle { rect, stroke: None, fill: Some(ink), role: Role::Decoration };
        Page { width: 72.0, height: 144.0, items: vec![shape] }
    }

    #[test]
    fn a_page_has_its_size_and_what_stands_on_it() {
        let bytes = write(&page(Ink::Black), 100, false).unwrap();
        let mut reader = png::Decoder::new(std::io::Cursor::new(&bytes)).read_info().unwrap();
        let mut data = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut data).unwrap();
        assert_eq!((info.width, info.height), (100, 200));
        assert_eq!(info.color_type, png::ColorType::Grayscale);
        assert_eq!(reader.info().pixel_dims.unwrap().xppu, 3937);
        assert_eq!((data[0], data[99], data[49 + 50 * 100], data[51 + 50 * 100]), (255, 0, 255, 0));
        assert_eq!(data[99 + 150 * 100], 255);
        assert_eq!(bytes, write(&page(Ink::Black), 100, false).unwrap());
    }

    #[test]
    fn colours_are_kept_and_odd_resolutions_refused() {
        let bytes = write(&page(Ink::Red), 30, false).unwrap();
        let reader = png::Decoder::new(std::io::Cursor::new(&bytes)).read_info().unwrap();
        assert_eq!(reader.info().color_type, png::ColorType::Rgb);
        assert!(
            write(&page(Ink::Red), 5, false).is_err()
                && write(&page(Ink::Red), 5000, false).is_err()
        );
        let nothing = Page { width: 0.0, height: 0.0, items: Vec::new() };
        assert!(write(&nothing, 100, false).is_err());
    }
}
