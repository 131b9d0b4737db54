//! The built-in exercises: one file a family in `library/`, read as one text.

/// Puts the families together, in the order given, with a blank line between.
macro_rules! families {
    ($first:literal $(, $more:literal)* $(,)?) => {
        concat!(include_str!($first) $(, "\n", include_str!($more))*)
    };
}

/// The exercises that are always there, in the notation itself.
pub const LIBRARY: &str = families![
    "library/squat.sets",
    "library/hinge.sets",
    "library/lunge.sets",
    "library/horizontal-push.sets",
    "library/vertical-push.sets",
    "library/horizontal-pull.sets",
    "library/vertical-pull.sets",
    "library/carry.sets",
    "library/brace.sets",
    "library/rotate.sets",
    "library/calf.sets",
    "library/leg-isolation.sets",
    "library/arm-isolation.sets",
    "library/jump.sets",
    "library/power.sets",
];
/// The name under which the built-in exercises appear as a file.
pub const LIBRARY_NAME: &str = "built-in library";
