//! A cell of a table for a spreadsheet.

use std::borrow::Cow;

/// A text as a cell. A spreadsheet would run a text that begins with `=`, `+`, `-`, `@`, a tab or a
/// return as a formula, and some names come from other people's files: such a text gets an
/// apostrophe before it, which says "text" to spreadsheets (the usual counsel against what is called
/// formula injection; common practice, no source). Numbers are no texts: -20 stays a number.
pub fn text(text: &str) -> Cow<'_, str> {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

#[cfg(test)]
mod tests {
    use super::text;

    #[test]
    fn no_text_runs_as_a_formula() {
        for formula in ["=1+1", "+cmd", "-2+3", "@SUM(A1)", "\t=1", "\r=1"] {
            assert_eq!(text(formula), format!("'{formula}"));
        }
        for plain in ["", "Deadlift", "A1", "1-2", "'=1"] {
            assert_eq!(text(plain), plain);
        }
    }
}
