//! What is at a byte of a file: the block, the line, its key, and the part under the cursor.
//!
//! It works on the text of the lines, so an unfinished line gives as much information as a complete
//! one.

use crate::editor::Analysis;
use crate::source::{FileId, Span};
use crate::syntax::keys::BlockPlace;
use crate::syntax::lines::SourceLine;
use crate::syntax::place_below;

/// A position in a file, with its context.
#[derive(Clone, Debug)]
pub struct Spot<'a> {
    /// The file.
    pub file: FileId,
    /// Its whole text.
    pub text: &'a str,
    /// Its lines.
    pub lines: &'a [SourceLine],
    /// Index of the line.
    pub line: usize,
    /// The byte offset, on a character boundary.
    pub offset: usize,
    /// Indices of the lines that contain this one, outermost first.
    pub above: Vec<usize>,
    /// The block that contains the line; `None` for a line without indentation.
    pub place: Option<BlockPlace>,
    /// Start of the line's content.
    pub start: usize,
    /// End of the line's content: before trailing spaces and a comment, but never before the
    /// cursor.
    pub end: usize,
}

impl<'a> Spot<'a> {
    /// The context of a byte; `None` in a comment or if the file does not exist. A byte past the
    /// end, or inside a character, is moved back.
    pub fn at(analysis: &'a Analysis, file: FileId, offset: usize) -> Option<Self> {
        let source = analysis.sources.get(file)?;
        let text: &str = &source.text;
        let offset = text.floor_char_boundary(offset.min(text.len()));
        let lines = &analysis.document(file)?.lines;
        let number = source.line_of(u32::try_from(offset).unwrap_or(u32::MAX));
        let line = number.saturating_sub(1) as usize;
        let from = text.get(..offset)?.rfind('\n').map_or(0, |at| at + 1);
        let rest = text.get(from..)?;
        let raw = rest.split('\n').next().unwrap_or("").trim_end_matches('\r');
        // The last line of a file may be empty; then it is not in its list of lines.
        let blank = SourceLine { indent: 0, start: from, end: from, comment: None };
        let own = lines.get(line).copied().unwrap_or(blank);
        if own.comment.is_some_and(|(hash, _)| offset > hash) {
            return None;
        }
        let offset = offset.min(from + raw.len());
        let (indent, start) = if own.has_content() && own.start <= offset {
            (own.indent, own.start)
        } else {
            (text.get(from..offset)?.chars().count(), offset)
        };
        let end = if own.has_content() { own.end.max(offset) } else { offset };
        let (above, place) = above(text, lines, line, indent);
        Some(Self { file, text, lines, line, offset, above, place, start, end })
    }

    /// The content of a line.
    pub fn content(&self, line: usize) -> &'a str {
        self.lines.get(line).and_then(|line| self.text.get(line.start..line.end)).unwrap_or("")
    }

    /// The line's content up to the cursor.
    pub fn before(&self) -> &'a str {
        self.text.get(self.start..self.offset).unwrap_or("")
    }

    /// The whole content of the line.
    pub fn whole(&self) -> &'a str {
        self.text.get(self.start..self.end).unwrap_or("")
    }

    /// The key, if its colon is before the cursor.
    pub fn key(&self) -> Option<&'a str> {
        let colon = colon(self.before())?;
        Some(self.before().get(..colon)?.trim_end())
    }

    /// Start of the value, if the key's colon is before the cursor.
    pub fn value_start(&self) -> Option<usize> {
        let after = colon(self.before())? + 1;
        let value = self.before().get(after..)?;
        Some(self.start + after + (value.len() - value.trim_start().len()))
    }

    /// End of the key: its colon, otherwise the end of the content.
    pub fn key_end(&self) -> usize {
        colon(self.whole()).map_or(self.end, |colon| self.start + colon)
    }

    /// A span in this file.
    pub fn span(&self, start: usize, end: usize) -> Span {
        Span::new(self.file, start, end.max(start))
    }

    /// The text from a byte to the cursor.
    pub fn typed(&self, from: usize) -> &'a str {
        self.text.get(from..self.offset).unwrap_or("")
    }

    /// Start and end of the list item under the cursor. The list starts at `from` and ends at the
    /// end of the content.
    pub fn item(&self, from: usize) -> (usize, usize) {
        let before = self.typed(from);
        let cut = before.rfind(',').map_or(0, |comma| comma + 1);
        let item = before.get(cut..).unwrap_or("");
        let start = from + cut + (item.len() - item.trim_start().len());
        let after = self.text.get(self.offset..self.end).unwrap_or("");
        let end = self.offset + after.find(',').unwrap_or(after.len());
        let item = self.text.get(start.min(end)..end).unwrap_or("");
        let end = (start + item.trim_end().len()).max(self.offset);
        (start.min(self.offset), end)
    }

    /// The part of the list item that a completion replaces. If a space follows the cursor, a new
    /// word is being written in front of others, which stay.
    pub fn slot(&self, from: usize) -> (usize, usize) {
        let (start, end) = self.item(from);
        (start, self.kept(end))
    }

    /// End of the part of the key that a completion replaces.
    pub fn key_slot(&self) -> usize {
        self.kept(self.key_end())
    }

    fn kept(&self, end: usize) -> usize {
        let after = self.text.get(self.offset..end).unwrap_or("");
        if after.starts_with([' ', '\u{a0}']) { self.offset } else { end.max(self.offset) }
    }

    /// The other lines of the same block.
    pub fn beside(&self) -> impl Iterator<Item = usize> + use<'a, '_> {
        let parent = self.above.last().copied();
        let first = parent.map_or(0, |parent| parent + 1);
        let block = |line: &SourceLine| line.has_content();
        let floor = parent.and_then(|parent| self.lines.get(parent)).map(|line| line.indent);
        let rest = self.lines.iter().enumerate().skip(first);
        let rest = rest.filter(move |(_, line)| block(line));
        let rest = rest.take_while(move |(_, line)| floor.is_none_or(|floor| line.indent > floor));
        let mut column = None;
        rest.filter_map(move |(index, line)| {
            let column = *column.get_or_insert(line.indent);
            (line.indent <= column && index != self.line).then_some(index)
        })
    }

    /// The key of the nearest line above that starts with one of the words, without that word, and
    /// the line's index.
    pub fn above_with(&self, words: &[&str]) -> Option<(&'a str, usize)> {
        self.above.iter().rev().find_map(|&line| {
            let content = self.content(line);
            let rest = words.iter().find_map(|word| content.strip_prefix(word)?.strip_prefix(' '));
            rest.map(|rest| (rest.trim(), line))
        })
    }
}

/// Position of the colon of a key: one that is followed by a space or the end.
pub fn colon(text: &str) -> Option<usize> {
    let after = |at: usize| text.get(at + 1..).and_then(|rest| rest.chars().next());
    let colons = text.match_indices(':').map(|(at, _)| at);
    colons.into_iter().find(|at| matches!(after(*at), None | Some(' ' | '\u{a0}')))
}

/// The lines that contain a line of this indentation, outermost first, and the block it is in.
fn above(
    text: &str,
    lines: &[SourceLine],
    line: usize,
    indent: usize,
) -> (Vec<usize>, Option<BlockPlace>) {
    let mut found = Vec::new();
    let mut least = indent;
    for (index, line) in lines.iter().enumerate().take(line).rev() {
        if least == 0 {
            break;
        }
        if line.has_content() && line.indent < least {
            least = line.indent;
            found.push(index);
        }
    }
    found.reverse();
    let content = |line: &usize| {
        lines.get(*line).and_then(|line| text.get(line.start..line.end)).unwrap_or("")
    };
    let place = found.iter().fold(None, |place, line| Some(place_below(content(line), place)));
    (found, place)
}

/// The order letter that a line starts with, and where the name after it starts: `A1 Back squat`.
pub fn order(text: &str) -> Option<(&str, usize)> {
    let (order, rest) = text.split_once(' ').unwrap_or((text, ""));
    let mut signs = order.chars();
    let is_order = signs.next().is_some_and(|c| c.is_ascii_uppercase())
        && signs.as_str().len() <= 3
        && signs.all(|c| c.is_ascii_digit());
    let name = text.len() - rest.trim_start().len();
    is_order.then_some((order, name))
}

#[cfg(test)]
mod tests {
    use super::super::marked::marked;
    use super::*;

    #[test]
    fn says_the_block_of_whole_and_half_lines() {
        for (text, place, key) in [
            ("gym Club\n  bar: 2|", Some(BlockPlace::Gym), Some("bar")),
            ("gym Club\n  |", Some(BlockPlace::Gym), None),
            ("gym Club\n|", None, None),
            ("day One\n  A1 Back sq|", Some(BlockPlace::Day), None),
            ("day One\n  A1 Back squat: 3 x 5\n    we|", Some(BlockPlace::Line), None),
            (
                "day One\n  A1 Back squat 3 x 5\n    week 2: |",
                Some(BlockPlace::Line),
                Some("week 2"),
            ),
            ("day One\n  A1 Squat: 3 x 5\n    cue: Up\n      s|", Some(BlockPlace::Cue), None),
            ("scheme S\n  week 1: 3 x 5\n    when |", Some(BlockPlace::Line), None),
            ("log A: B\n  2026-01-05 week 1, One\n    A: |", Some(BlockPlace::Session), Some("A")),
            ("log A: B\n  20|", Some(BlockPlace::Log), None),
            ("gym Club\n\n\n  bar: 20 kg\n\n  pl|\n", Some(BlockPlace::Gym), None),
            ("gymm Club\n  b|", Some(BlockPlace::Gym), None),
        ] {
            let (analysis, file, at) = marked(text);
            let spot = Spot::at(&analysis, file, at).unwrap();
            assert_eq!((spot.place, spot.key()), (place, key), "{text:?}");
        }
    }

    #[test]
    fn a_comment_is_no_place() {
        let (analysis, file, at) = marked("gym Club  # bar|");
        assert!(Spot::at(&analysis, file, at).is_none());
    }

    #[test]
    fn an_order_is_a_capital_with_digits() {
        assert_eq!(order("A1 Back squat"), Some(("A1", 3)));
        assert_eq!(order("D"), Some(("D", 1)));
        assert_eq!(order("T-bar row"), None);
        assert_eq!(order("note"), None);
    }
}
