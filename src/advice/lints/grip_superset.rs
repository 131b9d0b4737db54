//! Two exercises that the grip limits, tied together.
//!
//! In a superset nothing rests between its members. Where both hang on the same hands, the second one
//! trains the grip, not what it is there for: common practice, no source. Members with a rest between
//! (`paired`), circuits and intervals are left alone.

use crate::advice::facts::is_grip_limited;
use crate::advice::lint::{Area, Context, Finding, Lint};
use crate::diagnostics::Code;
use crate::quantity::Exact;

use super::spine_superset::tied;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::GripSuperset,
    title: "two exercises that the grip limits, tied in one superset",
    bound: None,
    source: "common practice, no source",
    area: Area::Session,
    on_sheet: false,
    find,
};

fn find(context: &Context<'_>, _: &Exact) -> Vec<Finding> {
    tied(context, is_grip_limited, "both hang on the grip, with no rest between them")
}
