//! Comparing: nothing with itself, the mirror the other way round, and no meaning in spelling.

use proptest::prelude::*;
use serde_json::Value;
use setwright::compare::{Comparison, Sides, compare, digest, summary, text};
use setwright::diagnostics::has_errors;
use setwright::plan::Plan;
use setwright::source::FileId;
use setwright::syntax::{format, parse};

use super::generate::{Made, streams};
use super::support::{cases, compiled};

fn plan_of(text: &str) -> Option<Plan> {
    let compiled = compiled(text);
    if has_errors(&compiled.diagnostics) { None } else { compiled.plan }
}

fn compared(old: &Plan, new: &Plan) -> Comparison {
    compare(&Sides { before: Some(old), after: Some(new) })
}

/// Both sides turned round; lists in an order that does not depend on the side.
fn settled(value: Value, turn: bool) -> Value {
    match value {
        Value::Object(fields) => {
            let named = fields.into_iter().map(|(name, value)| {
                let name = match name.as_str() {
                    "before" if turn => "after".to_owned(),
                    "after" if turn => "before".to_owned(),
                    _ => name,
                };
                (name, settled(value, turn))
            });
            Value::Object(named.collect())
        }
        Value::Array(items) => {
            let mut items: Vec<Value> = items.into_iter().map(|v| settled(v, turn)).collect();
            items.sort_by_key(ToString::to_string);
            Value::Array(items)
        }
        other => other,
    }
}

fn json(comparison: &Comparison, turn: bool) -> Value {
    settled(serde_json::to_value(comparison).unwrap(), turn)
}

proptest! {
    #![proptest_config(proptest::test_runner::Config { max_shrink_iters: 100, ..cases(40) })]

    #[test]
    fn a_plan_does_not_differ_from_itself(stream in streams(), hand in streams()) {
        let made = Made::new(&stream);
        let tidy = made.text();
        let Some(plan) = plan_of(&tidy) else { return Ok(()) };
        prop_assert!(compared(&plan, &plan).is_empty(), "{}", tidy);
        // However hastily it is written, and put into the canonical form.
        let (hasty, _) = made.loose(&hand);
        let formatted = format(&parse(&hasty, FileId(0)).0, &hasty).unwrap();
        for other in [hasty, formatted] {
            let Some(other_plan) = plan_of(&other) else { continue };
            let found = compared(&plan, &other_plan);
            prop_assert!(found.is_empty(), "{}\nagainst\n{}\n{}", tidy, other, text(&found, true));
            prop_assert_eq!(digest(&plan), digest(&other_plan));
        }
    }

    /// A few choices of the same programme made otherwise.
    #[test]
    fn the_other_way_round_is_the_mirror(
        stream in streams(),
        edits in proptest::collection::vec((any::<prop::sample::Index>(), any::<u16>()), 1..6),
    ) {
        let mut other = stream.clone();
        for (at, choice) in edits {
            if !other.is_empty() {
                let at = at.index(other.len());
                other[at] = choice;
            }
        }
        let (a, b) = (Made::new(&stream).text(), Made::new(&other).text());
        let (Some(old), Some(new)) = (plan_of(&a), plan_of(&b)) else { return Ok(()) };
        let (there, back) = (compared(&old, &new), compared(&new, &old));
        prop_assert_eq!(json(&there, false), json(&back, true), "{}\nagainst\n{}", a, b);
        // Whatever changed can be told.
        for one in [&there, &back] {
            prop_assert_eq!(text(one, false).contains("nothing changed"), one.is_empty());
            prop_assert!(summary(one).lines().count() > 0);
        }
    }
}
