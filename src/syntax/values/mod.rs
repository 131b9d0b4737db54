//! Values: one function for each kind, from pest's pairs to the tree.

mod advice;
mod catalogue;
mod group;
mod number;
mod prescription;
mod result;
mod rule;

use pest::Parser;

use super::ast::{Condition, Value};
use super::build::{Build, P};
use super::grammar::{LineParser, Rule};
use super::recovery;
use crate::diagnostics::Diagnostic;
use crate::source::{FileId, Span, Spanned};

/// Reads a value by its rule and adds diagnostics to `problems`. `None` if it cannot be read.
pub fn read(
    rule: Rule,
    text: &str,
    file: FileId,
    base: usize,
    problems: &mut Vec<Diagnostic>,
) -> Option<Value> {
    let pair = parse(rule, text, file, base, problems)?;
    let build = &mut Build::new(file, base, problems);
    Some(match rule {
        Rule::prescription_value => Value::Prescription(prescription::prescription(build, pair)),
        Rule::group_value => Value::Group(group::group(build, pair)),
        Rule::ramp_value => Value::Ramp(group::ramp(build, pair)),
        Rule::follow_value => rule::follow(build, pair),
        Rule::amount_value => {
            let amount = build.first(pair)?;
            let value = rule::amount(build, amount.clone())?;
            Value::Amount(build.spanned(&amount, value))
        }
        Rule::actions_value => Value::Actions(rule::actions(build, pair)),
        Rule::advice_value => Value::Advice(advice::advice(build, pair)?),
        Rule::result_value => Value::Result(result::result(build, pair)),
        _ => catalogue::value(build, rule, pair)?,
    })
}

/// Reads the conditions of a rule.
pub fn conditions(
    text: &str,
    file: FileId,
    base: usize,
    problems: &mut Vec<Diagnostic>,
) -> Option<Vec<Spanned<Condition>>> {
    let pair = parse(Rule::conditions_value, text, file, base, problems)?;
    Some(rule::conditions(&mut Build::new(file, base, problems), pair))
}

/// Parses a text with one rule. A failure becomes a diagnostic with the best help available.
pub fn parse<'i>(
    rule: Rule,
    text: &'i str,
    file: FileId,
    base: usize,
    problems: &mut Vec<Diagnostic>,
) -> Option<P<'i>> {
    match LineParser::parse(rule, text) {
        Ok(mut pairs) => pairs.next(),
        Err(error) => {
            let at = Span::new(file, base, base + text.len());
            if rule == Rule::prescription_value {
                problems.extend(recovery::explain_parts(text, at, &error));
            } else {
                problems.push(recovery::explain(rule, text, at, &error));
            }
            None
        }
    }
}
