//! Two cards on a sheet, to be cut apart.
//!
//! The cards fill the left halves first, then the right halves. Cut the printed stack through the
//! middle and put the left pile on the right one: all cards are in order, by athlete and session.

use super::card::Deck;
use super::layout::{Ink, Page, Shape};
use super::paper::Paper;
use super::pdf::Bookmark;

/// The orientation of a sheet with two cards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TwoUp {
    /// Landscape, with upright cards.
    Landscape,
    /// Portrait, with cards rotated by 90°, for printers that support nothing else.
    Portrait,
}

/// Width in points of the outer edge that printers leave blank, about 5 mm. Marks start inside it.
const EDGE: f32 = 14.4;
/// Length of a cutting mark in points, as long as fits next to the head of a card.
const MARK: f32 = 22.0;

/// Puts the pages of a deck, two by two, on sheets of the larger paper.
#[must_use]
pub fn sheets(deck: Deck, paper: Paper) -> Deck {
    let (height, width) = paper.sheet().points();
    let count = deck.pages.len().div_ceil(2);
    let mut left = deck.pages;
    let right = left.split_off(count);
    let mut right = right.into_iter();
    let half = width / 2.0;
    let pages = left.into_iter().map(|page| {
        let mut items = placed(page, 0.0, half);
        items.extend(right.next().into_iter().flat_map(|page| placed(page, half, half)));
        items.extend(marks(half, height));
        Page { width, height, items }
    });
    Deck { pages: pages.collect(), bookmarks: on_sheets(deck.bookmarks, count) }
}

/// Places a card in the middle of its half.
fn placed(page: Page, x: f32, half: f32) -> Vec<Shape> {
    let dx = x + (half - page.width) / 2.0;
    page.items.into_iter().map(|item| item.moved(dx, 0.0)).collect()
}

/// Cutting marks at the top and bottom, and a short one half-way for a ruler.
fn marks(x: f32, height: f32) -> impl Iterator<Item = Shape> {
    let middle = height / 2.0;
    let ends =
        [(EDGE, EDGE + MARK), (middle - 6.0, middle + 6.0), (height - EDGE - MARK, height - EDGE)];
    let mark = move |(from, to)| Shape::Line {
        from: (x, from),
        to: (x, to),
        weight: 0.4,
        ink: Ink::Black,
    };
    ends.into_iter().map(mark)
}

/// Bookmarks that lead to the sheet that contains a page.
fn on_sheets(bookmarks: Vec<Bookmark>, count: usize) -> Vec<Bookmark> {
    let moved = |bookmark: Bookmark| Bookmark {
        page: bookmark.page.checked_rem(count).unwrap_or_default(),
        below: on_sheets(bookmark.below, count),
        ..bookmark
    };
    bookmarks.into_iter().map(moved).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::layout::{Rect, Role};

    /// A deck in which page `n` contains a box `n` points wide.
    fn deck(pages: u16) -> Deck {
        let (width, height) = Paper::A5.points();
        let page = |n: u16| {
            let rect = Rect::new(20.0, 20.0, f32::from(n), 10.0);
            let item = Shape::Rectangle { rect, stroke: None, fill: None, role: Role::WriteIn };
            Page { width, height, items: vec![item] }
        };
        let bookmark = |n: u16| Bookmark { text: n.to_string(), page: n.into(), below: Vec::new() };
        Deck {
            pages: (0..pages).map(page).collect(),
            bookmarks: (0..pages).map(bookmark).collect(),
        }
    }

    /// The cards on the left of each sheet, and those on the right.
    fn piles(deck: &Deck) -> (Vec<f32>, Vec<f32>) {
        let mut out = (Vec::new(), Vec::new());
        for page in &deck.pages {
            for item in &page.items {
                if let Shape::Rectangle { rect, .. } = item {
                    if rect.x < page.width / 2.0 { &mut out.0 } else { &mut out.1 }.push(rect.w);
                }
            }
        }
        out
    }

    #[test]
    fn a_cut_stack_stays_in_order() {
        for pages in 1..8_u16 {
            let sheets = sheets(deck(pages), Paper::A5);
            let (left, right) = piles(&sheets);
            assert_eq!(left.len(), usize::from(pages).div_ceil(2));
            let all = [left, right].concat();
            assert_eq!(all, (0..pages).map(f32::from).collect::<Vec<_>>());
            for (n, bookmark) in sheets.bookmarks.iter().enumerate() {
                let (left, right) = piles(&Deck {
                    pages: vec![sheets.pages[bookmark.page].clone()],
                    bookmarks: Vec::new(),
                });
                let n = f32::from(u16::try_from(n).unwrap());
                assert!([left, right].concat().contains(&n));
            }
        }
    }

    #[test]
    fn two_cards_have_room_on_a_sheet() {
        for (_, paper) in Paper::ALL {
            let (sheet, half) = (paper.sheet().points(), paper.half().points());
            assert!(half.0 * 2.0 <= sheet.1 + 0.1 && (half.1 - sheet.0).abs() < 0.1, "{paper}");
        }
    }
}
