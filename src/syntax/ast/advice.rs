//! What a coach makes of advice.

use std::fmt;

use super::Name;
use crate::diagnostics::Severity;
use crate::quantity::Decimal;
use crate::source::Spanned;

/// One `advice:` line.
#[derive(Clone, Debug, PartialEq)]
pub struct AdviceText {
    /// What it says.
    pub what: AdviceChange,
    /// Why.
    pub reason: Option<String>,
}

/// What an `advice:` line changes.
#[derive(Clone, Debug, PartialEq)]
pub enum AdviceChange {
    /// `none`: no advice at all.
    None,
    /// `allow CODE`, or `allow CODE on D1, Lower 1`.
    Allow {
        /// Which advice.
        code: Name,
        /// Order letters, days, exercises, athletes, muscles, weeks; everywhere, if none.
        on: Vec<Name>,
    },
    /// `CODE at 25 sets`, or `CODE at 34 sets on glutes`.
    Bound {
        /// Which advice.
        code: Name,
        /// From where on it is given.
        value: Spanned<Decimal>,
        /// In what.
        unit: Name,
        /// What it is for, as of `allow`; everything, if none.
        on: Vec<Name>,
    },
    /// `CODE as warning`.
    Level {
        /// Which advice.
        code: Name,
        /// How serious it is: a warning or information.
        severity: Severity,
    },
}

impl fmt::Display for AdviceText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.what {
            AdviceChange::None => f.write_str("none")?,
            AdviceChange::Allow { code, on } => {
                write!(f, "allow {code}")?;
                names(f, on)?;
            }
            AdviceChange::Bound { code, value, unit, on } => {
                let space = if unit.value == "%" { "" } else { " " };
                write!(f, "{code} at {value}{space}{unit}")?;
                names(f, on)?;
            }
            AdviceChange::Level { code, severity } => {
                write!(f, "{code} as {}", severity.word())?;
            }
        }
        match &self.reason {
            Some(reason) => write!(f, " ({reason})"),
            None => Ok(()),
        }
    }
}

fn names(f: &mut fmt::Formatter<'_>, on: &[Name]) -> fmt::Result {
    for (index, name) in on.iter().enumerate() {
        f.write_str(if index == 0 { " on " } else { ", " })?;
        write!(f, "{name}")?;
    }
    Ok(())
}
