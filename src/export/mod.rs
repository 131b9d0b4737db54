//! The plan for other programs.

mod cell;
mod csv;
mod ics;
mod parts;
mod sets;

use crate::history::Review;
use crate::plan::Plan;
use crate::tally::Weekly;

pub use csv::weekly_csv;
pub use ics::{NoDates, calendar, undated_days, weekday_wanted};
pub use parts::JsonParts;
pub use sets::{SET_COLUMNS, SetColumn, sets_csv, sets_rows};

/// The plan as JSON, indented, ending in a newline. Fields are named in the units they carry; the
/// order of fields and athletes is fixed, so that two exports can be compared line by line.
///
/// # Errors
/// The writer's, when the plan holds something that JSON cannot say.
pub fn json(plan: &Plan) -> Result<String, serde_json::Error> {
    lines(plan)
}

/// The JSON Schema of [`json`]'s text, by the same rules.
///
/// # Errors
/// The writer's; a schema holds nothing that JSON cannot say.
pub fn plan_schema() -> Result<String, serde_json::Error> {
    lines(&crate::plan::schema())
}

/// A review as JSON, by the same rules.
///
/// # Errors
/// The writer's, when the review holds something that JSON cannot say.
pub fn review_json(review: &Review) -> Result<String, serde_json::Error> {
    lines(review)
}

/// The weekly table as JSON, by the same rules.
///
/// # Errors
/// The writer's, when the table holds something that JSON cannot say.
pub fn weekly_json(weekly: &Weekly) -> Result<String, serde_json::Error> {
    lines(weekly)
}

/// Anything as JSON, by the same rules.
///
/// # Errors
/// The writer's, when the value holds something that JSON cannot say.
pub fn lines(value: &impl serde::Serialize) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(value)?;
    text.push('\n');
    Ok(text)
}
