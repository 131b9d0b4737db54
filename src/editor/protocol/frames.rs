//! Reads messages from a stream of bytes. Memory grows only with the bytes that arrive, whatever a
//! header claims. After invalid input, the next valid message is found again.

use std::io::{self, BufRead};

use lsp_server::Message;

use crate::bounds::MESSAGE_BYTES;

/// The header field with the length of a message.
const FIELD: &[u8] = b"content-length";
/// Number of bytes kept of a header line that does not end. Fields that matter are shorter.
const KEPT: usize = 128;
/// Length in bytes above which a header line is cut to [`KEPT`].
const LONGEST: usize = 4096;

/// The messages of a stream.
pub struct Frames<R> {
    input: R,
    /// Bytes that are read again before `input`, and how many of them have been read.
    again: (Vec<u8>, usize),
    /// Whether invalid input has been reported. It is reset by the next message.
    is_lost: bool,
}

/// The length according to the header lines read so far.
#[derive(Debug, Default, PartialEq, Eq)]
enum Length {
    /// No length yet.
    #[default]
    Missing,
    /// A valid length in bytes.
    Known(usize),
    /// An unusable length, and why.
    Bad(&'static str),
}

/// A line of a header.
#[derive(Debug, PartialEq, Eq)]
enum Line {
    /// The empty line that ends a header.
    Blank,
    /// A length; `true` if other bytes precede it, which belong to no header.
    Length(Option<usize>, bool),
    /// Another field.
    Other,
    /// Not a header line.
    Garbage,
}

impl<R: BufRead> Frames<R> {
    pub fn new(input: R) -> Self {
        Self { input, again: (Vec::new(), 0), is_lost: false }
    }

    /// The next message; `None` at the end. Input that is skipped on the way is reported once.
    pub fn next(&mut self, report: &mut dyn FnMut(&str)) -> io::Result<Option<Message>> {
        let mut length = Length::Missing;
        let mut line = Vec::new();
        loop {
            if !self.line(&mut line)? {
                return Ok(None);
            }
            length = match (parsed(&line), length) {
                (Line::Blank, Length::Known(length)) => {
                    if let Some(message) = self.message(length, report)? {
                        self.is_lost = false;
                        return Ok(Some(message));
                    }
                    Length::Missing
                }
                // Clients may send empty lines between messages.
                (Line::Blank, Length::Missing) => Length::Missing,
                (Line::Blank, Length::Bad(why)) => {
                    self.lost(why, report);
                    Length::Missing
                }
                (Line::Other, Length::Missing) => Length::Bad("a header without Content-Length"),
                (Line::Other, length) => length,
                (Line::Garbage, _) => {
                    self.lost("a line that is not part of a message", report);
                    Length::Missing
                }
                (Line::Length(found, is_glued), before) => {
                    if is_glued {
                        self.lost("bytes that are not part of a message", report);
                    }
                    match (found, before) {
                        (None, _) => Length::Bad("a Content-Length that is not a length"),
                        (Some(found), Length::Known(before)) if found != before && !is_glued => {
                            Length::Bad("two different Content-Length fields")
                        }
                        (Some(found), _) if found > MESSAGE_BYTES => {
                            Length::Bad("a message that is longer than any may be")
                        }
                        (Some(found), _) => Length::Known(found),
                    }
                }
            };
        }
    }

    fn lost(&mut self, why: &str, report: &mut dyn FnMut(&str)) {
        if !std::mem::replace(&mut self.is_lost, true) {
            report(why);
        }
    }

    /// The next bytes in the buffer; empty at the end.
    fn fill(&mut self) -> io::Result<&[u8]> {
        let (again, at) = &self.again;
        if *at < again.len() {
            return Ok(again.get(*at..).unwrap_or_default());
        }
        self.input.fill_buf()
    }

    fn consume(&mut self, count: usize) {
        let (again, at) = &mut self.again;
        if *at < again.len() {
            *at += count;
        } else {
            self.input.consume(count);
        }
    }

    /// Puts bytes back to be read again.
    fn unread(&mut self, mut bytes: Vec<u8>) {
        bytes.extend_from_slice(self.again.0.get(self.again.1..).unwrap_or_default());
        self.again = (bytes, 0);
    }

    /// The next line without its end; of a very long line, its last bytes. Returns `false` at the
    /// end.
    fn line(&mut self, line: &mut Vec<u8>) -> io::Result<bool> {
        line.clear();
        loop {
            let chunk = self.fill()?;
            if chunk.is_empty() {
                return Ok(false);
            }
            let end = chunk.iter().position(|byte| *byte == b'\n');
            let count = end.map_or(chunk.len(), |end| end + 1);
            line.extend_from_slice(chunk.get(..count).unwrap_or_default());
            self.consume(count);
            if line.len() > LONGEST {
                line.drain(..line.len() - KEPT);
            }
            if end.is_some() {
                line.pop();
                line.pop_if(|byte| *byte == b'\r');
                return Ok(true);
            }
        }
    }

    /// The message of so many bytes. `None` if there is none; its bytes are then read again as
    /// lines, because the next header may be among them.
    fn message(
        &mut self,
        length: usize,
        report: &mut dyn FnMut(&str),
    ) -> io::Result<Option<Message>> {
        let mut body = Vec::new();
        while body.len() < length {
            let chunk = self.fill()?;
            if chunk.is_empty() {
                break;
            }
            let chunk = chunk.get(..length - body.len()).unwrap_or(chunk);
            let (count, from) = (chunk.len(), body.len().saturating_sub(KEPT));
            body.extend_from_slice(chunk);
            self.consume(count);
            // The bytes of a message cannot contain a header, because a JSON string contains no
            // line end. So the length was wrong.
            if let Some(at) = header_in(&body, from) {
                self.lost("a message that is shorter than its Content-Length", report);
                self.unread(body.split_off(at));
                return Ok(None);
            }
        }
        match serde_json::from_slice(&body) {
            Ok(message) => Ok(Some(message)),
            Err(error) => {
                self.lost(&format!("a message that cannot be read: {error}"), report);
                self.unread(body);
                Ok(None)
            }
        }
    }
}

/// Parses a line of a header.
fn parsed(line: &[u8]) -> Line {
    if line.is_empty() {
        return Line::Blank;
    }
    if let Some((start, value)) = field(line) {
        let value = value.trim_ascii();
        let is_number = !value.is_empty() && value.iter().all(u8::is_ascii_digit);
        // A number that does not fit is larger than any message.
        let number = str::from_utf8(value).ok().filter(|_| is_number);
        let number = number.map(|number| number.parse().unwrap_or(usize::MAX));
        return Line::Length(number, start > 0);
    }
    let name = line.split(|byte| *byte == b':').next().unwrap_or_default();
    let is_name = |byte: &u8| byte.is_ascii_alphanumeric() || *byte == b'-';
    let is_field = name.len() < line.len() && !name.is_empty() && name.iter().all(is_name);
    if is_field { Line::Other } else { Line::Garbage }
}

/// The last length field in a line: where it starts, and its value.
fn field(line: &[u8]) -> Option<(usize, &[u8])> {
    let colons = line.iter().enumerate().filter(|(_, byte)| **byte == b':');
    let mut fields = colons.filter_map(|(colon, _)| {
        let start = colon.checked_sub(FIELD.len())?;
        let is_it = line.get(start..colon)?.eq_ignore_ascii_case(FIELD);
        is_it.then_some((start, line.get(colon + 1..)?))
    });
    fields.next_back()
}

/// Start of a header within the bytes of a message, from an offset on: a length that ends its line.
fn header_in(body: &[u8], from: usize) -> Option<usize> {
    let mut at = from;
    let rest = body.get(from..)?;
    for line in rest.split_inclusive(|byte| *byte == b'\n') {
        if let Some(text) = line.strip_suffix(b"\n")
            && let Some((start, value)) = field(text)
            && value.trim_ascii().iter().all(u8::is_ascii_digit)
        {
            return Some(at + start);
        }
        at += line.len();
    }
    None
}

#[cfg(test)]
mod tests {
    use std::io::BufReader;

    use super::*;

    fn framed(body: &str) -> String {
        format!("Content-Length: {}\r\n\r\n{body}", body.len())
    }

    fn asking(id: i32) -> String {
        format!("{{\"jsonrpc\":\"2.0\",\"id\":{id},\"method\":\"hover\"}}")
    }

    /// The ids of all requests in some bytes, and the number of reports.
    fn heard(bytes: &[u8]) -> (Vec<String>, usize) {
        // With a small buffer, fields and lines are cut anywhere.
        let mut frames = Frames::new(BufReader::with_capacity(7, bytes));
        let (mut ids, mut reports) = (Vec::new(), 0);
        while let Some(message) = frames.next(&mut |_| reports += 1).unwrap() {
            if let Message::Request(request) = message {
                ids.push(request.id.to_string());
            }
        }
        (ids, reports)
    }

    #[test]
    fn well_formed_messages_are_read() {
        let text = framed(&asking(1)) + &framed(&asking(2));
        assert_eq!(heard(text.as_bytes()), (vec!["1".into(), "2".into()], 0));
        let typed = "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n";
        let text = format!("{typed}{}", framed(&asking(3)));
        assert_eq!(heard(text.as_bytes()), (vec!["3".into()], 0));
        // Line feeds alone, other case, no space after the colon, a repeated field.
        let body = asking(4);
        let n = body.len();
        for header in [
            format!("Content-Length: {n}\n\n"),
            format!("content-length:{n}\r\n\r\n"),
            format!("Content-Length: {n}\r\nCONTENT-LENGTH: {n}\r\n\r\n"),
            format!("\r\n\r\nContent-Length: {n}\r\n\r\n"),
        ] {
            assert_eq!(heard((header + &body).as_bytes()), (vec!["4".into()], 0));
        }
    }

    /// A JSON string may contain what looks like a header, because it contains no line end.
    #[test]
    fn a_header_inside_a_text_is_text() {
        let body = asking(1).replace("hover", "Content-Length: 5\\r\\n\\r\\nContent-Length: 7");
        assert_eq!(heard(framed(&body).as_bytes()), (vec!["1".into()], 0));
    }

    #[test]
    fn after_any_header_the_next_message_is_read() {
        let body = asking(1);
        let n = body.len();
        let long = "x".repeat(100_000);
        let headers = [
            "Content-Length: 99999999999999\r\n\r\n".to_owned(),
            "Content-Length: 99999999999999999999999999\r\n\r\n".to_owned(),
            "Content-Length: 2147483648\r\n\r\n".to_owned(),
            "Content-Length: -5\r\n\r\n".to_owned(),
            "Content-Length: 0x20\r\n\r\n".to_owned(),
            "Content-Length: \r\n\r\n".to_owned(),
            "Content-Length: 0\r\n\r\n".to_owned(),
            "Content-Type: text\r\n\r\n".to_owned(),
            format!("Content-Length: {n}\r\nContent-Length: 7\r\n\r\n"),
            format!("Content-Length: {}\r\n\r\n", n + 5),
            format!("Content-Length: {}\r\n\r\n", n + 50),
            format!("Content-Length: {}\r\n\r\n", n - 5),
            format!("Content-Length: {}\r\n\r\n", crate::bounds::MESSAGE_BYTES),
            "\u{0}\u{1}garbage".to_owned(),
            "garbage\r\n\r\n".to_owned(),
            format!("X-Long: {long}\r\n\r\n"),
            long,
        ];
        for header in headers {
            for between in ["", &body, "{\"jsonrpc\":"] {
                let text = format!("{header}{between}{}{}", framed(&asking(2)), framed(&asking(3)));
                let (ids, reports) = heard(text.as_bytes());
                let shown = header.get(..60).unwrap_or(&header);
                assert!(ids.ends_with(&["2".into(), "3".into()]), "{shown:?} {between:?}: {ids:?}");
                assert!(reports <= 1, "{shown:?} {between:?}: {reports} reports");
            }
        }
        let mut bytes = vec![0xff, 0xfe, b'\n', 0x80];
        bytes.extend(framed(&asking(2)).bytes());
        assert_eq!(heard(&bytes), (vec!["2".into()], 1));
    }

    #[test]
    fn a_stream_may_end_anywhere() {
        let text = framed(&asking(1)) + &framed(&asking(2));
        for end in 0..text.len() {
            let (ids, _) = heard(&text.as_bytes()[..end]);
            assert!(ids.len() <= 1, "{end}");
        }
        assert_eq!(heard(b"Content-Length: 60000000\r\n\r\n{"), (Vec::new(), 1));
    }
}
