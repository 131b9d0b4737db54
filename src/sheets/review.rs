//! The review as PDF and as text: plan against results.

mod page;
mod panels;
mod squad;
mod text;
mod words;

#[cfg(test)]
mod geometry_tests;

pub use text::text;

use super::labels::{Labels, fill};
use super::layout::Page;
use super::pdf::{self, Bookmark, Description};
use super::{Rendered, SheetError, missing};
use crate::history::Review;

/// Lays out the pages, the squad first if there are several athletes.
fn deck(review: &Review) -> (Vec<Page>, Vec<Bookmark>) {
    let review = &*review.named();
    let labels = Labels::of(&review.language).review;
    let (mut all, mut bookmarks) = (Vec::new(), Vec::new());
    if review.athletes.len() > 1 {
        let text = labels.look_first.to_owned();
        bookmarks.push(Bookmark { text, page: 0, below: Vec::new() });
        all.extend(squad::pages(review));
    }
    for athlete in &review.athletes {
        let text = athlete.name.clone();
        bookmarks.push(Bookmark { text, page: all.len(), below: Vec::new() });
        let number = all.len() + 1;
        all.extend(page::pages(review, athlete, number));
    }
    (all, bookmarks)
}

/// Renders a review as A4 pages. `created` is the creation time of the document in seconds since
/// 1970.
///
/// # Errors
/// [`SheetError`] if there is no athlete to review or the PDF cannot be assembled.
pub fn pdf(review: &Review, created: Option<i64>) -> Result<Rendered, SheetError> {
    let (pages, bookmarks) = deck(review);
    if pages.is_empty() {
        return Err(SheetError::NoSessions);
    }
    let labels = Labels::of(&review.language);
    let description = Description {
        title: fill(labels.review.title, &[&review.programme]),
        language: labels.language.to_owned(),
        created,
        bookmarks,
    };
    let bytes = pdf::write(&pages, &description)?;
    Ok(Rendered { bytes, pages: pages.len(), missing: missing(&pages) })
}
