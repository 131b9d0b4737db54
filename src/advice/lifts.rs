//! A lift from week to week: how much it asks for, and how many sets of it there are.

use std::collections::BTreeMap;

use crate::plan::{PlannedExercise, PlannedSet, Session};
use crate::quantity::{Exact, Mass};
use crate::strength::Equation;
use crate::tally::{moves, weighed};

use super::LintContext;

/// Weeks are held against the hardest of this many before them, so that a lighter week, planned or
/// written out, does not make the one after it a jump: common practice, no source.
pub const LOOK_BACK: u32 = 4;

/// The heaviest set of a lift in a week, in terms of what it would take to lift it once.
pub struct Top<'p> {
    /// Its session.
    pub session: &'p Session,
    /// Its exercise.
    pub exercise: &'p PlannedExercise,
    /// The set.
    pub set: &'p PlannedSet,
    /// What moves, without repetitions counted.
    pub load: Exact,
    /// The 1RM that the set asks for, by the programme's equation: so that five at 80 % and three at
    /// 86 % count as the same step.
    pub asks: Exact,
    /// The same as a share of the 1RM that is known.
    asks_share: Option<Exact>,
}

/// One week of one lift.
pub struct LoadedWeek<'p> {
    /// The week.
    pub week: u32,
    /// Hard sets.
    pub sets: u32,
    /// The heaviest set; `None` where no load is known.
    pub top: Option<Top<'p>>,
}

/// Every lift of an athlete by name, week by week.
pub fn lifts<'p>(
    context: &LintContext<'p>,
    athlete: usize,
) -> BTreeMap<&'p str, Vec<LoadedWeek<'p>>> {
    let mut all: BTreeMap<&str, Vec<LoadedWeek<'_>>> = BTreeMap::new();
    let Some(plan) = context.plan.athletes.get(athlete) else { return all };
    for (session, body) in weighed(plan) {
        for exercise in &session.exercises {
            let weeks = all.entry(&exercise.name).or_default();
            if weeks.last().is_none_or(|last| last.week != session.week) {
                weeks.push(LoadedWeek { week: session.week, sets: 0, top: None });
            }
            let Some(week) = weeks.last_mut() else { continue };
            for set in exercise.working() {
                week.sets += 1;
                let Some(load) = load(set, body) else { continue };
                let Some(factor) = factor(context.equation, set) else { continue };
                let asks = &load * &factor;
                let asks_share = set.share_of_1rm.as_ref().map(|share| share * &factor);
                if week.top.as_ref().is_none_or(|top| asks > top.asks) {
                    week.top = Some(Top { session, exercise, set, load, asks, asks_share });
                }
            }
        }
    }
    all
}

/// What moves in a set.
fn load(set: &PlannedSet, body: Option<Mass>) -> Option<Exact> {
    moves(set, Some(set.load.as_ref()?.mass), body)
}

/// What the programme's equation makes of its repetitions.
fn factor(equation: Equation, set: &PlannedSet) -> Option<Exact> {
    equation.factor(&Exact::whole(i64::from(set.reps.work.least_reps()?)))
}

impl Top<'_> {
    /// By how much another set asks for more: by the 1RM, where it is known of both, so that a new
    /// test is no jump.
    #[must_use]
    pub fn rise_to(&self, other: &Top<'_>) -> Option<Exact> {
        match (&self.asks_share, &other.asks_share) {
            (Some(from), Some(to)) => rise(from, to),
            _ => rise(&self.asks, &other.asks),
        }
    }
}

/// By how much one number passes another, as a share of the other.
pub fn rise(from: &Exact, to: &Exact) -> Option<Exact> {
    (to - from).checked_div(from)
}

/// The weeks that a week is held against.
pub fn before<'a, 'p>(
    weeks: &'a [LoadedWeek<'p>],
    week: u32,
) -> impl Iterator<Item = &'a LoadedWeek<'p>> {
    weeks.iter().filter(move |other| other.week < week && other.week + LOOK_BACK >= week)
}

/// A step in load that no gym can make smaller is none: this much more on one implement, in
/// kilograms, is let pass whatever its share. From the handbook's increases, up to 4 kg for the upper
/// and 7 kg for the lower body (tables 17.9–17.12 [S]).
pub const SMALL_STEP_KG: i64 = 5;

/// Whether the step from one set to another is larger than [`SMALL_STEP_KG`].
pub fn is_large_step(before: &Top<'_>, now: &Top<'_>) -> bool {
    &now.load - &before.load > Exact::from_mass(Mass::from_kg(SMALL_STEP_KG))
}

/// The hardest set of some weeks.
pub fn hardest<'a, 'p: 'a>(weeks: impl Iterator<Item = &'a LoadedWeek<'p>>) -> Option<&'a Top<'p>> {
    let tops = weeks.filter_map(|week| week.top.as_ref());
    tops.reduce(|best, top| if top.asks > best.asks { top } else { best })
}
