//! A target that the gym cannot build within its smallest step.
//!
//! The sheet then shows both the target and the nearest load. Nothing but the gym's own list of bars,
//! plates, bells and pins decides it, so it needs no source.

use crate::advice::lint::{Area, Context, Finding, Lint};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{AthletePlan, PlannedExercise, Session};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::LoadOffTarget,
    title: "a target that the gym cannot build within its smallest step",
    bound: None,
    source: "the gym's own list",
    area: Area::Load,
    on_sheet: true,
    find,
};

fn find(context: &Context<'_>, _: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (index, athlete, session) in context.sessions() {
        let exercises = session.exercises.iter();
        found.extend(exercises.filter_map(|e| one(index, athlete, session, e)));
    }
    found
}

fn one(
    index: usize,
    athlete: &AthletePlan,
    session: &Session,
    exercise: &PlannedExercise,
) -> Option<Finding> {
    let off = exercise.sets.iter().filter(|set| set.off_target).filter_map(|set| {
        let target = set.target.as_ref()?;
        let built = Exact::from_mass(set.load.as_ref()?.mass);
        Some(((&built - target).abs(), target, built))
    });
    let (missed, target, built) = off.max_by(|(a, ..), (b, ..)| a.cmp(b))?;
    let unit = athlete.unit;
    let shown = target.to_mass().in_unit(unit);
    let message = format!(
        "{}: the target is {shown} {unit}, the nearest the gym can make is {}",
        exercise.name,
        words::load(&built, unit)
    );
    let short = format!("{} for {shown} {unit}", words::load(&built, unit));
    let mut finding = Finding::exercise(index, session, exercise).weighs(missed);
    // Gyms differ: each load that stands in for the target is told apart.
    finding.subject.clone_from(&short);
    let help = "the card shows both; change the load, or what the gym has";
    Some(finding.says(message, short).help(help))
}
