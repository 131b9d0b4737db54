//! What a line says, moved to another place of the text: every span in it goes along.

use smallvec::SmallVec;

use super::{
    Action, AdviceChange, AdviceText, Band, BarItem, ChangeBy, Condition, EffortText,
    EquipmentItem, GroupOption, GroupText, Head, Item, LineKey, LoadText, MaxText, MuscleShare,
    OptionText, Over, PercentOf, Prescription, Quantity, RepsText, SetGroup, Value, WorkText,
};
use crate::source::{FileId, Span, Spanned};

/// How far, and into which file.
#[derive(Clone, Copy, Debug)]
pub struct Move {
    file: FileId,
    /// Added to each byte; wraps, so that it goes both ways.
    by: u32,
}

impl Move {
    /// From one byte to a byte of a file.
    #[must_use]
    pub fn new(from: usize, file: FileId, to: usize) -> Self {
        let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { file, by: narrow(to).wrapping_sub(narrow(from)) }
    }
}

/// What has places in it.
pub trait Moved {
    /// Lets it stand elsewhere.
    fn moved(&mut self, to: Move);
}

impl Moved for Span {
    fn moved(&mut self, to: Move) {
        self.file = to.file;
        self.start = self.start.wrapping_add(to.by);
        self.end = self.end.wrapping_add(to.by);
    }
}

impl<T: Moved> Moved for Spanned<T> {
    fn moved(&mut self, to: Move) {
        self.span.moved(to);
        self.value.moved(to);
    }
}

impl<T: Moved> Moved for Vec<T> {
    fn moved(&mut self, to: Move) {
        for one in self.iter_mut() {
            one.moved(to);
        }
    }
}

impl<T: Moved> Moved for SmallVec<[T; 1]> {
    fn moved(&mut self, to: Move) {
        for one in self.iter_mut() {
            one.moved(to);
        }
    }
}

impl<T: Moved> Moved for Option<T> {
    fn moved(&mut self, to: Move) {
        for one in self.iter_mut() {
            one.moved(to);
        }
    }
}

impl<A: Moved, B: Moved> Moved for (A, B) {
    fn moved(&mut self, to: Move) {
        self.0.moved(to);
        self.1.moved(to);
    }
}

/// What has no places in it stays as it is.
macro_rules! placeless {
    ($($type:ty),* $(,)?) => {$(
        impl Moved for $type {
            fn moved(&mut self, _: Move) {}
        }
    )*};
}
placeless!(
    u32,
    String,
    jiff::civil::Date,
    crate::plan::Order,
    crate::quantity::Decimal,
    crate::quantity::Duration,
    crate::quantity::HalfPoints,
    crate::quantity::RepCount,
    super::Amount,
    super::LimitText,
    super::MassText,
    super::RampSet,
    super::SignedMass,
    super::StepText,
    super::StockItem,
    super::WeekSpan,
);

/// Types whose parts are moved one by one.
macro_rules! parts {
    ($($type:ty: $($part:ident),+;)*) => {$(
        impl Moved for $type {
            fn moved(&mut self, to: Move) {
                $(self.$part.moved(to);)+
            }
        }
    )*};
}
parts! {
    EquipmentItem: name;
    MuscleShare: name;
    BarItem: name, mass;
    Band: name;
    GroupText: options;
    EffortText: points;
    RepsText: work;
    SetGroup: sets, reps, load, options;
    Prescription: groups;
    AdviceText: what;
}

impl<T: Moved> Moved for Over<T> {
    fn moved(&mut self, to: Move) {
        self.span.moved(to);
        self.values.moved(to);
        self.step.moved(to);
    }
}

impl Moved for Item {
    fn moved(&mut self, to: Move) {
        match self {
            Item::Head(head) => head.moved(to),
            Item::Entry { key, value } => {
                key.moved(to);
                value.moved(to);
            }
            Item::LogSession { date, planned, extra: _, skipped: _ } => {
                date.moved(to);
                planned.moved(to);
            }
            Item::Wrong => {}
        }
    }
}

impl Moved for Head {
    fn moved(&mut self, to: Move) {
        match self {
            Head::Notation(version) => version.moved(to),
            Head::Use(name)
            | Head::Exercise(name)
            | Head::Gym(name)
            | Head::Athlete(name)
            | Head::Programme(name)
            | Head::Scheme(name)
            | Head::Day { name, weekday: _ } => name.moved(to),
            Head::Phase { name, weeks, sets, load } => {
                name.moved(to);
                weeks.moved(to);
                sets.moved(to);
                load.moved(to);
            }
            Head::Log { athlete, programme } => {
                athlete.moved(to);
                programme.moved(to);
            }
        }
    }
}

impl Moved for LineKey {
    fn moved(&mut self, to: Move) {
        match self {
            LineKey::Named(_, name) | LineKey::Parameter(name) | LineKey::For(name) => {
                name.moved(to);
            }
            LineKey::Order(order, name) => {
                order.moved(to);
                name.moved(to);
            }
            LineKey::Letter(order) => order.moved(to),
            LineKey::Weeks(weeks) => weeks.moved(to),
            LineKey::When(conditions) => conditions.moved(to),
            LineKey::Key(_) | LineKey::Otherwise => {}
        }
    }
}

impl Moved for Value {
    fn moved(&mut self, to: Move) {
        match self {
            Value::Names(names) => names.moved(to),
            Value::Avoid(names) => names.moved(to),
            Value::Counted(names) => names.moved(to),
            Value::Remarked(name, _) => name.moved(to),
            Value::Equipment(items) => items.moved(to),
            Value::Muscles(shares) => shares.moved(to),
            Value::Count(count) => count.moved(to),
            Value::Percent(percent) => percent.moved(to),
            Value::Bars(bars) => bars.moved(to),
            Value::Stock(items) => items.moved(to),
            Value::Bands(bands) => bands.moved(to),
            Value::Max(max) => max.moved(to),
            Value::Prescription(prescription) => prescription.moved(to),
            Value::Group(group) => group.moved(to),
            Value::Ramp(sets) => sets.moved(to),
            Value::Follow(name, arguments) => {
                name.moved(to);
                arguments.moved(to);
            }
            Value::Amount(amount) => amount.moved(to),
            Value::Actions(actions) => actions.moved(to),
            Value::Advice(advice) => advice.moved(to),
            Value::Text(_)
            | Value::Sides(_)
            | Value::CountedIn(_)
            | Value::Compound(_)
            | Value::BarMass(_)
            | Value::Date(_)
            | Value::Mass(_)
            | Value::Duration(_)
            | Value::Unit(_)
            | Value::RoundDown(_)
            | Value::RepeatMissed(_)
            | Value::PlateSize(_)
            | Value::Collars(..)
            | Value::Limit(_)
            | Value::Result(_)
            | Value::Empty
            | Value::Unread => {}
        }
    }
}

impl Moved for WorkText {
    fn moved(&mut self, to: Move) {
        match self {
            WorkText::Reps(over) | WorkText::Seconds(over) | WorkText::Metres(over) => {
                over.moved(to);
            }
            WorkText::Amrap | WorkText::Cluster(..) => {}
        }
    }
}

impl Moved for LoadText {
    fn moved(&mut self, to: Move) {
        match self {
            LoadText::Percent(over, of) => {
                over.moved(to);
                if let PercentOf::Lift(name) = of {
                    name.moved(to);
                }
            }
            LoadText::Mass(over) => over.moved(to),
            LoadText::Effort(effort) => effort.moved(to),
            LoadText::Bodyweight(over) => over.moved(to),
            LoadText::LastMass(by) => by.moved(to),
            LoadText::LastPercent(by) => by.moved(to),
        }
    }
}

impl Moved for OptionText {
    fn moved(&mut self, to: Move) {
        match self {
            OptionText::Rest(over) => over.moved(to),
            OptionText::Effort(effort) => effort.moved(to),
            OptionText::Tempo(_)
            | OptionText::Range(_)
            | OptionText::Drop(..)
            | OptionText::RestPause(_)
            | OptionText::Every(_)
            | OptionText::WarmUpNone
            | OptionText::AsWritten
            | OptionText::Scaled => {}
        }
    }
}

impl Moved for GroupOption {
    fn moved(&mut self, to: Move) {
        if let GroupOption::Common(option) = self {
            option.moved(to);
        }
    }
}

impl Moved for Quantity {
    fn moved(&mut self, to: Move) {
        if let Quantity::Parameter(name) = self {
            name.moved(to);
        }
    }
}

impl Moved for Condition {
    fn moved(&mut self, to: Move) {
        match self {
            Condition::LastSet(_, quantity, top) => {
                quantity.moved(to);
                top.moved(to);
            }
            Condition::MissedInARow(quantity)
            | Condition::Rpe(_, quantity)
            | Condition::Pain(_, quantity)
            | Condition::EverySessions(quantity)
            | Condition::EveryWeeks(quantity) => quantity.moved(to),
            Condition::AllRepsMade | Condition::TopOfRange | Condition::AnyRepMissed => {}
        }
    }
}

impl Moved for ChangeBy {
    fn moved(&mut self, to: Move) {
        if let ChangeBy::Parameter(_, name) = self {
            name.moved(to);
        }
    }
}

impl Moved for Action {
    fn moved(&mut self, to: Move) {
        match self {
            Action::Load(by) | Action::Reps(by) | Action::Sets(by) | Action::Max(by) => {
                by.moved(to);
            }
            Action::LoadUpOne
            | Action::LoadDownOne
            | Action::RepsToBottom
            | Action::MaxFromLastSet
            | Action::Hold => {}
        }
    }
}

impl Moved for MaxText {
    fn moved(&mut self, to: Move) {
        if let MaxText::Share(_, name) = self {
            name.moved(to);
        }
    }
}

impl Moved for AdviceChange {
    fn moved(&mut self, to: Move) {
        match self {
            AdviceChange::None => {}
            AdviceChange::Allow { code, on } => {
                code.moved(to);
                on.moved(to);
            }
            AdviceChange::Bound { code, value, unit, on } => {
                code.moved(to);
                value.moved(to);
                unit.moved(to);
                on.moved(to);
            }
            AdviceChange::Level { code, caution: _ } => code.moved(to),
        }
    }
}
