//! Semantic tokens. The tree gives names and keys; the rest of a line is classified by its
//! characters.

use crate::source::Span;
use crate::syntax::Document;
use crate::syntax::ast::{Head, Item, LineKey, Name, Node, Value};
use crate::syntax::keys::Key;

/// The kind of a token.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TokenKind {
    /// A word of the notation.
    Keyword,
    /// A key before its colon.
    Property,
    /// A number, with its unit.
    Number,
    /// `x`, `@`, `->`, a comparison.
    Operator,
    /// A condition or action of a rule.
    Rule,
    /// Free text, such as a note or a path.
    Text,
    /// A comment.
    Comment,
    /// An order letter.
    Order,
    /// An exercise.
    Exercise,
    /// An athlete.
    Athlete,
    /// A gym.
    Gym,
    /// A programme, a phase or a day.
    Part,
    /// A scheme.
    Scheme,
    /// A scheme's parameter.
    Parameter,
    /// A word from a fixed list: a muscle, a movement pattern, a piece of equipment.
    Term,
}

/// A token: a range of bytes within one line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Token {
    /// The first byte.
    pub start: usize,
    /// The byte after the last.
    pub end: usize,
    /// The kind.
    pub kind: TokenKind,
    /// Whether it defines the name.
    pub defines: bool,
}

/// The tokens of a file, in order, without overlaps.
#[must_use]
pub fn tokens(document: &Document, text: &str) -> Vec<Token> {
    let mut lines: Vec<Option<&Item>> = vec![None; document.lines.len()];
    gather(&document.nodes, &mut lines);
    let mut out = Vec::new();
    for (line, item) in document.lines.iter().zip(lines) {
        if let Some(item) = item {
            TokenPainter { text, at: line.start, out: &mut out }.item(item, line.end);
        }
        if let Some((start, end)) = line.comment {
            out.push(Token { start, end, kind: TokenKind::Comment, defines: false });
        }
    }
    out.retain(|token| token.start < token.end);
    out
}

fn gather<'d>(nodes: &'d [Node], lines: &mut [Option<&'d Item>]) {
    for node in nodes {
        if let Some(slot) = lines.get_mut(node.line) {
            *slot = Some(&node.item.value);
        }
        gather(&node.children, lines);
    }
}

/// Collects the tokens of a line from left to right.
struct TokenPainter<'a> {
    text: &'a str,
    at: usize,
    out: &'a mut Vec<Token>,
}

impl TokenPainter<'_> {
    fn item(&mut self, item: &Item, end: usize) {
        use TokenKind::{Keyword, Rule};
        match item {
            Item::Head(head) => self.head(head, end),
            Item::Entry { key, value } => {
                let key_end = key.span.end as usize;
                self.key(&key.value, key_end);
                match &key.value {
                    LineKey::When(_) | LineKey::Otherwise => self.signs(end, Rule),
                    key => {
                        self.value(key, &value.value, value.span);
                        self.signs(end, Keyword);
                    }
                }
            }
            Item::LogSession { planned, .. } => {
                if let Some((_, day)) = planned {
                    self.name(day, TokenKind::Part, false);
                }
                self.signs(end, Keyword);
            }
            Item::Wrong => {}
        }
    }

    fn head(&mut self, head: &Head, end: usize) {
        use TokenKind::{Athlete, Exercise, Gym, Keyword, Part, Scheme, Text};
        let (name, kind) = match head {
            Head::Notation(_) => return self.signs(end, Keyword),
            Head::Use(name) => (name, Text),
            Head::Exercise(name) => (name, Exercise),
            Head::Gym(name) => (name, Gym),
            Head::Athlete(name) => (name, Athlete),
            Head::Scheme(name) => (name, Scheme),
            Head::Programme(name) | Head::Phase { name, .. } | Head::Day { name, .. } => {
                (name, Part)
            }
            Head::Log { athlete, .. } => (athlete, Athlete),
        };
        let defines = !matches!(head, Head::Use(_) | Head::Log { .. });
        self.name(name, kind, defines);
        if let Head::Log { programme, .. } = head {
            self.name(programme, Part, false);
        }
        self.signs(end, Keyword);
    }

    fn key(&mut self, key: &LineKey, end: usize) {
        use TokenKind::{Athlete, Exercise, Keyword, Order, Parameter, Property, Rule};
        match key {
            LineKey::Key(_) => self.to(end, Property),
            LineKey::Named(key, name) => {
                self.to(name.span.start as usize, Property);
                let kind = if matches!(key, Key::NameIn | Key::Setup | Key::Safety | Key::Plate) {
                    Keyword
                } else {
                    Exercise
                };
                self.name(name, kind, false);
            }
            LineKey::Parameter(name) => self.name(name, Parameter, true),
            LineKey::Order(order, name) => {
                self.span(order.span, Order, false);
                self.name(name, Exercise, false);
            }
            LineKey::Letter(order) => self.span(order.span, Order, false),
            LineKey::Weeks(_) => {}
            LineKey::For(name) => self.name(name, Athlete, false),
            // The conditions are words; the first one belongs to the rule.
            LineKey::When(_) => {
                self.to(self.at + "when".len(), Keyword);
                self.signs(end, Rule);
            }
            LineKey::Otherwise => self.to(end, Keyword),
        }
        self.signs(end, Keyword);
    }

    fn value(&mut self, key: &LineKey, value: &Value, whole: Span) {
        let kind = match key {
            LineKey::Key(Key::Athletes) => TokenKind::Athlete,
            LineKey::Key(Key::Gym) => TokenKind::Gym,
            LineKey::Key(Key::Like | Key::Swap) | LineKey::Named(Key::Replace, _) => {
                TokenKind::Exercise
            }
            LineKey::Key(Key::AlsoCalled) | LineKey::Named(Key::NameIn, _) => TokenKind::Text,
            _ => TokenKind::Term,
        };
        match value {
            Value::Text(_) => self.span(whole, TokenKind::Text, false),
            Value::Names(names) => names.iter().for_each(|name| self.name(name, kind, false)),
            Value::Avoid(names) => names.iter().for_each(|(n, _)| self.name(n, kind, false)),
            Value::Counted(names) => names.iter().for_each(|(n, _)| self.name(n, kind, false)),
            Value::Remarked(name, _) => self.name(name, kind, false),
            Value::Follow(scheme, arguments) => {
                self.name(scheme, TokenKind::Scheme, false);
                for (parameter, amount) in arguments {
                    self.name(parameter, TokenKind::Parameter, false);
                    self.signs(amount.span.end as usize, TokenKind::Keyword);
                }
            }
            _ => {}
        }
    }

    /// Adds the text before a name as words of the notation, then the name.
    fn name(&mut self, name: &Name, kind: TokenKind, defines: bool) {
        self.span(name.span, kind, defines);
    }

    fn span(&mut self, span: Span, kind: TokenKind, defines: bool) {
        let (start, end) = (span.start as usize, span.end as usize);
        if start < self.at || end > self.text.len() {
            return;
        }
        self.signs(start, TokenKind::Keyword);
        self.out.push(Token { start, end, kind, defines });
        self.at = end;
    }

    /// Adds everything up to a byte as one token, without the spaces around it.
    fn to(&mut self, end: usize, kind: TokenKind) {
        let said = self.text.get(self.at..end).unwrap_or("");
        let start = self.at + (said.len() - said.trim_start().len());
        let stop = start + said.trim().len();
        self.out.push(Token { start, end: stop, kind, defines: false });
        self.at = self.at.max(end);
    }

    /// Classifies the text before a byte by its characters. Words get the given kind.
    fn signs(&mut self, end: usize, words: TokenKind) {
        while let Some(rest) = self.text.get(self.at..end).filter(|rest| !rest.is_empty()) {
            let (length, kind) = sign(rest, words);
            if let Some(kind) = kind {
                let end = self.at + length;
                self.out.push(Token { start: self.at, end, kind, defines: false });
            }
            self.at += length;
        }
        self.at = self.at.max(end);
    }
}

/// Units that may be separated from their number.
const UNITS: &[&str] = &["kg", "lb", "g", "s", "min", "h", "m", "mm", "%"];

/// Length and kind of the token that a text starts with. The length is at least 1.
fn sign(rest: &str, words: TokenKind) -> (usize, Option<TokenKind>) {
    let Some(first) = rest.chars().next() else { return (1, None) };
    let one = first.len_utf8();
    if first.is_ascii_digit() {
        return (number(rest), Some(TokenKind::Number));
    }
    if first == '(' {
        let end = rest.find(')').map_or(rest.len(), |at| at + 1);
        return (end, Some(TokenKind::Text));
    }
    if first.is_alphabetic() {
        let length = rest.find(|c: char| !(c.is_alphanumeric() || c == '-')).unwrap_or(rest.len());
        let kind = if rest.get(..length) == Some("x") { TokenKind::Operator } else { words };
        return (length, Some(kind));
    }
    let is_operator = |c: char| "×@+-–→<>=≤≥".contains(c);
    if is_operator(first) {
        let length = rest.find(|c: char| !is_operator(c)).unwrap_or(rest.len());
        return (length, Some(TokenKind::Operator));
    }
    (one, None)
}

/// Length of a number with its unit: `82.5 kg`, `8-10`, `3:00`, `2026-01-05`, `70%`, `5+`.
fn number(rest: &str) -> usize {
    let mut end = 0;
    let mut signs = rest.char_indices().peekable();
    while let Some((at, sign)) = signs.next() {
        let before_digit =
            signs.peek().is_some_and(|(_, next)| next.is_ascii_digit() || *next == 'X');
        let inside = sign.is_alphanumeric() || sign == '%';
        if !(inside || (".:,-–/".contains(sign) && before_digit)) {
            break;
        }
        end = at + sign.len_utf8();
    }
    let after = rest.get(end..).and_then(|after| after.strip_prefix(' ')).unwrap_or("");
    let unit = after.split(|c: char| !(c.is_alphanumeric() || c == '%')).next().unwrap_or("");
    if UNITS.contains(&unit) { end + 1 + unit.len() } else { end }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    fn told(text: &str) -> Vec<(String, TokenKind)> {
        let (document, _) = crate::syntax::parse(text, FileId(1));
        let found = tokens(&document, text);
        for pair in found.windows(2) {
            assert!(pair[0].end <= pair[1].start, "{pair:?}");
        }
        found.iter().map(|t| (text[t.start..t.end].to_owned(), t.kind)).collect()
    }

    #[test]
    fn a_line_of_a_day() {
        use TokenKind::{Comment, Exercise, Keyword, Number, Operator, Order, Part};
        let text = "day One (Mon)\n  A Back squat: 3 x 8-10 @ 82.5 kg, RIR 2, rest 3:00 # heavy\n";
        let found = told(text);
        let wanted = [
            ("day", Keyword),
            ("One", Part),
            ("(Mon)", TokenKind::Text),
            ("A", Order),
            ("Back squat", Exercise),
            ("3", Number),
            ("x", Operator),
            ("8-10", Number),
            ("@", Operator),
            ("82.5 kg", Number),
            ("RIR", Keyword),
            ("2", Number),
            ("rest", Keyword),
            ("3:00", Number),
            ("# heavy", Comment),
        ];
        let wanted: Vec<_> = wanted.iter().map(|(t, k)| ((*t).to_owned(), *k)).collect();
        assert_eq!(found, wanted);
    }

    #[test]
    fn rules_schemes_and_names() {
        use TokenKind::{
            Athlete, Gym, Keyword, Number, Operator, Parameter, Property, Rule, Scheme,
        };
        let text = "scheme Jumps\n  jump: 2.5 kg\n  when top of range: load +jump, reps to bottom\n\n\
                    athlete Žofie\n  gym: Shed\n";
        let found = told(text);
        for (said, kind) in [
            ("scheme", Keyword),
            ("Jumps", Scheme),
            ("jump", Parameter),
            ("2.5 kg", Number),
            ("when", Keyword),
            ("top", Rule),
            ("range", Rule),
            ("load", Rule),
            ("+", Operator),
            ("bottom", Rule),
            ("Žofie", Athlete),
            ("gym", Property),
            ("Shed", Gym),
        ] {
            assert!(found.contains(&(said.to_owned(), kind)), "{said} {found:?}");
        }
    }
}
