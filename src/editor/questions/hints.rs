//! The loads that lines come to, beside them.

use crate::editor::Analysis;
use crate::source::FileId;

/// Whose loads are shown, and of which week.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shown {
    /// The athlete's name; the programme's first, if none is chosen.
    pub athlete: Option<String>,
    /// The week; the first, or a week line's own, if none is chosen.
    pub week: Option<u32>,
}

/// A remark at the end of a line that is not part of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// The byte it stands at.
    pub at: u32,
    /// What it says, such as `Ana w3: 62.5 · 65 kg`.
    pub text: String,
    /// More about it, such as what to put on the bar.
    pub tooltip: Option<String>,
}

/// The loads of a file's lines for one athlete and week, in the order of the lines.
#[must_use]
pub fn inlay_hints(_analysis: &Analysis, _file: FileId, _shown: &Shown) -> Vec<Hint> {
    Vec::new()
}
