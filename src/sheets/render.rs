//! Several sheets of a plan in one PDF.

use std::collections::BTreeSet;
use std::io::Write;

use rayon::prelude::*;

use crate::plan::Plan;

use super::card::{self, Deck};
use super::labels::{ENGLISH, Labels, fill};
use super::layout::Page;
use super::pdf::{Book, Bookmark, Description, shift_pages};
use super::wall::Poster;
use super::{
    CardOptions, MissingGlyph, Picture, Pictures, Rendered, SheetError, block, missing, overview,
    png, rack, svg, wall,
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

    /// Whether it is of one session: nobody needs it once that is done.
    #[must_use]
    pub fn is_by_session(self) -> bool {
        matches!(self, Sheet::Card | Sheet::Rack)
    }

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

    /// Lays these sheets out and hands them on: cards an athlete at a time, unless two share a
    /// sheet, which takes all of them at once.
    fn lay_out(
        self,
        job: &RenderJob<'_>,
        take: &mut dyn FnMut(Deck) -> RenderResult,
    ) -> RenderResult {
        let RenderJob { plan, wanted, options } = job;
        let to_come = (options.to_come && self.is_by_session()).then(|| plan.to_come());
        let plan = to_come.as_deref().unwrap_or(plan);
        match self {
            Sheet::Card if options.two_up.is_none() => card::decks(plan, options, take),
            Sheet::Card => take(super::deck(plan, options)),
            Sheet::Block => take(block::deck(plan, options)),
            Sheet::Rack => take(rack::deck(plan, options)),
            Sheet::Overview => take(overview::deck(plan, options)),
            Sheet::Wall => take(wall::deck(plan, &wanted.posters, options)),
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

/// Whether it can go on.
type RenderResult = Result<(), SheetError>;

/// What is printed of what, and how.
pub struct RenderJob<'a> {
    pub plan: &'a Plan,
    pub wanted: &'a Wanted,
    pub options: &'a CardOptions,
}

/// Pages that were laid out, and how they are shown.
pub struct Pages {
    pub pages: Vec<Page>,
    /// By a quarter: cards, where two share a sheet that stands upright.
    pub turned: bool,
}

impl RenderJob<'_> {
    /// Lays out the sheets, one kind after the other, and hands their pages on part by part; gives
    /// the bookmarks, with one a kind when there are several. Sheets are of the size that suits
    /// them: a card on the paper that was asked for, the others on the whole sheet that it is cut
    /// from.
    pub fn lay_out(
        &self,
        take: &mut dyn FnMut(Pages) -> RenderResult,
    ) -> Result<Vec<Bookmark>, SheetError> {
        let labels = Labels::of(&self.plan.language);
        let mut all = Vec::new();
        let mut count = 0;
        for sheet in &self.wanted.sheets {
            let page = count;
            let mut below = Vec::new();
            sheet.lay_out(self, &mut |Deck { pages, mut bookmarks }| {
                shift_pages(&mut bookmarks, count);
                below.extend(bookmarks);
                count += pages.len();
                let turned = *sheet == Sheet::Card && self.options.turned();
                take(Pages { pages, turned })
            })?;
            if count == page {
                continue;
            }
            if self.wanted.sheets.len() > 1 {
                all.push(Bookmark { text: sheet.name(labels).to_owned(), page, below });
            } else {
                all.extend(below);
            }
        }
        Ok(all)
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
    let mut press = PdfRenderer::new(Vec::new(), *options);
    press.add(plan, wanted)?;
    let Printed { to: bytes, pages, missing } = press.finish(plan, wanted)?;
    Ok(Rendered { bytes, pages, missing })
}

impl Wanted {
    /// Whether the sheets of a squad are those of each athlete, one after the other: then a
    /// [`PdfRenderer`] may be given some athletes at a time.
    #[must_use]
    pub fn is_by_athlete(&self, options: &CardOptions) -> bool {
        match self.sheets.as_slice() {
            // Two cards on a sheet are of the first and the second half of all cards.
            [Sheet::Card] => options.two_up.is_none(),
            [Sheet::Block | Sheet::Overview] => true,
            _ => false,
        }
    }
}

/// Sheets that are being printed as one PDF: pages leave for where they are written to as they are
/// laid out.
pub struct PdfRenderer<W> {
    book: Book<W>,
    options: CardOptions,
    bookmarks: Vec<Bookmark>,
    lacking: BTreeSet<MissingGlyph>,
}

/// A printed PDF.
pub struct Printed<W> {
    /// What it was written to.
    pub to: W,
    /// How many pages it has.
    pub pages: usize,
    /// The characters that the card font lacks.
    pub missing: Vec<MissingGlyph>,
}

impl<W: Write> PdfRenderer<W> {
    /// Begins a PDF.
    #[must_use]
    pub fn new(to: W, options: CardOptions) -> Self {
        let (bookmarks, lacking) = (Vec::new(), BTreeSet::new());
        Self { book: Book::begin(to), options, bookmarks, lacking }
    }

    /// Prints sheets: of all athletes at once, or of some after the others where the sheets are
    /// each athlete's ([`Wanted::is_by_athlete`]).
    ///
    /// # Errors
    /// [`SheetError`] when the PDF cannot be put together or written.
    pub fn add(&mut self, plan: &Plan, wanted: &Wanted) -> Result<(), SheetError> {
        let Self { book, options, bookmarks, lacking } = self;
        let before = book.len();
        let mut added =
            RenderJob { plan, wanted, options }.lay_out(&mut |Pages { pages, turned }| {
                lacking.extend(missing(&pages));
                book.add(&pages, turned)
            })?;
        shift_pages(&mut added, before);
        bookmarks.extend(added);
        Ok(())
    }

    /// Ends the PDF; the plan needs no athletes any more.
    ///
    /// # Errors
    /// [`SheetError`] when there was nothing to print, or when the PDF cannot be put together or
    /// written.
    pub fn finish(self, plan: &Plan, wanted: &Wanted) -> Result<Printed<W>, SheetError> {
        let pages = self.book.len();
        if pages == 0 {
            return Err(SheetError::NoSessions);
        }
        let description = Description {
            title: title(plan, wanted, &self.options),
            language: Labels::of(&plan.language).language.to_owned(),
            created: self.options.created,
            bookmarks: self.bookmarks,
        };
        let to = self.book.finish(&description)?;
        Ok(Printed { to, pages, missing: self.lacking.into_iter().collect() })
    }
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
    let mut laid: Vec<(Page, bool)> = Vec::new();
    RenderJob { plan, wanted, options }.lay_out(&mut |Pages { pages, turned }| {
        laid.extend(pages.into_iter().map(|page| (page, turned)));
        Ok(())
    })?;
    if laid.is_empty() {
        return Err(SheetError::NoSessions);
    }
    let labels = Labels::of(&plan.language);
    let title = title(plan, wanted, options);
    let all = laid.len().to_string();
    let draw = |(number, (page, turned)): (usize, &(Page, bool))| {
        let turned = *turned;
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
    let pages = laid
        .par_iter()
        .enumerate()
        .map(|(at, laid)| draw((at + 1, laid)))
        .collect::<Result<_, _>>()?;
    let lacking: BTreeSet<_> = laid.iter().flat_map(|(page, _)| missing([page])).collect();
    Ok(Pictures { pages, missing: lacking.into_iter().collect() })
}
