//! Equipment, and what athletes must avoid, in the detail that users of the plan need.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::schema::IsoDate;
use crate::quantity::Mass;

/// What an exercise is loaded with in the athlete's gym, in the notation's words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Equipment {
    /// A bar with plates.
    Barbell,
    /// A pair of dumbbells.
    Dumbbells,
    /// One dumbbell.
    Dumbbell,
    /// A pair of kettlebells.
    Kettlebells,
    /// One kettlebell.
    Kettlebell,
    /// A stack on a cable.
    Stack,
    /// A machine that guides the load.
    Machine,
    /// A band.
    Band,
    /// The body, with or without added load.
    #[serde(rename = "body mass")]
    BodyMass,
    /// Equipment that the gym file does not describe.
    Other,
}

/// A bar of the athlete's gym.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct GymBar {
    /// The name of the bar, if it has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Mass of the bar.
    #[serde(rename = "mass_kg")]
    pub mass: Mass,
}

/// Something that an athlete must avoid.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Avoided {
    /// Name of an exercise, a movement pattern or a muscle.
    pub name: String,
    /// The last day on which it must be avoided.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<IsoDate>")]
    pub until: Option<Date>,
}
