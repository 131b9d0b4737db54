//! Strength.
