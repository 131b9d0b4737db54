//! The work of a muscle.

use serde::{Serialize, Serializer};

use crate::quantity::Exact;

use super::{Measure, Work, in_kg};

/// Hard sets and volume load of a muscle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MuscleSets {
    /// Sets of exercises that train it with a share of 1.
    pub direct_sets: u32,
    /// Sets of exercises in which it assists.
    pub indirect_sets: u32,
    /// Sum of the muscle's shares in all sets.
    pub fractional_sets: Exact,
    /// Volume load of the direct sets.
    pub direct_volume: Exact,
    /// Volume load of the indirect sets.
    pub indirect_volume: Exact,
    /// Volume load of all sets, each multiplied by the muscle's share.
    pub fractional_volume: Exact,
}

impl Default for MuscleSets {
    fn default() -> Self {
        Self {
            direct_sets: 0,
            indirect_sets: 0,
            fractional_sets: Exact::zero(),
            direct_volume: Exact::zero(),
            indirect_volume: Exact::zero(),
            fractional_volume: Exact::zero(),
        }
    }
}

impl MuscleSets {
    /// Adds work in which the muscle has this share.
    pub fn add(&mut self, work: &Work, share: &Exact) {
        if *share >= Exact::one() {
            self.direct_sets += work.hard_sets;
            self.direct_volume = &self.direct_volume + &work.volume;
        } else if !share.is_zero() {
            self.indirect_sets += work.hard_sets;
            self.indirect_volume = &self.indirect_volume + &work.volume;
        }
        let sets = Exact::whole(i64::from(work.hard_sets));
        self.fractional_sets = &self.fractional_sets + &(&sets * share);
        self.fractional_volume = &self.fractional_volume + &(&work.volume * share);
    }

    /// The measures by name, for JSON and CSV.
    #[must_use]
    pub fn measures(&self) -> Vec<Measure> {
        let count = |n: u32| Exact::whole(i64::from(n)).to_decimal(0);
        vec![
            ("direct_sets", count(self.direct_sets)),
            ("indirect_sets", count(self.indirect_sets)),
            ("fractional_sets", self.fractional_sets.to_decimal(3)),
            ("direct_volume_load_kg", in_kg(&self.direct_volume)),
            ("indirect_volume_load_kg", in_kg(&self.indirect_volume)),
            ("fractional_volume_load_kg", in_kg(&self.fractional_volume)),
        ]
    }
}

impl Serialize for MuscleSets {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        super::fields(&self.measures(), serializer)
    }
}
