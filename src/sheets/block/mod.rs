//! The block sheet: one athlete, all weeks side by side. Exercises are listed by day and order
//! letter; each week has its target and a box to write down what was done.

mod cell;
mod grid;
mod table;

use crate::plan::{AthletePlan, Plan};

use super::CardOptions;
use super::card::Deck;
use super::columns::when;
use super::labels::{Labels, fill};
use super::layout::{Block, Fragment, Page, Row, flow, stack};
use super::leaf::{Leaf, PageHead, limits};
use super::pdf::Bookmark;
use super::wording::{PRINTED, Wording};
use grid::{BlockDay, BlockGrid, spreads};
use table::{Table, TableMetrics};

/// Lays out the block sheets of every athlete who has a session.
#[must_use]
pub fn deck(plan: &Plan, options: &CardOptions) -> Deck {
    let plan = &*plan.named_for_athletes();
    let document = Labels::of(&plan.language).language;
    let mut deck = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    for athlete in plan.athletes.iter().filter(|athlete| !athlete.sessions.is_empty()) {
        let text = athlete.name.clone();
        deck.bookmarks.push(Bookmark { text, page: deck.pages.len(), below: Vec::new() });
        let language = Labels::of(&athlete.language).language;
        let pages = pages(plan, athlete, options).into_iter();
        deck.pages.extend(pages.map(|page| page.speaking(language, document)));
    }
    deck
}

/// The pages of one athlete, as roomy as possible without an additional page.
fn pages(plan: &Plan, athlete: &AthletePlan, options: &CardOptions) -> Vec<Page> {
    let grid = BlockGrid::new(athlete);
    let leaf = leaf(plan, athlete, &grid, options);
    let words = Wording::new(&athlete.language, athlete, PRINTED);
    let mut best: Option<Vec<Fragment>> = None;
    for measures in TableMetrics::all(leaf.width()) {
        let bodies = bodies(&grid, &leaf, &words, measures);
        if best.as_ref().is_none_or(|best| bodies.len() < best.len()) {
            best = Some(bodies);
        }
    }
    leaf.pages(best.unwrap_or_default())
}

/// The content between head and foot of each page: the first weeks that fit side by side, day by
/// day, then the following weeks.
fn bodies(
    grid: &BlockGrid<'_>,
    leaf: &Leaf,
    words: &Wording,
    measures: TableMetrics,
) -> Vec<Fragment> {
    let labels = words.labels;
    let mut out = Vec::new();
    for weeks in spreads(&grid.weeks, measures.most_weeks()) {
        let limits = limits(&grid.limits(&weeks, labels), leaf.width(), labels);
        let table = Table::new(grid, weeks, words, measures);
        let (header, mut blocks) = head(limits, table.header(), leaf.height());
        for day in &grid.days {
            blocks.extend(day_blocks(&table, day));
        }
        let room = leaf.height() - header.h;
        for column in flow(&blocks, |_| room) {
            let mut body = header.clone();
            for (y, row) in &column.rows {
                body.put(row.piece.clone(), 0.0, header.h + y);
            }
            out.push(body);
        }
    }
    out
}

/// The table's head below the limits in force, repeated on every page. If there are too many
/// limits, they are printed only on the first page.
fn head(limits: Vec<Fragment>, header: Fragment, room: f32) -> (Fragment, Vec<Block>) {
    let all = stack(limits.clone(), 3.0);
    if all.h > room / 4.0 {
        let block = |limit| Block::of_lines(3.0, vec![limit]);
        return (header, limits.into_iter().map(block).collect());
    }
    let pieces = Some(all).filter(|all| all.h > 0.0).into_iter().chain([header]);
    (stack(pieces, 6.0), Vec::new())
}

/// A day, kept together if a page has room for it.
fn day_blocks(table: &Table<'_>, day: &BlockDay<'_>) -> Vec<Block> {
    let rows = table.rows(day);
    if rows.is_empty() {
        return Vec::new();
    }
    let head = |continued| Row::new(7.0, table.day_head(day, continued));
    let mut blocks = vec![Block { rows: vec![head(false)], keep_with_next: true, again: None }];
    let last = rows.len() - 1;
    for (at, row) in rows.into_iter().enumerate() {
        let row = Row::new(0.0, row);
        let again = Some(head(true)).filter(|_| at > 0);
        blocks.push(Block { rows: vec![row], keep_with_next: at < last, again });
    }
    blocks
}

/// The pages without their tables.
fn leaf(plan: &Plan, athlete: &AthletePlan, grid: &BlockGrid<'_>, options: &CardOptions) -> Leaf {
    let labels = Labels::of(&athlete.language);
    let facts = [
        Some(plan.programme.clone()),
        athlete.gym.clone(),
        athlete.rack.as_ref().map(|rack| fill(labels.rack, &[rack])),
        Some(fill(labels.loads_in, &[athlete.unit.symbol()])),
    ];
    let head = PageHead {
        title: athlete.name.clone(),
        kind: labels.broad.block.to_owned(),
        when: when(&grid.weeks, plan.weeks, labels),
        ..PageHead::default()
    }
    .telling(plan, labels, facts);
    let projected = fill(labels.broad.projected_about, &[labels.broad.projected_sign]);
    let lighter = grid.weeks.iter().any(|week| week.deload);
    let about = [
        Some(labels.broad.block_about),
        Some(projected.as_str()).filter(|_| grid.is_projected()),
        Some(labels.broad.hatched).filter(|_| lighter),
    ];
    let about: Vec<&str> = about.into_iter().flatten().collect();
    Leaf::new(options.paper.sheet(), true, head, &about, labels)
}
