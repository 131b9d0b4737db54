//! Strength calculations: estimates of the 1RM, loads from a gym's plates, warm-up ramps.
//!
//! All functions are pure and use exact quantities. Every number from outside the project names its
//! source, with the marks of `tests/trade/`: seen in the source, quoted elsewhere, or from memory.

mod bells;
mod estimate;
mod hung;
mod ladder;
mod loading;
mod ramp;
mod stock;
mod sums;

pub use bells::MassList;
pub use estimate::Equation;
pub use hung::HungLoads;
pub use loading::BarLoads;
pub use ramp::{RampTarget, ramp};
pub use stock::{Bar, Plate, Rounding};
pub use sums::TooManyLoads;
