//! What is wrong, where, and what to do: the type that every stage reports with and every
//! renderer (terminal, JSON, editor) reads.

mod code;
mod nearest;
mod printable;
mod render;

pub use code::{Code, Severity};
pub use nearest::{nearest, no_such, or_list};
pub use printable::{coloured, printable};
pub use render::{render_json, render_text};

use crate::source::Span;

/// A place with a remark.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// The remark; may be empty.
    pub text: String,
}

/// A change of the text that would mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What is replaced.
    pub span: Span,
    /// By what.
    pub replacement: String,
}

/// One of several things to do about it: which, the coach decides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What it does, in a few words.
    pub title: String,
    /// The changes of the text; they do not overlap.
    pub edits: Vec<Mend>,
}

/// One finding about the coach's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Which kind of finding: its page is `setwright explain NAME`.
    pub code: Code,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// Where.
    pub label: Label,
    /// Other places that matter, such as the first of two definitions.
    pub others: Vec<Label>,
    /// What to do.
    pub help: Option<String>,
    /// A change that would mend it.
    pub mend: Option<Mend>,
    /// Things to choose from, the closest first. Editors offer them; `help` says them.
    pub choices: Vec<Choice>,
    /// How serious it is, where that is not what its kind says.
    pub level: Option<Severity>,
    /// Where the claim behind it comes from.
    pub source: Option<String>,
}

impl Diagnostic {
    /// A finding at a place.
    #[must_use]
    pub fn new(code: Code, span: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            message: message.into(),
            label: Label { span, text: String::new() },
            others: Vec::new(),
            help: None,
            mend: None,
            choices: Vec::new(),
            level: None,
            source: None,
        }
    }

    /// With a remark at the place.
    #[must_use]
    pub fn label(mut self, text: impl Into<String>) -> Self {
        self.label.text = text.into();
        self
    }

    /// With another place.
    #[must_use]
    pub fn and(mut self, span: Span, text: impl Into<String>) -> Self {
        self.others.push(Label { span, text: text.into() });
        self
    }

    /// With what to do.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// With a change that would mend it.
    #[must_use]
    pub fn mend(mut self, span: Span, replacement: impl Into<String>) -> Self {
        self.mend = Some(Mend { span, replacement: replacement.into() });
        self
    }

    /// With something to choose.
    #[must_use]
    pub fn choice(mut self, title: impl Into<String>, edits: Vec<Mend>) -> Self {
        if !edits.is_empty() {
            self.choices.push(Choice { title: title.into(), edits });
        }
        self
    }

    /// Names the nearest of the names there are: "did you mean", with a mend; without a near one,
    /// lists what there is.
    #[must_use]
    pub fn did_you_mean<'a>(self, written: &str, known: impl Iterator<Item = &'a str>) -> Self {
        let known: Vec<&str> = known.collect();
        let span = self.label.span;
        match nearest(written, known.iter().copied()) {
            Some(name) => self.help(format!("did you mean `{name}`?")).mend(span, name),
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

/// Sorts by place, so that the order does not depend on which stage found what, and drops exact
/// repetitions (the same line read for several athletes).
pub fn tidy(diagnostics: &mut Vec<Diagnostic>) {
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
