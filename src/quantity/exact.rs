//! Exact fractions, used for targets, maxes and rational estimates.

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Sub};

use num_bigint::BigInt;
use num_rational::{BigRational, Ratio};
use num_traits::{CheckedAdd, CheckedMul, CheckedSub, Signed, ToPrimitive, Zero};
use serde::{Serialize, Serializer};

use super::{Decimal, Mass};

/// An exact fraction, never rounded. It is a plain number (a factor) or, if a field or function
/// documents it, a mass in the integer unit of [`Mass`].
///
/// Numerator and denominator have arbitrary size, so no programme can overflow them; nearly all fit
/// in machine words.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Exact(Size);

/// Both are in lowest terms, and `Large` is used only for what does not fit in `Small`, so equal
/// fractions are equal values.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Size {
    Small(Ratio<i64>),
    Large(Box<BigRational>),
}

impl Exact {
    /// Zero.
    #[must_use]
    pub fn zero() -> Self {
        Self::whole(0)
    }

    /// One: the neutral factor.
    #[must_use]
    pub fn one() -> Self {
        Self::whole(1)
    }

    /// A whole number.
    #[must_use]
    pub fn whole(n: i64) -> Self {
        Self(Size::Small(Ratio::from_integer(n)))
    }

    /// The fraction `numerator / denominator`. A zero denominator gives zero and does not panic.
    #[must_use]
    pub fn ratio(numerator: i64, denominator: i64) -> Self {
        if denominator == 0 {
            return Self::zero();
        }
        // Negating the smallest integer overflows.
        if numerator == i64::MIN || denominator == i64::MIN {
            return Self::large(BigRational::new(numerator.into(), denominator.into()));
        }
        Self(Size::Small(Ratio::new(numerator, denominator)))
    }

    fn large(value: BigRational) -> Self {
        // The smallest integer cannot be negated in machine words.
        let word = |n: &BigInt| n.to_i64().filter(|n| *n != i64::MIN);
        match (word(value.numer()), word(value.denom())) {
            (Some(numerator), Some(denominator)) => {
                Self(Size::Small(Ratio::new_raw(numerator, denominator)))
            }
            _ => Self(Size::Large(Box::new(value))),
        }
    }

    fn to_large(&self) -> BigRational {
        match &self.0 {
            Size::Small(small) => {
                BigRational::new_raw(BigInt::from(*small.numer()), BigInt::from(*small.denom()))
            }
            Size::Large(large) => (**large).clone(),
        }
    }

    /// The mass as a fraction in the unit of [`Mass`].
    #[must_use]
    pub fn from_mass(mass: Mass) -> Self {
        Self::whole(mass.units())
    }

    /// A factor from a floating-point estimate, rounded to nine decimals. Equations with powers and
    /// exponentials have no exact value, and nine decimals are far more precise than any plate.
    /// `None` if the value is not a number or out of range.
    #[must_use]
    pub fn from_estimate(value: f64) -> Option<Self> {
        if !value.is_finite() || value.abs() > 1e6 {
            return None;
        }
        #[allow(clippy::cast_possible_truncation, reason = "bounded by the check above")]
        let scaled = libm::round(value * 1e9) as i64;
        Some(Self::ratio(scaled, 1_000_000_000))
    }

    /// The quotient; `None` if `other` is zero.
    #[must_use]
    pub fn checked_div(&self, other: &Self) -> Option<Self> {
        if other.is_zero() {
            return None;
        }
        // The checked division of `Ratio` always computes a common divisor, which is slow.
        if let (Size::Small(a), Size::Small(b)) = (&self.0, &other.0) {
            let inverse = if *b.numer() < 0 {
                Ratio::new_raw(-*b.denom(), -*b.numer())
            } else {
                Ratio::new_raw(*b.denom(), *b.numer())
            };
            if let Some(small) = a.checked_mul(&inverse).and_then(fit) {
                return Some(small);
            }
        }
        Some(Self::large(self.to_large() / other.to_large()))
    }

    /// Whether this is exactly zero.
    #[must_use]
    pub fn is_zero(&self) -> bool {
        matches!(&self.0, Size::Small(small) if small.is_zero())
    }

    /// Whether this is negative.
    #[must_use]
    pub fn is_negative(&self) -> bool {
        match &self.0 {
            Size::Small(small) => small.is_negative(),
            Size::Large(large) => large.is_negative(),
        }
    }

    /// The absolute value.
    #[must_use]
    pub fn abs(&self) -> Self {
        if self.is_negative() { -self.clone() } else { self.clone() }
    }

    /// The nearest whole number. Halves are rounded away from zero, which is up for positive
    /// numbers.
    #[must_use]
    pub fn round_half_up(&self) -> i64 {
        match &self.0 {
            Size::Small(small) => {
                let (n, d) = (i128::from(*small.numer()), i128::from(*small.denom()));
                // Twice the number plus one denominator in its direction, then truncated.
                let away = if n < 0 { -d } else { d };
                i64::try_from((2 * n + away) / (2 * d)).unwrap_or(i64::MAX)
            }
            Size::Large(large) => large.round().to_integer().to_i64().unwrap_or(i64::MAX),
        }
    }

    /// The mass, if this is whole in the unit of [`Mass`]; otherwise the nearest mass (a step of
    /// ten nanograms: for display only, never for calculations).
    #[must_use]
    pub fn to_mass(&self) -> Mass {
        Mass::from_units(self.round_half_up())
    }

    /// A floating-point number, for display and plots.
    #[must_use]
    pub fn to_f64(&self) -> f64 {
        // The same conversion for both sizes: the nearest float.
        self.to_large().to_f64().unwrap_or(0.0)
    }

    /// A mass in kilograms with six decimals, as exports write it.
    #[must_use]
    pub fn to_decimal_kg(&self) -> Decimal {
        (self / &Self::from_mass(Mass::from_kg(1))).to_decimal(6)
    }

    /// Rounded half up to `places` decimals, without trailing zeros.
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

/// A mass in kilograms; the plan's fields are named for it (`target_kg`).
impl Serialize for Exact {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.to_decimal_kg().serialize(serializer)
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Self) -> Ordering {
        match (&self.0, &other.0) {
            (Size::Small(a), Size::Small(b)) => {
                let cross = |a: &Ratio<i64>, b: &Ratio<i64>| {
                    i128::from(*a.numer()) * i128::from(*b.denom())
                };
                cross(a, b).cmp(&cross(b, a))
            }
            _ => self.to_large().cmp(&other.to_large()),
        }
    }
}

/// A result in machine words that can be negated; a denominator is always positive.
fn fit(small: Ratio<i64>) -> Option<Exact> {
    (*small.numer() != i64::MIN).then_some(Exact(Size::Small(small)))
}

macro_rules! operator {
    ($trait:ident, $method:ident, $checked:ident) => {
        impl $trait<&Exact> for &Exact {
            type Output = Exact;
            fn $method(self, other: &Exact) -> Exact {
                if let (Size::Small(a), Size::Small(b)) = (&self.0, &other.0)
                    && let Some(small) = a.$checked(b).and_then(fit)
                {
                    return small;
                }
                Exact::large(self.to_large().$method(other.to_large()))
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
operator!(Add, add, checked_add);
operator!(Sub, sub, checked_sub);
operator!(Mul, mul, checked_mul);

/// Division by zero gives zero; use [`Exact::checked_div`] if it can happen.
impl Div<&Exact> for &Exact {
    type Output = Exact;
    fn div(self, other: &Exact) -> Exact {
        self.checked_div(other).unwrap_or_else(Exact::zero)
    }
}

impl Neg for Exact {
    type Output = Exact;
    fn neg(self) -> Exact {
        match self.0 {
            Size::Small(small) => Exact(Size::Small(-small)),
            Size::Large(large) => Exact::large(-*large),
        }
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

    /// Compares every operation with the same one on numbers of arbitrary size, where machine words
    /// overflow.
    #[test]
    fn small_and_large_agree() {
        use proptest::prelude::*;
        let part = || {
            prop_oneof![
                -20_i64..20,
                any::<i64>(),
                Just(i64::MIN),
                Just(i64::MAX),
                (0_u32..63).prop_map(|by| 1_i64 << by),
            ]
        };
        let large = |(n, d): (i64, i64)| BigRational::new(n.into(), d.into());
        let mut runner = proptest::test_runner::TestRunner::deterministic();
        let fractions = ((part(), part()), (part(), part()));
        let filtered = fractions.prop_filter("zero", |(a, b)| a.1 != 0 && b.1 != 0);
        let held = runner.run(&filtered, |(a, b)| {
            let (x, y) = (Exact::ratio(a.0, a.1), Exact::ratio(b.0, b.1));
            let (big_x, big_y) = (large(a), large(b));
            prop_assert_eq!(&x + &y, Exact::large(&big_x + &big_y));
            prop_assert_eq!(&x - &y, Exact::large(&big_x - &big_y));
            prop_assert_eq!(&x * &y, Exact::large(&big_x * &big_y));
            if b.0 != 0 {
                prop_assert_eq!(&x / &y, Exact::large(&big_x / &big_y));
            }
            prop_assert_eq!(-x.clone(), Exact::large(-&big_x));
            prop_assert_eq!(x.abs(), Exact::large(big_x.abs()));
            prop_assert_eq!(x.cmp(&y), big_x.cmp(&big_y));
            prop_assert_eq!(x.is_negative(), big_x.is_negative());
            let rounded = big_x.round().to_integer().to_i64().unwrap_or(i64::MAX);
            prop_assert_eq!(x.round_half_up(), rounded);
            Ok(())
        });
        held.unwrap();
    }

    /// The smallest machine word cannot be negated: results that reach it, or its opposite, do not
    /// fit.
    #[test]
    fn at_the_end_of_machine_words() {
        let big = |n: i128| Exact::large(BigRational::from_integer(BigInt::from(n)));
        let (most, quarter) = (-i128::from(i64::MIN), Exact::whole(1 << 62));
        let least = &Exact::whole(-2) * &quarter;
        assert_eq!(least, big(-most));
        assert_eq!(-least.clone(), big(most));
        assert_eq!(&-quarter.clone() - &quarter, least);
        assert_eq!(&-quarter / &Exact::ratio(-1, 2), big(most));
        assert_eq!(&Exact::ratio(1 << 62, 3) / &Exact::ratio(-1, 6), least);
        assert_eq!(Exact::ratio(i64::MIN, 1), least);
        assert_eq!(Exact::ratio(1, i64::MIN), &Exact::one() / &least);
        assert_eq!(Exact::ratio(6, -4), Exact::ratio(-3, 2));
        assert_eq!(&Exact::whole(3) / &Exact::ratio(-1, 2), Exact::whole(-6));
    }

    #[test]
    fn estimates_are_kept_to_nine_decimals_within_a_million() {
        assert_eq!(Exact::from_estimate(1.25), Some(Exact::ratio(5, 4)));
        assert_eq!(
            Exact::from_estimate(0.123_456_789_4),
            Some(Exact::ratio(123_456_789, 1_000_000_000))
        );
        assert_eq!(Exact::from_estimate(-1e6), Some(Exact::whole(-1_000_000)));
        for value in [1_000_001.0, -2e6, f64::NAN, f64::INFINITY] {
            assert_eq!(Exact::from_estimate(value), None, "{value}");
        }
    }

    #[test]
    fn shown_to_four_decimals_and_exported_in_kilograms_to_six() {
        assert_eq!(Exact::ratio(2, 3).to_string(), "0.6667");
        assert_eq!(Exact::from(Decimal::parse("2.50").unwrap()), Exact::ratio(5, 2));
        let third_of_a_bar = &Exact::from(Mass::from_kg(20)) / &Exact::whole(3);
        assert_eq!(third_of_a_bar.to_decimal_kg().to_string(), "6.666667");
        assert_eq!(third_of_a_bar.to_mass().units(), 666_666_666_667);
        assert!((Exact::ratio(-5, 2).to_f64() + 2.5).abs() < f64::EPSILON);
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
