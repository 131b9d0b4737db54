//! The protocol.
