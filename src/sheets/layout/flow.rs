//! Page flow: distributes blocks over pages, in order, and keeps each block together.

use super::fragment::Fragment;

/// A piece of a block that is never split.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// Space above it, except at the top of a page.
    pub before: f32,
    /// Its content.
    pub piece: Fragment,
    /// Whether it is a separator, which is left out at the top of a page.
    pub between: bool,
    /// Whether the space above it may grow to fill the page.
    pub apart: bool,
    /// The bar that connects it with the rows around it.
    pub tie: Option<Tied>,
}

/// A vertical bar at the left of rows that belong together, without gaps between rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tied {
    /// The space above the row that the bar passes through.
    pub above: f32,
    /// Whether this space grows with the space between blocks.
    pub apart: bool,
    /// Whether the bar starts here.
    pub first: bool,
    /// Whether the bar ends here.
    pub last: bool,
}

impl Row {
    /// A row with a fixed space above it.
    #[must_use]
    pub fn new(before: f32, piece: Fragment) -> Self {
        Self { before, piece, ..Self::default() }
    }

    /// A row with a space above it that may grow.
    #[must_use]
    pub fn apart(before: f32, piece: Fragment) -> Self {
        Self { apart: true, ..Self::new(before, piece) }
    }

    /// Its height, including the bar's space.
    #[must_use]
    pub fn h(&self) -> f32 {
        self.tie.map_or(self.piece.h, |tie| self.piece.h + tie.above)
    }
}

/// Rows that belong together. They are split over pages only if no page can hold them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// The rows.
    pub rows: Vec<Row>,
    /// Whether it stays on a page with the next block, if one page can hold both.
    pub keep_with_next: bool,
    /// A row that is repeated above the block if it starts or continues on a page without the block
    /// that it belongs to.
    pub again: Option<Row>,
}

impl Block {
    /// A block of lines with no space between them.
    #[must_use]
    pub fn of_lines(before: f32, lines: Vec<Fragment>) -> Self {
        let rows = lines.into_iter().enumerate();
        let rows = rows.map(|(i, piece)| Row::new(if i == 0 { before } else { 0.0 }, piece));
        Self { rows: rows.collect(), ..Self::default() }
    }

    /// The same block with a space above it that may grow.
    #[must_use]
    pub fn apart(mut self) -> Self {
        if let Some(row) = self.rows.first_mut() {
            row.apart = true;
        }
        self
    }

    /// The same block, kept with the next one.
    #[must_use]
    pub fn keeping(mut self) -> Self {
        self.keep_with_next = true;
        self
    }
}

/// The rows of one page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Column<'a> {
    /// Their height.
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

/// Distributes blocks over pages. `height` gives the room on a page, counted from 0.
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
        // No page can hold the whole chain: keep each of its blocks together instead.
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

/// Places rows together on this page or, below `again`, on the next. Returns `false` if neither has
/// room.
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
        // A new page after an empty one would leave a blank sheet.
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

/// Places rows one by one, on as many pages as they need.
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
            // A single row higher than a page, which does not occur in our layouts. Overflow is
            // better than loss.
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
