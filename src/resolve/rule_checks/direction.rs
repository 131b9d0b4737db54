//! Rules that point the wrong way: more load after a miss, less after a success, or a huge change.
//!
//! All bounds are common practice, no source.

use super::super::{Comparison, Condition, Quantity, Rule};
use super::{Problem, Use, bounds, last_set};
use crate::diagnostics::{Code, Edit};
use crate::quantity::{Decimal, Exact};
use crate::source::{Sources, Span};
use crate::syntax::ast::{Action, Amount, ChangeBy};

/// From this effort on, a session was hard.
const HARD_RPE: i64 = 8;
/// A rule changes a load or a max by at most so many percent.
const MOST_PERCENT: i64 = 20;
/// `last set < n` is true after every session where `n` is more than this many times what the set asks …
const TIMES_REPS: i64 = 2;
/// … and at least so many more.
const MORE_REPS: i64 = 5;

#[derive(Clone, Copy, PartialEq)]
enum Way {
    Up,
    Down,
}

/// What points the wrong way in a rule of a line: the first thing.
pub fn wrong<'a>(rule: &'a Rule, here: &Use<'a>, sources: &Sources) -> Option<Problem<'a>> {
    let problem = |message, help: &str, fix| Problem {
        rule,
        code: Code::RuleDirection,
        message,
        help: help.to_owned(),
        cause: None,
        fix,
    };
    if let Some((action, way, condition)) = wrong_way(rule, here) {
        let (does, after, help) = match way {
            Way::Up => ("raises", "a session that was missed or too hard", "reduce"),
            Way::Down => ("lowers", "a session that went well", "raise"),
        };
        let thing = match action {
            Action::Reps(_) => "the repetitions",
            Action::Sets(_) => "the sets",
            Action::Max(_) => "the max",
            _ => "the load",
        };
        let span = rule.actions.iter().zip(&rule.action_spans).find(|(own, _)| *own == action);
        let fix = span.and_then(|(_, span)| turned(*span, sources));
        return Some(problem(
            format!("`{action}` {does} {thing} after `{condition}`: {after}"),
            &format!("check the sign and the condition: did you mean to {help} {thing}?"),
            fix,
        ));
    }
    if let Some((action, span, percent)) = too_much(rule) {
        let tenth = (&Exact::from(percent) * &Exact::ratio(1, 10)).to_decimal(2);
        let by = ChangeBy::Amount(Amount::Percent(tenth));
        let word = if matches!(action, Action::Max(_)) { "max" } else { "load" };
        let written = sources.text(span).contains('%');
        let text = format!("{word} {by}");
        return Some(problem(
            format!("`{action}` is a large change for one rule"),
            &format!(
                "most rules change a load or a max by at most {MOST_PERCENT}%: check the number"
            ),
            written.then(|| (format!("change it to `{text}`"), vec![Edit { span, text }])),
        ));
    }
    let (condition, asked) = always(rule, here)?;
    Some(problem(
        format!(
            "`{condition}` is true after every session: the last set asks for {asked} repetitions"
        ),
        "check the number of repetitions",
        None,
    ))
}

/// The action that goes the wrong way, and the condition that says so.
fn wrong_way<'r>(rule: &'r Rule, here: &Use<'_>) -> Option<(&'r Action, Way, &'r Condition)> {
    let ways = || rule.actions.iter().filter_map(way);
    // Fewer sets with more load, or the like, is a plan of its own.
    if ways().any(|way| way == Way::Up) && ways().any(|way| way == Way::Down) {
        return None;
    }
    let before: Vec<&Rule> =
        here.variant.rules.iter().take_while(|other| other.span != rule.span).collect();
    let good = |condition: &Condition| is_good(condition, here, rule, &before);
    let bad = |condition: &Condition| is_bad(condition, here, rule, &before);
    let own = &rule.conditions;
    rule.actions.iter().find_map(|action| {
        let (against, with): (Test<'_>, Vec<bool>) = match way(action)? {
            Way::Up => (&bad, own.iter().map(seems_good).collect()),
            // Repetitions and sets may go down after a success: the load went up before.
            Way::Down if matches!(action, Action::Reps(_) | Action::Sets(_)) => return None,
            Way::Down => (&good, own.iter().map(seems_bad).collect()),
        };
        let condition = own.iter().find(|condition| against(condition))?;
        (!with.contains(&true)).then(|| Some((action, way(action)?, condition)))?
    })
}

/// A question about a condition.
type Test<'a> = &'a dyn Fn(&Condition) -> bool;

fn way(action: &Action) -> Option<Way> {
    match action {
        Action::Load(by) | Action::Reps(by) | Action::Sets(by) | Action::Max(by) => {
            let digits = by.value.number()?.digits();
            (digits != 0).then_some(if digits > 0 { Way::Up } else { Way::Down })
        }
        Action::LoadUpOne => Some(Way::Up),
        Action::LoadDownOne => Some(Way::Down),
        Action::RepsToBottom | Action::MaxFromLastSet | Action::Hold => None,
    }
}

/// Whether a condition may belong to a session that went well.
fn seems_good(condition: &Condition) -> bool {
    use Condition::{AllRepsMade, EverySessions, EveryWeeks, LastSet, Pain, Rpe, TopOfRange};
    match condition {
        LastSet(c, ..) | Rpe(c, _) if *c == Comparison::AtLeast => matches!(condition, LastSet(..)),
        AllRepsMade | TopOfRange | EverySessions(_) | EveryWeeks(_) | Rpe(..) => true,
        Pain(c, _) => *c != Comparison::AtLeast,
        _ => false,
    }
}

/// Whether a condition may belong to a session that went badly, or to a planned deload.
fn seems_bad(condition: &Condition) -> bool {
    use Condition::{AnyRepMissed, EverySessions, EveryWeeks, LastSet, MissedInARow, Pain, Rpe};
    match condition {
        AnyRepMissed | MissedInARow(_) | EverySessions(_) | EveryWeeks(_) => true,
        LastSet(c, ..) => *c != Comparison::AtLeast,
        Rpe(c, _) | Pain(c, _) => *c == Comparison::AtLeast,
        _ => false,
    }
}

fn number(quantity: &Quantity) -> Option<Exact> {
    match quantity {
        Quantity::Number(number) => Some(Exact::from(*number)),
        Quantity::Parameter(_) => None,
    }
}

/// What the last set asks for: the least, in any week.
fn asked(here: &Use<'_>, rule: &Rule) -> Option<i64> {
    here.specs(rule).filter_map(last_set).map(|group| i64::from(bounds(&group.reps.work).0)).min()
}

fn has(rules: &[&Rule], of: impl Fn(&Condition) -> bool) -> bool {
    rules.iter().flat_map(|rule| &rule.conditions).any(of)
}

/// Whether nothing may be raised after this condition.
fn is_bad(condition: &Condition, here: &Use<'_>, rule: &Rule, before: &[&Rule]) -> bool {
    match condition {
        Condition::AnyRepMissed | Condition::MissedInARow(_) => true,
        Condition::Pain(Comparison::AtLeast, n) => number(n).is_some_and(|n| n >= Exact::one()),
        // After a rule for a harder session, this one may be about a session as planned.
        Condition::Rpe(Comparison::AtLeast, n) => {
            number(n).is_some_and(|n| n >= Exact::whole(HARD_RPE))
                && !has(before, |c| matches!(c, Condition::Rpe(..)))
        }
        Condition::LastSet(comparison, n, _) if *comparison != Comparison::AtLeast => {
            let Some((n, least)) = number(n).zip(asked(here, rule)) else { return false };
            let missed = match comparison {
                Comparison::LessThan => n <= Exact::whole(least),
                _ => n < Exact::whole(least),
            };
            // More than the set asks: only where no other rule tells a miss from a success.
            let others: Vec<&Rule> =
                here.variant.rules.iter().filter(|other| other.span != rule.span).collect();
            missed
                || !has(&others, |c| {
                    use Condition::{AllRepsMade, AnyRepMissed, LastSet, MissedInARow};
                    matches!(c, AllRepsMade | AnyRepMissed | LastSet(..) | MissedInARow(_))
                })
        }
        _ => false,
    }
}

/// Whether no load is taken off after this condition.
fn is_good(condition: &Condition, here: &Use<'_>, rule: &Rule, before: &[&Rule]) -> bool {
    // What an earlier rule about effort or pain leaves over may be a session that was hard.
    if has(before, |c| matches!(c, Condition::Rpe(..) | Condition::Pain(..))) {
        return false;
    }
    match condition {
        Condition::AllRepsMade | Condition::TopOfRange => true,
        Condition::Rpe(Comparison::AtMost | Comparison::LessThan, n) => {
            number(n).is_some_and(|n| n <= Exact::whole(HARD_RPE))
        }
        Condition::LastSet(Comparison::AtLeast, n, _) => {
            number(n).zip(asked(here, rule)).is_some_and(|(n, least)| n >= Exact::whole(least))
        }
        _ => false,
    }
}

/// The action with the other sign.
fn turned(span: Span, sources: &Sources) -> Option<(String, Vec<Edit>)> {
    let written = sources.text(span);
    let swap = |from: &str, to: &str| written.contains(from).then(|| written.replacen(from, to, 1));
    let text = swap("+", "-")
        .or_else(|| swap("-", "+"))
        .or_else(|| swap(" up ", " down "))
        .or_else(|| swap(" down ", " up "))?;
    Some((format!("turn it round: `{text}`"), vec![Edit { span, text }]))
}

/// A change of a load or a max by a large percentage.
fn too_much(rule: &Rule) -> Option<(&Action, Span, Decimal)> {
    rule.actions.iter().zip(&rule.action_spans).find_map(|(action, span)| match action {
        Action::Load(by) | Action::Max(by) => match by.value {
            ChangeBy::Amount(Amount::Percent(percent)) => {
                let value = Exact::from(percent);
                let most = Exact::whole(MOST_PERCENT);
                let large = value > most || value < Exact::whole(-MOST_PERCENT);
                large.then_some((action, *span, percent))
            }
            _ => None,
        },
        _ => None,
    })
}

/// `last set < n` with a number that no set reaches.
fn always<'r>(rule: &'r Rule, here: &Use<'_>) -> Option<(&'r Condition, u32)> {
    let most = here
        .specs(rule)
        .filter_map(last_set)
        .map(|group| {
            let (least, most) = bounds(&group.reps.work);
            most.unwrap_or(least)
        })
        .max()?;
    let amrap = here.specs(rule).filter_map(last_set).any(|group| {
        matches!(group.reps.work, crate::quantity::Work::Amrap) || group.rest_pause.is_some()
    });
    if amrap {
        return None;
    }
    let far = |n: &Exact| {
        let asked = i64::from(most);
        *n > Exact::whole(asked.saturating_mul(TIMES_REPS))
            && *n >= Exact::whole(asked.saturating_add(MORE_REPS))
    };
    rule.conditions.iter().find_map(|condition| match condition {
        Condition::LastSet(c, n, None) if *c != Comparison::AtLeast => {
            number(n).filter(far).map(|_| (condition, most))
        }
        _ => None,
    })
}
