//! Paper sizes.

use std::fmt;
use std::str::FromStr;

/// The paper of a card, in portrait.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 148 × 210 mm (ISO 216): two cards on a sheet of A4. It fits a clipboard.
    #[default]
    A5,
    /// 8½ × 11 in.
    Letter,
    /// 5½ × 8½ in: two cards on a sheet of letter paper.
    HalfLetter,
}

impl Paper {
    /// All sizes, with their names on the command line.
    pub const ALL: [(&'static str, Paper); 4] = [
        ("a4", Paper::A4),
        ("a5", Paper::A5),
        ("letter", Paper::Letter),
        ("half-letter", Paper::HalfLetter),
    ];

    /// Width and height in millimetres.
    #[must_use]
    pub fn millimetres(self) -> (f32, f32) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::A5 => (148.0, 210.0),
            Paper::Letter => (215.9, 279.4),
            Paper::HalfLetter => (139.7, 215.9),
        }
    }

    /// The sheet that two pages of this paper make side by side: A4 for A5. Larger paper is its own
    /// sheet.
    #[must_use]
    pub fn sheet(self) -> Paper {
        match self {
            Paper::A4 | Paper::A5 => Paper::A4,
            Paper::Letter | Paper::HalfLetter => Paper::Letter,
        }
    }

    /// Half of that sheet.
    #[must_use]
    pub fn half(self) -> Paper {
        match self {
            Paper::A4 | Paper::A5 => Paper::A5,
            Paper::Letter | Paper::HalfLetter => Paper::HalfLetter,
        }
    }

    /// Width and height in points of 1/72 inch.
    #[must_use]
    pub fn points(self) -> (f32, f32) {
        let (width, height) = self.millimetres();
        (width * 72.0 / 25.4, height * 72.0 / 25.4)
    }
}

/// An unknown paper size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownPaper(pub String);

impl fmt::Display for UnknownPaper {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names: Vec<&str> = Paper::ALL.iter().map(|(name, _)| *name).collect();
        write!(f, "unknown paper `{}`: use one of {}", self.0, names.join(", "))
    }
}

impl std::error::Error for UnknownPaper {}

impl FromStr for Paper {
    type Err = UnknownPaper;

    fn from_str(text: &str) -> Result<Self, UnknownPaper> {
        Paper::ALL
            .into_iter()
            .find(|(name, _)| name.eq_ignore_ascii_case(text))
            .map(|(_, paper)| paper)
            .ok_or_else(|| UnknownPaper(text.to_owned()))
    }
}

impl fmt::Display for Paper {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = Paper::ALL.iter().find(|(_, paper)| paper == self).map(|(name, _)| *name);
        f.write_str(name.unwrap_or_default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn papers_are_asked_for_by_name() {
        for (name, paper) in Paper::ALL {
            assert_eq!(name.parse(), Ok(paper));
            assert_eq!(paper.to_string(), name);
        }
        assert!("foolscap".parse::<Paper>().is_err());
    }
}
