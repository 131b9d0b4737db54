//! What exercises, gyms and athletes are described with.

use std::fmt;

use jiff::civil::Date;

use super::Name;
use super::number::MassText;
use super::prescription::SignedMass;
use super::show::Signed;
use crate::quantity::{Decimal, Unit};
use crate::source::Spanned;

/// A kind of equipment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EquipmentKind {
    /// A bar with plates.
    Barbell,
    /// A pair of dumbbells.
    Dumbbells,
    /// One dumbbell.
    Dumbbell,
    /// One kettlebell.
    Kettlebell,
    /// A pair of kettlebells.
    Kettlebells,
    /// A stack with a pin.
    Stack,
    /// A machine.
    Machine,
    /// A band.
    Band,
    /// Nothing but the body.
    BodyMass,
    /// Something else.
    Other,
}

impl EquipmentKind {
    /// All kinds with the words for them.
    pub const ALL: [(EquipmentKind, &'static str); 10] = [
        (EquipmentKind::Barbell, "barbell"),
        (EquipmentKind::Dumbbells, "dumbbells"),
        (EquipmentKind::Dumbbell, "dumbbell"),
        (EquipmentKind::Kettlebell, "kettlebell"),
        (EquipmentKind::Kettlebells, "kettlebells"),
        (EquipmentKind::Stack, "stack"),
        (EquipmentKind::Machine, "machine"),
        (EquipmentKind::Band, "band"),
        (EquipmentKind::BodyMass, "body mass"),
        (EquipmentKind::Other, "other"),
    ];

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(kind, _)| *kind == self).map_or("other", |(_, word)| word)
    }

    /// The kind a word stands for.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, w)| *w == word).map(|(kind, _)| *kind)
    }
}

/// What the mass on a `collars` line is the mass of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CollarsOf {
    /// Both together, as nothing else is written.
    Unsaid,
    /// Both together: `a pair`.
    Pair,
    /// One of them: `each`.
    Each,
}

impl CollarsOf {
    /// The notation's words for it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            CollarsOf::Unsaid => "",
            CollarsOf::Pair => " a pair",
            CollarsOf::Each => " each",
        }
    }
}

/// What a set of an exercise is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountedIn {
    /// Repetitions.
    Reps,
    /// Seconds: a hold.
    Seconds,
    /// Metres: a carry.
    Metres,
}

impl CountedIn {
    /// The notation's word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            CountedIn::Reps => "reps",
            CountedIn::Seconds => "seconds",
            CountedIn::Metres => "metres",
        }
    }
}

/// One piece of equipment: `stack Cable`, `other Bench`.
#[derive(Clone, Debug, PartialEq)]
pub struct EquipmentItem {
    /// Its kind.
    pub kind: EquipmentKind,
    /// Which one.
    pub name: Option<Name>,
}

impl fmt::Display for EquipmentItem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.kind.word())?;
        self.name.as_ref().map_or(Ok(()), |name| write!(f, " {name}"))
    }
}

/// A muscle with its share of the work.
#[derive(Clone, Debug, PartialEq)]
pub struct MuscleShare {
    /// The muscle.
    pub name: Name,
    /// Its share as a fraction; one if none is written.
    pub share: (u32, u32),
}

impl fmt::Display for MuscleShare {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.share {
            (a, b) if a == b => write!(f, "{}", self.name),
            (a, b) => write!(f, "{} {a}/{b}", self.name),
        }
    }
}

/// A bar of the gym.
#[derive(Clone, Debug, PartialEq)]
pub struct BarItem {
    /// Its name; the plain bars have none.
    pub name: Option<Name>,
    /// Its mass.
    pub mass: Spanned<MassText>,
}

impl fmt::Display for BarItem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(name) = &self.name {
            write!(f, "{name} ")?;
        }
        self.mass.fmt(f)
    }
}

/// Plates, bells or pins: one mass, or a run of them.
#[derive(Clone, Debug, PartialEq)]
pub struct StockItem {
    /// The first mass.
    pub first: Decimal,
    /// The last mass and the step, of a run.
    pub run: Option<(Decimal, Decimal)>,
    /// The unit of all three.
    pub unit: Unit,
    /// How many of each.
    pub count: Option<u32>,
}

impl fmt::Display for StockItem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.unit;
        match self.run {
            None => write!(f, "{} {unit}", self.first)?,
            Some((last, step)) => write!(f, "{}-{last} {unit} by {step} {unit}", self.first)?,
        }
        self.count.map_or(Ok(()), |count| write!(f, " x {count}"))
    }
}

/// How big a plate of the gym is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlateSize {
    /// Across, in millimetres.
    pub diameter_mm: u32,
    /// Along the sleeve, in millimetres.
    pub thickness_mm: u32,
}

impl fmt::Display for PlateSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} x {} mm", self.diameter_mm, self.thickness_mm)
    }
}

/// A band of the gym.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Its name.
    pub name: Name,
    /// About how much it gives.
    pub mass: Option<MassText>,
}

impl fmt::Display for Band {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.name.fmt(f)?;
        self.mass.map_or(Ok(()), |mass| write!(f, " {mass}"))
    }
}

/// What was lifted for a maximum.
#[derive(Clone, Debug, PartialEq)]
pub enum MaxLift {
    /// A mass.
    Mass(MassText),
    /// The body mass, with what was added.
    Bodyweight(Option<SignedMass>),
}

/// A maximum as written.
#[derive(Clone, Debug, PartialEq)]
pub enum MaxText {
    /// `5 @ 62.5 kg (2025-12-20)`.
    Lifted {
        /// Repetitions; one if not written.
        reps: u32,
        /// What was lifted.
        lift: MaxLift,
        /// When.
        date: Option<Date>,
    },
    /// `85% of Back squat`.
    Share(Decimal, Name),
}

impl fmt::Display for MaxText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            MaxText::Share(percent, of) => write!(f, "{percent}% of {of}"),
            MaxText::Lifted { reps, lift, date } => {
                if *reps != 1 {
                    write!(f, "{reps} @ ")?;
                }
                match lift {
                    MaxLift::Mass(mass) => mass.fmt(f)?,
                    MaxLift::Bodyweight(None) => f.write_str("bodyweight")?,
                    MaxLift::Bodyweight(Some(by)) => {
                        write!(f, "bodyweight {} {}", Signed(by.mass.value), by.mass.unit)?;
                    }
                }
                match date {
                    Some(date) if *reps == 1 => write!(f, " (tested {date})"),
                    Some(date) => write!(f, " ({date})"),
                    None => Ok(()),
                }
            }
        }
    }
}

/// A limit as written.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitText {
    /// What not to do.
    pub text: String,
    /// Who set it.
    pub who: Option<String>,
    /// The last day it holds.
    pub until: Option<Date>,
}

impl fmt::Display for LimitText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)?;
        match (&self.who, self.until) {
            (None, None) => Ok(()),
            (Some(who), None) => write!(f, " ({who})"),
            (None, Some(until)) => write!(f, " (until {until})"),
            (Some(who), Some(until)) => write!(f, " ({who}, until {until})"),
        }
    }
}
