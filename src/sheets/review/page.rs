//! A4 pages: an athlete's review, with plots above and lists below.

use crate::history::{AthleteReview, Review};
use crate::sheets::labels::fill;
use crate::sheets::layout::{
    Align, Block, Column, Fragment, Ink, Page, Role, Row, Style, StyledText, flow, line, lines,
    stack, width,
};
use crate::sheets::paper::Paper;
use crate::sheets::wording::PRINTED;

use super::panels;
use super::text::short_lists;
use super::words::ReviewWords;
use crate::sheets::plot::SMALL;

/// Margin at the sides, in points.
pub const SIDE: f32 = 40.0;
/// Margin at the top and bottom, in points.
const HEAD: f32 = 34.0;
/// Gap between the columns of the lists, in points.
const GUTTER: f32 = 18.0;
/// Text of lists.
const LIST: Style = Style { size: 8.0, ..Style::regular(8.0) };
/// Step of about a line of text by which columns are balanced, in points.
const LINE: f32 = 8.0;

/// A page that is being laid out.
pub struct ReviewPage {
    all: Fragment,
    w: f32,
    h: f32,
    /// Upper edge of the free space.
    pub top: f32,
    /// Lower edge of the free space.
    pub bottom: f32,
}

impl ReviewPage {
    /// A page with its head and its foot.
    #[must_use]
    pub fn new(title: &str, facts: &[String], number: usize, words: &ReviewWords) -> Self {
        let (w, h) = Paper::A4.points();
        let mut sheet = Fragment::space(w, h);
        let max = w - 2.0 * SIDE;
        let right = stack(
            [
                line(words.labels.head, Style::strong(11.0)),
                line(&number.to_string(), SMALL.in_ink(Ink::Soft)),
            ],
            1.0,
        );
        let room = max - 70.0;
        let name = lines(&[StyledText::new(title, Style::strong(17.0))], room, Align::Left);
        let mut head = stack(name.into_iter().take(2), 0.0);
        let facts = facts.join("  ·  ");
        let facts = lines(&[StyledText::new(facts, Style::regular(8.6))], room, Align::Left);
        head = stack([head, stack(facts.into_iter().take(3), 0.0)], 1.0);
        let wide = width(words.labels.head, Style::strong(11.0));
        let number = width(&number.to_string(), SMALL);
        let mut right = right;
        // The page's number is at the right edge, below the word.
        if let Some(item) = right.items.pop() {
            right.items.push(item.moved(wide - number, 0.0));
        }
        sheet.put(right, w - SIDE - wide, HEAD + 2.0);
        let head_h = head.h;
        sheet.put(head, SIDE, HEAD);
        let rule = HEAD + head_h + 3.0;
        sheet.put(Fragment::rule(max, 1.6, Ink::Black), SIDE, rule);
        let quiet = Style::regular(7.0).in_ink(Ink::Soft);
        let foot = lines(&[StyledText::new(words.labels.conventions, quiet)], max, Align::Left);
        let foot = stack(foot, 0.0);
        let bottom = h - HEAD - foot.h;
        sheet.put(foot, SIDE, bottom);
        sheet.put(Fragment::rule(max, 0.5, Ink::Black), SIDE, bottom - 3.0);
        Self { all: sheet, w, h, top: rule + 8.0, bottom: bottom - 9.0 }
    }

    /// Width between the margins.
    #[must_use]
    pub fn room(&self) -> f32 {
        self.w - 2.0 * SIDE
    }

    /// Adds a piece below the existing content.
    pub fn add(&mut self, piece: Fragment, gap: f32) {
        let h = piece.h;
        self.all.put(piece, SIDE, self.top);
        self.top += h + gap;
    }

    /// Draws a piece anywhere.
    pub fn put(&mut self, piece: Fragment, x: f32, y: f32) {
        self.all.put(piece, x, y);
    }

    /// The finished page.
    #[must_use]
    pub fn page(self) -> Page {
        Page { width: self.w, height: self.h, items: self.all.items }
    }
}

/// The pages of one athlete; `number` is the number of the first.
#[must_use]
pub fn pages(review: &Review, athlete: &AthleteReview, number: usize) -> Vec<Page> {
    let words = ReviewWords::new(&review.language, athlete.unit, PRINTED);
    let labels = words.labels;
    let facts: Vec<String> = [
        Some(review.programme.clone()),
        athlete.gym.clone(),
        Some(fill(labels.masses_in, &[words.unit.symbol()])),
        athlete.last_logged.as_ref().map(|last| fill(labels.so_far, &[&words.sitting(last)])),
    ]
    .into_iter()
    .flatten()
    .collect();
    let new = |number| ReviewPage::new(&athlete.name, &facts, number, &words);
    let mut sheet = new(number);
    if athlete.last_logged.is_none() {
        let text = StyledText::new(labels.nothing_yet, Style::regular(10.0));
        sheet.add(stack(lines(&[text], sheet.room(), Align::Left), 0.0), 0.0);
        return vec![sheet.page()];
    }
    let max = sheet.room();
    sheet.add(summary(review, athlete, max, &words), 9.0);
    sheet.add(panels::volume(athlete, max, &words), 7.0);
    sheet.add(panels::strength(review, athlete, max, &words), 7.0);
    sheet.add(panels::effort(athlete, max, &words), 7.0);
    let column = (max - GUTTER) / 2.0;
    let blocks = lists(athlete, column, &words);
    // Two columns on each page. The first page has the space below the plots.
    let blank = new(number);
    let (first, rest) = (sheet.bottom - sheet.top, blank.bottom - blank.top);
    let columns = balanced(&blocks, first, rest);
    let mut out = Vec::new();
    let mut sheet = Some(sheet);
    for pair in columns.chunks(2) {
        let mut page = sheet.take().unwrap_or_else(|| new(number + out.len()));
        for (at, column_rows) in pair.iter().enumerate() {
            let x = if at == 0 { SIDE } else { SIDE + column + GUTTER };
            for (y, row) in &column_rows.rows {
                page.put(row.piece.clone(), x, page.top + y);
            }
        }
        out.push(page.page());
    }
    out
}

/// The columns of the lists, two on each page. The last two end as level as possible.
fn balanced(blocks: &[Block], first: f32, rest: f32) -> Vec<Column<'_>> {
    let full = |at: usize| if at < 2 { first } else { rest };
    let columns = flow(blocks, full);
    let last = columns.len().saturating_sub(1) / 2 * 2;
    let room = full(last);
    // The least height, in steps of a line, that needs no further column.
    let mut lowest = room;
    loop {
        let tried = lowest - LINE;
        let height = |at: usize| if at < last { full(at) } else { tried };
        let columns = flow(blocks, height);
        // If a row does not fit and overflows, the height is too low as well.
        let ends = |column: &Column| column.rows.last().map_or(0.0, |(y, row)| y + row.h());
        let runs_over = columns.iter().enumerate().any(|(at, c)| ends(c) > height(at) + 0.01);
        if tried <= 0.0 || runs_over || columns.len() > last + 2 {
            break;
        }
        lowest = tried;
    }
    flow(blocks, |at| if at < last { full(at) } else { lowest })
}

/// What was done and planned, and what to ask the athlete about.
fn summary(review: &Review, athlete: &AthleteReview, max: f32, words: &ReviewWords) -> Fragment {
    let labels = words.labels;
    let tally = &athlete.adherence;
    let of = |done: u32, all: u32| fill(labels.of, &[&done.to_string(), &all.to_string()]);
    let (skipped, missing) = (tally.sessions_skipped, tally.sessions_missing);
    let not = fill(labels.not_done, &[&skipped.to_string(), &missing.to_string()]);
    let (strong, plain) = (Style::strong(9.0), Style::regular(9.0));
    let spans = [
        StyledText::new(format!("{}\u{a0} ", labels.sessions), strong),
        StyledText::new(
            format!("{} ({not})", of(tally.sessions_done, tally.sessions_planned)),
            plain,
        ),
        StyledText::new(format!("     {}\u{a0} ", labels.sets_made.replace(' ', "\u{a0}")), strong),
        StyledText::new(of(tally.sets_made, tally.sets_planned), plain),
    ];
    let mut out = stack(lines(&spans, max, Align::Left), 0.0);
    let look = review.look_first.iter().find(|look| look.athlete == athlete.name);
    if let Some(look) = look.filter(|look| !look.concerns.is_empty()) {
        let tag = line(labels.ask_about, Style::strong(8.4).in_ink(Ink::White));
        let (w, h) = (tag.w + 8.0, tag.h + 1.6);
        let mut boxed = Fragment::shape(w, h, None, Some(Ink::Black), Role::Decoration);
        boxed.put(tag, 4.0, 0.8);
        let text = StyledText::new(words.concerns(&look.concerns), plain);
        let text = stack(lines(&[text], max - w - 7.0, Align::Left), 0.0);
        let mut row = boxed;
        row.put(text, w + 7.0, 0.6);
        out = stack([out, row], 4.0);
    }
    out
}

/// The lists below the plots, starting with what changes next.
fn lists(athlete: &AthleteReview, max: f32, words: &ReviewWords) -> Vec<Block> {
    let labels = words.labels;
    let mut blocks = vec![title(labels.changes, max)];
    if athlete.changes.is_empty() {
        blocks.push(item(words.no_changes(athlete), max));
    }
    for (name, changes) in words.sessions_that_change(athlete) {
        let strong = Style { face: Style::strong(8.0).face, ..LIST };
        let head = lines(&[StyledText::new(name, strong)], max, Align::Left);
        blocks.push(Block::of_lines(3.0, head).keeping());
        for change in changes {
            let order = line(&change.order.to_string(), strong);
            let text = words.base.labelled(&change.exercise, &words.change(change));
            let mut spans = vec![StyledText::new(text, LIST)];
            let why = words.reasons(change);
            if !why.is_empty() {
                spans.push(StyledText::new(format!("  ·  {why}"), LIST.in_ink(Ink::Soft)));
            }
            let indent = 15.0;
            let mut all = lines(&spans, max - indent, Align::Left);
            for text in &mut all {
                *text = std::mem::take(text).padded(indent, 0.0, 0.0, 0.0);
            }
            if let Some(first) = all.first_mut() {
                first.items.splice(0..0, order.items);
            }
            blocks.push(Block::of_lines(1.0, all));
        }
    }
    blocks.push(title(labels.missed, max));
    if athlete.misses.is_empty() {
        blocks.push(item(labels.nothing_missed, max));
    }
    blocks.extend(athlete.misses.iter().map(|miss| item(&words.miss(miss), max)));
    for (name, items) in short_lists(athlete, words) {
        blocks.push(title(name, max));
        blocks.extend(items.iter().map(|text| item(text, max)));
    }
    blocks
}

fn title(text: &str, max: f32) -> Block {
    let head = lines(&[StyledText::new(text, Style::strong(9.0))], max, Align::Left);
    let mut block = Block::of_lines(9.0, head);
    block.rows.push(Row::new(1.0, Fragment::rule(max, 0.6, Ink::Black)));
    block.rows.push(Row::new(0.0, Fragment::space(max, 1.5)));
    block.keeping()
}

fn item(text: &str, max: f32) -> Block {
    let mut all = lines(&[StyledText::new(text, LIST)], max - 8.0, Align::Left);
    for (at, text) in all.iter_mut().enumerate() {
        let indent = if at == 0 { 0.0 } else { 8.0 };
        *text = std::mem::take(text).padded(indent, 0.0, 0.0, 0.0);
    }
    Block::of_lines(1.0, all)
}
