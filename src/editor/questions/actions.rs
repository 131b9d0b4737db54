//! What can be done about what is found at a place, each as an edit.

use crate::diagnostics::Code;
use crate::editor::Analysis;
use crate::source::{FileId, Span};

/// Something that can be done to the text at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CodeAct {
    /// What it does, in a few words.
    pub title: String,
    /// Changes of the text; none of them overlap. They may be in several files of the project.
    pub edits: Vec<(Span, String)>,
    /// The one to take where there is nothing to decide.
    pub preferred: bool,
    /// The kind of finding that it answers.
    pub mends: Option<Code>,
}

/// What can be done about the findings that touch a span of a file.
#[must_use]
pub fn actions(analysis: &Analysis, file: FileId, at: Span) -> Vec<CodeAct> {
    let touches = |own: Span| own.file == file && own.start <= at.end && own.end >= at.start;
    let found = analysis.diagnostics.iter().chain(&analysis.advice);
    let mends = found.filter(|found| touches(found.label.span)).filter_map(|found| {
        let mend = found.mend.as_ref()?;
        let title = format!("write `{}`", mend.replacement.trim());
        let edits = vec![(mend.span, mend.replacement.clone())];
        Some(CodeAct { title, edits, preferred: true, mends: Some(found.code) })
    });
    mends.collect()
}
