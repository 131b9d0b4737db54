//! Small helpers for canonical spellings.

use std::fmt;

use super::number::OverWeeks;
use crate::quantity::{Decimal, RepCount};
use crate::source::Spanned;

/// A decimal with its sign always written.
pub struct Signed(pub Decimal);

impl fmt::Display for Signed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", if self.0.digits() < 0 { "" } else { "+" }, self.0)
    }
}

/// The items with a separator between them.
pub fn join<T: fmt::Display>(items: &[T], separator: &str) -> String {
    items.iter().map(ToString::to_string).collect::<Vec<_>>().join(separator)
}

impl<T: fmt::Display> fmt::Display for Spanned<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.value.fmt(f)
    }
}

impl OverWeeks<Spanned<RepCount>> {
    /// Each value with a unit, then the step.
    pub(super) fn show_with(&self, f: &mut fmt::Formatter<'_>, unit: &str) -> fmt::Result {
        let values: Vec<String> =
            self.values.iter().map(|count| format!("{count} {unit}")).collect();
        f.write_str(&values.join(" -> "))?;
        self.step.as_ref().map_or(Ok(()), |step| write!(f, " {step}"))
    }
}
