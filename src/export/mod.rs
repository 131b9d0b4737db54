//! Export of the plan for other programs.

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

/// The plan as JSON, indented, with a newline at the end. Fields with a unit have it in their name.
/// The order of fields and athletes is fixed, so that two exports can be compared line by line.
///
/// # Errors
/// Those of the writer, if the plan contains something that JSON cannot represent.
pub fn json(plan: &Plan) -> Result<String, serde_json::Error> {
    lines(plan)
}

/// The JSON Schema of [`json`]'s text, in the same format.
///
/// # Errors
/// Those of the writer, which do not occur for a schema.
pub fn plan_schema() -> Result<String, serde_json::Error> {
    lines(&crate::plan::schema())
}

/// A review as JSON, in the same format.
///
/// # Errors
/// Those of the writer, if the review contains something that JSON cannot represent.
pub fn review_json(review: &Review) -> Result<String, serde_json::Error> {
    lines(review)
}

/// The weekly table as JSON, in the same format.
///
/// # Errors
/// Those of the writer, if the table contains something that JSON cannot represent.
pub fn weekly_json(weekly: &Weekly) -> Result<String, serde_json::Error> {
    lines(weekly)
}

/// Any value as JSON, in the same format.
///
/// # Errors
/// Those of the writer, if the value contains something that JSON cannot represent.
pub fn lines(value: &impl serde::Serialize) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(value)?;
    text.push('\n');
    Ok(text)
}
