//! A page's display list as the operators of its content stream, packed.

use std::collections::BTreeMap;
use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Object, Stream};
use printpdf::{
    Color, DictItem, Greyscale, Line, LinePoint, Op, PaintMode, PdfDocument, PdfFontHandle,
    PdfPage, PdfSaveOptions, Point, Polygon, PolygonRing, Pt, Rgb, WindingOrder,
};

use super::super::SheetError;
use super::super::layout::{Face, Ink, Item, Page, Rect, Style};
use super::fonts::{Codes, font_id};
use super::objects::{fault, name, text};

/// A page whose content is written and packed: a tenth of the memory of what it was made of.
pub struct Packed {
    /// The page's dictionary: its boxes, without its content.
    pub page: Dictionary,
    /// What it shows.
    pub content: Stream,
    /// Its links, as annotations.
    pub links: Vec<Dictionary>,
}

/// Writes pages. What is shown for each character stands in `codes`.
pub fn pack(pages: &[Page], codes: &Codes) -> Result<Vec<Packed>, SheetError> {
    let mut pdf = PdfDocument::new("");
    pdf.pages = pages.iter().map(|it| page(it, codes)).collect();
    let mut document = pdf.to_lopdf_document(&options(), &mut Vec::new());
    drop(pdf);
    let ids: Vec<_> = document.get_pages().into_values().collect();
    let mut packed = Vec::with_capacity(pages.len());
    for (id, of) in ids.into_iter().zip(pages) {
        let object = document.objects.remove(&id);
        let Some(Object::Dictionary(mut page)) = object else { continue };
        let content = page.get(b"Contents").and_then(Object::as_reference).map_err(fault)?;
        let content = document.objects.remove(&content);
        let Some(Object::Stream(content)) = content else { continue };
        for key in [b"Contents".as_slice(), b"Parent", b"Resources", b"Annots"] {
            page.remove(key);
        }
        packed.push(Packed { page, content: deflate(&content.content)?, links: links(of) });
    }
    Ok(packed)
}

/// `secure` leaves out operators that printpdf does not know: our own for text.
pub fn options() -> PdfSaveOptions {
    PdfSaveOptions { image_optimization: None, secure: false, ..PdfSaveOptions::default() }
}

/// Level 6: a tenth above the least size that level 9 takes twice the time for.
fn deflate(bytes: &[u8]) -> Result<Stream, SheetError> {
    let mut encoder = ZlibEncoder::new(Vec::with_capacity(bytes.len() / 4), Compression::new(6));
    let packed = encoder.write_all(bytes).and_then(|()| encoder.finish());
    let mut packed = packed.map_err(|e| SheetError::Pdf(e.to_string()))?;
    packed.shrink_to_fit();
    let mut dictionary = Dictionary::new();
    dictionary.set("Filter", name("FlateDecode"));
    Ok(Stream::new(dictionary, packed).with_compression(false))
}

/// Tenths of a point, 0.035 mm: finer than a printer's dot, and short numbers in the file.
#[allow(clippy::cast_possible_truncation, reason = "a cast of a float saturates")]
fn tenths(value: f32) -> i32 {
    (value * 10.0).round() as i32
}

fn pt(tenths: i32) -> Pt {
    Pt(f32::from(i16::try_from(tenths).unwrap_or(i16::MAX)) / 10.0)
}

/// The places of links, which open them (ISO 32000-1, 12.5.6.5).
fn links(page: &Page) -> Vec<Dictionary> {
    let links = page.items.iter().filter_map(|item| match item {
        Item::Link { rect, to } => Some((rect, to)),
        _ => None,
    });
    links
        .map(|(rect, to)| {
            let corners = [rect.x, page.height - rect.bottom(), rect.right(), page.height - rect.y];
            let corners = corners.map(|at| Object::Real(pt(tenths(at)).0));
            let mut action = Dictionary::new();
            action.set("S", name("URI"));
            action.set("URI", text(to));
            let mut link = Dictionary::new();
            link.set("Type", name("Annot"));
            link.set("Subtype", name("Link"));
            link.set("Rect", Object::Array(corners.to_vec()));
            link.set("Border", Object::Array(vec![Object::Integer(0); 3]));
            // What a screen reader says.
            link.set("Contents", text(to));
            link.set("A", Object::Dictionary(action));
            link
        })
        .collect()
}

/// Hundredths, for sizes and weights.
fn fine(value: f32) -> Pt {
    let rounded = (value * 100.0).round() / 100.0;
    Pt(if rounded.is_finite() { rounded } else { 0.0 })
}

fn colour(ink: Ink) -> Color {
    if ink.is_colour() {
        let [red, green, blue] = ink.rgb();
        return Color::Rgb(Rgb::new(red, green, blue, None));
    }
    Color::Greyscale(Greyscale::new(ink.level(), None))
}

/// What the page's graphics state holds, so that nothing is set twice.
#[derive(Default)]
struct State {
    font: Option<(Face, f32)>,
    fill: Option<Ink>,
    stroke: Option<Ink>,
    weight: Option<f32>,
}

struct Writer<'a> {
    height: f32,
    codes: &'a Codes,
    state: State,
    /// Where the last run of an open text object began: runs that follow each other share one.
    text: Option<(i32, i32)>,
    ops: Vec<Op>,
}

fn page(page: &Page, codes: &Codes) -> PdfPage {
    let state = State::default();
    let mut writer = Writer { height: page.height, codes, state, text: None, ops: Vec::new() };
    page.items.iter().for_each(|item| writer.item(item));
    writer.end_text();
    let (width, height) = (Pt(page.width), Pt(page.height));
    let mut out = PdfPage::new(width.into(), height.into(), writer.ops);
    // Through millimetres and back the size would be off by a hair.
    let frame = printpdf::Rect::from_wh(width, height);
    out.media_box = frame.clone();
    out.trim_box = frame.clone();
    out.crop_box = frame;
    out
}

impl Writer<'_> {
    fn item(&mut self, item: &Item) {
        if let Item::Text { x, y, style, text, .. } = item {
            self.show((*x, *y), *style, text);
            return;
        }
        if !matches!(item, Item::Link { .. }) {
            self.end_text();
        }
        match item {
            Item::Text { .. } | Item::Link { .. } => {}
            // A space that no line breaks at is a space to a reader.
            Item::Tells(words) => {
                self.ops.push(span("ActualText", &words.replace('\u{a0}', " ")));
            }
            Item::Speaks(language) => self.ops.push(span("Lang", language)),
            Item::Told => self.ops.push(Op::EndMarkedContentWithProperties),
            Item::Line { from, to, weight, ink } => self.line(*from, *to, *weight, *ink),
            Item::Shape { rect, stroke, fill, .. } => {
                if let Some(ink) = fill {
                    self.fill(*ink);
                }
                if let Some((weight, ink)) = stroke {
                    self.stroke(*weight, *ink);
                }
                match (fill, stroke) {
                    (Some(_), Some(_)) => self.rectangle(rect, PaintMode::FillStroke),
                    (Some(_), None) => self.rectangle(rect, PaintMode::Fill),
                    (None, Some(_)) => self.rectangle(rect, PaintMode::Stroke),
                    (None, None) => {}
                }
            }
            Item::Disc { centre, radius, ink } => self.disc(*centre, *radius, *ink),
            Item::Mosaic { rects, ink } => self.mosaic(rects, *ink),
            Item::Missing { rect, .. } => {
                self.stroke(0.6, Ink::Black);
                self.rectangle(rect, PaintMode::Stroke);
                let (right, bottom) = (rect.right(), rect.bottom());
                self.line((rect.x, rect.y), (right, bottom), 0.6, Ink::Black);
                self.line((rect.x, bottom), (right, rect.y), 0.6, Ink::Black);
            }
        }
    }

    /// Shows a run of text. Within a text object, places are told from the run before.
    fn show(&mut self, (x, y): (f32, f32), style: Style, text: &str) {
        let mut codes = Vec::with_capacity(text.len() * 2);
        for character in text.chars() {
            let code = self.codes.get(style.face, character);
            codes.extend(code.into_iter().flat_map(u16::to_be_bytes));
        }
        self.fill(style.ink);
        if self.text.is_none() {
            self.ops.push(Op::StartTextSection);
        }
        if self.state.font != Some((style.face, style.size)) {
            self.state.font = Some((style.face, style.size));
            let font = PdfFontHandle::External(font_id(style.face));
            self.ops.push(Op::SetFont { font, size: fine(style.size) });
        }
        let (x, y) = (tenths(x), tenths(self.height - y));
        let (from_x, from_y) = self.text.replace((x, y)).unwrap_or_default();
        let pos = Point { x: pt(x.saturating_sub(from_x)), y: pt(y.saturating_sub(from_y)) };
        self.ops.push(Op::SetTextCursor { pos });
        // printpdf writes four digits a glyph; its bytes, half as long, pack much better.
        let value = vec![DictItem::String { data: codes, literal: true }];
        self.ops.push(Op::Unknown { key: "Tj".to_owned(), value });
    }

    fn end_text(&mut self) {
        if self.text.take().is_some() {
            self.ops.push(Op::EndTextSection);
        }
    }

    fn point(&self, x: f32, y: f32) -> Point {
        Point { x: pt(tenths(x)), y: pt(tenths(self.height - y)) }
    }

    fn fill(&mut self, ink: Ink) {
        if self.state.fill != Some(ink) {
            self.state.fill = Some(ink);
            self.ops.push(Op::SetFillColor { col: colour(ink) });
        }
    }

    fn stroke(&mut self, weight: f32, ink: Ink) {
        if self.state.stroke != Some(ink) {
            self.state.stroke = Some(ink);
            self.ops.push(Op::SetOutlineColor { col: colour(ink) });
        }
        if self.state.weight != Some(weight) {
            self.state.weight = Some(weight);
            self.ops.push(Op::SetOutlineThickness { pt: fine(weight) });
        }
    }

    fn line(&mut self, from: (f32, f32), to: (f32, f32), weight: f32, ink: Ink) {
        self.stroke(weight, ink);
        let end = |(x, y)| LinePoint { p: self.point(x, y), bezier: false };
        let line = Line { points: vec![end(from), end(to)], is_closed: false };
        self.ops.push(Op::DrawLine { line });
    }

    /// A circle as four arcs; the handles are as long as makes each a quarter within 0.03 %.
    fn disc(&mut self, (x, y): (f32, f32), radius: f32, ink: Ink) {
        self.fill(ink);
        let handle = radius * 0.552_285;
        let corners = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)];
        let mut points = vec![LinePoint { p: self.point(x + radius, y), bezier: false }];
        for ((from, to), _) in corners.iter().zip(corners.iter().cycle().skip(1)).zip(0..4) {
            let at = |(ax, ay): &(f32, f32), (bx, by): &(f32, f32), along: f32| {
                self.point(x + ax * radius + bx * along, y + ay * radius + by * along)
            };
            points.push(LinePoint { p: at(from, to, handle), bezier: true });
            points.push(LinePoint { p: at(to, from, handle), bezier: true });
            points.push(LinePoint { p: at(to, from, 0.0), bezier: false });
        }
        let polygon = Polygon {
            rings: vec![PolygonRing { points }],
            mode: PaintMode::Fill,
            winding_order: WindingOrder::NonZero,
        };
        self.ops.push(Op::DrawPolygon { polygon });
    }

    /// Left, bottom, width, height. Edges are rounded, not sizes, so that what ends in one line
    /// still does.
    fn frame(&self, rect: &Rect) -> [Pt; 4] {
        let (left, right) = (tenths(rect.x), tenths(rect.right()));
        let (top, bottom) = (tenths(self.height - rect.y), tenths(self.height - rect.bottom()));
        [pt(left), pt(bottom), pt(right.saturating_sub(left)), pt(top.saturating_sub(bottom))]
    }

    /// One path of many rectangles.
    fn mosaic(&mut self, rects: &[Rect], ink: Ink) {
        self.fill(ink);
        for rect in rects {
            let value = self.frame(rect).map(|side| DictItem::Real(side.0)).to_vec();
            self.ops.push(Op::Unknown { key: "re".to_owned(), value });
        }
        self.ops.push(Op::Unknown { key: "f".to_owned(), value: Vec::new() });
    }

    fn rectangle(&mut self, rect: &Rect, mode: PaintMode) {
        let [left, bottom, w, h] = self.frame(rect);
        let mut rectangle = printpdf::Rect::from_xywh(left, bottom, w, h);
        rectangle.mode = Some(mode);
        self.ops.push(Op::DrawRectangle { rectangle });
    }
}

/// Begins a span with a property: what it reads as (`ActualText`, ISO 32000-1, 14.9.4), or the
/// language it is in (`Lang`, 14.9.2).
fn span(property: &str, value: &str) -> Op {
    let map = BTreeMap::from([(property.to_owned(), DictItem::from_lopdf(&text(value)))]);
    let properties = DictItem::Dict { map };
    Op::BeginMarkedContentWithProperties { tag: "Span".to_owned(), properties }
}
