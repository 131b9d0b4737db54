//! Measured text: lines that fit, broken where Unicode allows it (UAX 14).

use std::borrow::Cow;

use unicode_linebreak::{BreakOpportunity, linebreaks};

use crate::quantity::composed;

use super::display::{Rect, Shape, Style};
use super::face::{Face, MISSING_ADVANCE};
use super::fragment::Fragment;

/// Text in one style.
#[derive(Clone, Debug, PartialEq)]
pub struct StyledText {
    /// The text.
    pub text: String,
    /// How it is set.
    pub style: Style,
}

impl StyledText {
    /// Text in a style.
    pub fn new(text: impl Into<String>, style: Style) -> Self {
        Self { text: text.into(), style }
    }
}

/// Alignment of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// At the left edge.
    Left,
    /// At the right edge.
    Right,
}

/// The printed width of a text.
#[must_use]
pub fn width(text: &str, style: Style) -> f32 {
    composed(text).chars().map(|c| advance(c, style)).sum()
}

fn advance(character: char, style: Style) -> f32 {
    Piece::new(character, style).advance
}

/// The character that is printed for a character: a no-break space becomes a space, and invisible
/// control characters are not printed.
fn glyph(character: char) -> Option<char> {
    match character {
        '\u{ad}'
        | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}' => None,
        '\u{a0}' | '\u{2000}'..='\u{200a}' | '\u{202f}' | '\u{205f}' | '\u{3000}' => Some(' '),
        '\u{2010}' | '\u{2011}' => Some('-'),
        c if c.is_control() => Some(' '),
        c => Some(c),
    }
}

/// Whether a character is printed as itself, as a space, or not at all, so that no crossed box
/// replaces it.
#[must_use]
pub fn is_set(character: char) -> bool {
    glyph(character).is_none_or(|set| Face::ALL.into_iter().all(|face| face.covers(set)))
}

/// One character with its style, from which lines are cut.
#[derive(Clone, Copy)]
struct Piece {
    character: char,
    /// The printed character, if any.
    set: Option<char>,
    /// Whether the face has it.
    covered: bool,
    style: Style,
    advance: f32,
}

impl Piece {
    fn new(character: char, style: Style) -> Self {
        let set = glyph(character);
        let advance = set.map(|set| style.face.known_advance(set));
        let covered = advance.is_some_and(|known| known.is_some());
        let advance = advance.map_or(0.0, |known| known.unwrap_or(MISSING_ADVANCE) * style.size);
        Self { character, set, covered, style, advance }
    }
}

/// Sets text in lines no wider than `max`, one fragment for each line, each `max` wide.
///
/// A word that is wider than a line is broken between characters, so nothing overflows.
#[must_use]
pub fn lines(spans: &[StyledText], max: f32, align: Align) -> Vec<Fragment> {
    lines_after(0.0, spans, max, align)
}

/// The same, with an indent before the first line.
#[must_use]
pub fn lines_after(indent: f32, spans: &[StyledText], max: f32, align: Align) -> Vec<Fragment> {
    lines_in(indent, spans, |_| max, align)
}

/// The same, with a width for each line, counted from 0.
#[must_use]
pub fn lines_in(
    indent: f32,
    spans: &[StyledText],
    room: impl Fn(usize) -> f32,
    align: Align,
) -> Vec<Fragment> {
    let spans: Vec<(Cow<'_, str>, Style)> =
        spans.iter().map(|span| (composed(&span.text), span.style)).collect();
    let whole: Cow<'_, str> = match spans.as_slice() {
        [(only, _)] => Cow::Borrowed(only),
        several => several.iter().map(|(text, _)| text.as_ref()).collect(),
    };
    if whole.trim().is_empty() {
        return Vec::new();
    }
    let mut pieces = Vec::with_capacity(whole.len());
    for (text, style) in &spans {
        pieces.extend(text.chars().map(|c| Piece::new(c, *style)));
    }
    let first = room(0) - indent;
    // Most texts are short, so check for a single line first.
    let lines = if fits_in_one(&pieces, first) {
        vec![pieces.as_slice()]
    } else {
        cut(&whole, &pieces, |line| if line == 0 { first } else { room(line) })
    };
    let lines = lines.into_iter().enumerate();
    lines
        .map(|(at, line)| match at {
            0 if indent > 0.0 => set_line(line, &whole, first, align).padded(indent, 0.0, 0.0, 0.0),
            0 => set_line(line, &whole, first, align),
            _ => set_line(line, &whole, room(at), align),
        })
        .collect()
}

/// Whether the pieces fit on one line and contain no mandatory break (UAX 14, LB4 and LB5).
fn fits_in_one(pieces: &[Piece], room: f32) -> bool {
    let ends = |piece: &Piece| {
        matches!(
            piece.character,
            '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}'
        )
    };
    visible_width(pieces) <= room + SLACK && !pieces.iter().any(ends)
}

/// Tolerance for sums of advances, in points.
const SLACK: f32 = 0.01;

/// Divides the pieces into lines.
fn cut<'a>(whole: &str, pieces: &'a [Piece], room: impl Fn(usize) -> f32) -> Vec<&'a [Piece]> {
    // Break opportunities are in bytes, pieces in characters.
    let mut out: Vec<&[Piece]> = Vec::new();
    let mut rest = pieces;
    let mut line = 0;
    let mut done_bytes = 0;
    let mut so_far = Reach::default();
    for (at, kind) in linebreaks(whole) {
        let word = whole.get(done_bytes..at).map_or(0, |text| text.chars().count());
        done_bytes = at;
        let next = rest.get(line..line + word).unwrap_or_default();
        let with_word = so_far.with(next);
        if with_word.visible > room(out.len()) + SLACK && line > 0 {
            let (head, tail) = rest.split_at(line);
            out.push(head);
            rest = tail;
            line = 0;
            so_far = Reach::default().with(next);
        } else {
            so_far = with_word;
        }
        line += word;
        // What is left is one word: break it where it stops fitting.
        while so_far.visible > room(out.len()) + SLACK {
            let max = room(out.len());
            let mut used = 0.0;
            let fitting = rest
                .iter()
                .take_while(|piece| {
                    used += piece.advance;
                    used <= max
                })
                .count()
                .clamp(1, line);
            let (head, tail) = rest.split_at(fitting);
            out.push(head);
            rest = tail;
            line -= fitting;
            so_far = Reach::default().with(rest.get(..line).unwrap_or(rest));
            if line == 0 {
                break;
            }
        }
        if kind == BreakOpportunity::Mandatory && line > 0 {
            let (head, tail) = rest.split_at(line);
            out.push(head);
            rest = tail;
            line = 0;
            so_far = Reach::default();
        }
    }
    out
}

/// The width of a line, with and without trailing spaces.
#[derive(Clone, Copy, Default)]
struct Reach {
    all: f32,
    visible: f32,
}

impl Reach {
    /// Adds the following pieces.
    fn with(self, pieces: &[Piece]) -> Self {
        pieces.iter().fold(self, |Self { all, visible }, piece| {
            let all = all + piece.advance;
            Self { all, visible: if piece.character.is_whitespace() { visible } else { all } }
        })
    }
}

/// The width without trailing spaces.
fn visible_width(pieces: &[Piece]) -> f32 {
    trimmed(pieces).iter().map(|piece| piece.advance).sum()
}

fn trimmed(pieces: &[Piece]) -> &[Piece] {
    let end = pieces.iter().rposition(|piece| !piece.character.is_whitespace());
    pieces.get(..end.map_or(0, |end| end + 1)).unwrap_or(pieces)
}

/// Sets one line: a run for each style, a crossed box for each missing character.
fn set_line(pieces: &[Piece], whole: &str, max: f32, align: Align) -> Fragment {
    let pieces = trimmed(pieces);
    let size = pieces.iter().map(|piece| piece.style.size).fold(0.0, f32::max);
    let (leading, baseline) = (Style::regular(size).leading(), Style::regular(size).baseline());
    let mut x = match align {
        Align::Left => 0.0,
        Align::Right => max - visible_width(pieces),
    };
    let mut out = Fragment::space(max, leading);
    let mut run: Option<(f32, Style, String, f32)> = None;
    let flush = |run: &mut Option<(f32, Style, String, f32)>, out: &mut Fragment| {
        if let Some((x, style, text, width)) = run.take()
            && !text.trim().is_empty()
        {
            out.draw(Shape::Text { x, y: baseline, width, style, text });
        }
    };
    for piece in pieces {
        let Some(character) = piece.set else {
            continue;
        };
        if !piece.covered {
            flush(&mut run, &mut out);
            let size = piece.style.size;
            let rect = Rect::new(x + size * 0.06, baseline - size * 0.7, size * 0.5, size * 0.7);
            out.draw(Shape::Missing { rect, character, text: whole.trim().to_owned() });
        } else if let Some((_, style, text, width)) = &mut run
            && *style == piece.style
        {
            text.push(character);
            *width += piece.advance;
        } else {
            flush(&mut run, &mut out);
            let mut text = String::with_capacity(pieces.len());
            text.push(character);
            run = Some((x, piece.style, text, piece.advance));
        }
        x += piece.advance;
    }
    flush(&mut run, &mut out);
    out
}

/// Text in one style on a single line of any width.
#[must_use]
pub fn line(text: &str, style: Style) -> Fragment {
    let wide = width(text, style) + 0.02;
    lines(&[StyledText::new(text, style)], wide, Align::Left)
        .into_iter()
        .next()
        .unwrap_or_else(|| Fragment::space(0.0, style.leading()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str, max: f32) -> Vec<String> {
        lines(&[StyledText::new(text, Style::regular(10.0))], max, Align::Left)
            .iter()
            .map(|line| {
                line.items
                    .iter()
                    .map(|item| match item {
                        Shape::Text { text, .. } => text.as_str(),
                        _ => "□",
                    })
                    .collect()
            })
            .collect()
    }

    #[test]
    fn breaks_between_words_and_inside_long_ones() {
        assert_eq!(texts("Front squat", 200.0), ["Front squat"]);
        assert_eq!(texts("Front squat", 30.0), ["Front", "squat"]);
        let broken = texts("Donaudampfschifffahrtsgesellschaft", 60.0);
        assert!(broken.len() > 1);
        assert_eq!(broken.concat(), "Donaudampfschifffahrtsgesellschaft");
    }

    #[test]
    fn keeps_a_load_and_its_unit_together() {
        assert_eq!(texts("about 57.5\u{a0}kg", 40.0), ["about", "57.5 kg"]);
    }

    #[test]
    fn shows_what_the_face_lacks() {
        assert_eq!(texts("a漢b", 200.0), ["a□b"]);
    }

    #[test]
    fn an_accent_that_stands_apart_joins_its_letter() {
        let style = Style::regular(10.0);
        assert_eq!(texts("S\u{301}wie\u{328}ty", 200.0), ["Święty"]);
        assert!((width("S\u{301}", style) - width("Ś", style)).abs() < 1e-6);
    }

    #[test]
    fn a_line_feed_ends_a_line_and_nothing_is_lost() {
        assert_eq!(texts("one\ntwo three", 200.0), ["one", "two three"]);
        assert_eq!(texts("  ", 200.0), Vec::<String>::new());
    }
}
