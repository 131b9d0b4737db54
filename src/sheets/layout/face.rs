//! The two faces of the card font, and their advances.
//!
//! The PDF sets one glyph for each character, without kerning or ligatures. So the sum of advances
//! is exactly the printed width.

use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A face of the card font.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// For body text.
    Regular,
    /// For headings and targets.
    SemiBold,
}

/// A glyph of a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Glyph {
    /// Its index in the original font file.
    pub id: u16,
    /// Its advance, in font units.
    pub advance: u16,
}

/// The data of a face that layout and PDF need.
#[derive(Clone, Debug, Default)]
pub struct FaceTable {
    /// The glyph of each character that the face has.
    pub glyphs: BTreeMap<char, Glyph>,
    /// The glyphs of the first characters, which cover nearly all text, with advances in ems.
    near: Vec<Option<(Glyph, f32)>>,
    /// Font units per em.
    pub units_per_em: u16,
    /// The ascender, in font units.
    pub ascender: i16,
    /// The descender (negative), in font units.
    pub descender: i16,
    /// The box around all glyphs, in font units: left, bottom, right, top.
    pub bounds: [i16; 4],
    /// The weight, 400 for regular.
    pub weight: u16,
}

/// Width of the box for a missing character, in ems.
pub const MISSING_ADVANCE: f32 = 0.62;

impl Face {
    /// Both faces.
    pub const ALL: [Face; 2] = [Face::Regular, Face::SemiBold];

    /// The original, unaltered font file.
    #[must_use]
    pub fn data(self) -> &'static [u8] {
        match self {
            Face::Regular => include_bytes!("../../../fonts/IBMPlexSans_400Regular.ttf"),
            Face::SemiBold => include_bytes!("../../../fonts/IBMPlexSans_600SemiBold.ttf"),
        }
    }

    /// The face's table, read once.
    #[must_use]
    pub fn table(self) -> &'static FaceTable {
        static TABLES: [OnceLock<FaceTable>; 2] = [OnceLock::new(), OnceLock::new()];
        let [regular, semi_bold] = &TABLES;
        let slot = match self {
            Face::Regular => regular,
            Face::SemiBold => semi_bold,
        };
        // A font file that cannot be parsed gives an empty table, so that every character is drawn
        // as missing. The test below checks that ours can be parsed.
        slot.get_or_init(|| FaceTable::read(self.data()).unwrap_or_default())
    }

    /// Whether the face has the character.
    #[must_use]
    pub fn covers(self, character: char) -> bool {
        self.known_advance(character).is_some()
    }

    /// The advance of a character in ems; `None` if the face lacks it.
    #[must_use]
    pub fn known_advance(self, character: char) -> Option<f32> {
        self.table().known(character).map(|(_, ems)| ems)
    }
}

/// Number of characters that are looked up directly: Latin with its extensions.
const NEAR: u32 = 0x250;

impl Glyph {
    /// The glyph with its advance in ems.
    fn with_ems(self, units_per_em: u16) -> (Self, f32) {
        (self, f32::from(self.advance) / f32::from(units_per_em.max(1)))
    }
}

impl FaceTable {
    /// The glyph of a character; `None` if the face lacks it.
    #[must_use]
    pub fn glyph(&self, character: char) -> Option<Glyph> {
        self.known(character).map(|(glyph, _)| glyph)
    }

    /// The glyph and its advance in ems.
    fn known(&self, character: char) -> Option<(Glyph, f32)> {
        match usize::try_from(u32::from(character)).ok().and_then(|at| self.near.get(at)) {
            Some(known) => *known,
            None => self.glyphs.get(&character).map(|glyph| glyph.with_ems(self.units_per_em)),
        }
    }

    fn read(data: &[u8]) -> Option<Self> {
        let face = ttf_parser::Face::parse(data, 0).ok()?;
        let mut glyphs = BTreeMap::new();
        for subtable in face.tables().cmap?.subtables {
            if !subtable.is_unicode() {
                continue;
            }
            subtable.codepoints(|code| {
                if let (Some(character), Some(id)) =
                    (char::from_u32(code), subtable.glyph_index(code))
                    && let Some(advance) = face.glyph_hor_advance(id)
                {
                    glyphs.insert(character, Glyph { id: id.0, advance });
                }
            });
        }
        let bounds = face.global_bounding_box();
        let units_per_em = face.units_per_em();
        let near = (0..NEAR)
            .map(|code| char::from_u32(code).and_then(|c| glyphs.get(&c)))
            .map(|glyph: Option<&Glyph>| glyph.map(|glyph| glyph.with_ems(units_per_em)))
            .collect();
        Some(Self {
            glyphs,
            near,
            units_per_em,
            ascender: face.ascender(),
            descender: face.descender(),
            bounds: [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max],
            weight: face.weight().to_number(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_faces_have_what_a_card_needs() {
        let needed =
            "ABCXYZabcxyz0123456789×·–−→≥≤½°•’“”…ĄąČčĎďĘęĚěĞğŁłŃńŐőŘřŞşŠšŤťŰűŽžßØøÅåÆæÞþÐð";
        for face in Face::ALL {
            for c in needed.chars() {
                assert!(face.covers(c), "{face:?} lacks {c}");
            }
        }
    }

    #[test]
    fn figures_are_of_equal_width() {
        for face in Face::ALL {
            assert!(
                "0123456789"
                    .chars()
                    .all(|c| face.table().glyphs[&c].advance == face.table().glyphs[&'0'].advance)
            );
        }
    }
}
