//! One planned set.

use schemars::JsonSchema;
use serde::Serialize;

use super::Derivation;
use crate::quantity::{Duration, Effort, Exact, Mass, Reps, Tempo, Unit};

/// What a set is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SetKind {
    /// Part of the ramp to the working load; does not count as work.
    WarmUp,
    /// A working set.
    Work,
    /// A set whose load is a share of the top set's.
    BackOff,
    /// A lighter set straight after another.
    Drop,
}

/// One set: what to do, with what, and where the numbers come from.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedSet {
    /// What the set is for.
    pub kind: SetKind,
    /// Repetitions, time or distance.
    pub reps: Reps,
    /// The exact load that was asked for, as a fraction in the unit of [`Mass`]: of the whole bar,
    /// of one dumbbell, added to (or, below zero, taken off) the body mass. `None` when the load is
    /// left to the day.
    pub target: Option<Exact>,
    /// The target as a share of the 1RM of the exercise that is done, exact; of the whole system
    /// where that is lifted on the body mass. `None` where no target or no 1RM is known.
    pub share_of_1rm: Option<Exact>,
    /// What the gym can build. `None` when the load is left to the day.
    pub load: Option<Built>,
    /// The line states a load of another exercise, which this one replaces: the athlete's own has to
    /// be chosen.
    pub to_choose: bool,
    /// The load is a body-mass load: the target and the load are what is added to it.
    pub bodyweight: bool,
    /// The load is estimated from an effort: a starting point, not an order.
    pub about: bool,
    /// The nearest load differs from the target by more than the gym's smallest step: show both.
    pub off_target: bool,
    /// What else of the exercise's equipment makes the target exactly in this gym, as an
    /// `equipment` line has it; only where the load is off target.
    pub exact_with: Option<String>,
    /// The effort asked for, or not to pass.
    pub effort: Option<Effort>,
    /// Rest after the set.
    pub rest: Option<Duration>,
    /// The tempo.
    pub tempo: Option<Tempo>,
    /// The range of motion.
    pub range: Option<String>,
    /// A set on each interval of this length.
    pub every: Option<Duration>,
    /// Short pauses after which the set goes on.
    pub rest_pause: Option<Duration>,
    /// Which set group of the line it comes from, counted from zero. Warm-ups belong to group zero.
    pub group: usize,
    /// How the load came about, in order.
    pub derivation: Derivation,
}

/// A load made from real things.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Built {
    /// The mass the athlete reads: bar, plates and collars together; of *one* dumbbell or
    /// kettlebell; the pin of a stack; what is added to the body mass (negative: assistance).
    pub mass: Mass,
    /// What it is made of.
    pub how: Implement,
}

/// What a load is made of.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Implement {
    /// A bar with the same plates on both sides.
    Bar {
        /// The empty bar.
        bar: Mass,
        /// Its name, when it has one.
        name: Option<String>,
        /// Both collars together.
        collars: Mass,
        /// The plates of one side, heaviest (innermost) first.
        per_side: Vec<Mass>,
    },
    /// A pair of dumbbells.
    Dumbbells,
    /// One dumbbell.
    Dumbbell,
    /// A pair of kettlebells.
    Kettlebells,
    /// One kettlebell.
    Kettlebell,
    /// A pin in a stack.
    Stack {
        /// The stack's name.
        name: String,
    },
    /// A band.
    Band {
        /// Its name.
        name: String,
    },
    /// The body, with what is hung on it, heaviest first.
    BodyMass {
        /// The pieces that make the added load.
        pieces: Vec<Mass>,
    },
    /// Something the gym file does not describe: the load stands as asked.
    Other,
}

impl Implement {
    /// The names that [`Implement::key`] gives, in the order of the variants.
    pub const KEYS: [&'static str; 9] = [
        "bar",
        "dumbbells",
        "dumbbell",
        "kettlebells",
        "kettlebell",
        "stack",
        "band",
        "body mass",
        "other",
    ];

    /// A short stable name for tools.
    #[must_use]
    pub fn key(&self) -> &'static str {
        let [bar, dumbbells, dumbbell, kettlebells, kettlebell, stack, band, body_mass, other] =
            Self::KEYS;
        match self {
            Implement::Bar { .. } => bar,
            Implement::Dumbbells => dumbbells,
            Implement::Dumbbell => dumbbell,
            Implement::Kettlebells => kettlebells,
            Implement::Kettlebell => kettlebell,
            Implement::Stack { .. } => stack,
            Implement::Band { .. } => band,
            Implement::BodyMass { .. } => body_mass,
            Implement::Other => other,
        }
    }
}

impl PlannedSet {
    /// Whether the body is lifted, with what is added to it.
    #[must_use]
    pub fn lifts_body(&self) -> bool {
        let how = self.load.as_ref().map(|built| &built.how);
        self.bodyweight || matches!(how, Some(Implement::BodyMass { .. }))
    }

    /// The share of the 1RM that the set comes to: the target's, and the built load's where the gym
    /// cannot come near the target.
    #[must_use]
    pub fn share_in_hand(&self) -> Option<Exact> {
        let share = self.share_of_1rm.clone()?;
        if !self.off_target || self.lifts_body() {
            return Some(share);
        }
        let built = Exact::from_mass(self.load.as_ref()?.mass);
        built.checked_div(self.target.as_ref()?).map(|part| &share * &part)
    }

    /// The plates of one side, heaviest first; empty for anything but a loaded bar.
    #[must_use]
    pub fn plates_per_side(&self) -> &[Mass] {
        self.load.as_ref().map_or(&[], Built::per_side)
    }
}

impl Built {
    /// A load of this kind to a tenth of the unit, as a card shows a target; of a pair, both.
    #[must_use]
    pub fn shown(&self, mass: &Exact, unit: Unit) -> String {
        let one = mass / &Exact::whole(unit.in_units());
        let pair = matches!(self.how, Implement::Dumbbells | Implement::Kettlebells);
        format!("{}{} {unit}", if pair { "2 x " } else { "" }, one.to_decimal(1))
    }

    /// The plates of one side, heaviest first; empty for anything but a loaded bar.
    #[must_use]
    pub fn per_side(&self) -> &[Mass] {
        match &self.how {
            Implement::Bar { per_side, .. } => per_side,
            _ => &[],
        }
    }
}
