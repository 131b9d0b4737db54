//! All sums that a stock of plates can make, each with its best choice of plates.

use std::cmp::{Ordering, Reverse};
use std::collections::BTreeMap;
use std::fmt;

use super::Plate;
use crate::quantity::Mass;

/// Error: a stock of plates makes too many loads. The message contains the limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct TooManyLoads {
    /// The maximum number of loads.
    pub limit: usize,
}

impl fmt::Display for TooManyLoads {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "these plates make more than {} different loads", self.limit)
    }
}

impl std::error::Error for TooManyLoads {}

/// Maximum number of choices that are held at once. Real gyms stay far below.
const LIMIT: usize = 200_000;
/// Number of bits of an encoded choice.
const CHOICE_BITS: u32 = u128::BITS;

/// Discs of one mass and thickness.
#[derive(Clone, Debug)]
struct DiscKind {
    mass: Mass,
    thickness: u32,
    most: u32,
    /// Position of the bits of its count in a [`PlateChoice::choice`].
    shift: u32,
}

/// One choice of plates.
#[derive(Clone, Copy)]
struct PlateChoice {
    sum: Mass,
    pieces: u32,
    /// The count of each kind in a bit field, with the heaviest kind in the highest bits. So the
    /// greater of two numbers has more of the first kind in which they differ.
    choice: u128,
    thickness: u32,
}

impl PlateChoice {
    const NONE: Self = Self { sum: Mass::ZERO, pieces: 0, choice: 0, thickness: 0 };

    /// The choice with `count` more of a kind, if they fit.
    fn with(self, kind: &DiscKind, count: u32, room: u32) -> Option<Self> {
        let thickness = kind.thickness.checked_mul(count)?.checked_add(self.thickness)?;
        (thickness <= room).then_some(Self {
            sum: self.sum.checked_add(kind.mass.checked_mul(count.into())?)?,
            pieces: self.pieces + count,
            choice: self.choice + (u128::from(count) << kind.shift),
            thickness,
        })
    }

    /// Compares by sum, then fewest plates first, then heaviest first.
    fn order(&self, other: &Self) -> Ordering {
        let key = |state: &Self| (state.sum, state.pieces, Reverse(state.choice));
        key(self).cmp(&key(other))
    }
}

/// All sums, lightest first, starting with zero, each with its best choice.
#[derive(Clone, Debug)]
pub(super) struct Sums {
    kinds: Vec<DiscKind>,
    /// The sums and their choices; the first sum is zero.
    best: Vec<(Mass, u128)>,
}

impl Sums {
    /// All sums of `plates` if discs are added `at_once` at a time (two for a bar, one on each
    /// side; one for a belt) in `room` millimetres. Sums are those of one side.
    ///
    /// This is dynamic programming over the kinds, heaviest first, each divided into bundles of 1,
    /// 2, 4, … discs. A choice is dropped if another choice with the same sum has the same or a
    /// better rank (fewest plates, then heaviest first) and needs no more room: whatever is added
    /// to both later, the other one stays at least as good. So the result is exact.
    pub(super) fn new(plates: &[Plate], at_once: u32, room: u32) -> Result<Self, TooManyLoads> {
        let kinds = kinds(plates, at_once, room)?;
        let mut states = vec![PlateChoice::NONE];
        for kind in &kinds {
            let (mut left, mut bundle) = (kind.most, 1);
            while left > 0 {
                let count = left.min(bundle);
                states = extended(&states, kind, count, room)?;
                left -= count;
                bundle *= 2;
            }
        }
        let mut best: Vec<_> = states.iter().map(|state| (state.sum, state.choice)).collect();
        best.dedup_by_key(|(sum, _)| *sum);
        Ok(Self { kinds, best })
    }

    /// The sums, lightest first.
    pub(super) fn masses(&self) -> impl Iterator<Item = Mass> {
        self.best.iter().map(|(sum, _)| *sum)
    }

    /// The plates of the sum at this index, heaviest first.
    pub(super) fn plates(&self, index: usize) -> Vec<Mass> {
        let choice = self.best.get(index).map_or(0, |(_, choice)| *choice);
        let mut plates = Vec::new();
        let mut rest = choice;
        for kind in &self.kinds {
            let count = rest >> kind.shift;
            rest -= count << kind.shift;
            plates.extend((0..count).map(|_| kind.mass));
        }
        plates
    }
}

/// The kinds that can be loaded, heaviest first and thinnest first among equal masses.
fn kinds(plates: &[Plate], at_once: u32, room: u32) -> Result<Vec<DiscKind>, TooManyLoads> {
    let mut counts: BTreeMap<(Reverse<Mass>, u32), Option<u32>> = BTreeMap::new();
    for plate in plates.iter().filter(|plate| plate.mass > Mass::ZERO) {
        let count = counts.entry((Reverse(plate.mass), plate.thickness())).or_insert(Some(0));
        *count = count.zip(plate.count).map(|(a, b)| a.saturating_add(b));
    }
    let mut shift = CHOICE_BITS;
    let mut kinds = Vec::new();
    for ((Reverse(mass), thickness), count) in counts {
        let fits = room / thickness.max(1);
        let most = count.map_or(fits, |count| fits.min(count / at_once.max(1)));
        if most > 0 {
            let bits = u32::BITS - most.leading_zeros();
            shift = shift.checked_sub(bits).ok_or(TooManyLoads { limit: LIMIT })?;
            kinds.push(DiscKind { mass, thickness, most, shift });
        }
    }
    Ok(kinds)
}

/// Merges the states with the states with `count` more of `kind`; both lists are sorted.
fn extended(
    states: &[PlateChoice],
    kind: &DiscKind,
    count: u32,
    room: u32,
) -> Result<Vec<PlateChoice>, TooManyLoads> {
    let mut without = states.iter().copied().peekable();
    let mut with = states.iter().filter_map(|state| state.with(kind, count, room)).peekable();
    let mut kept: Vec<PlateChoice> = Vec::with_capacity(states.len());
    loop {
        let take_with = match (without.peek(), with.peek()) {
            (Some(a), Some(b)) => b.order(a).is_lt(),
            (None, Some(_)) => true,
            (Some(_), None) => false,
            (None, None) => return Ok(kept),
        };
        let Some(state) = (if take_with { with.next() } else { without.next() }) else {
            return Ok(kept);
        };
        let better = kept.last().filter(|last| last.sum == state.sum);
        if better.is_none_or(|better| state.thickness < better.thickness) {
            if kept.len() == LIMIT {
                return Err(TooManyLoads { limit: LIMIT });
            }
            kept.push(state);
        }
    }
}
