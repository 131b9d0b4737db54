//! Rules whose actions find nothing to change.

use std::collections::BTreeSet;

use super::super::{ExerciseId, How, Load, PercentBase, Programme, ResolvedMax, Rule};
use super::{Problem, Use, bounds, last_set};
use crate::diagnostics::{Code, Edit};
use crate::quantity::{Decimal, Mass, Work};
use crate::syntax::ast::{Action, Amount, ChangeBy};

/// The lifts whose training max some line uses, or some other max is a share of.
pub fn max_users(programme: &Programme) -> BTreeSet<ExerciseId> {
    let mut used = BTreeSet::new();
    for line in programme.days.iter().flat_map(|day| &day.lines) {
        for variant in line.variants(programme.trainees.len()) {
            for group in variant.weeks.iter().flat_map(|spec| &spec.groups) {
                match group.load {
                    Load::Percent { of: PercentBase::TrainingMax, .. } => {
                        used.insert(line.exercise)
                    }
                    Load::Percent { of: PercentBase::Lift(lift), .. } => used.insert(lift),
                    _ => continue,
                };
            }
        }
    }
    for (max, _) in programme.trainees.iter().flat_map(|trainee| trainee.maxes.values()) {
        if let ResolvedMax::Share { of, .. } = max {
            used.insert(*of);
        }
    }
    used
}

/// What is idle about a rule on a line: the first of its actions that changes nothing.
pub fn idle<'a>(
    rule: &'a Rule,
    here: &Use<'a>,
    used: &BTreeSet<ExerciseId>,
) -> Option<Problem<'a>> {
    let alone = rule.actions.len() == 1;
    for (index, action) in rule.actions.iter().enumerate() {
        // Back to the bottom is harmless beside another action: a scheme may be used with a range
        // and without one.
        if *action == Action::RepsToBottom && !alone {
            continue;
        }
        let Some((why, help)) = useless(action, rule, here, used) else { continue };
        let span = rule.action_spans.get(index);
        let fix = span.and_then(|span| {
            let better = instead(action, here)?;
            let title = format!("change the load: `{better}`");
            Some((title, vec![Edit { span: *span, text: better }]))
        });
        return Some(Problem {
            rule,
            code: Code::RuleWithoutEffect,
            message: format!("`{action}` changes nothing: {why}"),
            help: help.to_owned(),
            cause: None,
            fix,
        });
    }
    None
}

/// A change of the max that was probably meant for the load.
fn instead(action: &Action, here: &Use<'_>) -> Option<String> {
    let Action::Max(by) = action else { return None };
    let stated = here.groups().all(|group| matches!(group.load, Load::Mass { .. }));
    (stated && by.value.number().is_some_and(|n| n.digits() != 0))
        .then(|| Action::Load(by.clone()).to_string())
}

fn useless(
    action: &Action,
    rule: &Rule,
    here: &Use<'_>,
    used: &BTreeSet<ExerciseId>,
) -> Option<(String, &'static str)> {
    let say = |why: &str, help: &'static str| Some((why.to_owned(), help));
    if change_of(action).is_some_and(|by| by.digits() == 0) {
        return say("the change is zero", "write how much to add or take off");
    }
    match action {
        Action::Reps(by) if by.value.is_increase() && !has_range(here) => {
            say("the repetitions have no range", "write a range, such as `3 x 5-8`")
        }
        Action::Reps(by) if !by.value.is_increase() && !raises_reps(here) => say(
            "repetitions only go down as far as a rule has raised them",
            "add a rule with `reps +1`, or reduce sets or load instead",
        ),
        Action::RepsToBottom if !raises_reps(here) => say(
            "no rule raises the repetitions",
            "add a rule with `reps +1`, or change the load as well",
        ),
        Action::Sets(_) => idle_sets(action, here),
        Action::Load(by) if is_share(&by.value) && only_body(here) => say(
            "no load is added to the body mass, so there is nothing to take a percentage of",
            "change `reps` or `sets`, or add a load: `@ bodyweight +5 kg`",
        ),
        Action::Max(_) | Action::MaxFromLastSet => idle_max(action, rule, here, used),
        _ => None,
    }
}

fn change_of(action: &Action) -> Option<Decimal> {
    match action {
        Action::Load(by) | Action::Reps(by) | Action::Sets(by) | Action::Max(by) => {
            by.value.number()
        }
        _ => None,
    }
}

fn is_share(by: &ChangeBy) -> bool {
    matches!(by, ChangeBy::Amount(Amount::Percent(_)))
}

fn has_range(here: &Use<'_>) -> bool {
    here.groups().any(|group| match &group.reps.work {
        Work::Reps(count) => count.max.is_none_or(|max| max > count.min),
        _ => false,
    })
}

/// Whether a rule of the line raises its repetitions.
fn raises_reps(here: &Use<'_>) -> bool {
    let raises = |action: &Action| matches!(action, Action::Reps(by) if by.value.is_increase());
    has_range(here) && here.variant.rules.iter().any(|rule| rule.actions.iter().any(raises))
}

/// Whether the load is the body mass alone in every week, and no rule adds to it.
fn only_body(here: &Use<'_>) -> bool {
    let adds = |action: &Action| match action {
        Action::Load(by) => !is_share(&by.value),
        Action::LoadUpOne | Action::LoadDownOne => true,
        _ => false,
    };
    let bare = here.groups().all(|group| group.load == Load::Bodyweight(Mass::ZERO));
    bare && !here.variant.rules.iter().any(|rule| rule.actions.iter().any(adds))
}

fn idle_sets(action: &Action, here: &Use<'_>) -> Option<(String, &'static str)> {
    let how = here.group.and_then(|group| group.how);
    if matches!(how, Some(How::Circuit(..) | How::Every(..) | How::RoundsIn(_))) {
        return Some((
            "the group's line sets the number of rounds".to_owned(),
            "change the rounds in the group's line",
        ));
    }
    let adds = |action: &Action| matches!(action, Action::Sets(by) if by.value.is_increase());
    let raised = here.variant.rules.iter().any(|rule| rule.actions.iter().any(adds));
    let one = here.groups().all(|group| group.sets.unwrap_or(1) <= 1);
    (!adds(action) && one && !raised).then(|| {
        (
            "there is only one set, and one always remains".to_owned(),
            "write more sets, or reduce the load instead",
        )
    })
}

fn idle_max(
    action: &Action,
    rule: &Rule,
    here: &Use<'_>,
    used: &BTreeSet<ExerciseId>,
) -> Option<(String, &'static str)> {
    let lift = |group: &super::Group| match group.load {
        Load::Percent { of: PercentBase::Lift(lift), .. } => lift,
        _ => here.line.exercise,
    };
    let changed = here.groups().map(lift).chain([here.line.exercise]);
    if !changed.into_iter().any(|lift| used.contains(&lift)) {
        return Some((
            "no load is a percentage of this training max".to_owned(),
            "write the load as a percentage, such as `@ 75%`, or change `load`. `of 1RM` and \
             `@ RPE 8` do not depend on the training max",
        ));
    }
    if *action != Action::MaxFromLastSet {
        return None;
    }
    let mut last = here.specs(rule).filter_map(last_set).peekable();
    last.peek()?;
    let last: Vec<_> = last.collect();
    if last.iter().all(|group| matches!(group.reps.work, Work::Seconds(_) | Work::Metres(_))) {
        return Some((
            "the last set is not counted in repetitions, so no max can be estimated from it"
                .to_owned(),
            "use it on an exercise with repetitions, best with an open set such as `1 x 5+`",
        ));
    }
    let single = |group: &&super::Group| {
        let below = |percent: &Decimal| percent.digits() < 100 * 10_i64.pow(percent.places());
        bounds(&group.reps.work) == (1, Some(1))
            && matches!(&group.load, Load::Percent { percent, .. } if below(percent))
    };
    last.iter().all(single).then(|| {
        (
            "a planned single only shows its own load, which is less than the max".to_owned(),
            "use an open set such as `1 x 3+`, or change the max by a step: `max +2.5 kg`",
        )
    })
}
