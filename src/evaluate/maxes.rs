//! An athlete's maximums: tested, estimated or derived, and the training max.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use crate::plan::{Derivation, Location, Op, Step, StepKind};
use crate::quantity::{Decimal, Exact, Mass};
use crate::resolve::{ExerciseId, Programme, ResolvedAthlete, ResolvedMax};
use crate::source::Span;

/// A number with the steps that led to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Traced {
    /// A mass, exact.
    pub value: Exact,
    pub steps: Derivation,
}

impl Traced {
    /// Starts from a mass.
    pub fn start(kind: StepKind, value: Exact, line: Option<Location>) -> Self {
        let step = Step { kind, op: Op::Set(value.clone()), result: value.clone(), line };
        Self { value, steps: std::iter::once(step).collect() }
    }

    /// Takes a step.
    #[must_use]
    pub fn then(mut self, kind: StepKind, op: Op, line: Option<Location>) -> Self {
        self.value = op.apply(&self.value);
        self.steps.push(Step { kind, op, result: self.value.clone(), line });
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

/// A change of a training max by a rule.
#[derive(Clone, Debug)]
pub struct MaxEvent {
    pub kind: StepKind,
    pub op: Op,
    pub line: Location,
}

/// A computed maximum.
#[derive(Clone, Debug)]
struct Known {
    max: Result<Traced, NoMax>,
    /// Whether it is on top of the body mass.
    on_body_mass: bool,
}

/// The maximums of one athlete, each computed once until something changes. This includes those that
/// others are shares of, so a chain of shares costs one step for each share.
pub struct Maxes<'a> {
    programme: &'a Programme,
    trainee: &'a ResolvedAthlete,
    known: RefCell<BTreeMap<ExerciseId, Known>>,
    /// Training maxes, with how many events are in each.
    trained: RefCell<BTreeMap<ExerciseId, (Traced, usize)>>,
    /// Maxes tested again, over those of the athlete's file.
    tested: BTreeMap<ExerciseId, (ResolvedMax, Span)>,
    events: BTreeMap<ExerciseId, Vec<MaxEvent>>,
    pub body_mass: Option<Mass>,
    /// The body mass at the time of a test, where the athlete has been weighed after it.
    body_mass_then: BTreeMap<ExerciseId, Option<Mass>>,
}

impl<'a> Maxes<'a> {
    pub fn new(programme: &'a Programme, trainee: &'a ResolvedAthlete) -> Self {
        Self {
            programme,
            trainee,
            known: RefCell::default(),
            trained: RefCell::default(),
            tested: BTreeMap::new(),
            events: BTreeMap::new(),
            body_mass: trainee.athlete.body_mass,
            body_mass_then: BTreeMap::new(),
        }
    }

    /// A max tested again replaces the old one and clears its adjustments.
    pub fn test_again(&mut self, lift: ExerciseId, max: ResolvedMax, span: Span) {
        self.tested.insert(lift, (max, span));
        self.events.remove(&lift);
        self.body_mass_then.remove(&lift);
        // Shares of this lift change with it.
        self.known.get_mut().clear();
        self.trained.get_mut().clear();
    }

    /// A body mass logged later counts from then on; what was lifted on top of the old one stays.
    pub fn weigh(&mut self, body_mass: Mass) {
        for (lift, (max, _)) in self.trainee.maxes.iter().chain(&self.tested) {
            if matches!(max, ResolvedMax::Lifted { bodyweight: true, .. }) {
                self.body_mass_then.entry(*lift).or_insert(self.body_mass);
            }
        }
        self.body_mass = Some(body_mass);
    }

    /// A rule changes the training max of a lift.
    pub fn adjust(&mut self, lift: ExerciseId, event: MaxEvent) {
        self.events.entry(lift).or_default().push(event);
    }

    /// The 1RM of a lift: of the whole system where it is on top of the body mass.
    pub fn one_rm(&self, lift: ExerciseId) -> Result<Traced, NoMax> {
        self.known(lift).max
    }

    /// The training max of a lift, with what rules made of it.
    pub fn training_max(&self, lift: ExerciseId) -> Result<Traced, NoMax> {
        let trained = self.trained.borrow_mut().remove(&lift);
        let (mut max, count) = match trained {
            Some(known) => known,
            None => (self.before_events(lift)?, 0),
        };
        let events = self.events.get(&lift).map_or(&[][..], Vec::as_slice);
        for event in events.iter().skip(count) {
            max = max.then(event.kind.clone(), event.op.clone(), Some(event.line.clone()));
        }
        self.trained.borrow_mut().insert(lift, (max.clone(), events.len()));
        Ok(max)
    }

    fn before_events(&self, lift: ExerciseId) -> Result<Traced, NoMax> {
        let max = self.one_rm(lift)?;
        let Some((percent, span)) = self.stated_share() else { return Ok(max) };
        let line = self.programme.sources.locate(span);
        let kind = StepKind::TrainingMax { percent: percent.to_string() };
        Ok(max.then(kind, Op::Times(share(percent)), Some(line)))
    }

    /// Whether a lift's maximum is on top of the body mass.
    pub fn is_on_body_mass(&self, lift: ExerciseId) -> bool {
        self.known(lift).on_body_mass
    }

    /// Whether a lift's maximum can be worked out.
    pub fn has(&self, lift: ExerciseId) -> bool {
        self.known(lift).max.is_ok()
    }

    /// Where a lift's maximum is written.
    pub fn place(&self, lift: ExerciseId) -> Option<Span> {
        self.written(lift).map(|(_, span)| *span)
    }

    /// The training max as a share of the 1RM, as a factor.
    pub fn training_share(&self) -> Exact {
        self.stated_share().map_or_else(Exact::one, |(percent, _)| share(percent))
    }

    fn stated_share(&self) -> Option<(Decimal, Span)> {
        self.trainee.athlete.training_max.or(self.programme.training_max)
    }

    fn written(&self, lift: ExerciseId) -> Option<&(ResolvedMax, Span)> {
        self.tested.get(&lift).or_else(|| self.trainee.maxes.get(&lift))
    }

    fn known(&self, lift: ExerciseId) -> Known {
        // Follow the shares down to a lift that is known or was really lifted.
        let mut chain: Vec<(ExerciseId, Decimal, ExerciseId, Span)> = Vec::new();
        let mut seen = BTreeSet::new();
        let mut at = lift;
        let mut known = self.known.borrow_mut();
        let mut found = loop {
            if let Some(found) = known.get(&at) {
                break found.clone();
            }
            let end = match self.written(at) {
                // A ring is an error of its own; here it only must end.
                Some((ResolvedMax::Share { .. }, _)) if !seen.insert(at) => {
                    break Known { max: Err(NoMax::Ring), on_body_mass: false };
                }
                Some((ResolvedMax::Share { percent, of }, span)) => {
                    chain.push((at, *percent, *of, *span));
                    at = *of;
                    continue;
                }
                Some((ResolvedMax::Lifted { reps, load, bodyweight }, span)) => Known {
                    max: self
                        .system(at, *load, *bodyweight)
                        .map(|system| self.lifted(at, *reps, system, *span)),
                    on_body_mass: *bodyweight,
                },
                None => Known { max: Err(NoMax::Missing(at)), on_body_mass: false },
            };
            known.insert(at, end.clone());
            break end;
        };
        for (lift, percent, of, span) in chain.into_iter().rev() {
            found.max = found.max.map(|traced| {
                let kind = StepKind::Derived {
                    lift: self.name(lift),
                    from: self.name(of),
                    percent: percent.to_string(),
                };
                let line = self.programme.sources.locate(span);
                traced.then(kind, Op::Times(share(percent)), Some(line))
            });
            known.insert(lift, found.clone());
        }
        found
    }

    /// What was lifted, with the body at the time.
    fn system(&self, lift: ExerciseId, load: Mass, bodyweight: bool) -> Result<Mass, NoMax> {
        let body = self.body_mass_then.get(&lift).copied().unwrap_or(self.body_mass);
        match (bodyweight, body) {
            (false, _) => Ok(load),
            (true, Some(body)) => Ok(body + load),
            (true, None) => Err(NoMax::BodyMass),
        }
    }

    fn lifted(&self, lift: ExerciseId, reps: u32, load: Mass, span: Span) -> Traced {
        let line = Some(self.programme.sources.locate(span));
        let load = Exact::from_mass(load);
        let name = self.name(lift);
        let equation = self.programme.equation;
        if reps == 1 {
            return Traced::start(StepKind::Tested { lift: name }, load, line);
        }
        // From more repetitions than the equations hold for a max is an error, and no plan is made.
        let factor = equation.factor(&Exact::whole(i64::from(reps))).unwrap_or_else(Exact::one);
        let kind = StepKind::Estimated {
            lift: name,
            load: load.clone(),
            reps,
            equation: equation.name().to_owned(),
            factor: factor.to_string(),
        };
        Traced::start(kind, &load * &factor, line)
    }

    pub fn name(&self, lift: ExerciseId) -> String {
        self.programme.exercises.get(lift.0).map_or_else(String::new, |e| e.name.clone())
    }
}

/// A percentage as a factor.
pub fn share(percent: Decimal) -> Exact {
    &Exact::from(percent) / &Exact::whole(100)
}
