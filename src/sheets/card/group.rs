//! Exercises that share a letter: how they are done together, and boxes to count rounds.

use crate::plan::{Group, GroupKind, PlannedExercise};
use crate::quantity::Duration;
use crate::sheets::labels::fill;
use crate::sheets::layout::{
    Align, Block, Fragment, Ink, Role, Row, Shape, Style, StyledText, count, lines, stack,
};
use crate::sheets::plates::Discs;
use crate::sheets::wording::Wording;

use super::exercise::{Setting, Tie, drawn, tied};
use super::metrics::Metrics;
use super::parts::{spoken, write_in};
use super::shared::Shared;
use super::work::Boxes;

/// How a group is done, in words; `None` for a single exercise. Also used by the summary.
#[must_use]
pub fn how(group: &Group, members: &[&PlannedExercise], words: &Wording) -> Option<String> {
    let labels = words.labels;
    let first = members.first().map(|m| m.order.to_string()).unwrap_or_default();
    let last = members.last().map(|m| m.order.to_string()).unwrap_or_default();
    let ends = [first.as_str(), last.as_str()];
    let in_turn = if members.len() == 2 { labels.alternate_two } else { labels.alternate_all };
    let in_turn = fill(in_turn, &ends);
    let rest = |template: &str| rest(group, members).map(|r| fill(template, &[&r.to_string()]));
    let parts: Vec<Option<String>> = match &group.how {
        GroupKind::Single => return None,
        GroupKind::Superset => {
            vec![Some(labels.superset.to_owned()), Some(in_turn), rest(labels.rest_after_both)]
        }
        GroupKind::GiantSet => {
            vec![Some(labels.giant_set.to_owned()), Some(in_turn), rest(labels.rest_after_all)]
        }
        GroupKind::Paired => {
            vec![Some(labels.paired.to_owned()), Some(in_turn), rest(labels.rest_between)]
        }
        GroupKind::Circuit { rounds, change } => vec![
            Some(labels.circuit.to_owned()),
            Some(labels.count(&labels.rounds, *rounds)),
            Some(in_turn).filter(|_| members.len() > 1),
            change.map(|change| fill(labels.change, &[&change.to_string()])),
            rest(labels.rest_after_round),
        ],
        GroupKind::Every { interval, length, alternate } => vec![
            Some(fill(labels.every_for, &[&interval.to_string(), &length.to_string()])),
            Some(if members.len() == 1 {
                labels.every_one.to_owned()
            } else if *alternate {
                labels.every_alternate.to_owned()
            } else {
                let all: Vec<String> = members.iter().map(|m| m.order.to_string()).collect();
                fill(labels.every_all, &[&all.join(" + ")])
            }),
        ],
        GroupKind::RoundsIn { length } => {
            vec![
                Some(fill(labels.rounds_in, &[&length.to_string()])),
                Some(in_turn).filter(|_| members.len() > 1),
            ]
        }
    };
    Some(parts.into_iter().flatten().collect::<Vec<_>>().join(labels.semicolon))
}

/// The rest that [`how`] includes, which members need not repeat.
#[must_use]
pub fn rest_told(group: &Group, members: &[&PlannedExercise]) -> Option<Duration> {
    match group.how {
        GroupKind::Single | GroupKind::Every { .. } | GroupKind::RoundsIn { .. } => None,
        _ => rest(group, members),
    }
}

/// The rest after a round: the group's own, otherwise that of its last member's sets.
fn rest(group: &Group, members: &[&PlannedExercise]) -> Option<Duration> {
    let own = || members.last()?.sets.iter().rev().find_map(|set| set.rest);
    group.rest.or_else(own)
}

/// Maximum number of boxes of a group: enough for more than an hour of intervals.
const MOST: usize = 120;

/// Number of intervals of a group.
fn intervals(interval: Duration, length: Duration) -> usize {
    let n = length.as_seconds() / interval.as_seconds().max(1);
    usize::try_from(n).unwrap_or(usize::MAX).clamp(1, MOST)
}

/// Lays out a group or a single exercise.
#[must_use]
pub fn blocks<'a>(
    group: Option<&Group>,
    members: &[&'a PlannedExercise],
    m: &Metrics,
    words: &Wording,
    discs: Discs<'_>,
    shared: &Shared<'a>,
) -> Vec<Block> {
    let told = group.and_then(|group| how(group, members, words).map(|how| (group, how)));
    let Some((group, how)) = told else {
        let setting = Setting {
            metrics: m,
            wording: words,
            discs,
            boxes: Boxes::PerSet,
            rest_told: None,
            tie: None,
        };
        return members.iter().map(|member| shared.exercise(member, setting)).collect();
    };
    let boxes = match &group.how {
        GroupKind::Circuit { rounds, .. } => {
            Boxes::Rounds(usize::try_from(*rounds).unwrap_or(MOST).min(MOST))
        }
        GroupKind::Every { .. } | GroupKind::RoundsIn { .. } => Boxes::None,
        _ => Boxes::PerSet,
    };
    let tally = tally(group, m, words);
    let rest_told = rest_told(group, members);
    let mut out: Vec<Block> = Vec::new();
    let end = members.len().saturating_sub(1);
    for (at, member) in members.iter().enumerate() {
        let tie = Tie { first: false, last: at == end && tally.is_none() };
        let tie = Some(tie);
        let setting = Setting { metrics: m, wording: words, discs, boxes, rest_told, tie };
        let mut block = shared.exercise(member, setting).keeping();
        if at == 0 {
            // The line must not be alone at the bottom of a page.
            block.rows.splice(0..0, caption(&how, true, m, words));
        }
        out.push(block);
    }
    out.extend(tally);
    // On each further page of a group, one line repeats how it is done.
    let again = stack(caption(&how, false, m, words).into_iter().map(drawn), 0.0);
    for block in &mut out {
        block.again = Some(Row::new(0.0, again.clone()));
    }
    if let Some(last) = out.last_mut() {
        last.keep_with_next = false;
    }
    out
}

/// The line that describes how the group is done, with the top of its bracket, or its repetition on
/// a further page.
fn caption(how: &str, first: bool, m: &Metrics, words: &Wording) -> Vec<Row> {
    let (kind, rest) = how.split_once(words.labels.semicolon).unwrap_or((how, ""));
    let kind = if first { kind.to_owned() } else { fill(words.labels.continued, &[kind]) };
    let strong = Style::strong(m.meta.size);
    let mut spans = vec![StyledText::new(kind, strong)];
    if !rest.is_empty() {
        spans.push(StyledText::new(
            format!("  ·  {}", rest.replace(words.labels.semicolon, "  ·  ")),
            m.meta,
        ));
    }
    let lines = lines(&spans, m.content() - m.bracket, Align::Left);
    let mut rows: Vec<Row> = lines
        .into_iter()
        .map(|line| Row::new(0.0, line.padded(m.bracket, 0.0, 0.0, 0.0)))
        .collect();
    tied(&mut rows, Tie { first, last: false }, m);
    if let Some(row) = rows.first_mut() {
        (row.before, row.apart) = (m.between, true);
    }
    rows
}

/// Boxes to count rounds or intervals.
fn tally(group: &Group, m: &Metrics, words: &Wording) -> Option<Block> {
    let side = m.tally;
    let (number, partial) = match &group.how {
        GroupKind::Every { interval, length, .. } => (intervals(*interval, *length), false),
        GroupKind::RoundsIn { .. } => (0, true),
        _ => return None,
    };
    let gap = m.box_gap;
    let room = if partial { m.left() } else { m.body() };
    let most = (1..=40).rev().find(|n| count(*n) * (side + gap) - gap <= room).unwrap_or(1);
    // Rounds get as many boxes as fit in one row; intervals fill rows evenly.
    let number = if partial { most } else { number };
    let per_row = number.div_ceil(number.div_ceil(most).max(1)).max(1);
    let mut rows: Vec<Row> = Vec::new();
    for at in 0..number {
        let column = at % per_row;
        if column == 0 {
            let before = if at == 0 { m.gap + 3.0 } else { gap };
            rows.push(Row::new(before, Fragment::space(m.content(), side)));
        }
        if let Some(row) = rows.last_mut() {
            let x = if partial { m.indent() } else { m.wide_x() } + count(column) * (side + gap);
            row.piece.put(tally_box(side, &(at + 1).to_string(), m), x, 0.0);
        }
    }
    for row in &mut rows {
        let numbers = spoken(&row.piece);
        row.piece = std::mem::take(&mut row.piece).with_reading(numbers);
    }
    if partial && let Some(row) = rows.first_mut() {
        let (x, w) = (m.right_x(), m.sets * 0.6);
        row.piece.put(write_in(m, w, side, words.labels.rounds_done), x, 0.0);
        let x = x + w + gap;
        let w = m.right_x() + m.right - x;
        row.piece.put(write_in(m, w, side, words.labels.extra_reps), x, 0.0);
    }
    tied(&mut rows, Tie { first: false, last: true }, m);
    Some(Block { rows, ..Block::default() })
}

/// A square to tick, with its number small in the corner.
fn tally_box(side: f32, number: &str, m: &Metrics) -> Fragment {
    let stroke = Some((0.7, Ink::Black));
    let mut out = Fragment::shape(side, side, stroke, None, Role::Tally);
    let style = m.tiny.in_ink(Ink::Soft);
    let label = crate::sheets::layout::line(number, style);
    out.items.extend(label.items.into_iter().map(|item: Shape| item.moved(1.8, 0.2)));
    out
}
