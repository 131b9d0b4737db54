//! QR codes that lead to demonstrations. They are in the foot next to the session's own boxes if
//! there is room, otherwise side by side below the exercises.

use crate::plan::PlannedExercise;
use crate::sheets::labels::Labels;
use crate::sheets::layout::{Block, Fragment, Row, line, stack};
use crate::sheets::qr::code;

use super::metrics::Metrics;
use super::separator;

/// Space in points between a code and the letter of the next, so that a phone camera sees one at a
/// time.
const GAP: f32 = 10.0;
/// Least share of the width that the session's own boxes keep next to codes.
const BOXES: f32 = 0.45;

/// The codes of a session in rows, each with its text for screen readers.
#[derive(Clone, Debug, Default)]
pub struct DemoCodes {
    rows: Vec<(Vec<String>, Fragment)>,
}

impl DemoCodes {
    /// A code for each exercise that links to a demonstration, below its letter. Empty if the card
    /// prints links as text.
    #[must_use]
    pub fn new(exercises: &[PlannedExercise], m: &Metrics, labels: &Labels) -> Self {
        let mut rows: Vec<(Vec<String>, Fragment)> = Vec::new();
        let exercises = exercises.iter().filter(|_| m.codes);
        let codes = exercises.filter_map(|exercise| {
            let code = code(exercise.demo.as_deref()?)?;
            let order = exercise.order.to_string();
            let words = format!("{} {order}", labels.demo);
            let label = stack([line(&order, m.letter), line(labels.demo, m.tiny)], 0.0);
            // The label is level with the code itself, without its quiet zone.
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

    /// Whether there are no codes.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// All codes in one row, if they leave enough room for the session's own boxes next to them.
    #[must_use]
    pub fn at_foot(&self, m: &Metrics) -> Option<Fragment> {
        match self.rows.as_slice() {
            [(told, row)] if row.w + GAP <= m.content() * (1.0 - BOXES) => {
                Some(row.clone().with_reading(told.join(", ")))
            }
            _ => None,
        }
    }

    /// Rows of codes below the exercises, for when the foot has too little room. A page may break
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

/// The link of an exercise as text; empty if a code contains it.
#[must_use]
pub fn in_text(exercise: &PlannedExercise, m: &Metrics) -> String {
    let demo = exercise.demo.as_deref().unwrap_or_default();
    if m.codes && code(demo).is_some() { String::new() } else { demo.to_owned() }
}
