//! Programmes with rules: rules, logs, projections and derivations. Numbers are worked out by hand.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "tests stop at the first surprise"
)]

#[path = "reacting/conditions.rs"]
mod conditions;
#[path = "reacting/doubts.rs"]
mod doubts;
#[path = "reacting/light.rs"]
mod light;
#[path = "reacting/logs.rs"]
mod logs;
#[path = "reacting/paths.rs"]
mod paths;
#[path = "reacting/properties.rs"]
mod properties;
#[path = "reacting/support.rs"]
mod support;
