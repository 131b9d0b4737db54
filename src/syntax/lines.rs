//! Splits a file into lines with indentation, content and comment, before the grammar reads them.

use crate::bounds::LINE_BYTES;
use crate::diagnostics::{Code, Diagnostic, Edit};
use crate::source::{FileId, Span, comment_start};

/// One line of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SourceLine {
    /// Columns of indentation.
    pub indent: usize,
    /// First byte of the content.
    pub start: usize,
    /// The byte after the content (before a comment and trailing spaces).
    pub end: usize,
    /// The comment, from its `#` to the line's end.
    pub comment: Option<(usize, usize)>,
}

impl SourceLine {
    /// Whether the line has content besides a comment.
    #[must_use]
    pub fn has_content(&self) -> bool {
        self.start < self.end
    }
}

/// Splits a text into lines at LF and CRLF. Reports characters that end a line in other programs, tabs
/// in the indentation, and lines that are too long. A line that is too long is read as empty.
#[must_use]
pub fn split(text: &str, file: FileId) -> (Vec<SourceLine>, Vec<Diagnostic>) {
    split_part(text, 0, file)
}

/// Splits a part of a text that starts at a given byte of the whole.
pub(super) fn split_part(
    text: &str,
    from: usize,
    file: FileId,
) -> (Vec<SourceLine>, Vec<Diagnostic>) {
    let mut lines = Vec::new();
    let mut problems = Vec::new();
    let mut at = from;
    for raw in text.split_inclusive('\n') {
        let body = match raw.strip_suffix('\n') {
            Some(line) => line.strip_suffix('\r').unwrap_or(line),
            None => raw,
        };
        let broken = line_breaks(body, at, file);
        if let Some(found) = broken {
            problems.push(found);
            let line = one_line(body, at, file, &mut Vec::new());
            lines.push(line);
        } else if body.len() > LINE_BYTES {
            let shown = Span::new(file, at, at + body.floor_char_boundary(60));
            problems.push(
                Diagnostic::new(
                    Code::LineTooLong,
                    shown,
                    format!(
                        "this line has {} bytes, more than the limit of {LINE_BYTES}",
                        body.len()
                    ),
                )
                .help("split it into several lines"),
            );
            lines.push(SourceLine { indent: 0, start: at, end: at, comment: None });
        } else {
            lines.push(one_line(body, at, file, &mut problems));
        }
        at += raw.len();
    }
    (lines, problems)
}

/// The diagnostic for characters that end a line in other programs but not here. The text after them
/// would be read as part of the line or of its comment. All of them in one line are one problem with
/// one fix.
fn line_breaks(body: &str, at: usize, file: FileId) -> Option<Diagnostic> {
    // Most lines have none: skip them fast.
    if body.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\t')) {
        return None;
    }
    let mut breaks = body.char_indices().filter_map(|(offset, sign)| {
        let name = match sign {
            '\r' => "a carriage return",
            '\u{b}' => "a vertical tab",
            '\u{c}' => "a form feed",
            '\u{85}' => "a next-line character",
            '\u{2028}' => "a line separator",
            '\u{2029}' => "a paragraph separator",
            _ => return None,
        };
        let start = at + offset;
        Some((sign, name, Span::new(file, start, start + sign.len_utf8())))
    });
    let first = breaks.next()?;
    let (sign, name, span) = first;
    let all: Vec<Span> = std::iter::once(first).chain(breaks).map(|(_, _, span)| span).collect();
    let more = match all.len() - 1 {
        0 => String::new(),
        1 => ", and one more such character".to_owned(),
        more => format!(", and {more} more such characters"),
    };
    let code = u32::from(sign);
    let message = format!("this line contains {name} (U+{code:04X}){more}");
    let replaced = |text: &str| {
        all.iter().map(|span| Edit { span: *span, text: text.to_owned() }).collect::<Vec<_>>()
    };
    Some(
        Diagnostic::new(Code::ControlCharacter, span, message)
            .label("this does not end a line here")
            .help("start a new line with Enter, or delete the character: lines end with LF or CRLF")
            .suggest("start a new line there", replaced("\n"))
            .suggest("write a space instead", replaced(" ")),
    )
}

fn one_line(body: &str, at: usize, file: FileId, problems: &mut Vec<Diagnostic>) -> SourceLine {
    if let Some(line) = plain_line(body, at) {
        return line;
    }
    let content = body.trim_start_matches([' ', '\t', '\u{a0}']);
    let margin = body.get(..body.len() - content.len()).unwrap_or("");
    // A tab counts as two spaces, so that the lines below it get the right level.
    let indent = margin.chars().map(|c| if c == '\t' { 2 } else { 1 }).sum();
    let hash = comment_start(content);
    let said = content.get(..hash.unwrap_or(content.len())).unwrap_or("").trim_end();
    let start = at + margin.len();
    let mut before = None;
    let unseen = said.char_indices().find(|(_, sign)| is_unseen(*sign, before.replace(*sign)));
    if let Some((offset, sign)) = unseen {
        let place = start + offset;
        let code = u32::from(sign);
        problems.push(
            Diagnostic::new(
                Code::ControlCharacter,
                Span::new(file, place, place + sign.len_utf8()),
                format!(
                    "this line contains a character that cannot be {} (U+{code:04X})",
                    if sign.is_control() { "printed" } else { "seen" }
                ),
            )
            .help(match sign {
                '\t' => "use spaces between words",
                _ => "delete it or retype the word: such characters come with copied text",
            }),
        );
    }
    if margin.contains('\t') && !said.is_empty() {
        let spaces = " ".repeat(indent);
        let span = Span::new(file, at, start);
        problems.push(
            Diagnostic::new(Code::TabIndent, span, "this line is indented with a tab")
                .label("a tab")
                .help("use two spaces for each level: the width of a tab differs between editors")
                .fix(span, spaces),
        );
    }
    SourceLine {
        indent,
        start,
        end: start + said.len(),
        comment: hash.map(|hash| (start + hash, start + content.trim_end().len())),
    }
}

/// Whether a character is invisible, given the one before it. Such characters come with copied text,
/// make two names out of one and can reverse the direction of the text after them. Joiners between
/// letters of scripts that need them, and within emoji, are allowed.
fn is_unseen(sign: char, before: Option<char>) -> bool {
    match sign {
        '\u{200c}' | '\u{200d}' => before.is_none_or(|before| before < FIRST_JOINED),
        '\u{ad}'
        | '\u{200b}'
        | '\u{200e}'
        | '\u{200f}'
        | '\u{2060}'
        | '\u{feff}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2066}'..='\u{2069}' => true,
        sign => sign.is_control(),
    }
}

/// The first character of the scripts in which joiners are allowed: Hebrew. Latin, Greek and Cyrillic,
/// which need no joiners, come before it.
const FIRST_JOINED: char = '\u{590}';

/// The fast path for most lines: spaces, then plain characters without a comment. `None` for any other.
fn plain_line(body: &str, at: usize) -> Option<SourceLine> {
    let bytes = body.as_bytes();
    if !bytes.iter().fold(true, |plain, b| plain & matches!(b, b' '..=b'~' if *b != b'#')) {
        return None;
    }
    let said = body.trim_ascii_end().len();
    let indent = bytes.iter().take_while(|b| **b == b' ').count();
    // For a line of spaces, the end is the start.
    Some(SourceLine { indent, start: at + indent, end: at + said.max(indent), comment: None })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hash_opens_a_comment_only_between_spaces_or_at_the_margin() {
        let text = "a # b\nc#d\n# e\n  f\r\nrack #2\n#g\nh\u{a0}#\ni #\tj\nk #2 # l\n";
        for line in ["", " ", "  a", "  a b  ", "a", " a "] {
            let trimmed = line.trim();
            let found = plain_line(line, 7).unwrap();
            assert_eq!(found.start - 7, found.indent);
            assert_eq!(&line[found.start - 7..found.end - 7], trimmed, "{line:?}");
            assert_eq!(found.has_content(), !trimmed.is_empty());
        }
        assert!(["#", "a\t", "\u{a0}a", "é"].iter().all(|line| plain_line(line, 0).is_none()));
        let (lines, problems) = split(text, FileId(0));
        let said: Vec<&str> = lines.iter().map(|l| &text[l.start..l.end]).collect();
        assert_eq!(said, ["a", "c#d", "", "f", "rack #2", "", "h", "i", "k #2"]);
        assert_eq!(lines[3].indent, 2);
        assert!(problems.is_empty());
    }

    /// Each character that ends a line somewhere else is a problem at its place, in comments too.
    #[test]
    fn a_line_break_of_other_programs_is_a_problem() {
        for sign in ['\r', '\u{b}', '\u{c}', '\u{85}', '\u{2028}', '\u{2029}'] {
            for text in ["# a\u{0}b\n", "note: a\u{0}\u{0}\r\n", "a # b\u{0}", "\u{0} \n"] {
                let text = text.replace('\u{0}', &sign.to_string());
                let (_, problems) = split(&text, FileId(0));
                let [found] = problems.as_slice() else { panic!("{text:?}: {problems:?}") };
                assert_eq!(found.code, Code::ControlCharacter);
                assert_eq!(found.label.span.start as usize, text.find(sign).unwrap(), "{text:?}");
                // Each fix takes all of the line.
                for fix in &found.fixes {
                    let mut fixed = text.clone();
                    for edit in fix.edits.iter().rev() {
                        let place = edit.span.start as usize..edit.span.end as usize;
                        fixed.replace_range(place, &edit.text);
                    }
                    assert_eq!(split(&fixed, FileId(0)).1, [], "{fixed:?}");
                }
            }
        }
        for text in ["a\r\nb\r\n", "a\nb\n", "a\r\nb\n"] {
            assert_eq!(split(text, FileId(0)).1, [], "{text:?}");
        }
    }
}
