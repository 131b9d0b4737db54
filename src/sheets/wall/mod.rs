//! The wall card: one exercise in type that can be read from three metres, for the rack or the
//! wall.
//!
//! Letters are as large as the page allows. Cues, which are read while lifting, are never smaller
//! than 32 pt: capitals of 8 mm, about 1/400 of three metres (common practice asks for 1/200 to
//! 1/400 of the distance, no source).

use crate::plan::{Built, Plan, name_in};
use crate::quantity::fold_name;

use super::CardOptions;
use super::card::Deck;
use super::card::parts::{inked, packed, plain, tag};
use super::labels::{Labels, fill};
use super::layout::{
    Align, Block, Fragment, Ink, Page, Rect, Role, Row, Shape, Style, StyledText, flow, line,
    lines, stack,
};
use super::paper::Paper;
use super::pdf::Bookmark;
use super::plates::{Discs, PlateStyle, draw};
use super::qr::code_of;
use super::wording::{PRINTED, Wording};

/// The content of a wall card.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Poster {
    /// Its name.
    pub name: String,
    /// The set-up.
    pub setup: Option<String>,
    /// Cues.
    pub cues: Vec<String>,
    /// A safety note.
    pub safety: Option<String>,
    /// Where to find a demonstration. A link is printed as a QR code.
    pub demo: Option<String>,
}

/// The heaviest bar of an exercise in a plan.
struct HeaviestBar<'a> {
    built: &'a Built,
    words: Wording,
    /// The mark of a plan with assumptions, if it has any.
    assumed: Option<String>,
    discs: Discs<'a>,
}

/// Margin on all sides, in points.
const SIDE: f32 = 38.0;
const EDGE: f32 = 32.0;
/// Least side of a code without its quiet zone: 25 mm, in points. It is read from farther away than
/// the code on a card. Common practice, no source.
const CODE: f32 = 25.0 * 72.0 / 25.4;
/// Sizes of cues in points, largest first.
const SIZES: [f32; 9] = [56.0, 52.0, 48.0, 45.0, 42.0, 39.0, 36.0, 34.0, 32.0];
/// Height of the drawing, as a multiple of the cues' size.
const DRAWING: f32 = 2.7;

/// Lays out a wall card for each exercise.
#[must_use]
pub fn deck(plan: &Plan, posters: &[Poster], options: &CardOptions) -> Deck {
    let mut deck = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    for poster in posters {
        // The squad reads it, so the name is in the programme's language.
        let name = name_in(&plan.exercise_names, &plan.language, &poster.name);
        let text = name.to_owned();
        deck.bookmarks.push(Bookmark { text, page: deck.pages.len(), below: Vec::new() });
        deck.pages.extend(pages(plan, poster, name, options));
    }
    deck
}

/// The heaviest working set with a loaded bar.
fn heaviest<'a>(plan: &'a Plan, name: &str, colours: bool) -> Option<HeaviestBar<'a>> {
    let name = fold_name(name);
    let assumed = Labels::of(&plan.language).show_assumed(plan).map(str::to_uppercase);
    let mut best: Option<HeaviestBar<'a>> = None;
    for athlete in &plan.athletes {
        let words = Wording::new(&plan.language, athlete, PRINTED);
        let discs = Discs { sizes: &athlete.plate_sizes, colours };
        let exercises = athlete.sessions.iter().flat_map(|session| &session.exercises);
        for set in exercises.filter(|e| fold_name(&e.name) == name).flat_map(|e| &e.sets) {
            let Some(built) = set.load.as_ref().filter(|_| !set.plates_per_side().is_empty())
            else {
                continue;
            };
            if best.as_ref().is_none_or(|best| built.mass > best.built.mass) {
                best = Some(HeaviestBar { built, words, assumed: assumed.clone(), discs });
            }
        }
    }
    best
}

/// The pages of one exercise: one page, in the largest type that fits.
fn pages(plan: &Plan, poster: &Poster, name: &str, options: &CardOptions) -> Vec<Page> {
    let labels = Labels::of(&plan.language);
    let heaviest = heaviest(plan, &poster.name, options.plate_colours);
    let mut best: Option<(usize, WallCard<'_>)> = None;
    for size in SIZES {
        let card = WallCard { poster, name, labels, size, paper: options.paper.sheet() };
        let pages = flow(&card.blocks(heaviest.as_ref()), |_| card.room()).len();
        if best.as_ref().is_none_or(|(least, _)| pages < *least) {
            best = Some((pages, card));
        }
        if pages == 1 {
            break;
        }
    }
    best.map(|(_, card)| card.pages(heaviest.as_ref())).unwrap_or_default()
}

/// A wall card that is being laid out.
struct WallCard<'a> {
    poster: &'a Poster,
    name: &'a str,
    labels: &'static Labels,
    size: f32,
    paper: Paper,
}

impl WallCard<'_> {
    fn width(&self) -> f32 {
        self.paper.points().0 - 2.0 * SIDE
    }

    fn room(&self) -> f32 {
        self.paper.points().1 - 2.0 * EDGE - self.foot(99, 99).h - 8.0
    }

    /// The name, larger than the cues if its words allow.
    fn name(&self) -> Block {
        let widest = |style: Style| {
            let words = self.name.split_whitespace();
            words.map(|word| super::layout::width(word, style)).fold(0.0, f32::max)
        };
        let mut style = Style::strong(self.size * 1.5);
        while widest(style) > self.width() && style.size > 32.0 {
            style = Style::strong(style.size - 2.0);
        }
        let mut block = Block::of_lines(0.0, plain(self.name, style, self.width(), Align::Left));
        block.rows.push(Row::new(4.0, Fragment::rule(self.width(), 5.0, Ink::Black)));
        block.keeping()
    }

    /// A text below its label, which is white on black.
    fn labelled(&self, label: &str, text: &str) -> Block {
        let style = Style::regular(self.size * 0.72);
        let tag = tag(label, Style::strong(self.size * 0.5));
        let mut block =
            Block::of_lines(self.size * 0.16, plain(text, style, self.width(), Align::Left));
        block.rows.insert(0, Row::new(self.size * 0.5, tag));
        block
    }

    fn cues(&self) -> Vec<Block> {
        let style = Style::strong(self.size);
        let cue = |cue: &String| {
            let indent = self.size * 0.62;
            let mut text = plain(cue, style, self.width() - indent, Align::Left);
            for line in &mut text {
                *line = std::mem::take(line).padded(indent, 0.0, 0.0, 0.0);
            }
            if let Some(first) = text.first_mut() {
                let side = self.size * 0.3;
                let mark = Fragment::shape(side, side, None, Some(Ink::Black), Role::Decoration);
                let middle = style.leading() / 2.0 - side / 2.0;
                first.items.extend(mark.items.into_iter().map(|item| item.moved(0.0, middle)));
            }
            Block::of_lines(self.size * 0.42, text)
        };
        self.poster.cues.iter().map(cue).collect()
    }

    /// The heaviest bar, with its discs to scale at both ends, its load above the bar and its
    /// plates below.
    fn bar(&self, heaviest: &HeaviestBar<'_>) -> Option<Block> {
        let w = self.width();
        let words = &heaviest.words;
        let look = PlateStyle {
            height: self.size * DRAWING,
            width: w * 0.22,
            masses: None,
            discs: heaviest.discs,
        };
        let sleeve = draw(heaviest.built, &look)?;
        let middle = w - 2.0 * sleeve.w - 20.0;
        let load = words.mass(heaviest.built.mass);
        let load = plain(&load, Style::strong(self.size * 0.95), middle, Align::Left);
        let small = Style::regular((self.size * 0.44).max(14.0));
        let plates = heaviest.built.per_side();
        let plates = fill(words.labels.per_side, &[&words.pieces(plates)]);
        let told = Some(words.labels.broad.heaviest.to_owned());
        let facts = [told, heaviest.assumed.clone(), words.bar(heaviest.built), Some(plates)];
        let facts: Vec<String> = facts.into_iter().flatten().collect();
        let facts = packed(&facts, "  ·  ", small, middle, Align::Left);
        let height = |lines: &[Fragment]| lines.iter().map(|line| line.h).sum::<f32>();
        let shaft = (sleeve.h / 2.0).max(height(&load) + 2.0);
        let mut out =
            Fragment::space(w, (shaft + sleeve.h / 2.0).max(shaft + 4.0 + height(&facts)));
        let top = shaft - sleeve.h / 2.0;
        let (from, to) = ((sleeve.w - 1.0, shaft), (w - sleeve.w + 1.0, shaft));
        out.put(mirrored(&sleeve), 0.0, top);
        let x = w - sleeve.w;
        out.put(sleeve, x, top);
        out.draw(Shape::Line { from, to, weight: 2.6, ink: Ink::Black });
        let mut y = shaft - height(&load) - 2.0;
        for (line, below) in
            load.into_iter().map(|l| (l, false)).chain(facts.into_iter().map(|l| (l, true)))
        {
            if below {
                y = y.max(shaft + 4.0);
            }
            let (h, reach) = (line.h, inked(&line).0);
            out.put(Fragment { w: reach, ..line }, (w - reach) / 2.0, y);
            y += h;
        }
        Some(Block::of_lines(self.size * 0.5, vec![out]))
    }

    /// A code that leads to a demonstration, next to its label.
    fn demo(&self) -> Option<Block> {
        let code = code_of(self.poster.demo.as_deref()?, CODE)?;
        let label = line(self.labels.demo, Style::strong(self.size * 0.5));
        let x = label.w + 4.0;
        // The label is level with the code.
        let drop = ((code.h - label.h) / 2.0).max(0.0);
        let mut out = label.padded(0.0, drop, 0.0, 0.0);
        out.put(code, x, 0.0);
        Some(Block::of_lines(4.0, vec![out.with_reading(self.labels.demo.to_owned())]))
    }

    fn blocks(&self, heaviest: Option<&HeaviestBar<'_>>) -> Vec<Block> {
        let poster = self.poster;
        let mut out = vec![self.name()];
        out.extend(poster.setup.as_ref().map(|text| self.labelled(self.labels.set_up, text)));
        out.extend(self.cues());
        out.extend(poster.safety.as_ref().map(|text| self.labelled(self.labels.safety, text)));
        out.extend(heaviest.and_then(|heaviest| self.bar(heaviest)));
        out.extend(self.demo());
        out
    }

    /// The disclaimers, which are read from close up.
    fn foot(&self, page: usize, pages: usize) -> Fragment {
        let (strong, plain) = (Style::strong(10.0), Style::regular(10.0));
        let mut spans = vec![
            StyledText::new(format!("{} ", self.labels.cautions_head), strong),
            StyledText::new(self.labels.broad.cautions, plain),
        ];
        if pages > 1 {
            let number = fill(self.labels.page_of, &[&page.to_string(), &pages.to_string()]);
            spans.push(StyledText::new(format!("  {number}"), strong));
        }
        let rule = Fragment::rule(self.width(), 1.2, Ink::Black);
        let space = Fragment::space(0.0, 3.0);
        let text = lines(&spans, self.width(), Align::Left);
        stack([rule, space].into_iter().chain(text), 0.0)
    }

    fn pages(&self, heaviest: Option<&HeaviestBar<'_>>) -> Vec<Page> {
        let (w, h) = self.paper.points();
        let blocks = self.blocks(heaviest);
        let columns = flow(&blocks, |_| self.room());
        let all = columns.len();
        let page = |(at, column): (usize, &super::layout::Column<'_>)| {
            let mut sheet = Fragment::space(w, h);
            for (y, row) in &column.rows {
                sheet.put(row.piece.clone(), SIDE, EDGE + y);
            }
            let foot = self.foot(at + 1, all);
            let y = h - EDGE - foot.h;
            sheet.put(foot, SIDE, y);
            Page { width: w, height: h, items: sheet.items }
        };
        columns.iter().enumerate().map(page).collect()
    }
}

/// A mirrored drawing of shapes.
fn mirrored(drawing: &Fragment) -> Fragment {
    let turned = |item: &Shape| match item {
        Shape::Rectangle { rect, stroke, fill, role } => {
            let rect = Rect { x: drawing.w - rect.right(), ..*rect };
            Shape::Rectangle { rect, stroke: *stroke, fill: *fill, role: *role }
        }
        other => other.clone(),
    };
    Fragment { items: drawing.items.iter().map(turned).collect(), ..*drawing }
}
