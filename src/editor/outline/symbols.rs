//! The outline of a file.

use crate::source::Span;
use crate::syntax::Document;
use crate::syntax::ast::{Head, Item, LineKey, Node};

/// The kind of a symbol.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SymbolKind {
    /// An exercise's block.
    Exercise,
    /// A gym.
    Gym,
    /// An athlete.
    Athlete,
    /// A programme, with its phases and days.
    Programme,
    /// A phase.
    Phase,
    /// A scheme.
    Scheme,
    /// A day, with its lines.
    Day,
    /// A line of a day.
    Line,
    /// A log, with its sessions.
    Log,
    /// A session of a log.
    Session,
}

/// A named part of a file, with its children.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// Its name.
    pub name: String,
    /// The rest of its line; may be empty.
    pub detail: String,
    /// The kind.
    pub kind: SymbolKind,
    /// The whole part.
    pub span: Span,
    /// The name in the text.
    pub name_span: Span,
    /// Its children.
    pub children: Vec<Symbol>,
}

/// The outline of a file. A programme extends to the last of its phases and days, and contains what
/// is between them.
#[must_use]
pub fn symbols(document: &Document, text: &str) -> Vec<Symbol> {
    let mut found: Vec<Symbol> = Vec::new();
    // Symbols after the latest programme. They may turn out to be inside it.
    let mut after: Vec<Symbol> = Vec::new();
    for node in &document.nodes {
        let Some(symbol) = block(node, text) else { continue };
        let programme = found.last_mut().filter(|owner| owner.kind == SymbolKind::Programme);
        match (symbol.kind, programme) {
            (SymbolKind::Phase | SymbolKind::Day, Some(owner)) => {
                owner.span = owner.span.to(symbol.span);
                owner.children.append(&mut after);
                owner.children.push(symbol);
            }
            (SymbolKind::Programme, _) | (_, None) => {
                found.append(&mut after);
                found.push(symbol);
            }
            (_, Some(_)) => after.push(symbol),
        }
    }
    found.append(&mut after);
    found
}

fn block(node: &Node, text: &str) -> Option<Symbol> {
    let Item::Head(head) = &node.item.value else { return None };
    let (name, kind) = match head {
        Head::Notation(_) | Head::Use(_) => return None,
        Head::Exercise(name) => (name, SymbolKind::Exercise),
        Head::Gym(name) => (name, SymbolKind::Gym),
        Head::Athlete(name) => (name, SymbolKind::Athlete),
        Head::Programme(name) => (name, SymbolKind::Programme),
        Head::Scheme(name) => (name, SymbolKind::Scheme),
        Head::Phase { name, .. } => (name, SymbolKind::Phase),
        Head::Day { name, .. } => (name, SymbolKind::Day),
        Head::Log { athlete, .. } => (athlete, SymbolKind::Log),
    };
    let children = match kind {
        SymbolKind::Day => node.children.iter().filter_map(|node| line(node, text)).collect(),
        SymbolKind::Log => node.children.iter().filter_map(|node| session(node, text)).collect(),
        _ => Vec::new(),
    };
    Some(symbol(node, kind, name.value.clone(), name.span, children, text))
}

fn line(node: &Node, text: &str) -> Option<Symbol> {
    let Item::Entry { key, .. } = &node.item.value else { return None };
    if !matches!(key.value, LineKey::Order(..) | LineKey::Letter(_)) {
        return None;
    }
    // `A  Back squat` is aligned in the text; a list of names has single spaces.
    let name: Vec<&str> = slice(text, key.span).split_whitespace().collect();
    Some(symbol(node, SymbolKind::Line, name.join(" "), key.span, Vec::new(), text))
}

fn session(node: &Node, text: &str) -> Option<Symbol> {
    let Item::LogSession { date, .. } = &node.item.value else { return None };
    Some(symbol(node, SymbolKind::Session, date.value.to_string(), date.span, Vec::new(), text))
}

fn symbol(
    node: &Node,
    kind: SymbolKind,
    name: String,
    name_span: Span,
    children: Vec<Symbol>,
    text: &str,
) -> Symbol {
    let whole = node.item.span;
    let rest = Span { start: name_span.end.min(whole.end), ..whole };
    let detail = slice(text, rest).trim_start_matches([':', ' ']).to_owned();
    // The protocol requires a name, inside the whole range.
    let name = if name.is_empty() { "?".to_owned() } else { name };
    let span = whole.to(node.last().item.span);
    let inside = name_span.start >= span.start && name_span.end <= span.end;
    let name_span = if inside { name_span } else { whole };
    Symbol { name, detail, kind, span, name_span, children }
}

fn slice(text: &str, span: Span) -> &str {
    text.get(span.start as usize..span.end as usize).unwrap_or("")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    fn outline(text: &str) -> String {
        fn show(symbols: &[Symbol], depth: usize, out: &mut String) {
            for symbol in symbols {
                let Symbol { name, detail, kind, .. } = symbol;
                out.push_str(&format!("{}{kind:?} {name} | {detail}\n", "  ".repeat(depth)));
                show(&symbol.children, depth + 1, out);
            }
        }
        let (document, _) = crate::syntax::parse(text, FileId(1));
        let mut out = String::new();
        show(&symbols(&document, text), 0, &mut out);
        out
    }

    #[test]
    fn a_programme_holds_what_stands_between_its_days() {
        let text = "athlete Robin Vale\n\nprogramme Small\n  weeks: 2\n\nphase Base: week 1\n\n\
                    scheme Jumps\n  when top of range: load +2.5 kg\n\n\
                    day One (Mon)\n  A  Back squat: 3 x 5 @ 70%\n     cue: Sit down.\n\n\
                    scheme After\n  when top of range: load +2.5 kg\n\n\
                    log Robin Vale: Small\n  2026-01-05 week 1, One\n    A: done\n";
        assert_eq!(
            outline(text),
            "Athlete Robin Vale | \n\
             Programme Small | \n\
             \x20 Phase Base | week 1\n\
             \x20 Scheme Jumps | \n\
             \x20 Day One | (Mon)\n\
             \x20   Line A Back squat | 3 x 5 @ 70%\n\
             Scheme After | \n\
             Log Robin Vale | Small\n\
             \x20 Session 2026-01-05 | week 1, One\n"
        );
    }
}
