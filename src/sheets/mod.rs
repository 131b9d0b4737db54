//! The sheets: the printed session card and the text summary.
//!
//! Their only input is a [`Plan`]; nothing here knows of syntax. `layout` measures and places,
//! `card` designs the card, `pdf` turns a display list into bytes, `labels` holds every word that
//! is printed, and `wording` puts sets into words.

mod card;
pub mod labels;
mod layout;
mod paper;
mod pdf;
mod plates;
mod reasons;
mod review;
mod runs;
mod summary;
mod weekly;
pub mod wording;

#[cfg(test)]
mod coach_tests;
#[cfg(test)]
mod fidelity_tests;
#[cfg(test)]
mod geometry_tests;
#[cfg(test)]
mod reading_tests;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod sample_plans;

use std::collections::BTreeSet;
use std::fmt;

pub use paper::Paper;
pub use reasons::{in_short, reasons};
pub use review::{pdf as review_pdf, text as review_text};
pub use summary::lines::{FIXED, Lines};
pub use summary::summary;
pub use weekly::text as weekly_text;

use crate::plan::Plan;

/// What the caller decides about the cards.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CardOptions {
    /// The paper they are printed on.
    pub paper: Paper,
    /// When the document says it was made, in seconds since 1970 (`SOURCE_DATE_EPOCH`). Nothing
    /// here asks a clock: without it the document bears no date.
    pub created: Option<i64>,
    /// Whose copy it is.
    pub copy: CardCopy,
}

/// Whose copy of a card.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CardCopy {
    /// The athlete's.
    #[default]
    Athlete,
    /// The coach's: the same card, with how its loads came about and where things come from.
    Coach,
}

/// Finished cards.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rendered {
    /// The PDF.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// The characters that the card font lacks, sorted, each text once. They are drawn as crossed
    /// boxes.
    pub missing: Vec<MissingGlyph>,
}

/// A character that the card font lacks.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct MissingGlyph {
    /// The character.
    pub character: char,
    /// The text it stands in, as printed.
    pub text: String,
}

/// Why there are no cards.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetError {
    /// The plan has no session: a PDF needs at least one page.
    NoSessions,
    /// The card font could not be cut down to what is used.
    Font(String),
    /// The PDF could not be put together.
    Pdf(String),
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SheetError::NoSessions => f.write_str("the plan has no session to print"),
            SheetError::Font(why) => write!(f, "the card font cannot be embedded: {why}"),
            SheetError::Pdf(why) => write!(f, "the PDF cannot be written: {why}"),
        }
    }
}

impl std::error::Error for SheetError {}

/// Whether the sheets' font can print a character.
#[must_use]
pub fn covers(character: char) -> bool {
    layout::Face::ALL.iter().all(|face| face.covers(character))
}

/// Renders a card for every session of every athlete, as one PDF.
///
/// # Errors
/// [`SheetError`] when the plan has no session, or when the PDF cannot be put together.
pub fn cards(plan: &Plan, options: &CardOptions) -> Result<Rendered, SheetError> {
    let deck = card::deck(plan, options);
    if deck.pages.is_empty() {
        return Err(SheetError::NoSessions);
    }
    let labels = labels::Labels::of(&plan.language);
    let title = match options.copy {
        CardCopy::Athlete => labels.title,
        CardCopy::Coach => labels.title_coach,
    };
    let description = pdf::Description {
        title: labels::fill(title, &[&plan.programme]),
        language: labels.language.to_owned(),
        created: options.created,
        bookmarks: deck.bookmarks,
    };
    let bytes = pdf::write_in(&deck.pages, &deck.languages, &description)?;
    Ok(Rendered { bytes, pages: deck.pages.len(), missing: missing(&deck.pages) })
}

/// The characters that the card font lacks, sorted, each text once.
fn missing(pages: &[layout::Page]) -> Vec<MissingGlyph> {
    let items = pages.iter().flat_map(|page| &page.items);
    let found: BTreeSet<MissingGlyph> = items
        .filter_map(|item| match item {
            layout::Item::Missing { character, text, .. } => {
                Some(MissingGlyph { character: *character, text: text.clone() })
            }
            _ => None,
        })
        .collect();
    found.into_iter().collect()
}
