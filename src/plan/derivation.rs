//! How a number came about. The evaluator records each step when it takes it; nothing recomputes it
//! later.

use std::fmt;
use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use crate::quantity::Exact;

/// A line of a source file, to which a number can be traced.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct Location {
    /// Path of the file, relative to the project folder, with `/` between folders.
    pub file: Arc<str>,
    /// The line, counted from 1.
    pub line: u32,
}

/// What a step does to the mass that precedes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Op {
    /// Replaces the mass by this one.
    Set(Exact),
    /// Multiplies the mass by this factor.
    Times(Exact),
    /// Adds this mass; a negative mass is taken off.
    Plus(Exact),
}

impl Op {
    /// Returns the mass after the step.
    #[must_use]
    pub fn apply(&self, before: &Exact) -> Exact {
        match self {
            Op::Set(mass) => mass.clone(),
            Op::Times(factor) => before * factor,
            Op::Plus(mass) => before + mass,
        }
    }
}

/// How a number came about, step by step.
///
/// Derivations that start with the same steps share them in memory. If rules change a load every
/// week, each week costs one more step instead of a copy of all earlier steps.
#[derive(Clone, Default)]
pub struct Derivation {
    last: Option<Arc<Link>>,
}

/// A step, linked to the steps before it.
struct Link {
    step: Step,
    before: Derivation,
    /// Number of steps up to this one, itself included.
    count: usize,
}

impl Derivation {
    /// Adds a step at the end.
    pub fn push(&mut self, step: Step) {
        let before = std::mem::take(self);
        let count = before.len() + 1;
        self.last = Some(Arc::new(Link { step, before, count }));
    }

    /// Number of steps.
    #[must_use]
    pub fn len(&self) -> usize {
        self.last.as_ref().map_or(0, |link| link.count)
    }

    /// Whether there are no steps.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.last.is_none()
    }

    /// The last step.
    #[must_use]
    pub fn last(&self) -> Option<&Step> {
        self.last.as_ref().map(|link| &link.step)
    }

    /// The steps in reverse order.
    pub fn backwards(&self) -> impl Iterator<Item = &Step> {
        let links = std::iter::successors(self.last.as_deref(), |link| link.before.last.as_deref());
        links.map(|link| &link.step)
    }

    /// The steps in order.
    #[must_use]
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
    /// Drops one step after another, because dropping a long derivation recursively would overflow
    /// the stack.
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

/// Computes the mass that a derivation leads to, from its operations alone.
#[must_use]
pub fn replay(steps: &Derivation) -> Exact {
    steps.iter().fold(Exact::zero(), |mass, step| step.op.apply(&mass))
}

/// One step of a derivation.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Step {
    /// The kind of the step.
    #[serde(flatten)]
    pub kind: StepKind,
    /// What the step does to the mass before it.
    #[serde(skip)]
    pub op: Op,
    /// The mass after this step.
    #[serde(rename = "result_kg")]
    pub result: Exact,
    /// The line that caused the step; `None` for a default.
    #[serde(rename = "location", skip_serializing_if = "Option::is_none")]
    pub line: Option<Location>,
}

/// The kind of a step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "step", rename_all = "kebab-case")]
pub enum StepKind {
    /// A mass written in a line.
    Stated,
    /// A tested 1RM.
    Tested {
        /// The lift.
        lift: String,
    },
    /// A 1RM estimated from a set of several repetitions.
    Estimated {
        /// The lift.
        lift: String,
        /// The load that was lifted.
        #[serde(rename = "load_kg")]
        load: Exact,
        /// The repetitions that were done.
        reps: u32,
        /// Name of the equation.
        equation: String,
        /// The factor by which the equation multiplies the load, as a decimal.
        factor: String,
    },
    /// A 1RM taken as a percentage of another lift's 1RM.
    Derived {
        /// The lift.
        lift: String,
        /// The lift whose 1RM is used.
        from: String,
        /// The percentage, as written.
        percent: String,
    },
    /// The training max: a percentage of the 1RM.
    TrainingMax {
        /// The percentage.
        percent: String,
    },
    /// A percentage of the value before it.
    Percent {
        /// The percentage.
        percent: String,
    },
    /// A percentage of the line's top set.
    OfTopSet {
        /// The percentage.
        percent: String,
    },
    /// A load chosen for the requested effort: it leaves the repetitions in reserve that the effort
    /// means.
    FromEffort {
        /// The requested effort, as written.
        effort: String,
        /// The repetitions of the set.
        reps: u32,
        /// Name of the equation whose inverse was used.
        equation: String,
        /// The share of the 1RM, as a decimal.
        factor: String,
    },
    /// The load of the latest session.
    Last,
    /// A step added for each week or session.
    Step {
        /// The step, as written.
        by: String,
        /// How many times it was added.
        times: u32,
        /// The percentage after the step, if the step changes a percentage.
        #[serde(skip_serializing_if = "Option::is_none")]
        to_percent: Option<String>,
    },
    /// A mass added in the load as written.
    Plus,
    /// A rule that changed the working load.
    Rule {
        /// The rule, as written.
        rule: String,
        /// The session that the rule acted on.
        session: String,
        /// Whether that session is not logged yet.
        projected: bool,
    },
    /// A rule that changed the training max.
    MaxRule {
        /// The rule, as written.
        rule: String,
        /// The session that the rule acted on.
        session: String,
        /// Whether that session is not logged yet.
        projected: bool,
    },
    /// The load change of a phase.
    Phase {
        /// Name of the phase.
        name: String,
        /// The change, as written.
        change: String,
    },
    /// The lower load of a drop set.
    Drop {
        /// The change, as written.
        change: String,
    },
    /// A percentage of the working load, in a ramp.
    Ramp {
        /// The percentage.
        percent: String,
    },
    /// A negative load raised to zero.
    NoLess,
    /// The body mass, subtracted from a load of the whole system.
    LessBodyMass,
    /// A phase or a rule takes off no more than the load that was added to the body mass.
    NoAssistance,
    /// Assistance smaller than can be set up, so that the load is the body mass alone.
    LittleAssistance,
    /// Rounding, if the gym lists no sizes to choose from.
    Rounded {
        /// Rounded to a multiple of this, such as `0.5 kg`.
        to: String,
    },
    /// The load that the gym can build.
    Built {
        /// The direction of rounding: `nearest` or `down`.
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
