//! Several sheets of a plan in one PDF.

use crate::plan::Plan;

use super::card::Deck;
use super::labels::{ENGLISH, Labels, fill};
use super::pdf::{self, Bookmark, Description};
use super::{CardOptions, Rendered, SheetError, block, card, missing, rack};

/// A kind of sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sheet {
    /// A card for each session of each athlete.
    Card,
    /// All weeks of an athlete side by side.
    Block,
    /// A session of the whole squad, lift by lift.
    Rack,
}

impl Sheet {
    /// All of them.
    pub const ALL: [Sheet; 3] = [Sheet::Card, Sheet::Block, Sheet::Rack];

    /// What it is called, of several.
    #[must_use]
    pub fn name(self, labels: &Labels) -> &'static str {
        match self {
            Sheet::Card => labels.broad.cards,
            Sheet::Block => labels.broad.block,
            Sheet::Rack => labels.broad.rack,
        }
    }

    fn deck(self, plan: &Plan, options: &CardOptions) -> Deck {
        match self {
            Sheet::Card => card::deck(plan, options.paper),
            Sheet::Block => block::deck(plan, options),
            Sheet::Rack => rack::deck(plan, options),
        }
    }
}

/// What a sheet is called in English, for messages.
#[must_use]
pub fn sheet_name(sheet: Sheet) -> String {
    sheet.name(&ENGLISH).to_lowercase()
}

/// Lays out some sheets, one kind after the other; with a bookmark a kind when there are several.
/// Sheets are of the size that suits them: a card on the paper that was asked for, the others on
/// the whole sheet that it is cut from.
fn deck(plan: &Plan, sheets: &[Sheet], options: &CardOptions) -> Deck {
    let labels = Labels::of(&plan.language);
    let mut all = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    for sheet in sheets {
        let page = all.pages.len();
        let Deck { pages, mut bookmarks } = sheet.deck(plan, options);
        if pages.is_empty() {
            continue;
        }
        later(&mut bookmarks, page);
        all.pages.extend(pages);
        if sheets.len() > 1 {
            let text = sheet.name(labels).to_owned();
            all.bookmarks.push(Bookmark { text, page, below: bookmarks });
        } else {
            all.bookmarks.extend(bookmarks);
        }
    }
    all
}

/// Moves bookmarks by some pages.
fn later(bookmarks: &mut [Bookmark], pages: usize) {
    for bookmark in bookmarks {
        bookmark.page += pages;
        later(&mut bookmark.below, pages);
    }
}

/// Renders sheets of every athlete as one PDF, in the order given.
///
/// # Errors
/// [`SheetError`] when the plan has no session, or when the PDF cannot be put together.
pub fn print(
    plan: &Plan,
    sheets: &[Sheet],
    options: &CardOptions,
) -> Result<Rendered, SheetError> {
    let Deck { pages, bookmarks } = deck(plan, sheets, options);
    if pages.is_empty() {
        return Err(SheetError::NoSessions);
    }
    let labels = Labels::of(&plan.language);
    let title = if sheets == [Sheet::Card] { labels.title } else { labels.broad.title };
    let description = Description {
        title: fill(title, &[&plan.programme]),
        language: labels.language.to_owned(),
        created: options.created,
        bookmarks,
    };
    let bytes = pdf::write(&pages, &description)?;
    Ok(Rendered { bytes, pages: pages.len(), missing: missing(&pages) })
}
