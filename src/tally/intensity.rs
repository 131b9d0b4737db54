//! The intensity of hard sets, in percent of the 1RM.

use crate::quantity::Exact;

use super::Measure;

/// The intensity of hard sets whose 1RM is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Intensity {
    /// Number of sets.
    pub sets: u32,
    /// Sum of the sets' loads as shares of the 1RM.
    shares: Exact,
    /// Number of repetitions, of sets that count repetitions.
    reps: u64,
    /// Sum of the shares, each multiplied by the repetitions of its set.
    by_reps: Exact,
}

impl Default for Intensity {
    fn default() -> Self {
        Self { sets: 0, shares: Exact::zero(), reps: 0, by_reps: Exact::zero() }
    }
}

impl Intensity {
    /// The intensity of one set: its load as a share of the 1RM, and its repetitions if it has any.
    #[must_use]
    pub fn of_set(share: Exact, reps: Option<u64>) -> Self {
        let reps = reps.unwrap_or(0);
        Self { sets: 1, by_reps: &share * &super::work::whole(reps), shares: share, reps }
    }

    /// Adds the intensity of more sets.
    pub fn add(&mut self, more: &Intensity) {
        self.sets += more.sets;
        self.shares = &self.shares + &more.shares;
        self.reps += more.reps;
        self.by_reps = &self.by_reps + &more.by_reps;
    }

    /// The mean over sets, in percent; `None` if there are no sets.
    #[must_use]
    pub fn mean_percent(&self) -> Option<Exact> {
        percent(&self.shares, u64::from(self.sets))
    }

    /// The mean over repetitions, in percent: the average load as a share of the 1RM. `None` if no
    /// set counts repetitions.
    #[must_use]
    pub fn percent_by_reps(&self) -> Option<Exact> {
        percent(&self.by_reps, self.reps)
    }

    /// The measures by name, for JSON and CSV; empty if there are no sets.
    #[must_use]
    pub fn measures(&self) -> Vec<Measure> {
        let (Some(mean), sets) = (self.mean_percent(), self.sets) else { return Vec::new() };
        let mut all = vec![
            ("sets_with_1rm", Exact::whole(i64::from(sets)).to_decimal(0)),
            ("mean_percent_1rm", mean.to_decimal(3)),
        ];
        let by_reps = self.percent_by_reps();
        all.extend(by_reps.map(|percent| ("percent_1rm_by_reps", percent.to_decimal(3))));
        all
    }
}

fn percent(sum: &Exact, of: u64) -> Option<Exact> {
    Some(&sum.checked_div(&super::work::whole(of))? * &Exact::whole(100))
}
