//! Rules: which rule acts after a session, and how it changes the next session.

use std::sync::Arc;

use crate::diagnostics::{Code, Diagnostic};
use crate::plan::{Fired, Op, PlannedExercise, StepKind};
use crate::quantity::{Decimal, Exact, Mass};
use crate::resolve::{
    Action, Amount, ChangeBy, Comparison, Condition, ExerciseId, Group, Load, PercentBase, Phase,
    Quantity, Rule, WeekSpec,
};

use super::maxes::{MaxEvent, share};
use super::session_facts::SessionFacts;
use super::state::{LineState, LoadEvent};
use super::{AthleteEvaluator, Path};
use crate::catalogue::LoadingMethod;
use crate::source::Span;
use crate::strength::Equation;

/// A line after its session.
pub struct After<'a> {
    /// The line's state.
    pub key: super::LineId,
    pub rules: &'a [Rule],
    pub spec: &'a WeekSpec,
    /// The exercise that was done.
    pub lift: ExerciseId,
    pub means: Option<&'a LoadingMethod>,
    pub phase: Option<&'a Phase>,
    pub week: u32,
    /// The session in words, for derivations.
    pub session: String,
    pub projected: bool,
    /// Where it is logged.
    pub logged: Option<Span>,
    /// The max that the line's percentage is of is tested again in this session: that test stands,
    /// and rules leave the max alone.
    pub tested_again: bool,
}

impl AthleteEvaluator<'_, '_> {
    /// Tries the rules in order; the first one whose condition is true acts.
    pub(super) fn act(
        &mut self,
        after: &After<'_>,
        exercise: &PlannedExercise,
        judged: &SessionFacts,
    ) -> Option<Fired> {
        let state = self.lines.entry(after.key).or_default();
        state.count(after.week);
        state.missed = if judged.all_made { 0 } else { state.missed + 1 };
        let mut counted: Vec<String> = Vec::new();
        for condition in after.rules.iter().flat_map(|rule| &rule.conditions) {
            let Condition::LastSet(comparison, n, Some(_)) = condition else { continue };
            // Two rules may ask the same: the session counts once.
            let words = condition.to_string();
            if counted.contains(&words) {
                continue;
            }
            let row = state.rows.entry(words.clone()).or_default();
            *row = if last_set(judged, *comparison, n) { *row + 1 } else { 0 };
            counted.push(words);
        }
        let runs = |rule: &&Rule| rule.weeks.is_none_or(|weeks| weeks.contains(after.week));
        let state_now = state.clone();
        let rule = after
            .rules
            .iter()
            .filter(runs)
            .filter(|rule| !judged.light || !is_reward(rule))
            .find(|rule| rule.conditions.iter().all(|c| holds(c, judged, &state_now)))?;
        let from_last = |action: &Action| *action == Action::MaxFromLastSet;
        if !after.tested_again
            && rule.actions.iter().any(from_last)
            && self.beyond_estimates(rule, after, judged)
            && rule.actions.iter().all(from_last)
        {
            return None;
        }
        let of_max = |action: &Action| matches!(action, Action::Max(_) | Action::MaxFromLastSet);
        if after.tested_again && rule.actions.iter().all(of_max) {
            return None;
        }
        let state = self.lines.entry(after.key).or_default();
        for condition in &rule.conditions {
            match condition {
                Condition::MissedInARow(_) => state.missed = 0,
                Condition::LastSet(_, _, Some(_)) => {
                    state.rows.remove(&condition.to_string());
                }
                _ => {}
            }
        }
        let changes = rule.actions.iter().any(|action| *action != Action::Hold);
        state.projected |= after.projected && changes;
        for action in &rule.actions {
            self.action(action, rule, after, exercise, judged);
        }
        let line = self.programme.sources.locate(rule.span);
        Some(Fired { rule: rule.text.clone(), projected: after.projected, line })
    }

    fn action(
        &mut self,
        action: &Action,
        rule: &Rule,
        after: &After<'_>,
        exercise: &PlannedExercise,
        judged: &SessionFacts,
    ) {
        let line = self.programme.sources.locate(rule.span);
        let load_kind = StepKind::Rule {
            rule: rule.text.clone(),
            session: after.session.clone(),
            projected: after.projected,
        };
        let op = match action {
            Action::Hold => return,
            Action::Load(by) => change(&by.value),
            Action::LoadUpOne => self.to_neighbour(after, exercise, true),
            Action::LoadDownOne => self.to_neighbour(after, exercise, false),
            Action::Reps(by) => {
                let state = self.lines.entry(after.key).or_default();
                let raised = state.reps_raised.saturating_add(count(&by.value));
                state.reps_raised = raised.clamp(0, widest_range(after.spec));
                return;
            }
            Action::RepsToBottom => {
                self.lines.entry(after.key).or_default().reps_raised = 0;
                return;
            }
            Action::Sets(by) => {
                let state = self.lines.entry(after.key).or_default();
                let most = i64::from(crate::bounds::SETS);
                state.sets_added =
                    state.sets_added.saturating_add(count(&by.value)).clamp(-most, most);
                return;
            }
            Action::Max(by) => {
                if let Some(op) = change(&by.value) {
                    self.adjust_max(rule, after, op);
                }
                return;
            }
            Action::MaxFromLastSet => {
                let beyond = judged.last_reps.is_some_and(|n| n > Equation::MOST_SET_REPS);
                if let Some(op) = self.last_set_max(after, judged).filter(|_| !beyond) {
                    self.adjust_max(rule, after, op);
                }
                return;
            }
        };
        if let Some(op) = op {
            let state = self.lines.entry(after.key).or_default();
            state.load.push(Arc::new(LoadEvent { kind: load_kind, op, line }));
        }
    }

    fn adjust_max(&mut self, rule: &Rule, after: &After<'_>, op: Op) {
        let lift = percent_lift(after.spec, after.lift);
        let kind = StepKind::MaxRule {
            rule: rule.text.clone(),
            session: after.session.clone(),
            projected: after.projected,
        };
        let line = self.programme.sources.locate(rule.span);
        self.maxes.adjust(lift, MaxEvent { kind, op, line });
        if after.projected {
            self.projected_maxes.insert(lift);
        } else {
            self.projected_maxes.remove(&lift);
        }
    }

    /// Whether the last set has more repetitions than a max is estimated from. That is reported, and so is a
    /// logged set of more than the equations are sure of.
    fn beyond_estimates(&mut self, rule: &Rule, after: &After<'_>, judged: &SessionFacts) -> bool {
        let counted = judged.last_reps.filter(|_| judged.last_counted);
        let Some(reps) = counted.filter(|reps| *reps > Equation::SURE_REPS) else {
            return false;
        };
        let (sure, most) = (Equation::SURE_REPS, Equation::MOST_SET_REPS);
        let beyond = reps > most;
        let lift = self.maxes.name(percent_lift(after.spec, after.lift));
        let found = match after.logged.filter(|_| !after.projected) {
            Some(at) => {
                let message = if beyond {
                    format!(
                        "the last set has {reps} repetitions, so the max of {lift} does not change"
                    )
                } else {
                    format!("the max of {lift} is estimated from {reps} repetitions")
                };
                Diagnostic::new(Code::EstimateRange, at, message)
                    .and(rule.span, "by this rule")
                    .help(format!(
                        "the equations are reliable up to {sure} repetitions; above {most}, no max is estimated \
                         from a set"
                    ))
            }
            // As prescribed: said once, of the rule.
            None if beyond && self.assumptions.path == Path::Planned => Diagnostic::new(
                Code::EstimateRange,
                rule.span,
                format!("this rule does nothing after a set of {reps} repetitions"),
            )
            .help(format!("a max is estimated from sets of {most} repetitions or fewer")),
            None => return beyond,
        };
        self.problems.push(found);
        beyond
    }

    /// The estimate from the last set, times the training-max percentage.
    fn last_set_max(&self, after: &After<'_>, judged: &SessionFacts) -> Option<Op> {
        let reps = judged.last_reps.filter(|_| judged.last_counted)?;
        let load = judged.last_load?;
        let body = match (after.means, self.maxes.body_mass) {
            (Some(LoadingMethod::BodyMass), Some(body)) => body,
            (Some(LoadingMethod::BodyMass), None) => return None,
            _ => Mass::ZERO,
        };
        let factor = self.programme.equation.factor(&Exact::whole(i64::from(reps)))?;
        let one_rm = &Exact::from_mass(load + body) * &factor;
        Some(Op::Set(&one_rm * &self.maxes.training_share()))
    }

    /// The change that leads to the next load the gym can build, up or down, from the one that was
    /// built.
    fn to_neighbour(&self, after: &After<'_>, exercise: &PlannedExercise, up: bool) -> Option<Op> {
        let set = exercise.working().next()?;
        let (target, built) = (set.target.as_ref()?, set.load.as_ref()?);
        let gear = self.gear()?;
        let next = gear.neighbour(after.means?, built.mass, up)?;
        // A phase that makes the week heavier scales what is added here as well.
        let scaled = after.spec.groups.first().is_some_and(|group| group.load_scaled);
        let change = after.phase.filter(|_| scaled).and_then(|phase| phase.load);
        let factor = change.map_or_else(Exact::one, |change| &Exact::one() + &share(change));
        let missing = &Exact::from_mass(next) - target;
        Some(Op::Plus(missing.checked_div(&factor).unwrap_or(missing)))
    }
}

/// Whether a rule raises something without asking whether the last set or a miss calls for it. After
/// a set that was lighter than asked such a rule is passed over: `last set >= n` is not met by a
/// light set in any case, and a rule about missed or few repetitions is no reward.
fn is_reward(rule: &Rule) -> bool {
    let raises = |action: &Action| match action {
        Action::Load(by) | Action::Max(by) | Action::Reps(by) | Action::Sets(by) => {
            by.value.is_increase()
        }
        Action::LoadUpOne | Action::MaxFromLastSet => true,
        Action::LoadDownOne | Action::RepsToBottom | Action::Hold => false,
    };
    let asks = |condition: &Condition| {
        matches!(
            condition,
            Condition::AnyRepMissed | Condition::MissedInARow(_) | Condition::LastSet(..)
        )
    };
    rule.actions.iter().any(raises) && !rule.conditions.iter().any(asks)
}

/// The lift whose training max the line's percentage is of.
pub fn percent_lift(spec: &WeekSpec, lift: ExerciseId) -> ExerciseId {
    let of = |group: &Group| match group.load {
        Load::Percent { of: PercentBase::Lift(of), .. } => Some(of),
        Load::Percent { of: PercentBase::TrainingMax | PercentBase::OneRm, .. } => Some(lift),
        _ => None,
    };
    spec.groups.iter().find_map(of).unwrap_or(lift)
}

fn change(by: &ChangeBy) -> Option<Op> {
    match by {
        ChangeBy::Amount(Amount::Mass(mass)) => Some(Op::Plus(Exact::from_mass(mass.mass()))),
        ChangeBy::Amount(Amount::Percent(percent)) => {
            Some(Op::Times(&Exact::one() + &share(*percent)))
        }
        // Neither occurs: resolving has checked units and filled parameters in.
        ChangeBy::Amount(Amount::Number(_)) | ChangeBy::Parameter(..) => None,
    }
}

fn count(by: &ChangeBy) -> i64 {
    match by {
        ChangeBy::Amount(Amount::Number(number)) => number.as_whole().unwrap_or(0),
        _ => 0,
    }
}

/// How far the rep target can be raised in the widest range of the line; an open target has no end.
fn widest_range(spec: &WeekSpec) -> i64 {
    let room = |group: &Group| match &group.reps.work {
        crate::quantity::Work::Reps(count) => {
            let top = count.max.unwrap_or(crate::bounds::REPS);
            i64::from(top) - i64::from(count.min)
        }
        _ => 0,
    };
    spec.groups.iter().map(room).max().unwrap_or(0)
}

fn holds(condition: &Condition, judged: &SessionFacts, state: &LineState) -> bool {
    let times = |quantity: &Quantity| whole(quantity).filter(|n| *n > 0);
    match condition {
        Condition::AllRepsMade => judged.all_made,
        Condition::TopOfRange => judged.top_of_range,
        Condition::AnyRepMissed => !judged.all_made,
        Condition::MissedInARow(n) => times(n).is_some_and(|n| state.missed >= n),
        Condition::LastSet(comparison, n, None) => last_set(judged, *comparison, n),
        Condition::LastSet(_, _, Some(in_a_row)) => {
            let row = state.rows.get(&condition.to_string()).copied().unwrap_or(0);
            times(in_a_row).is_some_and(|n| row >= n)
        }
        Condition::Rpe(comparison, n) => compare(judged.rpe.as_ref(), *comparison, n),
        Condition::Pain(comparison, n) => compare(judged.pain.as_ref(), *comparison, n),
        Condition::EverySessions(n) => times(n).is_some_and(|n| state.sessions.is_multiple_of(n)),
        Condition::EveryWeeks(n) => times(n).is_some_and(|n| state.weeks.is_multiple_of(n)),
    }
}

fn last_set(judged: &SessionFacts, comparison: Comparison, with: &Quantity) -> bool {
    // Many repetitions with less than planned earn nothing; few of them are few all the same.
    if judged.last_light && comparison == Comparison::AtLeast {
        return false;
    }
    let reps = judged.last_reps.map(|reps| Exact::whole(i64::from(reps)));
    compare(reps.as_ref(), comparison, with)
}

fn number(quantity: &Quantity) -> Option<Decimal> {
    match quantity {
        Quantity::Number(number) => Some(*number),
        Quantity::Parameter(_) => None,
    }
}

fn whole(quantity: &Quantity) -> Option<u32> {
    number(quantity)?.as_whole().and_then(|n| u32::try_from(n).ok())
}

fn compare(value: Option<&Exact>, comparison: Comparison, with: &Quantity) -> bool {
    let (Some(value), Some(with)) = (value, number(with).map(Exact::from)) else { return false };
    match comparison {
        Comparison::AtLeast => *value >= with,
        Comparison::AtMost => *value <= with,
        Comparison::LessThan => *value < with,
    }
}
