//! Finds the scheme that a `follow` line names.

use super::definitions::{Definitions, SchemeText};
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::ast::{Argument, Name, longest_names};
use crate::syntax::reads_as_arguments;

impl<'d> Definitions<'d> {
    /// The scheme that a line follows, and the line's own numbers for it. The longest run of pieces
    /// between commas that is a name is taken.
    pub(super) fn followed<'n>(
        &self,
        name: &Name,
        arguments: &'n [Argument],
        programme: usize,
    ) -> Option<(&SchemeText<'d>, &'n [Argument])> {
        longest_names(name, arguments).find_map(|(name, rest)| {
            self.scheme(&name.value, programme).map(|scheme| (scheme, rest))
        })
    }

    /// The same; what is wrong is reported.
    pub(super) fn known_followed<'n>(
        &self,
        name: &Name,
        arguments: &'n [Argument],
        programme: usize,
        problems: &mut Vec<Diagnostic>,
    ) -> Option<(&SchemeText<'d>, &'n [Argument])> {
        let found = self.followed(name, arguments, programme);
        if found.is_some() {
            return found;
        }
        if let Some((scheme, inner)) = in_brackets(&name.value) {
            let fixed = format!("{scheme}, {inner}");
            problems.push(
                Diagnostic::new(
                    Code::BadRule,
                    name.span,
                    "write the numbers for a scheme after a comma, not in brackets",
                )
                .help(format!("write `{fixed}`"))
                .fix(name.span, fixed),
            );
            let scheme = self.known_scheme(&start_of(name, scheme), programme, problems)?;
            return Some((scheme, &[]));
        }
        // `Small jumps, jmp`: the scheme is known, what follows it does not read.
        let known = name.value.match_indices(',').rev().find_map(|(at, _)| {
            let scheme = name.value.get(..at)?.trim_end();
            self.scheme(scheme, programme).map(|found| (found, scheme, at + 1))
        });
        if let Some((found, scheme, after)) = known {
            problems.push(unread(name, scheme, after));
            return Some((found, &[]));
        }
        let found = self.known_scheme(name, programme, problems)?;
        Some((found, arguments))
    }
}

/// The scheme and the numbers of `Small jumps (jump 2 kg)`.
fn in_brackets(text: &str) -> Option<(&str, &str)> {
    let (scheme, inner) = text.strip_suffix(')')?.rsplit_once('(')?;
    let (scheme, inner) = (scheme.trim(), inner.trim());
    (!scheme.is_empty() && reads_as_arguments(inner)).then_some((scheme, inner))
}

/// The first part of a name.
fn start_of(name: &Name, text: &str) -> Name {
    let start = name.span.start as usize;
    Name::new(text.to_owned(), Span::new(name.span.file, start, start + text.len()))
}

/// What follows a scheme's name and is no parameter with its value; it starts at byte `after`.
fn unread(name: &Name, scheme: &str, after: usize) -> Diagnostic {
    let rest = name.value.get(after..).unwrap_or("");
    let lead = rest.len() - rest.trim_start().len();
    let start = name.span.start as usize + after + lead;
    let rest = rest.trim();
    let at = Span::new(name.span.file, start, start + rest.len());
    Diagnostic::new(
        Code::BadRule,
        at,
        format!("cannot read `{rest}` as a number for the scheme `{scheme}`"),
    )
    .help(format!("write the parameter and its value: `{scheme}, jump 2.5 kg`"))
}
