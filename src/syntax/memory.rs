//! Lines that have been read before: what a line says where it stands depends on its words and on
//! the kind of line above it, on nothing else. An editor's texts are read again at every keystroke,
//! and all their lines but one are as they were.

use std::collections::HashMap;

use super::ast::Item;
use super::ast::moved::{Move, Moved};
use super::keys::Place;
use crate::source::FileId;

/// More lines are kept than a text has, for what is typed and taken back; no more than so many.
const SPARE_LINES: usize = 1_000;

/// Lines as they were read.
#[derive(Clone, Debug, Default)]
pub struct LineMemory {
    /// By where they stand (`None`: at the margin) and what they say.
    lines: HashMap<Option<Place>, HashMap<Box<str>, Kept>>,
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
    below: Place,
    /// The byte it started at.
    at: usize,
    /// The reading that last asked for it.
    used: u32,
}

impl LineMemory {
    /// A line as it was read before, at its place of now.
    pub(super) fn find(
        &mut self,
        place: Option<Place>,
        text: &str,
        file: FileId,
        at: usize,
    ) -> Option<(Item, Place)> {
        self.asked += 1;
        let kept = self.lines.get_mut(&place)?.get_mut(text)?;
        kept.used = self.readings;
        let mut item = kept.item.clone();
        item.moved(Move::new(kept.at, file, at));
        Some((item, kept.below))
    }

    /// Keeps a line.
    pub(super) fn keep(
        &mut self,
        place: Option<Place>,
        text: &str,
        (item, below): &(Item, Place),
        at: usize,
    ) {
        let kept = Kept { item: item.clone(), below: *below, at, used: self.readings };
        self.lines.entry(place).or_default().insert(text.into(), kept);
    }

    /// Lets go of lines that are no longer written, when there are many of them.
    pub(crate) fn tidy(&mut self) {
        let known: usize = self.lines.values().map(HashMap::len).sum();
        if known > self.asked + SPARE_LINES {
            let now = self.readings;
            self.lines.retain(|_, lines| {
                lines.retain(|_, kept| kept.used == now);
                !lines.is_empty()
            });
        }
        self.readings = self.readings.wrapping_add(1);
        self.asked = 0;
    }
}
