//! Finds rules that never act: an earlier one is true whenever they are, or they can never be true.

use super::super::{Comparison, Condition, Quantity, Rule};
use super::{Problem, Use, bounds, last_first, last_set};
use crate::diagnostics::Code;
use crate::quantity::{Exact, Work};
use crate::source::Sources;
use crate::syntax::ast::Action;

/// A set of fixed repetitions is not carried on past this many times what it asks for …
const TIMES_REPS: u32 = 2;
/// … and at least so many more. Common practice, no source: the rule of two for two asks for two
/// more.
const MORE_REPS: u32 = 5;

/// What is known of the sets on a line, wherever its rules act.
struct Facts {
    /// The least repetitions that make the last set, in any week.
    least: u32,
    /// No set has a range or an open end: all made is the top of the range.
    fixed: bool,
}

impl Facts {
    fn of(here: &Use<'_>, rule: &Rule) -> Self {
        let last = here.specs(rule).filter_map(last_set);
        let groups = here.specs(rule).flat_map(|spec| &spec.groups);
        Self {
            least: last.map(|group| bounds(&group.reps.work).0).min().unwrap_or(0),
            fixed: groups.map(|group| bounds(&group.reps.work)).all(|(least, most)| {
                // What a set marked `+` has done past its number does not count for the top.
                most.is_none_or(|most| most == least)
            }),
        }
    }
}

/// The rules of a line that never act there.
pub fn dead<'a>(here: &Use<'a>, sources: &Sources) -> Vec<Problem<'a>> {
    let rules = &here.variant.rules;
    let mut found = Vec::new();
    for (index, rule) in rules.iter().enumerate() {
        let problem = |message, help| Problem {
            rule,
            code: Code::RuleNeverActs,
            message,
            help,
            cause: None,
            fix: None,
        };
        if let Some((message, help)) = never_true(rule, here) {
            found.push(problem(message, help));
            continue;
        }
        let facts = Facts::of(here, rule);
        let before = rules.get(..index).unwrap_or(&[]);
        let covering = before.iter().position(|first| covers(first, rule, &facts));
        if let Some((at, first)) = covering.and_then(|at| Some((at, rules.get(at)?))) {
            let is_otherwise = first.conditions.is_empty();
            let why = if is_otherwise {
                "`otherwise` comes before it and always acts".to_owned()
            } else if first.conditions == rule.conditions {
                "an earlier rule has the same condition, and only the first one acts".to_owned()
            } else {
                format!(
                    "whenever it is true, `{}` is also true and comes first",
                    condition_words(first)
                )
            };
            let help = if first.conditions == rule.conditions {
                "delete one of the two, or write both actions after one condition"
            } else {
                "only the first rule that is true acts: put the stricter condition first"
            };
            let same = first.conditions == rule.conditions;
            found.push(Problem {
                cause: Some((first, "this rule acts first")),
                fix: rules
                    .get(at..=index)
                    .and_then(|all| last_first(all, sources))
                    .filter(|_| !same),
                ..problem(format!("`{}` never acts: {why}", rule.text), help.to_owned())
            });
        } else if let Some(first) = counts_anew(rule, rules) {
            found.push(Problem {
                cause: Some((first, "this rule restarts the count of misses")),
                ..problem(
                    format!("`{}` never acts: the count of misses never gets that high", rule.text),
                    "a rule about misses in a row restarts the count: ask for fewer misses, or \
                     remove one of the two rules"
                        .to_owned(),
                )
            });
        }
    }
    found
}

/// The condition in the rule's own words.
fn condition_words(rule: &Rule) -> &str {
    rule.text.split_once(": ").map_or(&*rule.text, |(when, _)| when)
}

/// Whether an earlier rule acts whenever a later one could. An `otherwise` that holds the line as it
/// is does no harm at the end.
fn covers(first: &Rule, rule: &Rule, facts: &Facts) -> bool {
    let harmless = rule.conditions.is_empty() && rule.actions.iter().all(|a| *a == Action::Hold);
    let weeks = match (first.weeks, rule.weeks) {
        (None, _) => true,
        (Some(first), Some(own)) => first.first <= own.first && own.last <= first.last,
        (Some(_), None) => false,
    };
    let met = |condition: &Condition| {
        is_always(condition) || rule.conditions.iter().any(|own| implies(own, condition, facts))
    };
    weeks && !harmless && first.conditions.iter().all(met)
}

fn is_always(condition: &Condition) -> bool {
    match condition {
        Condition::EverySessions(n) | Condition::EveryWeeks(n) => whole(n) == Some(1),
        _ => false,
    }
}

/// Whether one condition holds whenever another does.
fn implies(own: &Condition, other: &Condition, facts: &Facts) -> bool {
    use Condition::{
        AllRepsMade, AnyRepMissed, EverySessions, EveryWeeks, LastSet, MissedInARow, Pain, Rpe,
        TopOfRange,
    };
    if own == other {
        return true;
    }
    match (own, other) {
        (TopOfRange, AllRepsMade) | (MissedInARow(_), AnyRepMissed) => true,
        (AllRepsMade, TopOfRange) => facts.fixed,
        (AnyRepMissed, MissedInARow(n)) => whole(n) == Some(1),
        (MissedInARow(own), MissedInARow(n)) => at_least(own, n),
        (LastSet(own, n, _), LastSet(other, m, None)) => within((*own, n), (*other, m), true),
        (Rpe(own, n), Rpe(other, m)) | (Pain(own, n), Pain(other, m)) => {
            within((*own, n), (*other, m), false)
        }
        (EverySessions(own), EverySessions(n)) | (EveryWeeks(own), EveryWeeks(n)) => {
            whole(own).zip(whole(n)).is_some_and(|(own, n)| n > 0 && own % n == 0)
        }
        // A last set that is made has its least repetitions; one with fewer is missed.
        (AllRepsMade | TopOfRange, LastSet(Comparison::AtLeast, n, None)) => {
            whole(n).is_some_and(|n| n <= i64::from(facts.least))
        }
        (LastSet(Comparison::LessThan, n, _), AnyRepMissed) => {
            whole(n).is_some_and(|n| n <= i64::from(facts.least))
        }
        (LastSet(Comparison::AtMost, n, _), AnyRepMissed) => {
            whole(n).is_some_and(|n| n < i64::from(facts.least))
        }
        _ => false,
    }
}

fn number(quantity: &Quantity) -> Option<Exact> {
    match quantity {
        Quantity::Number(number) => Some(Exact::from(*number)),
        Quantity::Parameter(_) => None,
    }
}

fn whole(quantity: &Quantity) -> Option<i64> {
    match quantity {
        Quantity::Number(number) => number.as_whole(),
        Quantity::Parameter(_) => None,
    }
}

fn at_least(own: &Quantity, other: &Quantity) -> bool {
    number(own).zip(number(other)).is_some_and(|(own, other)| own >= other)
}

/// Whether every number that meets the first comparison meets the second.
fn within(
    own: (Comparison, &Quantity),
    other: (Comparison, &Quantity),
    whole_numbers: bool,
) -> bool {
    let (Some(n), Some(m)) = (number(own.1), number(other.1)) else { return false };
    match (own.0, other.0) {
        (Comparison::AtLeast, Comparison::AtLeast) => n >= m,
        (Comparison::AtMost, Comparison::AtMost)
        | (Comparison::LessThan, Comparison::AtMost | Comparison::LessThan) => {
            // Fewer than six repetitions are five at most.
            n <= m || whole_numbers && own.0 != other.0 && n <= &m + &Exact::one()
        }
        (Comparison::AtMost, Comparison::LessThan) => n < m,
        _ => false,
    }
}

/// Why no session makes a rule's conditions hold.
fn never_true(rule: &Rule, here: &Use<'_>) -> Option<(String, String)> {
    let text = &rule.text;
    let runs = |week: &u32| rule.weeks.is_none_or(|weeks| weeks.contains(*week));
    if rule.weeks.is_some() && !here.weeks.iter().any(runs) {
        return Some((
            format!("`{text}` never acts: all of its weeks are deloads"),
            "rules do not act in a deload: write it for other weeks, or delete it".to_owned(),
        ));
    }
    let facts = Facts::of(here, rule);
    for (index, own) in rule.conditions.iter().enumerate() {
        let later = rule.conditions.get(index + 1..).unwrap_or(&[]);
        if let Some(other) = later.iter().find(|other| exclude(own, other, &facts)) {
            return Some((
                format!("`{text}` never acts: `{own}` and `{other}` cannot both be true"),
                "delete one of the two conditions, or write two rules".to_owned(),
            ));
        }
    }
    let most = here.weeks.len();
    let too_many =
        |n: &Quantity| whole(n).is_some_and(|n| usize::try_from(n).is_ok_and(|n| n > most));
    for condition in &rule.conditions {
        let counted = match condition {
            Condition::MissedInARow(n)
            | Condition::EverySessions(n)
            | Condition::EveryWeeks(n)
            | Condition::LastSet(_, _, Some(n)) => too_many(n),
            _ => false,
        };
        if counted {
            return Some((
                format!("`{text}` never acts: the exercise has only {most} sessions that count"),
                "ask for fewer sessions; sessions of a deload do not count".to_owned(),
            ));
        }
        if let Condition::LastSet(Comparison::AtLeast, n, _) = condition
            && let Some(most) = most_reps(rule, here)
            && whole(n).is_some_and(|n| n > i64::from(most.saturating_mul(TIMES_REPS)))
            && whole(n).is_some_and(|n| n >= i64::from(most + MORE_REPS))
        {
            return Some((
                format!("`{text}` never acts: the last set has only {most} repetitions"),
                format!("mark an open set with `+`, such as `{most}+`, or ask for fewer"),
            ));
        }
    }
    None
}

/// The most repetitions that the last set asks for in any week; none, where it is open or its pauses
/// carry it on.
fn most_reps(rule: &Rule, here: &Use<'_>) -> Option<u32> {
    let mut most = None;
    for group in here.specs(rule).filter_map(last_set) {
        let is_reps = matches!(group.reps.work, Work::Reps(_) | Work::Cluster { .. });
        let top = bounds(&group.reps.work).1.filter(|_| is_reps && group.rest_pause.is_none())?;
        most = most.max(Some(top));
    }
    most
}

/// Whether two conditions cannot hold together.
fn exclude(one: &Condition, other: &Condition, facts: &Facts) -> bool {
    let missed = |c: &Condition| implies(c, &Condition::AnyRepMissed, facts);
    let made = |c: &Condition| implies(c, &Condition::AllRepsMade, facts);
    if missed(one) && made(other) || made(one) && missed(other) {
        return true;
    }
    let (one, other) = match (one, other) {
        (Condition::Rpe(a, n), Condition::Rpe(b, m))
        | (Condition::Pain(a, n), Condition::Pain(b, m))
        | (Condition::LastSet(a, n, _), Condition::LastSet(b, m, _)) => ((*a, n), (*b, m)),
        _ => return false,
    };
    apart(one, other) || apart(other, one)
}

/// Whether the first asks for more than the second allows.
fn apart(low: (Comparison, &Quantity), high: (Comparison, &Quantity)) -> bool {
    let (Some(n), Some(m)) = (number(low.1), number(high.1)) else { return false };
    match (low.0, high.0) {
        (Comparison::AtLeast, Comparison::AtMost) => n > m,
        (Comparison::AtLeast, Comparison::LessThan) => n >= m,
        _ => false,
    }
}

/// A rule about fewer misses in a row, which acts and starts the count again before a rule about
/// more is met; `None` where rules between may let the count go on.
fn counts_anew<'a>(rule: &Rule, rules: &'a [Rule]) -> Option<&'a Rule> {
    let misses = |rule: &Rule| match rule.conditions.as_slice() {
        [Condition::MissedInARow(n)] => whole(n),
        _ => None,
    };
    let own = rule.conditions.iter().find_map(|condition| match condition {
        Condition::MissedInARow(n) => whole(n),
        _ => None,
    })?;
    let at = rules.iter().position(|other| {
        other.weeks.is_none() && misses(other).is_some_and(|n| n > 0 && n < own)
    })?;
    let before = rules.get(..at)?;
    // What comes before it must not act first at the smaller number of misses.
    let waits = |other: &Rule| misses(other).is_some_and(|n| n >= own);
    (before.iter().all(waits)).then(|| rules.get(at)).flatten()
}
