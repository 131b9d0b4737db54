//! Conversion of a page to SVG, from the same display list as the PDF, as shapes.
//!
//! Text is drawn as the outlines of its glyphs, each at its own advance, so that a page looks the
//! same everywhere without the font. The text itself is in `<title>` and `<desc>`, in reading
//! order, for screen readers and search.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::layout::{Face, Ink, Page, Rect, Segment, Shape, Style};

/// The metadata of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caption<'a> {
    /// Its title.
    pub title: &'a str,
    /// The BCP 47 language of its text.
    pub language: &'a str,
    /// Whether it is rotated by 90°.
    pub turned: bool,
}

/// Writes a page as SVG. The same page gives the same text.
#[must_use]
pub fn write(page: &Page, caption: Caption<'_>) -> String {
    let mut writer = SvgWriter::default();
    page.items.iter().for_each(|item| writer.item(item));
    let (width, height) =
        if caption.turned { (page.height, page.width) } else { (page.width, page.height) };
    let (w, h) = (number(width, 2), number(height, 2));
    let mm = |points: f32| number(points * 25.4 / 72.0, 2);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" \
         width=\"{}mm\" height=\"{}mm\" viewBox=\"0 0 {w} {h}\" role=\"img\" xml:lang=\"{}\">\n",
        mm(width),
        mm(height),
        escaped(caption.language),
    );
    // `write!` to a string cannot fail.
    let _ = writeln!(out, "<title>{}</title>", escaped(caption.title));
    let own = page.speaks().map(|language| format!(" xml:lang=\"{}\"", escaped(language)));
    let _ = writeln!(out, "<desc{}>{}</desc>", own.unwrap_or_default(), escaped(&page.reads()));
    out.push_str("<defs>\n");
    for (id, outline) in &writer.glyphs {
        let _ = writeln!(out, "<path id=\"{id}\" d=\"{outline}\"/>");
    }
    let _ = write!(out, "</defs>\n<path fill=\"#fff\" d=\"M0 0h{w}v{h}H0z\"/>\n");
    if caption.turned {
        let _ = writeln!(out, "<g transform=\"translate({w} 0)rotate(90)\">");
    }
    out.push_str(&writer.body);
    out.push_str(if caption.turned { "</g>\n</svg>\n" } else { "</svg>\n" });
    out
}

#[derive(Default)]
struct SvgWriter {
    /// The outlines of the glyphs that are used, by id.
    glyphs: BTreeMap<String, String>,
    body: String,
}

impl SvgWriter {
    fn item(&mut self, item: &Shape) {
        match item {
            Shape::Text { x, y, style, text, .. } => self.text((*x, *y), *style, text),
            Shape::Line { from, to, weight, ink } => {
                let d = format!("M{}L{}", point(*from), point(*to));
                self.stroke(&d, *weight, *ink);
            }
            Shape::Rectangle { rect, stroke, fill, .. } => {
                let d = rectangle(rect);
                if let Some(ink) = fill {
                    let _ = writeln!(self.body, "<path fill=\"{}\" d=\"{d}\"/>", colour(*ink));
                }
                if let Some((weight, ink)) = stroke {
                    self.stroke(&d, *weight, *ink);
                }
            }
            Shape::Disc { centre, radius, ink } => {
                let (x, y) = (number(centre.0, 2), number(centre.1, 2));
                let (r, ink) = (number(*radius, 2), colour(*ink));
                let _ =
                    writeln!(self.body, "<circle fill=\"{ink}\" cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>");
            }
            Shape::Missing { rect, .. } => {
                let (right, bottom) = (rect.right(), rect.bottom());
                let cross =
                    [((rect.x, rect.y), (right, bottom)), ((rect.x, bottom), (right, rect.y))];
                let cross = cross.map(|(from, to)| format!("M{}L{}", point(from), point(to)));
                self.stroke(&(rectangle(rect) + &cross.concat()), 0.6, Ink::Black);
            }
            Shape::Mosaic { rects, ink } => {
                let d: String = rects.iter().map(rectangle).collect();
                let _ = writeln!(self.body, "<path fill=\"{}\" d=\"{d}\"/>", colour(*ink));
            }
            Shape::Link { rect, to } => {
                let (to, d) = (escaped(to), rectangle(rect));
                let _ = writeln!(
                    self.body,
                    "<a xlink:href=\"{to}\"><path fill=\"none\" pointer-events=\"all\" d=\"{d}\"/></a>"
                );
            }
            Shape::Tells(_) | Shape::Speaks(_) | Shape::Told => {}
        }
    }

    fn stroke(&mut self, d: &str, weight: f32, ink: Ink) {
        let (weight, ink) = (number(weight, 2), colour(ink));
        let _ = writeln!(
            self.body,
            "<path fill=\"none\" stroke=\"{ink}\" stroke-width=\"{weight}\" d=\"{d}\"/>"
        );
    }

    /// Draws a run of glyphs, converted from font units, with y downward, to the font size.
    fn text(&mut self, (x, y): (f32, f32), style: Style, text: &str) {
        let units = f32::from(style.face.table().units_per_em.max(1));
        let scale = number(style.size / units, 6);
        let _ = write!(
            self.body,
            "<g fill=\"{}\" transform=\"translate({} {})scale({scale} -{scale})\">",
            colour(style.ink),
            number(x, 2),
            number(y, 2),
        );
        let mut at = 0;
        for character in text.chars() {
            let Some(glyph) = style.face.table().glyph(character) else { continue };
            let id = glyph_id(style.face, glyph.id);
            if !self.glyphs.contains_key(&id) {
                self.glyphs.insert(id.clone(), path(&style.face.outline(character)));
            }
            if self.glyphs.get(&id).is_some_and(|outline| !outline.is_empty()) {
                let _ = write!(self.body, "<use xlink:href=\"#{id}\" x=\"{at}\"/>");
            }
            at += u32::from(glyph.advance);
        }
        self.body.push_str("</g>\n");
    }
}

/// The id of a glyph within the file.
fn glyph_id(face: Face, glyph: u16) -> String {
    match face {
        Face::Regular => format!("r{glyph}"),
        Face::SemiBold => format!("s{glyph}"),
    }
}

fn path(outline: &[Segment]) -> String {
    let mut out = String::new();
    let n = |value: f32| number(value, 1);
    for segment in outline {
        let _ = match segment {
            Segment::Move(x, y) => write!(out, "M{} {}", n(*x), n(*y)),
            Segment::Line(x, y) => write!(out, "L{} {}", n(*x), n(*y)),
            Segment::Quad(x1, y1, x, y) => {
                write!(out, "Q{} {} {} {}", n(*x1), n(*y1), n(*x), n(*y))
            }
            Segment::Cubic(x1, y1, x2, y2, x, y) => {
                write!(out, "C{} {} {} {} {} {}", n(*x1), n(*y1), n(*x2), n(*y2), n(*x), n(*y))
            }
            Segment::Close => write!(out, "z"),
        };
    }
    out
}

fn point((x, y): (f32, f32)) -> String {
    format!("{} {}", number(x, 2), number(y, 2))
}

fn rectangle(rect: &Rect) -> String {
    let corner = point((rect.x, rect.y));
    let (right, bottom, left) =
        (number(rect.right(), 2), number(rect.bottom(), 2), number(rect.x, 2));
    format!("M{corner}H{right}V{bottom}H{left}z")
}

/// A number with at most so many decimals, without trailing zeros.
fn number(value: f32, places: usize) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let text = format!("{value:.places$}");
    let text =
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A colour as `#rrggbb`, or `#rgb` if that is equal.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 255")]
fn colour(ink: Ink) -> String {
    let parts = ink.rgb().map(|part| (part * 255.0).round() as u8);
    if parts.iter().all(|part| part % 17 == 0) {
        return parts.iter().fold("#".to_owned(), |text, part| format!("{text}{:x}", part / 17));
    }
    parts.iter().fold("#".to_owned(), |text, part| format!("{text}{part:02x}"))
}

/// Escapes text for elements and attributes. Most control characters become spaces, because XML
/// cannot represent them.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' => out.push('\n'),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        for (value, text) in
            [(1.0, "1"), (-0.001, "0"), (20.25, "20.25"), (100.0, "100"), (0.1, "0.1")]
        {
            assert_eq!(number(value, 2), text);
        }
        assert_eq!(number(f32::NAN, 2), "0");
        assert_eq!(
            (colour(Ink::Black), colour(Ink::Soft)),
            ("#000".to_owned(), "#454545".to_owned())
        );
    }

    #[test]
    fn a_page_is_drawn_and_says_what_it_says() {
        let text = |x: f32, text: &str| Shape::Text {
            x,
            y: 20.0,
            width: 30.0,
            style: Style::regular(10.0),
            text: text.to_owned(),
        };
        let told = [Shape::Tells("5 < 6 \u{1}& more".to_owned()), text(5.0, "A"), Shape::Told];
        let items = told.into_iter().chain([text(50.0, "AB A")]).collect();
        let page = Page { width: 100.0, height: 50.0, items };
        let svg = write(&page, Caption { title: "\"Card\"", language: "en", turned: false });
        assert!(svg.contains("<title>&quot;Card&quot;</title>"), "{svg}");
        assert!(svg.contains("<desc>5 &lt; 6  &amp; more\nAB A</desc>"), "{svg}");
        // Two glyphs, each drawn once and reused; a space is only an advance.
        assert_eq!(svg.matches("<path id=").count(), 3 - 1 + usize::from(svg.contains("d=\"\"")));
        assert_eq!(svg.matches("<use ").count(), 4);
        // Text in a language other than the document's is marked.
        let caption = Caption { title: "Karte", language: "de", turned: false };
        let svg = write(&page.clone().speaking("pl", "de"), caption);
        assert!(svg.contains("xml:lang=\"de\">\n<title>"), "{svg}");
        assert!(svg.contains("<desc xml:lang=\"pl\">5"), "{svg}");
        assert!(write(&page.speaking("de", "de"), caption).contains("<desc>5"));
    }
}
