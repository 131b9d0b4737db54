//! What was written: one type for each kind of line, and how each is written in standard format.
//!
//! Every type here knows its own canonical spelling (`Display`); the formatter only adds
//! indentation, alignment and comments.

mod advice;
mod catalogue;
mod group;
mod number;
mod prescription;
mod result;
mod rule;
pub(super) mod shift;
mod show;

pub use advice::{AdviceChange, AdviceText};
pub use catalogue::{
    Band, BarItem, CollarsOf, CountedIn, EquipmentItem, EquipmentKind, LimitText, MaxLift, MaxText,
    MuscleShare, PlateSize, StockItem,
};
pub use group::{GroupOption, GroupText, HowText, RampFrom, RampSet};
pub use number::{MassText, OverWeeks, Per, StepText, StepUnit, WeekSpan};
pub use prescription::{
    EffortText, LoadText, NAMED_REPS, OptionText, PercentOf, Prescription, RepsText, SetGroup,
    SignedMass, WorkText,
};
pub use result::{ResultLoad, ResultReps, ResultSet, ResultText};
pub use rule::{Action, Amount, ChangeBy, Comparison, Condition, OutOfRange, Quantity};

use jiff::civil::{Date, Weekday};

use super::keys::Key;
use crate::plan::Order;
use crate::quantity::{Decimal, Duration, Mass, Unit};
use crate::source::Spanned;

/// A name as written, with its place.
pub type Name = Spanned<String>;

/// A number that a line gives its scheme: the parameter and its value.
pub type Argument = (Name, Spanned<Amount>);

/// What may be a scheme's name in `Small jumps, jump 2 kg`, the longest first, each with the
/// arguments after it: a name may hold commas.
pub fn longest_names<'a>(
    name: &Name,
    arguments: &'a [Argument],
) -> impl Iterator<Item = (Name, &'a [Argument])> {
    (0..=arguments.len()).rev().filter_map(move |count| {
        let (own, rest) = arguments.split_at_checked(count)?;
        let mut whole = name.clone();
        for (parameter, amount) in own {
            whole.value += &format!(", {} {}", parameter.value, amount.value);
            whole.span = whole.span.to(amount.span);
        }
        Some((whole, rest))
    })
}

/// What opens a block.
#[derive(Clone, Debug, PartialEq)]
pub enum Head {
    /// `notation: 1`: the form of the notation the file is written in.
    Notation(Spanned<u32>),
    /// `use path`.
    Use(Name),
    /// `exercise NAME`.
    Exercise(Name),
    /// `gym NAME`.
    Gym(Name),
    /// `athlete NAME`.
    Athlete(Name),
    /// `programme NAME`.
    Programme(Name),
    /// `scheme NAME`.
    Scheme(Name),
    /// `phase NAME: weeks 1-3, sets -40%, load -10%`.
    Phase {
        /// The phase's name.
        name: Name,
        /// Its weeks.
        weeks: Spanned<WeekSpan>,
        /// Change of the number of sets, in percent (negative: fewer).
        sets: Option<Spanned<Decimal>>,
        /// Change of the load, in percent (negative: lighter).
        load: Option<Spanned<Decimal>>,
    },
    /// `day NAME (Mon)`.
    Day {
        /// The day's name.
        name: Name,
        /// Its weekday.
        weekday: Option<Weekday>,
    },
    /// `log ATHLETE: PROGRAMME`.
    Log {
        /// Whose log.
        athlete: Name,
        /// Of which programme.
        programme: Name,
    },
}

/// The part before the colon.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKey {
    /// A key of the block.
    Key(Key),
    /// A key with a name: `max Front squat`.
    Named(Key, Name),
    /// A parameter of a scheme.
    Parameter(Name),
    /// `A1 Back squat`.
    Order(Spanned<Order>, Name),
    /// A bare order letter, or in a log an order without a name.
    Letter(Spanned<Order>),
    /// `week 4`, `weeks 5-7`.
    Weeks(Spanned<WeekSpan>),
    /// `for ATHLETE`.
    For(Name),
    /// `when CONDITION and CONDITION`.
    When(Vec<Spanned<Condition>>),
    /// `otherwise`.
    Otherwise,
}

/// The part after the colon.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Free text.
    Text(String),
    /// Names separated by commas.
    Names(Vec<Name>),
    /// What to avoid, each with who said so and until when (its text is the name).
    Avoid(Vec<(Name, LimitText)>),
    /// Names with a number of pieces: `rack x 2`.
    Counted(Vec<(Name, Option<u32>)>),
    /// A name with a remark in brackets.
    Remarked(Name, Option<String>),
    /// Equipment: alternatives in order of preference, and what is needed besides.
    Equipment(Vec<Spanned<EquipmentItem>>),
    /// Done on each side, or on both at once.
    Sides(bool),
    /// What a set is counted in.
    CountedIn(CountedIn),
    /// A compound exercise, or an isolation.
    Compound(bool),
    /// Muscles with their shares.
    Muscles(Vec<Spanned<MuscleShare>>),
    /// A bar by its mass.
    BarMass(MassText),
    /// A count.
    Count(Spanned<u32>),
    /// A date.
    Date(Date),
    /// A mass.
    Mass(MassText),
    /// A percentage.
    Percent(Spanned<Decimal>),
    /// A duration.
    Duration(Duration),
    /// A unit of mass.
    Unit(Unit),
    /// Rounding: down, or (false) to the nearest.
    RoundDown(bool),
    /// A missed session: repeat, or (false) move on.
    RepeatMissed(bool),
    /// Bars.
    Bars(Vec<BarItem>),
    /// Plates, dumbbells, kettlebells, pins.
    Stock(Vec<Spanned<StockItem>>),
    /// How big a plate is.
    PlateSize(PlateSize),
    /// Collars: the mass written, and what it is the mass of.
    Collars(MassText, CollarsOf),
    /// Bands.
    Bands(Vec<Band>),
    /// A maximum.
    Max(Spanned<MaxText>),
    /// A limit.
    Limit(LimitText),
    /// Sets, repetitions, loads, options.
    Prescription(Prescription),
    /// How a group is done.
    Group(GroupText),
    /// A warm-up ramp; empty for `no`.
    Ramp(Vec<Spanned<RampSet>>),
    /// A scheme, with arguments for its parameters.
    Follow(Name, Vec<Argument>),
    /// A parameter's default.
    Amount(Spanned<Amount>),
    /// What a rule does.
    Actions(Vec<Spanned<Action>>),
    /// What the coach makes of advice.
    Advice(AdviceText),
    /// What was done.
    Result(ResultText),
    /// Nothing was written after the colon.
    Empty,
    /// What was written did not read; that has been reported.
    Unread,
}

/// One line, understood.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A line that opens a block.
    Head(Head),
    /// `key: value`.
    Entry {
        /// The key.
        key: Spanned<LineKey>,
        /// The value.
        value: Spanned<Value>,
    },
    /// A dated session of a log.
    LogSession {
        /// When it was done.
        date: Spanned<Date>,
        /// Week and day of the plan; `None` for an extra session.
        planned: Option<(Spanned<u32>, Name)>,
        /// What an extra session was.
        extra: Option<String>,
        /// Skipped, with the reason.
        skipped: Option<Option<String>>,
    },
    /// A line that was not understood; its diagnostic is in the document.
    Wrong,
}

/// A line with those that belong to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// What it says, and where it stands (without indentation and comment).
    pub item: Spanned<Item>,
    /// Its index in the document's lines.
    pub line: usize,
    /// The lines below it.
    pub children: Vec<Node>,
}

impl Node {
    /// The last of the line and those below it.
    #[must_use]
    pub fn last(&self) -> &Node {
        self.children.last().map_or(self, Node::last)
    }
}

/// A mass as written is a whole number of the exact unit.
impl MassText {
    /// The exact mass.
    #[must_use]
    pub fn mass(self) -> Mass {
        Mass::from_decimal(self.value, self.unit).unwrap_or(Mass::MOST)
    }
}
