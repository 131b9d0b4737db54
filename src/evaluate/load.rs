//! The exact target load of a set group.

use std::sync::Arc;

use jiff::civil::Date;

use crate::plan::{Location, Op, StepKind};
use crate::quantity::{Decimal, Effort, Exact, Mass, Unit, Work};
use crate::resolve::{ExerciseId, Group, Load, PercentBase, Phase, Stepped};
use crate::source::Span;

use super::AthleteEvaluator;
use super::maxes::{NoMax, Traced, share};
use super::state::{LineState, LoadEvent};

/// Less assistance than this is not worth setting up: half kilograms; common practice, no source.
const LEAST_ASSISTANCE: i64 = 5;

/// The target load of a set group.
#[derive(Clone, Debug)]
pub struct LoadTarget {
    /// Where the number comes from; its value is the load of the implement (added load for a
    /// body-mass lift).
    pub traced: Traced,
    /// Estimated from an effort.
    pub about: bool,
    /// The load before the phase: what the line's state goes on from.
    pub before_phase: Exact,
}

/// The input for computing a load.
pub struct LoadRequest<'g> {
    pub group: &'g Group,
    /// The exercise that is done, after any replacement.
    pub lift: ExerciseId,
    /// Whether it is loaded on top of the body mass.
    pub on_body: bool,
    pub phase: Option<&'g Phase>,
    /// The heaviest earlier group of the line.
    pub top: Option<&'g LoadTarget>,
    /// What is remembered of the line.
    pub state: &'g LineState,
    /// The place of the line's exercise.
    pub line: Span,
    /// The week of the session, and its date or the first day of the week.
    pub week: u32,
    pub date: Option<Date>,
}

impl LoadRequest<'_> {
    fn is_deload(&self) -> bool {
        self.phase.is_some_and(Phase::lightens)
    }
}

impl AthleteEvaluator<'_, '_> {
    /// The target of a group; `None` if the load is chosen on the day.
    pub(super) fn target(&mut self, asked: &LoadRequest<'_>) -> Option<LoadTarget> {
        let group = asked.group;
        let here = || Some(self.programme.sources.locate(group.load_span));
        // Of the whole system where it is loaded on the body: its mass comes off at the end.
        let (traced, about, of_system) = match &group.load {
            Load::Open => return None,
            Load::Percent { of: PercentBase::TopSet, percent, .. } => {
                let top = asked.top?;
                let kind = StepKind::OfTopSet { percent: percent.to_string() };
                let op = self.scaling(&top.traced, asked, false, &share(*percent));
                let traced = top.traced.clone().then(kind, op, here());
                // Rules and phase are in the top set already.
                return Some(LoadTarget { traced, ..top.clone() });
            }
            Load::Percent { percent, of, start, step } => {
                let lift = if let PercentBase::Lift(lift) = of { *lift } else { asked.lift };
                let max = match of {
                    PercentBase::OneRm => self.maxes.one_rm(lift),
                    _ => self.maxes.training_max(lift),
                };
                let max = max.map_err(|missing| self.no_max(missing, asked)).ok()?;
                let on_top = self.maxes.is_on_body_mass(lift);
                if asked.on_body && lift == asked.lift && !on_top {
                    self.plain_max(asked, lift);
                    return None;
                }
                let of_system = asked.on_body && on_top;
                (percent_of(max, *start, *percent, step.as_ref(), here), false, of_system)
            }
            Load::Mass { start, mass, step } => {
                let mut traced = Traced::start(StepKind::Stated, Exact::from_mass(*start), here());
                if let Some(step) = step {
                    let kind =
                        StepKind::Step { by: step.by.clone(), times: step.times, to_percent: None };
                    let by = Exact::from_mass(*mass - *start);
                    traced = traced.then(kind, Op::Plus(by), here());
                }
                (traced, false, false)
            }
            Load::Effort(effort) => (self.by_effort(*effort, asked)?, true, asked.on_body),
            Load::Bodyweight(added) => {
                (Traced::start(StepKind::Stated, Exact::from_mass(*added), here()), false, false)
            }
            Load::LastMass(by) => {
                let mut traced = last(asked.state.last.as_ref()?, here);
                // A deload week repeats the load before it, as it does a series.
                if *by != Mass::ZERO && !asked.is_deload() {
                    traced = traced.then(StepKind::Plus, Op::Plus(Exact::from_mass(*by)), here());
                }
                (traced, false, false)
            }
            Load::LastPercent(by) => {
                let mut traced = last(asked.state.last.as_ref()?, here);
                if !asked.is_deload() {
                    let factor = &Exact::one() + &share(*by);
                    let op = self.scaling(&traced, asked, false, &factor);
                    traced = traced.then(StepKind::Plus, op, here());
                }
                (traced, false, false)
            }
        };
        if of_system && self.maxes.body_mass.is_none() {
            self.no_max(NoMax::BodyMass, asked);
            return None;
        }
        let traced = self.ruled(traced, asked, of_system);
        let body = self.maxes.body_mass.filter(|_| of_system).map_or_else(Exact::zero, Exact::from);
        let before_phase = &traced.value - &body;
        let mut traced = self.phased(traced, asked, of_system);
        if of_system {
            traced = traced.then(StepKind::LessBodyMass, Op::Plus(-body), None);
            let least = Exact::ratio(LEAST_ASSISTANCE * Unit::Kg.in_units(), 2);
            if traced.value.is_negative() && traced.value.abs() < least {
                traced = traced.then(StepKind::LittleAssistance, Op::Set(Exact::zero()), None);
            }
        }
        if traced.value.is_negative() && !asked.on_body {
            traced = traced.then(StepKind::NoLess, Op::Set(Exact::zero()), None);
        }
        Some(LoadTarget { traced, about, before_phase })
    }

    /// What rules made of the load.
    fn ruled(&mut self, mut traced: Traced, asked: &LoadRequest<'_>, of_system: bool) -> Traced {
        if !asked.on_body {
            return self.ruled_again(traced, asked);
        }
        for event in &asked.state.load {
            let op = match &event.op {
                Op::Times(factor) => self.scaling(&traced, asked, of_system, factor),
                other => other.clone(),
            };
            let before = traced.value.clone();
            traced = traced.then(event.kind.clone(), op, Some(event.line.clone()));
            traced = self.unassisted(traced, &before, asked, of_system);
        }
        traced
    }

    /// A cut stops at the body mass: less of an added load never becomes assistance. Assistance
    /// that was there before the cut stays.
    fn unassisted(
        &self,
        traced: Traced,
        before: &Exact,
        asked: &LoadRequest<'_>,
        of_system: bool,
    ) -> Traced {
        let body = self.maxes.body_mass.filter(|_| of_system).map_or_else(Exact::zero, Exact::from);
        if !asked.on_body || *before < body || traced.value >= body {
            return traced;
        }
        traced.then(StepKind::NoAssistance, Op::Set(body), None)
    }

    /// [`Self::ruled`] for loads whose events do not depend on the load before. The steps of the last
    /// session are reused; otherwise memory would grow with the square of the number of weeks.
    fn ruled_again(&mut self, base: Traced, asked: &LoadRequest<'_>) -> Traced {
        let events = &asked.state.load;
        let key = asked.group.load_span;
        let is_same = |known: &Ruled| {
            let same = known.events.iter().zip(events).all(|(a, b)| Arc::ptr_eq(a, b));
            same && known.events.len() <= events.len() && known.base == base
        };
        let mut ruled = self.ruled.remove(&key).filter(is_same).unwrap_or_else(|| Ruled {
            events: Vec::new(),
            after: base.clone(),
            base,
        });
        for event in events.iter().skip(ruled.events.len()) {
            let (kind, op) = (event.kind.clone(), event.op.clone());
            ruled.after = ruled.after.then(kind, op, Some(event.line.clone()));
            ruled.events.push(event.clone());
        }
        let after = ruled.after.clone();
        self.ruled.insert(key, ruled);
        after
    }

    fn phased(&mut self, traced: Traced, asked: &LoadRequest<'_>, of_system: bool) -> Traced {
        let phase = asked.phase.filter(|_| asked.group.load_scaled);
        let Some((phase, change)) = phase.and_then(|phase| phase.load.map(|c| (phase, c))) else {
            return traced;
        };
        let factor = &Exact::one() + &share(change);
        let sign = if change.digits() < 0 { "" } else { "+" };
        let kind =
            StepKind::Phase { name: phase.name.clone(), change: format!("load {sign}{change}%") };
        let line = self.programme.sources.locate(phase.span);
        let op = self.scaling(&traced, asked, of_system, &factor);
        let before = traced.value.clone();
        self.unassisted(traced.then(kind, op, Some(line)), &before, asked, of_system)
    }

    /// Scaling a load: of the whole system, for what is added to the body mass.
    pub(super) fn scaling(
        &mut self,
        traced: &Traced,
        asked: &LoadRequest<'_>,
        of_system: bool,
        factor: &Exact,
    ) -> Op {
        if !asked.on_body || of_system {
            return Op::Times(factor.clone());
        }
        // Nothing is added: there is nothing to scale.
        if traced.value.is_zero() {
            return Op::Times(Exact::one());
        }
        let Some(body) = self.maxes.body_mass.map(Exact::from_mass) else {
            self.no_max(NoMax::BodyMass, asked);
            return Op::Times(factor.clone());
        };
        let scaled = &(&(&traced.value + &body) * factor) - &body;
        // Less of an added load never becomes assistance.
        let scaled = if !traced.value.is_negative() && scaled.is_negative() {
            Exact::zero()
        } else {
            scaled
        };
        Op::Plus(&scaled - &traced.value)
    }

    /// The load that leaves what the effort asks for in reserve, from the lift's 1RM. Without a
    /// max, or for time and distance, the athlete finds it on the day.
    fn by_effort(&mut self, effort: Effort, asked: &LoadRequest<'_>) -> Option<Traced> {
        let work = &asked.group.reps.work;
        let reps = work.least_reps().filter(|_| !matches!(work, Work::Amrap))?;
        let max = self.maxes.one_rm(asked.lift).ok()?;
        let equation = self.programme.equation;
        let whole = Exact::whole(i64::from(reps));
        let factor = equation.share(&(&whole + &effort.in_reserve().to_exact()))?;
        let kind = StepKind::FromEffort {
            effort: effort.to_string(),
            reps,
            equation: equation.name().to_owned(),
            factor: factor.to_string(),
        };
        let line = self.programme.sources.locate(asked.group.load_span);
        Some(max.then(kind, Op::Times(factor), Some(line)))
    }
}

/// A load with what rules made of it, as it was worked out last.
pub(super) struct Ruled {
    base: Traced,
    events: Vec<Arc<LoadEvent>>,
    after: Traced,
}

fn last(last: &Exact, here: impl Fn() -> Option<Location>) -> Traced {
    Traced::start(StepKind::Last, last.clone(), here())
}

fn percent_of(
    max: Traced,
    start: Decimal,
    percent: Decimal,
    step: Option<&Stepped>,
    here: impl Fn() -> Option<Location>,
) -> Traced {
    let of = max.value.clone();
    let first = StepKind::Percent { percent: start.to_string() };
    let mut traced = max.then(first, Op::Times(share(start)), here());
    if let Some(step) = step {
        let kind = StepKind::Step {
            by: step.by.clone(),
            times: step.times,
            to_percent: Some(percent.to_string()),
        };
        let by = &of * &(&share(percent) - &share(start));
        traced = traced.then(kind, Op::Plus(by), here());
    }
    traced
}
