//! The session card: one session on one page, or on more pages if it does not fit.

mod coach;
mod demo;
mod exercise;
mod foot;
mod group;
mod header;
mod listed;
pub mod metrics;
pub mod parts;
#[cfg(test)]
mod search_tests;
mod shared;
pub mod target;
mod work;

pub use group::{how, rest_told};
#[cfg(test)]
pub use metrics::{LEAST_BOX, LEAST_WIDTH};

use std::convert::Infallible;

use rayon::prelude::*;

use crate::plan::{AthletePlan, Plan, PlannedExercise, Session};

use super::labels::Labels;
use super::layout::{
    Align, Block, Column, Fragment, Ink, Page, Role, Row, Shape, Style, count, flow, stack,
};
use super::pdf::{Bookmark, shift_pages};
use super::plates::Discs;
use super::wording::{PRINTED, Wording};
use super::{CardCopy, CardOptions};
use metrics::{Density, Metrics};
use parts::{inked, labelled, plain, sentences, tag};
use shared::Shared;

/// All pages, with their bookmarks.
pub struct Deck {
    /// The pages, by athlete and session.
    pub pages: Vec<Page>,
    /// A bookmark for each athlete, and below it one for each session.
    pub bookmarks: Vec<Bookmark>,
}

/// Lays out every card of a plan.
#[must_use]
pub fn deck(plan: &Plan, options: &CardOptions) -> Deck {
    let mut all = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    let Ok(()) = decks::<Infallible>(plan, options, &mut |Deck { pages, mut bookmarks }| {
        shift_pages(&mut bookmarks, all.pages.len());
        all.pages.extend(pages);
        all.bookmarks.extend(bookmarks);
        Ok(())
    });
    all
}

/// Lays out every card of a plan and passes them on, one athlete at a time, so that the caller
/// never holds all of them. While one athlete's cards are written, the next one's are laid out.
///
/// # Errors
/// Returns the error of `take`.
pub fn decks<E>(
    plan: &Plan,
    options: &CardOptions,
    take: &mut dyn FnMut(Deck) -> Result<(), E>,
) -> Result<(), E> {
    let plan = &*plan.named_for_athletes();
    let athletes = plan.athletes.iter().filter(|athlete| !athlete.sessions.is_empty());
    let mut ready = None;
    for athlete in athletes {
        let Some(deck) = ready.take() else {
            ready = Some(athlete_deck(plan, athlete, options));
            continue;
        };
        rayon::in_place_scope(|scope| {
            let next = &mut ready;
            scope.spawn(move |_| *next = Some(athlete_deck(plan, athlete, options)));
            take(deck)
        })?;
    }
    ready.map_or(Ok(()), take)
}

fn athlete_deck(plan: &Plan, athlete: &AthletePlan, options: &CardOptions) -> Deck {
    let document = Labels::of(&plan.language).language;
    let language = Labels::of(&athlete.language).language;
    // Each session is laid out separately.
    let sessions = athlete.sessions.par_iter();
    let shared = Shared::default();
    let laid: Vec<Vec<Page>> = sessions
        .map(|session| {
            let of = CardSubject { plan, athlete, session, options, shared: &shared };
            let pages = session_pages(of).into_iter();
            pages.map(|page| page.speaking(language, document)).collect()
        })
        .collect();
    let mut pages = Vec::new();
    let mut below = Vec::new();
    for (session, laid) in athlete.sessions.iter().zip(laid) {
        let text = session_name(plan, athlete, session);
        below.push(Bookmark { text, page: pages.len(), below: Vec::new() });
        pages.extend(laid);
    }
    let bookmarks = vec![Bookmark { text: athlete.name.clone(), page: 0, below }];
    Deck { pages, bookmarks }
}

/// The bookmark of a session: `Week 3 of 8 · Lower 1 · Mon 19 Jan 2026`.
fn session_name(plan: &Plan, athlete: &AthletePlan, session: &Session) -> String {
    let labels = Labels::of(&athlete.language);
    let (this, all) = (session.week.to_string(), plan.weeks.to_string());
    let week = super::labels::fill(labels.week_of, &[&this, &all]);
    let date = labels.show_when(session);
    let parts = [Some(week), Some(session.day.clone()), date];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" · ")
}

/// Lays out a session as roomily as possible without an additional page. QR codes must not cost a
/// page either; if they would, the links are printed as text.
fn session_pages(of: CardSubject<'_>) -> Vec<Page> {
    let best = |codes: bool| best_of(of, codes);
    let coded = best(true);
    let texts = coded.as_ref().filter(|draft| draft.count > 1 && draft.has_codes);
    let texts = texts.and_then(|_| best(false));
    let best = match (coded, texts) {
        (Some(coded), Some(texts)) if texts.cost() < coded.cost() => Some(texts),
        (coded, _) => coded,
    };
    best.map(|draft| draft.spread().into_pages()).unwrap_or_default()
}

/// The subject of a card.
#[derive(Clone, Copy)]
struct CardSubject<'a> {
    plan: &'a Plan,
    athlete: &'a AthletePlan,
    session: &'a Session,
    options: &'a CardOptions,
    shared: &'a Shared<'a>,
}

/// The roomiest draft that fits one page, otherwise the roomiest of those with the least cost. A
/// denser setting never needs more pages. The search starts at the density of most full sessions
/// and moves from there.
fn best_of(of: CardSubject<'_>, codes: bool) -> Option<CardDraft<'_>> {
    let set = |density: &Density| CardDraft::new(Card::new(of, *density, codes));
    let (roomier, closer) = Density::ALL.split_at(Density::USUAL);
    let mut tried: Vec<CardDraft<'_>> = Vec::new();
    for density in closer {
        let draft = set(density);
        if draft.count > 1 {
            tried.push(draft);
            continue;
        }
        // If a draft needs too many pages, roomier ones do too.
        let roomier = if tried.is_empty() { roomier } else { &[] };
        return Some(roomiest(draft, roomier, codes));
    }
    let all = roomier.iter().map(set).chain(tried);
    all.reduce(|best, draft| if draft.cost() < best.cost() { draft } else { best })
}

/// The roomiest one-page draft, from one that fits and the roomier densities.
fn roomiest<'a>(mut draft: CardDraft<'a>, roomier: &[Density], codes: bool) -> CardDraft<'a> {
    let of = draft.card.of;
    if draft.is_half_empty()
        && let Some(first) = roomier.first()
    {
        let roomy = CardDraft::new(Card::new(of, *first, codes));
        if roomy.count == 1 {
            return roomy;
        }
    }
    for density in roomier.iter().rev() {
        let card = Card::new(of, *density, codes);
        if draft.leaves_no_room_for(&card.metrics, &[], 0) {
            break;
        }
        let metrics = card.metrics;
        let too_much =
            |laid: &[Block], letters: usize| draft.leaves_no_room_for(&metrics, laid, letters);
        let next = CardDraft::unless(card, &too_much).filter(|next| next.count == 1);
        let Some(next) = next else { break };
        draft = next;
    }
    draft
}

/// A card that is laid out but not yet divided into pages.
struct CardDraft<'a> {
    card: Card<'a>,
    /// The card's own blocks, then the coach's notes.
    blocks: Vec<Block>,
    /// Number of the card's own blocks.
    own: usize,
    /// Number of blocks up to the end of each letter.
    letters: Vec<usize>,
    cautions: &'a Fragment,
    /// The head if there is only one page.
    head: Fragment,
    /// Whether there are QR codes on the card.
    has_codes: bool,
    /// The codes next to the session's own boxes.
    codes: Option<Fragment>,
    head_h: f32,
    /// Height of the content above the session's own boxes, if there is only one page.
    only_h: Option<f32>,
    count: usize,
    /// The page with the session's own boxes: the last one of the card itself.
    log_page: usize,
}

impl<'a> CardDraft<'a> {
    fn new(card: Card<'a>) -> Self {
        let (blocks, letters) = card.blocks(&|_, _| false).unwrap_or_default();
        Self::of(card, blocks, letters)
    }

    /// Drafts a card; `None` if the blocks of the first letters are already too much.
    fn unless(card: Card<'a>, too_much: &TooMuch<'_>) -> Option<Self> {
        let (blocks, letters) = card.blocks(too_much)?;
        Some(Self::of(card, blocks, letters))
    }

    fn of(card: Card<'a>, mut blocks: Vec<Block>, letters: Vec<usize>) -> Self {
        let own = blocks.len();
        blocks.extend(card.notes());
        let codes = card.codes();
        let mut out = Self {
            has_codes: !codes.is_empty(),
            codes: codes.at_foot(&card.metrics),
            blocks,
            own,
            letters,
            cautions: card.cautions(),
            head_h: 0.0,
            only_h: None,
            head: card.head((1, 1)),
            card,
            count: 1,
            log_page: 1,
        };
        out.head_h = out.head.h;
        out.settle();
        if out.count > 1 {
            // The head may need one more line with the page number.
            out.head_h = out.card.head((1, 99)).h;
            out.settle();
        }
        out
    }

    fn settle(&mut self) {
        let (columns, log_page) = self.columns();
        let only = match columns.as_slice() {
            [only] => Some(only.h),
            _ => None,
        };
        let count = columns.len();
        (self.only_h, self.count, self.log_page) = (only, count, log_page);
    }

    /// The cost of the pages: how many there are, and which one has the session's own boxes.
    fn cost(&self) -> (usize, usize) {
        (self.count, self.log_page)
    }

    /// Whether the page is so empty that a much roomier density may fit.
    fn is_half_empty(&self) -> bool {
        self.only_h.is_some_and(|h| h < self.room() * HALF_EMPTY)
    }

    /// Whether these roomier measurements certainly need more than one page.
    ///
    /// `laid` contains the blocks before the exercises and those of the first letters, already laid
    /// out with the roomier measurements. For the rest it is known that spaces between exercises
    /// grow as the measurements say, and that no text or box becomes smaller.
    fn leaves_no_room_for(&self, roomier: &Metrics, laid: &[Block], letters: usize) -> bool {
        let m = &self.card.metrics;
        // QR codes have the same size at every density.
        let Some(only) = self.only_h.filter(|_| !self.has_codes) else { return false };
        let known = letters.checked_sub(1).and_then(|at| self.letters.get(at)).copied();
        let (known, rest) = self.blocks.split_at(known.unwrap_or(0).min(self.blocks.len()));
        let apart = rest.iter().flat_map(|block| &block.rows).filter(|row| row.apart).count();
        // The very first block has no space above it.
        let apart = if known.is_empty() { apart.saturating_sub(1) } else { apart };
        let drawn = only - height(known) - m.between * count(apart);
        let growth = least_growth(self.card.density);
        let body = height(laid) + drawn * growth + roomier.between * count(apart);
        body + foot::log_height(roomier, None) + roomier.log_space() > self.room() + 0.1
    }

    /// Spreads a short session over its page.
    fn spread(mut self) -> Self {
        let m = self.card.metrics;
        let Some(only) = self.only_h else { return self };
        let free = self.room() - only - m.log_space() - foot::most_log(&m, self.codes.as_ref());
        let lines = self.blocks.iter().flat_map(|block| &block.rows).filter(|row| row.between);
        // Above and below each line between exercises.
        let places = 2.0 * count(lines.count()) + 1.0;
        let more = (free / places).min(MOST_SPREAD);
        if more > 0.0 {
            self.set_apart(m.between + more);
            if self.count > 1 {
                self.set_apart(m.between);
            }
        }
        self
    }

    /// Sets the space between exercises.
    fn set_apart(&mut self, between: f32) {
        self.card.metrics.between = between;
        for row in self.blocks.iter_mut().flat_map(|block| &mut block.rows) {
            if row.apart {
                row.before = between;
            }
            if let Some(tie) = row.tie.as_mut().filter(|tie| tie.apart) {
                tie.above = exercise::tied_space(between);
            }
        }
        self.settle();
    }

    /// The height between the head and the disclaimers.
    fn room(&self) -> f32 {
        let m = &self.card.metrics;
        m.page_h - 2.0 * m.head - self.head_h - self.cautions.h - 2.0 * SPACE
    }

    /// The blocks of each page, and the page with the session's own boxes. The coach's notes go
    /// above these boxes if that needs no additional page, otherwise on pages of their own.
    fn columns(&self) -> (Vec<Column<'_>>, usize) {
        let together = self.with_log(&self.blocks);
        let (own, notes) = self.blocks.split_at(self.own.min(self.blocks.len()));
        let mut columns = self.with_log(own);
        let log_page = columns.len();
        if together.len() <= log_page {
            return (together, log_page);
        }
        let room = self.room();
        columns.extend(flow(notes, |_| room));
        (columns, log_page)
    }

    fn with_log<'b>(&self, blocks: &'b [Block]) -> Vec<Column<'b>> {
        let m = &self.card.metrics;
        let room = self.room();
        let log_h = foot::log_height(m, self.codes.as_ref()) + m.log_space();
        let mut columns = flow(blocks, |_| room);
        if columns.last().is_some_and(|last| last.h + log_h > room) {
            columns.push(Column::default());
        }
        columns
    }

    fn into_pages(mut self) -> Vec<Page> {
        let (columns, _) = self.columns();
        let all = columns.len();
        if let [only] = columns.as_slice() {
            // The blocks are not needed again, so their fragments can be moved out.
            let (h, places) = (only.h, only.rows.iter().map(|(y, _)| *y).collect::<Vec<f32>>());
            let rows: Vec<Row> =
                std::mem::take(&mut self.blocks).into_iter().flat_map(|block| block.rows).collect();
            // Separators are left out at the top of a page.
            let left_out = rows.len().saturating_sub(places.len());
            let pieces = rows.into_iter().skip(left_out).map(exercise::drawn);
            let head = std::mem::take(&mut self.head);
            return vec![self.page(head, places.into_iter().zip(pieces), h, (1, 1))];
        }
        let page = |(at, column): (usize, Column<'_>)| {
            let head = self.card.head((at + 1, all));
            let pieces = column.rows.iter().map(|(y, row)| (*y, exercise::drawn((*row).clone())));
            self.page(head, pieces, column.h, (at + 1, all))
        };
        columns.into_iter().enumerate().map(page).collect()
    }

    /// Draws a page: its head, and its pieces with their distances below the head.
    fn page(
        &self,
        head: Fragment,
        pieces: impl Iterator<Item = (f32, Fragment)>,
        h: f32,
        number: (usize, usize),
    ) -> Page {
        let m = &self.card.metrics;
        let mut sheet = Fragment::space(m.page_w, m.page_h);
        sheet.put(head, m.side, m.head);
        let top = m.head + self.head_h + SPACE;
        for (y, piece) in pieces {
            sheet.put(piece, m.side, top + y);
        }
        let foot = m.page_h - m.head - self.cautions.h;
        if number.0 == self.log_page {
            let left = self.room() - h - m.log_space();
            // Athletes weigh themselves in their own unit, whatever unit the gym's plates have.
            let athlete = self.card.of.athlete;
            let unit = athlete.also_unit.unwrap_or(athlete.unit).symbol();
            let log = foot::log(self.card.labels(), unit, left, m, self.codes.clone());
            let y = foot - SPACE - log.h;
            sheet.put(log, m.side, y);
        }
        sheet.put(self.cautions.clone(), m.side, foot);
        Page { width: m.page_w, height: m.page_h, items: sheet.items }
    }
}

/// A card that is being laid out.
struct Card<'a> {
    of: CardSubject<'a>,
    density: Density,
    metrics: Metrics,
}

impl<'a> std::ops::Deref for Card<'a> {
    type Target = CardSubject<'a>;

    fn deref(&self) -> &CardSubject<'a> {
        &self.of
    }
}

impl<'a> Card<'a> {
    fn new(of: CardSubject<'a>, density: Density, codes: bool) -> Self {
        let metrics = Metrics { codes, ..Metrics::new(of.options, density) };
        Self { of, density, metrics }
    }

    fn cautions(&self) -> &'a Fragment {
        // The coach knows the terms.
        let legend = (!self.is_for_coach()).then(|| foot::Legend::new(self.of.session));
        let lay_out = || foot::cautions(self.labels(), legend, &self.metrics);
        self.of.shared.cautions(self.density, legend, lay_out)
    }

    fn labels(&self) -> &'static Labels {
        Labels::of(&self.athlete.language)
    }

    fn head(&self, page: (usize, usize)) -> Fragment {
        header::header(self, page)
    }

    /// Whether it is the coach's copy.
    fn is_for_coach(&self) -> bool {
        self.options.copy == CardCopy::Coach
    }

    /// The additional notes of the coach's copy.
    fn notes(&self) -> Vec<Block> {
        if self.is_for_coach() { coach::notes(self) } else { Vec::new() }
    }

    /// The QR codes of demonstrations.
    fn codes(&self) -> demo::DemoCodes {
        demo::DemoCodes::new(&self.session.exercises, &self.metrics, self.labels())
    }

    /// All blocks between head and foot, and the number of blocks up to the end of each letter;
    /// `None` if those of the first letters are already too much.
    fn blocks(&self, too_much: &TooMuch<'_>) -> Option<(Vec<Block>, Vec<usize>)> {
        let m = &self.metrics;
        let labels = self.labels();
        let words = Wording::new(&self.athlete.language, self.athlete, PRINTED);
        let (mut out, mut letters): (Vec<Block>, Vec<usize>) = (Vec::new(), Vec::new());
        let cut = header::cut_short(self);
        let cut = cut.iter().flat_map(|text| plain(text, m.small, m.content(), Align::Left));
        let cut: Vec<Fragment> = cut.collect();
        if !cut.is_empty() {
            out.push(Block::of_lines(0.0, cut));
        }
        let limits = self.limits();
        let limits_again = limits.as_ref().and_then(|limits| again(limits, m));
        out.extend(limits);
        let below_limits = out.len();
        let before = [
            (labels.before, self.session.before.clone().unwrap_or_default()),
            (labels.note, sentences(&self.session.notes, labels.semicolon)),
        ];
        let lines = labelled(None, &before, m.small, |_| m.content());
        if !lines.is_empty() {
            out.push(Block::of_lines(m.gap + 2.0, lines));
        }
        let discs = Discs { sizes: &self.athlete.plate_sizes, colours: self.options.plate_colours };
        let exercises: Vec<&'a PlannedExercise> = self.of.session.exercises.iter().collect();
        for members in exercises.chunk_by(|a, b| a.order.letter == b.order.letter) {
            let letter = members.first().map(|member| member.order.letter);
            let group = self.session.groups.iter().find(|group| Some(group.letter) == letter);
            let blocks = group::blocks(group, members, m, &words, discs, self.of.shared);
            if !out.is_empty() {
                out.push(separator(m));
            }
            out.extend(blocks);
            letters.push(out.len());
            if too_much(&out, letters.len()) {
                return None;
            }
        }
        out.extend(self.codes().blocks(m));
        if let Some(after) = &self.session.after {
            let lines = labelled(None, &[(labels.after, after.clone())], m.small, |_| m.content());
            out.push(separator(m));
            out.push(Block::of_lines(m.between, lines).apart());
        }
        // A page that gets separated from the others must still show the athlete's limits.
        if let Some(limits) = limits_again {
            for block in out.iter_mut().skip(below_limits) {
                let own = block.again.take().map(|row| row.piece);
                let all = std::iter::once(limits.clone()).chain(own);
                block.again = Some(Row::new(0.0, stack(all, m.gap)));
            }
        }
        Some((out, letters))
    }

    /// The limits in force, in a frame so that nobody overlooks them.
    fn limits(&self) -> Option<Block> {
        let m = &self.metrics;
        let labels = self.labels();
        let style = Style::strong(m.meta.size);
        let tag = tag(labels.limit, style);
        let indent = tag.w + 12.0;
        let mut lines = Vec::new();
        for limit in &self.session.limits {
            let text = labels.show_limit(limit, |date| labels.show_date(date));
            lines.extend(plain(&text, style, m.content() - indent - 6.0, Align::Left));
        }
        if lines.is_empty() {
            return None;
        }
        // A frame contains as much as fits a page for certain; the rest goes into another frame
        // below it.
        let frame = |lines: &[Fragment]| {
            let (first, more) = lines.split_at(lines.len().min(1));
            let h: f32 = lines.iter().map(|line| line.h).sum();
            let stroke = Some((1.4, Ink::Black));
            let (w, h) = (m.content() - 1.4, h + 8.0);
            let mut out =
                Fragment::shape(w, h, stroke, None, Role::Decoration).padded(0.7, 0.7, 0.7, 0.7);
            let read: String = first.iter().map(|line| inked(line).1).collect();
            out.draw(Shape::Tells(format!("{} {read}", labels.limit)));
            out.put(tag.clone(), 6.0, 4.2);
            let first = stack(first.iter().cloned(), 0.0);
            let below = 4.7 + first.h;
            out.put(first, indent, 4.7);
            out.draw(Shape::Told);
            out.put(stack(more.iter().cloned(), 0.0), indent, below);
            out
        };
        Some(Block::of_lines(m.gap + 2.0, lines.chunks(20).map(frame).collect()))
    }
}

/// The limits as they are repeated on further pages: the first frames, as long as they leave room
/// for the exercises.
fn again(limits: &Block, m: &Metrics) -> Option<Fragment> {
    let mut room = m.page_h * 0.25;
    let frames = limits.rows.iter().map(|row| &row.piece).take_while(|frame| {
        room -= frame.h;
        room >= 0.0
    });
    Some(stack(frames.cloned(), 0.0)).filter(|all| !all.items.is_empty())
}

/// Tests whether some blocks, up to the end of this many letters, are too much.
type TooMuch<'t> = dyn Fn(&[Block], usize) -> bool + 't;

/// The height of blocks in one column, without page breaks.
fn height(blocks: &[Block]) -> f32 {
    flow(blocks, |_| f32::INFINITY).first().map_or(0.0, |column| column.h)
}

/// The least factor by which the content of a card grows from one density to the next roomier one.
/// Type grows by at least 2.5 %, and what is drawn around it by less.
fn least_growth(from: Density) -> f32 {
    match from {
        // Names grow by 3.2 %, targets by 2.6 %, small print by 4 %, boxes by 5 % or more.
        Density::Compact => 1.025,
        // More plates are drawn, and small print makes room for them; boxes to tick keep their
        // size.
        _ => 1.01,
    }
}

/// Share of the page up to which a roomier density is likely to fit.
const HALF_EMPTY: f32 = 0.6;

/// Maximum growth of the space between exercises, in points.
const MOST_SPREAD: f32 = 9.0;

/// Space between head, body and disclaimers, in points.
const SPACE: f32 = 5.0;

/// A hairline between exercises, kept with the exercise below it.
fn separator(m: &Metrics) -> Block {
    let mut line = Fragment::space(m.content(), 0.4);
    line.draw(Shape::Line {
        from: (m.wide_x(), 0.2),
        to: (m.content(), 0.2),
        weight: 0.4,
        ink: Ink::Faint,
    });
    let row = Row { between: true, ..Row::apart(m.between, line) };
    Block { rows: vec![row], keep_with_next: true, again: None }
}
