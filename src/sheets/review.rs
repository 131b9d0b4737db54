//! The review on paper and as text: plan against done.

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

/// Lays the pages out: the squad first when there are several athletes.
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

/// Renders a review as A4 pages. `created` is when the document says it was made, in seconds since
/// 1970.
///
/// # Errors
/// [`SheetError`] when there is nobody to review, or when the PDF cannot be put together.
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
