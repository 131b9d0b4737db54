//! Rules: conditions and actions.

use std::fmt;

use super::Name;
use super::number::MassText;
use super::show::Signed;
use crate::bounds;
use crate::quantity::{Decimal, Exact};
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

/// A number of a condition that makes no sense.
#[derive(Clone, Debug, PartialEq)]
pub struct OutOfRange {
    /// What is wrong, without a full stop.
    pub message: String,
    /// The condition with the number that was probably meant, where a point was left out: `RPE 80`
    /// for 8, `pain 35` for 3.5.
    pub meant: Option<Condition>,
}

impl Condition {
    /// The numbers of the condition, each with what it counts and its bounds; the flag asks for a
    /// whole number.
    fn numbers(&mut self) -> Vec<(&mut Quantity, Option<Comparison>, Range)> {
        let count = |what, most| Range { what, least: 1, most, whole: true };
        match self {
            Condition::AllRepsMade | Condition::TopOfRange | Condition::AnyRepMissed => Vec::new(),
            Condition::MissedInARow(n) => vec![(n, None, count("sessions in a row", 1000))],
            Condition::EverySessions(n) => vec![(n, None, count("sessions", 1000))],
            Condition::EveryWeeks(n) => vec![(n, None, count("weeks", bounds::WEEKS))],
            Condition::Rpe(comparison, n) => {
                let scale = Range { what: "RPE", least: 1, most: 10, whole: false };
                vec![(n, Some(*comparison), scale)]
            }
            Condition::Pain(comparison, n) => {
                let scale = Range { what: "pain", least: 0, most: 10, whole: false };
                vec![(n, Some(*comparison), scale)]
            }
            Condition::LastSet(comparison, n, times) => {
                let reps = Range { what: "repetitions", least: 0, most: bounds::REPS, whole: true };
                let mut found = vec![(n, Some(*comparison), reps)];
                found.extend(times.iter_mut().map(|n| (n, None, count("sessions in a row", 1000))));
                found
            }
        }
    }

    /// The first number that makes no sense. Parameters that are not filled in are passed over.
    #[must_use]
    pub fn out_of_range(&self) -> Option<OutOfRange> {
        let mut meant = self.clone();
        let mut wrong = None;
        for (quantity, comparison, range) in meant.numbers() {
            let Quantity::Number(number) = quantity else { continue };
            let number = *number;
            let Some(why) = range.refuses(number, comparison) else { continue };
            let tenth = Decimal::new(number.digits(), number.places() + 1);
            let is_scale = !range.whole;
            let fits = is_scale && range.refuses(tenth, comparison).is_none();
            if fits {
                *quantity = Quantity::Number(tenth);
            }
            wrong = Some((why, fits));
            break;
        }
        let (why, fits) = wrong?;
        Some(OutOfRange { message: format!("`{self}`: {why}"), meant: fits.then_some(meant) })
    }
}

/// What a number of a condition may be.
struct Range {
    what: &'static str,
    least: u32,
    most: u32,
    whole: bool,
}

impl Range {
    fn refuses(&self, number: Decimal, comparison: Option<Comparison>) -> Option<String> {
        let Range { what, least, most, whole } = *self;
        let value = Exact::from(number);
        let bound = |n: u32| Exact::whole(i64::from(n));
        if whole && number.as_whole().is_none() {
            return Some(format!("{what} are whole numbers"));
        }
        if value < bound(least) || value > bound(most) {
            return Some(format!("{what} {} from {least} to {most}", self.goes()));
        }
        // Nothing is less than the least.
        (comparison == Some(Comparison::LessThan) && value == bound(least)).then(|| {
            format!("{what} {} from {least} to {most}, so this is never true", self.goes())
        })
    }

    fn goes(&self) -> &'static str {
        if self.whole { "go" } else { "goes" }
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

impl ChangeBy {
    /// The number of the amount, with its sign; `None` for a parameter.
    #[must_use]
    pub fn number(&self) -> Option<Decimal> {
        match self {
            ChangeBy::Amount(Amount::Mass(mass)) => Some(mass.value),
            ChangeBy::Amount(Amount::Percent(number) | Amount::Number(number)) => Some(*number),
            ChangeBy::Parameter(..) => None,
        }
    }

    /// Whether it adds something.
    #[must_use]
    pub fn is_increase(&self) -> bool {
        self.number().is_some_and(|number| number.digits() > 0)
    }
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
