//! From a display list to the bytes of a PDF: the only file that knows printpdf and lopdf.
//!
//! printpdf takes finished pages; what it cannot say (nested bookmarks, the language, a stable
//! `/ID`) is set right on its lopdf document before that is compressed and written.

use std::collections::{BTreeMap, BTreeSet};

use jiff::tz::Offset;
use lopdf::{Dictionary, Document, Object, ObjectId, StringFormat};
use printpdf::{
    Color, DictItem, FontId, FontMetrics, Greyscale, Line, LinePoint, Op, PaintMode, ParsedFont,
    PdfDocument, PdfFontHandle, PdfPage, PdfSaveOptions, Point, Polygon, PolygonRing, Pt, TextItem,
    WindingOrder,
};
use subsetter::GlyphRemapper;

use super::SheetError;
use super::layout::{Face, Ink, Item, Page, Rect};

/// What a document says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Description {
    /// Its title.
    pub title: String,
    /// The BCP 47 language of its text.
    pub language: String,
    /// When it was made, in seconds since 1970; left out when nobody says.
    pub created: Option<i64>,
    /// Its bookmarks.
    pub bookmarks: Vec<Bookmark>,
}

/// A bookmark and those below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bookmark {
    /// Its text.
    pub text: String,
    /// The page it leads to, counted from zero.
    pub page: usize,
    /// The bookmarks below it.
    pub below: Vec<Bookmark>,
}

/// Writes pages as a PDF. The same pages give the same bytes.
pub fn write(pages: &[Page], description: &Description) -> Result<Vec<u8>, SheetError> {
    write_in(pages, &[], description)
}

/// Writes pages, each in a language of its own (those of a shorter list: in the document's).
pub fn write_in(
    pages: &[Page],
    languages: &[&str],
    description: &Description,
) -> Result<Vec<u8>, SheetError> {
    let mut pdf = PdfDocument::new(&description.title);
    for face in Face::ALL {
        if let Some(font) = subset(face, pages)? {
            let font = printpdf::PdfFont::new(font);
            pdf.resources.fonts.map.insert(font_id(face), font);
        }
    }
    let languages = languages.iter().copied().map(Some).chain(std::iter::repeat(None));
    let foreign = |language: &&str| **language != *description.language;
    pdf.pages = pages.iter().zip(languages).map(|(p, own)| page(p, own.filter(foreign))).collect();
    let options = PdfSaveOptions { image_optimization: None, ..PdfSaveOptions::default() };
    let mut document = pdf.to_lopdf_document(&options, &mut Vec::new());
    drop(pdf);
    set_right(&mut document, description)?;
    document.compress();
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).map_err(|e| SheetError::Pdf(e.to_string()))?;
    stamp(&mut bytes);
    Ok(bytes)
}

/// Font ids are the subset tags too, for which PDF wants six capitals (ISO 32000-1, 9.6.4).
fn font_id(face: Face) -> FontId {
    FontId(tag(face).to_owned())
}

fn tag(face: Face) -> &'static str {
    match face {
        Face::Regular => "SETREG",
        Face::SemiBold => "SETSEM",
    }
}

fn post_script_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "IBMPlexSans",
        Face::SemiBold => "IBMPlexSans-SemiBold",
    }
}

/// The part of a face that the pages use; `None` when they use none of it.
fn subset(face: Face, pages: &[Page]) -> Result<Option<ParsedFont>, SheetError> {
    let table = face.table();
    let used: BTreeSet<char> = pages
        .iter()
        .flat_map(|page| &page.items)
        .filter_map(|item| match item {
            Item::Text { style, text, .. } if style.face == face => Some(text.chars()),
            _ => None,
        })
        .flatten()
        .collect();
    if used.is_empty() {
        return Ok(None);
    }
    let mut remapper = GlyphRemapper::new();
    let mut glyph_of = BTreeMap::new();
    let mut widths = BTreeMap::new();
    for character in used {
        if let Some(glyph) = table.glyph(character) {
            let id = remapper.remap(glyph.id);
            glyph_of.insert(u32::from(character), id);
            widths.insert(id, glyph.advance);
        }
    }
    let bytes = subsetter::subset(face.data(), 0, &remapper)
        .map_err(|e| SheetError::Font(format!("{face:?}: {e}")))?;
    let mut font = ParsedFont::with_glyph_data(
        bytes,
        0,
        Some(format!("{}+{}", tag(face), post_script_name(face))),
        glyph_of,
        widths,
        table.units_per_em,
        FontMetrics { ascent: table.ascender, descent: table.descender },
    );
    let [left, bottom, right, top] = table.bounds;
    font.pdf_font_metrics.x_min = left;
    font.pdf_font_metrics.y_min = bottom;
    font.pdf_font_metrics.x_max = right;
    font.pdf_font_metrics.y_max = top;
    font.pdf_font_metrics.us_weight_class = table.weight;
    Ok(Some(font))
}

/// Hundredths of a point: finer than any printer, and short numbers in the file.
fn pt(value: f32) -> Pt {
    let rounded = (value * 100.0).round() / 100.0;
    Pt(if rounded.is_finite() { rounded } else { 0.0 })
}

fn grey(ink: Ink) -> Color {
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

struct Writer {
    height: f32,
    state: State,
    ops: Vec<Op>,
}

fn page(page: &Page, language: Option<&str>) -> PdfPage {
    let mut writer = Writer { height: page.height, state: State::default(), ops: Vec::new() };
    writer.ops.extend(language.map(|language| span("Lang", language)));
    page.items.iter().for_each(|item| writer.item(item));
    writer.ops.extend(language.map(|_| Op::EndMarkedContentWithProperties));
    let (width, height) = (Pt(page.width), Pt(page.height));
    let mut out = PdfPage::new(width.into(), height.into(), writer.ops);
    // Through millimetres and back the size would be off by a hair.
    let frame = printpdf::Rect::from_wh(width, height);
    out.media_box = frame.clone();
    out.trim_box = frame.clone();
    out.crop_box = frame;
    out
}

impl Writer {
    fn item(&mut self, item: &Item) {
        match item {
            Item::Text { x, y, style, text, .. } => {
                self.fill(style.ink);
                self.ops.push(Op::StartTextSection);
                if self.state.font != Some((style.face, style.size)) {
                    self.state.font = Some((style.face, style.size));
                    let font = PdfFontHandle::External(font_id(style.face));
                    self.ops.push(Op::SetFont { font, size: pt(style.size) });
                }
                let pos = self.point(*x, *y);
                self.ops.push(Op::SetTextCursor { pos });
                self.ops.push(Op::ShowText { items: vec![TextItem::Text(text.clone())] });
                self.ops.push(Op::EndTextSection);
            }
            Item::Tells(words) => self.ops.push(span("ActualText", words)),
            Item::Told => self.ops.push(Op::EndMarkedContentWithProperties),
            Item::Line { from, to, weight, ink } => self.line(*from, *to, *weight, *ink),
            Item::Shape { rect, stroke, fill, .. } => {
                if let Some(ink) = fill {
                    self.fill(*ink);
                    self.rectangle(rect, PaintMode::Fill);
                }
                if let Some((weight, ink)) = stroke {
                    self.stroke(*weight, *ink);
                    self.rectangle(rect, PaintMode::Stroke);
                }
            }
            Item::Disc { centre, radius, ink } => self.disc(*centre, *radius, *ink),
            Item::Missing { rect, .. } => {
                self.stroke(0.6, Ink::Black);
                self.rectangle(rect, PaintMode::Stroke);
                let (right, bottom) = (rect.right(), rect.bottom());
                self.line((rect.x, rect.y), (right, bottom), 0.6, Ink::Black);
                self.line((rect.x, bottom), (right, rect.y), 0.6, Ink::Black);
            }
        }
    }

    fn point(&self, x: f32, y: f32) -> Point {
        Point { x: pt(x), y: pt(self.height - y) }
    }

    fn fill(&mut self, ink: Ink) {
        if self.state.fill != Some(ink) {
            self.state.fill = Some(ink);
            self.ops.push(Op::SetFillColor { col: grey(ink) });
        }
    }

    fn stroke(&mut self, weight: f32, ink: Ink) {
        if self.state.stroke != Some(ink) {
            self.state.stroke = Some(ink);
            self.ops.push(Op::SetOutlineColor { col: grey(ink) });
        }
        if self.state.weight != Some(weight) {
            self.state.weight = Some(weight);
            self.ops.push(Op::SetOutlineThickness { pt: pt(weight) });
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

    fn rectangle(&mut self, rect: &Rect, mode: PaintMode) {
        let corner = self.point(rect.x, rect.bottom());
        let mut rectangle = printpdf::Rect::from_xywh(corner.x, corner.y, pt(rect.w), pt(rect.h));
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

/// Sets what printpdf leaves out or gets wrong.
fn set_right(document: &mut Document, about: &Description) -> Result<(), SheetError> {
    let fault = |e: lopdf::Error| SheetError::Pdf(e.to_string());
    // Version 1.3 would not know of `/Lang` (1.4) and `DisplayDocTitle` (1.4).
    "1.7".clone_into(&mut document.version);
    let outline = outline(document, &about.bookmarks)?;
    let catalog = document.catalog_mut().map_err(fault)?;
    catalog.set("Lang", text(&about.language));
    catalog.set("PageLayout", name("SinglePage"));
    let mut viewer = Dictionary::new();
    viewer.set("DisplayDocTitle", Object::Boolean(true));
    catalog.set("ViewerPreferences", Object::Dictionary(viewer));
    match outline {
        Some(outline) => {
            catalog.set("Outlines", Object::Reference(outline));
            catalog.set("PageMode", name("UseOutlines"));
        }
        None => catalog.set("PageMode", name("UseNone")),
    }

    let mut info = Dictionary::new();
    info.set("Title", text(&about.title));
    info.set("Producer", text(concat!("Setwright ", env!("CARGO_PKG_VERSION"))));
    if let Some(created) = about.created.and_then(date) {
        info.set("CreationDate", created.clone());
        info.set("ModDate", created);
    }
    let info = document.add_object(info);
    let old = document.trailer.get(b"Info").and_then(Object::as_reference);
    document.trailer.set("Info", Object::Reference(info));
    if let Ok(old) = old {
        document.objects.remove(&old);
    }
    let id = || Object::String(PLACEHOLDER.to_vec(), StringFormat::Hexadecimal);
    document.trailer.set("ID", Object::Array(vec![id(), id()]));
    Ok(())
}

fn name(text: &str) -> Object {
    Object::Name(text.as_bytes().to_vec())
}

/// A text string: UTF-16 unless ASCII is enough.
fn text(text: &str) -> Object {
    if text.is_ascii() {
        return Object::String(text.as_bytes().to_vec(), StringFormat::Literal);
    }
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(bytes, StringFormat::Hexadecimal)
}

/// `None` for a second that no calendar has.
fn date(seconds: i64) -> Option<Object> {
    let time = Offset::UTC.to_datetime(jiff::Timestamp::from_second(seconds).ok()?);
    Some(text(&format!(
        "D:{:04}{:02}{:02}{:02}{:02}{:02}Z",
        time.year(),
        time.month(),
        time.day(),
        time.hour(),
        time.minute(),
        time.second()
    )))
}

/// Builds the tree of bookmarks; `None` when there are none.
fn outline(
    document: &mut Document,
    bookmarks: &[Bookmark],
) -> Result<Option<ObjectId>, SheetError> {
    let pages: Vec<ObjectId> = document.get_pages().into_values().collect();
    let root = document.new_object_id();
    let Some((first, last)) = branch(document, bookmarks, root, &pages)? else {
        return Ok(None);
    };
    let mut dictionary = Dictionary::new();
    dictionary.set("Type", name("Outlines"));
    dictionary.set("First", Object::Reference(first));
    dictionary.set("Last", Object::Reference(last));
    // Athletes are open, their sessions visible: all of them count.
    dictionary.set("Count", Object::Integer(visible(bookmarks)));
    document.set_object(root, dictionary);
    Ok(Some(root))
}

fn visible(bookmarks: &[Bookmark]) -> i64 {
    bookmarks.iter().map(|bookmark| 1 + visible(&bookmark.below)).sum()
}

/// Adds the bookmarks below `parent`; gives the first and the last.
fn branch(
    document: &mut Document,
    bookmarks: &[Bookmark],
    parent: ObjectId,
    pages: &[ObjectId],
) -> Result<Option<(ObjectId, ObjectId)>, SheetError> {
    let ids: Vec<ObjectId> = bookmarks.iter().map(|_| document.new_object_id()).collect();
    for (at, (bookmark, id)) in bookmarks.iter().zip(&ids).enumerate() {
        let page = pages
            .get(bookmark.page)
            .ok_or_else(|| SheetError::Pdf(format!("no page {}", bookmark.page + 1)))?;
        let mut entry = Dictionary::new();
        entry.set("Title", text(&bookmark.text));
        entry.set("Parent", Object::Reference(parent));
        entry.set("Dest", Object::Array(vec![Object::Reference(*page), name("Fit")]));
        let before = at.checked_sub(1).and_then(|before| ids.get(before));
        if let Some(before) = before {
            entry.set("Prev", Object::Reference(*before));
        }
        if let Some(next) = ids.get(at + 1) {
            entry.set("Next", Object::Reference(*next));
        }
        if let Some((first, last)) = branch(document, &bookmark.below, *id, pages)? {
            entry.set("First", Object::Reference(first));
            entry.set("Last", Object::Reference(last));
            entry.set("Count", Object::Integer(visible(&bookmark.below)));
        }
        document.set_object(*id, entry);
    }
    Ok(ids.first().copied().zip(ids.last().copied()))
}

/// Stands for the document's `/ID` until its bytes are known.
const PLACEHOLDER: &[u8; 16] = b"setwright-id-id-";

/// Replaces the placeholder ids by a hash of everything else: PDF wants an id that tells documents
/// apart, and ours has to be the same whenever the document is.
fn stamp(bytes: &mut [u8]) {
    // FNV-1a, 128 bits: an identifier, not a signature.
    let mut hash: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    for byte in bytes.iter() {
        hash ^= u128::from(*byte);
        hash = hash.wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013b);
    }
    let upper = format!("{hash:032X}");
    let placeholder = format!("{:032X}", u128::from_be_bytes(*PLACEHOLDER));
    // The trailer is at the end, and holds the placeholder twice.
    let mut end = bytes.len();
    for _ in 0..2 {
        let Some(found) = bytes.get(..end).and_then(|head| {
            head.windows(placeholder.len()).rposition(|at| at == placeholder.as_bytes())
        }) else {
            return;
        };
        if let Some(slot) = bytes.get_mut(found..found + upper.len()) {
            slot.copy_from_slice(upper.as_bytes());
        }
        end = found;
    }
}
