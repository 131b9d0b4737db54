//! Two exercises that load the upright or hinged trunk, tied together.
//!
//! The handbook pairs exercises so that one recovers while the other works (ch. 17, supersets and
//! circuits); that two lifts which the trunk has to hold do not go together is common practice, no
//! source. Members with a rest between (`paired`), circuits and intervals are left alone.

use crate::advice::facts::is_spinally_loaded;
use crate::advice::lint::{Area, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::{GroupKind, PlannedExercise};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::SpineSuperset,
    title: "two exercises that load the spine, in one superset",
    bound: None,
    source: "Haff & Triplett 2016, Essentials of Strength Training and Conditioning, ch. 17 \
             (one member recovers while the other works); this case is common practice",
    area: Area::Session,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, _: &Exact) -> Vec<Finding> {
    tied(context, is_spinally_loaded, "both load the back, with no rest between them")
}

/// Supersets and giant sets with two members that hold.
pub fn tied(
    context: &LintContext<'_>,
    holds: fn(&PlannedExercise) -> bool,
    why: &str,
) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions() {
        for group in &session.groups {
            if !matches!(group.how, GroupKind::Superset | GroupKind::GiantSet) {
                continue;
            }
            let members = session.exercises.iter().filter(|e| e.order.letter == group.letter);
            let mut members = members.filter(|e| holds(e));
            let (Some(first), Some(second)) = (members.next(), members.next()) else { continue };
            let pair = format!("{} and {}", first.name, second.name);
            let message = format!("{pair} are in one superset: {why}");
            let finding =
                Finding::exercise(athlete, session, second).with(first, "in a superset with this");
            let help = "give one of them its own letter, or pair it with another exercise";
            found.push(finding.message(message, pair).help(help));
        }
    }
    found
}
