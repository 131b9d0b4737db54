//! What the benches measure with: programmes of any size, and the stages of the pipeline.
#![allow(dead_code, reason = "each bench uses its part")]

pub mod programme;
pub mod stage;
