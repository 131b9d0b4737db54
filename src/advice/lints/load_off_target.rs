//! A target that the gym cannot build within its smallest step.
//!
//! The sheet then shows both the target and the nearest load. Nothing but the gym's own list of bars,
//! plates, bells and pins decides it, so it needs no source.

use crate::advice::lint::{Area, Finding, Lint, LintContext};
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

fn find(context: &LintContext<'_>, _: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (index, athlete, session) in context.sessions() {
        let exercises = session.exercises.iter();
        found.extend(exercises.filter_map(|e| finding(index, athlete, session, e)));
    }
    found
}

fn finding(
    index: usize,
    athlete: &AthletePlan,
    session: &Session,
    exercise: &PlannedExercise,
) -> Option<Finding> {
    let off = exercise.sets.iter().filter(|set| set.off_target).filter_map(|set| {
        let built = set.load.as_ref()?;
        let missed = &Exact::from_mass(built.mass) - set.target.as_ref()?;
        Some((missed, set.target.as_ref()?, built, set.exact_with.as_deref()))
    });
    let (missed, target, built, exact_with) =
        off.max_by(|(a, ..), (b, ..)| a.abs().cmp(&b.abs()))?;
    let unit = athlete.unit;
    let wanted = built.shown(target, unit);
    let made = built.shown(&Exact::from_mass(built.mass), unit);
    let message = format!(
        "{}: the target is {wanted}, but the nearest load in the gym is {made}",
        exercise.name
    );
    let short = format!("{} {made} for {wanted}", exercise.name);
    let help = if missed < Exact::zero() {
        "use more repetitions, a slower tempo or one side at a time to make up for the missing load; or \
         change the load. The card shows both"
    } else {
        "use fewer repetitions, or change the load or the gym's equipment. The card shows both loads"
    };
    let with = exact_with.map_or_else(String::new, |item| {
        let (name, kind) = (&exercise.name, item.split(' ').next_back().unwrap_or(item));
        let own = format!("{kind} {}", name.to_lowercase());
        format!(
            "`{item}` can make {} in this gym: write `exercise {own}` with `like: {name}` and \
             `equipment: {item}`. Otherwise ",
            target.to_mass().show(unit)
        )
    });
    let mut finding = Finding::exercise(index, session, exercise).weighs(missed.abs());
    // Athletes of one gym who do the same are told together.
    finding.subject = format!("{}, {}", exercise.name, athlete.gym.as_deref().unwrap_or_default());
    Some(finding.message(message, short).help(format!("{with}{help}")))
}
