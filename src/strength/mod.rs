//! What a weight room knows: estimates of a maximum.

mod estimate;

pub use estimate::Equation;
