//! Cancels an evaluation whose result is no longer needed.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// A token that cancels an evaluation. It can be shared between threads and cannot be reset.
#[derive(Clone, Debug, Default)]
pub struct CancelToken(Arc<AtomicBool>);

impl CancelToken {
    /// Cancels the evaluation: it ends without a result.
    pub fn ask(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Whether the evaluation is cancelled.
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
