//! The `notation` line: the version of the notation that a file uses.

use super::LineReader;
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Spanned;
use crate::syntax::NOTATION;
use crate::syntax::ast::{Head, Item, Node};

impl LineReader<'_> {
    /// Whether a line at the margin is allowed after the lines above it. Only a `notation` line can be
    /// wrong: not at the top, repeated, or newer than this program.
    pub(super) fn version_stands(&mut self, item: &Item, above: &[Node]) -> bool {
        let Item::Head(Head::Notation(version)) = item else { return true };
        let earlier = above.iter().find_map(|node| match &node.item.value {
            Item::Head(Head::Notation(first)) => Some(first),
            _ => None,
        });
        let found = match earlier {
            _ if version.value > NOTATION => newer(version),
            Some(first) => {
                Diagnostic::new(Code::RepeatedKey, version.span, "`notation` is written twice")
                    .label("again here")
                    .and(first.span, "first here")
                    .help("keep the first one: a file has one version of the notation")
            }
            None if !above.is_empty() => Diagnostic::new(
                Code::MisplacedLine,
                version.span,
                "`notation` is below other lines",
            )
            .help("move it to the top of the file: only comments may be above it"),
            None => return true,
        };
        self.problems.push(found);
        false
    }
}

fn newer(version: &Spanned<u32>) -> Diagnostic {
    Diagnostic::new(
        Code::NewerNotation,
        version.span,
        format!(
            "this file uses notation {}, but this program reads up to notation {NOTATION}",
            version.value
        ),
    )
    .help(format!(
        "install a newer setwright; or write `notation: {NOTATION}` if the file uses nothing newer \
         than notation {NOTATION}"
    ))
}
