//! The plan for other programs.

use crate::plan::Plan;

/// The plan as JSON, indented, ending in a newline. Fields are named in the units they carry; the
/// order of fields and athletes is fixed, so that two exports can be compared line by line.
#[must_use]
pub fn json(plan: &Plan) -> String {
    // The plan holds nothing that JSON cannot say: strings, numbers, lists, no maps with odd keys.
    let mut text = serde_json::to_string_pretty(plan).unwrap_or_default();
    text.push('\n');
    text
}
