//! Estimated 1RMs by session, with their trend.

use jiff::civil::Date;
use serde::Serialize;

use crate::plan::{DoneWork, Op, PlannedExercise, PlannedSet, Session, SessionStatus, StepKind};
use crate::quantity::{Exact, Mass};
use crate::strength::Equation;
use crate::tally::{is_main, kg, moves};

use super::MOST_REPS;
use super::volume::done_sets;

/// Least number of points for a trend.
const LEAST_POINTS: usize = 3;

/// The estimated 1RMs of one lift.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LiftStrength {
    /// The exercise.
    pub lift: String,
    /// Whether its loads are percentages of its own max. These lifts are plotted first.
    pub main: bool,
    /// Whether load and 1RM include the body mass.
    pub with_body_mass: bool,
    /// The best estimate of each session, in order.
    pub points: Vec<Point>,
    /// The trend through the points; `None` if there are fewer than three, or all are from one day.
    pub trend: Option<Trend>,
}

/// The best estimate of one session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Point {
    /// The week.
    pub week: u32,
    /// The day's name.
    pub day: String,
    /// The date on which it was done.
    pub date: Date,
    /// The repetitions that the estimate is based on.
    pub reps: u32,
    /// Their load: both dumbbells of a pair, including the body mass if it is lifted.
    #[serde(rename = "load_kg", serialize_with = "kg")]
    pub load: Exact,
    /// The estimated 1RM.
    #[serde(rename = "estimated_1rm_kg", serialize_with = "kg")]
    pub estimate: Exact,
}

/// The least-squares line through the points, in exact fractions: x is the number of days since the
/// first point divided by seven, y the estimate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Trend {
    /// The slope, as mass gained each week.
    #[serde(rename = "slope_kg_per_week", serialize_with = "kg")]
    pub slope: Exact,
    /// The line's value on the day of the first point.
    #[serde(rename = "first_kg", serialize_with = "kg")]
    pub first: Exact,
    /// The line's value on the day of the last point.
    #[serde(rename = "last_kg", serialize_with = "kg")]
    pub last: Exact,
}

impl Trend {
    /// The slope in percent of the line's first value, each week.
    #[must_use]
    pub fn percent_per_week(&self) -> Exact {
        &(&self.slope / &self.first) * &Exact::whole(100)
    }
}

/// All lifts with an estimate: main lifts first, then in the order in which they were done.
pub fn lifts(sessions: &[(&Session, Option<Mass>)], equation: Equation) -> Vec<LiftStrength> {
    let mut lifts: Vec<LiftStrength> = Vec::new();
    for (session, body) in sessions {
        let SessionStatus::Done { done_on } = session.status else { continue };
        for exercise in &session.exercises {
            let Some((reps, load, estimate)) = best(exercise, *body, equation) else { continue };
            let (week, day) = (session.week, session.day.clone());
            let point = Point { week, day, date: done_on, reps, load, estimate };
            add(&mut lifts, exercise, point);
        }
    }
    for lift in &mut lifts {
        lift.trend = trend(&lift.points);
    }
    lifts.sort_by_key(|lift| !lift.main);
    lifts
}

fn add(lifts: &mut Vec<LiftStrength>, exercise: &PlannedExercise, point: Point) {
    let Some(lift) = lifts.iter_mut().find(|lift| lift.lift == exercise.name) else {
        lifts.push(LiftStrength {
            lift: exercise.name.clone(),
            main: is_main(exercise),
            with_body_mass: exercise.working().any(PlannedSet::lifts_body),
            points: vec![point],
            trend: None,
        });
        return;
    };
    lift.main |= is_main(exercise);
    // If a lift occurs twice in one session, the better estimate is used.
    match lift.points.last_mut().filter(|last| last.week == point.week && last.day == point.day) {
        Some(last) if last.estimate < point.estimate => *last = point,
        Some(_) => {}
        None => lift.points.push(point),
    }
}

/// The best set: repetitions, load and estimate. Loads reduced by a phase are ignored.
fn best(
    exercise: &PlannedExercise,
    body: Option<Mass>,
    equation: Equation,
) -> Option<(u32, Exact, Exact)> {
    let one = Exact::one();
    let deload = exercise.working().flat_map(|set| set.derivation.iter()).any(|step| {
        matches!((&step.kind, &step.op), (StepKind::Phase { .. }, Op::Times(by)) if *by < one)
    });
    if deload {
        return None;
    }
    let mut best: Option<(u32, Exact, Exact)> = None;
    for (set, done) in done_sets(exercise) {
        let DoneWork::Reps(reps @ 1..=MOST_REPS) = done.work else { continue };
        let Some(load) = moves(set, done.load, body).filter(|load| !load.is_zero()) else {
            continue;
        };
        let Some(factor) = equation.factor(&Exact::whole(i64::from(reps))) else { continue };
        let estimate = &load * &factor;
        if best.as_ref().is_none_or(|(_, _, most)| *most < estimate) {
            best = Some((reps, load, estimate));
        }
    }
    best
}

/// The least-squares line.
fn trend(points: &[Point]) -> Option<Trend> {
    let first = points.first().filter(|_| points.len() >= LEAST_POINTS)?;
    let xs: Vec<Exact> =
        points.iter().map(|point| Exact::ratio(days(first.date, point.date), 7)).collect();
    let sum = |values: &mut dyn Iterator<Item = Exact>| {
        values.fold(Exact::zero(), |sum, value| &sum + &value)
    };
    let n = Exact::whole(i64::try_from(points.len()).ok()?);
    let ys = || points.iter().map(|point| &point.estimate);
    let x = sum(&mut xs.iter().cloned());
    let y = sum(&mut ys().cloned());
    let xx = sum(&mut xs.iter().map(|x| x * x));
    let xy = sum(&mut xs.iter().zip(ys()).map(|(x, y)| x * y));
    let slope = (&(&n * &xy) - &(&x * &y)).checked_div(&(&(&n * &xx) - &(&x * &x)))?;
    let start = &(&y - &(&slope * &x)) / &n;
    let least = xs.iter().min()?;
    let most = xs.iter().max()?;
    Some(Trend { first: &start + &(&slope * least), last: &start + &(&slope * most), slope })
}

/// Number of days between two dates.
fn days(from: Date, to: Date) -> i64 {
    from.until(to).map_or(0, |span| i64::from(span.get_days()))
}
