//! Small parts of a card.

use crate::sheets::layout::{
    Align, Fragment, Ink, Role, Shape, Style, StyledText, count, line, lines, lines_in, width,
};

use super::metrics::Metrics;

/// Thickness and ink of the outline of a box for writing.
const OUTLINE: (f32, Ink) = (0.8, Ink::Black);

/// A box for writing, with a small label in its upper left corner.
#[must_use]
pub fn write_in(metrics: &Metrics, w: f32, h: f32, label: &str) -> Fragment {
    let mut out = Fragment::shape(w, h, Some(OUTLINE), None, Role::WriteIn);
    corner(&mut out, metrics, label, 0.0, w);
    out
}

/// The width of a box that fits its whole label.
#[must_use]
pub fn label_width(label: &str, metrics: &Metrics) -> f32 {
    width(label, metrics.tiny) + 4.0
}

/// Draws a label in the upper left corner of a box. The label is cut to fit.
fn corner(out: &mut Fragment, metrics: &Metrics, label: &str, x: f32, w: f32) {
    let style = metrics.tiny.in_ink(Ink::Soft);
    let label = lines(&[StyledText::new(label, style)], w - 4.0, Align::Left).into_iter().next();
    if let Some(label) = label {
        let items = label.items.into_iter().map(|item| item.moved(x + 2.4, 0.4));
        out.items.extend(items);
    }
}

/// A box for one set, divided in two if the set is done on each side.
#[must_use]
pub fn set_box(metrics: &Metrics, w: f32, sides: Option<(&str, &str)>, label: &str) -> Fragment {
    let h = metrics.box_h;
    let Some((left, right)) = sides else {
        return write_in(metrics, w, h, label);
    };
    let mut out = write_in(metrics, w, h, left);
    corner(&mut out, metrics, right, w / 2.0, w / 2.0);
    let (x, inset) = (w / 2.0, 0.0);
    out.draw(Shape::Line { from: (x, inset), to: (x, h - inset), weight: 0.5, ink: Ink::Faint });
    out
}

/// White text on black, for what must not be overlooked.
#[must_use]
pub fn tag(text: &str, style: Style) -> Fragment {
    let text = line(text, Style { ink: Ink::White, ..style });
    let inset = style.size * 0.42;
    let (w, h) = (text.w + 2.0 * inset, style.leading() + 0.6);
    let mut out = Fragment::shape(w, h, None, Some(Ink::Black), Role::Decoration);
    out.put(text, inset, 0.3);
    out
}

/// Black text in a thin frame, for what should be noticed.
#[must_use]
pub fn framed(text: &str, style: Style) -> Fragment {
    let text = line(text, style);
    let inset = style.size * 0.42;
    let (w, h) = (text.w + 2.0 * inset, style.leading() + 1.2);
    let mut out = Fragment::shape(w, h, Some((0.6, Ink::Soft)), None, Role::Decoration);
    out.put(text, inset, 0.6);
    out
}

/// A paragraph of several texts with labels, one after another. The first may have a tag, and its
/// text is then bold. `room` gives the width of each line, counted from 0.
#[must_use]
pub fn labelled(
    tagged: Option<(&str, &str)>,
    texts: &[(&str, String)],
    style: Style,
    room: impl Fn(usize) -> f32,
) -> Vec<Fragment> {
    let strong = Style { face: Style::strong(0.0).face, ..style };
    let mut spans = Vec::new();
    let tagged = tagged.filter(|(_, text)| !text.trim().is_empty());
    if let Some((_, text)) = tagged {
        spans.push(StyledText::new(text.trim(), strong));
    }
    for (label, text) in texts.iter().filter(|(_, text)| !text.trim().is_empty()) {
        if !spans.is_empty() {
            spans.push(StyledText::new("   ", style));
        }
        if !label.is_empty() {
            // No line breaks within a label or directly after it.
            let label =
                format!("{}\u{a0}\u{a0}", label.replace(' ', "\u{a0}").replace('-', "\u{2011}"));
            spans.push(StyledText::new(label, strong));
        }
        spans.push(StyledText::new(text.trim(), style));
    }
    let Some((label, _)) = tagged else {
        return lines_in(0.0, &spans, room, Align::Left);
    };
    let tag = tag(label, Style::strong((style.size - 0.6).max(7.0)));
    let mut out = lines_in(tag.w + style.size * 0.5, &spans, room, Align::Left);
    if let Some(first) = out.first_mut() {
        let drop = (first.h - tag.h) / 2.0;
        let items = tag.items.into_iter().map(|item| item.moved(0.0, drop.max(0.0)));
        // Screen readers read the tag first.
        first.items.splice(0..0, items);
    }
    out
}

/// Lines of text without labels.
#[must_use]
pub fn plain(text: &str, style: Style, max: f32, align: Align) -> Vec<Fragment> {
    lines(&[StyledText::new(text, style)], max, align)
}

/// Whether the text fits on one line.
#[must_use]
pub fn fits(text: &str, style: Style, max: f32) -> bool {
    width(text, style) <= max
}

/// Texts with a separator between them, in as few lines as possible. A text is broken only if it is
/// wider than a line.
#[must_use]
pub fn packed(
    texts: &[String],
    joint: &str,
    style: Style,
    max: f32,
    align: Align,
) -> Vec<Fragment> {
    let mut joined: Vec<String> = Vec::new();
    for text in texts {
        match joined.last_mut() {
            Some(line) if fits(&format!("{line}{joint}{text}"), style, max) => {
                line.push_str(joint);
                line.push_str(text);
            }
            _ => joined.push(text.clone()),
        }
    }
    let set = |line: &String| {
        let broken = (!fits(line, style, max)).then(|| line.replace('\u{a0}', " "));
        plain(broken.as_ref().unwrap_or(line), style, max, align)
    };
    joined.iter().flat_map(set).collect()
}

/// Joins sentences: after a full stop, no other separator is needed.
#[must_use]
pub fn sentences(texts: &[String], semicolon: &str) -> String {
    let mut out = String::new();
    for text in texts.iter().map(|text| text.trim()).filter(|text| !text.is_empty()) {
        if !out.is_empty() {
            out.push_str(if out.ends_with(['.', '!', '?', '…']) { " " } else { semicolon });
        }
        out.push_str(text);
    }
    out
}

/// Lines of text, at most `most`; a text that is cut off ends in `…`. For the head, which every
/// page repeats.
#[must_use]
pub fn capped(text: &str, style: Style, max: f32, align: Align, most: usize) -> Vec<Fragment> {
    let whole = plain(text, style, max, align);
    if whole.len() <= most {
        return whole;
    }
    let mut room = max * count(most) * 0.8;
    let kept: String = text
        .chars()
        .take_while(|c| {
            room -= width(c.encode_utf8(&mut [0; 4]), style);
            room > 0.0
        })
        .collect();
    plain(&format!("{}…", kept.trim_end()), style, max, align).into_iter().take(most).collect()
}

/// The labels of a row of boxes, for screen readers.
#[must_use]
pub fn spoken(row: &Fragment) -> String {
    let labels = row.items.iter().filter_map(|item| match item {
        Shape::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    labels.collect::<Vec<_>>().join(" ")
}

/// How far the text of some lines extends, and the text.
#[must_use]
pub fn inked(line: &Fragment) -> (f32, String) {
    let mut reach: f32 = 0.0;
    let mut words = String::new();
    let mut baseline = None;
    for item in &line.items {
        match item {
            Shape::Text { x, y, width, text, style } => {
                // Small print is level with the text it follows, not on its baseline.
                let below = baseline.is_some_and(|last: f32| y - last > style.size);
                if !words.is_empty() && (below || *x > reach + 1.0) {
                    words.push(' ');
                }
                baseline = Some(*y);
                reach = reach.max(x + width);
                words.push_str(text);
            }
            Shape::Missing { rect, character, .. } => {
                reach = reach.max(rect.right());
                words.push(*character);
            }
            _ => {}
        }
    }
    (reach, words)
}
