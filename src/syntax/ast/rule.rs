//! Rules: conditions and actions.

use std::fmt;

use super::Name;
use super::number::MassText;
use super::show::Signed;
use crate::quantity::Decimal;
use crate::source::Spanned;

/// A number with or without a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A mass.
    Mass(MassText),
    /// A percentage.
    Percent(Decimal),
    /// A plain number.
    Number(Decimal),
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Amount::Mass(mass) => mass.fmt(f),
            Amount::Percent(percent) => write!(f, "{percent}%"),
            Amount::Number(number) => number.fmt(f),
        }
    }
}

/// A number, or a parameter of the scheme.
#[derive(Clone, Debug, PartialEq)]
pub enum Quantity {
    /// A number.
    Number(Decimal),
    /// A parameter.
    Parameter(Name),
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Quantity::Number(number) => number.fmt(f),
            Quantity::Parameter(name) => name.fmt(f),
        }
    }
}

/// How two numbers are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// `>=`.
    AtLeast,
    /// `<=`.
    AtMost,
    /// `<`.
    LessThan,
}

impl fmt::Display for Comparison {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Comparison::AtLeast => ">=",
            Comparison::AtMost => "<=",
            Comparison::LessThan => "<",
        })
    }
}

/// When a rule acts.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition {
    /// `all reps made`.
    AllRepsMade,
    /// `top of range`.
    TopOfRange,
    /// `any rep missed`.
    AnyRepMissed,
    /// `missed N in a row`.
    MissedInARow(Quantity),
    /// `last set >= N reps`; with a number of sessions, in each of so many in a row.
    LastSet(Comparison, Quantity, Option<Quantity>),
    /// `RPE >= N`.
    Rpe(Comparison, Quantity),
    /// `pain >= N`.
    Pain(Comparison, Quantity),
    /// `every N sessions`.
    EverySessions(Quantity),
    /// `every N weeks`.
    EveryWeeks(Quantity),
}

impl fmt::Display for Condition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Condition::AllRepsMade => f.write_str("all reps made"),
            Condition::TopOfRange => f.write_str("top of range"),
            Condition::AnyRepMissed => f.write_str("any rep missed"),
            Condition::MissedInARow(n) => write!(f, "missed {n} in a row"),
            Condition::LastSet(comparison, n, None) => write!(f, "last set {comparison} {n} reps"),
            Condition::LastSet(comparison, n, Some(times)) => {
                write!(f, "last set {comparison} {n} reps {times} in a row")
            }
            Condition::Rpe(comparison, n) => write!(f, "RPE {comparison} {n}"),
            Condition::Pain(comparison, n) => write!(f, "pain {comparison} {n}"),
            Condition::EverySessions(n) => write!(f, "every {n} sessions"),
            Condition::EveryWeeks(n) => write!(f, "every {n} weeks"),
        }
    }
}

/// A change by an amount or a parameter.
#[derive(Clone, Debug, PartialEq)]
pub enum ChangeBy {
    /// An amount, its sign in the number.
    Amount(Amount),
    /// A parameter, added or (false) taken off.
    Parameter(bool, Name),
}

impl fmt::Display for ChangeBy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ChangeBy::Amount(Amount::Mass(mass)) => {
                write!(f, "{} {}", Signed(mass.value), mass.unit)
            }
            ChangeBy::Amount(Amount::Percent(percent)) => write!(f, "{}%", Signed(*percent)),
            ChangeBy::Amount(Amount::Number(number)) => Signed(*number).fmt(f),
            ChangeBy::Parameter(plus, name) => write!(f, "{}{name}", if *plus { '+' } else { '-' }),
        }
    }
}

/// What a rule does to the next session.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// `load +2.5 kg`, `load -10%`.
    Load(Spanned<ChangeBy>),
    /// `load up one`.
    LoadUpOne,
    /// `load down one`.
    LoadDownOne,
    /// `reps +1`.
    Reps(Spanned<ChangeBy>),
    /// `reps to bottom`.
    RepsToBottom,
    /// `sets +1`.
    Sets(Spanned<ChangeBy>),
    /// `max +2.5 kg`, `max +2%`.
    Max(Spanned<ChangeBy>),
    /// `max from last set`.
    MaxFromLastSet,
    /// `hold`.
    Hold,
}

impl fmt::Display for Action {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Action::Load(by) => write!(f, "load {by}"),
            Action::LoadUpOne => f.write_str("load up one"),
            Action::LoadDownOne => f.write_str("load down one"),
            Action::Reps(by) => write!(f, "reps {by}"),
            Action::RepsToBottom => f.write_str("reps to bottom"),
            Action::Sets(by) => write!(f, "sets {by}"),
            Action::Max(by) => write!(f, "max {by}"),
            Action::MaxFromLastSet => f.write_str("max from last set"),
            Action::Hold => f.write_str("hold"),
        }
    }
}
