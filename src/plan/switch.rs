//! What a coach makes of advice: which pieces do not apply, and where others begin.

use schemars::JsonSchema;
use serde::Serialize;

use super::Location;
use crate::diagnostics::Severity;
use crate::quantity::Decimal;

/// One decision about advice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct AdviceSwitch {
    /// What is decided.
    #[serde(flatten)]
    pub what: Switch,
    /// Why, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// The line that says so; `None` for the command line.
    #[serde(rename = "source", skip_serializing_if = "Option::is_none")]
    pub line: Option<Location>,
}

/// What is decided about advice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "decision", rename_all = "kebab-case")]
pub enum Switch {
    /// No advice at all.
    None,
    /// It does not apply.
    Allow {
        /// The advice's name.
        code: String,
        /// Where: order letters, days, exercises, athletes, muscles, weeks; everywhere, if none.
        on: Vec<String>,
    },
    /// It is given from another number on.
    Bound {
        /// The advice's name.
        code: String,
        /// The number.
        value: Decimal,
        /// Its unit.
        unit: String,
        /// What it is for, as of `allow`; everything, if none.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        on: Vec<String>,
    },
    /// It has another severity.
    Level {
        /// The advice's name.
        code: String,
        /// How serious it is: a warning or information.
        severity: Severity,
    },
}
