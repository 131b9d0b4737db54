//! Rendering several sheets of a plan into one PDF.

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
    /// All weeks of an athlete, side by side.
    Block,
    /// A session of the whole squad, by lift.
    Rack,
    /// An athlete's block on one page.
    Overview,
    /// An exercise in large type.
    Wall,
}

impl Sheet {
    /// All kinds.
    pub const ALL: [Sheet; 5] =
        [Sheet::Card, Sheet::Block, Sheet::Rack, Sheet::Overview, Sheet::Wall];

    /// Whether it is about one session, so that it is not needed after the session.
    #[must_use]
    pub fn is_by_session(self) -> bool {
        matches!(self, Sheet::Card | Sheet::Rack)
    }

    /// The plural name, in a language.
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

    /// The plural name in messages, which are in English.
    #[must_use]
    pub fn told(self) -> String {
        self.name(&ENGLISH).to_lowercase()
    }

    /// Lays out these sheets and passes them on. Cards are passed on one athlete at a time, unless
    /// two share a sheet, which needs all of them at once.
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

/// What to print.
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

/// Result of rendering.
type RenderResult = Result<(), SheetError>;

/// The input of a rendering: plan, sheets and options.
pub struct RenderJob<'a> {
    pub plan: &'a Plan,
    pub wanted: &'a Wanted,
    pub options: &'a CardOptions,
}

/// Pages that have been laid out, and how they are shown.
pub struct Pages {
    pub pages: Vec<Page>,
    /// Whether they are rotated by 90°, for cards if two share a sheet in portrait.
    pub turned: bool,
}

impl RenderJob<'_> {
    /// Lays out the sheets, one kind after another, and passes their pages on in parts. Returns the
    /// bookmarks, grouped by kind if there are several. Each sheet has the size that suits it: a
    /// card has the requested paper, other sheets use the whole sheet that cards are cut from.
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

/// The title of the document.
fn title(plan: &Plan, wanted: &Wanted, options: &CardOptions) -> String {
    let labels = Labels::of(&plan.language);
    if wanted.sheets == [Sheet::Card] {
        return super::title(plan, options, labels);
    }
    fill(labels.broad.title, &[&plan.programme])
}

/// Renders sheets as one PDF, in the given order.
///
/// # Errors
/// [`SheetError`] if there is nothing to print or the PDF cannot be assembled.
pub fn print(plan: &Plan, wanted: &Wanted, options: &CardOptions) -> Result<Rendered, SheetError> {
    let mut press = PdfRenderer::new(Vec::new(), *options);
    press.add(plan, wanted)?;
    let Printed { to: bytes, pages, missing } = press.finish(plan, wanted)?;
    Ok(Rendered { bytes, pages, missing })
}

impl Wanted {
    /// Whether a squad's sheets are the athletes' sheets one after another. If so, a
    /// [`PdfRenderer`] can be given a few athletes at a time.
    #[must_use]
    pub fn is_by_athlete(&self, options: &CardOptions) -> bool {
        match self.sheets.as_slice() {
            // The two cards on a sheet come from the first and the second half of all cards.
            [Sheet::Card] => options.two_up.is_none(),
            [Sheet::Block | Sheet::Overview] => true,
            _ => false,
        }
    }
}

/// Renders sheets into one PDF. Pages are written as soon as they are laid out.
pub struct PdfRenderer<W> {
    book: Book<W>,
    options: CardOptions,
    bookmarks: Vec<Bookmark>,
    lacking: BTreeSet<MissingGlyph>,
}

/// A printed PDF.
pub struct Printed<W> {
    /// The writer.
    pub to: W,
    /// Number of pages.
    pub pages: usize,
    /// The characters that the card font lacks.
    pub missing: Vec<MissingGlyph>,
}

impl<W: Write> PdfRenderer<W> {
    /// Starts a PDF.
    #[must_use]
    pub fn new(to: W, options: CardOptions) -> Self {
        let (bookmarks, lacking) = (Vec::new(), BTreeSet::new());
        Self { book: Book::begin(to), options, bookmarks, lacking }
    }

    /// Prints sheets of all athletes at once, or of a few athletes after the others if
    /// [`Wanted::is_by_athlete`] allows it.
    ///
    /// # Errors
    /// [`SheetError`] if the PDF cannot be assembled or written.
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

    /// Ends the PDF. The plan may be without athletes.
    ///
    /// # Errors
    /// [`SheetError`] if there was nothing to print, or if the PDF cannot be assembled or written.
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

/// Renders sheets as images, one for each page.
///
/// # Errors
/// [`SheetError`] if there is nothing to print or a page cannot be drawn at this resolution.
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
