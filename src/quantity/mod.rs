//! Exact quantities: masses, percentages, repetitions, effort, durations, tempo.
//!
//! This module is independent of files, syntax and people. Masses are integers in a unit in which
//! both a gram and 0.001 lb are whole, so kilograms and pounds can be mixed without drift.

mod amount;
mod effort;
mod exact;
mod mass;
mod names;
mod reps;
mod schema;
mod time;

pub use amount::Decimal;
pub use effort::{Effort, HalfPoints};
pub use exact::Exact;
pub use mass::{Mass, Unit};
pub use names::{composed, fold_name};
pub use reps::{RepCount, Reps, SideRest, Work};
pub use time::{Duration, Tempo, TempoPart};
