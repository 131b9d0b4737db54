//! Properties of an exercise for advice on order and pairing, derived from pattern, equipment and muscles:
//! common practice, no source. An exercise without such information has none of these properties.

use crate::plan::{Equipment, PlannedExercise, PlannedSet};
use crate::quantity::{Effort, Exact};

/// From this percentage of the 1RM on a set is heavy: strength needs about 80 % and more (ACSM 2026
/// overview of reviews [S2]; the handbook's table 17.9 begins at 85 % [S]).
const HEAVY_PERCENT: i64 = 80;
/// Without a known 1RM: few repetitions, near the limit.
const HEAVY_REPS: u32 = 6;
const HEAVY_RESERVE: i64 = 2;

/// Muscles of the legs and hips.
const LOWER: &[&str] =
    &["quadriceps", "hamstrings", "glutes", "adductors", "abductors", "calves", "shins"];

/// Whether the exercise has this pattern.
pub fn is(exercise: &PlannedExercise, patterns: &[&str]) -> bool {
    exercise.pattern.as_deref().is_some_and(|own| patterns.contains(&own))
}

/// The muscles it trains with a share of one.
pub fn direct(exercise: &PlannedExercise) -> impl Iterator<Item = &str> {
    let whole = exercise.muscles.iter().filter(|m| m.share >= Exact::one());
    whole.map(|m| m.muscle.as_str())
}

/// Whether it uses a muscle at all.
fn uses(exercise: &PlannedExercise, muscle: &str) -> bool {
    exercise.muscles.iter().any(|m| m.muscle == muscle)
}

fn by(exercise: &PlannedExercise, equipment: &[Equipment]) -> bool {
    exercise.equipment.is_some_and(|own| equipment.contains(&own))
}

const FREE_WEIGHT: &[Equipment] = &[
    Equipment::Barbell,
    Equipment::Dumbbells,
    Equipment::Dumbbell,
    Equipment::Kettlebells,
    Equipment::Kettlebell,
];

/// Held by the hands until they open: carries, pulls from the floor, hanging, rows with a free
/// weight. A stack's handle can be let go, so it is none.
pub fn is_grip_limited(exercise: &PlannedExercise) -> bool {
    let held = by(exercise, FREE_WEIGHT) || by(exercise, &[Equipment::BodyMass]);
    let gripped = uses(exercise, "forearms")
        && is(exercise, &["hinge", "carry", "power", "vertical pull", "horizontal pull"]);
    let rows = by(exercise, FREE_WEIGHT)
        && exercise.compound == Some(true)
        && is(exercise, &["horizontal pull", "vertical pull"]);
    held && (gripped || rows)
}

/// Loads the upright or hinged trunk: a bar on the shoulders or overhead, a free weight hinged with
/// or rowed unsupported, a loaded carry.
pub fn is_spinally_loaded(exercise: &PlannedExercise) -> bool {
    let on_shoulders = by(exercise, &[Equipment::Barbell])
        && is(exercise, &["squat", "lunge", "vertical push"])
        && !exercise.needs.iter().any(|need| need == "Landmine");
    let hinged = by(exercise, FREE_WEIGHT)
        && uses(exercise, "lower back")
        && is(exercise, &["hinge", "power", "horizontal pull"]);
    let carried = by(exercise, FREE_WEIGHT) && is(exercise, &["carry"]) && uses(exercise, "traps");
    on_shoulders || hinged || carried
}

/// Trains legs or hips.
pub fn is_lower_body(exercise: &PlannedExercise) -> bool {
    let whole = is(exercise, &["squat", "hinge", "lunge", "jump"]);
    let part = is(exercise, &["isolation", "calf", "power"])
        && direct(exercise).any(|muscle| LOWER.contains(&muscle));
    whole || part
}

/// Trains legs or hips one at a time.
pub fn is_one_sided_lower(exercise: &PlannedExercise) -> bool {
    let sided = exercise.each_side || is(exercise, &["lunge"]);
    sided && is_lower_body(exercise) && !is(exercise, &["calf"])
}

/// Whether a set is heavy: a large share of the 1RM, or few repetitions near the limit.
pub fn is_heavy(set: &PlannedSet) -> bool {
    if let Some(share) = &set.share_of_1rm {
        return *share >= Exact::ratio(HEAVY_PERCENT, 100);
    }
    let few = set.reps.work.least_reps().is_some_and(|reps| reps <= HEAVY_REPS);
    let near = |effort: Effort| effort.in_reserve().to_exact() <= Exact::whole(HEAVY_RESERVE);
    few && set.effort.is_some_and(near)
}

/// The heaviest working set that is heavy.
pub fn heavy_set(exercise: &PlannedExercise) -> Option<&PlannedSet> {
    let heavy = exercise.working().filter(|set| is_heavy(set));
    heavy.reduce(|best, set| if set.share_of_1rm > best.share_of_1rm { set } else { best })
}
