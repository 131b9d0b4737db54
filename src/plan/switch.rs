//! The coach's decisions about advice: which advice does not apply, and other thresholds.

use schemars::JsonSchema;
use serde::Serialize;

use super::Location;
use crate::diagnostics::Severity;
use crate::quantity::Decimal;

/// One decision about advice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct AdviceSwitch {
    /// The decision.
    #[serde(flatten)]
    pub what: Switch,
    /// Why, in the coach's words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// The line of the decision; `None` if it comes from the command line.
    #[serde(rename = "location", skip_serializing_if = "Option::is_none")]
    pub line: Option<Location>,
}

/// What is decided about advice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "decision", rename_all = "kebab-case")]
pub enum Switch {
    /// No advice at all.
    None,
    /// The advice does not apply.
    Allow {
        /// Name of the advice.
        code: String,
        /// Where: order letters, days, exercises, athletes, muscles or weeks; empty for everywhere.
        on: Vec<String>,
    },
    /// The advice has another threshold.
    Bound {
        /// Name of the advice.
        code: String,
        /// The threshold.
        value: Decimal,
        /// Unit of the threshold.
        unit: String,
        /// What it applies to, as for `allow`; empty for everything.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        on: Vec<String>,
    },
    /// It has another severity.
    Level {
        /// Name of the advice.
        code: String,
        /// How serious it is: a warning or information.
        severity: Severity,
    },
}
