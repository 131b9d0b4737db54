//! One lint a file. Each says where its claim and its number come from.

pub mod avoided_muscle;
pub mod double_jump;
pub mod few_weekly_sets;
pub mod grip_superset;
pub mod knee_hip_balance;
pub mod late_compound;
pub mod load_jump;
pub mod load_off_target;
pub mod lost_variety;
pub mod many_weekly_sets;
pub mod needs_spotter;
pub mod no_deload;
pub mod no_warm_up;
pub mod over_time;
pub mod plate_changes;
pub mod push_pull_balance;
pub mod reps_past_percent;
pub mod same_weekday;
pub mod short_rest;
pub mod spine_superset;
pub mod unilateral_legs;
pub mod untried_intensity;
pub mod volume_jump;
pub mod zone_volume;
