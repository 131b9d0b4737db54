//! Cache of parsed lines. The meaning of a line depends only on its text and on the kind of line above
//! it. An editor parses its text again at every keystroke, and usually only one line has changed. Runs
//! of lines that belong together are cached as a whole too.

use std::collections::HashMap;

use super::ast::shift::{Shift, ShiftSpans};
use super::ast::{Item, Node};
use super::keys::BlockPlace;
use crate::source::FileId;

/// How many lines are kept beyond those of the current text, so that undone edits are found again.
const SPARE_LINES: usize = 1_000;

/// Cache of parsed lines.
#[derive(Clone, Debug, Default)]
pub struct ParseCache {
    /// Lines by their place (`None`: at the margin) and text.
    lines: HashMap<Option<BlockPlace>, HashMap<Box<str>, Kept>>,
    /// Runs of lines by the place they are in and their text.
    runs: HashMap<BlockPlace, HashMap<Box<str>, KeptRun>>,
    /// How many times a text has been parsed.
    readings: u32,
    /// How many lines the last parse asked for.
    asked: usize,
}

/// A cached line, which was read without problems.
#[derive(Clone, Debug)]
struct Kept {
    item: Item,
    /// What may follow below it.
    below: BlockPlace,
    /// The byte at which it started.
    at: usize,
    /// The parse that last asked for it.
    used: u32,
}

/// A cached run of lines below another line, all of which were read without problems.
#[derive(Clone, Debug)]
struct KeptRun {
    nodes: Vec<Node>,
    /// How many lines it has.
    length: usize,
    /// Where it started.
    at: Start,
    /// The parse that last asked for it.
    used: u32,
}

/// The start of a run of lines.
#[derive(Clone, Copy, Debug)]
pub(super) struct Start {
    /// Its byte.
    pub byte: usize,
    /// Its line, counted from zero.
    pub line: usize,
}

impl ParseCache {
    /// Looks up a run of lines and moves it to its current position.
    pub(super) fn find_run(
        &mut self,
        place: BlockPlace,
        text: &str,
        file: FileId,
        at: Start,
    ) -> Option<Vec<Node>> {
        let kept = self.runs.get_mut(&place)?.get_mut(text)?;
        kept.used = self.readings;
        self.asked += kept.length;
        let mut nodes = kept.nodes.clone();
        let to = Shift::new(kept.at.byte, file, at.byte);
        move_all(&mut nodes, to, kept.at.line, at.line);
        Some(nodes)
    }

    /// Stores a run of lines.
    pub(super) fn keep_run(&mut self, place: BlockPlace, text: &str, nodes: &[Node], at: Start) {
        let length = text.split('\n').count();
        let kept = KeptRun { nodes: nodes.to_vec(), length, at, used: self.readings };
        self.runs.entry(place).or_default().insert(text.into(), kept);
    }

    /// Looks up a line and moves it to its current position.
    pub(super) fn find(
        &mut self,
        place: Option<BlockPlace>,
        text: &str,
        file: FileId,
        at: usize,
    ) -> Option<(Item, BlockPlace)> {
        self.asked += 1;
        let kept = self.lines.get_mut(&place)?.get_mut(text)?;
        kept.used = self.readings;
        let mut item = kept.item.clone();
        item.shift(Shift::new(kept.at, file, at));
        Some((item, kept.below))
    }

    /// Stores a line.
    pub(super) fn keep(
        &mut self,
        place: Option<BlockPlace>,
        text: &str,
        (item, below): &(Item, BlockPlace),
        at: usize,
    ) {
        let kept = Kept { item: item.clone(), below: *below, at, used: self.readings };
        self.lines.entry(place).or_default().insert(text.into(), kept);
    }

    /// Removes lines that are no longer in the text, once there are many of them.
    pub(crate) fn drop_unused(&mut self) {
        let known: usize = self.lines.values().map(HashMap::len).sum();
        if known > self.asked + SPARE_LINES {
            let now = self.readings;
            self.lines.retain(|_, lines| {
                lines.retain(|_, kept| kept.used == now);
                !lines.is_empty()
            });
        }
        let known: usize = self.runs.values().flat_map(HashMap::values).map(|run| run.length).sum();
        if known > self.asked + SPARE_LINES {
            let now = self.readings;
            self.runs.retain(|_, runs| {
                runs.retain(|_, kept| kept.used == now);
                !runs.is_empty()
            });
        }
        self.readings = self.readings.wrapping_add(1);
        self.asked = 0;
    }
}

/// Moves nodes and everything below them to another position.
fn move_all(nodes: &mut [Node], to: Shift, from_line: usize, to_line: usize) {
    for node in nodes {
        node.item.shift(to);
        node.line = node.line - from_line + to_line;
        move_all(&mut node.children, to, from_line, to_line);
    }
}
