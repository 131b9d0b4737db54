//! Text to trees, diagnostics and canonical form.

#[path = "notation/canonical.rs"]
mod canonical;
#[path = "notation/cases.rs"]
mod cases;
#[path = "notation/pages.rs"]
mod pages;
