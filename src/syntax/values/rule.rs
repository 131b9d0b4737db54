//! Rules and schemes.

use super::super::ast::{
    Action, Amount, ChangeBy, Comparison, Condition, Name, OutOfRange, Quantity, Value,
};
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::Decimal;
use crate::source::{Span, Spanned};
use crate::syntax::build::{Build, P, is_negative, signed};
use crate::syntax::grammar::Rule;

/// A scheme and the numbers that the line gives it. A name may contain commas, so only the last parts
/// that can all be read as numbers count as numbers.
pub fn follow(build: &mut Build<'_>, value: P<'_>) -> Value {
    let (text, base) = (value.as_str(), value.as_span().start());
    let mut name: Option<Name> = None;
    let mut arguments = Vec::new();
    for part in value.into_inner() {
        match part.as_rule() {
            Rule::follow_piece => {
                let piece = build.name(&part);
                let end = part.as_span().end() - base;
                name = Some(match name {
                    None => piece,
                    Some(before) => {
                        let text = text.get(..end).unwrap_or("").trim();
                        Spanned::new(text.to_owned(), before.span.to(piece.span))
                    }
                });
                arguments.clear();
            }
            Rule::argument => {
                let mut inner = part.into_inner();
                let parameter = inner.next().map(|p| build.name(&p));
                let amount = inner
                    .next()
                    .and_then(|a| amount(build, a.clone()).map(|value| build.spanned(&a, value)));
                arguments.extend(parameter.zip(amount));
            }
            _ => {}
        }
    }
    name.map_or(Value::Empty, |name| Value::Follow(name, arguments))
}

pub fn amount(build: &mut Build<'_>, pair: P<'_>) -> Option<Amount> {
    let inner = build.first(pair)?;
    Some(match inner.as_rule() {
        Rule::mass => Amount::Mass(build.mass(inner)),
        Rule::percent => Amount::Percent(build.percent(inner)),
        _ => Amount::Number(build.decimal(&inner)),
    })
}

pub fn conditions(build: &mut Build<'_>, value: P<'_>) -> Vec<Spanned<Condition>> {
    let parts = value.into_inner().filter(|part| part.as_rule() == Rule::condition);
    parts
        .filter_map(|part| {
            let span = build.span(&part);
            let value = condition(build, part)?;
            if let Some(wrong) = value.out_of_range() {
                build.problems.push(out_of_range(span, wrong));
            }
            Some(Spanned::new(value, span))
        })
        .collect()
}

fn out_of_range(span: Span, wrong: OutOfRange) -> Diagnostic {
    let found = Diagnostic::new(Code::NumberOutOfRange, span, wrong.message);
    match wrong.meant {
        Some(meant) => {
            let meant = meant.to_string();
            found.help(format!("did you mean `{meant}`?")).guess(span, meant)
        }
        None => found,
    }
}

fn condition(build: &mut Build<'_>, pair: P<'_>) -> Option<Condition> {
    let inner = build.first(pair)?;
    let rule = inner.as_rule();
    let text = inner.as_str();
    let is_pain = text.starts_with("pain");
    let by_weeks = inner.clone().into_inner().any(|p| p.as_rule() == Rule::weeks_word);
    let mut number = Quantity::Number(Decimal::whole(1));
    let mut comparison = Comparison::AtLeast;
    let mut in_a_row = None;
    for part in inner.into_inner() {
        match part.as_rule() {
            Rule::quantity => number = quantity(build, part)?,
            Rule::in_a_row => in_a_row = build.first(part).and_then(|n| quantity(build, n)),
            Rule::comparison => {
                comparison = match build.first(part)?.as_rule() {
                    Rule::at_most => Comparison::AtMost,
                    Rule::less_than => Comparison::LessThan,
                    _ => Comparison::AtLeast,
                };
            }
            _ => {}
        }
    }
    Some(match rule {
        Rule::all_made => Condition::AllRepsMade,
        Rule::top_of_range => Condition::TopOfRange,
        Rule::any_missed => Condition::AnyRepMissed,
        Rule::missed_row => Condition::MissedInARow(number),
        Rule::last_set => Condition::LastSet(comparison, number, in_a_row),
        Rule::rated if is_pain => Condition::Pain(comparison, number),
        Rule::rated => Condition::Rpe(comparison, number),
        Rule::every_count if by_weeks => Condition::EveryWeeks(number),
        _ => Condition::EverySessions(number),
    })
}

fn quantity(build: &mut Build<'_>, pair: P<'_>) -> Option<Quantity> {
    let inner = build.first(pair)?;
    Some(match inner.as_rule() {
        Rule::number => Quantity::Number(build.decimal(&inner)),
        _ => Quantity::Parameter(build.name(&inner)),
    })
}

pub fn actions(build: &mut Build<'_>, value: P<'_>) -> Vec<Spanned<Action>> {
    let parts = value.into_inner().filter(|part| part.as_rule() == Rule::action);
    parts
        .filter_map(|part| {
            let span = build.span(&part);
            action(build, part).map(|value| Spanned::new(value, span))
        })
        .collect()
}

fn action(build: &mut Build<'_>, pair: P<'_>) -> Option<Action> {
    let inner = build.first(pair)?;
    let rule = inner.as_rule();
    let by = build.first(inner).and_then(|change| {
        change_by(build, change.clone()).map(|value| build.spanned(&change, value))
    });
    Some(match rule {
        Rule::load_up => Action::LoadUpOne,
        Rule::load_down => Action::LoadDownOne,
        Rule::load_by => Action::Load(by?),
        Rule::reps_to_bottom => Action::RepsToBottom,
        Rule::reps_by => Action::Reps(by?),
        Rule::sets_by => Action::Sets(by?),
        Rule::max_from_last => Action::MaxFromLastSet,
        Rule::max_by => Action::Max(by?),
        _ => Action::Hold,
    })
}

fn change_by(build: &mut Build<'_>, pair: P<'_>) -> Option<ChangeBy> {
    let negative = is_negative(&pair);
    let what = pair.into_inner().nth(1)?;
    if what.as_rule() == Rule::parameter {
        return Some(ChangeBy::Parameter(!negative, build.name(&what)));
    }
    Some(ChangeBy::Amount(match amount(build, what)? {
        Amount::Mass(mass) => Amount::Mass(crate::syntax::ast::MassText {
            value: signed(mass.value, negative),
            ..mass
        }),
        Amount::Percent(percent) => Amount::Percent(signed(percent, negative)),
        Amount::Number(number) => Amount::Number(signed(number, negative)),
    }))
}
