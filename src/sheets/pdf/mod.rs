//! Conversion of display lists to PDF. No other module uses printpdf and lopdf.
//!
//! Pages are written and compressed as they arrive ([`Book::add`]), several at a time on all cores,
//! and go to the file at once. Only their object numbers stay in memory. printpdf embeds the fonts,
//! reduced to the characters that are shown; its own representation of a page would take 100 kB,
//! and a compressed page takes four. Objects have lopdf's types.

mod content;
mod file;
mod fonts;
mod hash;
mod objects;
mod outline;

use std::io::Write;

use lopdf::{Dictionary, Object, ObjectId};
use rayon::prelude::*;

use self::content::{Packed, Packers};
use self::file::PdfFile;
use self::fonts::GlyphCodes;
use self::objects::{date, name, text};
use super::SheetError;
use super::layout::Page;

/// The metadata of a document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Description {
    /// Its title.
    pub title: String,
    /// The BCP 47 language of its text.
    pub language: String,
    /// Creation time in seconds since 1970; left out if `None`.
    pub created: Option<i64>,
    /// Its bookmarks.
    pub bookmarks: Vec<Bookmark>,
}

/// A bookmark, with the bookmarks below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bookmark {
    /// Its text.
    pub text: String,
    /// The page it leads to, counted from 0.
    pub page: usize,
    /// The bookmarks below it.
    pub below: Vec<Bookmark>,
}

/// Shifts the pages of bookmarks.
pub fn shift_pages(bookmarks: &mut [Bookmark], pages: usize) {
    for bookmark in bookmarks {
        bookmark.page += pages;
        shift_pages(&mut bookmark.below, pages);
    }
}

/// Writes pages as a PDF. The same pages give the same bytes.
pub fn write(pages: &[Page], description: &Description) -> Result<Vec<u8>, SheetError> {
    let mut book = Book::begin(Vec::new());
    book.add(pages, false)?;
    book.finish(description)
}

/// Number of pages that one core writes in a step.
const AT_ONCE: usize = 4;

/// A PDF that is being written.
pub struct Book<W> {
    codes: GlyphCodes,
    packers: Packers,
    file: PdfFile<W>,
    /// The page tree node that contains all pages.
    parent: ObjectId,
    /// The resources that all pages share, with the fonts.
    resources: ObjectId,
    pages: Vec<ObjectId>,
}

impl<W: Write> Book<W> {
    /// Starts a PDF.
    pub fn begin(out: W) -> Self {
        let mut file = PdfFile::begin(out);
        let (parent, resources) = (file.reserve(), file.reserve());
        let (codes, packers) = (GlyphCodes::default(), Packers::default());
        Self { codes, packers, file, parent, resources, pages: Vec::new() }
    }

    /// Number of pages.
    pub fn len(&self) -> usize {
        self.pages.len()
    }

    /// Adds pages, optionally rotated clockwise by 90°. The document does not depend on how pages
    /// are divided between calls or on the number of cores.
    pub fn add(&mut self, pages: &[Page], turned: bool) -> Result<(), SheetError> {
        for page in pages {
            self.codes.register_glyphs(page);
        }
        let (codes, packers) = (&self.codes, &self.packers);
        let packed: Vec<Packed> = pages
            .par_iter()
            .with_min_len(AT_ONCE)
            .map_init(|| packers.one(), |packer, page| packer.pack(page, codes))
            .collect::<Result<_, _>>()?;
        packed.into_iter().try_for_each(|packed| self.write_page(packed, turned))
    }

    /// Writes a page.
    fn write_page(
        &mut self,
        Packed { size, content, links }: Packed,
        turned: bool,
    ) -> RenderResult {
        let content_id = self.file.reserve();
        self.file.packed(content_id, &content)?;
        let (width, height) = size;
        let frame = [0.0, 0.0, width, height].map(Object::Real).to_vec();
        let mut page = Dictionary::new();
        page.set("Type", name("Page"));
        for key in ["MediaBox", "TrimBox", "CropBox"] {
            page.set(key, Object::Array(frame.clone()));
        }
        page.set("Parent", Object::Reference(self.parent));
        page.set("Resources", Object::Reference(self.resources));
        page.set("Contents", Object::Reference(content_id));
        if turned {
            page.set("Rotate", Object::Integer(90));
        }
        if !links.is_empty() {
            let mut ids = Vec::with_capacity(links.len());
            for link in links {
                ids.push(self.add_object(&Object::Dictionary(link))?);
            }
            page.set("Annots", Object::Array(ids.into_iter().map(Object::Reference).collect()));
        }
        let id = self.add_object(&Object::Dictionary(page))?;
        self.pages.push(id);
        Ok(())
    }

    fn add_object(&mut self, object: &Object) -> Result<ObjectId, SheetError> {
        let id = self.file.reserve();
        self.file.object(id, object)?;
        Ok(id)
    }

    /// Ends the document and returns the writer.
    pub fn finish(mut self, about: &Description) -> Result<W, SheetError> {
        fonts::embed(&mut self.file, &self.codes, self.resources)?;
        let mut tree = Dictionary::new();
        tree.set("Type", name("Pages"));
        tree.set("Count", Object::Integer(i64::try_from(self.pages.len()).unwrap_or(i64::MAX)));
        let kids = self.pages.iter().copied().map(Object::Reference);
        tree.set("Kids", Object::Array(kids.collect()));
        self.file.object(self.parent, &Object::Dictionary(tree))?;
        let outlines = outline::outline(&mut self.file, &about.bookmarks, &self.pages)?;
        let catalogue = self.catalogue(about, outlines);
        let catalogue = self.add_object(&Object::Dictionary(catalogue))?;
        let info = self.add_object(&Object::Dictionary(info(about)))?;
        self.file.finish(catalogue, info)
    }

    fn catalogue(&self, about: &Description, outlines: Option<ObjectId>) -> Dictionary {
        let mut catalogue = Dictionary::new();
        catalogue.set("Type", name("Catalog"));
        catalogue.set("Pages", Object::Reference(self.parent));
        catalogue.set("Lang", text(&about.language));
        catalogue.set("PageLayout", name("SinglePage"));
        let mut viewer = Dictionary::new();
        viewer.set("DisplayDocTitle", Object::Boolean(true));
        catalogue.set("ViewerPreferences", Object::Dictionary(viewer));
        match outlines {
            Some(outlines) => {
                catalogue.set("Outlines", Object::Reference(outlines));
                catalogue.set("PageMode", name("UseOutlines"));
            }
            None => catalogue.set("PageMode", name("UseNone")),
        }
        catalogue
    }
}

/// Result of writing one object.
type RenderResult = Result<(), SheetError>;

/// The document information dictionary.
fn info(about: &Description) -> Dictionary {
    let mut info = Dictionary::new();
    info.set("Title", text(&about.title));
    info.set("Producer", text(concat!("Setwright ", env!("CARGO_PKG_VERSION"))));
    if let Some(created) = about.created.and_then(date) {
        info.set("CreationDate", created.clone());
        info.set("ModDate", created);
    }
    info
}
