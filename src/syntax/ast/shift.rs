//! What a line says, moved to another place of the text: every span in it goes along.

use smallvec::SmallVec;

use super::{
    Action, AdviceChange, AdviceText, Band, BarItem, ChangeBy, Condition, EffortText,
    EquipmentItem, GroupOption, GroupText, Head, Item, LineKey, LoadText, MaxText, MuscleShare,
    OptionText, OverWeeks, PercentOf, Prescription, Quantity, RepsText, SetGroup, Value, WorkText,
};
use crate::source::{FileId, Span, Spanned};

/// How far, and into which file.
#[derive(Clone, Copy, Debug)]
pub struct Shift {
    file: FileId,
    /// Added to each byte; wraps, so that it goes both ways.
    by: u32,
}

impl Shift {
    /// From one byte to a byte of a file.
    #[must_use]
    pub fn new(from: usize, file: FileId, to: usize) -> Self {
        let narrow = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { file, by: narrow(to).wrapping_sub(narrow(from)) }
    }
}

/// What has places in it.
pub trait ShiftSpans {
    /// Lets it stand elsewhere.
    fn shift(&mut self, to: Shift);
}

impl ShiftSpans for Span {
    fn shift(&mut self, to: Shift) {
        self.file = to.file;
        self.start = self.start.wrapping_add(to.by);
        self.end = self.end.wrapping_add(to.by);
    }
}

impl<T: ShiftSpans> ShiftSpans for Spanned<T> {
    fn shift(&mut self, to: Shift) {
        self.span.shift(to);
        self.value.shift(to);
    }
}

impl<T: ShiftSpans> ShiftSpans for Vec<T> {
    fn shift(&mut self, to: Shift) {
        for one in self.iter_mut() {
            one.shift(to);
        }
    }
}

impl<T: ShiftSpans> ShiftSpans for SmallVec<[T; 1]> {
    fn shift(&mut self, to: Shift) {
        for one in self.iter_mut() {
            one.shift(to);
        }
    }
}

impl<T: ShiftSpans> ShiftSpans for Option<T> {
    fn shift(&mut self, to: Shift) {
        for one in self.iter_mut() {
            one.shift(to);
        }
    }
}

impl<A: ShiftSpans, B: ShiftSpans> ShiftSpans for (A, B) {
    fn shift(&mut self, to: Shift) {
        self.0.shift(to);
        self.1.shift(to);
    }
}

/// What has no places in it stays as it is.
macro_rules! placeless {
    ($($type:ty),* $(,)?) => {$(
        impl ShiftSpans for $type {
            fn shift(&mut self, _: Shift) {}
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
        impl ShiftSpans for $type {
            fn shift(&mut self, to: Shift) {
                $(self.$part.shift(to);)+
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

impl<T: ShiftSpans> ShiftSpans for OverWeeks<T> {
    fn shift(&mut self, to: Shift) {
        self.span.shift(to);
        self.values.shift(to);
        self.step.shift(to);
    }
}

impl ShiftSpans for Item {
    fn shift(&mut self, to: Shift) {
        match self {
            Item::Head(head) => head.shift(to),
            Item::Entry { key, value } => {
                key.shift(to);
                value.shift(to);
            }
            Item::LogSession { date, planned, extra: _, skipped: _ } => {
                date.shift(to);
                planned.shift(to);
            }
            Item::Wrong => {}
        }
    }
}

impl ShiftSpans for Head {
    fn shift(&mut self, to: Shift) {
        match self {
            Head::Notation(version) => version.shift(to),
            Head::Use(name)
            | Head::Exercise(name)
            | Head::Gym(name)
            | Head::Athlete(name)
            | Head::Programme(name)
            | Head::Scheme(name)
            | Head::Day { name, weekday: _ } => name.shift(to),
            Head::Phase { name, weeks, sets, load } => {
                name.shift(to);
                weeks.shift(to);
                sets.shift(to);
                load.shift(to);
            }
            Head::Log { athlete, programme } => {
                athlete.shift(to);
                programme.shift(to);
            }
        }
    }
}

impl ShiftSpans for LineKey {
    fn shift(&mut self, to: Shift) {
        match self {
            LineKey::Named(_, name) | LineKey::Parameter(name) | LineKey::For(name) => {
                name.shift(to);
            }
            LineKey::Order(order, name) => {
                order.shift(to);
                name.shift(to);
            }
            LineKey::Letter(order) => order.shift(to),
            LineKey::Weeks(weeks) => weeks.shift(to),
            LineKey::When(conditions) => conditions.shift(to),
            LineKey::Key(_) | LineKey::Otherwise => {}
        }
    }
}

impl ShiftSpans for Value {
    fn shift(&mut self, to: Shift) {
        match self {
            Value::Names(names) => names.shift(to),
            Value::Avoid(names) => names.shift(to),
            Value::Counted(names) => names.shift(to),
            Value::Remarked(name, _) => name.shift(to),
            Value::Equipment(items) => items.shift(to),
            Value::Muscles(shares) => shares.shift(to),
            Value::Count(count) => count.shift(to),
            Value::Percent(percent) => percent.shift(to),
            Value::Bars(bars) => bars.shift(to),
            Value::Stock(items) => items.shift(to),
            Value::Bands(bands) => bands.shift(to),
            Value::Max(max) => max.shift(to),
            Value::Prescription(prescription) => prescription.shift(to),
            Value::Group(group) => group.shift(to),
            Value::Ramp(sets) => sets.shift(to),
            Value::Follow(name, arguments) => {
                name.shift(to);
                arguments.shift(to);
            }
            Value::Amount(amount) => amount.shift(to),
            Value::Actions(actions) => actions.shift(to),
            Value::Advice(advice) => advice.shift(to),
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

impl ShiftSpans for WorkText {
    fn shift(&mut self, to: Shift) {
        match self {
            WorkText::Reps(over) | WorkText::Seconds(over) | WorkText::Metres(over) => {
                over.shift(to);
            }
            WorkText::Amrap | WorkText::Cluster(..) => {}
        }
    }
}

impl ShiftSpans for LoadText {
    fn shift(&mut self, to: Shift) {
        match self {
            LoadText::Percent(over, of) => {
                over.shift(to);
                if let PercentOf::Lift(name) = of {
                    name.shift(to);
                }
            }
            LoadText::Mass(over) => over.shift(to),
            LoadText::Effort(effort) => effort.shift(to),
            LoadText::Bodyweight(over) => over.shift(to),
            LoadText::LastMass(by) => by.shift(to),
            LoadText::LastPercent(by) => by.shift(to),
        }
    }
}

impl ShiftSpans for OptionText {
    fn shift(&mut self, to: Shift) {
        match self {
            OptionText::Rest(over) => over.shift(to),
            OptionText::Effort(effort) => effort.shift(to),
            OptionText::Tempo(_)
            | OptionText::Range(_)
            | OptionText::Drop(..)
            | OptionText::RestPause(_)
            | OptionText::Every(_)
            | OptionText::NoWarmUp
            | OptionText::AsWritten
            | OptionText::WithPhase => {}
        }
    }
}

impl ShiftSpans for GroupOption {
    fn shift(&mut self, to: Shift) {
        if let GroupOption::Common(option) = self {
            option.shift(to);
        }
    }
}

impl ShiftSpans for Quantity {
    fn shift(&mut self, to: Shift) {
        if let Quantity::Parameter(name) = self {
            name.shift(to);
        }
    }
}

impl ShiftSpans for Condition {
    fn shift(&mut self, to: Shift) {
        match self {
            Condition::LastSet(_, quantity, top) => {
                quantity.shift(to);
                top.shift(to);
            }
            Condition::MissedInARow(quantity)
            | Condition::Rpe(_, quantity)
            | Condition::Pain(_, quantity)
            | Condition::EverySessions(quantity)
            | Condition::EveryWeeks(quantity) => quantity.shift(to),
            Condition::AllRepsMade | Condition::TopOfRange | Condition::AnyRepMissed => {}
        }
    }
}

impl ShiftSpans for ChangeBy {
    fn shift(&mut self, to: Shift) {
        if let ChangeBy::Parameter(_, name) = self {
            name.shift(to);
        }
    }
}

impl ShiftSpans for Action {
    fn shift(&mut self, to: Shift) {
        match self {
            Action::Load(by) | Action::Reps(by) | Action::Sets(by) | Action::Max(by) => {
                by.shift(to);
            }
            Action::LoadUpOne
            | Action::LoadDownOne
            | Action::RepsToBottom
            | Action::MaxFromLastSet
            | Action::Hold => {}
        }
    }
}

impl ShiftSpans for MaxText {
    fn shift(&mut self, to: Shift) {
        if let MaxText::Share(_, name) = self {
            name.shift(to);
        }
    }
}

impl ShiftSpans for AdviceChange {
    fn shift(&mut self, to: Shift) {
        match self {
            AdviceChange::None => {}
            AdviceChange::Allow { code, on } => {
                code.shift(to);
                on.shift(to);
            }
            AdviceChange::Bound { code, value, unit, on } => {
                code.shift(to);
                value.shift(to);
                unit.shift(to);
                on.shift(to);
            }
            AdviceChange::Level { code, severity: _ } => code.shift(to),
        }
    }
}
