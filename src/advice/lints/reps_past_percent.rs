//! Repetitions beyond what the percentage allows.
//!
//! The programme's own equation says how many repetitions a share of the 1RM allows. People differ:
//! at 80 % by 2.51 repetitions from one to the next (standard deviation), at 60 % by 4.36, and in
//! the leg press 13.1 are made at 80 % against 8.8 in the bench press (Nuzzo et al. 2024, Sports Med
//! 54:303–321 [S2]). So three repetitions more than the equation allows are let pass, and twice as
//! many on a machine. Clusters, rest-pause sets, drops and AMRAP are left alone, and so is what
//! rests on sessions that are not logged yet.
//!
//! From 100 % on there is no margin: the 1RM is what is lifted once, so a second repetition or a
//! second set of it passes it by what the word means. More than it is for a test, which is taken to
//! be in the last week of the lift; that up to 5 % more is an attempt is common practice, no source.
//! What the coach permits with `over max:` is left alone; what nobody permits and no max allows is
//! an error before it is advice (`over-max`).

use std::collections::BTreeMap;

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, PlannedExercise, PlannedSet};
use crate::quantity::{Exact, Work};
use crate::strength::Equation;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::RepsPastPercent,
    title: "more repetitions than the percentage of the 1RM allows, or more than the 1RM",
    bound: Some(Bound {
        value: 3,
        unit: "reps",
        meaning: "repetitions past the equation's, more than",
    }),
    source: "the programme's equation; margin from Nuzzo et al. 2024, Sports Med 54:303–321, \
             doi 10.1007/s40279-023-01937-7",
    area: Area::Limits,
    on_sheet: true,
    find,
};

/// In a test, up to this percentage of the known 1RM is an attempt.
const TEST_PERCENT: i64 = 105;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    let last = last_weeks(context);
    for (athlete, _, session) in context.sessions() {
        for exercise in session.exercises.iter().filter(|e| !e.projected) {
            let is_test = last.get(&(athlete, exercise.name.as_str())) == Some(&session.week);
            let permitted = |set: &&PlannedSet| {
                let passes = set.share_of_1rm.as_ref().is_some_and(|share| *share > Exact::one());
                exercise.over_max.is_some() && passes
            };
            let over = exercise.working().filter(|set| !permitted(set)).filter_map(|set| {
                let about = past_max(exercise, set, is_test)
                    .or_else(|| past(exercise, set, context.equation, bound))?;
                Some((about, set))
            });
            let worst = over.max_by(|(a, one), (b, other)| {
                (&a.over, &one.share_of_1rm).cmp(&(&b.over, &other.share_of_1rm))
            });
            found.extend(worst.map(|(about, set)| {
                says(context, Finding::exercise(athlete, session, exercise), &about, set)
            }));
        }
    }
    found
}

/// A set that passes what its load allows.
struct Past {
    /// By how many repetitions, with the margin.
    over: Exact,
    /// How many are allowed.
    allowed: i64,
    /// How many sets of one repetition are asked for; one where it is the repetitions that pass.
    singles: usize,
}

fn says(context: &LintContext<'_>, finding: Finding, about: &Past, set: &PlannedSet) -> Finding {
    let name = finding.exercises.first().cloned().unwrap_or_default();
    let what = format!("{} of {name}", words::set(set));
    let message = match (about.allowed, about.singles) {
        (0, _) => format!("{what}: more than the 1RM"),
        (_, 2..) => format!("{what}, {} sets: the 1RM can only be lifted once", about.singles),
        (n, _) => format!("{what}: {} allows about {n}", context.equation.name()),
    };
    let help = "reduce the load or the repetitions, or test the max again";
    let finding = finding.message(message, what).help(help).weighs(about.over.clone());
    finding.then_by(set.share_of_1rm.clone())
}

/// The last week of each lift: that of its test, if there is one.
fn last_weeks<'p>(context: &LintContext<'p>) -> BTreeMap<(usize, &'p str), u32> {
    let mut last = BTreeMap::new();
    for (athlete, _, session) in context.sessions() {
        for exercise in &session.exercises {
            let week = last.entry((athlete, exercise.name.as_str())).or_insert(session.week);
            *week = session.week.max(*week);
        }
    }
    last
}

/// The 1RM itself is lifted once: no margin makes it two, and more than it is for a test, each
/// attempt once.
fn past_max(exercise: &PlannedExercise, set: &PlannedSet, is_test: bool) -> Option<Past> {
    let one = Exact::one();
    let share = set.share_of_1rm.as_ref().filter(|share| **share >= one)?;
    let reps = Exact::whole(i64::from(set.reps.work.least_reps()?));
    let allowed = i64::from(*share == one);
    let singles = exercise
        .working()
        .filter(|other| match &other.share_of_1rm {
            Some(own) if is_test => own == share,
            own => own.as_ref().is_some_and(|own| *own >= one),
        })
        .count();
    let is_attempt = is_test && *share <= Exact::ratio(TEST_PERCENT, 100);
    if reps <= one && singles <= 1 && (allowed == 1 || is_attempt) {
        return None;
    }
    let singles = if reps > one { 1 } else { singles };
    Some(Past { over: &reps - &Exact::whole(allowed), allowed, singles })
}

/// What passes what the equation allows by more than the margin.
fn past(
    exercise: &PlannedExercise,
    set: &PlannedSet,
    equation: Equation,
    margin: &Exact,
) -> Option<Past> {
    let share = set.share_of_1rm.as_ref()?;
    let Work::Reps(count) = &set.reps.work else { return None };
    // Below what the equation says of its longest set, it says nothing.
    let longest = equation.share(&Exact::whole(Equation::MOST_REPS));
    if set.rest_pause.is_some() || longest.is_some_and(|least| *share < least) {
        return None;
    }
    let allowed = allowed(equation, share);
    let margin = match exercise.equipment {
        Some(Equipment::Machine) => margin + margin,
        _ => margin.clone(),
    };
    let past = &(&Exact::whole(i64::from(count.min)) - &Exact::whole(allowed)) - &margin;
    (past > Exact::zero() && count.min > 1).then_some(Past { over: past, allowed, singles: 1 })
}

/// The most whole repetitions that the equation allows at a share of the 1RM.
fn allowed(equation: Equation, share: &Exact) -> i64 {
    let holds =
        |reps: &i64| equation.share(&Exact::whole(*reps)).is_some_and(|most| most >= *share);
    (1..=Equation::MOST_REPS).take_while(holds).last().unwrap_or(1)
}
