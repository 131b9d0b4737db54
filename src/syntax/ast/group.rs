//! How a group is done, and warm-up ramps.

use std::fmt;

use super::MassText;
use super::prescription::OptionText;
use super::show::join;
use crate::quantity::{Decimal, Duration};
use crate::source::Spanned;

/// How the members of a group take turns.
#[derive(Clone, Debug, PartialEq)]
pub enum HowText {
    /// `circuit 3 rounds`.
    Circuit(Option<u32>),
    /// `every 60 s for 10 min`.
    Every(Duration, Duration),
    /// `rounds in 12 min`.
    RoundsIn(Duration),
    /// `paired`.
    Paired,
}

/// An option of a group line.
#[derive(Clone, Debug, PartialEq)]
pub enum GroupOption {
    /// `change 20 s`.
    Change(Duration),
    /// `alternate`: one member an interval.
    Alternate,
    /// `rest 2:00`, `as written`, `with phase`.
    Common(OptionText),
}

/// The value of a group line.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupText {
    /// How it is done; `None` for plain alternation.
    pub how: Option<HowText>,
    /// Options.
    pub options: Vec<Spanned<GroupOption>>,
}

/// What a ramp set's load is.
#[derive(Clone, Debug, PartialEq)]
pub enum RampFrom {
    /// The empty bar.
    Bar,
    /// A percentage of the working load.
    Percent(Decimal),
    /// A mass.
    Mass(MassText),
}

/// One set of a ramp.
#[derive(Clone, Debug, PartialEq)]
pub struct RampSet {
    /// Its load.
    pub from: RampFrom,
    /// Its repetitions.
    pub reps: u32,
}

impl fmt::Display for GroupText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let how = self.how.as_ref().map(|how| match how {
            HowText::Circuit(None) => "circuit".to_owned(),
            HowText::Circuit(Some(1)) => "circuit 1 round".to_owned(),
            HowText::Circuit(Some(rounds)) => format!("circuit {rounds} rounds"),
            HowText::Every(interval, length) => format!("every {interval} for {length}"),
            HowText::RoundsIn(length) => format!("rounds in {length}"),
            HowText::Paired => "paired".to_owned(),
        });
        let options = self.options.iter().map(|option| match &option.value {
            GroupOption::Change(time) => format!("change {time}"),
            GroupOption::Alternate => "alternate".to_owned(),
            GroupOption::Common(option) => option.to_string(),
        });
        let all: Vec<String> = how.into_iter().chain(options).collect();
        f.write_str(&join(&all, ", "))
    }
}

impl fmt::Display for RampSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.from {
            RampFrom::Bar => write!(f, "bar x {}", self.reps),
            RampFrom::Percent(percent) => write!(f, "{percent}% x {}", self.reps),
            RampFrom::Mass(mass) => write!(f, "{mass} x {}", self.reps),
        }
    }
}
