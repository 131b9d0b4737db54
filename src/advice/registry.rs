//! All lints, in the order in which a coach would look at them.

use super::Lint;
use super::lints::{
    avoided_muscle, double_jump, few_weekly_sets, grip_superset, knee_hip_balance, late_compound,
    load_jump, load_off_target, lost_variety, many_weekly_sets, needs_spotter, no_deload,
    no_warm_up, over_time, plate_changes, push_pull_balance, reps_past_percent, same_weekday,
    short_rest, spine_superset, unilateral_legs, untried_intensity, volume_jump, zone_volume,
};

/// Every lint. Within a level and an area, advice is given in this order.
pub const LINTS: &[&Lint] = &[
    // What cannot be done as written, under whose eyes, against whose word
    &reps_past_percent::LINT,
    &needs_spotter::LINT,
    &avoided_muscle::LINT,
    // How a session is put together
    &late_compound::LINT,
    &spine_superset::LINT,
    &no_warm_up::LINT,
    &grip_superset::LINT,
    &plate_changes::LINT,
    &over_time::LINT,
    // Loads: with what, how much, with how much rest
    &load_off_target::LINT,
    &short_rest::LINT,
    &zone_volume::LINT,
    // The balance of a week
    &same_weekday::LINT,
    &unilateral_legs::LINT,
    &push_pull_balance::LINT,
    &knee_hip_balance::LINT,
    &few_weekly_sets::LINT,
    &many_weekly_sets::LINT,
    &lost_variety::LINT,
    // From week to week
    &double_jump::LINT,
    &load_jump::LINT,
    &volume_jump::LINT,
    &no_deload::LINT,
    &untried_intensity::LINT,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostics::Code;

    #[test]
    fn every_advice_has_its_lint_and_every_lint_its_place() {
        let mut of_lints: Vec<&str> = LINTS.iter().map(|lint| lint.code.name()).collect();
        // What is said about the settings themselves comes from no lint.
        of_lints.push(Code::UnusedAllow.name());
        of_lints.sort_unstable();
        let mut of_codes: Vec<&str> = Code::ADVICE.iter().map(|code| code.name()).collect();
        of_codes.sort_unstable();
        assert_eq!(of_lints, of_codes);
        for (before, after) in LINTS.iter().zip(LINTS.iter().skip(1)) {
            assert!(before.area <= after.area, "{} stands too late", after.code.name());
        }
    }
}
