//! Checks for values that are valid but unlikely: a bench press of 900 kg, a rest of 90 minutes.
//!
//! They count as written. Each is reported once, where it is written, with the probable intention as an
//! unsafe fix. All bounds here are wider than sane practice: common practice, no source, unless one is
//! named.

mod amount;
mod athlete;
mod dates;
mod gym;
mod lifts;
mod line;
mod log;
mod max;

use std::sync::Arc;

use crate::catalogue::Exercise;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Exact, Unit};
use crate::source::Span;
use crate::syntax::Document;
use crate::syntax::ast::{Head, Item, MassText, Name, Node};

use super::Definitions;

pub use dates::check as dates;

/// What a check needs to know.
struct Context<'a> {
    definitions: &'a Definitions<'a>,
}

/// Looks at everything that is written, but for dates.
pub fn check(
    documents: &[Arc<Document>],
    definitions: &Definitions<'_>,
    problems: &mut Vec<Diagnostic>,
) {
    let context = Context { definitions };
    for node in documents.iter().flat_map(|document| &document.nodes) {
        context.block(node, problems);
    }
}

impl Context<'_> {
    fn block(&self, node: &Node, problems: &mut Vec<Diagnostic>) {
        let Item::Head(head) = &node.item.value else { return };
        match head {
            Head::Gym(_) => gym::check(&node.children, problems),
            Head::Athlete(name) => self.athlete(name, &node.children, problems),
            Head::Day { .. } => self.day(&node.children, problems),
            Head::Scheme(_) => self.scheme(&node.children, problems),
            Head::Phase { name, sets, load, .. } => {
                line::deload(name, sets.as_ref(), load.as_ref(), problems);
            }
            Head::Log { athlete, .. } => self.log(athlete, &node.children, problems),
            _ => {}
        }
    }

    /// An exercise by its name.
    fn exercise(&self, name: &Name) -> Option<&Exercise> {
        let id = self.definitions.exercise(&name.value)?;
        self.definitions.exercises.get(id.0)
    }
}

/// A doubt about a value.
fn doubt(code: Code, span: Span, message: impl Into<String>) -> Diagnostic {
    Diagnostic::new(code, span, message).help("it is used as written: check the number")
}

/// A mass times a fraction, in its own unit.
fn times(mass: MassText, top: i64, bottom: i64) -> MassText {
    let value = &Exact::from(mass.value) * &Exact::ratio(top, bottom);
    MassText { value: value.to_decimal(3), ..mass }
}

/// The same number in the other unit.
fn other_unit(mass: MassText) -> MassText {
    let unit = match mass.unit {
        Unit::Kg => Unit::Lb,
        Unit::Lb => Unit::Kg,
    };
    MassText { unit, ..mass }
}

/// The first of a few likely slips that gives a mass within sense: the decimal point, then the unit.
fn likely(mass: MassText, sane: impl Fn(MassText) -> bool) -> Option<MassText> {
    let slips = [times(mass, 1, 10), times(mass, 10, 1), other_unit(mass), times(mass, 1, 100)];
    slips.into_iter().find(|slip| sane(*slip))
}
