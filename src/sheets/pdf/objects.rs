//! Objects of PDF: names, text strings, dates.

use jiff::tz::Offset;
use lopdf::{Object, StringFormat};

use super::super::SheetError;

/// What lopdf says when an object is not what it has to be.
#[allow(clippy::needless_pass_by_value, reason = "handed to `map_err`")]
pub fn fault(error: lopdf::Error) -> SheetError {
    SheetError::Pdf(error.to_string())
}

/// A name.
pub fn name(text: &str) -> Object {
    Object::Name(text.as_bytes().to_vec())
}

/// A text string: one byte a character where PDF has a code for each, else UTF-16.
pub fn text(text: &str) -> Object {
    if let Some(bytes) = text.chars().map(short).collect::<Option<Vec<u8>>>() {
        return Object::String(bytes, StringFormat::Literal);
    }
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(bytes, StringFormat::Literal)
}

/// The code of a character in `PDFDocEncoding` (ISO 32000-1, annex D): Latin-1 with a few others.
fn short(character: char) -> Option<u8> {
    match character {
        '\u{2022}' => Some(0x80),
        '\u{2026}' => Some(0x83),
        '\u{2014}' => Some(0x84),
        '\u{2013}' => Some(0x85),
        '\u{2212}' => Some(0x8a),
        '\u{2019}' => Some(0x90),
        ' '..='~' | '\u{a1}'..='\u{ac}' | '\u{ae}'..='\u{ff}' => u8::try_from(character).ok(),
        _ => None,
    }
}

/// `None` for a second that no calendar has.
pub fn date(seconds: i64) -> Option<Object> {
    let time = Offset::UTC.to_datetime(jiff::Timestamp::from_second(seconds).ok()?);
    Some(text(&format!(
        "D:{:04}{:02}{:02}{:02}{:02}{:02}Z",
        time.year(),
        time.month(),
        time.day(),
        time.hour(),
        time.minute(),
        time.second()
    )))
}
