//! Texts from the bytes of a fuzzer. The first byte gives the kind: below a space (except tabs and
//! line ends) it means a generated programme. Anything else is the text itself, so that any file is
//! an input.
//!
//! ```text
//! 1  n  n edits of four bytes  choices of two bytes …        a generated programme, edited
//! 2  n  n edits  m  m choices of the hand  choices …         the same, written carelessly
//! 3  n  n edits  m  m choices of the log  choices …          the same with its log; only the log is edited
//! 4  m  m choices  text …                                    a generated programme, followed by a text
//! ```

use setwright::syntax::words;

use super::diary;
use super::generate::{Made, Picks};

/// The text of an input.
pub fn text(bytes: &[u8]) -> String {
    let mut rest = Bytes(bytes);
    match bytes.first() {
        Some(4) => {
            rest.next();
            let made = Made::new(&rest.some_choices());
            format!("{}\n{}", made.text(), String::from_utf8_lossy(rest.0))
        }
        Some(mode @ 1..=3) => {
            rest.next();
            let edits = rest.edits();
            let aside = if *mode > 1 { rest.some_choices() } else { Vec::new() };
            let made = Made::new(&rest.choices());
            match mode {
                1 => edited(&made.text(), &edits),
                2 => edited(&made.loose(&aside).0, &edits),
                _ => {
                    let log = diary::log(&made, &mut Picks::new(&aside));
                    format!("{}{}", made.text(), edited(&log, &edits))
                }
            }
        }
        _ => String::from_utf8_lossy(bytes).into_owned(),
    }
}

/// The text of an input with a log in it: what asks for a made programme asks for its log too.
pub fn logged(bytes: &[u8]) -> String {
    match bytes {
        [1 | 2, rest @ ..] => text(&[&[3], rest].concat()),
        _ => text(bytes),
    }
}

/// A number that goes with an input, for what a text does not say.
pub fn knobs(bytes: &[u8]) -> u32 {
    // FNV-1a (its offset and prime [M]): any change turns all of them.
    let step = |hash: u32, byte: &u8| (hash ^ u32::from(*byte)).wrapping_mul(0x0100_0193);
    bytes.iter().fold(0x811c_9dc5, step)
}

/// Bytes, one after the other; zero after the last.
struct Bytes<'a>(&'a [u8]);

impl Bytes<'_> {
    fn next(&mut self) -> u8 {
        let Some((first, rest)) = self.0.split_first() else { return 0 };
        self.0 = rest;
        *first
    }

    fn edits(&mut self) -> Vec<[u8; 4]> {
        let count = self.next() % 8;
        (0..count).map(|_| [self.next(), self.next(), self.next(), self.next()]).collect()
    }

    fn some_choices(&mut self) -> Vec<u16> {
        let count = usize::from(self.next());
        (0..count).map(|_| u16::from_le_bytes([self.next(), self.next()])).collect()
    }

    fn choices(&self) -> Vec<u16> {
        let two = |two: &[u8]| u16::from_le_bytes([two[0], two.get(1).copied().unwrap_or(0)]);
        self.0.chunks(2).map(two).collect()
    }
}

/// Signs and numbers that are near the edge of what is read.
const ODD: [&str; 40] = [
    "0",
    "1",
    "99",
    "100",
    "101",
    "1000",
    "1001",
    "104",
    "105",
    "0.5",
    "2.125",
    "99999999999999999999",
    "0.0000001",
    "1000%",
    "-100%",
    "-99%",
    "+0%",
    "5-5",
    "8-5",
    "3/4",
    "1/0",
    "0:00",
    "99:59",
    "2026-02-29",
    "2026-12-31",
    " -> ",
    " x ",
    " @ ",
    ": ",
    ", ",
    " # ",
    "×",
    "–",
    "é",
    "e\u{301}",
    "\u{a0}",
    "\u{200b}",
    "\t",
    "\u{feff}",
    "(",
];

/// A text with some changes, each at some place of it.
fn edited(text: &str, edits: &[[u8; 4]]) -> String {
    let words: Vec<&str> = words::all().into_iter().collect();
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for [kind, at, column, more] in edits {
        if lines.is_empty() {
            break;
        }
        let (at, more) = (usize::from(*at) % lines.len(), usize::from(*more));
        let line = lines[at].clone();
        let column = line.floor_char_boundary(usize::from(*column) % (line.len() + 1));
        let (before, after) = line.split_at(column);
        match kind % 12 {
            0 => lines.insert(at, line.clone()),
            1 => drop(lines.remove(at)),
            2 => {
                let other = more % lines.len();
                lines.swap(at, other);
            }
            3 => {
                let moved = lines.remove(at);
                lines.insert(more % (lines.len() + 1), moved);
            }
            4 => lines[at] = format!("{}{}", " ".repeat(more % 10), line.trim_start()),
            5 => before.clone_into(&mut lines[at]),
            6 => lines[at] = format!("{before}{}{after}", words[more % words.len()]),
            7 => lines[at] = format!("{before}{}{after}", ODD[more % ODD.len()]),
            8 => lines[at] = format!("{before}{}", after.get(more % 16..).unwrap_or("")),
            9 => lines[at] = instead(&line, column, ODD[more % ODD.len()]),
            10 => lines[at] = instead(&line, column, words[more % words.len()]),
            // The end of another line.
            _ => {
                let other = lines[more % lines.len()].clone();
                let tail = other.split_once(": ").map_or(other.as_str(), |(_, value)| value);
                lines[at] = format!("{before}{tail}");
            }
        }
    }
    let mut text = lines.join("\n");
    text.push('\n');
    text
}

/// A line with the word at a place replaced.
fn instead(line: &str, at: usize, word: &str) -> String {
    let start = line[..at].rfind(' ').map_or(0, |space| space + 1);
    let end = line[at..].find([' ', ',', ':']).map_or(line.len(), |length| at + length);
    format!("{}{word}{}", &line[..start], &line[end..])
}
