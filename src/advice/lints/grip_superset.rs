//! Two exercises that the grip limits, tied together.
//!
//! In a superset nothing rests between its members. Where both hang on the same hands, the second one
//! trains the grip, not what it is there for: common practice, no source. Members with a rest between
//! (`paired`), circuits and intervals are left alone, and so is a
//! pair that loads the back as well: that is another advice, and the more serious one.

use crate::advice::facts::{is_grip_limited, is_spinally_loaded};
use crate::advice::lint::{Area, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::quantity::Exact;

use super::spine_superset::tied;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::GripSuperset,
    title: "two exercises that the grip limits, in one superset",
    bound: None,
    source: "common practice, no source",
    area: Area::Session,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, _: &Exact) -> Vec<Finding> {
    let both = "both are limited by the grip, with no rest between them";
    let mut found = tied(context, is_grip_limited, both);
    // A pair is told once: what the back has to hold counts for more.
    let on_the_back = tied(context, is_spinally_loaded, "");
    found.retain(|grip| {
        let same = |back: &Finding| {
            (back.athlete, &back.weeks, &back.day, &back.orders)
                == (grip.athlete, &grip.weeks, &grip.day, &grip.orders)
        };
        !on_the_back.iter().any(same)
    });
    found
}
