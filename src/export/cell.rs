//! A cell of a table for a spreadsheet.

use std::borrow::Cow;

/// A text as a cell. A spreadsheet would run a text that starts with `=`, `+`, `-`, `@`, a tab or a
/// carriage return as a formula, and some names come from other people's files. Such a text gets an
/// apostrophe before it, which marks it as text (the usual protection against formula injection;
/// common practice, no source). Numbers are not texts: -20 stays a number.
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
