//! Comparison of names.

use std::borrow::Cow;

use unicode_normalization::UnicodeNormalization;

/// The text with accents composed with their letters (Unicode normal form C). Files from some
/// systems have them as separate characters.
#[must_use]
pub fn composed(text: &str) -> Cow<'_, str> {
    // Characters below the combining accents are never composed.
    if text.chars().all(|sign| sign < '\u{300}') || unicode_normalization::is_nfc(text) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.nfc().collect())
}

/// The form in which names are compared. Case is ignored. Spaces and hyphens between letters are
/// the same (`Push-up` is `push up`), but differ between digits. Accents may be separate from their
/// letters.
#[must_use]
pub fn fold_name(name: &str) -> String {
    if !name.is_ascii() {
        return fold_any(name);
    }
    let name = name.trim();
    if has_single_gaps(name.as_bytes()) {
        return name.to_ascii_lowercase();
    }
    fold_ascii(name.as_bytes())
}

/// Whether all gaps are single spaces, which stay as they are.
fn has_single_gaps(name: &[u8]) -> bool {
    let mut pairs = name.iter().zip(name.iter().skip(1));
    !name.contains(&b'-') && pairs.all(|pair| pair != (&b' ', &b' '))
}

/// The same for ASCII names, which are the most frequent, in a single pass.
fn fold_ascii(name: &[u8]) -> String {
    let mut folded = String::with_capacity(name.len());
    let gap = |sign: &u8| matches!(sign, b' ' | b'-');
    for (index, sign) in name.iter().enumerate() {
        if !gap(sign) {
            folded.push(char::from(sign.to_ascii_lowercase()));
            continue;
        }
        let last = folded.as_bytes().last();
        if last.is_some_and(gap) {
            continue;
        }
        let next = name.iter().skip(index).find(|sign| !gap(sign));
        let digits = [last, next].into_iter().flatten().all(u8::is_ascii_digit);
        folded.push(if digits { char::from(*sign) } else { ' ' });
    }
    folded
}

fn fold_any(name: &str) -> String {
    let mut folded = String::with_capacity(name.len());
    let name = composed(name.trim());
    let chars: Vec<char> = name.chars().flat_map(char::to_lowercase).collect();
    for (index, &sign) in chars.iter().enumerate() {
        let gap = |c: char| matches!(c, ' ' | '\u{a0}' | '-' | '‐' | '\u{2011}');
        if !gap(sign) {
            // Keyboards and phones produce two forms of the apostrophe.
            folded.push(if sign == '’' { '\'' } else { sign });
            continue;
        }
        let last = folded.chars().last();
        let next = chars.iter().skip(index).find(|c| !gap(**c));
        let digits = [last, next.copied()].into_iter().flatten().all(|c| c.is_ascii_digit());
        let mark =
            if digits && sign != '\u{a0}' { if sign == ' ' { ' ' } else { '-' } } else { ' ' };
        if !last.is_some_and(gap) {
            folded.push(mark);
        }
    }
    folded
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spaces_and_hyphens_between_letters_are_alike() {
        assert_eq!(fold_name("Push-up"), fold_name("push UP"));
        assert_eq!(fold_name("45-degree back extension"), fold_name("45 degree Back-Extension"));
        assert_eq!(fold_name("Farmer’s carry"), fold_name("farmer's carry"));
    }

    #[test]
    fn accents_may_stand_apart() {
        assert_eq!(fold_name("Z\u{30c}ofie"), fold_name("Žofie"));
        assert_eq!(composed("Žofie Łęska"), "Žofie Łęska");
    }

    #[test]
    fn plain_names_are_folded_as_all_are() {
        let names = [
            "",
            " ",
            "-",
            "--",
            "Push-up",
            " A1 - b ",
            "5-3",
            "5 - 3",
            "5 3-",
            "-5 -x",
            "x- -5",
            "Farmer's  carry",
            "a\tB",
            "\x0bA",
        ];
        for name in names {
            assert_eq!(fold_name(name), fold_any(name), "{name:?}");
        }
    }

    #[test]
    fn between_digits_they_count() {
        assert_ne!(fold_name("Wave 5-3"), fold_name("Wave 5 3"));
        assert_eq!(fold_name("Wave 5‐3 ž"), "wave 5-3 ž");
        assert_eq!(fold_name("Wave 5\u{a0}3"), "wave 5 3", "a space that holds a line together");
    }
}
