//! Several sheets of a plan in one PDF.

use std::ops::Range;

use crate::plan::Plan;

use super::card::Deck;
use super::labels::{ENGLISH, Labels, fill};
use super::layout::Page;
use super::pdf::{Book, Bookmark, Description};
use super::wall::Poster;
use super::{
    CardOptions, Picture, Pictures, Rendered, SheetError, block, missing, overview, png, rack, svg,
    wall,
};

/// A kind of sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sheet {
    /// A card for each session of each athlete.
    Card,
    /// All weeks of an athlete side by side.
    Block,
    /// A session of the whole squad, lift by lift.
    Rack,
    /// An athlete's block on one page.
    Overview,
    /// An exercise in large type.
    Wall,
}

impl Sheet {
    /// All of them.
    pub const ALL: [Sheet; 5] =
        [Sheet::Card, Sheet::Block, Sheet::Rack, Sheet::Overview, Sheet::Wall];

    /// What some of them are called.
    fn name(self, labels: &Labels) -> &'static str {
        let labels = labels.broad;
        match self {
            Sheet::Card => labels.cards,
            Sheet::Block => labels.block_sheets,
            Sheet::Rack => labels.rack_sheets,
            Sheet::Overview => labels.overviews,
            Sheet::Wall => labels.wall,
        }
    }

    /// What some of them are called in messages, which are English.
    #[must_use]
    pub fn told(self) -> String {
        self.name(&ENGLISH).to_lowercase()
    }

    fn deck(self, plan: &Plan, posters: &[Poster], options: &CardOptions) -> Deck {
        match self {
            Sheet::Card => super::deck(plan, options),
            Sheet::Block => block::deck(plan, options),
            Sheet::Rack => rack::deck(plan, options),
            Sheet::Overview => overview::deck(plan, options),
            Sheet::Wall => wall::deck(plan, posters, options),
        }
    }
}

/// What is printed.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// The kinds of sheets, in order.
    pub sheets: Vec<Sheet>,
    /// The exercises of wall cards.
    pub posters: Vec<Poster>,
}

impl Default for Wanted {
    /// Session cards.
    fn default() -> Self {
        Self { sheets: vec![Sheet::Card], posters: Vec::new() }
    }
}

/// Lays out some sheets, one kind after the other; with a bookmark a kind when there are several.
/// Sheets are of the size that suits them: a card on the paper that was asked for, the others on
/// the whole sheet that it is cut from. Gives also the pages that are shown turned by a quarter:
/// cards, where two share a sheet that stands upright.
pub fn deck(plan: &Plan, wanted: &Wanted, options: &CardOptions) -> (Deck, Range<usize>) {
    let labels = Labels::of(&plan.language);
    let mut all = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    let mut turned = 0..0;
    for sheet in &wanted.sheets {
        let page = all.pages.len();
        let Deck { pages, mut bookmarks } = sheet.deck(plan, &wanted.posters, options);
        if pages.is_empty() {
            continue;
        }
        later(&mut bookmarks, page);
        all.pages.extend(pages);
        if *sheet == Sheet::Card && options.turned() {
            turned = page..all.pages.len();
        }
        if wanted.sheets.len() > 1 {
            let text = sheet.name(labels).to_owned();
            all.bookmarks.push(Bookmark { text, page, below: bookmarks });
        } else {
            all.bookmarks.extend(bookmarks);
        }
    }
    (all, turned)
}

/// Moves bookmarks by some pages.
fn later(bookmarks: &mut [Bookmark], pages: usize) {
    for bookmark in bookmarks {
        bookmark.page += pages;
        later(&mut bookmark.below, pages);
    }
}

/// What the document is called.
fn title(plan: &Plan, wanted: &Wanted, options: &CardOptions) -> String {
    let labels = Labels::of(&plan.language);
    if wanted.sheets == [Sheet::Card] {
        return super::title(plan, options, labels);
    }
    fill(labels.broad.title, &[&plan.programme])
}

/// Renders sheets as one PDF, in the order given.
///
/// # Errors
/// [`SheetError`] when there is nothing to print, or when the PDF cannot be put together.
pub fn print(plan: &Plan, wanted: &Wanted, options: &CardOptions) -> Result<Rendered, SheetError> {
    let (Deck { pages, bookmarks }, turned) = deck(plan, wanted, options);
    if pages.is_empty() {
        return Err(SheetError::NoSessions);
    }
    let description = Description {
        title: title(plan, wanted, options),
        language: Labels::of(&plan.language).language.to_owned(),
        created: options.created,
        bookmarks,
    };
    let mut book = Book::default();
    let (upright, rest) = pages.split_at(turned.start.min(pages.len()));
    let (lying, after) = rest.split_at(turned.len().min(rest.len()));
    for (part, turned) in [(upright, false), (lying, true), (after, false)] {
        book.add(part, turned)?;
    }
    let bytes = book.finish(&description)?;
    Ok(Rendered { bytes, pages: pages.len(), missing: missing(&pages) })
}

/// Renders sheets as images, one a page.
///
/// # Errors
/// [`SheetError`] when there is nothing to print, or a page cannot be drawn at this resolution.
pub fn pictures(
    plan: &Plan,
    wanted: &Wanted,
    options: &CardOptions,
    picture: Picture,
) -> Result<Pictures, SheetError> {
    let (deck, turned) = deck(plan, wanted, options);
    if deck.pages.is_empty() {
        return Err(SheetError::NoSessions);
    }
    let labels = Labels::of(&plan.language);
    let title = title(plan, wanted, options);
    let all = deck.pages.len().to_string();
    let draw = |(page, number): (&Page, usize)| {
        let turned = turned.contains(&(number - 1));
        match picture {
            Picture::Svg => {
                let number = fill(labels.page_of, &[&number.to_string(), &all]);
                let title = format!("{title}, {number}");
                let caption = svg::Caption { title: &title, language: labels.language, turned };
                Ok(svg::write(page, caption).into_bytes())
            }
            Picture::Png(dots) => png::write(page, dots, turned),
        }
    };
    let pages = deck.pages.iter().zip(1..).map(draw).collect::<Result<_, _>>()?;
    Ok(Pictures { pages, missing: missing(&deck.pages) })
}
