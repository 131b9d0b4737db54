//! Adding a plan up: hard sets, volume load and intensity, by session, week, lift, muscle and
//! movement pattern. What is planned is added up here and nowhere else.
//!
//! Conventions, the same everywhere:
//! - A *hard set* is a working set: warm-ups and drops are left out (warm-ups do not count as volume:
//!   Haff & Triplett 2016, Essentials of Strength Training and Conditioning, ch. 17).
//! - *Volume load* is repetitions times load, of what really moves: both dumbbells or kettlebells of
//!   a pair, both sides of a one-sided set, body mass with what is added to it where the body mass
//!   is known (the handbook's "system mass"). What is planned counts the least that makes a set: an
//!   AMRAP set counts one repetition. Sets by time or distance, and sets without a known load, have
//!   none.
//! - *Average load* is volume load divided by the repetitions it was made with (the same chapter).
//! - *Average intensity* is what planned hard sets ask for in percent of the exercise's own tested
//!   or estimated 1RM (before rounding to what the gym can build), over the sets whose target and
//!   1RM are known, in two ways: the plain mean over sets, and the mean over repetitions, which is
//!   the average load in percent of the 1RM. A percentage of a training max or of another lift's
//!   max is turned into one of the exercise's own 1RM; without that, the set has no intensity.
//! - Hard sets and volume load of a *muscle* are counted directly (share one), indirectly (a lower
//!   share), and fractionally: each set by its share (Pelland et al. 2024, preprint: fractional
//!   counting is the best supported).
//!
//! Nothing here says what a number means for somebody's health.

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

/// A number with its name, as JSON and CSV have it: the unit is part of the name.
pub type Measure = (&'static str, Decimal);

/// Each session with the body mass on that day: what was logged then or last before, else what the
/// athlete's file says.
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

/// A mass in kilograms, to the gram.
fn in_kg(mass: &Exact) -> Decimal {
    (mass / &Exact::from_mass(Mass::from_kg(1))).to_decimal(3)
}

/// Writes measures as the fields of an object.
fn fields<S: Serializer>(measures: &[Measure], serializer: S) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(Some(measures.len()))?;
    for (name, value) in measures {
        map.serialize_entry(name, value)?;
    }
    map.end()
}

/// A mass as kilograms, to the gram.
pub(crate) fn kg<S: Serializer>(mass: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    in_kg(mass).serialize(serializer)
}

/// A number to three decimals.
pub(crate) fn number<S: Serializer>(number: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    number.to_decimal(3).serialize(serializer)
}
