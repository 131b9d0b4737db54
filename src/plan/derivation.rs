//! How a number came about: recorded by the evaluator, step by step, never recomputed later.

use std::sync::Arc;

use schemars::JsonSchema;
use serde::Serialize;

use crate::quantity::Exact;

/// A line of a source file: what a number can be traced to.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct Where {
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

/// The mass that a derivation leads to, worked out again from its operations alone.
#[must_use]
pub fn replay(steps: &[Step]) -> Exact {
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
    #[serde(rename = "source", skip_serializing_if = "Option::is_none")]
    pub line: Option<Where>,
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
