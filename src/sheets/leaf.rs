//! The page layout of all sheets except the card: the card's head, type and foot on a full sheet.

use crate::plan::Plan;

use super::card::parts::{capped, packed, plain, tag};
use super::labels::{Labels, fill};
use super::layout::{
    Align, Fragment, Ink, Page, Role, Shape, Style, StyledText, lines, stack, width,
};
use super::paper::Paper;

/// The title of a page.
const TITLE: Style = Style { size: 16.0, ..Style::strong(16.0) };
/// The kind of sheet.
const KIND: Style = Style { size: 12.5, ..Style::strong(12.5) };
/// The text below either.
const META: Style = Style { size: 8.6, ..Style::regular(8.6) };
/// The disclaimers.
pub const TINY: Style = Style { size: 7.0, ..Style::regular(7.0) };
/// Space between the sides of the head, in points.
const GAP: f32 = 14.0;
/// Space between head, body and foot, in points.
const SPACE: f32 = 6.0;

/// The text of a head.
#[derive(Clone, Debug, Default)]
pub struct PageHead {
    /// The athlete or the session.
    pub title: String,
    /// The text below the title.
    pub facts: Vec<String>,
    /// The kind of sheet.
    pub kind: String,
    /// The time that the page covers.
    pub when: String,
}

/// The pages of one sheet, with the same paper, head and foot.
#[derive(Clone, Debug)]
pub struct Leaf {
    w: f32,
    h: f32,
    side: f32,
    edge: f32,
    head: PageHead,
    foot: Fragment,
    head_h: f32,
    labels: &'static Labels,
}

impl PageHead {
    /// Adds the text below the title. If the plan is based on assumptions, this is stated first.
    #[must_use]
    pub fn telling(
        mut self,
        plan: &Plan,
        labels: &Labels,
        facts: impl IntoIterator<Item = Option<String>>,
    ) -> Self {
        let assumed = labels.show_assumed(plan);
        let assumed = assumed.map(|text| text.to_uppercase().replace(' ', "\u{a0}"));
        self.facts = [assumed].into_iter().chain(facts).flatten().collect();
        self
    }
}

impl Leaf {
    /// Pages in portrait, or in landscape (`broad`). `about` explains the sheet in small print
    /// above the disclaimers.
    #[must_use]
    pub fn new(
        paper: Paper,
        broad: bool,
        head: PageHead,
        about: &[&str],
        labels: &'static Labels,
    ) -> Self {
        let (w, h) = paper.points();
        let (w, h) = if broad { (h, w) } else { (w, h) };
        let (side, edge) = if broad { (28.0, 24.0) } else { (38.0, 30.0) };
        let foot = foot(about, w - 2.0 * side, labels);
        let mut leaf = Self { w, h, side, edge, head, foot, head_h: 0.0, labels };
        // The head may need one more line with the page number.
        leaf.head_h = leaf.set_head((99, 99)).h;
        leaf
    }

    /// Width between the margins.
    #[must_use]
    pub fn width(&self) -> f32 {
        self.w - 2.0 * self.side
    }

    /// Height between head and foot.
    #[must_use]
    pub fn height(&self) -> f32 {
        self.h - 2.0 * self.edge - self.head_h - self.foot.h - 2.0 * SPACE
    }

    /// The head with the longest text for `when`, and the page's number.
    fn set_head(&self, page: (usize, usize)) -> Fragment {
        let max = self.width();
        let strong = Style { face: Style::strong(0.0).face, ..META };
        let number = (page.1 > 1)
            .then(|| fill(self.labels.page_of, &[&page.0.to_string(), &page.1.to_string()]));
        let below: Vec<String> =
            [Some(self.head.when.clone()), number].into_iter().flatten().collect();
        let below: Vec<String> = below.into_iter().filter(|text| !text.is_empty()).collect();
        let below = below.join(" · ");
        let right = width(&self.head.kind, KIND).max(width(&below, strong)).min(max * 0.5) + 0.1;
        let left = max - GAP - right;
        let mut title = capped(&self.head.title, TITLE, left, Align::Left, 2);
        let facts = packed(&self.head.facts, "  ·  ", META, left, Align::Left);
        title.extend(facts.into_iter().take(3));
        let kind = stack(capped(&self.head.kind, KIND, right, Align::Right, 1), 0.0);
        // The kind of sheet shares the title's baseline, as the day does on a card.
        let drop = TITLE.baseline() - KIND.baseline();
        let mut out = Fragment::space(max, 0.0);
        out.put(stack(title, 0.0), 0.0, 0.0);
        out.put(kind, left + GAP, drop);
        let lines = plain(&below, strong, right, Align::Right);
        out.put(stack(lines, 0.0), left + GAP, TITLE.leading());
        let rule = out.h + 3.0;
        out.put(Fragment::rule(max, 1.8, Ink::Black), 0.0, rule);
        out
    }

    /// A finished page with `body` below the head.
    #[must_use]
    pub fn page(&self, body: Fragment, number: (usize, usize)) -> Page {
        let mut sheet = Fragment::space(self.w, self.h);
        sheet.put(self.set_head(number), self.side, self.edge);
        sheet.put(body, self.side, self.edge + self.head_h + SPACE);
        sheet.put(self.foot.clone(), self.side, self.h - self.edge - self.foot.h);
        Page { width: self.w, height: self.h, items: sheet.items }
    }

    /// Numbered pages, one for each body.
    #[must_use]
    pub fn pages(&self, bodies: Vec<Fragment>) -> Vec<Page> {
        let all = bodies.len();
        let page = |(at, body)| self.page(body, (at + 1, all));
        bodies.into_iter().enumerate().map(page).collect()
    }
}

/// The explanation of the sheet, and the disclaimers.
fn foot(about: &[&str], max: f32, labels: &Labels) -> Fragment {
    let strong = Style { face: Style::strong(0.0).face, ..TINY };
    let about = about.join(" ");
    let mut out = lines(&[StyledText::new(about, TINY.in_ink(Ink::Soft))], max, Align::Left);
    out.push(Fragment::space(max, 2.0));
    out.push(Fragment::rule(max, 0.6, Ink::Black));
    out.push(Fragment::space(max, 1.6));
    let spans = [
        StyledText::new(format!("{} ", labels.cautions_head), strong),
        StyledText::new(labels.broad.cautions, TINY),
    ];
    out.extend(lines(&spans, max, Align::Left));
    stack(out, 0.0)
}

/// Maximum number of lines in a frame, which is never split.
const MOST_LIMIT: usize = 12;

/// Limits in frames, so that nobody overlooks them. A frame contains as much as fits a page for
/// certain.
#[must_use]
pub fn limits(texts: &[String], max: f32, labels: &Labels) -> Vec<Fragment> {
    let style = Style::strong(META.size);
    let tag = tag(labels.limit, style);
    let indent = tag.w + 12.0;
    let text: Vec<Fragment> =
        texts.iter().flat_map(|text| plain(text, style, max - indent - 6.0, Align::Left)).collect();
    let frame = |lines: &[Fragment]| {
        let text = stack(lines.iter().cloned(), 0.0);
        let (w, h) = (max - 1.4, text.h + 7.0);
        let stroke = Some((1.4, Ink::Black));
        let mut out =
            Fragment::shape(w, h, stroke, None, Role::Decoration).padded(0.7, 0.7, 0.7, 0.7);
        out.put(tag.clone(), 6.0, 3.7);
        out.put(text, indent, 4.2);
        out
    };
    text.chunks(MOST_LIMIT).map(frame).collect()
}

/// A box for writing.
#[must_use]
pub fn pen_box(w: f32, h: f32) -> Fragment {
    Fragment::shape(w, h, Some((0.8, Ink::Black)), None, Role::WriteIn)
}

/// Diagonal hairlines over an area: the mark of a deload week without a colour.
#[must_use]
pub fn hatch(w: f32, h: f32, gap: f32) -> Fragment {
    let mut out = Fragment::space(w, h);
    let mut start = gap / 2.0;
    while start < w + h {
        // From the lower left to the upper right, clipped at the edges.
        let from = ((start - h).max(0.0), start.min(h));
        let to = (start.min(w), (start - w).max(0.0));
        out.draw(Shape::Line { from, to, weight: 0.5, ink: Ink::Faint });
        start += gap;
    }
    out
}
