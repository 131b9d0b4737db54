//! Numbers as written, and how they go over weeks.

use std::fmt;

use smallvec::SmallVec;

use crate::quantity::{Decimal, Unit};
use crate::source::{Span, Spanned};

/// A mass as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MassText {
    /// The number.
    pub value: Decimal,
    /// Its unit.
    pub unit: Unit,
}

impl fmt::Display for MassText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.value, self.unit)
    }
}

/// Weeks `first` to `last`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WeekSpan {
    /// The first week.
    pub first: u32,
    /// The last week; the first again for `week n`.
    pub last: u32,
}

impl WeekSpan {
    /// Whether the week lies in it.
    #[must_use]
    pub fn contains(self, week: u32) -> bool {
        (self.first..=self.last).contains(&week)
    }

    /// Whether it is one week.
    #[must_use]
    pub fn is_single(self) -> bool {
        self.first == self.last
    }

    /// Whether the two share a week.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.first <= other.last && other.first <= self.last
    }
}

impl fmt::Display for WeekSpan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_single() {
            write!(f, "week {}", self.first)
        } else {
            write!(f, "weeks {}-{}", self.first, self.last)
        }
    }
}

/// What a step counts by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// Each week in which the number is used.
    Week,
    /// Each session of the line.
    Session,
}

/// What a step is measured in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepUnit {
    /// Points of a percentage.
    Percent,
    /// A mass.
    Mass(Unit),
    /// Repetitions.
    Reps,
    /// Sets.
    Sets,
    /// Seconds.
    Seconds,
    /// Metres.
    Metres,
    /// Points of an effort scale.
    Points,
}

impl StepUnit {
    /// The unit in words, for diagnostics.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            StepUnit::Percent => "%",
            StepUnit::Mass(unit) => unit.symbol(),
            StepUnit::Reps => "rep",
            StepUnit::Sets => "set",
            StepUnit::Seconds => "s",
            StepUnit::Metres => "m",
            StepUnit::Points => "points",
        }
    }
}

/// `+2.5%/week`, `-1 rep/week`, `+2.5 kg/session`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StepText {
    /// The change, with its sign.
    pub by: Decimal,
    /// Its unit.
    pub unit: StepUnit,
    /// How often it is taken.
    pub per: Per,
}

impl fmt::Display for StepText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.by.digits() < 0 { "" } else { "+" };
        write!(f, "{sign}{}", self.by)?;
        match self.unit {
            StepUnit::Percent => f.write_str("%")?,
            StepUnit::Points => {}
            unit @ (StepUnit::Reps | StepUnit::Sets) => {
                let plural =
                    if self.by.as_whole().is_some_and(|n| n.abs() == 1) { "" } else { "s" };
                write!(f, " {}{plural}", unit.word())?;
            }
            unit => write!(f, " {}", unit.word())?,
        }
        f.write_str(match self.per {
            Per::Week => "/week",
            Per::Session => "/session",
        })
    }
}

/// A number that may change over the weeks: one value, a series, or a value with a step.
#[derive(Clone, Debug, PartialEq)]
pub struct OverWeeks<T> {
    /// The value, or the values of the series; none where none read. Most numbers are one value,
    /// and there are several on every line: one takes no memory of its own.
    pub values: SmallVec<[T; 1]>,
    /// The step from one week or session to the next.
    pub step: Option<Spanned<StepText>>,
    /// The whole of it.
    pub span: Span,
}

impl<T> OverWeeks<T> {
    /// Whether it is a series.
    #[must_use]
    pub fn is_series(&self) -> bool {
        self.values.len() > 1
    }

    /// The value at a place of the series; the last one past its end.
    #[must_use]
    pub fn at(&self, index: usize) -> Option<&T> {
        self.values.get(index).or(self.values.last())
    }
}

impl<T: fmt::Display> fmt::Display for OverWeeks<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, value) in self.values.iter().enumerate() {
            write!(f, "{}{value}", if index > 0 { " -> " } else { "" })?;
        }
        self.step.as_ref().map_or(Ok(()), |step| write!(f, " {}", step.value))
    }
}
