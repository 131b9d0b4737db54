//! Ending an evaluation that nobody waits for any more.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// A wish that an evaluation end early. It can be handed to other threads, and once it is said it
/// holds.
#[derive(Clone, Debug, Default)]
pub struct CancelToken(Arc<AtomicBool>);

impl CancelToken {
    /// Lets the evaluation end without a result.
    pub fn ask(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Whether it shall end.
    #[must_use]
    pub fn is_asked(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wish_holds_for_all_who_were_handed_it() {
        let stop = CancelToken::default();
        let handed = stop.clone();
        assert!(!handed.is_asked());
        stop.ask();
        assert!(handed.is_asked());
    }
}
