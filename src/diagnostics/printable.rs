//! Makes untrusted text safe for a terminal. Names, paths and lines come from files that others wrote,
//! and a terminal acts on control characters.

use std::borrow::Cow;

/// A text in which nothing but line ends steers a terminal: C0 controls as their pictures (U+2400
/// and on), C1 controls and marks that turn the direction of writing as a sign of the same length in
/// UTF-8, so that spans still hold.
#[must_use]
pub fn printable(text: &str) -> Cow<'_, str> {
    shown(text, |sign| match sign {
        '\n' => None,
        '\u{7f}' => Some('\u{2421}'),
        '\0'..='\u{1f}' => char::from_u32(0x2400 + u32::from(sign)),
        _ => same_length(sign),
    })
}

/// A line of a file, to be shown by what shows C0 controls as pictures itself; no byte moves.
pub(super) fn line(text: &str) -> Cow<'_, str> {
    shown(text, same_length)
}

/// The same for text that is in colour already: of what begins with an escape only codes of colour
/// and weight stay.
#[must_use]
pub fn coloured(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|sign| sign != '\n' && instead(sign).is_some()) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('\u{1b}') {
        let (before, code) = rest.split_at(at);
        out.push_str(&printable(before));
        let end = code.find('m').filter(|end| {
            let inner = code.get(1..*end).and_then(|inner| inner.strip_prefix('['));
            inner.is_some_and(|inner| inner.bytes().all(|b| b.is_ascii_digit() || b == b';'))
        });
        let length = end.map_or(1, |end| end + 1);
        let (code, after) = code.split_at(length);
        out.push_str(if end.is_some() { code } else { "\u{241b}" });
        rest = after;
    }
    out.push_str(&printable(rest));
    Cow::Owned(out)
}

fn instead(sign: char) -> Option<char> {
    if sign.is_ascii_control() { Some(' ') } else { same_length(sign) }
}

/// C1 controls have two bytes; marks of direction and separators of lines, which a terminal may act
/// on, three.
fn same_length(sign: char) -> Option<char> {
    match sign {
        '\u{80}'..='\u{9f}' => Some('¿'),
        '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => Some('\u{fffd}'),
        _ => None,
    }
}

fn shown(text: &str, instead: impl Fn(char) -> Option<char>) -> Cow<'_, str> {
    if text.chars().any(|sign| instead(sign).is_some()) {
        text.chars().map(|sign| instead(sign).unwrap_or(sign)).collect()
    } else {
        Cow::Borrowed(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn controls_are_pictures_and_letters_stay() {
        assert_eq!(printable("Zoë\n→ 5 kg"), "Zoë\n→ 5 kg");
        assert_eq!(printable("a\u{1b}]0;b\u{7}\u{7f}"), "a␛]0;b␇␡");
        let (written, said) = ("x\u{9b}31m\u{202e}y", printable("x\u{9b}31m\u{202e}y"));
        assert_eq!((said.len(), &*said), (written.len(), "x¿31m\u{fffd}y"));
    }

    #[test]
    fn of_escapes_only_colours_stay() {
        assert_eq!(coloured("\u{1b}[1mbold\u{1b}[0m"), "\u{1b}[1mbold\u{1b}[0m");
        assert_eq!(coloured("\u{1b}[2J\u{1b}]0;x\u{7}\u{1b}"), "␛[2J␛]0;x␇␛");
        assert_eq!(coloured("\u{1b}[1;31mred\u{9b}2J"), "\u{1b}[1;31mred¿2J");
    }
}
