//! Page flow: blocks that are kept whole, in order, over as many pages as they need.

use super::fragment::Fragment;

/// A piece of a block that is never split.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// The space above it; none at the top of a page.
    pub before: f32,
    /// What it shows.
    pub piece: Fragment,
    /// Left out at the top of a page: a line between two things.
    pub between: bool,
    /// The space above it is that between the things on a page, which may grow.
    pub apart: bool,
    /// What ties it to the rows around it.
    pub tie: Option<Tied>,
}

/// A bar down the left side of rows that belong together; it goes on from row to row without a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tied {
    /// The space above the row that the bar runs through.
    pub above: f32,
    /// This space grows with that between the things on a page.
    pub apart: bool,
    /// The bar begins here.
    pub first: bool,
    /// It ends here.
    pub last: bool,
}

impl Row {
    /// A row with space above it.
    #[must_use]
    pub fn new(before: f32, piece: Fragment) -> Self {
        Self { before, piece, ..Self::default() }
    }

    /// A row with the space above it that stands between the things on a page.
    #[must_use]
    pub fn apart(before: f32, piece: Fragment) -> Self {
        Self { apart: true, ..Self::new(before, piece) }
    }

    /// Its height, with what a bar takes.
    #[must_use]
    pub fn h(&self) -> f32 {
        self.tie.map_or(self.piece.h, |tie| self.piece.h + tie.above)
    }
}

/// Rows that belong together: split over pages only when no page could hold them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// The rows.
    pub rows: Vec<Row>,
    /// Stay on a page with the next block, when one page can hold both.
    pub keep_with_next: bool,
    /// What stands above the block again when it begins or goes on on a page that what it is held
    /// to is not on.
    pub again: Option<Row>,
}

impl Block {
    /// A block of pieces with no space between them.
    #[must_use]
    pub fn of_lines(before: f32, lines: Vec<Fragment>) -> Self {
        let rows = lines.into_iter().enumerate();
        let rows = rows.map(|(i, piece)| Row::new(if i == 0 { before } else { 0.0 }, piece));
        Self { rows: rows.collect(), ..Self::default() }
    }

    /// The same, with the space above it that stands between the things on a page.
    #[must_use]
    pub fn apart(mut self) -> Self {
        if let Some(row) = self.rows.first_mut() {
            row.apart = true;
        }
        self
    }

    /// The same, held to the next block.
    #[must_use]
    pub fn keeping(mut self) -> Self {
        self.keep_with_next = true;
        self
    }
}

/// The rows of one page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Column<'a> {
    /// The height they take.
    pub h: f32,
    /// Each row and its distance from the top.
    pub rows: Vec<(f32, &'a Row)>,
}

impl<'a> Column<'a> {
    fn needs(&self, rows: &[&Row]) -> f32 {
        let mut blank = self.rows.is_empty();
        let mut h = self.h;
        for row in rows {
            if !(blank && row.between) {
                h += row.h() + if blank { 0.0 } else { row.before };
                blank = false;
            }
        }
        h
    }

    fn push(&mut self, row: &'a Row) {
        if self.rows.is_empty() && row.between {
            return;
        }
        let y = self.h + if self.rows.is_empty() { 0.0 } else { row.before };
        self.h = y + row.h();
        self.rows.push((y, row));
    }
}

/// Lays blocks out on pages: `height` gives the room on a page, counted from zero.
#[must_use]
pub fn flow(blocks: &[Block], height: impl Fn(usize) -> f32) -> Vec<Column<'_>> {
    let mut pages = vec![Column::default()];
    let mut rest = blocks;
    while !rest.is_empty() {
        let chain = rest.iter().take_while(|block| block.keep_with_next).count() + 1;
        let (unit, after) = rest.split_at(chain.min(rest.len()));
        rest = after;
        let all: Vec<&Row> = unit.iter().flat_map(|block| &block.rows).collect();
        let again = unit.first().and_then(|block| block.again.as_ref());
        if place_whole(&mut pages, again, &all, &height) {
            continue;
        }
        // The chain is too long for any page: keep its blocks, if not the chain, whole.
        for block in unit {
            let rows: Vec<&Row> = block.rows.iter().collect();
            let again = block.again.as_ref();
            if !place_whole(&mut pages, again, &rows, &height) {
                place_rows(&mut pages, again, &rows, &height);
            }
        }
    }
    pages
}

/// Places rows together on this page or, below `again`, on the next; `false` when neither can hold
/// them.
fn place_whole<'a>(
    pages: &mut Vec<Column<'a>>,
    again: Option<&'a Row>,
    rows: &[&'a Row],
    height: &impl Fn(usize) -> f32,
) -> bool {
    let number = pages.len();
    let fits = |column: &Column, page: usize| column.needs(rows) <= height(page) + 0.01;
    if !pages.last().is_some_and(|page| fits(page, number - 1)) {
        let mut fresh = Column::default();
        if let Some(row) = again {
            fresh.push(row);
        }
        // A fresh page after an empty one would leave a blank sheet.
        let empty = pages.last().is_some_and(|page| page.rows.is_empty());
        if empty || !fits(&fresh, number) {
            return false;
        }
        pages.push(fresh);
    }
    if let Some(page) = pages.last_mut() {
        for row in rows {
            page.push(row);
        }
    }
    true
}

/// Places rows one by one, on as many pages as it takes.
fn place_rows<'a>(
    pages: &mut Vec<Column<'a>>,
    again: Option<&'a Row>,
    rows: &[&'a Row],
    height: &impl Fn(usize) -> f32,
) {
    for row in rows {
        if !place_whole(pages, again, std::slice::from_ref(row), height)
            && let Some(page) = pages.last_mut()
        {
            // A single row higher than a page: nothing we lay out is. Better over the edge than
            // lost.
            page.push(row);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(heights: &[f32], keep: bool) -> Block {
        let rows = heights.iter().map(|h| Row::new(5.0, Fragment::space(10.0, *h)));
        Block { rows: rows.collect(), keep_with_next: keep, again: None }
    }

    fn counts(blocks: &[Block]) -> Vec<usize> {
        flow(blocks, |_| 100.0).iter().map(|page| page.rows.len()).collect()
    }

    #[test]
    fn a_block_that_does_not_fit_moves_whole() {
        assert_eq!(counts(&[block(&[60.0], false), block(&[30.0, 20.0], false)]), [1, 2]);
    }

    #[test]
    fn a_chain_stays_together_when_it_can() {
        let blocks = [block(&[40.0], false), block(&[30.0], true), block(&[40.0], false)];
        assert_eq!(counts(&blocks), [1, 2]);
        let long = [block(&[60.0], true), block(&[60.0], false)];
        assert_eq!(counts(&long), [1, 1]);
    }

    #[test]
    fn a_chain_that_is_split_says_again_what_it_is() {
        let mut second = block(&[60.0], false);
        second.again = Some(Row::new(0.0, Fragment::space(10.0, 12.0)));
        let blocks = [block(&[60.0], true), second];
        assert_eq!(counts(&blocks), [1, 2]);
        let pages = flow(&blocks, |_| 100.0);
        assert!((pages[1].h - 77.0).abs() < 0.001);
    }

    #[test]
    fn what_goes_on_on_a_new_page_says_again_what_it_is() {
        let mut second = block(&[60.0], false);
        second.again = Some(Row::new(0.0, Fragment::space(10.0, 12.0)));
        assert_eq!(counts(&[block(&[60.0], false), second.clone()]), [1, 2]);
        assert_eq!(counts(&[block(&[20.0], false), second]), [2]);
    }

    #[test]
    fn what_no_page_can_hold_is_split_between_rows() {
        assert_eq!(counts(&[block(&[60.0, 60.0, 60.0], false)]), [1, 1, 1]);
    }
}
