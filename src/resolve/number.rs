//! Numbers that change over the weeks: the value in one week.

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Duration, Exact, HalfPoints, Mass, RepCount};
use crate::source::Spanned;
use crate::syntax::ast::{MassText, OverWeeks, SignedMass, StepText, StepUnit};

use super::Stepped;

/// A number that a step can be added to.
pub trait Steps: Sized {
    /// Whether the step's unit fits this number.
    fn takes(unit: StepUnit) -> bool;
    /// What a step for it looks like.
    const EXAMPLE: &'static str;
    /// The number after a step was taken some times; `None` when it leaves what makes sense.
    fn step(&self, step: &StepText, times: u32) -> Option<Self>;
}

fn by(step: &StepText, times: u32) -> Exact {
    &Exact::from(step.by) * &Exact::whole(i64::from(times))
}

fn whole_step(value: u32, step: &StepText, times: u32, most: u32) -> Option<u32> {
    let sum = &Exact::whole(i64::from(value)) + &by(step, times);
    // Half a repetition a week adds a whole one every other week.
    let whole = sum.to_f64().floor();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded here")]
    let found = (1.0..=f64::from(most)).contains(&whole).then_some(whole as u32);
    found
}

impl Steps for u32 {
    const EXAMPLE: &'static str = "+1 set/week";
    fn takes(unit: StepUnit) -> bool {
        matches!(unit, StepUnit::Sets | StepUnit::Points)
    }
    fn step(&self, step: &StepText, times: u32) -> Option<Self> {
        whole_step(*self, step, times, bounds::SETS)
    }
}

/// Repetitions, seconds and metres share their type; which steps fit is checked by the caller.
impl Steps for RepCount {
    const EXAMPLE: &'static str = "+1 rep/week";
    fn takes(unit: StepUnit) -> bool {
        matches!(unit, StepUnit::Reps | StepUnit::Points | StepUnit::Seconds | StepUnit::Metres)
    }
    fn step(&self, step: &StepText, times: u32) -> Option<Self> {
        let most = Duration::MOST_SECONDS;
        let min = whole_step(self.min, step, times, most)?;
        let max = match self.max {
            None => None,
            Some(max) => Some(whole_step(max, step, times, most)?),
        };
        Some(RepCount { min, max })
    }
}

impl Steps for Decimal {
    const EXAMPLE: &'static str = "+2.5%/week";
    fn takes(unit: StepUnit) -> bool {
        unit == StepUnit::Percent
    }
    fn step(&self, step: &StepText, times: u32) -> Option<Self> {
        let sum = &Exact::from(*self) + &by(step, times);
        let fits = !sum.is_negative() && sum <= Exact::whole(bounds::PERCENT);
        fits.then(|| sum.to_decimal(6))
    }
}

impl Steps for Mass {
    const EXAMPLE: &'static str = "+2.5 kg/week";
    fn takes(unit: StepUnit) -> bool {
        matches!(unit, StepUnit::Mass(_))
    }
    fn step(&self, step: &StepText, times: u32) -> Option<Self> {
        let StepUnit::Mass(unit) = step.unit else { return None };
        let each = Mass::from_decimal(step.by, unit)?;
        let sum = self.checked_add(each.checked_mul(i64::from(times))?)?;
        (sum.abs() <= Mass::MOST).then_some(sum)
    }
}

impl Steps for HalfPoints {
    const EXAMPLE: &'static str = "+0.5/week";
    fn takes(unit: StepUnit) -> bool {
        unit == StepUnit::Points
    }
    fn step(&self, step: &StepText, times: u32) -> Option<Self> {
        let sum = &self.to_exact() + &by(step, times);
        let points = HalfPoints::from_decimal(sum.to_decimal(6))?;
        (!sum.is_negative()).then_some(points)
    }
}

impl Steps for Duration {
    const EXAMPLE: &'static str = "+10 s/week";
    fn takes(unit: StepUnit) -> bool {
        unit == StepUnit::Seconds
    }
    fn step(&self, step: &StepText, times: u32) -> Option<Self> {
        whole_step(self.as_seconds(), step, times, Duration::MOST_SECONDS).map(Duration::seconds)
    }
}

/// What is written as one type and settled as another.
pub trait Settle {
    /// The settled type.
    type To: Steps + Clone;
    /// The settled value.
    fn settle(&self) -> Self::To;
}

macro_rules! itself {
    ($($type:ty),*) => {$(
        impl Settle for $type {
            type To = $type;
            fn settle(&self) -> $type {
                *self
            }
        }
    )*};
}
itself!(u32, RepCount, Decimal, HalfPoints, Duration);

impl Settle for MassText {
    type To = Mass;
    fn settle(&self) -> Mass {
        self.mass()
    }
}

impl Settle for SignedMass {
    type To = Mass;
    fn settle(&self) -> Mass {
        self.mass.mass()
    }
}

/// A number in one week: its first value, its value, and the step between.
pub struct WeekValue<T> {
    pub start: T,
    pub value: T,
    pub step: Option<Stepped>,
}

/// The value of a number at a place of its weeks (counted from zero).
pub fn at<W: Settle>(
    over: &OverWeeks<Spanned<W>>,
    index: usize,
    problems: &mut Vec<Diagnostic>,
) -> Option<WeekValue<W::To>> {
    let value = over.at(index)?.value.settle();
    let Some(step) = &over.step else {
        return Some(WeekValue { start: value.clone(), value, step: None });
    };
    let reported = |problems: &[Diagnostic]| {
        let same = |d: &Diagnostic| d.label.span == step.span;
        problems.iter().any(same)
    };
    if !W::To::takes(step.value.unit) && reported(problems) {
        return Some(WeekValue { start: value.clone(), value, step: None });
    }
    if !W::To::takes(step.value.unit) {
        problems.push(
            Diagnostic::new(
                Code::StepUnit,
                step.span,
                format!(
                    "the unit of this step (`{}`) does not fit the number before it",
                    step.value.unit.word()
                ),
            )
            .help(format!(
                "write the step in the unit of the number, such as `{}`",
                W::To::EXAMPLE
            )),
        );
        return Some(WeekValue { start: value.clone(), value, step: None });
    }
    let times = u32::try_from(index).unwrap_or(u32::MAX);
    let Some(stepped) = value.step(&step.value, times) else {
        if reported(problems) {
            return Some(WeekValue { start: value.clone(), value, step: None });
        }
        problems.push(
            Diagnostic::new(
                Code::NumberOutOfRange,
                step.span,
                format!("after {times} steps of {} this number is out of range", step.value),
            )
            .help("use a smaller step, or write out the weeks"),
        );
        return Some(WeekValue { start: value.clone(), value, step: None });
    };
    let step = Stepped { by: step.value.to_string(), times };
    Some(WeekValue { start: value, value: stepped, step: (times > 0).then_some(step) })
}
