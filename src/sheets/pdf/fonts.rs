//! The subsets of the card font that a document uses.

use std::collections::BTreeMap;
use std::io::Write;

use lopdf::{Dictionary, Object, ObjectId};
use printpdf::{
    FontId, FontMetrics, Op, ParsedFont, PdfDocument, PdfFontHandle, PdfPage, PdfSaveOptions, Pt,
    TextItem,
};
use rayon::prelude::*;
use subsetter::GlyphRemapper;

use super::super::SheetError;
use super::super::layout::{Face, Page, Shape};
use super::file::PdfFile;
use super::objects::fault;

/// The code of each character in its face's subset. Codes are assigned in the order in which
/// characters first occur, so that a page can be written before later pages are laid out.
#[derive(Default)]
pub struct GlyphCodes {
    faces: [FaceCodes; Face::ALL.len()],
}

#[derive(Default)]
struct FaceCodes {
    /// Codes by character; 0 means none, because it is the glyph for missing characters.
    of: Vec<u16>,
    shown: Vec<char>,
    remapper: GlyphRemapper,
}

impl GlyphCodes {
    fn face(&self, face: Face) -> Option<&FaceCodes> {
        self.faces.get(face as usize)
    }

    /// The code of a character; `None` if it has none in this face.
    pub fn get(&self, face: Face, character: char) -> Option<u16> {
        let code = *self.face(face)?.of.get(character as usize)?;
        (code != 0).then_some(code)
    }

    /// Assigns codes to the characters of a page.
    pub fn register_glyphs(&mut self, page: &Page) {
        for item in &page.items {
            let Shape::Text { style, text, .. } = item else { continue };
            let Some(codes) = self.faces.get_mut(style.face as usize) else { continue };
            for character in text.chars() {
                codes.register_glyphs(style.face, character);
            }
        }
    }

    /// The faces that are used, each reduced to the characters that are used.
    fn fonts(&self) -> Result<Vec<(Face, ParsedFont)>, SheetError> {
        let used = Face::ALL.into_par_iter().filter_map(|face| Some((face, self.face(face)?)));
        used.filter(|(_, codes)| !codes.shown.is_empty())
            .map(|(face, codes)| Ok((face, codes.subset(face)?)))
            .collect()
    }

    /// A page that shows every character of both faces. printpdf embeds only the characters that
    /// its own text operator shows, and we write our own operators.
    fn specimen(&self) -> PdfPage {
        let mut ops = vec![Op::StartTextSection];
        for (face, codes) in Face::ALL.into_iter().zip(&self.faces) {
            if !codes.shown.is_empty() {
                let font = PdfFontHandle::External(font_id(face));
                ops.push(Op::SetFont { font, size: Pt(1.0) });
                let text = codes.shown.iter().collect();
                ops.push(Op::ShowText { items: vec![TextItem::Text(text)] });
            }
        }
        ops.push(Op::EndTextSection);
        PdfPage::new(Pt(1.0).into(), Pt(1.0).into(), ops)
    }
}

impl FaceCodes {
    fn register_glyphs(&mut self, face: Face, character: char) {
        let at = character as usize;
        if self.of.get(at).is_some_and(|code| *code != 0) {
            return;
        }
        let Some(glyph) = face.table().glyph(character) else { return };
        let code = self.remapper.remap(glyph.id);
        if self.of.len() <= at {
            self.of.resize(at + 1, 0);
        }
        if let Some(slot) = self.of.get_mut(at) {
            *slot = code;
            self.shown.push(character);
        }
    }

    fn subset(&self, face: Face) -> Result<ParsedFont, SheetError> {
        let table = face.table();
        let mut glyph_of = BTreeMap::new();
        let mut widths = BTreeMap::new();
        for character in &self.shown {
            if let Some(glyph) = table.glyph(*character) {
                let code = self.of.get(*character as usize).copied().unwrap_or(0);
                glyph_of.insert(u32::from(*character), code);
                widths.insert(code, glyph.advance);
            }
        }
        let bytes = subsetter::subset(face.data(), 0, &self.remapper)
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
        Ok(font)
    }
}

/// Writes the font subsets, and the resources through which pages name them.
pub fn embed<W: Write>(
    file: &mut PdfFile<W>,
    codes: &GlyphCodes,
    resources: ObjectId,
) -> Result<(), SheetError> {
    let mut pdf = PdfDocument::new("");
    for (face, font) in codes.fonts()? {
        pdf.resources.fonts.map.insert(font_id(face), printpdf::PdfFont::new(font));
    }
    pdf.pages = vec![codes.specimen()];
    let options = PdfSaveOptions { image_optimization: None, ..PdfSaveOptions::default() };
    let mut document = pdf.to_lopdf_document(&options, &mut Vec::new());
    let first = file.reserve();
    document.renumber_objects_with(first.0);
    while file.reserve().0 < document.max_id {}
    document.objects.par_iter_mut().try_for_each(|(_, object)| match object {
        Object::Stream(stream) if stream.allows_compression => stream.compress().map_err(fault),
        _ => Ok(()),
    })?;
    let specimen = document.get_pages().into_values().next();
    let Some(specimen) = specimen else { return Ok(()) };
    let page = document.get_dictionary(specimen).map_err(fault)?;
    let reference = |of: &Dictionary, key: &[u8]| of.get(key).and_then(Object::as_reference);
    let shown = reference(page, b"Resources").map_err(fault)?;
    let mut left_out = vec![specimen, shown, reference(page, b"Contents").map_err(fault)?];
    left_out.extend(reference(page, b"Parent"));
    left_out.extend(
        [b"Root".as_slice(), b"Info"]
            .map(|key| reference(&document.trailer, key))
            .into_iter()
            .flatten(),
    );
    let shown = document.get_object(shown).map_err(fault)?;
    file.object(resources, shown)?;
    for (id, object) in document.objects.iter().filter(|(id, _)| !left_out.contains(id)) {
        match object {
            Object::Stream(stream) => file.stream(*id, stream.dict.clone(), &stream.content)?,
            object => file.object(*id, object)?,
        }
    }
    Ok(())
}

/// The font ids are also the subset tags, for which PDF requires six capitals (ISO 32000-1, 9.6.4).
fn font_id(face: Face) -> FontId {
    FontId(tag(face).to_owned())
}

/// The name of a face in a document.
pub fn tag(face: Face) -> &'static str {
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
