//! The fixed words of the catalogue: movement patterns and muscles. Trade terms.

/// Movement patterns.
pub const PATTERNS: &[&str] = &[
    "squat",
    "hinge",
    "lunge",
    "horizontal push",
    "horizontal pull",
    "vertical push",
    "vertical pull",
    "carry",
    "brace",
    "rotate",
    "calf",
    "isolation",
    "jump",
    "power",
];

/// Muscles and muscle groups, as a coach counts them.
pub const MUSCLES: &[&str] = &[
    "quadriceps",
    "hamstrings",
    "glutes",
    "adductors",
    "abductors",
    "calves",
    "shins",
    "hip flexors",
    "lower back",
    "upper back",
    "lats",
    "traps",
    "chest",
    "front delts",
    "side delts",
    "rear delts",
    "rotator cuff",
    "biceps",
    "triceps",
    "forearms",
    "abs",
    "obliques",
    "neck",
];
