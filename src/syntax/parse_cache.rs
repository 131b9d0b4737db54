//! Lines that have been read before: what a line says where it stands depends on its words and on
//! the kind of line above it, on nothing else. An editor's texts are read again at every keystroke,
//! and all their lines but one are as they were. So are most runs of lines that belong together,
//! which are kept as a whole too.

use std::collections::HashMap;

use super::ast::shift::{Shift, ShiftSpans};
use super::ast::{Item, Node};
use super::keys::BlockPlace;
use crate::source::FileId;

/// More lines are kept than a text has, for what is typed and taken back; no more than so many.
const SPARE_LINES: usize = 1_000;

/// Lines as they were read.
#[derive(Clone, Debug, Default)]
pub struct ParseCache {
    /// By where they stand (`None`: at the margin) and what they say.
    lines: HashMap<Option<BlockPlace>, HashMap<Box<str>, Kept>>,
    /// Runs of lines by what they stand below and what they say.
    runs: HashMap<BlockPlace, HashMap<Box<str>, KeptRun>>,
    /// How often texts have been read.
    readings: u32,
    /// How many lines the last reading asked for.
    asked: usize,
}

/// A line that read without a word to say about it.
#[derive(Clone, Debug)]
struct Kept {
    item: Item,
    /// What may stand below it.
    below: BlockPlace,
    /// The byte it started at.
    at: usize,
    /// The reading that last asked for it.
    used: u32,
}

/// Lines that belong to one above them, all of which read without a word to say about them.
#[derive(Clone, Debug)]
struct KeptRun {
    nodes: Vec<Node>,
    /// How many lines it has.
    length: usize,
    /// Where it started.
    at: Start,
    /// The reading that last asked for it.
    used: u32,
}

/// Where a run of lines starts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Start {
    /// Its byte.
    pub byte: usize,
    /// Its line, counted from zero.
    pub line: usize,
}

impl ParseCache {
    /// A run of lines as it was read before, at its place of now.
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

    /// Keeps a run of lines.
    pub(super) fn keep_run(&mut self, place: BlockPlace, text: &str, nodes: &[Node], at: Start) {
        let length = text.split('\n').count();
        let kept = KeptRun { nodes: nodes.to_vec(), length, at, used: self.readings };
        self.runs.entry(place).or_default().insert(text.into(), kept);
    }

    /// A line as it was read before, at its place of now.
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

    /// Keeps a line.
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

    /// Lets go of lines that are no longer written, when there are many of them.
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

/// Lets nodes and all below them stand elsewhere.
fn move_all(nodes: &mut [Node], to: Shift, from_line: usize, to_line: usize) {
    for node in nodes {
        node.item.shift(to);
        node.line = node.line - from_line + to_line;
        move_all(&mut node.children, to, from_line, to_line);
    }
}
