//! The sheets: printed session cards, other printed sheets, and the text summary.
//!
//! Their only input is a [`Plan`]; no module here knows about syntax. `layout` measures and places
//! text and shapes, `card` and the other folders design the sheets, and `pdf`, `svg` and `png` draw
//! the resulting display list. `labels` contains all printed words, and `wording` formats sets as
//! text.

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

/// The caller's choices for the cards.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CardOptions {
    /// The paper they are printed on. If two cards share a sheet, the sheet is the next larger
    /// paper of the same kind.
    pub paper: Paper,
    /// Creation time of the document in seconds since 1970 (`SOURCE_DATE_EPOCH`). No code here
    /// reads a clock; without this value, the document has no date.
    pub created: Option<i64>,
    /// Draw plates in competition colours instead of black and white.
    pub plate_colours: bool,
    /// Print type at 1.5 times its size, for readers with low vision or a card on a wall. Sessions
    /// take more pages.
    pub large_print: bool,
    /// Put the boxes to the left of the text, where a left-handed writer does not cover it.
    pub left_handed: bool,
    /// Print two cards on each larger sheet, to be cut apart.
    pub two_up: Option<TwoUp>,
    /// Who the copy is for.
    pub copy: CardCopy,
    /// Print cards and rack sheets only for sessions that are still ahead, according to the logs.
    pub to_come: bool,
}

impl CardOptions {
    /// The paper of one card: half of the sheet if two share one.
    #[must_use]
    pub fn card(&self) -> Paper {
        if self.two_up.is_some() { self.paper.half() } else { self.paper }
    }

    /// Whether finished sheets are rotated by 90°.
    fn turned(&self) -> bool {
        self.two_up == Some(TwoUp::Portrait)
    }
}

/// Who a copy of a card is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CardCopy {
    /// The athlete's.
    #[default]
    Athlete,
    /// The coach's: the same card, with derivations of loads and with sources.
    Coach,
}

/// Finished sheets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rendered {
    /// The PDF.
    pub bytes: Vec<u8>,
    /// Number of pages.
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
    /// The printed text that contains it.
    pub text: String,
}

/// Why the sheets could not be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetError {
    /// The plan has no session, and a PDF needs at least one page.
    NoSessions,
    /// The card font could not be reduced to the characters that are used.
    Font(String),
    /// The PDF could not be assembled.
    Pdf(String),
    /// A page could not be drawn as an image.
    Image(String),
    /// The output could not be written.
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

/// Whether the sheets can print a character: the font has it, or it is an invisible control
/// character.
#[must_use]
pub fn covers(character: char) -> bool {
    layout::is_set(character)
}

/// Renders a card for every session of every athlete, as one PDF.
///
/// # Errors
/// [`SheetError`] if the plan has no session or the PDF cannot be assembled.
pub fn cards(plan: &Plan, options: &CardOptions) -> Result<Rendered, SheetError> {
    print(plan, &Wanted::default(), options)
}

/// The image format of pages, one image for each page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Picture {
    /// Vector shapes, without fonts.
    Svg,
    /// A bitmap, in dots per inch.
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

/// Renders a card for every session of every athlete, one image for each page.
///
/// # Errors
/// [`SheetError`] if the plan has no session or a page cannot be drawn at this resolution.
pub fn card_pictures(
    plan: &Plan,
    options: &CardOptions,
    picture: Picture,
) -> Result<Pictures, SheetError> {
    pictures(plan, &Wanted::default(), options, picture)
}

/// The title of a document of cards.
fn title(plan: &Plan, options: &CardOptions, labels: &labels::Labels) -> String {
    let title = match options.copy {
        CardCopy::Athlete => labels.title,
        CardCopy::Coach => labels.title_coach,
    };
    labels::fill(title, &[&plan.programme])
}

/// The pages of the cards as they are printed.
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
