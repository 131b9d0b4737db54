//! Effort: rating of perceived exertion and repetitions in reserve.

use std::fmt;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use super::{Decimal, Exact};

/// A number in steps of 0.5, as effort is reported: `7.5` is 15 half points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HalfPoints(pub u16);

impl HalfPoints {
    /// Converts a decimal; `None` unless it is a multiple of 0.5 from 0 to 100.
    #[must_use]
    pub fn from_decimal(value: Decimal) -> Option<Self> {
        let doubled = match value.places() {
            0 => value.digits().checked_mul(2)?,
            1 if value.digits() % 5 == 0 => value.digits() / 5,
            _ => return None,
        };
        u16::try_from(doubled).ok().filter(|&d| d <= 200).map(Self)
    }

    /// The value as an exact number.
    #[must_use]
    pub fn to_exact(self) -> Exact {
        Exact::ratio(i64::from(self.0), 2)
    }
}

impl fmt::Display for HalfPoints {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.to_exact().to_decimal(1).fmt(f)
    }
}

impl Serialize for HalfPoints {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.to_exact().to_decimal(1).serialize(serializer)
    }
}

/// An effort: how hard a set is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Effort {
    /// Rating of perceived exertion, from 1 to 10.
    Rpe(HalfPoints),
    /// Repetitions in reserve, from 0.
    Rir(HalfPoints),
}

impl Effort {
    /// Repetitions in reserve: `RPE 8` leaves two, `RPE 9.5` a half.
    ///
    /// RPE 10 is maximal, and each point below leaves one repetition more (Zourdos et al. 2016, J
    /// Strength Cond Res 30(1):267–275). The scale is coarse below 6, but the conversion is the
    /// same there.
    #[must_use]
    pub fn in_reserve(self) -> HalfPoints {
        match self {
            Effort::Rpe(points) => HalfPoints(20_u16.saturating_sub(points.0)),
            Effort::Rir(reps) => reps,
        }
    }
}

impl fmt::Display for Effort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Effort::Rpe(points) => write!(f, "RPE {points}"),
            Effort::Rir(reps) => write!(f, "RIR {reps}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rpe_leaves_what_zourdos_2016_says() {
        let rpe =
            |t: &str| Effort::Rpe(HalfPoints::from_decimal(Decimal::parse(t).unwrap()).unwrap());
        assert_eq!(rpe("10").in_reserve(), HalfPoints(0));
        assert_eq!(rpe("9").in_reserve(), HalfPoints(2));
        assert_eq!(rpe("8").in_reserve(), HalfPoints(4));
        assert_eq!(rpe("7.5").in_reserve(), HalfPoints(5));
    }

    #[test]
    fn points_come_in_halves_up_to_a_hundred() {
        let points = |text| HalfPoints::from_decimal(Decimal::parse(text).unwrap());
        assert_eq!(points("100"), Some(HalfPoints(200)));
        for text in ["7.3", "7.25", "100.5", "101"] {
            assert_eq!(points(text), None, "{text}");
        }
    }

    #[test]
    fn efforts_read_as_on_a_whiteboard() {
        assert_eq!(Effort::Rpe(HalfPoints(17)).to_string(), "RPE 8.5");
        assert_eq!(Effort::Rir(HalfPoints(4)).to_string(), "RIR 2");
        assert_eq!(Effort::Rir(HalfPoints(4)).in_reserve(), HalfPoints(4));
    }
}
