//! Warnings about rules that never act, change nothing or point the wrong way (`direction`).
//!
//! Only the first rule whose condition is true acts. So a rule is dead if an earlier one is true whenever
//! it is (`imply`), and idle if its actions have nothing to change (`effect`).

mod direction;
mod effect;
mod imply;

use std::collections::{BTreeMap, BTreeSet};

use super::{DayGroup, Group, Line, Programme, Rule, Variant, WeekSpec};
use crate::diagnostics::{Code, Diagnostic, Edit};
use crate::quantity::{RepCount, Work};
use crate::source::{Sources, Span};

/// What is wrong with a rule on one line.
struct Problem<'a> {
    rule: &'a Rule,
    code: Code,
    message: String,
    help: String,
    /// Another rule that is the cause.
    cause: Option<(&'a Rule, &'static str)>,
    fix: Option<(String, Vec<Edit>)>,
}

/// A line as one or more athletes do it.
struct Use<'a> {
    line: &'a Line,
    variant: &'a Variant,
    /// How its letter is done.
    group: Option<&'a DayGroup>,
    /// The weeks after which rules act: those that no phase lightens.
    weeks: Vec<u32>,
}

impl<'a> Use<'a> {
    /// What is done in the weeks in which a rule acts.
    fn specs(&self, rule: &Rule) -> impl Iterator<Item = &'a WeekSpec> {
        let runs = |week: &&u32| rule.weeks.is_none_or(|weeks| weeks.contains(**week));
        let weeks: Vec<u32> = self.weeks.iter().filter(runs).copied().collect();
        let specs = &self.variant.weeks;
        weeks.into_iter().filter_map(move |week| specs.get(week as usize - 1))
    }

    /// All set groups of all weeks.
    fn groups(&self) -> impl Iterator<Item = &'a Group> {
        self.variant.weeks.iter().flat_map(|spec| &spec.groups)
    }
}

/// The group of the set that `last set` is about: the open one, else the last.
fn last_set(spec: &WeekSpec) -> Option<&Group> {
    let open = |group: &&Group| {
        matches!(group.reps.work, Work::Amrap | Work::Reps(RepCount { max: None, .. }))
    };
    spec.groups.iter().find(open).or(spec.groups.last())
}

/// The least that makes a set, and the most it asks for; none, where it has no end.
fn bounds(work: &Work) -> (u32, Option<u32>) {
    match work {
        Work::Reps(count) | Work::Seconds(count) | Work::Metres(count) => (count.min, count.max),
        Work::Amrap => (1, None),
        Work::Cluster { parts, .. } => {
            let sum = parts.iter().sum();
            (sum, Some(sum))
        }
    }
}

/// Rules of a programme that never act or change nothing. A rule of a scheme is reported once, at
/// the scheme, where that is so on every line that follows it; else at the lines where it is so.
#[must_use]
pub fn check_rules(programme: &Programme) -> Vec<Diagnostic> {
    let max_users = effect::max_users(programme);
    let mut found: BTreeMap<(Span, Code), BTreeMap<Option<Span>, Problem<'_>>> = BTreeMap::new();
    // Where each rule of a scheme is used, and where its problem is the line's own.
    let mut followed: BTreeMap<Span, BTreeSet<Span>> = BTreeMap::new();
    let deload = |week: &u32| {
        let mut phases = programme.phases.iter().filter(|phase| phase.weeks.contains(*week));
        phases.any(super::Phase::lightens)
    };
    let weeks: Vec<u32> = (1..=programme.weeks).filter(|week| !deload(week)).collect();
    for day in &programme.days {
        for line in &day.lines {
            let group = day.groups.iter().find(|group| group.letter == line.order.letter);
            for variant in line.variants(programme.trainees.len()) {
                let here = Use { line, variant, group, weeks: weeks.clone() };
                for rule in &variant.rules {
                    if let Some(follow) = rule.follow {
                        followed.entry(rule.span).or_default().insert(follow);
                    }
                }
                let dead = imply::dead(&here, &programme.sources);
                let is_dead =
                    |rule: &Rule| dead.iter().any(|problem| problem.rule.span == rule.span);
                let alive = variant.rules.iter().filter(|rule| !is_dead(rule));
                let doubt = |rule| {
                    effect::idle(rule, &here, &max_users)
                        .or_else(|| direction::wrong(rule, &here, &programme.sources))
                };
                let idle: Vec<Problem<'_>> = alive.filter_map(doubt).collect();
                for problem in one_for_scheme(dead).into_iter().chain(idle) {
                    let rule = problem.rule;
                    let places = found.entry((rule.span, problem.code)).or_default();
                    places.entry(rule.follow).or_insert(problem);
                }
            }
        }
    }
    let mut out = Vec::new();
    for ((span, _), places) in found {
        let uses = followed.get(&span).map_or(0, BTreeSet::len);
        let own_cause = |problem: &Problem<'_>| {
            problem.cause.as_ref().is_some_and(|(cause, _)| cause.follow != problem.rule.follow)
        };
        let everywhere = places.len() >= uses && !places.values().any(own_cause);
        for (follow, problem) in places {
            let place = follow.filter(|_| !everywhere);
            out.push(problem.report(place));
            if everywhere {
                break;
            }
        }
    }
    out
}

/// The line's own `otherwise` comes before all rules of its scheme: that is said once.
fn one_for_scheme(dead: Vec<Problem<'_>>) -> Vec<Problem<'_>> {
    let by_own_otherwise = |problem: &Problem<'_>| {
        let (cause, _) = problem.cause.as_ref()?;
        let before = cause.conditions.is_empty() && cause.follow.is_none();
        problem.rule.follow.filter(|_| before)
    };
    let mut seen = BTreeSet::new();
    let mut kept: Vec<Problem<'_>> = Vec::new();
    for mut problem in dead {
        if let Some(follow) = by_own_otherwise(&problem) {
            if !seen.insert(follow) {
                continue;
            }
            "no rule of this scheme acts here: the `otherwise` of this exercise comes before them"
                .clone_into(&mut problem.message);
            "delete the `otherwise` of this exercise, or write it into the scheme as the last rule"
                .clone_into(&mut problem.help);
        }
        kept.push(problem);
    }
    kept
}

impl Problem<'_> {
    /// At the rule, or at the line that follows its scheme.
    fn report(self, line: Option<Span>) -> Diagnostic {
        let Self { rule, code, message, help, cause, fix } = self;
        // Another order in the scheme could be wrong for the other lines that follow it.
        let fix = fix.filter(|_| line.is_none());
        let mut found = match line {
            Some(place) => {
                Diagnostic::new(code, place, message).and(rule.span, "this rule of the scheme")
            }
            None => Diagnostic::new(code, rule.span, message),
        };
        if let Some((cause, remark)) = cause {
            found = found.and(cause.span, remark);
        }
        found = found.help(help);
        match fix {
            Some((title, edits)) => found.suggest(title, edits),
            None => found,
        }
    }
}

/// The last of some rules before the others, where they are in one block.
fn last_first(rules: &[Rule], sources: &Sources) -> Option<(String, Vec<Edit>)> {
    let (last, before) = rules.split_last()?;
    let first = before.first()?;
    let together = rules.iter().all(|rule| {
        rule.follow == last.follow
            && rule.weeks == last.weeks
            && rule.whole.file == last.whole.file
            && (first.whole.start..=last.whole.start).contains(&rule.whole.start)
    });
    let moved = std::iter::once(last).chain(before).zip(rules);
    let edits =
        moved.map(|(text, at)| Edit { span: at.whole, text: sources.text(text.whole).to_owned() });
    together.then(|| (format!("put `{}` first", last.text), edits.collect()))
}
