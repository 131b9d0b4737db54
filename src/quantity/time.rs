//! Durations in whole seconds, and tempo.

use std::fmt;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// A duration in whole seconds: a rest, a hold, an interval.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, JsonSchema,
)]
pub struct Duration(u32);

impl Duration {
    /// The longest duration that can be written: a day, in seconds.
    pub const MOST_SECONDS: u32 = 24 * 60 * 60;

    /// A whole number of seconds.
    #[must_use]
    pub const fn seconds(seconds: u32) -> Self {
        Self(seconds)
    }

    /// The number of seconds.
    #[must_use]
    pub const fn as_seconds(self) -> u32 {
        self.0
    }
}

/// `90 s` below two minutes, `3:00` from two minutes, `10 min` for whole minutes from ten.
impl fmt::Display for Duration {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            s if s >= 600 && s % 60 == 0 => write!(f, "{} min", s / 60),
            s if s >= 120 => write!(f, "{}:{:02}", s / 60, s % 60),
            s => write!(f, "{s} s"),
        }
    }
}

/// One part of a tempo: seconds, or as fast as possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TempoPart {
    /// Seconds.
    Seconds(u8),
    /// `X`: as fast as possible.
    Explosive,
}

impl fmt::Display for TempoPart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TempoPart::Seconds(s) => s.fmt(f),
            TempoPart::Explosive => f.write_str("X"),
        }
    }
}

/// A tempo: lower, pause, lift, pause. Lowering is always first, even if the exercise starts with
/// lifting (four-digit order: Wilk et al. 2021, Sports Med 51:1629–1650; the X is common practice).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tempo(pub [TempoPart; 4]);

impl fmt::Display for Tempo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [lower, bottom, lift, top] = self.0;
        write!(f, "{lower}-{bottom}-{lift}-{top}")
    }
}

/// As written: `3-1-X-0`.
impl Serialize for Tempo {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_read_as_on_a_whiteboard() {
        for (seconds, text) in [
            (30, "30 s"),
            (90, "90 s"),
            (119, "119 s"),
            (120, "2:00"),
            (185, "3:05"),
            (540, "9:00"),
            (600, "10 min"),
            (610, "10:10"),
        ] {
            assert_eq!(Duration::seconds(seconds).to_string(), text);
            assert_eq!(Duration::seconds(seconds).as_seconds(), seconds);
        }
        assert_eq!(Duration::MOST_SECONDS, 86_400, "a day");
    }

    #[test]
    fn a_tempo_reads_as_written() {
        use TempoPart::{Explosive, Seconds};
        assert_eq!(Tempo([Seconds(3), Seconds(1), Explosive, Seconds(0)]).to_string(), "3-1-X-0");
    }
}
