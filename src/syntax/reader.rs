//! Turns lines into a tree: which line belongs to which, and what each means in its place.

mod entry;
mod head;
mod version;

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

pub use entry::place_under;
pub use head::place_of;

use super::ast::{Item, LineKey, Node};
use super::fold_name;
use super::keys::{BlockPlace, Key};
use super::lines::SourceLine;
use super::parse_cache::{ParseCache, Start};
use super::recovery::weekday;
use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::plan::Order;
use crate::source::{FileId, Span, Spanned};

/// The depth at which runs of lines are cached: the lines below the exercises of a day.
const RUN_DEPTH: usize = 2;
/// The least length of a cached run. Shorter ones are read line by line.
const RUN_LINES: usize = 4;

/// Reads all lines of a file.
pub fn read(
    text: &str,
    file: FileId,
    lines: &[SourceLine],
    problems: &mut Vec<Diagnostic>,
    memory: Option<&mut ParseCache>,
) -> Vec<Node> {
    let mut reader = LineReader { text, file, lines, next: 0, problems, memory };
    reader.top()
}

/// What may follow below a line that is read by itself. `None` means a line at the margin.
pub fn place_below(text: &str, place: Option<BlockPlace>) -> BlockPlace {
    let line = SourceLine { indent: 0, start: 0, end: text.len(), comment: None };
    let mut problems = Vec::new();
    let mut reader = LineReader {
        text,
        file: FileId(0),
        lines: &[line],
        next: 0,
        problems: &mut problems,
        memory: None,
    };
    match place {
        None => reader.head(&line).1,
        Some(place) => reader.entry(place, &line).1,
    }
}

pub struct LineReader<'a> {
    text: &'a str,
    file: FileId,
    lines: &'a [SourceLine],
    next: usize,
    problems: &'a mut Vec<Diagnostic>,
    /// Lines that were read before.
    memory: Option<&'a mut ParseCache>,
}

impl<'a> LineReader<'a> {
    /// The next line that has content, with its index.
    fn peek(&mut self) -> Option<(usize, SourceLine)> {
        while let Some(line) = self.lines.get(self.next) {
            if line.has_content() {
                return Some((self.next, *line));
            }
            self.next += 1;
        }
        None
    }

    fn content(&self, line: &SourceLine) -> &'a str {
        self.text.get(line.start..line.end).unwrap_or("")
    }

    fn span(&self, line: &SourceLine) -> Span {
        Span::new(self.file, line.start, line.end)
    }

    /// Reads a line: its meaning, and what may follow below it. `None` means a line at the margin.
    fn item(&mut self, place: Option<BlockPlace>, line: &SourceLine) -> (Item, BlockPlace) {
        let text = self.content(line);
        let known = self.memory.as_mut();
        if let Some(known) = known.and_then(|m| m.find(place, text, self.file, line.start)) {
            return known;
        }
        let before = self.problems.len();
        let found = match place {
            None => self.head(line),
            Some(place) => self.entry(place, line),
        };
        // A line with problems is not cached: its diagnostics have spans that would have to move too.
        let is_fine = self.problems.len() == before && found.0 != Item::Wrong;
        if let Some(memory) = self.memory.as_mut().filter(|_| is_fine) {
            memory.keep(place, text, &found, line.start);
        }
        found
    }

    /// Reads blocks: lines without indentation, each with the lines that belong to it.
    fn top(&mut self) -> Vec<Node> {
        let mut nodes = Vec::new();
        while let Some((index, line)) = self.peek() {
            self.next += 1;
            if line.indent > 0 && nodes.is_empty() {
                self.problems.push(
                    Diagnostic::new(
                        Code::MisplacedLine,
                        self.span(&line),
                        "this line is indented, but there is no line above it",
                    )
                    .help("start a block at the margin, such as `gym NAME` or `programme NAME`"),
                );
            }
            let (mut item, place) = self.item(None, &line);
            if !self.version_stands(&item, &nodes) {
                // Lines that cannot be read are not reformatted.
                item = Item::Wrong;
            }
            let children = self.level(place, 1, 1);
            nodes.push(Node { item: Spanned::new(item, self.span(&line)), line: index, children });
        }
        self.problems.extend(weekday::in_days(&nodes));
        nodes
    }

    /// Reads the next lines that are indented by at least `least` columns.
    fn level(&mut self, place: BlockPlace, least: usize, depth: usize) -> Vec<Node> {
        let mut nodes: Vec<Node> = Vec::new();
        let mut indent = None;
        while let Some((index, line)) = self.peek().filter(|(_, line)| line.indent >= least) {
            let column = *indent.get_or_insert(line.indent);
            if line.indent != column {
                self.stray(&line, column);
            }
            if place == BlockPlace::Nothing || depth > bounds::DEPTH {
                self.misplaced(&line, depth);
                // One message is enough: skip the lines below.
                while self.peek().is_some_and(|(_, line)| line.indent >= least) {
                    self.next += 1;
                }
                break;
            }
            self.next += 1;
            let (item, below) = self.item(Some(place), &line);
            let children = self.below(below, line.indent.max(column) + 1, depth + 1);
            nodes.push(Node { item: Spanned::new(item, self.span(&line)), line: index, children });
        }
        self.repeated(place, &nodes);
        nodes
    }

    /// Reads the lines below another, or takes them from the cache.
    fn below(&mut self, place: BlockPlace, least: usize, depth: usize) -> Vec<Node> {
        // Runs within runs would be cached twice.
        let run = (depth == RUN_DEPTH && self.memory.is_some()).then(|| self.run(least)).flatten();
        let Some((text, at, next)) = run else { return self.level(place, least, depth) };
        let file = self.file;
        let known = self.memory.as_mut();
        if let Some(nodes) = known.and_then(|memory| memory.find_run(place, text, file, at)) {
            self.next = next;
            return nodes;
        }
        let before = self.problems.len();
        let nodes = self.level(place, least, depth);
        let is_fine = self.problems.len() == before && nodes.iter().all(is_read);
        if let Some(memory) = self.memory.as_mut().filter(|_| is_fine) {
            memory.keep_run(place, text, &nodes, at);
        }
        nodes
    }

    /// The next lines that are indented by at least `least` columns: their text from the margin of the
    /// first, where they start, and the line after them. `None` if there are too few to cache as a run.
    fn run(&mut self, least: usize) -> Option<(&'a str, Start, usize)> {
        let (line, first) = self.peek()?;
        let after = self.lines.get(line..)?.iter();
        let mut last = None;
        for (index, line) in (line..).zip(after) {
            if line.has_content() {
                if line.indent < least {
                    break;
                }
                last = Some((index, line.end));
            }
        }
        let (index, end) = last.filter(|(index, _)| index - line >= RUN_LINES)?;
        let before = self.text.get(..first.start).unwrap_or("");
        let byte = before.rfind('\n').map_or(0, |at| at + 1);
        Some((self.text.get(byte..end)?, Start { byte, line }, index + 1))
    }

    fn stray(&mut self, line: &SourceLine, column: usize) {
        let before = self.text.get(..line.start).unwrap_or("");
        let margin_start = before.rfind('\n').map_or(0, |at| at + 1);
        let margin = Span::new(self.file, margin_start, line.start);
        self.problems.push(
            Diagnostic::new(
                Code::StrayIndent,
                self.span(line),
                format!(
                    "this line is indented by {}, but the lines around it by {column}",
                    line.indent
                ),
            )
            .help("lines that belong together start in the same column")
            .fix(margin, " ".repeat(column)),
        );
    }

    fn misplaced(&mut self, line: &SourceLine, depth: usize) {
        let help = if depth > bounds::DEPTH {
            format!("lines can be indented by at most {} levels", bounds::DEPTH)
        } else {
            "the line above cannot have lines below it: check the indentation".to_owned()
        };
        self.problems.push(
            Diagnostic::new(
                Code::MisplacedLine,
                self.span(line),
                "this line cannot be below the line above",
            )
            .help(help),
        );
    }

    /// Reports keys and order letters that occur twice although they may occur only once.
    fn repeated(&mut self, place: BlockPlace, nodes: &[Node]) {
        let mut seen: BTreeMap<Once, Span> = BTreeMap::new();
        for node in nodes {
            let Item::Entry { key, .. } = &node.item.value else { continue };
            let Some(once) = Once::of(place, &key.value) else { continue };
            match seen.entry(once) {
                Entry::Vacant(free) => {
                    free.insert(key.span);
                }
                Entry::Occupied(first) => {
                    let (code, what) = first.key().told(&key.value);
                    self.problems.push(
                        Diagnostic::new(code, key.span, format!("`{what}` is written twice here"))
                            .label("again here")
                            .and(*first.get(), "first here")
                            .help(repeated_help(&key.value)),
                    );
                }
            }
        }
    }
}

/// Something that may occur only once among sibling lines. Names are folded for comparison.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Once {
    Key(Key),
    Named(Key, String),
    Parameter(String),
    /// A line that describes a group. A member with the same letter may be beside it.
    Group(Order),
    Member(Order),
    Otherwise,
    For(String),
}

impl Once {
    /// What a line may be the only one of. `None` if there may be several.
    fn of(place: BlockPlace, key: &LineKey) -> Option<Self> {
        let is_single = |word| place.property(word).is_none_or(|property| !property.repeats);
        Some(match key {
            LineKey::Key(word) if is_single(*word) => Self::Key(*word),
            LineKey::Named(word, name) if is_single(*word) => {
                Self::Named(*word, fold_name(&name.value))
            }
            LineKey::Parameter(name) => Self::Parameter(fold_name(&name.value)),
            LineKey::Letter(order) if place == BlockPlace::Day => Self::Group(order.value),
            LineKey::Order(order, _) | LineKey::Letter(order) => Self::Member(order.value),
            LineKey::Otherwise => Self::Otherwise,
            LineKey::For(name) => Self::For(fold_name(&name.value)),
            _ => return None,
        })
    }

    /// The diagnostic code for a repetition, and the repeated text.
    fn told(&self, key: &LineKey) -> (Code, String) {
        let name = match key {
            LineKey::Named(_, name) | LineKey::Parameter(name) | LineKey::For(name) => &*name.value,
            _ => "",
        };
        match self {
            Self::Key(word) => (Code::RepeatedKey, word.word().to_owned()),
            Self::Named(word, _) => (Code::RepeatedKey, format!("{} {name}", word.word())),
            Self::Parameter(_) => (Code::RepeatedKey, name.to_owned()),
            Self::Group(order) | Self::Member(order) => (Code::DuplicateOrder, order.to_string()),
            Self::Otherwise => (Code::RepeatedKey, "otherwise".to_owned()),
            Self::For(_) => (Code::RepeatedKey, format!("for {name}")),
        }
    }
}

/// Whether a line and all lines below it could be read.
fn is_read(node: &Node) -> bool {
    node.item.value != Item::Wrong && node.children.iter().all(is_read)
}

/// The help for a repeated key. Two lists can be joined into one.
fn repeated_help(key: &LineKey) -> String {
    match key {
        LineKey::Key(
            key @ (Key::Has
            | Key::Lacks
            | Key::Avoid
            | Key::Swap
            | Key::AlsoCalled
            | Key::Athletes
            | Key::Plates
            | Key::Dumbbells
            | Key::Kettlebells
            | Key::Bands),
        ) => format!("join them in one line, with commas: `{}: …, …`", key.word()),
        _ => "keep one of the two".to_owned(),
    }
}
