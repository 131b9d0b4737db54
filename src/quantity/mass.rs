//! Masses, exact in kilograms and in pounds.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Mul, Sub};

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use super::{Decimal, Exact};

/// The unit in which a mass is written or shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Unit {
    /// Kilograms.
    #[default]
    Kg,
    /// International avoirdupois pounds.
    Lb,
}

impl Unit {
    /// One of this unit, in the integer unit of [`Mass`].
    ///
    /// 1 lb = 0.45359237 kg exactly: international yard and pound agreement of 1959, as printed in
    /// NIST SP 811, appendix B.8.
    #[must_use]
    pub const fn in_units(self) -> i64 {
        match self {
            Unit::Kg => 100_000_000_000,
            Unit::Lb => 45_359_237_000,
        }
    }

    /// The symbol: `kg` or `lb`.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::Kg => "kg",
            Unit::Lb => "lb",
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

/// An exact mass or difference of masses (it may be negative), in units of ten nanograms: the
/// largest unit in which both 0.001 kg and 0.001 lb are whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Mass(i64);

impl Mass {
    /// Zero.
    pub const ZERO: Mass = Mass(0);
    /// The largest mass that can be written: 10,000 kg.
    pub const MOST: Mass = Mass(10_000 * Unit::Kg.in_units());

    /// A mass from the integer unit.
    #[must_use]
    pub const fn from_units(units: i64) -> Self {
        Self(units)
    }

    /// A whole number of kilograms.
    #[must_use]
    pub const fn from_kg(kg: i64) -> Self {
        Self(kg * Unit::Kg.in_units())
    }

    /// Converts a decimal number of a unit; `None` for more than three decimals (1 g or 0.001 lb)
    /// or above [`Mass::MOST`].
    #[must_use]
    pub fn from_decimal(value: Decimal, unit: Unit) -> Option<Self> {
        if value.places() > 3 {
            return None;
        }
        let scale = 10_i64.pow(value.places());
        let mass = Self(value.digits().checked_mul(unit.in_units() / scale)?);
        (mass.0.abs() <= Self::MOST.0).then_some(mass)
    }

    /// The mass in the integer unit.
    #[must_use]
    pub const fn units(self) -> i64 {
        self.0
    }

    /// The number of kilograms or pounds, to three decimals.
    #[must_use]
    pub fn in_unit(self, unit: Unit) -> Decimal {
        let value = &Exact::whole(self.0) / &Exact::whole(unit.in_units());
        value.to_decimal(3)
    }

    /// Kilograms as a float, for drawings and plots only.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "drawing only")]
    pub fn kg_f64(self) -> f64 {
        self.0 as f64 / Unit::Kg.in_units() as f64
    }

    /// The mass as `62.5 kg` or `135 lb`.
    #[must_use]
    pub fn show(self, unit: Unit) -> String {
        format!("{} {unit}", self.in_unit(unit))
    }

    /// The sum; `None` on overflow.
    #[must_use]
    pub fn checked_add(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// The mass multiplied by `count`; `None` on overflow.
    #[must_use]
    pub fn checked_mul(self, count: i64) -> Option<Self> {
        self.0.checked_mul(count).map(Self)
    }

    /// Whether this is negative.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// The absolute value.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }
}

impl Add for Mass {
    type Output = Mass;
    fn add(self, other: Mass) -> Mass {
        Mass(self.0.saturating_add(other.0))
    }
}

impl Sub for Mass {
    type Output = Mass;
    fn sub(self, other: Mass) -> Mass {
        Mass(self.0.saturating_sub(other.0))
    }
}

impl Mul<i64> for Mass {
    type Output = Mass;
    fn mul(self, count: i64) -> Mass {
        Mass(self.0.saturating_mul(count))
    }
}

impl Sum for Mass {
    fn sum<I: Iterator<Item = Mass>>(masses: I) -> Mass {
        masses.fold(Mass::ZERO, Add::add)
    }
}

/// A number of kilograms; fields are named for it (`load_kg`).
impl Serialize for Mass {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Exact::from_mass(*self).serialize(serializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mass(text: &str, unit: Unit) -> Mass {
        Mass::from_decimal(Decimal::parse(text).unwrap(), unit).unwrap()
    }

    #[test]
    fn a_gram_and_a_thousandth_of_a_pound_are_whole() {
        assert_eq!(mass("0.001", Unit::Kg).units(), 100_000_000);
        assert_eq!(mass("0.001", Unit::Lb).units(), 45_359_237);
    }

    #[test]
    fn ten_tonnes_and_three_decimals_are_the_end() {
        let read = |text: &str| Mass::from_decimal(Decimal::parse(text).unwrap(), Unit::Kg);
        assert_eq!(read("10000"), Some(Mass::MOST));
        assert_eq!(Mass::MOST, Mass::from_kg(10_000));
        assert_eq!(read("10000.001"), None);
        assert_eq!(read("0.0001"), None);
    }

    #[test]
    fn differences_have_a_sign_and_a_size() {
        let (light, heavy) = (Mass::from_kg(15), Mass::from_kg(20));
        assert_eq!((light - heavy).abs(), Mass::from_kg(5));
        assert!((light - heavy).is_negative() && !(heavy - light).is_negative());
        assert!(!Mass::ZERO.is_negative());
        assert_eq!([light, heavy, heavy].into_iter().sum::<Mass>(), Mass::from_kg(55));
        assert_eq!(light * 2, Mass::from_kg(30));
        assert_eq!(heavy.checked_add(light), Some(Mass::from_kg(35)));
        assert_eq!(heavy.checked_mul(3), Some(Mass::from_kg(60)));
        assert_eq!(Mass::from_units(i64::MAX).checked_add(light), None);
        assert_eq!(Mass::from_units(i64::MAX).checked_mul(2), None);
        assert!((mass("2.5", Unit::Kg).kg_f64() - 2.5).abs() < f64::EPSILON);
    }

    #[test]
    fn shows_what_was_written() {
        assert_eq!(mass("62.5", Unit::Kg).show(Unit::Kg), "62.5 kg");
        assert_eq!(mass("135", Unit::Lb).show(Unit::Lb), "135 lb");
        assert_eq!(mass("45", Unit::Lb).show(Unit::Kg), "20.412 kg");
    }
}
