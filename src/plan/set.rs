//! One planned set.

use schemars::JsonSchema;
use serde::Serialize;

use super::Derivation;
use crate::quantity::{Duration, Effort, Exact, Mass, Reps, Tempo, Unit};

/// What a set is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SetKind {
    /// Part of the ramp to the working load. It does not count as work.
    WarmUp,
    /// A working set.
    Work,
    /// A set whose load is a percentage of the top set's load.
    BackOff,
    /// A lighter set straight after another, without rest.
    Drop,
}

/// One set: what to do, with what, and where the numbers come from.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedSet {
    /// What the set is for.
    pub kind: SetKind,
    /// Repetitions, time or distance.
    pub reps: Reps,
    /// The exact requested load, as a fraction in the unit of [`Mass`]: the whole bar, one
    /// dumbbell, or the load added to the body mass (negative: assistance). `None` if the load is
    /// chosen on the day.
    pub target: Option<Exact>,
    /// The target as an exact share of the exercise's 1RM. If the body is lifted too, both are
    /// counted with it. `None` if the target or the 1RM is not known.
    pub share_of_1rm: Option<Exact>,
    /// The load that the gym can build. `None` if the load is chosen on the day.
    pub load: Option<Built>,
    /// Whether the line's load was written for the exercise that this one replaces, so that the
    /// athlete has to choose a load.
    pub to_choose: bool,
    /// Whether target and load are added to the body mass.
    pub bodyweight: bool,
    /// Whether the load is estimated from an effort. It is a starting point.
    pub about: bool,
    /// Whether the nearest load differs from the target by more than the gym's smallest step. Cards
    /// then show both.
    pub off_target: bool,
    /// Another kind of equipment for this exercise that makes the target exactly in this gym, as an
    /// `equipment` line has it. It is set only if the load is off target.
    pub exact_with: Option<String>,
    /// The effort that is the target or the limit.
    pub effort: Option<Effort>,
    /// Rest after the set.
    pub rest: Option<Duration>,
    /// The tempo.
    pub tempo: Option<Tempo>,
    /// The range of motion.
    pub range: Option<String>,
    /// Length of the interval, if a set is done on each interval.
    pub every: Option<Duration>,
    /// Length of the short pauses within the set (rest-pause).
    pub rest_pause: Option<Duration>,
    /// The set group of the line that it comes from, counted from 0. Warm-up sets belong to group
    /// 0.
    pub group: usize,
    /// How the load came about, step by step.
    pub derivation: Derivation,
}

/// A load made with the equipment of a gym.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Built {
    /// The mass that the athlete reads: bar, plates and collars together; *one* dumbbell or
    /// kettlebell; the pin of a stack; the load added to the body mass (negative: assistance).
    pub mass: Mass,
    /// What the load is made of.
    pub how: Implement,
}

/// What a load is made of.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Implement {
    /// A bar with the same plates on both sides.
    Bar {
        /// The empty bar.
        bar: Mass,
        /// The bar's name, if it has one.
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
    /// A stack with a pin.
    Stack {
        /// The stack's name.
        name: String,
    },
    /// A band.
    Band {
        /// Its name.
        name: String,
    },
    /// The body, with or without added plates or other pieces.
    BodyMass {
        /// The pieces that make up the added load, heaviest first.
        pieces: Vec<Mass>,
    },
    /// Equipment that the gym file does not describe. The load is used as requested.
    Other,
}

impl Implement {
    /// The names that [`Implement::key`] returns, in the order of the variants.
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

    /// The stable short name in JSON and CSV.
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
    /// Whether the body is lifted together with the added load.
    #[must_use]
    pub fn lifts_body(&self) -> bool {
        let how = self.load.as_ref().map(|built| &built.how);
        self.bodyweight || matches!(how, Some(Implement::BodyMass { .. }))
    }

    /// The share of the 1RM that the set really has: the target's share, or the built load's if the
    /// gym cannot come near the target.
    #[must_use]
    pub fn share_in_hand(&self) -> Option<Exact> {
        let share = self.share_of_1rm.clone()?;
        if !self.off_target || self.lifts_body() {
            return Some(share);
        }
        let built = Exact::from_mass(self.load.as_ref()?.mass);
        built.checked_div(self.target.as_ref()?).map(|part| &share * &part)
    }

    /// The plates of one side, heaviest first; empty if there is no bar.
    #[must_use]
    pub fn plates_per_side(&self) -> &[Mass] {
        self.load.as_ref().map_or(&[], Built::per_side)
    }
}

impl Built {
    /// Formats a load of this kind to a tenth of the unit, as a card shows a target. For a pair,
    /// the text covers both.
    #[must_use]
    pub fn shown(&self, mass: &Exact, unit: Unit) -> String {
        let one = mass / &Exact::whole(unit.in_units());
        let pair = matches!(self.how, Implement::Dumbbells | Implement::Kettlebells);
        format!("{}{} {unit}", if pair { "2 x " } else { "" }, one.to_decimal(1))
    }

    /// The plates of one side, heaviest first; empty if there is no bar.
    #[must_use]
    pub fn per_side(&self) -> &[Mass] {
        match &self.how {
            Implement::Bar { per_side, .. } => per_side,
            _ => &[],
        }
    }
}
