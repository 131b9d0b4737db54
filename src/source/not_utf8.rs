//! What a file that is not UTF-8 most likely is, and the position of its first invalid byte.

use std::fmt;

use super::SourceFile;

/// A text that is not UTF-8.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotUtf8 {
    /// The text for display, with `?` for each invalid byte and without a byte-order mark; empty if
    /// nothing can be read.
    pub text: String,
    /// Byte offset of the first invalid byte in it.
    pub at: usize,
    /// The most likely reason.
    pub cause: Cause,
}

/// Why a file is not UTF-8.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// It is UTF-16, with two bytes for each character.
    Utf16,
    /// It is not text.
    Binary,
    /// Its last character is cut off.
    CutOff,
    /// It has a single-byte encoding, such as Windows-1252. This is the first invalid byte.
    OneByte(u8),
}

impl NotUtf8 {
    /// Examines bytes of which the first `valid` are UTF-8.
    pub(super) fn new(bytes: &[u8], valid: usize, is_cut: bool) -> Self {
        let cause = Cause::of(bytes, valid, is_cut);
        if matches!(cause, Cause::Utf16 | Cause::Binary) {
            return Self { text: String::new(), at: 0, cause };
        }
        let mut text = String::with_capacity(bytes.len());
        for chunk in bytes.utf8_chunks() {
            text.push_str(chunk.valid());
            text.extend(chunk.invalid().iter().map(|_| '?'));
        }
        match text.strip_prefix('\u{feff}') {
            Some(rest) => {
                Self { at: valid - (text.len() - rest.len()), text: rest.to_owned(), cause }
            }
            None => Self { text, at: valid, cause },
        }
    }

    /// Line and column of the first invalid byte, both counted from 1.
    #[must_use]
    pub fn position(&self) -> (u32, u32) {
        SourceFile::new("", &self.text).position(u32::try_from(self.at).unwrap_or(u32::MAX))
    }
}

impl fmt::Display for NotUtf8 {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (line, column) = self.position();
        match self.cause {
            Cause::Utf16 => f.write_str("it is not UTF-8 text but UTF-16"),
            Cause::Binary => f.write_str("it is not UTF-8 text, and most likely no text at all"),
            Cause::CutOff | Cause::OneByte(_) => {
                write!(f, "it is not UTF-8 text (line {line}, column {column})")
            }
        }
    }
}

impl Cause {
    fn of(bytes: &[u8], valid: usize, is_cut: bool) -> Self {
        if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
            return Self::Utf16;
        }
        // Single-byte encodings do not use these bytes in texts.
        if bytes.iter().any(|byte| matches!(byte, 0..=8 | 0xe..=0x1a | 0x1c..=0x1f)) {
            return Self::Binary;
        }
        match bytes.get(valid) {
            Some(byte) if !is_cut => Self::OneByte(*byte),
            _ => Self::CutOff,
        }
    }

    /// The help for the problem.
    #[must_use]
    pub fn help(self) -> String {
        match self {
            Self::Utf16 => {
                "UTF-16 is called \"Unicode\" in some editors: save the file as UTF-8".to_owned()
            }
            Self::Binary => {
                "a document of a word processor or a picture is no .sets file: save plain text as UTF-8"
                    .to_owned()
            }
            Self::CutOff => {
                "the end of the file is cut off within a character: fetch it again, or save it as UTF-8"
                    .to_owned()
            }
            Self::OneByte(_) => "the file is most likely in Windows-1252 (\"ANSI\", \"Western\") or a \
                 similar encoding: save it as UTF-8 in your editor, and check the accented letters"
                .to_owned(),
        }
    }

    /// The label at the position.
    #[must_use]
    pub fn label(self) -> String {
        match self {
            // From here on, Windows-1252 has the same characters as Unicode.
            Self::OneByte(byte @ 0xa0..) => {
                format!("byte {byte:02X}: `{}` in Windows-1252", char::from(byte))
            }
            Self::OneByte(byte) => format!("byte {byte:02X}"),
            Self::Utf16 | Self::Binary | Self::CutOff => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{LoadError, read_text};
    use super::*;

    fn read(bytes: &[u8]) -> NotUtf8 {
        match read_text(bytes) {
            Err(LoadError::NotUtf8(found)) => *found,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_first_byte_that_does_not_read_has_a_place_and_a_cause() {
        let found = read(b"gym A\n  note: \xc3\xa9 caf\xe9\n");
        assert_eq!((found.position(), found.cause), ((2, 14), Cause::OneByte(0xe9)));
        assert_eq!(found.text, "gym A\n  note: é caf?\n");
        // A byte-order mark is not a column.
        let found = read(b"\xef\xbb\xbfgym \x93A\x94\n");
        assert_eq!((found.position(), found.cause), ((1, 5), Cause::OneByte(0x93)));
        for bytes in [b"\xff\xfeg\0y\0m\0".as_slice(), b"\xfe\xff\0g\0y\0m"] {
            assert_eq!((read(bytes).position(), read(bytes).cause), ((1, 1), Cause::Utf16));
        }
        assert_eq!(read(b"gym A\n  note: caf\xc3").cause, Cause::CutOff);
        assert_eq!(read(b"%PDF\x00\x01\xff").cause, Cause::Binary);
        // Lines may end with CR alone.
        assert_eq!(read(b"gym A\r  note: \xe9\r").position(), (2, 9));
    }
}
