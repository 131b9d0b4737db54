//! Text to trees, diagnostics and canonical form.

#[path = "notation/canonical.rs"]
mod canonical;
#[path = "notation/pages.rs"]
mod pages;
