//! The foot of a card: what the athlete writes about the session, and the cautions.

use crate::sheets::labels::Labels;
use crate::sheets::layout::{Align, Fragment, Ink, Span, Style, beside, count, lines, stack};

use super::metrics::Metrics;
use super::parts::{label_width, write_in};

/// The most that the box for notes grows to, in box heights.
const MOST_NOTES: f32 = 3.2;

/// The least height of the session's own boxes.
#[must_use]
pub fn log_height(m: &Metrics) -> f32 {
    let rows = count(m.log_rows);
    rows * m.box_h + (rows - 1.0) * (m.box_gap + 1.0)
}

/// The most height that they take.
#[must_use]
pub fn most_log(m: &Metrics) -> f32 {
    let rows = if m.log_rows > 2 { 2.0 } else { 1.0 };
    m.box_h * (rows + MOST_NOTES) + rows * (m.box_gap + 1.0)
}

/// Boxes for the session: body mass, effort, sleep, pain; and notes, at their right or below them
/// in what room is left.
#[must_use]
pub fn log(labels: &Labels, unit: &str, room: f32, m: &Metrics) -> Fragment {
    let gap = m.box_gap + 1.0;
    let body = format!("{}, {unit}", capital(labels.body_mass));
    let texts = [&body, labels.session_rpe, labels.sleep, labels.pain, labels.notes];
    let some = |texts: &[&str], shares: &[f32], h: f32| {
        let wide = m.content() - gap * count(shares.len().saturating_sub(1));
        let labels: Vec<&str> = texts.iter().copied().take(shares.len()).collect();
        let widths = widths(shares, &labels, wide, m);
        let boxes = widths.iter().zip(&labels);
        beside(boxes.map(|(w, label)| write_in(m, *w, h, label)), gap).told(labels.join(" · "))
    };
    let row = |shares: &[f32], h: f32| some(&texts, shares, h);
    if m.log_rows > 2 {
        let [body, effort, sleep, pain, notes] = texts;
        let first = some(&[body, effort], &[0.5, 0.5], m.box_h);
        let second = some(&[sleep, pain], &[0.36, 0.64], m.box_h);
        let rest = (room - 2.0 * (m.box_h + gap)).clamp(m.box_h, m.box_h * MOST_NOTES);
        return stack([first, second, write_in(m, m.content(), rest, notes)], gap);
    }
    if room < 2.0 * m.box_h + gap {
        return row(&[0.16, 0.14, 0.11, 0.22, 0.37], room.max(m.box_h));
    }
    let first = row(&[0.22, 0.17, 0.22, 0.39], m.box_h);
    let notes = (room - first.h - gap).min(m.box_h * MOST_NOTES);
    stack([first, write_in(m, m.content(), notes, labels.notes)], gap)
}

/// The boxes' widths: their shares, or what their labels need; the last has what is left.
fn widths(shares: &[f32], labels: &[&str], wide: f32, m: &Metrics) -> Vec<f32> {
    let least = |label: &&str| label_width(label, m);
    let own = shares.iter().zip(labels).map(|(share, label)| (wide * share).max(least(label)));
    let mut widths: Vec<f32> = own.collect();
    let taken: f32 = widths.iter().rev().skip(1).sum();
    if let Some(last) = widths.last_mut() {
        *last = wide - taken;
    }
    widths
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    first + letters.as_str()
}

/// The cautions, on every page: a page may be all that the athlete takes along.
#[must_use]
pub fn cautions(labels: &Labels, m: &Metrics) -> Fragment {
    let strong = Style::strong(m.tiny.size);
    let spans = [
        Span::new(format!("{} ", labels.cautions_head), strong),
        Span::new(labels.cautions, m.tiny),
    ];
    let mut text = lines(&spans, m.content(), Align::Left);
    let mut out = vec![Fragment::rule(m.content(), 0.6, Ink::Black), Fragment::space(0.0, 1.6)];
    out.append(&mut text);
    stack(out, 0.0)
}
