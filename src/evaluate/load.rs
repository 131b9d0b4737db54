//! The exact load a group asks for.

use crate::plan::{Step, StepKind};
use crate::quantity::{Decimal, Effort, Exact, Mass};
use crate::resolve::{ExerciseId, Group, Load, Of, Phase, Stepped};
use crate::source::Span;

use super::Athlete;
use super::maxes::{NoMax, Traced, share};

/// What a group asks for.
#[derive(Clone, Debug)]
pub struct Target {
    /// Where the number comes from; its value is the load of the implement (added load for a
    /// body-mass lift).
    pub traced: Traced,
    /// Estimated from an effort.
    pub about: bool,
}

/// What a load is worked out for.
pub struct Asked<'g> {
    pub group: &'g Group,
    /// The exercise that is done, after any replacement.
    pub lift: ExerciseId,
    /// Whether it is loaded on top of the body mass.
    pub on_body: bool,
    pub phase: Option<&'g Phase>,
    /// The heaviest earlier group of the line.
    pub top: Option<&'g Target>,
    /// The latest session's target.
    pub last: Option<&'g Exact>,
    /// The place of the line's exercise.
    pub line: Span,
}

impl Athlete<'_, '_> {
    /// The target of a group; `None` when the load is left to the day.
    pub(super) fn target(&mut self, asked: &Asked<'_>) -> Option<Target> {
        let group = asked.group;
        let here = || Some(self.programme.sources.locate(group.load_span));
        // Of the whole system where it is loaded on the body: its mass comes off at the end.
        let (traced, about, of_system) = match &group.load {
            Load::Open => return None,
            Load::Percent { of: Of::TopSet, percent, .. } => {
                let top = asked.top?;
                let value = &top.traced.value * &share(*percent);
                let kind = StepKind::OfTopSet { percent: percent.to_string() };
                let traced = top.traced.clone().then(kind, value, here());
                // Rules and phase are in the top set already.
                return Some(Target { traced, about: top.about });
            }
            Load::Percent { percent, of, start, step } => {
                let max = match of {
                    Of::OneRm => self.maxes.one_rm(asked.lift),
                    Of::Lift(lift) => self.maxes.training_max(*lift),
                    Of::TrainingMax | Of::TopSet => self.maxes.training_max(asked.lift),
                };
                let max = max.map_err(|missing| self.no_max(missing, asked)).ok()?;
                let of_system = asked.on_body && !matches!(of, Of::Lift(_));
                (percent_of(max, *start, *percent, step.as_ref(), here), false, of_system)
            }
            Load::Mass { start, mass, step } => {
                let value = Exact::from_mass(*start);
                let mut steps =
                    vec![Step { kind: StepKind::Stated, result: value.clone(), line: here() }];
                if let Some(step) = step {
                    let kind = StepKind::Step { by: step.by.clone(), times: step.times };
                    steps.push(Step { kind, result: Exact::from_mass(*mass), line: here() });
                }
                (Traced { value: Exact::from_mass(*mass), steps }, false, false)
            }
            Load::Effort(effort) => (self.by_effort(*effort, asked)?, true, asked.on_body),
            Load::Bodyweight(added) => {
                let value = Exact::from_mass(*added);
                let steps =
                    vec![Step { kind: StepKind::Stated, result: value.clone(), line: here() }];
                (Traced { value, steps }, false, false)
            }
            Load::LastMass(by) => {
                let traced = last(asked.last?, here);
                let value = &traced.value + &Exact::from_mass(*by);
                let traced = if *by == Mass::ZERO {
                    traced
                } else {
                    traced.then(StepKind::Plus, value, here())
                };
                (traced, false, false)
            }
            Load::LastPercent(by) => {
                let traced = last(asked.last?, here);
                let value = &traced.value * &(&Exact::one() + &share(*by));
                (traced.then(StepKind::Plus, value, here()), false, false)
            }
        };
        let traced = self.phased(traced, asked, of_system)?;
        Some(Target { traced, about })
    }

    /// Scales by the phase, on the whole system where the load is on the body, and takes the body
    /// mass off a load of the whole system.
    fn phased(&mut self, traced: Traced, asked: &Asked<'_>, of_system: bool) -> Option<Traced> {
        let change = asked.phase.filter(|_| asked.group.load_scaled).and_then(|phase| {
            let change = phase.load?;
            Some((phase, change))
        });
        let body = self.trainee.athlete.body_mass.map(Exact::from_mass);
        if of_system && body.is_none() {
            self.no_max(NoMax::BodyMass, asked);
            return None;
        }
        let mut traced = traced;
        if let Some((phase, change)) = change {
            let factor = &Exact::one() + &share(change);
            let bodyweight = matches!(asked.group.load, Load::Bodyweight(_));
            let value = match (&body, bodyweight) {
                // Nothing is added: there is nothing to scale.
                (_, true) if traced.value.is_zero() => traced.value.clone(),
                (Some(body), true) => {
                    let scaled = &(&(&traced.value + body) * &factor) - body;
                    // A lighter week of an added load never becomes assistance.
                    if !traced.value.is_negative() && scaled.is_negative() {
                        Exact::zero()
                    } else {
                        scaled
                    }
                }
                _ => &traced.value * &factor,
            };
            let sign = if change.digits() < 0 { "" } else { "+" };
            let kind = StepKind::Phase {
                name: phase.name.clone(),
                change: format!("load {sign}{change}%"),
            };
            let line = self.programme.sources.locate(phase.span);
            traced = traced.then(kind, value, Some(line));
        }
        if let (true, Some(body)) = (of_system, body) {
            let value = &traced.value - &body;
            traced = traced.then(StepKind::LessBodyMass, value, None);
        }
        Some(traced)
    }

    /// The load that leaves what the effort asks for in reserve, from the lift's 1RM. Without a
    /// max, or for time and distance, the athlete finds it on the day.
    fn by_effort(&mut self, effort: Effort, asked: &Asked<'_>) -> Option<Traced> {
        let reps = asked
            .group
            .reps
            .work
            .least_reps()
            .filter(|_| !matches!(asked.group.reps.work, crate::quantity::Work::Amrap))?;
        let max = self.maxes.one_rm(asked.lift).ok()?;
        let equation = self.programme.equation;
        let whole = Exact::whole(i64::from(reps));
        let factor = equation.share(&(&whole + &effort.in_reserve().to_exact()))?;
        let value = &max.value * &factor;
        let kind = StepKind::FromEffort {
            effort: effort.to_string(),
            reps,
            equation: equation.name().to_owned(),
            factor: factor.to_string(),
        };
        let line = self.programme.sources.locate(asked.group.load_span);
        Some(max.then(kind, value, Some(line)))
    }
}

fn last(last: &Exact, here: impl Fn() -> Option<crate::plan::Where>) -> Traced {
    let step = Step { kind: StepKind::Last, result: last.clone(), line: here() };
    Traced { value: last.clone(), steps: vec![step] }
}

fn percent_of(
    max: Traced,
    start: Decimal,
    percent: Decimal,
    step: Option<&Stepped>,
    here: impl Fn() -> Option<crate::plan::Where>,
) -> Traced {
    let of = max.value.clone();
    let first = StepKind::Percent { percent: start.to_string() };
    let mut traced = max.then(first, &of * &share(start), here());
    if let Some(step) = step {
        let kind = StepKind::Step { by: step.by.clone(), times: step.times };
        traced = traced.then(kind, &of * &share(percent), here());
    }
    traced
}
