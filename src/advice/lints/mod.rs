//! One lint a file. Each says where its claim and its number come from.

pub mod grip_superset;
pub mod late_compound;
pub mod load_off_target;
pub mod reps_past_percent;
pub mod spine_superset;
