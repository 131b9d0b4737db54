//!
//! Pure functions over exact quantities. Every number from outside the project names its source, and
//! marks it as `tests/trade/` does: seen in the source, quoted elsewhere, or from memory.

mod bells;
mod estimate;
mod hung;
mod ladder;
mod loading;
mod stock;
mod sums;

pub use bells::MassList;
pub use estimate::Equation;
pub use hung::HungLoads;
pub use loading::BarLoads;
pub use stock::{Bar, Plate, Rounding};
pub use sums::TooManyLoads;
