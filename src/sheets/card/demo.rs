//! Codes that lead to demonstrations, side by side below the exercises.

use crate::plan::PlannedExercise;
use crate::sheets::labels::Labels;
use crate::sheets::layout::{Block, Fragment, Row, line, stack};
use crate::sheets::qr::code;

use super::metrics::Metrics;
use super::separator;

/// Between one code and the letter of the next, so that a phone sees one at a time.
const GAP: f32 = 10.0;

/// A code for each exercise with a link to a demonstration; nothing where there is none. A page
/// may be turned between rows of them.
#[must_use]
pub fn block(exercises: &[&PlannedExercise], m: &Metrics, labels: &Labels) -> Vec<Block> {
    let codes = exercises.iter().filter_map(|exercise| {
        let code = code(exercise.demo.as_deref()?)?;
        let order = exercise.order.to_string();
        let words = format!("{} {order}", labels.demo);
        let label = stack([line(&order, m.letter), line(labels.demo, m.tiny)], 0.0);
        // The label stands level with the code, not with its quiet zone.
        let drop = m.letter.size * 0.3;
        let mut cell = label.padded(0.0, drop, 0.0, 0.0);
        let x = cell.w;
        cell.put(code, x, 0.0);
        Some((words, cell))
    });
    let mut rows: Vec<(Vec<String>, Fragment)> = Vec::new();
    for (words, cell) in codes {
        let room = m.content() - m.bracket;
        match rows.last_mut() {
            Some((told, row)) if row.w + GAP + cell.w <= room => {
                let x = row.w + GAP;
                row.put(cell, x, 0.0);
                told.push(words);
            }
            _ => rows.push((vec![words], cell)),
        }
    }
    if rows.is_empty() {
        return Vec::new();
    }
    let rows = rows.into_iter().map(|(told, row)| {
        let row = row.told(told.join(", "));
        Row::new(m.gap, row.padded(m.bracket, 0.0, 0.0, 0.0))
    });
    vec![separator(m), Block { rows: rows.collect(), ..Block::default() }]
}
