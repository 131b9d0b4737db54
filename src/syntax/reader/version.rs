//! The line that says which notation a file is in.

use super::LineReader;
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Spanned;
use crate::syntax::NOTATION;
use crate::syntax::ast::{Head, Item, Node};

impl LineReader<'_> {
    /// Whether a line at the margin may stand below those above it: all may but a `notation` that
    /// comes late, comes again, or is newer than what is read here.
    pub(super) fn version_stands(&mut self, item: &Item, above: &[Node]) -> bool {
        let Item::Head(Head::Notation(version)) = item else { return true };
        let earlier = above.iter().find_map(|node| match &node.item.value {
            Item::Head(Head::Notation(first)) => Some(first),
            _ => None,
        });
        let found = match earlier {
            _ if version.value > NOTATION => newer(version),
            Some(first) => {
                Diagnostic::new(Code::RepeatedKey, version.span, "`notation` stands here twice")
                    .label("again here")
                    .and(first.span, "first here")
                    .help("keep the first of the two: a file is in one notation")
            }
            None if !above.is_empty() => Diagnostic::new(
                Code::MisplacedLine,
                version.span,
                "`notation` stands below other lines",
            )
            .help("put it above everything but comments: it says how the whole file is read"),
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
            "this file is written in notation {}; this program reads {NOTATION}",
            version.value
        ),
    )
    .help(format!(
        "install a newer setwright; or, if the file uses nothing that came after notation \
         {NOTATION}, write `notation: {NOTATION}`"
    ))
}
