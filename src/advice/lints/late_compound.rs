//! A heavy compound after isolation for the same muscles, or late in the session.
//!
//! What is done first is trained with the most: multi-joint exercises gain more strength when they
//! come first (Simão et al. 2012, Sports Med 42(3):251–265; Nunes et al. 2021, Eur J Sport Sci
//! 21(2):149–157: effect size 0.32, growth no different [S]). The handbook's order is power, then
//! other core, then assistance exercises. How many lighter exercises make it late is common practice,
//! no source. Jumps and lifts for power are left alone, and so are trunk exercises and bands before
//! a lift: they prepare for it.

use crate::advice::facts::{direct, heavy_set, is};
use crate::advice::lint::{Area, Bound, Context, Finding, Lint};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, PlannedExercise, Session};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::LateCompound,
    title: "a heavy compound after isolation for the same muscles, or after several lighter exercises",
    bound: Some(Bound {
        value: 3,
        unit: "exercises",
        meaning: "lighter exercises before it, from",
    }),
    source: "Simão et al. 2012, Sports Med 42(3):251–265; Nunes et al. 2021, Eur J Sport Sci \
             21(2):149–157; how many is common practice",
    area: Area::Session,
    on_sheet: false,
    find,
};

fn find(context: &Context<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions().filter(|(.., session)| !session.lightened) {
        for exercise in &session.exercises {
            found.extend(one(athlete, session, exercise, bound));
        }
    }
    found
}

fn one(
    athlete: usize,
    session: &Session,
    exercise: &PlannedExercise,
    bound: &Exact,
) -> Option<Finding> {
    if exercise.compound != Some(true) || is(exercise, &["power", "jump"]) {
        return None;
    }
    let set = heavy_set(exercise)?;
    let what = format!("{} ({})", exercise.name, words::set(set));
    let before = || session.exercises.iter().take_while(|earlier| earlier.order != exercise.order);
    let same = |earlier: &&PlannedExercise| {
        direct(earlier).any(|muscle| direct(exercise).any(|own| own == muscle))
    };
    let tiring = before().filter(|e| e.compound == Some(false) && tires(e)).find(same);
    if let Some(tiring) = tiring {
        let muscle = direct(tiring).find(|m| direct(exercise).any(|own| own == *m)).unwrap_or("");
        let message = format!("{what} comes after {}, which tires the {muscle} first", tiring.name);
        let finding = Finding::exercise(athlete, session, exercise).with(tiring, "done first");
        let help = format!("move {} before {}", exercise.name, tiring.name);
        return Some(finding.says(message, what).help(help).weighs(Exact::one()));
    }
    let lighter: Vec<&PlannedExercise> = before()
        .filter(|e| e.order.letter != exercise.order.letter && e.compound.is_some() && tires(e))
        .filter(|e| heavy_set(e).is_none())
        .collect();
    let count = Exact::whole(i64::try_from(lighter.len()).unwrap_or(i64::MAX));
    let first = lighter.first().filter(|_| count >= *bound)?;
    let message = format!("{what} comes after {} lighter exercises", lighter.len());
    let finding = Finding::exercise(athlete, session, exercise).with(first, "done before it");
    let help = format!("begin with {}: heavy lifts want fresh muscles", exercise.name);
    Some(finding.says(message, what).help(help).weighs(count))
}

/// Whether an exercise tires what it trains; what only prepares does not.
fn tires(exercise: &PlannedExercise) -> bool {
    let prepares = is(exercise, &["brace", "rotate", "jump", "power"])
        || matches!(exercise.equipment, Some(Equipment::Band))
        || exercise.pattern.is_none()
        || (exercise.compound == Some(false)
            && matches!(exercise.equipment, Some(Equipment::BodyMass)));
    !prepares && exercise.working().next().is_some()
}
