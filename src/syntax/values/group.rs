//! Group lines and warm-up ramps.

use super::prescription::option;
use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Spanned;
use crate::syntax::ast::{GroupOption, GroupText, HowText, OptionText, RampFrom, RampSet};
use crate::syntax::build::{Build, P};
use crate::syntax::grammar::Rule;

pub fn group(build: &mut Build<'_>, value: P<'_>) -> GroupText {
    let mut text = GroupText { how: None, options: Vec::new() };
    for part in value.into_inner() {
        match part.as_rule() {
            Rule::group_how => text.how = build.first(part).and_then(|inner| how(build, inner)),
            Rule::group_option => {
                if let Some(option) = group_option(build, part) {
                    add(build, &mut text.options, option);
                }
            }
            _ => {}
        }
    }
    text
}

/// Adds an option to its group. A repeated option is an error that shows both places.
fn add(
    build: &mut Build<'_>,
    options: &mut Vec<Spanned<GroupOption>>,
    option: Spanned<GroupOption>,
) {
    let kind = |option: &GroupOption| match option {
        GroupOption::Common(inner) => {
            (std::mem::discriminant(option), Some(std::mem::discriminant(inner)))
        }
        _ => (std::mem::discriminant(option), None),
    };
    match options.iter().find(|other| kind(&other.value) == kind(&option.value)) {
        Some(first) => build.problems.push(
            Diagnostic::new(Code::RepeatedKey, option.span, "this option is written twice")
                .label("again here")
                .and(first.span, "first here")
                .help("keep one of the two"),
        ),
        None => options.push(option),
    }
}

fn how(build: &mut Build<'_>, pair: P<'_>) -> Option<HowText> {
    Some(match pair.as_rule() {
        Rule::circuit => {
            let rounds = build.first(pair);
            HowText::Circuit(rounds.map(|n| build.whole(&n, 1, bounds::SETS, "rounds")))
        }
        Rule::every_for => {
            let mut times = pair.into_inner();
            let interval = build.duration(times.next()?);
            HowText::Every(interval, build.duration(times.next()?))
        }
        Rule::rounds_in => HowText::RoundsIn(build.first(pair).map(|t| build.duration(t))?),
        _ => HowText::Paired,
    })
}

fn group_option(build: &mut Build<'_>, pair: P<'_>) -> Option<Spanned<GroupOption>> {
    let span = build.span(&pair);
    let inner = build.first(pair.clone())?;
    let value = match inner.as_rule() {
        Rule::change => GroupOption::Change(build.first(inner).map(|t| build.duration(t))?),
        Rule::alternate => GroupOption::Alternate,
        Rule::as_written => GroupOption::Common(OptionText::AsWritten),
        Rule::with_phase => GroupOption::Common(OptionText::WithPhase),
        // The wrapper has the shape of an option: one child that is the option itself.
        _ => GroupOption::Common(option(build, pair)?.value),
    };
    Some(Spanned::new(value, span))
}

pub fn ramp(build: &mut Build<'_>, value: P<'_>) -> Vec<Spanned<RampSet>> {
    let mut sets = Vec::new();
    for part in value.into_inner().filter(|part| part.as_rule() == Rule::ramp_set) {
        let span = build.span(&part);
        let mut set = RampSet { from: RampFrom::Bar, reps: 1 };
        for inner in part.into_inner() {
            match inner.as_rule() {
                Rule::percent => set.from = RampFrom::Percent(build.percent(inner)),
                Rule::mass => set.from = RampFrom::Mass(build.mass(inner)),
                Rule::whole => set.reps = build.whole(&inner, 1, bounds::REPS, "repetitions"),
                _ => {}
            }
        }
        sets.push(Spanned::new(set, span));
    }
    sets
}
