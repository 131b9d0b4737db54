//! The plan's JSON, written a few athletes at a time.

use serde::ser::Error;

use crate::plan::Plan;

use super::json;

/// The end of a plan with athletes, and of a plan without.
const END: &str = "\n  ]\n}\n";
const END_OF_NONE: &str = "]\n}\n";

/// Writes the same text as [`json`] in parts, so that a squad's plan is never held in memory.
pub struct JsonParts {
    /// The text before the first athlete.
    head: String,
    begun: bool,
}

impl JsonParts {
    /// Starts with the plan without its athletes, which are its last field.
    ///
    /// # Errors
    /// Those of the writer.
    pub fn begin(head: &Plan) -> Result<Self, serde_json::Error> {
        let none = Plan { athletes: Vec::new(), ..head.clone() };
        let head = json(&none)?.strip_suffix(END_OF_NONE).map(str::to_owned);
        let head = head.ok_or_else(|| serde_json::Error::custom("athletes are no last field"))?;
        Ok(Self { head, begun: false })
    }

    /// The text of some athletes, including the text that precedes them.
    ///
    /// # Errors
    /// Those of the writer.
    pub fn add(&mut self, part: &Plan) -> Result<String, serde_json::Error> {
        if part.athletes.is_empty() {
            return Ok(String::new());
        }
        let text = json(part)?;
        let body = text.strip_prefix(self.head.as_str()).and_then(|text| text.strip_suffix(END));
        let body = body.ok_or_else(|| serde_json::Error::custom("a part of another plan"))?;
        let before = if std::mem::replace(&mut self.begun, true) { "," } else { &self.head };
        Ok(format!("{before}{body}"))
    }

    /// The end of the text.
    #[must_use]
    pub fn end(self) -> String {
        if self.begun { END.to_owned() } else { format!("{}{END_OF_NONE}", self.head) }
    }
}
