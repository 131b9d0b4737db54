//! The sheets: the printed session card and the text summary.
//!
//! Their only input is a [`Plan`]; nothing here knows of syntax. `layout` measures and places,
//! `card` designs the card, `pdf` turns a display list into bytes, `labels` holds every word that
//! is printed, and `wording` puts sets into words.

mod block;
mod card;
mod columns;
pub mod labels;
mod layout;
mod leaf;
mod overview;
mod paper;
mod pdf;
mod plates;
mod plot;
mod png;
mod qr;
mod rack;
mod reasons;
mod render;
mod review;
mod runs;
mod summary;
mod svg;
mod together;
mod two_up;
mod wall;
mod weekly;
pub mod wording;

#[cfg(test)]
mod broad_tests;
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
pub use render::{PdfRenderer, Printed, Sheet, Wanted, pictures, print};
pub use review::{pdf as review_pdf, text as review_text};
pub use summary::lines::{FIXED, WrappedText};
pub use summary::{session_summary, summary, summary_athletes, summary_end, summary_head};
pub use two_up::TwoUp;
pub use wall::Poster;
pub use weekly::text as weekly_text;

use crate::plan::Plan;

/// What the caller decides about the cards.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CardOptions {
    /// The paper they are printed on. Where two share a sheet, the sheet is the bigger paper of the
    /// same kind.
    pub paper: Paper,
    /// When the document says it was made, in seconds since 1970 (`SOURCE_DATE_EPOCH`). Nothing
    /// here asks a clock: without it the document bears no date.
    pub created: Option<i64>,
    /// Plates in the colours of the competition rules, instead of black and white.
    pub plate_colours: bool,
    /// Type half as big again: for weak eyes, or a card on a wall. Sessions take more pages.
    pub large_print: bool,
    /// Boxes left of the text, where a left hand that writes does not cover it.
    pub left_handed: bool,
    /// Two cards on each sheet of the bigger paper, to be cut apart.
    pub two_up: Option<TwoUp>,
    /// Whose copy it is.
    pub copy: CardCopy,
    /// Cards and rack sheets only of sessions that are still to come, as far as the logs say.
    pub to_come: bool,
}

impl CardOptions {
    /// The paper of one card: half of the sheet's, where two share one.
    #[must_use]
    pub fn card(&self) -> Paper {
        if self.two_up.is_some() { self.paper.half() } else { self.paper }
    }

    /// Whether finished sheets are turned by a quarter.
    fn turned(&self) -> bool {
        self.two_up == Some(TwoUp::Portrait)
    }
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
    /// A page could not be drawn as an image.
    Image(String),
    /// What the sheets are written to does not take them.
    Write(String),
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SheetError::NoSessions => f.write_str("the plan has no session to print"),
            SheetError::Font(why) => write!(f, "the card font cannot be embedded: {why}"),
            SheetError::Image(why) => write!(f, "the page cannot be drawn: {why}"),
            SheetError::Write(why) => f.write_str(why),
            SheetError::Pdf(why) => write!(f, "the PDF cannot be written: {why}"),
        }
    }
}

impl std::error::Error for SheetError {}

/// Whether the sheets can print a character: in their font, or as nothing where it only steers
/// other programs.
#[must_use]
pub fn covers(character: char) -> bool {
    layout::is_set(character)
}

/// Renders a card for every session of every athlete, as one PDF.
///
/// # Errors
/// [`SheetError`] when the plan has no session, or when the PDF cannot be put together.
pub fn cards(plan: &Plan, options: &CardOptions) -> Result<Rendered, SheetError> {
    print(plan, &Wanted::default(), options)
}

/// How pages are drawn as images, one a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Picture {
    /// Shapes: as sharp as any printer, without a font.
    Svg,
    /// Dots: so many to the inch.
    Png(u16),
}

/// Finished cards as images.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pictures {
    /// The bytes of each page's file, in order.
    pub pages: Vec<Vec<u8>>,
    /// The characters that the card font lacks.
    pub missing: Vec<MissingGlyph>,
}

/// Renders a card for every session of every athlete, as an image a page.
///
/// # Errors
/// [`SheetError`] when the plan has no session, or a page cannot be drawn at this resolution.
pub fn card_pictures(
    plan: &Plan,
    options: &CardOptions,
    picture: Picture,
) -> Result<Pictures, SheetError> {
    pictures(plan, &Wanted::default(), options, picture)
}

/// What a document of cards is called.
fn title(plan: &Plan, options: &CardOptions, labels: &labels::Labels) -> String {
    let title = match options.copy {
        CardCopy::Athlete => labels.title,
        CardCopy::Coach => labels.title_coach,
    };
    labels::fill(title, &[&plan.programme])
}

/// The cards' pages as they are printed.
fn deck(plan: &Plan, options: &CardOptions) -> card::Deck {
    let deck = card::deck(plan, options);
    match options.two_up {
        Some(_) => two_up::sheets(deck, options.paper),
        None => deck,
    }
}

/// The characters that the card font lacks, sorted, each text once.
fn missing<'p>(pages: impl IntoIterator<Item = &'p layout::Page>) -> Vec<MissingGlyph> {
    let items = pages.into_iter().flat_map(|page| &page.items);
    let found: BTreeSet<MissingGlyph> = items
        .filter_map(|item| match item {
            layout::Shape::Missing { character, text, .. } => {
                Some(MissingGlyph { character: *character, text: text.clone() })
            }
            _ => None,
        })
        .collect();
    found.into_iter().collect()
}
