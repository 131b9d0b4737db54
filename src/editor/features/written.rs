//! The nodes of a document's tree, found from a line.

use crate::editor::Analysis;
use crate::plan::{AthletePlan, PlannedExercise, Session};
use crate::source::{FileId, Span};
use crate::syntax::Document;
use crate::syntax::ast::{Head, Item, LineKey, Name, Node, WeekSpan};

/// The nodes that contain a line, outermost first, by the line's index; the last is the line
/// itself.
pub fn chain(document: &Document, line: usize) -> Vec<&Node> {
    let mut found = Vec::new();
    let mut nodes = document.nodes.as_slice();
    while let Some(index) = nodes.partition_point(|node| node.line <= line).checked_sub(1) {
        let Some(node) = nodes.get(index) else { break };
        found.push(node);
        if node.line == line {
            return found;
        }
        nodes = &node.children;
    }
    Vec::new()
}

/// An exercise line of a day, with the weeks or athlete of a line below it.
pub struct OrderLine<'a> {
    /// The exercise's own line.
    pub node: &'a Node,
    /// The weeks, if the line is for some weeks.
    pub weeks: Option<WeekSpan>,
    /// The athlete, if the line is for one.
    pub athlete: Option<&'a Name>,
}

impl<'a> OrderLine<'a> {
    /// The exercise line that a line is or belongs to; `None` for lines without a prescription.
    pub fn at(document: &'a Document, line: usize) -> Option<Self> {
        let nodes = chain(document, line);
        let (head, rest) = nodes.split_first()?;
        let Item::Head(Head::Day { .. }) = &head.item.value else { return None };
        let (node, below) = rest.split_first()?;
        let Item::Entry { key, .. } = &node.item.value else { return None };
        let LineKey::Order(..) = &key.value else { return None };
        let mut found = Self { node, weeks: None, athlete: None };
        for node in below {
            let Item::Entry { key, .. } = &node.item.value else { return None };
            match &key.value {
                LineKey::Weeks(weeks) => found.weeks = Some(weeks.value),
                LineKey::For(name) => found.athlete = Some(name),
                _ => return None,
            }
        }
        Some(found)
    }
}

/// One athlete's sessions, with the planned exercise of a programme line in each.
pub struct Planned<'a> {
    /// The athlete.
    pub athlete: &'a AthletePlan,
    /// The plan.
    pub plan: &'a crate::plan::Plan,
    /// The sessions, in order.
    pub sessions: Vec<(&'a Session, &'a PlannedExercise)>,
}

/// The planned exercises of a line for all athletes, in the order of the plans.
pub fn planned(analysis: &Analysis, line: Span) -> Vec<Planned<'_>> {
    // The plans do not know a line that has changed.
    let Some(place) = analysis.planned_at(line) else { return Vec::new() };
    let here = |exercise: &&PlannedExercise| exercise.line == place;
    let athletes = analysis
        .plans
        .iter()
        .flat_map(|plan| plan.athletes.iter().map(move |athlete| (plan, athlete)));
    let found = athletes.map(|(plan, athlete)| {
        let sessions = athlete.sessions.iter().filter_map(|session| {
            session.exercises.iter().find(here).map(|exercise| (session, exercise))
        });
        Planned { athlete, plan, sessions: sessions.collect() }
    });
    found.filter(|planned| !planned.sessions.is_empty()).collect()
}

/// The text of a block as written, at most so many lines.
pub fn block_text(analysis: &Analysis, file: FileId, node: &Node, most: usize) -> String {
    let Some(source) = analysis.sources.get(file) else { return String::new() };
    let (start, end) = (node.item.span.start as usize, node.last().item.span.end as usize);
    let text = source.text.get(start..end).unwrap_or("");
    let mut lines: Vec<&str> = text.lines().take(most).collect();
    if text.lines().count() > most {
        lines.push("  …");
    }
    lines.join("\n")
}

/// The block that a name's definition opens.
pub fn block_of(analysis: &Analysis, name: Span) -> Option<&Node> {
    let document = analysis.document(name.file)?;
    let before = |node: &Node| node.item.span.start <= name.start;
    let index = document.nodes.partition_point(before).checked_sub(1)?;
    document.nodes.get(index)
}
