//! What is remembered of an exercise line from one session to the next.

use crate::quantity::Exact;

/// State of one line of one athlete.
#[derive(Clone, Debug, Default)]
pub struct LineState {
    /// The first group's target in the latest session that no phase lightened: what `last` means.
    pub last: Option<Exact>,
}
