//! Exact fractions: the number type of targets, maxes and rational estimates.

use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Sub};

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{Signed, ToPrimitive, Zero};
use serde::{Serialize, Serializer};

use super::{Decimal, Mass};

/// An exact fraction, never rounded. Used as a plain number (a factor) or, where a field or
/// function says so, as a mass in the integer unit of [`Mass`].
///
/// Built on arbitrary-size integers, so no programme can overflow it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Exact(BigRational);

impl Exact {
    /// Zero.
    #[must_use]
    pub fn zero() -> Self {
        Self(BigRational::zero())
    }

    /// One: the factor that changes nothing.
    #[must_use]
    pub fn one() -> Self {
        Self::whole(1)
    }

    /// A whole number.
    #[must_use]
    pub fn whole(n: i64) -> Self {
        Self(BigRational::from_integer(BigInt::from(n)))
    }

    /// The fraction `numerator / denominator`. A zero denominator gives zero, never a panic.
    #[must_use]
    pub fn ratio(numerator: i64, denominator: i64) -> Self {
        if denominator == 0 {
            return Self::zero();
        }
        Self(BigRational::new(numerator.into(), denominator.into()))
    }

    /// The mass as a fraction in the unit of [`Mass`].
    #[must_use]
    pub fn from_mass(mass: Mass) -> Self {
        Self::whole(mass.units())
    }

    /// A factor from a floating-point estimate, kept to nine decimals: the equations with powers
    /// and exponentials have no exact value, and nine decimals are far below any plate.
    /// Not a number, or out of range, gives `None`.
    #[must_use]
    pub fn from_estimate(value: f64) -> Option<Self> {
        if !value.is_finite() || value.abs() > 1e6 {
            return None;
        }
        #[allow(clippy::cast_possible_truncation, reason = "bounded by the check above")]
        let scaled = libm::round(value * 1e9) as i64;
        Some(Self::ratio(scaled, 1_000_000_000))
    }

    /// The quotient, or `None` when dividing by zero.
    #[must_use]
    pub fn checked_div(&self, other: &Self) -> Option<Self> {
        (!other.is_zero()).then(|| Self(&self.0 / &other.0))
    }

    /// Whether this is exactly zero.
    #[must_use]
    pub fn is_zero(&self) -> bool {
        self.0.is_zero()
    }

    /// Whether this is below zero.
    #[must_use]
    pub fn is_negative(&self) -> bool {
        self.0.is_negative()
    }

    /// The distance from zero.
    #[must_use]
    pub fn abs(&self) -> Self {
        Self(self.0.abs())
    }

    /// The nearest whole number, halves away from zero ("rounds half up" for what is positive).
    #[must_use]
    pub fn round_half_up(&self) -> i64 {
        self.0.round().to_integer().to_i64().unwrap_or(i64::MAX)
    }

    /// The mass this fraction stands for when it is whole in the unit of [`Mass`]; the nearest
    /// such mass otherwise (a ten-nanogram step: for display only, never for arithmetic).
    #[must_use]
    pub fn to_mass(&self) -> Mass {
        Mass::from_units(self.round_half_up())
    }

    /// As a floating-point number, for display and for plots.
    #[must_use]
    pub fn to_f64(&self) -> f64 {
        self.0.to_f64().unwrap_or(0.0)
    }

    /// A mass in kilograms, to six decimals: as exports write it.
    #[must_use]
    pub fn to_decimal_kg(&self) -> Decimal {
        (self / &Self::from_mass(Mass::from_kg(1))).to_decimal(6)
    }

    /// Rounded half up to `places` decimals and written without trailing zeros.
    #[must_use]
    pub fn to_decimal(&self, places: u32) -> Decimal {
        let scale = 10_i64.pow(places.min(9));
        Decimal::new((self * &Self::whole(scale)).round_half_up(), places.min(9))
    }
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.to_decimal(4).fmt(f)
    }
}

impl From<Mass> for Exact {
    fn from(mass: Mass) -> Self {
        Self::from_mass(mass)
    }
}

impl From<Decimal> for Exact {
    fn from(value: Decimal) -> Self {
        Self::ratio(value.digits(), 10_i64.pow(value.places()))
    }
}

/// As a mass in kilograms: the plan's fields are named for it (`target_kg`).
impl Serialize for Exact {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.to_decimal_kg().serialize(serializer)
    }
}

macro_rules! operator {
    ($trait:ident, $method:ident) => {
        impl $trait<&Exact> for &Exact {
            type Output = Exact;
            fn $method(self, other: &Exact) -> Exact {
                Exact((&self.0).$method(&other.0))
            }
        }
        impl $trait<Exact> for Exact {
            type Output = Exact;
            fn $method(self, other: Exact) -> Exact {
                (&self).$method(&other)
            }
        }
    };
}
operator!(Add, add);
operator!(Sub, sub);
operator!(Mul, mul);

/// Division by zero gives zero; use [`Exact::checked_div`] where it can happen.
impl Div<&Exact> for &Exact {
    type Output = Exact;
    fn div(self, other: &Exact) -> Exact {
        self.checked_div(other).unwrap_or_else(Exact::zero)
    }
}

impl Neg for Exact {
    type Output = Exact;
    fn neg(self) -> Exact {
        Exact(-self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thirds_stay_exact() {
        let third = Exact::ratio(1, 3);
        assert_eq!(&(&third + &third) + &third, Exact::one());
    }

    #[test]
    fn halves_round_up() {
        assert_eq!(Exact::ratio(5, 2).round_half_up(), 3);
        assert_eq!(Exact::ratio(12, 5).round_half_up(), 2);
    }

    #[test]
    fn division_by_zero_never_panics() {
        assert_eq!(Exact::ratio(1, 0), Exact::zero());
        assert_eq!(Exact::one().checked_div(&Exact::zero()), None);
    }
}
