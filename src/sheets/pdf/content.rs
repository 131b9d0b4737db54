//! Converts a page's display list to a compressed content stream.

use std::io::Write;
use std::sync::{Mutex, MutexGuard, PoisonError};

use flate2::{Compress, Compression, FlushCompress, Status};
use lopdf::{Dictionary, Object};

use super::super::SheetError;
use super::super::layout::{Face, Ink, Page, Rect, Shape, Style};
use super::fonts::{GlyphCodes, tag};
use super::objects::{literal, name, text, text_bytes};

/// A page whose content is written and compressed. It takes a tenth of the memory of its display
/// list.
pub struct Packed {
    /// Its width and height.
    pub size: (f32, f32),
    /// The compressed content stream.
    pub content: Vec<u8>,
    /// Its links, as annotations.
    pub links: Vec<Dictionary>,
}

/// Writes and compresses pages, one after another with the same buffers.
pub struct Packer {
    content: Vec<u8>,
    deflate: Compress,
}

impl Default for Packer {
    /// Level 5 makes pages 0.2 % larger than level 6, in five sixths of the time.
    fn default() -> Self {
        Self { content: Vec::new(), deflate: Compress::new(Compression::new(5), true) }
    }
}

impl Packer {
    /// Writes and compresses a page. `codes` gives the code of each character.
    fn pack(&mut self, page: &Page, codes: &GlyphCodes) -> Result<Packed, SheetError> {
        self.content.clear();
        write(page, codes, &mut self.content);
        let content = self.deflated()?;
        Ok(Packed { size: (page.width, page.height), content, links: links(page) })
    }

    /// Compresses bytes.
    pub fn deflate(&mut self, bytes: &[u8]) -> Result<Vec<u8>, SheetError> {
        self.content.clear();
        self.content.extend_from_slice(bytes);
        self.deflated()
    }

    fn deflated(&mut self) -> Result<Vec<u8>, SheetError> {
        self.deflate.reset();
        let mut packed = Vec::with_capacity(self.content.len() / 2 + 64);
        loop {
            let done = usize::try_from(self.deflate.total_in()).unwrap_or(usize::MAX);
            let rest = self.content.get(done..).unwrap_or_default();
            let status = self.deflate.compress_vec(rest, &mut packed, FlushCompress::Finish);
            match status.map_err(|error| SheetError::Pdf(error.to_string()))? {
                Status::StreamEnd => break,
                Status::Ok | Status::BufError => packed.reserve(self.content.len() / 4 + 64),
            }
        }
        packed.shrink_to_fit();
        Ok(packed)
    }
}

/// Packers that are not in use. Creating one is expensive, because its 300 kB have to be cleared.
#[derive(Default)]
pub struct Packers(Mutex<Vec<Packer>>);

impl Packers {
    /// Takes a packer, which is returned on drop.
    pub fn one(&self) -> Lent<'_> {
        Lent { packer: self.idle().pop(), of: self }
    }

    /// They are valid even if a thread panicked.
    fn idle(&self) -> MutexGuard<'_, Vec<Packer>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A packer in use.
pub struct Lent<'a> {
    packer: Option<Packer>,
    of: &'a Packers,
}

impl Lent<'_> {
    /// Writes a page ([`Packer::pack`]).
    pub fn pack(&mut self, page: &Page, codes: &GlyphCodes) -> Result<Packed, SheetError> {
        self.packer.get_or_insert_default().pack(page, codes)
    }
}

impl Drop for Lent<'_> {
    fn drop(&mut self) {
        self.of.idle().extend(self.packer.take());
    }
}

/// Converts points to tenths of a point (0.035 mm): finer than a printer's dots, and short numbers
/// in the file.
#[allow(clippy::cast_possible_truncation, reason = "a cast of a float saturates")]
fn tenths(value: f32) -> i32 {
    (value * 10.0).round() as i32
}

/// The link annotations of a page (ISO 32000-1, 12.5.6.5).
fn links(page: &Page) -> Vec<Dictionary> {
    let links = page.items.iter().filter_map(|item| match item {
        Shape::Link { rect, to } => Some((rect, to)),
        _ => None,
    });
    links
        .map(|(rect, to)| {
            let corners = [rect.x, page.height - rect.bottom(), rect.right(), page.height - rect.y];
            let corners = corners.map(|at| Object::Real((at * 10.0).round() / 10.0));
            let mut action = Dictionary::new();
            action.set("S", name("URI"));
            action.set("URI", text(to));
            let mut link = Dictionary::new();
            link.set("Type", name("Annot"));
            link.set("Subtype", name("Link"));
            link.set("Rect", Object::Array(corners.to_vec()));
            link.set("Border", Object::Array(vec![Object::Integer(0); 3]));
            // Text for screen readers.
            link.set("Contents", text(to));
            link.set("A", Object::Dictionary(action));
            link
        })
        .collect()
}

/// Rounds to hundredths, for sizes and weights.
fn fine(value: f32) -> f32 {
    let rounded = (value * 100.0).round() / 100.0;
    if rounded.is_finite() { rounded } else { 0.0 }
}

/// The current graphics state, so that nothing is set twice.
#[derive(Default)]
struct GraphicsState {
    font: Option<(Face, f32)>,
    fill: Option<Ink>,
    stroke: Option<Ink>,
    weight: Option<f32>,
}

struct ContentWriter<'a> {
    height: f32,
    codes: &'a GlyphCodes,
    state: GraphicsState,
    /// Start of the last run of an open text object. Consecutive runs share one object.
    text: Option<(i32, i32)>,
    out: &'a mut Vec<u8>,
}

/// Writes the page's operators, one on each line, operands first (ISO 32000-1, 7.8.2).
fn write(page: &Page, codes: &GlyphCodes, out: &mut Vec<u8>) {
    let state = GraphicsState::default();
    let mut writer = ContentWriter { height: page.height, codes, state, text: None, out };
    page.items.iter().for_each(|item| writer.item(item));
    writer.end_text();
    if out.last() == Some(&b'\n') {
        out.pop();
    }
}

impl ContentWriter<'_> {
    fn item(&mut self, item: &Shape) {
        if let Shape::Text { x, y, style, text, .. } = item {
            self.show((*x, *y), *style, text);
            return;
        }
        if !matches!(item, Shape::Link { .. }) {
            self.end_text();
        }
        match item {
            Shape::Text { .. } | Shape::Link { .. } => {}
            // Screen readers should see a no-break space as a space.
            Shape::Tells(words) if words.contains(['\u{a0}', '\u{202f}']) => {
                self.span("ActualText", &words.replace(['\u{a0}', '\u{202f}'], " "));
            }
            Shape::Tells(words) => self.span("ActualText", words),
            Shape::Speaks(language) => self.span("Lang", language),
            Shape::Told => self.operator("EMC"),
            Shape::Line { from, to, weight, ink } => self.line(*from, *to, *weight, *ink),
            Shape::Rectangle { rect, stroke, fill, .. } => {
                if let Some(ink) = fill {
                    self.fill(*ink);
                }
                if let Some((weight, ink)) = stroke {
                    self.stroke(*weight, *ink);
                }
                match (fill, stroke) {
                    (Some(_), Some(_)) => self.rectangle(rect, "B"),
                    (Some(_), None) => self.rectangle(rect, "f"),
                    (None, Some(_)) => self.rectangle(rect, "S"),
                    (None, None) => {}
                }
            }
            Shape::Disc { centre, radius, ink } => self.disc(*centre, *radius, *ink),
            Shape::Mosaic { rects, ink } => self.mosaic(rects, *ink),
            Shape::Missing { rect, .. } => {
                self.stroke(0.6, Ink::Black);
                self.rectangle(rect, "S");
                let (right, bottom) = (rect.right(), rect.bottom());
                self.line((rect.x, rect.y), (right, bottom), 0.6, Ink::Black);
                self.line((rect.x, bottom), (right, rect.y), 0.6, Ink::Black);
            }
        }
    }

    fn operator(&mut self, operator: &str) {
        self.out.extend_from_slice(operator.as_bytes());
        self.out.push(b'\n');
    }

    /// Writes a number of tenths as an operand, cut to a range larger than any paper.
    fn number(&mut self, tenths: i32) {
        let tenths = i16::try_from(tenths).unwrap_or(i16::MAX);
        if tenths < 0 {
            self.out.push(b'-');
        }
        let (whole, part) = (tenths.unsigned_abs() / 10, tenths.unsigned_abs() % 10);
        let mut digits = [0; 4];
        let mut first = digits.len();
        let mut rest = whole;
        for (at, digit) in digits.iter_mut().enumerate().rev() {
            *digit = b'0' + u8::try_from(rest % 10).unwrap_or(0);
            first = at;
            rest /= 10;
            if rest == 0 {
                break;
            }
        }
        self.out.extend_from_slice(digits.get(first..).unwrap_or_default());
        if part != 0 {
            self.out.extend_from_slice(&[b'.', b'0' + u8::try_from(part).unwrap_or(0)]);
        }
        self.out.push(b' ');
    }

    /// Writes any number as the shortest operand that reads back the same; nearly all have two
    /// decimals.
    #[allow(clippy::cast_possible_truncation, reason = "a cast of a float saturates")]
    fn real(&mut self, value: f32) {
        let hundredths = (value * 100.0).round() as i16;
        let same = (f32::from(hundredths) / 100.0).to_bits() == value.to_bits();
        if !same || !(0..10_000).contains(&hundredths) {
            // Writing into memory cannot fail.
            let _ = write!(self.out, "{value} ");
            return;
        }
        let digit = |power: i16| b'0' + u8::try_from(hundredths / power % 10).unwrap_or(0);
        if hundredths >= 1_000 {
            self.out.push(digit(1_000));
        }
        self.out.push(digit(100));
        match (digit(10), digit(1)) {
            (b'0', b'0') => {}
            (tenths, b'0') => self.out.extend_from_slice(&[b'.', tenths]),
            (tenths, hundredths) => self.out.extend_from_slice(&[b'.', tenths, hundredths]),
        }
        self.out.push(b' ');
    }

    /// Shows a run of text. Within a text object, positions are relative to the run before.
    fn show(&mut self, (x, y): (f32, f32), style: Style, text: &str) {
        self.fill(style.ink);
        if self.text.is_none() {
            self.operator("BT");
        }
        if self.state.font != Some((style.face, style.size)) {
            self.state.font = Some((style.face, style.size));
            self.out.push(b'/');
            self.out.extend_from_slice(tag(style.face).as_bytes());
            self.out.push(b' ');
            self.real(fine(style.size));
            self.operator("Tf");
        }
        let (x, y) = (tenths(x), tenths(self.height - y));
        let (from_x, from_y) = self.text.replace((x, y)).unwrap_or_default();
        self.number(x.saturating_sub(from_x));
        self.number(y.saturating_sub(from_y));
        self.operator("Td");
        // Two bytes for each glyph compress much better than four hexadecimal digits.
        self.out.push(b'(');
        let from = self.out.len();
        for character in text.chars() {
            let code = self.codes.get(style.face, character);
            self.out.extend(code.into_iter().flat_map(u16::to_be_bytes));
        }
        literal(self.out, from);
        self.operator(") Tj");
    }

    fn end_text(&mut self) {
        if self.text.take().is_some() {
            self.operator("ET");
        }
    }

    fn point(&mut self, x: f32, y: f32) {
        self.number(tenths(x));
        self.number(tenths(self.height - y));
    }

    fn colour(&mut self, ink: Ink, [grey, rgb]: [&str; 2]) {
        if ink.is_colour() {
            ink.rgb().into_iter().for_each(|part| self.real(part));
            return self.operator(rgb);
        }
        self.real(ink.level());
        self.operator(grey);
    }

    fn fill(&mut self, ink: Ink) {
        if self.state.fill != Some(ink) {
            self.state.fill = Some(ink);
            self.colour(ink, ["g", "rg"]);
        }
    }

    fn stroke(&mut self, weight: f32, ink: Ink) {
        if self.state.stroke != Some(ink) {
            self.state.stroke = Some(ink);
            self.colour(ink, ["G", "RG"]);
        }
        if self.state.weight != Some(weight) {
            self.state.weight = Some(weight);
            self.real(fine(weight));
            self.operator("w");
        }
    }

    fn line(&mut self, from: (f32, f32), to: (f32, f32), weight: f32, ink: Ink) {
        self.stroke(weight, ink);
        self.point(from.0, from.1);
        self.operator("m");
        self.point(to.0, to.1);
        self.operator("l");
        self.operator("S");
    }

    /// Draws a circle as four arcs. With these control points, each arc is accurate to 0.03 %.
    fn disc(&mut self, (x, y): (f32, f32), radius: f32, ink: Ink) {
        self.fill(ink);
        let handle = radius * 0.552_285;
        let corners = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)];
        self.point(x + radius, y);
        self.operator("m");
        for ((from, to), _) in corners.iter().zip(corners.iter().cycle().skip(1)).zip(0..4) {
            let mut at = |(ax, ay): &(f32, f32), (bx, by): &(f32, f32), along: f32| {
                self.point(x + ax * radius + bx * along, y + ay * radius + by * along);
            };
            at(from, to, handle);
            at(to, from, handle);
            at(to, from, 0.0);
            self.operator("c");
        }
        self.operator("h");
        self.operator("f");
    }

    /// Writes left, bottom, width and height. Edges are rounded instead of sizes, so that aligned
    /// edges stay aligned.
    fn frame(&mut self, rect: &Rect) {
        let (left, right) = (tenths(rect.x), tenths(rect.right()));
        let (top, bottom) = (tenths(self.height - rect.y), tenths(self.height - rect.bottom()));
        let (w, h) = (right.saturating_sub(left), top.saturating_sub(bottom));
        for side in [left, bottom, w, h] {
            self.number(side);
        }
        self.operator("re");
    }

    /// Writes many rectangles as one path.
    fn mosaic(&mut self, rects: &[Rect], ink: Ink) {
        self.fill(ink);
        for rect in rects {
            self.frame(rect);
        }
        self.operator("f");
    }

    fn rectangle(&mut self, rect: &Rect, paint: &str) {
        self.frame(rect);
        self.operator(paint);
    }

    /// Starts a marked-content span with a property: replacement text (`ActualText`, ISO 32000-1,
    /// 14.9.4) or language (`Lang`, 14.9.2).
    fn span(&mut self, property: &str, value: &str) {
        self.out.extend_from_slice(b"/Span <</");
        self.out.extend_from_slice(property.as_bytes());
        self.out.push(b'(');
        let from = self.out.len();
        text_bytes(value, self.out);
        literal(self.out, from);
        self.operator(")>> BDC");
    }
}
