//! An athlete's maximums: tested, estimated or derived, and the training max.

use std::collections::BTreeMap;

use crate::plan::{Step, StepKind};
use crate::quantity::{Decimal, Exact, Mass};
use crate::resolve::{ExerciseId, Programme, Trainee, TraineeMax};

/// A number with the steps that led to it.
#[derive(Clone, Debug)]
pub struct Traced {
    /// A mass, exact.
    pub value: Exact,
    pub steps: Vec<Step>,
}

impl Traced {
    pub fn then(mut self, kind: StepKind, value: Exact, line: Option<crate::plan::Where>) -> Self {
        self.steps.push(Step { kind, result: value.clone(), line });
        self.value = value;
        self
    }
}

/// Why there is no maximum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoMax {
    /// None is written for this lift.
    Missing(ExerciseId),
    /// It is on top of a body mass that is not written.
    BodyMass,
    /// It is a share of itself, which has been reported where it is written.
    Ring,
}

/// The maximums of one athlete, each worked out once.
pub struct Maxes<'a> {
    programme: &'a Programme,
    trainee: &'a Trainee,
    known: BTreeMap<ExerciseId, Result<Traced, NoMax>>,
}

impl<'a> Maxes<'a> {
    pub fn new(programme: &'a Programme, trainee: &'a Trainee) -> Self {
        Self { programme, trainee, known: BTreeMap::new() }
    }

    /// The 1RM of a lift: of the whole system where it is on top of the body mass.
    pub fn one_rm(&mut self, lift: ExerciseId) -> Result<Traced, NoMax> {
        if let Some(found) = self.known.get(&lift) {
            return found.clone();
        }
        let found = self.work_out(lift);
        self.known.insert(lift, found.clone());
        found
    }

    /// The training max of a lift.
    pub fn training_max(&mut self, lift: ExerciseId) -> Result<Traced, NoMax> {
        let max = self.one_rm(lift)?;
        let stated = self.trainee.athlete.training_max.or(self.programme.training_max);
        let Some((percent, span)) = stated else { return Ok(max) };
        let value = &max.value * &share(percent);
        let line = self.programme.sources.locate(span);
        Ok(max.then(StepKind::TrainingMax { percent: percent.to_string() }, value, Some(line)))
    }

    fn work_out(&self, lift: ExerciseId) -> Result<Traced, NoMax> {
        // Follow the shares down to a lift that was really lifted.
        let mut chain: Vec<(ExerciseId, Decimal, ExerciseId, crate::source::Span)> = Vec::new();
        let mut at = lift;
        let (reps, load, bodyweight, span) = loop {
            match self.trainee.maxes.get(&at) {
                None => return Err(NoMax::Missing(at)),
                Some((TraineeMax::Share { percent, of }, span)) => {
                    // A ring is an error of its own; here it only must end.
                    if chain.iter().any(|(seen, ..)| *seen == at) {
                        return Err(NoMax::Ring);
                    }
                    chain.push((at, *percent, *of, *span));
                    at = *of;
                }
                Some((TraineeMax::Lifted { reps, load, bodyweight }, span)) => {
                    break (*reps, *load, *bodyweight, *span);
                }
            }
        };
        let body_mass = self.trainee.athlete.body_mass;
        let system = match (bodyweight, body_mass) {
            (false, _) => load,
            (true, Some(body)) => body + load,
            (true, None) => return Err(NoMax::BodyMass),
        };
        let mut traced = self.lifted(at, reps, system, span);
        for (lift, percent, of, span) in chain.into_iter().rev() {
            let kind = StepKind::Derived {
                lift: self.name(lift),
                from: self.name(of),
                percent: percent.to_string(),
            };
            let value = &traced.value * &share(percent);
            traced = traced.then(kind, value, Some(self.programme.sources.locate(span)));
        }
        Ok(traced)
    }

    fn lifted(&self, lift: ExerciseId, reps: u32, load: Mass, span: crate::source::Span) -> Traced {
        let line = Some(self.programme.sources.locate(span));
        let load = Exact::from_mass(load);
        let name = self.name(lift);
        let equation = self.programme.equation;
        // The syntax allows no more repetitions than the equations hold for.
        let factor = equation.factor(&Exact::whole(i64::from(reps))).unwrap_or_else(Exact::one);
        let value = &load * &factor;
        let kind = if reps == 1 {
            StepKind::Tested { lift: name }
        } else {
            StepKind::Estimated {
                lift: name,
                load,
                reps,
                equation: equation.name().to_owned(),
                factor: factor.to_string(),
            }
        };
        Traced { value: value.clone(), steps: vec![Step { kind, result: value, line }] }
    }

    fn name(&self, lift: ExerciseId) -> String {
        self.programme.exercises.get(lift.0).map_or_else(String::new, |e| e.name.clone())
    }
}

/// A percentage as a factor.
pub fn share(percent: Decimal) -> Exact {
    &Exact::from(percent) / &Exact::whole(100)
}
