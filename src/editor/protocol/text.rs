//! Positions: bytes of a text here, lines and columns in the protocol. No other module converts
//! between them.
//!
//! A column counts UTF-16 units, or bytes if both sides agreed on UTF-8. Lines end at a line feed,
//! and a carriage return before it is not a column. As in the notation, a lone carriage return does
//! not end a line, except in a text without any line feed, where it ends every line. An editor may
//! send a byte-order mark. The texts here are without it, so byte offsets do not count it, but
//! columns of the protocol do.

use std::borrow::Cow;

use gen_lsp_types as lsp;
use line_index::{LineIndex, TextSize, WideEncoding};

/// The unit of columns.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// UTF-16 units, the protocol's default.
    #[default]
    Utf16,
}

pub use lsp::{Position, Range};

use crate::source::line_ends;

/// The byte-order mark.
const MARK: char = '\u{feff}';

/// A text with an index of its lines.
#[derive(Clone, Debug)]
pub struct Text {
    whole: String,
    /// Whether the editor ends lines with CR alone. Here they end with LF.
    old_ends: bool,
    lines: LineIndex,
}

impl Text {
    /// Takes a text as the editor has it.
    #[must_use]
    pub fn new(whole: String) -> Self {
        let mut text = Self { lines: LineIndex::new(""), whole, old_ends: false };
        text.settle();
        text
    }

    /// Converts line ends to LF and indexes the lines.
    fn settle(&mut self) {
        if let Cow::Owned(whole) = line_ends(&self.whole) {
            self.whole = whole;
            self.old_ends = true;
        }
        self.lines = LineIndex::new(&self.whole);
    }

    /// The text without a byte-order mark.
    #[must_use]
    pub fn as_str(&self) -> &str {
        self.whole.strip_prefix(MARK).unwrap_or(&self.whole)
    }

    /// Length of the byte-order mark in bytes; 0 if there is none.
    fn mark(&self) -> usize {
        self.whole.len() - self.as_str().len()
    }

    /// Line and column of a byte. A byte within a character counts as its start, a byte past the
    /// end as the end.
    #[must_use]
    pub fn position(&self, byte: u32, encoding: Encoding) -> Position {
        let at = self.whole.floor_char_boundary((byte as usize).saturating_add(self.mark()));
        let at = TextSize::new(u32::try_from(at).unwrap_or(u32::MAX));
        let Some(place) = self.lines.try_line_col(at) else { return Position::default() };
        let column = match encoding {
            Encoding::Utf8 => place.col,
            Encoding::Utf16 => {
                self.lines.to_wide(WideEncoding::Utf16, place).map_or(place.col, |wide| wide.col)
            }
        };
        Position { line: place.line, character: column }
    }

    /// The range between two bytes.
    #[must_use]
    pub fn range(&self, start: u32, end: u32, encoding: Encoding) -> Range {
        let start = self.position(start, encoding);
        Range { start, end: self.position(end, encoding).max(start) }
    }

    /// The byte at a line and a column. A column past the end of a line means the end of its text,
    /// a line past the last means the end of the text, and a column within a character means the
    /// character's start.
    #[must_use]
    pub fn byte(&self, position: Position, encoding: Encoding) -> usize {
        self.whole_byte(position, encoding).saturating_sub(self.mark())
    }

    /// The same, counting the byte-order mark.
    fn whole_byte(&self, position: Position, encoding: Encoding) -> usize {
        let Some(range) = self.lines.line(position.line) else { return self.whole.len() };
        let start = usize::from(range.start());
        let line = self.whole.get(start..usize::from(range.end())).unwrap_or("");
        let line = line.strip_suffix('\n').unwrap_or(line);
        let line = line.strip_suffix('\r').unwrap_or(line);
        start + column_byte(line, position.character as usize, encoding)
    }

    /// Replaces a range, or the whole text.
    pub fn replace(&mut self, range: Option<Range>, text: &str, encoding: Encoding) {
        match range {
            None => {
                self.old_ends = false;
                text.clone_into(&mut self.whole);
            }
            Some(range) => {
                let start = self.whole_byte(range.start, encoding);
                let end = self.whole_byte(range.end, encoding).max(start);
                let text = if self.old_ends { line_ends(text) } else { Cow::Borrowed(text) };
                self.whole.replace_range(start..end, &text);
            }
        }
        self.settle();
    }
}

/// Byte offset of a column in a line.
fn column_byte(line: &str, column: usize, encoding: Encoding) -> usize {
    if encoding == Encoding::Utf8 {
        return line.floor_char_boundary(column);
    }
    let mut units = 0;
    for (at, sign) in line.char_indices() {
        units += sign.len_utf16();
        if units > column {
            return at;
        }
    }
    line.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(line: u32, character: u32) -> Position {
        Position { line, character }
    }

    const BOTH: [Encoding; 2] = [Encoding::Utf8, Encoding::Utf16];

    /// Each character's position converts back to the same byte, in difficult texts.
    #[test]
    fn every_byte_comes_back() {
        for text in ["", "a", "Žofie\n𝄞 x\r\nend", "\u{feff}ab\nč", "\n\n", "a\r\n\r\nb\n"] {
            let text = Text::new(text.to_owned());
            for encoding in BOTH {
                let ends = std::iter::once(text.as_str().len());
                let starts = text.as_str().char_indices().map(|(byte, _)| byte).chain(ends);
                // No column reaches the line feed of a CRLF.
                let reached = |byte: &usize| !text.as_str()[..*byte].ends_with('\r');
                for byte in starts.filter(reached) {
                    let place = text.position(u32::try_from(byte).unwrap(), encoding);
                    assert_eq!(text.byte(place, encoding), byte, "{:?} {place:?}", text.as_str());
                }
            }
        }
    }

    #[test]
    fn columns_count_units_or_bytes() {
        let text = Text::new("Ž𝄞x\nb".to_owned());
        assert_eq!(text.position(6, Encoding::Utf16), at(0, 3));
        assert_eq!(text.position(6, Encoding::Utf8), at(0, 6));
        assert_eq!(text.byte(at(0, 3), Encoding::Utf16), 6);
        // Within the clef: the result is its start.
        assert_eq!(text.byte(at(0, 2), Encoding::Utf16), 2);
        assert_eq!(text.byte(at(0, 4), Encoding::Utf8), 2);
        assert_eq!(text.position(4, Encoding::Utf16), at(0, 1));
    }

    /// A file from old Mac programs, and text typed into it.
    #[test]
    fn lines_end_with_a_carriage_return_where_nothing_else_ends_them() {
        let mut text = Text::new("ab\rc\r".to_owned());
        assert_eq!(text.as_str(), "ab\nc\n");
        assert_eq!(text.position(4, Encoding::Utf16), at(1, 1));
        text.replace(Some(Range { start: at(1, 1), end: at(1, 1) }), "\rd", Encoding::Utf16);
        assert_eq!(text.as_str(), "ab\nc\nd\n");
        // The first line end that is typed.
        let mut text = Text::new("ab".to_owned());
        text.replace(Some(Range { start: at(0, 1), end: at(0, 1) }), "\r", Encoding::Utf16);
        assert_eq!(text.byte(at(1, 0), Encoding::Utf16), 2);
        // Among other line ends, it does not end a line.
        let text = Text::new("a\rb\nc".to_owned());
        assert_eq!(text.position(2, Encoding::Utf16), at(0, 2));
        assert_eq!(text.byte(at(1, 0), Encoding::Utf16), 4);
    }

    #[test]
    fn what_lies_outside_is_brought_in() {
        let text = Text::new("ab\r\nc".to_owned());
        for encoding in BOTH {
            assert_eq!(text.byte(at(0, 99), encoding), 2);
            assert_eq!(text.byte(at(0, u32::MAX), encoding), 2);
            assert_eq!(text.byte(at(9, 0), encoding), 5);
            assert_eq!(text.byte(at(u32::MAX, u32::MAX), encoding), 5);
            assert_eq!(text.position(u32::MAX, encoding), at(1, 1));
        }
    }

    #[test]
    fn a_mark_counts_for_the_editor_only() {
        let mut text = Text::new("\u{feff}gym X\n".to_owned());
        assert_eq!(text.as_str(), "gym X\n");
        assert_eq!(text.position(4, Encoding::Utf16), at(0, 5));
        assert_eq!(text.position(4, Encoding::Utf8), at(0, 7));
        assert_eq!(text.byte(at(0, 5), Encoding::Utf16), 4);
        assert_eq!(text.byte(at(0, 0), Encoding::Utf16), 0);
        text.replace(Some(Range { start: at(0, 5), end: at(0, 6) }), "Y", Encoding::Utf16);
        assert_eq!(text.as_str(), "gym Y\n");
    }

    #[test]
    fn edits_go_where_they_say() {
        let mut text = Text::new("a 𝄞 b\r\nc\n".to_owned());
        let range = |from, to| Some(Range { start: from, end: to });
        text.replace(range(at(0, 2), at(0, 4)), "é", Encoding::Utf16);
        assert_eq!(text.as_str(), "a é b\r\nc\n");
        text.replace(range(at(0, 5), at(1, 0)), "\n", Encoding::Utf16);
        assert_eq!(text.as_str(), "a é b\nc\n");
        // Reversed and far outside: nothing is lost that the range does not cover.
        text.replace(range(at(9, 0), at(0, 0)), "!", Encoding::Utf16);
        assert_eq!(text.as_str(), "a é b\nc\n!");
        text.replace(None, "new", Encoding::Utf8);
        assert_eq!(text.as_str(), "new");
    }
}
