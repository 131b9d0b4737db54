//! The work that one set prescribes: repetitions, a time or a distance.

use std::fmt;

use serde::Serialize;

use super::Duration;

/// A count of repetitions, seconds or metres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct RepCount {
    /// The fewest that make the set.
    pub min: u32,
    /// The upper bound; `None` if there is none.
    pub max: Option<u32>,
}

impl RepCount {
    /// Exactly `n`.
    #[must_use]
    pub const fn exactly(n: u32) -> Self {
        Self { min: n, max: Some(n) }
    }
}

/// `5`, `8-12`, or `5+`.
impl fmt::Display for RepCount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.max {
            None => write!(f, "{}+", self.min),
            Some(max) if max == self.min => write!(f, "{max}"),
            Some(max) => write!(f, "{}-{max}", self.min),
        }
    }
}

/// The work of one set, with all numbers known.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Work {
    /// Repetitions: `5`, `8-12`, `5+`.
    Reps(RepCount),
    /// As many repetitions as possible in the set.
    Amrap,
    /// A cluster: mini-sets with a short pause between them.
    Cluster {
        /// Repetitions of each mini-set.
        parts: Vec<u32>,
        /// The pause between them, if given.
        pause: Option<Duration>,
    },
    /// Seconds of work, held or moving.
    Seconds(RepCount),
    /// Metres.
    Metres(RepCount),
}

/// The work of one set, with its sides.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Reps {
    /// The work of the set, on one side if it is done on each.
    pub work: Work,
    /// Whether it is done on each side.
    pub each_side: bool,
    /// Rest between the sides, if given.
    pub between: Option<SideRest>,
}

/// Rest between the two sides of a unilateral set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct SideRest(pub Duration);

impl Work {
    /// The fewest repetitions that make the set; `None` for time and distance. AMRAP counts as 1.
    #[must_use]
    pub fn least_reps(&self) -> Option<u32> {
        match self {
            Work::Reps(count) => Some(count.min),
            Work::Amrap => Some(1),
            Work::Cluster { parts, .. } => Some(parts.iter().sum()),
            Work::Seconds(_) | Work::Metres(_) => None,
        }
    }
}

impl fmt::Display for Work {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Work::Reps(count) => count.fmt(f),
            Work::Amrap => f.write_str("AMRAP"),
            Work::Cluster { parts, pause } => {
                let parts: Vec<String> = parts.iter().map(ToString::to_string).collect();
                f.write_str(&parts.join("+"))?;
                pause.map_or(Ok(()), |p| write!(f, " ({p})"))
            }
            Work::Seconds(RepCount { min, max: Some(max) }) if min == max => {
                write!(f, "{}", Duration::seconds(*min))
            }
            Work::Seconds(count) => count.fmt(f).and_then(|()| f.write_str(" s")),
            Work::Metres(count) => count.fmt(f).and_then(|()| f.write_str(" m")),
        }
    }
}

impl fmt::Display for Reps {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.work.fmt(f)?;
        if self.each_side {
            f.write_str(" each side")?;
        }
        self.between.map_or(Ok(()), |SideRest(rest)| write!(f, " ({rest} between)"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn range(min: u32, max: u32) -> RepCount {
        RepCount { min, max: Some(max) }
    }

    #[test]
    fn work_reads_as_on_a_whiteboard() {
        let cluster = |pause| Work::Cluster { parts: vec![3, 2, 1], pause };
        for (work, text) in [
            (Work::Reps(RepCount::exactly(5)), "5"),
            (Work::Reps(range(8, 12)), "8-12"),
            (Work::Reps(RepCount { min: 5, max: None }), "5+"),
            (Work::Amrap, "AMRAP"),
            (cluster(None), "3+2+1"),
            (cluster(Some(Duration::seconds(20))), "3+2+1 (20 s)"),
            (Work::Seconds(RepCount::exactly(120)), "2:00"),
            (Work::Seconds(range(20, 30)), "20-30 s"),
            (Work::Metres(RepCount::exactly(40)), "40 m"),
        ] {
            assert_eq!(work.to_string(), text);
        }
        let sides = Reps {
            work: Work::Reps(RepCount::exactly(8)),
            each_side: true,
            between: Some(SideRest(Duration::seconds(15))),
        };
        assert_eq!(sides.to_string(), "8 each side (15 s between)");
    }

    #[test]
    fn what_makes_a_set_is_the_lower_bound() {
        assert_eq!(Work::Reps(range(8, 12)).least_reps(), Some(8));
        assert_eq!(Work::Amrap.least_reps(), Some(1));
        let cluster = Work::Cluster { parts: vec![3, 2, 1], pause: None };
        assert_eq!(cluster.least_reps(), Some(6));
        assert_eq!(Work::Seconds(RepCount::exactly(30)).least_reps(), None);
    }
}
