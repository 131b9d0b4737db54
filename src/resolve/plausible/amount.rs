//! How much a line asks for: sets, repetitions, times and steps.
//!
//! All bounds are common practice, no source.

use super::{doubt, lifts};
use crate::catalogue::Exercise;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Exact, RepCount, Unit};
use crate::source::Spanned;
use crate::syntax::ast::{
    CountedIn, LoadText, OptionText, OverWeeks, SetGroup, StepText, StepUnit, WorkText,
};

/// The most sets of one group that are not doubted …
const MOST_SETS: u32 = 12;
/// … and of single repetitions, sprints and short holds.
const MOST_SHORT_SETS: u32 = 30;
/// The most repetitions of a set that are not doubted …
const MOST_REPS: u32 = 50;
/// … and of one with a loaded bar.
const MOST_BAR_REPS: u32 = 30;
/// The most rounds of a circuit that are not doubted.
const MOST_ROUNDS: u32 = 15;
/// The longest hold that is not doubted.
const LONG_HOLD_S: u32 = 4 * 60;
/// The largest steps that are not doubted.
const STEP_SECONDS: i64 = 30;
const STEP_POINTS: i64 = 10;
const STEP_KG: i64 = 10;
const STEP_LB: i64 = 25;

/// Looks at the sets, repetitions and steps of a group. In a circuit or an interval, many sets are
/// common.
pub fn check(
    group: &SetGroup,
    exercise: Option<&Exercise>,
    in_rounds: bool,
    problems: &mut Vec<Diagnostic>,
) {
    if !in_rounds {
        problems.extend(sets(group));
    }
    match group.reps.as_ref().map(|reps| &reps.value.work) {
        Some(WorkText::Reps(over)) => problems.extend(repetitions(group, over, exercise)),
        Some(WorkText::Seconds(over)) if exercise.is_some_and(is_held) => {
            problems.extend(held(over));
            problems.extend(over.step.as_ref().and_then(step));
        }
        _ => {}
    }
    let stepped = match group.load.as_ref().map(|load| &load.value) {
        Some(LoadText::Percent(over, _)) => over.step.as_ref(),
        Some(LoadText::Mass(over)) => over.step.as_ref(),
        Some(LoadText::Bodyweight(Some(over))) => over.step.as_ref(),
        _ => None,
    };
    problems.extend(stepped.and_then(step));
}

/// Whether it is held for a time.
fn is_held(exercise: &Exercise) -> bool {
    exercise.counted_in() == Some(CountedIn::Seconds)
        || exercise.counted_in.is_none() && exercise.pattern.as_deref() == Some("brace")
}

fn sets(group: &SetGroup) -> Option<Diagnostic> {
    let sets = group.sets.as_ref()?;
    let work = group.reps.as_ref().map(|reps| &reps.value.work);
    let every = |option: &Spanned<OptionText>| matches!(option.value, OptionText::Every(_));
    if matches!(work, Some(WorkText::Cluster(..))) || group.options.iter().any(every) {
        return None;
    }
    let single = |over: &OverWeeks<Spanned<RepCount>>| {
        over.values.iter().all(|count| count.value.max.unwrap_or(count.value.min) == 1)
    };
    let most = match work {
        Some(WorkText::Seconds(_) | WorkText::Metres(_)) => MOST_SHORT_SETS,
        Some(WorkText::Reps(over)) if single(over) => MOST_SHORT_SETS,
        _ => MOST_SETS,
    };
    let count = sets.values.iter().find(|count| count.value > most)?;
    let message = format!("{} sets of one exercise are unlikely", count.value);
    let found = doubt(Code::UnlikelyValue, count.span, message).help(
        "the number before `x` is the number of sets, the one after it the repetitions of each",
    );
    Some(match fewer_sets(count.value) {
        Some(meant) => found.guess(count.span, meant.to_string()),
        None => found,
    })
}

/// The digit that is probably meant: `3` for 30, 34 and 13.
fn fewer_sets(count: u32) -> Option<u32> {
    let (tens, ones) = (count / 10, count % 10);
    let meant = if tens == 1 && ones > 0 { ones } else { tens };
    (1..=10).contains(&meant).then_some(meant)
}

fn repetitions(
    group: &SetGroup,
    over: &OverWeeks<Spanned<RepCount>>,
    exercise: Option<&Exercise>,
) -> Option<Diagnostic> {
    // A hold counted in repetitions is reported as such, and rope skips go into the hundreds.
    let other = exercise.is_some_and(|exercise| {
        matches!(exercise.counted_in(), Some(CountedIn::Seconds | CountedIn::Metres))
            || exercise.pattern.as_deref() == Some("jump")
    });
    if other {
        return None;
    }
    let bar = group.load.is_some() && exercise.is_some_and(lifts::is_bar_lift);
    let most = if bar { MOST_BAR_REPS } else { MOST_REPS };
    let top = |count: RepCount| count.max.unwrap_or(count.min);
    let count = over.values.iter().find(|count| top(count.value) > most)?;
    if super::line::is_wide(count.value) {
        return None;
    }
    let with = if bar { " with a bar" } else { "" };
    let message = format!("a set of {} repetitions{with} is unlikely", count.value);
    let found = doubt(Code::UnlikelyValue, count.span, message);
    let fewer = std::iter::successors(Some(count.value.min / 10), |count| Some(count / 10));
    let meant = fewer.take_while(|count| *count > 0).find(|count| *count <= MOST_BAR_REPS);
    // The values of a series go together: there is no guess for one of them.
    let alone = count.value.max.is_none_or(|max| max == count.value.min)
        && !over.is_series()
        && over.step.is_none();
    Some(match meant.filter(|_| alone) {
        Some(meant) => found.guess(count.span, meant.to_string()),
        None => found,
    })
}

fn held(over: &OverWeeks<Spanned<RepCount>>) -> Option<Diagnostic> {
    let top = |count: RepCount| count.max.unwrap_or(count.min);
    let count = over.values.iter().find(|count| top(count.value) > LONG_HOLD_S)?;
    if super::line::is_wide(count.value) {
        return None;
    }
    let message = format!("a hold of {} s is unlikely", count.value);
    let found = doubt(Code::UnlikelyValue, count.span, message);
    // Minutes for seconds (`30 min`), or a digit too many (`300 s`).
    let seconds = count.value.min;
    let minutes = seconds >= 15 * 60 && seconds.is_multiple_of(60);
    let meant = if minutes { seconds / 60 } else { seconds / 10 };
    let alone = count.value.max.is_none_or(|max| max == count.value.min)
        && !over.is_series()
        && over.step.is_none();
    Some(if alone && (1..=LONG_HOLD_S).contains(&meant) {
        found.guess(count.span, format!("{meant} s"))
    } else {
        found
    })
}

fn step(step: &Spanned<StepText>) -> Option<Diagnostic> {
    let most = match step.value.unit {
        StepUnit::Seconds => STEP_SECONDS,
        StepUnit::Percent => STEP_POINTS,
        StepUnit::Mass(Unit::Kg) => STEP_KG,
        StepUnit::Mass(Unit::Lb) => STEP_LB,
        StepUnit::Reps | StepUnit::Sets | StepUnit::Metres | StepUnit::Points => return None,
    };
    let within = |by: Decimal| Exact::from(by).abs() <= Exact::whole(most);
    if within(step.value.by) {
        return None;
    }
    let message = format!("a step of `{}` is unlikely", step.value);
    let found = doubt(Code::UnlikelyValue, step.span, message);
    let by = (&Exact::from(step.value.by) * &Exact::ratio(1, 10)).to_decimal(3);
    let meant = StepText { by, ..step.value };
    Some(if within(by) { found.guess(step.span, meant.to_string()) } else { found })
}

/// Rounds of a circuit.
pub fn rounds(rounds: u32, span: crate::source::Span) -> Option<Diagnostic> {
    if rounds <= MOST_ROUNDS {
        return None;
    }
    Some(doubt(Code::UnlikelyValue, span, format!("a circuit of {rounds} rounds is unlikely")))
}
