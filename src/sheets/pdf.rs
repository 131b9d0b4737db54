//! From a display list to the bytes of a PDF: the only file that knows printpdf and lopdf.
//!
//! printpdf takes finished pages; what it cannot say (nested bookmarks, the language, a stable
//! `/ID`) is set right on its lopdf document before that is compressed and written.

use std::collections::{BTreeMap, BTreeSet};

use jiff::tz::Offset;
use lopdf::{Dictionary, Document, Object, ObjectId, StringFormat};
use printpdf::{
    Color, DictItem, FontId, FontMetrics, Greyscale, Line, LinePoint, Op, PaintMode, ParsedFont,
    PdfDocument, PdfFontHandle, PdfPage, PdfSaveOptions, Point, Polygon, PolygonRing, Pt, Rgb,
    TextItem, WindingOrder,
};
use subsetter::GlyphRemapper;

use super::SheetError;
use super::layout::{Face, Ink, Item, Page, Rect, Style};

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
    write_turned(pages, description, &|_| false)
}

/// The same; pages that are `turned`, counted from zero, are shown turned by a quarter, clockwise.
pub fn write_turned(
    pages: &[Page],
    description: &Description,
    turned: &dyn Fn(usize) -> bool,
) -> Result<Vec<u8>, SheetError> {
    let mut pdf = PdfDocument::new(&description.title);
    let mut codes = Codes::new();
    for face in Face::ALL {
        if let Some(font) = subset(face, pages, &mut codes)? {
            let font = printpdf::PdfFont::new(font);
            pdf.resources.fonts.map.insert(font_id(face), font);
        }
    }
    pdf.pages = pages.iter().map(|it| page(it, &codes)).collect();
    pdf.pages.push(specimen(&codes));
    // `secure` leaves out operators that printpdf does not know: our own for text.
    let options =
        PdfSaveOptions { image_optimization: None, secure: false, ..PdfSaveOptions::default() };
    let mut document = pdf.to_lopdf_document(&options, &mut Vec::new());
    drop(pdf);
    drop_last_page(&mut document)?;
    links(&mut document, pages)?;
    set_right(&mut document, description)?;
    turn(&mut document, turned)?;
    document.compress();
    let mut bytes = Vec::new();
    // Pages, bookmarks and the like are packed together: a tenth of their size.
    document.save_modern(&mut bytes).map_err(|e| SheetError::Pdf(e.to_string()))?;
    stamp(&mut bytes);
    Ok(bytes)
}

/// The code of each character in its face's subset.
type Codes = BTreeMap<(Face, char), u16>;

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
fn subset(face: Face, pages: &[Page], codes: &mut Codes) -> Result<Option<ParsedFont>, SheetError> {
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
            codes.insert((face, character), id);
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

/// Tenths of a point, 0.035 mm: finer than a printer's dot, and short numbers in the file.
#[allow(clippy::cast_possible_truncation, reason = "a cast of a float saturates")]
fn tenths(value: f32) -> i32 {
    (value * 10.0).round() as i32
}

fn pt(tenths: i32) -> Pt {
    Pt(f32::from(i16::try_from(tenths).unwrap_or(i16::MAX)) / 10.0)
}

/// A page that shows every character of both faces: printpdf embeds what it sees shown by its own
/// operator, and we write ours.
fn specimen(codes: &Codes) -> PdfPage {
    let mut ops = vec![Op::StartTextSection];
    for face in Face::ALL {
        let text: String =
            codes.keys().filter(|(of, _)| *of == face).map(|(_, character)| *character).collect();
        if !text.is_empty() {
            let font = PdfFontHandle::External(font_id(face));
            ops.push(Op::SetFont { font, size: Pt(1.0) });
            ops.push(Op::ShowText { items: vec![TextItem::Text(text)] });
        }
    }
    ops.push(Op::EndTextSection);
    PdfPage::new(Pt(1.0).into(), Pt(1.0).into(), ops)
}

/// Makes the places of links open them (ISO 32000-1, 12.5.6.5).
fn links(document: &mut Document, pages: &[Page]) -> Result<(), SheetError> {
    let ids: Vec<ObjectId> = document.get_pages().into_values().collect();
    for (id, page) in ids.into_iter().zip(pages) {
        let links = page.items.iter().filter_map(|item| match item {
            Item::Link { rect, to } => Some((rect, to)),
            _ => None,
        });
        let links: Vec<Object> = links
            .map(|(rect, to)| {
                let corners =
                    [rect.x, page.height - rect.bottom(), rect.right(), page.height - rect.y];
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
                Object::Reference(document.add_object(link))
            })
            .collect();
        let page = document.get_object_mut(id).and_then(Object::as_dict_mut);
        let page = page.map_err(|e| SheetError::Pdf(e.to_string()))?;
        if links.is_empty() {
            page.remove(b"Annots");
        } else {
            page.set("Annots", Object::Array(links));
        }
    }
    Ok(())
}

/// Takes out the last page, with what it shows.
fn drop_last_page(document: &mut Document) -> Result<(), SheetError> {
    let fault = |e: lopdf::Error| SheetError::Pdf(e.to_string());
    let pages = document.get_pages();
    let Some(last) = pages.values().next_back() else { return Ok(()) };
    let page = document.get_dictionary(*last).map_err(fault)?;
    let parent = page.get(b"Parent").and_then(Object::as_reference).map_err(fault)?;
    let contents = page.get(b"Contents").and_then(Object::as_reference).map_err(fault)?;
    document.objects.remove(&contents);
    document.objects.remove(last);
    let parent = document.get_object_mut(parent).and_then(Object::as_dict_mut).map_err(fault)?;
    parent.get_mut(b"Kids").and_then(Object::as_array_mut).map_err(fault)?.pop();
    parent.set("Count", Object::Integer(i64::try_from(pages.len()).unwrap_or(1) - 1));
    Ok(())
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
        let mut codes = Vec::new();
        for character in text.chars() {
            let code = self.codes.get(&(style.face, character));
            codes.extend(code.into_iter().flat_map(|code| code.to_be_bytes()));
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

/// Shows pages turned by a quarter.
fn turn(document: &mut Document, turned: &dyn Fn(usize) -> bool) -> Result<(), SheetError> {
    let pages = document.get_pages().into_values().enumerate();
    for (_, id) in pages.filter(|(at, _)| turned(*at)) {
        let page = document.get_object_mut(id).and_then(Object::as_dict_mut);
        page.map_err(|e| SheetError::Pdf(e.to_string()))?.set("Rotate", Object::Integer(90));
    }
    Ok(())
}

fn name(text: &str) -> Object {
    Object::Name(text.as_bytes().to_vec())
}

/// A text string: one byte a character where PDF has a code for each, else UTF-16.
fn text(text: &str) -> Object {
    if let Some(bytes) = text.chars().map(short).collect::<Option<Vec<u8>>>() {
        return Object::String(bytes, StringFormat::Literal);
    }
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(bytes, StringFormat::Literal)
}

/// The code of a character in `PDFDocEncoding` (ISO 32000-1, annex D): Latin-1 with a few others.
fn short(character: char) -> Option<u8> {
    match character {
        '\u{2022}' => Some(0x80),
        '\u{2026}' => Some(0x83),
        '\u{2014}' => Some(0x84),
        '\u{2013}' => Some(0x85),
        '\u{2212}' => Some(0x8a),
        '\u{2019}' => Some(0x90),
        ' '..='~' | '\u{a1}'..='\u{ac}' | '\u{ae}'..='\u{ff}' => u8::try_from(character).ok(),
        _ => None,
    }
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
