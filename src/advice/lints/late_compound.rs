//! A heavy compound after isolation for the same muscles, or late in the session.
//!
//! What is done first is trained with the most: multi-joint exercises gain more strength when they
//! come first (Simão et al. 2012, Sports Med 42(3):251–265; Nunes et al. 2021, Eur J Sport Sci
//! 21(2):149–157: effect size 0.32, growth no different [S]). The handbook's order is power, then
//! other core, then assistance exercises. How many lighter exercises make it late is common practice,
//! no source. So is that a muscle which only helps, such as the biceps in a row, should not be spent
//! just before: said where at most one exercise comes between, and the compound is heavy or goes to
//! the last repetition but one. Jumps and lifts for power are left alone, and so are trunk exercises and bands before
//! a lift: they prepare for it.

use crate::advice::facts::{direct, heavy_set, is};
use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, PlannedExercise, PlannedSet, Session};
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

/// A muscle helps from this share of the work on: half, as the exercises of the library have it.
const HELPS_PERCENT: i64 = 50;
/// So many exercises between an isolation and a compound let a muscle that helps recover no more
/// than their own rest does.
const BETWEEN: usize = 1;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions().filter(|(.., session)| !session.deload) {
        for exercise in &session.exercises {
            found.extend(finding(athlete, session, exercise, bound));
        }
    }
    found
}

fn finding(
    athlete: usize,
    session: &Session,
    exercise: &PlannedExercise,
    bound: &Exact,
) -> Option<Finding> {
    if exercise.compound != Some(true) || is(exercise, &["power", "jump"]) {
        return None;
    }
    let heavy = heavy_set(exercise);
    let set = heavy.or_else(|| exercise.working().find(|set| is_near_limit(set)))?;
    let share = set.share_of_1rm.clone();
    let what = format!("{} ({})", exercise.name, words::set(set));
    let earlier: Vec<&PlannedExercise> =
        session.exercises.iter().take_while(|other| other.order != exercise.order).collect();
    let spent = earlier
        .iter()
        .rev()
        .enumerate()
        .filter(|(_, e)| e.compound == Some(false) && tires(e))
        .filter_map(|(between, e)| Some((*e, shared(e, exercise, heavy.is_some(), between)?)))
        .next_back();
    if let Some((tiring, muscle)) = spent {
        let message = format!("{what} comes after {}, which tires the {muscle} first", tiring.name);
        let finding = Finding::exercise(athlete, session, exercise).with(tiring, "done first");
        let help = format!("move {} before {}", exercise.name, tiring.name);
        let finding = finding.message(message, what).help(help).weighs(Exact::one());
        return Some(finding.then_by(share));
    }
    heavy?;
    let lighter: Vec<&&PlannedExercise> = earlier
        .iter()
        .filter(|e| e.order.letter != exercise.order.letter && e.compound.is_some() && tires(e))
        .filter(|e| heavy_set(e).is_none())
        .collect();
    let count = Exact::whole(i64::try_from(lighter.len()).unwrap_or(i64::MAX));
    let first = lighter.first().filter(|_| count >= *bound)?;
    let message = format!("{what} comes after {} lighter exercises", lighter.len());
    let finding = Finding::exercise(athlete, session, exercise).with(first, "done before it");
    let help = format!("start with {}: heavy lifts need fresh muscles", exercise.name);
    Some(finding.message(message, what).help(help).weighs(count).then_by(share))
}

/// A muscle that an isolation tires for a compound: one that the compound trains directly, where
/// that is heavy; or one that helps in it, where little comes between them.
fn shared<'e>(
    isolation: &'e PlannedExercise,
    compound: &PlannedExercise,
    heavy: bool,
    between: usize,
) -> Option<&'e str> {
    let whole = direct(isolation).find(|muscle| direct(compound).any(|own| own == *muscle));
    let helps = |muscle: &&str| {
        let half = Exact::ratio(HELPS_PERCENT, 100);
        compound.muscles.iter().any(|own| own.muscle == *muscle && own.share >= half)
            && !direct(compound).any(|own| own == *muscle)
    };
    whole.filter(|_| heavy).or_else(|| direct(isolation).find(helps).filter(|_| between <= BETWEEN))
}

/// Whether a set is done to the last repetition or nearly so.
fn is_near_limit(set: &PlannedSet) -> bool {
    set.effort.is_some_and(|effort| effort.in_reserve().to_exact() <= Exact::one())
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
