//! Nothing leaves its page.
