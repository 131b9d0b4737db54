//! From display lists to the bytes of a PDF: the only room that knows printpdf and lopdf.
//!
//! printpdf turns finished pages into content streams and embeds the fonts; what it cannot say
//! (nested bookmarks, the language, a stable `/ID`) is set right on lopdf's document. Pages are
//! written and packed as they come ([`Book::add`]), several at a time on all cores: printpdf's own
//! form of a page takes 100 kB, a packed one four.

mod content;
mod fonts;
mod objects;
mod outline;
mod stamp;

use lopdf::{Dictionary, Document, Object, ObjectId, StringFormat};
use printpdf::PdfDocument;
use rayon::prelude::*;

use self::content::Packed;
use self::fonts::{Codes, font_id};
use self::objects::{date, fault, name, text};
use super::SheetError;
use super::layout::Page;

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

/// Moves bookmarks by some pages.
pub fn later(bookmarks: &mut [Bookmark], pages: usize) {
    for bookmark in bookmarks {
        bookmark.page += pages;
        later(&mut bookmark.below, pages);
    }
}

/// Writes pages as a PDF. The same pages give the same bytes.
pub fn write(pages: &[Page], description: &Description) -> Result<Vec<u8>, SheetError> {
    let mut book = Book::default();
    book.add(pages, false)?;
    book.finish(description)
}

/// How many pages are written at a step on one core.
const AT_ONCE: usize = 8;

/// A PDF that is being written.
#[derive(Default)]
pub struct Book {
    codes: Codes,
    pages: Vec<Packed>,
}

impl Book {
    /// How many pages it has.
    pub fn len(&self) -> usize {
        self.pages.len()
    }

    /// Adds pages, which may be shown turned by a quarter, clockwise. In whatever parts pages are
    /// added, and on however many cores, the document is the same.
    pub fn add(&mut self, pages: &[Page], turned: bool) -> Result<(), SheetError> {
        for page in pages {
            self.codes.take_in(page);
        }
        let codes = &self.codes;
        let parts: Vec<Vec<Packed>> = pages
            .par_chunks(AT_ONCE)
            .map(|part| content::pack(part, codes))
            .collect::<Result<_, _>>()?;
        for mut packed in parts.into_iter().flatten() {
            if turned {
                packed.page.set("Rotate", Object::Integer(90));
            }
            self.pages.push(packed);
        }
        Ok(())
    }

    /// The finished document.
    pub fn finish(self, description: &Description) -> Result<Vec<u8>, SheetError> {
        let mut pdf = PdfDocument::new(&description.title);
        for (face, font) in self.codes.fonts()? {
            pdf.resources.fonts.map.insert(font_id(face), printpdf::PdfFont::new(font));
        }
        pdf.pages = vec![self.codes.specimen()];
        let mut document = pdf.to_lopdf_document(&content::options(), &mut Vec::new());
        drop(pdf);
        // Fonts and the like; pages are packed already.
        document.compress();
        let pages = bind(&mut document, self.pages)?;
        set_right(&mut document, description, &pages)?;
        let mut bytes = Vec::new();
        // Pages, bookmarks and the like are packed together: a tenth of their size.
        document.save_modern(&mut bytes).map_err(|e| SheetError::Pdf(e.to_string()))?;
        stamp::stamp(&mut bytes);
        Ok(bytes)
    }
}

/// Puts the pages in the place of the specimen.
fn bind(document: &mut Document, pages: Vec<Packed>) -> Result<Vec<ObjectId>, SheetError> {
    let specimen = document.get_pages().into_values().next();
    let Some(specimen) = specimen else { return Ok(Vec::new()) };
    let Some(Object::Dictionary(specimen)) = document.objects.remove(&specimen) else {
        return Ok(Vec::new());
    };
    let content = specimen.get(b"Contents").and_then(Object::as_reference).map_err(fault)?;
    document.objects.remove(&content);
    let parent = specimen.get(b"Parent").and_then(Object::as_reference).map_err(fault)?;
    // All pages use the same fonts.
    let resources = specimen.get(b"Resources").map_err(fault)?;
    let mut ids = Vec::with_capacity(pages.len());
    for Packed { mut page, content, links } in pages {
        let content = document.add_object(content);
        page.set("Parent", Object::Reference(parent));
        page.set("Resources", resources.clone());
        page.set("Contents", Object::Reference(content));
        if !links.is_empty() {
            let links = links.into_iter().map(|link| Object::Reference(document.add_object(link)));
            page.set("Annots", Object::Array(links.collect()));
        }
        ids.push(document.add_object(page));
    }
    let tree = document.get_object_mut(parent).and_then(Object::as_dict_mut).map_err(fault)?;
    tree.set("Count", Object::Integer(i64::try_from(ids.len()).unwrap_or(i64::MAX)));
    tree.set("Kids", Object::Array(ids.iter().copied().map(Object::Reference).collect()));
    Ok(ids)
}

/// Sets what printpdf leaves out or gets wrong.
fn set_right(
    document: &mut Document,
    about: &Description,
    pages: &[ObjectId],
) -> Result<(), SheetError> {
    // Version 1.3 would not know of `/Lang` (1.4) and `DisplayDocTitle` (1.4).
    "1.7".clone_into(&mut document.version);
    let outline = outline::outline(document, &about.bookmarks, pages)?;
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
    let id = || Object::String(stamp::PLACEHOLDER.to_vec(), StringFormat::Hexadecimal);
    document.trailer.set("ID", Object::Array(vec![id(), id()]));
    Ok(())
}
