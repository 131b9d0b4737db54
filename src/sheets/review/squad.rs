//! The squad's overview: one row for each athlete, sorted by how soon they need attention.

use crate::history::{AthleteReview, AttentionItem, Review};
use crate::sheets::labels::fill;
use crate::sheets::layout::{
    Align, Block, Fragment, Ink, Page, Row, Style, StyledText, beside, flow, line, lines, stack,
};
use crate::sheets::wording::PRINTED;

use super::page::{ReviewPage, SIDE};
use super::panels::{bars, legend};
use super::words::ReviewWords;

/// Left edges of the columns after the name, and the start of the last column, in points.
const SCORE: f32 = 128.0;
const SESSIONS: f32 = 178.0;
const SETS: f32 = 234.0;
const VOLUME: f32 = 332.0;
const ASK: f32 = 344.0;

/// The overview, on as many pages as it needs.
#[must_use]
pub fn pages(review: &Review) -> Vec<Page> {
    let unit = review.athletes.first().map(|athlete| athlete.unit).unwrap_or_default();
    let words = ReviewWords::new(&review.language, unit, PRINTED);
    let labels = words.labels;
    let facts = [labels.look_first.to_owned()];
    let new = |number| ReviewPage::new(&review.programme, &facts, number, &words);
    let blank = new(1);
    let max = blank.room();
    let mut blocks = vec![head(max, &words)];
    for look in &review.look_first {
        let athlete = review.athletes.iter().find(|athlete| athlete.name == look.athlete);
        if let Some(athlete) = athlete {
            let own = ReviewWords::new(&review.language, athlete.unit, PRINTED);
            blocks.push(row(look, athlete, max, &own));
        }
    }
    let quiet = Style::regular(8.0).in_ink(Ink::Soft);
    let about = lines(&[StyledText::new(labels.look_about, quiet)], max, Align::Left);
    blocks.push(Block::of_lines(8.0, about));
    blocks.extend(volumes(review, max, &words));
    let room = blank.bottom - blank.top;
    let columns = flow(&blocks, |_| room);
    let page = |(at, column): (usize, &crate::sheets::layout::Column<'_>)| {
        let mut sheet = new(at + 1);
        for (y, row) in &column.rows {
            sheet.put(row.piece.clone(), SIDE, sheet.top + y);
        }
        sheet.page()
    };
    columns.iter().enumerate().map(page).collect()
}

/// Small plots of planned and done volume, three in a row.
fn volumes(review: &Review, max: f32, words: &ReviewWords) -> Vec<Block> {
    let (across, gap) = (3, 16.0);
    let w = (max - gap * 2.0) / 3.0;
    let logged: Vec<&AthleteReview> =
        review.athletes.iter().filter(|athlete| athlete.last_logged.is_some()).collect();
    if logged.is_empty() {
        return Vec::new();
    }
    let title = line(words.labels.volumes, Style::strong(9.6));
    let wide = title.w;
    let mut title = title.padded(0.0, 14.0, 0.0, 0.0);
    title.put(legend(words), wide + 16.0, 15.2);
    let mut blocks = vec![Block::of_lines(0.0, vec![title]).keeping()];
    for row in logged.chunks(across) {
        let plots = row.iter().map(|athlete| {
            let own = ReviewWords::new(&review.language, athlete.unit, PRINTED);
            let title = format!("{}, {}", athlete.name, own.unit);
            bars(athlete, &title, (w, 104.0), &own).out
        });
        blocks.push(Block::of_lines(10.0, vec![beside(plots, gap)]));
    }
    blocks
}

fn head(max: f32, words: &ReviewWords) -> Block {
    let labels = words.labels;
    let strong = Style::strong(8.4);
    let mut out = Fragment::space(max, 0.0);
    out.put(line(labels.athlete, strong), 0.0, 0.0);
    for (right, text) in
        [(SCORE, labels.score), (SESSIONS, labels.sessions), (SETS, labels.sets_made)]
    {
        let text = line(text, strong);
        let x = right - text.w;
        out.put(text, x, 0.0);
    }
    let volume = line(labels.last_week, strong);
    let x = VOLUME - volume.w;
    out.put(volume, x, 0.0);
    out.put(line(labels.ask_about, strong), ASK, 0.0);
    let mut block = Block::of_lines(0.0, vec![out]);
    block.rows.push(Row::new(1.5, Fragment::rule(max, 0.8, Ink::Black)));
    block.keeping()
}

fn row(look: &AttentionItem, athlete: &AthleteReview, max: f32, words: &ReviewWords) -> Block {
    let labels = words.labels;
    let (strong, plain) = (Style::strong(8.8), Style::regular(8.8));
    let name = lines(&[StyledText::new(&athlete.name, strong)], SCORE - 28.0, Align::Left);
    let mut out = Fragment::space(max, 0.0);
    out.put(stack(name, 0.0), 0.0, 0.0);
    let tally = &athlete.adherence;
    let of = |done: String, all: String| fill(labels.of, &[&done, &all]);
    let sessions = of(tally.sessions_done.to_string(), tally.sessions_planned.to_string());
    let sets = of(tally.sets_made.to_string(), tally.sets_planned.to_string());
    let mut cells = vec![(SCORE, words.plain(&look.score))];
    if let Some(last) = &athlete.last_logged {
        cells.extend([(SESSIONS, sessions), (SETS, sets)]);
        if let Some(week) = athlete.weeks.iter().find(|week| week.week == last.week) {
            let done = words.number(&week.done.volume, 0);
            let planned = words.number(&week.planned.volume, 0);
            cells.push((VOLUME, format!("{} {}", of(done, planned), words.unit)));
        }
    }
    for (right, text) in cells {
        let text = line(&text, plain);
        let x = right - text.w;
        out.put(text, x, 0.0);
    }
    let asks: Vec<Fragment> = if look.concerns.is_empty() {
        let quiet = plain.in_ink(Ink::Soft);
        lines(&[StyledText::new(labels.nothing_stands_out, quiet)], max - ASK, Align::Left)
    } else {
        let set = |concern| {
            lines(&[StyledText::new(words.concern(concern), plain)], max - ASK, Align::Left)
        };
        look.concerns.iter().flat_map(set).collect()
    };
    out.put(stack(asks, 0.0), ASK, 0.0);
    let mut block = Block::of_lines(5.0, vec![out]);
    block.rows.push(Row::new(4.0, Fragment::rule(max, 0.3, Ink::Faint)));
    block
}
