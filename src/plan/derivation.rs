//! How a number came about: recorded by the evaluator, step by step, never recomputed later.

use serde::Serialize;

use crate::quantity::Exact;

/// A line of a source file: what a number can be traced to.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Where {
    /// The file, relative to the project folder, with `/` between folders.
    pub file: String,
    /// The line, counted from one.
    pub line: u32,
}

/// One step of a derivation.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Step {
    /// What was done.
    #[serde(flatten)]
    pub kind: StepKind,
    /// The mass after this step.
    #[serde(rename = "result_kg")]
    pub result: Exact,
    /// The line that asked for it; `None` for a default.
    #[serde(rename = "source", skip_serializing_if = "Option::is_none")]
    pub line: Option<Where>,
}

/// What a step does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
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
    },
    /// A mass added by the load as written.
    Plus,
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
    /// The body mass, taken off a load of the whole system.
    LessBodyMass,
    /// What the gym can build.
    Built {
        /// How it was rounded: `nearest` or `down`.
        rounding: String,
    },
}
