//! How a number came about: recorded by the evaluator, step by step, never recomputed later.

use std::fmt;
use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use crate::quantity::Exact;

/// A line of a source file: what a number can be traced to.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct Location {
    /// The file, relative to the project folder, with `/` between folders.
    pub file: Arc<str>,
    /// The line, counted from one.
    pub line: u32,
}

/// What a step does to the mass before it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Op {
    /// Starts from this mass.
    Set(Exact),
    /// Multiplies by this factor.
    Times(Exact),
    /// Adds this mass (below zero: takes it off).
    Plus(Exact),
}

impl Op {
    /// The mass after the step.
    #[must_use]
    pub fn apply(&self, before: &Exact) -> Exact {
        match self {
            Op::Set(mass) => mass.clone(),
            Op::Times(factor) => before * factor,
            Op::Plus(mass) => before + mass,
        }
    }
}

/// How a number came about, step by step. The steps that two derivations begin with are kept once: a
/// load that rules change week by week costs one step a week, not all steps of all weeks before.
#[derive(Clone, Default)]
pub struct Derivation {
    last: Option<Arc<Link>>,
}

/// A step, and the steps before it.
struct Link {
    step: Step,
    before: Derivation,
    /// How many steps there are, with this one.
    count: usize,
}

impl Derivation {
    /// Adds a step at the end.
    pub fn push(&mut self, step: Step) {
        let before = std::mem::take(self);
        let count = before.len() + 1;
        self.last = Some(Arc::new(Link { step, before, count }));
    }

    /// How many steps there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.last.as_ref().map_or(0, |link| link.count)
    }

    /// Whether there is no step.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.last.is_none()
    }

    /// The last step.
    #[must_use]
    pub fn last(&self) -> Option<&Step> {
        self.last.as_ref().map(|link| &link.step)
    }

    /// The steps, the last one first.
    pub fn backwards(&self) -> impl Iterator<Item = &Step> {
        let links = std::iter::successors(self.last.as_deref(), |link| link.before.last.as_deref());
        links.map(|link| &link.step)
    }

    /// The steps in order.
    pub fn iter(&self) -> std::vec::IntoIter<&Step> {
        let mut steps = Vec::with_capacity(self.len());
        steps.extend(self.backwards());
        steps.reverse();
        steps.into_iter()
    }
}

impl<'a> IntoIterator for &'a Derivation {
    type Item = &'a Step;
    type IntoIter = std::vec::IntoIter<&'a Step>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl Drop for Derivation {
    /// Lets go of one step after the other: a long derivation would overflow the stack.
    fn drop(&mut self) {
        let mut last = self.last.take();
        while let Some(mut link) = last.and_then(Arc::into_inner) {
            last = link.before.last.take();
        }
    }
}

impl PartialEq for Derivation {
    fn eq(&self, other: &Self) -> bool {
        let (mut a, mut b) = (self, other);
        loop {
            match (&a.last, &b.last) {
                (None, None) => return true,
                (Some(left), Some(right)) if Arc::ptr_eq(left, right) => return true,
                (Some(left), Some(right))
                    if left.count == right.count && left.step == right.step =>
                {
                    (a, b) = (&left.before, &right.before);
                }
                _ => return false,
            }
        }
    }
}

impl Eq for Derivation {}

impl fmt::Debug for Derivation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.iter()).finish()
    }
}

impl Serialize for Derivation {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}

impl FromIterator<Step> for Derivation {
    fn from_iter<I: IntoIterator<Item = Step>>(steps: I) -> Self {
        let mut all = Self::default();
        steps.into_iter().for_each(|step| all.push(step));
        all
    }
}

/// The mass that a derivation leads to, worked out again from its operations alone.
#[must_use]
pub fn replay(steps: &Derivation) -> Exact {
    steps.iter().fold(Exact::zero(), |mass, step| step.op.apply(&mass))
}

/// One step of a derivation.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Step {
    /// What was done.
    #[serde(flatten)]
    pub kind: StepKind,
    /// What it does to the mass before it.
    #[serde(skip)]
    pub op: Op,
    /// The mass after this step.
    #[serde(rename = "result_kg")]
    pub result: Exact,
    /// The line that asked for it; `None` for a default.
    #[serde(rename = "location", skip_serializing_if = "Option::is_none")]
    pub line: Option<Location>,
}

/// What a step does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "step", rename_all = "kebab-case")]
pub enum StepKind {
    /// A mass stated in a line.
    Stated,
    /// A tested one-repetition maximum.
    Tested {
        /// The lift.
        lift: String,
    },
    /// A maximum estimated from a set of several repetitions.
    Estimated {
        /// The lift.
        lift: String,
        /// The load that was lifted.
        #[serde(rename = "load_kg")]
        load: Exact,
        /// The repetitions that were made.
        reps: u32,
        /// The equation's name.
        equation: String,
        /// What the equation multiplies the load by, as a decimal.
        factor: String,
    },
    /// A maximum taken as a share of another lift's.
    Derived {
        /// The lift.
        lift: String,
        /// The lift it comes from.
        from: String,
        /// The share, as written in percent.
        percent: String,
    },
    /// The training max: a share of the maximum.
    TrainingMax {
        /// The share, in percent.
        percent: String,
    },
    /// A percentage of the value before it.
    Percent {
        /// In percent.
        percent: String,
    },
    /// A percentage of the line's top set.
    OfTopSet {
        /// In percent.
        percent: String,
    },
    /// A load that leaves the repetitions in reserve that the effort asks for.
    FromEffort {
        /// The effort, as written.
        effort: String,
        /// The repetitions of the set.
        reps: u32,
        /// The equation whose inverse was used.
        equation: String,
        /// The share of the maximum, as a decimal.
        factor: String,
    },
    /// The latest session's load.
    Last,
    /// A step added over weeks or sessions.
    Step {
        /// The step, as written.
        by: String,
        /// How many times it was taken.
        times: u32,
        /// What a percentage came to by it, in percent.
        #[serde(skip_serializing_if = "Option::is_none")]
        to_percent: Option<String>,
    },
    /// A mass added by the load as written.
    Plus,
    /// A rule that changed the working load.
    Rule {
        /// The rule, as written.
        rule: String,
        /// The session it acted on.
        session: String,
        /// That session is not logged yet.
        projected: bool,
    },
    /// A rule that changed the training max.
    MaxRule {
        /// The rule, as written.
        rule: String,
        /// The session it acted on.
        session: String,
        /// That session is not logged yet.
        projected: bool,
    },
    /// The phase's scaling.
    Phase {
        /// The phase.
        name: String,
        /// The change, as written.
        change: String,
    },
    /// A drop set.
    Drop {
        /// The change, as written.
        change: String,
    },
    /// A share of the working load, in a ramp.
    Ramp {
        /// In percent.
        percent: String,
    },
    /// A load cannot be below nothing.
    NoLess,
    /// The body mass, taken off a load of the whole system.
    LessBodyMass,
    /// A phase or a rule takes no more off than what was added to the body mass.
    NoAssistance,
    /// Less assistance than anybody can set up: the body mass as it is.
    LittleAssistance,
    /// Rounded, where the gym lists no sizes to choose from.
    Rounded {
        /// To a whole number of these, such as `0.5 kg`.
        to: String,
    },
    /// What the gym can build.
    Built {
        /// How it was rounded: `nearest` or `down`.
        rounding: String,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(n: i64) -> Step {
        let result = Exact::whole(n);
        Step { kind: StepKind::Plus, op: Op::Plus(Exact::one()), result, line: None }
    }

    #[test]
    fn derivations_share_how_they_begin() {
        let mut one: Derivation = (1..=3).map(step).collect();
        let two = one.clone();
        let first = |derivation: &Derivation| std::ptr::from_ref(derivation.iter().next().unwrap());
        one.push(step(4));
        assert_eq!(first(&one), first(&two));
        assert_eq!((one.len(), two.len()), (4, 3));
        assert_eq!(two, (1..=3).map(step).collect());
        assert_ne!(one, two);
        let results = |derivation: &Derivation| -> Vec<Exact> {
            derivation.iter().map(|step| step.result.clone()).collect()
        };
        assert_eq!(results(&one), (1..=4).map(Exact::whole).collect::<Vec<_>>());
        assert_eq!(replay(&one), Exact::whole(4));
    }

    #[test]
    fn a_long_derivation_ends() {
        let long: Derivation = (0..200_000).map(step).collect();
        let again: Derivation = (0..200_000).map(step).collect();
        assert!(long == again);
        drop(long);
        assert_eq!(again.len(), 200_000);
    }
}
