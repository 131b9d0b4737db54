//! Diagnostics: what is wrong, where, and what to do. Every stage reports with this type, and every
//! renderer (terminal, JSON, editor) reads it.

mod code;
mod nearest;
mod printable;
mod render;

pub use code::{Code, Severity};
pub use nearest::{nearest, no_such, or_list};
pub use printable::{coloured, printable};
pub use render::{render_json, render_text};

use crate::source::{Sources, Span};

/// A place with a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// The text of the label; may be empty.
    pub text: String,
}

/// One change of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced.
    pub span: Span,
    /// The new text.
    pub text: String,
}

/// A change that fixes the problem.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What it does, in a few words. If there is none, [`Fix::title`] describes the edit.
    pub title: Option<String>,
    /// Whether it can be applied without asking, because it keeps the meaning of the text. A guess at a
    /// typo, or one of several possible intentions, is not safe.
    pub safe: bool,
    /// The changes of the text; they do not overlap.
    pub edits: Vec<Edit>,
}

/// The longest text that a title quotes.
const LONGEST_IN_TITLE: usize = 60;

impl Fix {
    /// What it does, in a few words.
    #[must_use]
    pub fn title(&self, sources: &Sources) -> String {
        match (&self.title, self.edits.as_slice()) {
            (Some(title), _) => title.clone(),
            (None, [edit]) => edit.title(sources),
            _ => "fix it".to_owned(),
        }
    }
}

impl Edit {
    fn title(&self, sources: &Sources) -> String {
        let new = self.text.trim();
        let short =
            |text: &str| !text.is_empty() && text.len() <= LONGEST_IN_TITLE && !text.contains('\n');
        let old = sources.text(self.span).trim();
        match (old.is_empty(), new.is_empty()) {
            (true, true) if self.text.is_empty() => "remove the spaces".to_owned(),
            (true, true) => "fix the indentation".to_owned(),
            (false, true) if short(old) => format!("remove `{old}`"),
            (true, false) if short(new) => format!("add `{new}`"),
            (false, false) if short(old) && short(new) => {
                format!("replace `{old}` with `{new}`")
            }
            (_, false) if short(new) => format!("write `{new}`"),
            _ => "fix it".to_owned(),
        }
    }
}

/// One problem in the coach's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Its code; `setwright explain NAME` prints its page.
    pub code: Code,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// Where.
    pub label: Label,
    /// Other places that matter, such as the first of two definitions.
    pub related: Vec<Label>,
    /// What to do.
    pub help: Option<String>,
    /// What would fix it, the most likely first. Editors offer them.
    pub fixes: Vec<Fix>,
    /// How serious it is, if that differs from the default of its code.
    pub level: Option<Severity>,
    /// The source of the claim behind it.
    pub source: Option<String>,
}

impl Diagnostic {
    /// A diagnostic at a place.
    #[must_use]
    pub fn new(code: Code, span: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            message: message.into(),
            label: Label { span, text: String::new() },
            related: Vec::new(),
            help: None,
            fixes: Vec::new(),
            level: None,
            source: None,
        }
    }

    /// Adds a label at the place.
    #[must_use]
    pub fn label(mut self, text: impl Into<String>) -> Self {
        self.label.text = text.into();
        self
    }

    /// Adds a related place.
    #[must_use]
    pub fn and(mut self, span: Span, text: impl Into<String>) -> Self {
        self.related.push(Label { span, text: text.into() });
        self
    }

    /// Adds a help text.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// Adds a safe fix, which keeps the meaning of the text.
    #[must_use]
    pub fn fix(self, span: Span, text: impl Into<String>) -> Self {
        self.with_fix(span, text.into(), true)
    }

    /// Adds a fix that guesses the intention.
    #[must_use]
    pub fn guess(self, span: Span, text: impl Into<String>) -> Self {
        self.with_fix(span, text.into(), false)
    }

    fn with_fix(mut self, span: Span, text: String, safe: bool) -> Self {
        self.fixes.push(Fix { title: None, safe, edits: vec![Edit { span, text }] });
        self
    }

    /// Adds one of several possible fixes; the coach decides which.
    #[must_use]
    pub fn suggest(mut self, title: impl Into<String>, edits: Vec<Edit>) -> Self {
        if !edits.is_empty() {
            self.fixes.push(Fix { title: Some(title.into()), safe: false, edits });
        }
        self
    }

    /// Suggests the most similar known name with "did you mean" and a fix. If none is similar, lists the
    /// known names.
    #[must_use]
    pub fn did_you_mean<'a>(self, written: &str, known: impl Iterator<Item = &'a str>) -> Self {
        let known: Vec<&str> = known.collect();
        let span = self.label.span;
        match nearest(written, known.iter().copied()) {
            Some(name) => self.help(format!("did you mean `{name}`?")).guess(span, name),
            None if known.is_empty() || self.help.is_some() => self,
            None => {
                let list = or_list(&known);
                self.help(format!("use {list}"))
            }
        }
    }

    /// How serious it is.
    #[must_use]
    pub fn severity(&self) -> Severity {
        self.level.unwrap_or_else(|| self.code.severity())
    }
}

/// Sorts by place, so that the order does not depend on the stage, and removes exact repetitions (from
/// reading the same line for several athletes).
pub fn sort_and_dedup(diagnostics: &mut Vec<Diagnostic>) {
    diagnostics.sort_by(|a, b| {
        (a.label.span, a.code.name(), &a.message).cmp(&(b.label.span, b.code.name(), &b.message))
    });
    diagnostics.dedup();
}

/// Whether any of them is an error.
#[must_use]
pub fn has_errors(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|d| d.severity() == Severity::Error)
}
