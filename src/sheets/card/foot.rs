//! The foot of a card: boxes for the athlete's notes on the session, and the disclaimers.

use crate::plan::Session;
use crate::quantity::{Effort, Work};
use crate::sheets::labels::{Labels, capital};
use crate::sheets::layout::{Align, Fragment, Ink, Style, StyledText, beside, count, lines, stack};

use super::metrics::Metrics;
use super::parts::{label_width, write_in};

/// Maximum height of the box for notes, in box heights.
const MOST_NOTES: f32 = 3.2;

/// Least height of the session's own boxes with the codes next to them, in points.
#[must_use]
pub fn log_height(m: &Metrics, codes: Option<&Fragment>) -> f32 {
    match codes {
        Some(codes) => rows_h(3, m).max(codes.h),
        None => rows_h(m.log_rows, m),
    }
}

/// The height of rows of boxes.
fn rows_h(rows: usize, m: &Metrics) -> f32 {
    count(rows) * m.box_h + count(rows.saturating_sub(1)) * gap(m)
}

/// The space between the boxes.
fn gap(m: &Metrics) -> f32 {
    m.box_gap + 1.0
}

/// Maximum height of the boxes, in points.
#[must_use]
pub fn most_log(m: &Metrics, codes: Option<&Fragment>) -> f32 {
    let rows = if m.log_rows > 2 || codes.is_some() { 2.0 } else { 1.0 };
    let boxes = m.box_h * (rows + MOST_NOTES) + rows * gap(m);
    codes.map_or(boxes, |codes| boxes.max(codes.h))
}

/// Boxes for the session: body mass, effort, sleep, pain, and notes to their right or below them in
/// the remaining room. Codes are next to them, away from the writing hand.
#[must_use]
pub fn log(
    labels: &Labels,
    unit: &str,
    room: f32,
    m: &Metrics,
    codes: Option<Fragment>,
) -> Fragment {
    let Some(codes) = codes else {
        return boxes(labels, unit, room, m, m.content());
    };
    let aside = codes.w + 2.0 * gap(m);
    let boxes = high_boxes(labels, unit, room.max(codes.h), m, m.content() - aside);
    let x = if m.left_handed { (0.0, m.content() - codes.w) } else { (aside, 0.0) };
    let mut out = Fragment::space(m.content(), boxes.h.max(codes.h));
    out.put(codes, x.1, 0.0);
    out.put(boxes, x.0, 0.0);
    out
}

/// Some of the boxes, side by side.
fn some(texts: &[&str], shares: &[f32], h: f32, m: &Metrics, wide: f32) -> Fragment {
    let wide = wide - gap(m) * count(shares.len().saturating_sub(1));
    let labels: Vec<&str> = texts.iter().copied().take(shares.len()).collect();
    let widths = widths(shares, &labels, wide, m);
    let boxes = widths.iter().zip(&labels);
    beside(boxes.map(|(w, label)| write_in(m, *w, h, label)), gap(m))
        .with_reading(labels.join(" · "))
}

/// The label of the box for body mass, with the unit.
fn body_mass(labels: &Labels, unit: &str) -> String {
    format!("{}, {unit}", capital(labels.weigh_in))
}

/// The boxes in three rows.
fn high_boxes(labels: &Labels, unit: &str, room: f32, m: &Metrics, wide: f32) -> Fragment {
    let first = [&*body_mass(labels, unit), labels.session_rpe];
    let first = some(&first, &[0.5, 0.5], m.box_h, m, wide);
    let second = some(&[labels.sleep, labels.pain], &[0.36, 0.64], m.box_h, m, wide);
    let rest = (room - 2.0 * (m.box_h + gap(m))).clamp(m.box_h, m.box_h * MOST_NOTES);
    stack([first, second, write_in(m, wide, rest, labels.notes)], gap(m))
}

/// The boxes, in as many rows as there is room for.
fn boxes(labels: &Labels, unit: &str, room: f32, m: &Metrics, wide: f32) -> Fragment {
    if m.log_rows > 2 {
        return high_boxes(labels, unit, room, m, wide);
    }
    let body = body_mass(labels, unit);
    let texts = [&body, labels.session_rpe, labels.sleep, labels.pain, labels.notes];
    if room < rows_h(2, m) {
        return some(&texts, &[0.16, 0.14, 0.11, 0.22, 0.37], room.max(m.box_h), m, wide);
    }
    let first = some(&texts, &[0.22, 0.17, 0.22, 0.39], m.box_h, m, wide);
    let notes = (room - first.h - gap(m)).min(m.box_h * MOST_NOTES);
    stack([first, write_in(m, wide, notes, labels.notes)], gap(m))
}

/// The widths of the boxes: their shares, or more if a label needs it. The last box gets the rest.
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

/// The terms that a card has to explain, apart from RPE, which every card asks for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Legend {
    rir: bool,
    amrap: bool,
    tempo: bool,
}

impl Legend {
    /// Number of possible legends.
    pub const COUNT: usize = 8;

    /// The legend of a session's card.
    #[must_use]
    pub fn new(session: &Session) -> Self {
        let sets = || session.exercises.iter().flat_map(|exercise| &exercise.sets);
        Self {
            rir: sets().any(|set| matches!(set.effort, Some(Effort::Rir(_)))),
            amrap: sets().any(|set| set.reps.work == Work::Amrap),
            tempo: sets().any(|set| set.tempo.is_some()),
        }
    }

    /// Its index among all legends.
    #[must_use]
    pub fn index(self) -> usize {
        usize::from(self.rir) + 2 * usize::from(self.amrap) + 4 * usize::from(self.tempo)
    }

    fn text(self, labels: &Labels) -> String {
        let all = [
            (true, labels.what_rpe_is),
            (self.rir, labels.what_rir_is),
            (self.amrap, labels.what_amrap_is),
            (self.tempo, labels.what_tempo_is),
        ];
        let used = all.into_iter().filter_map(|(is_used, text)| is_used.then_some(text));
        used.collect::<Vec<_>>().join(labels.semicolon)
    }
}

/// The explanations of terms and the disclaimers. They are on every page, because the athlete may
/// take only one.
#[must_use]
pub fn cautions(labels: &Labels, legend: Option<Legend>, m: &Metrics) -> Fragment {
    let strong = Style::strong(m.tiny.size);
    let spans = [
        StyledText::new(format!("{} ", labels.cautions_head), strong),
        StyledText::new(labels.cautions, m.tiny),
    ];
    let mut text = lines(&spans, m.content(), Align::Left);
    let mut out = vec![Fragment::rule(m.content(), 0.6, Ink::Black), Fragment::space(0.0, 1.6)];
    if let Some(legend) = legend {
        let text = StyledText::new(legend.text(labels), m.tiny);
        out.append(&mut lines(&[text], m.content(), Align::Left));
    }
    out.append(&mut text);
    stack(out, 0.0)
}
