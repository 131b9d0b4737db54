//! Sums over a plan: hard sets, volume load and intensity, by session, week, lift, muscle and
//! movement pattern. No other module sums up planned work.
//!
//! Conventions:
//! - A *hard set* is a working set, without warm-up sets and drop sets (warm-ups do not count as
//!   volume: Haff & Triplett 2016, Essentials of Strength Training and Conditioning, ch. 17).
//! - *Volume load* is repetitions times load. The load is what is really moved: both dumbbells or
//!   kettlebells of a pair, both sides of a unilateral set, and body mass plus added load if the
//!   body mass is known (the handbook's "system mass"). A planned set counts with its fewest
//!   repetitions, so an AMRAP set counts one. Sets by time or distance, and sets without a known
//!   load, have no volume load.
//! - *Average load* is volume load divided by its repetitions (the same chapter).
//! - *Average intensity* is the prescribed load of planned hard sets in percent of the exercise's
//!   own tested or estimated 1RM. It is taken before rounding to a load that the gym can build; if
//!   that load is off target by more than the gym's smallest step, the built load counts. Only sets
//!   with a known target and 1RM are included. There are two means: over sets, and over
//!   repetitions, which is the average load in percent of the 1RM. A percentage of a training max
//!   or of another lift's max is converted to the exercise's own 1RM; if that is not known, the set
//!   has no intensity.
//! - Hard sets and volume load of a *muscle* are counted directly (share 1), indirectly (a lower
//!   share), and fractionally: each set by its share (Pelland et al. 2024, preprint: fractional
//!   counting is the best supported).
//!
//! No number here is interpreted for a person's health.

mod intensity;
mod lifts;
mod muscles;
pub mod time;
mod totals;
mod weekly;
mod work;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use crate::plan::{AthletePlan, Session};
use crate::quantity::{Decimal, Exact, Mass};

pub use intensity::Intensity;
pub use lifts::{LiftTally, TopSet, is_main};
pub use muscles::MuscleSets;
pub use totals::Totals;
pub use weekly::{
    AthleteWeeks, MuscleTally, PatternTally, SessionTally, WeekTally, Weekly, weekly,
};
pub use work::{Work, moves, planned, planned_set};

/// A number with its name in JSON and CSV. The name includes the unit.
pub type Measure = (&'static str, Decimal);

/// Each session with the body mass on that day: logged then or most recently before, otherwise from
/// the athlete's file.
#[must_use]
pub fn weighed(athlete: &AthletePlan) -> Vec<(&Session, Option<Mass>)> {
    let mut now = athlete.body_mass;
    athlete
        .sessions
        .iter()
        .map(|session| {
            now = session.body_mass.or(now);
            (session, now)
        })
        .collect()
}

/// A mass in kilograms, rounded to the gram.
fn in_kg(mass: &Exact) -> Decimal {
    (mass / &Exact::from_mass(Mass::from_kg(1))).to_decimal(3)
}

/// Serialises measures as fields of an object.
fn fields<S: Serializer>(measures: &[Measure], serializer: S) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(Some(measures.len()))?;
    for (name, value) in measures {
        map.serialize_entry(name, value)?;
    }
    map.end()
}

/// Serialises a mass in kilograms, rounded to the gram.
pub(crate) fn kg<S: Serializer>(mass: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    in_kg(mass).serialize(serializer)
}

/// Serialises a number with three decimals.
pub(crate) fn number<S: Serializer>(number: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    number.to_decimal(3).serialize(serializer)
}
