//! Decimal numbers as written: digits and a scale, never a float.

use std::fmt;
use std::ops::Neg;

use serde::{Serialize, Serializer};

/// A decimal number as the coach wrote it, without sign or unit: `2.5` has the digits 25 and one
/// decimal place. It is normalised, without trailing zeros.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Decimal {
    digits: i64,
    places: u32,
}

/// Maximum number of decimal places; more is an error instead of a silent cut.
const MOST_PLACES: usize = 6;
/// Maximum number of digits before the decimal point.
const MOST_DIGITS: usize = 9;

impl Decimal {
    /// The number `digits / 10^places`, without trailing zeros.
    #[must_use]
    pub fn new(mut digits: i64, mut places: u32) -> Self {
        while places > 0 && digits % 10 == 0 {
            digits /= 10;
            places -= 1;
        }
        Self { digits, places }
    }

    /// A whole number.
    #[must_use]
    pub fn whole(n: i64) -> Self {
        Self { digits: n, places: 0 }
    }

    /// Parses `12`, `2.5` or `0.25`. `None` for anything else, and for more than nine digits or six
    /// decimals, which no gym needs.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let fits = !whole.is_empty() && whole.len() <= MOST_DIGITS && part.len() <= MOST_PLACES;
        let digits_only = whole.bytes().chain(part.bytes()).all(|b| b.is_ascii_digit());
        if !fits || !digits_only || (text.contains('.') && part.is_empty()) {
            return None;
        }
        let digits = format!("{whole}{part}").parse().ok()?;
        Some(Self::new(digits, u32::try_from(part.len()).ok()?))
    }

    /// The digits without the decimal point.
    #[must_use]
    pub fn digits(self) -> i64 {
        self.digits
    }

    /// Number of digits after the decimal point.
    #[must_use]
    pub fn places(self) -> u32 {
        self.places
    }

    /// The value, if it is whole.
    #[must_use]
    pub fn as_whole(self) -> Option<i64> {
        (self.places == 0).then_some(self.digits)
    }
}

impl Neg for Decimal {
    type Output = Self;
    fn neg(self) -> Self {
        Self { digits: -self.digits, ..self }
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.digits < 0 { "-" } else { "" };
        let scale = 10_u64.pow(self.places);
        let digits = self.digits.unsigned_abs();
        write!(f, "{sign}{}", digits / scale)?;
        if self.places > 0 {
            write!(f, ".{:0width$}", digits % scale, width = self.places as usize)?;
        }
        Ok(())
    }
}

/// A JSON number, written as a whole number if possible.
impl Serialize for Decimal {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.as_whole() {
            Some(n) => serializer.serialize_i64(n),
            // The text of a decimal with at most 15 digits reads back as the same decimal.
            None => serializer.serialize_f64(self.to_string().parse().unwrap_or(0.0)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_and_writes_what_a_coach_types() {
        for text in ["0", "2.5", "62.5", "0.25", "1.125"] {
            assert_eq!(Decimal::parse(text).unwrap().to_string(), text);
        }
        assert_eq!(Decimal::parse("20.0").unwrap(), Decimal::whole(20));
    }

    #[test]
    fn its_parts_are_what_was_written() {
        let number = Decimal::parse("62.50").unwrap();
        assert_eq!((number.digits(), number.places(), number.as_whole()), (625, 1, None));
        assert_eq!(Decimal::whole(20).as_whole(), Some(20));
        assert_eq!(Decimal::parse("999999999.123456").unwrap().to_string(), "999999999.123456");
        assert_eq!(Decimal::parse("0.1234567"), None, "more than six decimals");
    }

    #[test]
    fn the_sign_stands_before_it() {
        assert_eq!((-Decimal::parse("2.5").unwrap()).to_string(), "-2.5");
        assert_eq!((-Decimal::parse("0.05").unwrap()).to_string(), "-0.05");
        assert_eq!((-Decimal::whole(0)).to_string(), "0");
    }

    #[test]
    fn refuses_what_is_not_a_number() {
        for text in ["", ".", "1.", ".5", "1e400", "-5", "1,5", "9999999999"] {
            assert_eq!(Decimal::parse(text), None, "{text}");
        }
    }
}
