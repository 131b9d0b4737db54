//! How heavy a max may be, by itself and beside the athlete's other lifts.

use crate::catalogue::Exercise;
use crate::quantity::Mass;
use crate::syntax::ast::EquipmentKind;

/// The lightest max of a compound lift with a bar that is not doubted: the lightest usual bar.
const LEAST_BAR: Mass = Mass::from_kg(15);

/// The heaviest max of an exercise that is not doubted. With a bar it is a little above the heaviest
/// raw lifts on record (from memory: squat 490 kg, deadlift 501, bench press 355, clean and jerk 267).
pub fn most(exercise: &Exercise) -> Mass {
    let kg = match exercise.equipment.first().map(|item| item.kind) {
        Some(EquipmentKind::Barbell) => match exercise.pattern.as_deref() {
            Some("horizontal push") => 360,
            Some("vertical push") => 260,
            Some("power") => 300,
            _ => 550,
        },
        Some(
            EquipmentKind::Dumbbell
            | EquipmentKind::Dumbbells
            | EquipmentKind::Kettlebell
            | EquipmentKind::Kettlebells,
        ) => 150,
        _ => 1_000,
    };
    Mass::from_kg(kg)
}

/// The lightest max of an exercise that is not doubted.
pub fn least(exercise: &Exercise) -> Mass {
    if is_bar_lift(exercise) && exercise.compound == Some(true) { LEAST_BAR } else { Mass::ZERO }
}

/// Whether it is done with a bar first of all.
pub fn is_bar_lift(exercise: &Exercise) -> bool {
    exercise.equipment.first().is_some_and(|item| item.kind == EquipmentKind::Barbell)
}

/// A pair of lifts, and between how many percent of the second the first lies. The bounds are wide:
/// common practice, no source.
pub struct Pair {
    pub lift: &'static str,
    pub of: &'static str,
    pub percent: (i64, i64),
}

pub const PAIRS: &[Pair] = &[
    Pair { lift: "Front squat", of: "Back squat", percent: (45, 125) },
    Pair { lift: "Bench press", of: "Back squat", percent: (25, 110) },
    Pair { lift: "Deadlift", of: "Back squat", percent: (74, 200) },
    Pair { lift: "Romanian deadlift", of: "Deadlift", percent: (30, 125) },
    Pair { lift: "Overhead press", of: "Bench press", percent: (30, 100) },
    Pair { lift: "Incline bench press", of: "Bench press", percent: (40, 130) },
];
