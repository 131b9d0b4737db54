//! A max by itself: how many repetitions it is from, and how heavy it is.

use super::{doubt, lifts, likely};
use crate::catalogue::Exercise;
use crate::diagnostics::{Code, Diagnostic, Severity};
use crate::quantity::{Decimal, Exact, Mass};
use crate::source::Spanned;
use crate::strength::Equation;
use crate::syntax::ast::{MassText, MaxLift, MaxText};

/// Equations that differ by more percent than this for a set are said to.
const APART_PERCENT: i64 = 15;
/// A share of another lift outside these, in percent, is doubted: a curl of a deadlift, a leg press
/// of a squat lie within.
const LEAST_SHARE: i64 = 5;
const MOST_SHARE: i64 = 300;

/// A max as a mass on a bar or a machine: the repetitions and the load.
pub fn lifted(max: &MaxText) -> Option<(u32, MassText)> {
    match max {
        MaxText::Lifted { reps, lift: MaxLift::Mass(mass), .. } => Some((*reps, *mass)),
        _ => None,
    }
}

/// The max of one repetition, by the usual equation.
pub fn one_rm(reps: u32, mass: MassText) -> Mass {
    let factor = Equation::default().factor(&Exact::whole(i64::from(reps)));
    (&Exact::from_mass(mass.mass()) * &factor.unwrap_or_else(Exact::one)).to_mass()
}

/// The same max with another mass.
pub fn with_mass(max: &MaxText, mass: MassText) -> MaxText {
    match max {
        MaxText::Lifted { reps, date, .. } => {
            MaxText::Lifted { reps: *reps, lift: MaxLift::Mass(mass), date: *date }
        }
        MaxText::Share(..) => max.clone(),
    }
}

/// A max estimated from more repetitions than the equations hold for: from many it is an error.
pub fn estimate(max: &Spanned<MaxText>) -> Option<Diagnostic> {
    let MaxText::Lifted { reps, .. } = &max.value else { return None };
    if *reps <= Equation::SURE_REPS {
        return None;
    }
    let mass = lifted(&max.value).map(|(_, mass)| mass);
    let apart = apart(*reps, mass).map_or_else(String::new, |text| format!(": {text}"));
    let sure = Equation::SURE_REPS;
    let (message, level) = if *reps > Equation::MOST_SET_REPS {
        (format!("no max can be estimated from {reps} repetitions{apart}"), Severity::Error)
    } else {
        (format!("this max is estimated from {reps} repetitions{apart}"), Severity::Warning)
    };
    let mut found = Diagnostic::new(Code::EstimateRange, max.span, message)
        .help(format!("the equations are reliable up to {sure} repetitions: write a heavier set or a tested single"));
    found.level = Some(level);
    Some(found)
}

/// How far the equations are apart for a set, where that is much.
pub fn apart(reps: u32, mass: Option<MassText>) -> Option<String> {
    let (low, high) = Equation::spread(reps)?;
    let percent = &(&(&high - &low) / &low) * &Exact::whole(100);
    if percent <= Exact::whole(APART_PERCENT) {
        return None;
    }
    let percent = percent.round_half_up();
    Some(match mass {
        None => format!("the equations differ by {percent}%"),
        Some(mass) => {
            let by = |factor: &Exact| (&Exact::from(mass.value) * factor).to_decimal(1);
            let (low, high) = (by(&low), by(&high));
            format!("the equations differ by {percent}%, {low} to {high} {}", mass.unit)
        }
    })
}

/// A max that is heavier or lighter than makes sense by itself.
pub fn by_itself(exercise: &Exercise, max: &Spanned<MaxText>) -> Option<Diagnostic> {
    match &max.value {
        MaxText::Share(percent, of) => {
            let value = Exact::from(*percent);
            let sane = |value: &Exact| {
                (Exact::whole(LEAST_SHARE)..=Exact::whole(MOST_SHARE)).contains(value)
            };
            if sane(&value) {
                return None;
            }
            let message =
                format!("a max of {} of {percent}% of {} is unlikely", exercise.name, of.value);
            let found = doubt(Code::UnlikelyMax, max.span, message);
            let slips = [&value * &Exact::ratio(1, 10), &value * &Exact::whole(10)];
            let meant: Option<Decimal> =
                slips.iter().find(|slip| sane(slip)).map(|slip| slip.to_decimal(1));
            Some(match meant {
                Some(percent) => {
                    found.guess(max.span, MaxText::Share(percent, of.clone()).to_string())
                }
                None => found,
            })
        }
        MaxText::Lifted { lift: MaxLift::Bodyweight(Some(by)), reps, date } => {
            let mut found = super::line::on_body(*by, max.span)?;
            found.code = Code::UnlikelyMax;
            let tenth = crate::syntax::ast::SignedMass { mass: super::times(by.mass, 1, 10) };
            if !found.fixes.is_empty() {
                found.fixes.clear();
                let lift = MaxLift::Bodyweight(Some(tenth));
                let meant = MaxText::Lifted { reps: *reps, lift, date: *date };
                found = found.guess(max.span, meant.to_string());
            }
            Some(found)
        }
        MaxText::Lifted { .. } => {
            let (reps, mass) = lifted(&max.value)?;
            let sane = |mass: MassText| {
                let one = one_rm(reps, mass);
                lifts::least(exercise) <= one && one <= lifts::most(exercise)
            };
            if sane(mass) {
                return None;
            }
            let message = format!("a max of {mass} for {} is unlikely", exercise.name);
            let found = doubt(Code::UnlikelyMax, max.span, message);
            Some(match likely(mass, sane) {
                Some(meant) => found.guess(max.span, with_mass(&max.value, meant).to_string()),
                None => found,
            })
        }
    }
}
