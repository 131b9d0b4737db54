//! Repetitions beyond what the percentage allows.
//!
//! The programme's own equation says how many repetitions a share of the 1RM allows. People differ:
//! at 80 % by 2.51 repetitions from one to the next (standard deviation), at 60 % by 4.36, and in
//! the leg press 13.1 are made at 80 % against 8.8 in the bench press (Nuzzo et al. 2024, Sports Med
//! 54:303–321 [S2]). So three repetitions more than the equation allows are let pass, and twice as
//! many on a machine. Clusters, rest-pause sets, drops and AMRAP are left alone, and so is what
//! rests on sessions that are not logged yet.

use crate::advice::lint::{Area, Bound, Context, Finding, Lint};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, PlannedExercise, PlannedSet};
use crate::quantity::{Exact, Work};
use crate::strength::Equation;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::RepsPastPercent,
    title: "more repetitions than the percentage of the 1RM allows",
    bound: Some(Bound {
        value: 3,
        unit: "reps",
        meaning: "repetitions past the equation's, more than",
    }),
    source: "the programme's equation; margin from Nuzzo et al. 2024, Sports Med 54:303–321, \
             doi 10.1007/s40279-023-01937-7",
    area: Area::Load,
    on_sheet: false,
    find,
};

fn find(context: &Context<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions() {
        for exercise in session.exercises.iter().filter(|e| !e.projected) {
            let over = exercise.working().filter_map(|set| {
                let (past, allowed) = past(exercise, set, context.equation, bound)?;
                Some((past, allowed, set))
            });
            let Some((past, allowed, set)) = over.max_by(|(a, ..), (b, ..)| a.cmp(b)) else {
                continue;
            };
            let what = format!("{} of {}", words::set(set), exercise.name);
            let about = match allowed {
                0 => "no repetition, for it is more than the 1RM".to_owned(),
                n => format!("about {n}"),
            };
            let message = format!("{what}: {} allows {about}", context.equation.name());
            let finding = Finding::exercise(athlete, session, exercise);
            let help = "take weight off or repetitions away, or test the max again";
            found.push(finding.says(message, what).help(help).weighs(past));
        }
    }
    found
}

/// By how many repetitions a set passes what is allowed with its margin, and how many are allowed.
fn past(
    exercise: &PlannedExercise,
    set: &PlannedSet,
    equation: Equation,
    margin: &Exact,
) -> Option<(Exact, i64)> {
    let share = set.share_of_1rm.as_ref()?;
    let Work::Reps(count) = &set.reps.work else { return None };
    // Below what the equation says of its longest set, it says nothing.
    let longest = equation.share(&Exact::whole(Equation::MOST_REPS));
    if set.rest_pause.is_some() || longest.is_some_and(|least| *share < least) {
        return None;
    }
    let reps = Exact::whole(i64::from(count.min));
    let one = Exact::one();
    // Past the 1RM nothing is allowed, whatever the margin; a rounded step above it is.
    if *share > Exact::ratio(105, 100) {
        return Some((reps, 0));
    }
    let allowed = allowed(equation, share);
    let margin = match exercise.equipment {
        Some(Equipment::Machine) => margin + margin,
        _ => margin.clone(),
    };
    let past = &(&reps - &Exact::whole(allowed)) - &margin;
    (past > Exact::zero() && reps > one).then_some((past, allowed))
}

/// Whether a set passes what is allowed with the default margin.
pub fn is_past(exercise: &PlannedExercise, set: &PlannedSet, equation: Equation) -> bool {
    let margin = Exact::whole(LINT.bound.map_or(0, |bound| bound.value));
    past(exercise, set, equation, &margin).is_some()
}

/// The most whole repetitions that the equation allows at a share of the 1RM.
fn allowed(equation: Equation, share: &Exact) -> i64 {
    let holds =
        |reps: &i64| equation.share(&Exact::whole(*reps)).is_some_and(|most| most >= *share);
    (1..=Equation::MOST_REPS).take_while(holds).last().unwrap_or(1)
}
