//! PDF objects (names, text strings, dates) and their syntax (ISO 32000-1, 7.3).

use std::io::Write;

use jiff::tz::Offset;
use lopdf::{Dictionary, Object, StringFormat};

use super::super::SheetError;

/// Converts lopdf's error for an object of the wrong type.
#[allow(clippy::needless_pass_by_value, reason = "handed to `map_err`")]
pub fn fault(error: lopdf::Error) -> SheetError {
    SheetError::Pdf(error.to_string())
}

/// A PDF name.
pub fn name(text: &str) -> Object {
    Object::Name(text.as_bytes().to_vec())
}

/// A text string.
pub fn text(text: &str) -> Object {
    let mut bytes = Vec::with_capacity(text.len());
    text_bytes(text, &mut bytes);
    Object::String(bytes, StringFormat::Literal)
}

/// The bytes of a text string: one for each character if `PDFDocEncoding` has all of them,
/// otherwise UTF-16.
pub fn text_bytes(text: &str, out: &mut Vec<u8>) {
    let from = out.len();
    for character in text.chars() {
        let Some(code) = short(character) else {
            out.truncate(from);
            out.extend_from_slice(&[0xfe, 0xff]);
            out.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
            return;
        };
        out.push(code);
    }
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

/// A date; `None` if the seconds are outside the calendar.
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

/// Escapes the bytes from an offset on as the content of a literal string: special bytes get a
/// backslash; balanced brackets need none.
pub fn literal(out: &mut Vec<u8>, from: usize) {
    let Some(bytes) = out.get(from..) else { return };
    let special = bytes.iter().filter(|byte| matches!(byte, b'\\' | b'\r')).count();
    if !bytes.iter().any(|byte| matches!(byte, b'(' | b')')) {
        return escape_in_place(out, from, special);
    }
    let bytes = bytes.to_vec();
    let mut open = Vec::new();
    let mut escaped = vec![false; bytes.len()];
    let mut escape = |at: usize| {
        if let Some(escaped) = escaped.get_mut(at) {
            *escaped = true;
        }
    };
    for (at, byte) in bytes.iter().enumerate() {
        match byte {
            b'(' => open.push(at),
            b')' if open.pop().is_some() => {}
            b')' | b'\\' | b'\r' => escape(at),
            _ => {}
        }
    }
    open.into_iter().for_each(&mut escape);
    out.truncate(from);
    for (byte, escaped) in bytes.into_iter().zip(escaped) {
        if escaped {
            out.push(b'\\');
        }
        out.push(if byte == b'\r' { b'r' } else { byte });
    }
}

/// The same without brackets, for this number of bytes to escape: in place, from the end.
fn escape_in_place(out: &mut Vec<u8>, from: usize, special: usize) {
    let mut read = out.len();
    let mut write = read + special;
    out.resize(write, 0);
    // When no more escapes are left, the rest is already in its place.
    while write > read && read > from {
        read -= 1;
        let Some(byte) = out.get(read).copied() else { return };
        let (byte, escaped) = match byte {
            b'\\' => (b'\\', true),
            b'\r' => (b'r', true),
            byte => (byte, false),
        };
        for byte in std::iter::once(byte).chain(escaped.then_some(b'\\')) {
            write -= 1;
            if let Some(place) = out.get_mut(write) {
                *place = byte;
            }
        }
    }
}

/// Writes an object. Writing into memory cannot fail.
pub fn write(object: &Object, out: &mut Vec<u8>) {
    match object {
        Object::Null => out.extend_from_slice(b"null"),
        Object::Boolean(value) => out.extend_from_slice(if *value { b"true" } else { b"false" }),
        Object::Integer(value) => drop(write!(out, "{value}")),
        Object::Real(value) => drop(write!(out, "{value}")),
        Object::Name(name) => write_name(name, out),
        Object::String(bytes, StringFormat::Literal) => {
            out.push(b'(');
            let from = out.len();
            out.extend_from_slice(bytes);
            literal(out, from);
            out.push(b')');
        }
        Object::String(bytes, StringFormat::Hexadecimal) => {
            out.push(b'<');
            for byte in bytes {
                let _ = write!(out, "{byte:02X}");
            }
            out.push(b'>');
        }
        Object::Array(all) => {
            out.push(b'[');
            for (at, one) in all.iter().enumerate() {
                if at > 0 {
                    out.push(b' ');
                }
                write(one, out);
            }
            out.push(b']');
        }
        Object::Dictionary(dictionary) => write_dictionary(dictionary, out),
        // A stream is always an object of the file, never part of another.
        Object::Stream(stream) => write_dictionary(&stream.dict, out),
        Object::Reference((id, generation)) => drop(write!(out, "{id} {generation} R")),
    }
}

fn write_name(name: &[u8], out: &mut Vec<u8>) {
    out.push(b'/');
    for byte in name {
        if byte.is_ascii_graphic() && !b"()<>[]{}/%#".contains(byte) {
            out.push(*byte);
        } else {
            drop(write!(out, "#{byte:02X}"));
        }
    }
}

/// Writes a dictionary.
pub fn write_dictionary(dictionary: &Dictionary, out: &mut Vec<u8>) {
    out.extend_from_slice(b"<<");
    for (key, value) in dictionary {
        write_name(key, out);
        if !matches!(
            value,
            Object::Name(_) | Object::String(..) | Object::Array(_) | Object::Dictionary(_)
        ) {
            out.push(b' ');
        }
        write(value, out);
    }
    out.extend_from_slice(b">>");
}

#[cfg(test)]
mod tests {
    use super::literal;

    /// ISO 32000-1, 7.3.4.2: special bytes in a literal string have a backslash before them.
    #[test]
    fn a_literal_string_reads_back_as_it_was() {
        for (bytes, spelled) in [
            (&b""[..], &b""[..]),
            (b"plain", b"plain"),
            (b"\\", b"\\\\"),
            (b"\ra\\\r", b"\\ra\\\\\\r"),
            (b"(a) b)", b"(a) b\\)"),
            (b"((\r)", b"\\((\\r)"),
        ] {
            let mut out = b"before ".to_vec();
            out.extend_from_slice(bytes);
            literal(&mut out, 7);
            assert_eq!(out, [b"before ", spelled].concat());
        }
    }
}
