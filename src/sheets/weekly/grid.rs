//! A table with names down and weeks across. It is divided into parts if a line has no room for all
//! weeks.

use crate::sheets::summary::lines::{WrappedText, cut};

use super::WIDTH;

/// Maximum width of a name, in characters.
const NAME: usize = 34;
/// The text of a cell without a number.
const NONE: &str = "-";

/// A table.
pub struct TextTable {
    corner: String,
    columns: Vec<String>,
    rows: Vec<(String, Vec<Option<String>>)>,
}

impl TextTable {
    /// A table without rows, with the text of its corner and the names of its columns.
    pub fn new(corner: &str, columns: Vec<String>) -> Self {
        Self { corner: corner.to_owned(), columns, rows: Vec::new() }
    }

    /// Adds a row, unless it has no number.
    pub fn row(&mut self, name: &str, cells: Vec<Option<String>>) {
        if cells.iter().any(Option::is_some) {
            self.rows.push((cut(name, NAME), cells));
        }
    }

    /// Whether no row has a number.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Writes the table, with as many columns at a time as fit on a line.
    pub fn write(&self, out: &mut WrappedText) {
        let length = |text: &str| text.chars().count();
        let names = self.rows.iter().map(|(name, _)| length(name));
        let name = names.chain([length(&self.corner)]).max().unwrap_or(0);
        let cells = self.rows.iter().flat_map(|(_, cells)| cells.iter().flatten());
        let cell = cells.chain(&self.columns).map(|text| length(text)).max().unwrap_or(0) + 2;
        let most = (WIDTH.saturating_sub(name) / cell).max(1);
        let parts = self.columns.len().div_ceil(most).max(1);
        let at_once = self.columns.len().div_ceil(parts).max(1);
        let line = |first: &str, cells: &mut dyn Iterator<Item = &str>| {
            cells.fold(format!("{first:<name$}"), |line, text| format!("{line}{text:>cell$}"))
        };
        for from in (0..self.columns.len()).step_by(at_once) {
            if from > 0 {
                out.blank();
            }
            let mut part = self.columns.iter().skip(from).take(at_once).map(String::as_str);
            out.wrapped(0, 0, &line(&self.corner, &mut part));
            for (row, cells) in &self.rows {
                let part = cells.iter().skip(from).take(at_once);
                let mut part = part.map(|cell| cell.as_deref().unwrap_or(NONE));
                out.wrapped(0, 0, &line(row, &mut part));
            }
        }
    }
}
