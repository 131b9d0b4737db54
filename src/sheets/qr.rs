//! QR codes: links that a phone can read from paper.

use fast_qr::{ECL, QRBuilder};

use super::layout::{Fragment, Ink, Rect, Shape, count};

/// Least side of a code without its quiet zone: 15 mm, in points.
const LEAST_SIDE: f32 = 15.0 * 72.0 / 25.4;
/// Least side of a module: 0.4 mm, in points. Phones read smaller ones from a screen, but not from
/// paper in a gym. Common practice, no source.
const LEAST_MODULE: f32 = 0.4 * 72.0 / 25.4;
/// Width of the quiet zone around a code, in modules (ISO/IEC 18004: four).
const QUIET: u8 = 4;
/// Maximum number of modules on a side; a larger code does not fit on a card.
const MOST_MODULES: usize = 117;

/// Whether a text is a link that a phone can open.
#[must_use]
pub fn is_link(text: &str) -> bool {
    let text = text.trim();
    let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
    rest.is_some_and(|rest| !rest.is_empty() && !rest.contains(char::is_whitespace))
}

/// The code of a link, at least 15 mm wide: see [`code_of`].
#[must_use]
pub fn code(link: &str) -> Option<Fragment> {
    code_of(link, LEAST_SIDE)
}

/// The code of a link, with its quiet zone. Without it, the code is at least `least` points wide.
/// It can be read if up to 15 % is damaged (level M). In a PDF it is also a link. `None` if the
/// text is not a link, or so long that the code would be too fine or too large.
#[must_use]
pub fn code_of(link: &str, least: f32) -> Option<Fragment> {
    if !is_link(link) {
        return None;
    }
    let link = uri(link.trim());
    let code = QRBuilder::new(link.as_str()).ecl(ECL::M).build().ok()?;
    if code.size > MOST_MODULES {
        return None;
    }
    let modules = count(code.size);
    // In tenths of a point, as in the PDF, so that all modules have the same size.
    let module = ((least / modules).max(LEAST_MODULE) * 10.0).ceil() / 10.0;
    let quiet = f32::from(QUIET) * module;
    let side = modules * module + 2.0 * quiet;
    let mut out = Fragment::space(side, side);
    out.draw(Shape::Link { rect: Rect::new(0.0, 0.0, side, side), to: link });
    let mut rects = Vec::new();
    for (y, row) in code.data.chunks(code.size.max(1)).take(code.size).enumerate() {
        let row: Vec<bool> = row.iter().map(|module| module.value()).collect();
        // Adjacent modules form one rectangle.
        let mut x = 0;
        for run in row.chunk_by(|a, b| a == b) {
            if run.first() == Some(&true) {
                let place = |at: usize| quiet + count(at) * module;
                let rect = Rect::new(place(x), place(y), count(run.len()) * module, module);
                rects.push(rect);
            }
            x += run.len();
        }
    }
    out.draw(Shape::Mosaic { rects, ink: Ink::Black });
    Some(out)
}

/// A link in ASCII, with other bytes escaped (RFC 3986, 2.1).
fn uri(link: &str) -> String {
    let byte = |byte: u8| match byte {
        b'!'..=b'~' => char::from(byte).to_string(),
        _ => format!("%{byte:02X}"),
    };
    link.bytes().map(byte).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_big_enough_and_quiet_around() {
        let mm = |points: f32| points * 25.4 / 72.0;
        for length in [1, 20, 80, 300, 600] {
            let link = format!("https://example.org/{}", "x".repeat(length));
            let code = code(&link).unwrap();
            let Some(Shape::Mosaic { rects, .. }) = code.items.last() else { panic!("no code") };
            let left = rects.iter().map(|r| r.x).fold(f32::MAX, f32::min);
            let right = rects.iter().map(Rect::right).fold(0.0, f32::max);
            assert!(mm(right - left) >= 15.0, "{length}: {}", mm(right - left));
            assert!(mm(code.w) < 60.0, "{length}: {}", mm(code.w));
            let module = rects[0].h;
            assert!(left >= 4.0 * module - 0.01 && code.w - right >= 4.0 * module - 0.01);
            assert!(mm(module) >= 0.4 && (module * 10.0).fract().abs() < 0.01);
        }
    }

    #[test]
    fn links_are_in_ascii() {
        let code = code(" https://example.org/ä%20b ").unwrap();
        let to = code.items.iter().find_map(|item| match item {
            Shape::Link { to, .. } => Some(to.as_str()),
            _ => None,
        });
        assert_eq!(to, Some("https://example.org/%C3%A4%20b"));
    }

    #[test]
    fn only_links_of_a_sane_length_have_a_code() {
        for text in ["ask the coach", "https://", "javascript:alert(1)", "https://a b", ""] {
            assert!(code(text).is_none(), "{text}");
        }
        assert!(code(&format!("https://example.org/{}", "x".repeat(5_000))).is_none());
    }
}
