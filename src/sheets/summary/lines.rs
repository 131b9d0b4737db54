//! Text with a maximum line width.

use crate::quantity::composed;

/// Default width of a line, in characters.
pub const WIDTH: usize = 80;
/// A no-break space, which is written as a plain space.
pub const FIXED: &str = "\u{a0}";

/// Text wrapped to a maximum width in characters.
pub struct WrappedText {
    /// The text so far.
    pub text: String,
    width: usize,
}

impl Default for WrappedText {
    fn default() -> Self {
        Self::of_width(WIDTH)
    }
}

impl WrappedText {
    /// A text with lines of at most this many characters.
    #[must_use]
    pub fn of_width(width: usize) -> Self {
        Self { text: String::new(), width }
    }

    /// Adds an empty line.
    pub fn blank(&mut self) {
        self.text.push('\n');
    }

    /// Adds a heading, underlined with `under` over the length of its longest line.
    pub fn heading(&mut self, text: &str, under: char) {
        let before = self.text.len();
        self.wrapped(0, 0, text);
        let written = self.text.get(before..).unwrap_or_default();
        let longest = written.lines().map(|line| line.chars().count()).max().unwrap_or(0);
        self.text.extend(std::iter::repeat_n(under, longest));
        self.text.push('\n');
    }

    /// Wraps text: the first line starts at column `first`, the following lines at `hang`.
    pub fn wrapped(&mut self, first: usize, hang: usize, text: &str) {
        let text = &composed(text);
        let mut line = " ".repeat(first);
        let mut empty = true;
        // Runs of spaces align columns, so they are kept unless a line ends there.
        for word in words(text) {
            let (space, word) = word;
            let length = line.chars().count();
            let space = if empty && length > first.min(hang) { 0 } else { space };
            if !empty && length + space + word.chars().count() > self.width {
                self.end(&mut line, hang);
            } else {
                line.extend(std::iter::repeat_n(' ', space));
            }
            // A word longer than a line is cut.
            for character in word.chars() {
                if line.chars().count() >= self.width {
                    self.end(&mut line, hang);
                }
                line.push(character);
            }
            empty = false;
        }
        self.end(&mut line, 0);
    }

    fn end(&mut self, line: &mut String, hang: usize) {
        self.text.push_str(&line.trim_end().replace(['\u{a0}', '\u{202f}'], " "));
        self.text.push('\n');
        *line = " ".repeat(hang);
    }
}

/// Cuts a text that is too long for its column; it then ends in an ellipsis.
pub fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let kept: String = text.chars().take(most.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

/// The words of a text, each with the number of spaces before it.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut spaces = 0;
    text.split(' ').filter_map(move |word| {
        let word = word.trim_matches(|c: char| c.is_control());
        if word.is_empty() {
            spaces += 1;
            return None;
        }
        let before = std::mem::replace(&mut spaces, 1);
        Some((before, word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_words_are_cut_and_nothing_is_lost() {
        let mut out = WrappedText::default();
        let long = "x".repeat(200);
        out.wrapped(2, 4, &format!("a {long}"));
        assert!(out.text.lines().all(|line| line.chars().count() <= WIDTH));
        assert_eq!(out.text.matches('x').count(), 200);
    }
}
