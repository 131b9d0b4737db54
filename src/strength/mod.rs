//! What a weight room knows: estimates of a maximum, loads made from real plates, warm-up ramps.
//!
//! Pure functions over exact quantities. Every number from outside the project names its source, and
//! marks it as `tests/trade/` does: seen in the source, quoted elsewhere, or from memory.

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
