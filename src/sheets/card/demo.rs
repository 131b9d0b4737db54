//! Codes that lead to demonstrations: at the foot, beside the session's own boxes, where they have
//! room; else side by side below the exercises.

use crate::plan::PlannedExercise;
use crate::sheets::labels::Labels;
use crate::sheets::layout::{Block, Fragment, Row, line, stack};
use crate::sheets::qr::code;

use super::metrics::Metrics;
use super::separator;

/// Between one code and the letter of the next, so that a phone sees one at a time.
const GAP: f32 = 10.0;
/// The least share of the width that the session's own boxes keep beside codes.
const BOXES: f32 = 0.45;

/// The codes of a session, in rows: each with its words, for reading.
#[derive(Clone, Debug, Default)]
pub struct DemoCodes {
    rows: Vec<(Vec<String>, Fragment)>,
}

impl DemoCodes {
    /// A code for each exercise with a link to a demonstration, under its letter; none where the
    /// card has its links in text.
    #[must_use]
    pub fn new(exercises: &[PlannedExercise], m: &Metrics, labels: &Labels) -> Self {
        let mut rows: Vec<(Vec<String>, Fragment)> = Vec::new();
        let exercises = exercises.iter().filter(|_| m.codes);
        let codes = exercises.filter_map(|exercise| {
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
        Self { rows }
    }

    /// Whether there are any.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// All of them in a row, where they leave the session's own boxes room beside them.
    #[must_use]
    pub fn at_foot(&self, m: &Metrics) -> Option<Fragment> {
        match self.rows.as_slice() {
            [(told, row)] if row.w + GAP <= m.content() * (1.0 - BOXES) => {
                Some(row.clone().with_reading(told.join(", ")))
            }
            _ => None,
        }
    }

    /// Rows of them below the exercises, where the foot has too little room. A page may be turned
    /// between rows.
    #[must_use]
    pub fn blocks(self, m: &Metrics) -> Vec<Block> {
        if self.is_empty() || self.at_foot(m).is_some() {
            return Vec::new();
        }
        let rows = self.rows.into_iter().map(|(told, row)| {
            let row = row.with_reading(told.join(", "));
            Row::new(m.gap, row.padded(m.bracket, 0.0, 0.0, 0.0))
        });
        vec![separator(m), Block { rows: rows.collect(), ..Block::default() }]
    }
}

/// The link of an exercise in text: none where a code says it.
#[must_use]
pub fn in_text(exercise: &PlannedExercise, m: &Metrics) -> String {
    let demo = exercise.demo.as_deref().unwrap_or_default();
    if m.codes && code(demo).is_some() { String::new() } else { demo.to_owned() }
}
