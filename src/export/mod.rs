//! The plan for other programs.

use crate::plan::Plan;

/// The plan as JSON, indented, ending in a newline. Fields are named in the units they carry; the
/// order of fields and athletes is fixed, so that two exports can be compared line by line.
///
/// # Errors
/// The writer's, when the plan holds something that JSON cannot say.
pub fn json(plan: &Plan) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(plan)?;
    text.push('\n');
    Ok(text)
}
