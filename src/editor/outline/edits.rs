//! The changes that the standard format makes, line by line.

use crate::diagnostics::has_errors;
use crate::source::FileId;
use crate::syntax;

/// A range of bytes and its replacement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutlineEdit {
    /// The first byte.
    pub start: usize,
    /// The byte after the last.
    pub end: usize,
    /// The new text.
    pub text: String,
}

/// The edits that bring a text into the standard format of `setwright fmt`, in order, each within
/// one line. A text with an error is left as it is. Line ends are left as the editor has them.
#[must_use]
pub fn formatting(text: &str) -> Vec<OutlineEdit> {
    let (document, problems) = syntax::parse(text, FileId(1));
    if has_errors(&problems) {
        return Vec::new();
    }
    syntax::format(&document, text).map_or_else(Vec::new, |wanted| line_edits(text, &wanted))
}

/// The edits that turn one text into another. Formatting changes lines and removes blank ones, so a
/// blank line that is not wanted is a deletion, and any other difference is a change.
fn line_edits(text: &str, wanted: &str) -> Vec<OutlineEdit> {
    let mut edits = Vec::new();
    let mut wanted = wanted.lines().peekable();
    let mut at = 0;
    for raw in text.split_inclusive('\n') {
        let said = raw.trim_end_matches('\n').trim_end_matches('\r');
        let next = wanted.peek().copied();
        let (start, end) = (at, at + raw.len());
        at = end;
        match next {
            Some(line) if line == said => {
                wanted.next();
                if !raw.ends_with('\n') {
                    edits.push(OutlineEdit { start: end, end, text: "\n".to_owned() });
                }
            }
            Some(line) if said.trim().is_empty() == line.is_empty() => {
                wanted.next();
                let newline = if raw.ends_with('\n') { "" } else { "\n" };
                let text = format!("{line}{newline}");
                edits.push(OutlineEdit { start, end: start + said.len(), text });
            }
            _ => edits.push(OutlineEdit { start, end, text: String::new() }),
        }
    }
    let rest: String = wanted.flat_map(|line| [line, "\n"]).collect();
    if !rest.is_empty() {
        edits.push(OutlineEdit { start: at, end: at, text: rest });
    }
    edits
}

#[cfg(test)]
mod tests {
    use super::*;

    fn applied(text: &str, edits: &[OutlineEdit]) -> String {
        let mut out = text.to_owned();
        for edit in edits.iter().rev() {
            out.replace_range(edit.start..edit.end, &edit.text);
        }
        out
    }

    #[test]
    fn edits_are_few_and_make_the_canonical_form() {
        let text = "\n\ngym Shed\n    bar: 20 kg\n\n\n    plates:  20 kg x 4";
        let (document, _) = syntax::parse(text, FileId(1));
        let wanted = syntax::format(&document, text).unwrap();
        let edits = formatting(text);
        assert_eq!(applied(text, &edits), wanted);
        assert_eq!(formatting(&wanted), []);
        let dos = text.replace('\n', "\r\n");
        assert_eq!(applied(&dos, &formatting(&dos)).replace("\r\n", "\n"), wanted);
        let one = wanted.replace("plates: ", "plates:  ");
        assert_eq!(formatting(&one).len(), 1);
    }

    #[test]
    fn any_text_becomes_any_other() {
        for (text, wanted) in [("", "a\n"), ("a", ""), ("a\n\nb", "b\na\n\n"), ("\n\n", "x\n\ny\n")]
        {
            assert_eq!(applied(text, &line_edits(text, wanted)), wanted, "{text:?}");
        }
    }

    #[test]
    fn a_text_with_an_error_stays() {
        assert_eq!(formatting("gym Shed\n      bar 20 kilos\n"), []);
    }
}
