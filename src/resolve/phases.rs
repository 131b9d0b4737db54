//! Phases, and which weeks they change.

use crate::diagnostics::{Code, Diagnostic};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{Head, Item, LineKey, Node, Value, WeekSpan};
use crate::syntax::keys::Key;

use super::Phase;

/// The weeks of a programme and what lightens them.
#[derive(Clone, Debug, PartialEq)]
pub struct PhaseWeeks {
    pub weeks: u32,
    deload: Vec<WeekSpan>,
}

impl PhaseWeeks {
    pub fn new(weeks: u32, phases: &[Phase]) -> Self {
        let deload = phases.iter().filter(|p| p.lightens()).map(|p| p.weeks).collect();
        Self { weeks, deload }
    }

    pub fn is_deload(&self, week: u32) -> bool {
        self.deload.iter().any(|span| span.contains(week))
    }
}

/// The phases of a programme, in the order of their weeks.
pub fn resolve(nodes: &[&Node], weeks: u32, problems: &mut Vec<Diagnostic>) -> Vec<Phase> {
    let mut phases: Vec<Phase> = Vec::new();
    let mut spans = Vec::new();
    for node in nodes {
        let Item::Head(Head::Phase { name, weeks: span, sets, load }) = &node.item.value else {
            continue;
        };
        past_end(span, weeks, problems);
        spans.push(span.clone());
        phases.push(Phase {
            name: name.value.clone(),
            span: name.span,
            weeks: span.value,
            sets: sets.as_ref().map(|change| change.value),
            load: load.as_ref().map(|change| change.value),
            notes: notes(&node.children),
        });
    }
    overlaps(&spans, "phase", problems);
    phases.sort_by_key(|phase| phase.weeks.first);
    phases
}

/// The notes among some lines.
pub fn notes(lines: &[Node]) -> Vec<String> {
    let note = |node: &Node| match &node.item.value {
        Item::Entry {
            key: Spanned { value: LineKey::Key(Key::Note), .. },
            value: Spanned { value: Value::Text(text), .. },
        } => Some(text.clone()),
        _ => None,
    };
    lines.iter().filter_map(note).collect()
}

/// Reports weeks after the programme's last.
pub fn past_end(weeks: &Spanned<WeekSpan>, last: u32, problems: &mut Vec<Diagnostic>) {
    if weeks.value.last > last {
        problems.push(
            Diagnostic::new(
                Code::WeekPastEnd,
                weeks.span,
                format!("there is no week {}: the last week of the programme is week {last}", weeks.value.last),
            )
            .help("change the weeks here, or the programme's `weeks:`; if you removed a week, reduce all later \
             weeks by one, in phases and in `week` lines"),
        );
    }
}

/// Reports week lines or phases that share a week, showing both.
pub fn overlaps(spans: &[Spanned<WeekSpan>], what: &str, problems: &mut Vec<Diagnostic>) {
    let mut sorted: Vec<(WeekSpan, Span)> = spans.iter().map(|s| (s.value, s.span)).collect();
    sorted.sort_by_key(|(weeks, span)| (weeks.first, *span));
    for pair in sorted.windows(2) {
        let [(first, at), (second, again)] = pair else { continue };
        if first.overlaps(*second) {
            let (earlier, later) = if at <= again { (*at, *again) } else { (*again, *at) };
            problems.push(
                Diagnostic::new(
                    Code::OverlappingWeeks,
                    later,
                    format!("week {} already has a {what}", second.first),
                )
                .label("these weeks")
                .and(earlier, "overlap with these")
                .help("write each week in only one of them"),
            );
        }
    }
}
