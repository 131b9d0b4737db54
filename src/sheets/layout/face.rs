//! The two faces a card is set in, and their advances.
//!
//! The PDF sets one glyph a character, without kerning or ligatures, so a plain sum of advances is
//! exactly the width that is printed.

use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A face of the card font.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// For reading.
    Regular,
    /// For finding.
    SemiBold,
}

/// A glyph of a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Glyph {
    /// Its number in the original font file.
    pub id: u16,
    /// Its advance, in font units.
    pub advance: u16,
}

/// What layout and the PDF need to know of a face.
#[derive(Clone, Debug, Default)]
pub struct FaceTable {
    /// The glyph of each character the face has.
    pub glyphs: BTreeMap<char, Glyph>,
    /// The same for the first characters, where nearly all text is, with the advances in ems.
    near: Vec<Option<(Glyph, f32)>>,
    /// Font units to the em.
    pub units_per_em: u16,
    /// The ascender, in font units.
    pub ascender: i16,
    /// The descender (below zero), in font units.
    pub descender: i16,
    /// The box around all glyphs, in font units: left, bottom, right, top.
    pub bounds: [i16; 4],
    /// The weight, 400 for regular.
    pub weight: u16,
}

/// What a missing character is replaced by is this wide, in ems.
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
        // A font file that does not parse gives an empty table, in which every character is
        // missing and is drawn as such; the test below makes sure that ours do.
        slot.get_or_init(|| FaceTable::read(self.data()).unwrap_or_default())
    }

    /// Whether the face has the character.
    #[must_use]
    pub fn covers(self, character: char) -> bool {
        self.known_advance(character).is_some()
    }

    /// The advance of a character, in ems; `None` when the face lacks it.
    #[must_use]
    pub fn known_advance(self, character: char) -> Option<f32> {
        self.table().known(character).map(|(_, ems)| ems)
    }
}

/// How many characters are looked up directly: Latin with its extensions.
const NEAR: u32 = 0x250;

impl Glyph {
    /// With its advance in ems.
    fn with_ems(self, units_per_em: u16) -> (Self, f32) {
        (self, f32::from(self.advance) / f32::from(units_per_em.max(1)))
    }
}

impl FaceTable {
    /// The glyph of a character; `None` when the face lacks it.
    #[must_use]
    pub fn glyph(&self, character: char) -> Option<Glyph> {
        self.known(character).map(|(glyph, _)| glyph)
    }

    /// The same, and its advance in ems.
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
