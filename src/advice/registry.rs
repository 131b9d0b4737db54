//! All lints, in the order in which a coach would go through them.

use super::Lint;
use super::lints::{
    grip_superset, late_compound, load_off_target, reps_past_percent, spine_superset,
};

/// Every lint. Within a level and an area, advice is given in this order.
pub const LINTS: &[&Lint] = &[
    // How a session is put together
    &late_compound::LINT,
    &spine_superset::LINT,
    &grip_superset::LINT,
    // Loads
    &reps_past_percent::LINT,
    &load_off_target::LINT,
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
