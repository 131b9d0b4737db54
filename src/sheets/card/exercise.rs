//! One exercise: its letter, its name, how it is done, its sets.

use crate::plan::PlannedExercise;
use crate::quantity::Duration;
use crate::sheets::layout::{Align, Block, Fragment, Ink, Item, Row, line, width};
use crate::sheets::runs::{Run, warm_up_runs, work_runs};
use crate::sheets::wording::Wording;

use super::metrics::Metrics;
use super::parts::{labelled, packed, plain, sentences};
use super::target::shared_details;
use super::work::{Boxes, Work};

/// Where an exercise stands in a group that is tied together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tie {
    /// The bracket begins here.
    pub first: bool,
    /// The bracket ends here.
    pub last: bool,
}

/// How an exercise is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'a> {
    /// The card's measures.
    pub metrics: &'a Metrics,
    /// The words.
    pub wording: &'a Wording,
    /// Which boxes it gets.
    pub boxes: Boxes,
    /// The rest that is told once for the group.
    pub rest_told: Option<Duration>,
    /// Its place in a group.
    pub tie: Option<Tie>,
}

/// Lays out an exercise: rows that a page keeps together.
#[must_use]
pub fn block(exercise: &PlannedExercise, setting: Setting<'_>) -> Block {
    let m = setting.metrics;
    let runs = work_runs(exercise);
    let work = Work {
        metrics: m,
        wording: setting.wording,
        runs: &runs,
        boxes: setting.boxes,
        rest_told: setting.rest_told,
    };
    let details = shared_details(setting.wording, &runs, setting.rest_told);
    let mut rows: Vec<Row> = Vec::new();
    let push = |rows: &mut Vec<Row>, before: f32, pieces: Vec<Fragment>| {
        for (at, piece) in pieces.into_iter().enumerate() {
            let piece = piece.padded(m.indent(), 0.0, 0.0, 0.0);
            rows.push(Row::new(if at == 0 { before } else { 0.0 }, piece));
        }
    };
    push(&mut rows, 0.0, heading(exercise, &details, m));
    push(&mut rows, 0.0, small_print(exercise, setting));
    push(&mut rows, m.gap * 0.5, warm_up(exercise, setting));
    let (pieces, drawing) = work.pieces();
    let work_row = rows.len();
    push(&mut rows, m.gap + 1.0, pieces);
    push(&mut rows, m.gap, after(exercise, setting));

    let letter = line(&exercise.order.to_string(), m.letter);
    if let Some(row) = rows.first_mut() {
        let lift = (m.name.leading() - letter.h) / 2.0;
        // Read first, so it stands first.
        let items = letter.items.into_iter().map(|item| item.moved(m.bracket, lift));
        row.piece.items.splice(0..0, items);
    }
    if let (Some(row), Some(drawing)) = (rows.get_mut(work_row), drawing) {
        // Level with the foot of the boxes: clear of the letter above it.
        let drop = m.box_h - drawing.h;
        row.piece.put(drawing, m.bracket, drop);
    }
    match setting.tie {
        Some(tie) => tied(&mut rows, tie, m),
        None => {
            if let Some(row) = rows.first_mut() {
                row.before = m.between;
            }
        }
    }
    Block { rows, keep_with_next: false }
}

/// The name at the left, the shared details at the right, or below it when both are long.
fn heading(exercise: &PlannedExercise, details: &[String], m: &Metrics) -> Vec<Fragment> {
    let joint = "  ·  ";
    let together = details.join(joint);
    let (name_w, details_w) = (width(&exercise.name, m.name), width(&together, m.meta));
    let max = m.body();
    if name_w + details_w + 10.0 > max {
        let mut out = plain(&exercise.name, m.name, max, Align::Left);
        out.extend(packed(details, joint, m.meta, max, Align::Left));
        return out;
    }
    let mut out = Fragment::space(max, m.name.leading());
    out.put(line(&exercise.name, m.name), 0.0, 0.0);
    if !details.is_empty() {
        // On the name's baseline.
        let drop =
            (m.name.leading() - m.meta.leading()) / 2.0 + (m.name.size - m.meta.size) * 0.345;
        out.put(line(&together, m.meta), max - details_w - 0.1, drop);
    }
    vec![out]
}

/// What it stands in for, the athlete's own settings, set-up and cues, notes, safety.
fn small_print(exercise: &PlannedExercise, setting: Setting<'_>) -> Vec<Fragment> {
    let (m, labels) = (setting.metrics, setting.wording.labels);
    let replaced = exercise.replaces.as_ref().map(|replaced| match &replaced.reason {
        Some(reason) => format!("{} ({reason})", replaced.name),
        None => replaced.name.clone(),
    });
    let own = exercise.settings.join(" · ");
    let how = [
        (labels.instead_of, replaced.unwrap_or_default()),
        (labels.set_up, exercise.setup.clone().unwrap_or_default()),
        (labels.cue, sentences(&exercise.cues)),
        (labels.note, sentences(&exercise.notes)),
        (labels.safety, exercise.safety.clone().unwrap_or_default()),
    ];
    labelled(Some((labels.yours, &own)), &how, m.small, m.body())
}

/// The ramp, in one quiet line: `8 × 20 kg   5 × 35 (5 + 2.5)`.
fn warm_up(exercise: &PlannedExercise, setting: Setting<'_>) -> Vec<Fragment> {
    let (m, words) = (setting.metrics, setting.wording);
    let one = |run: &Run<'_>| {
        let reps = words.reps(&run.set.reps);
        let sets = if run.count > 1 {
            format!("{}{}", run.count, words.signs.times)
        } else {
            String::new()
        };
        let load = words.load(run.set).map(|load| format!("{}{load}", words.signs.times));
        let plates = match run.set.plates_per_side() {
            [] => String::new(),
            plates => format!(" ({})", words.pieces(plates)),
        };
        let text = format!("{sets}{reps}{}{plates}", load.unwrap_or_default());
        text.replace(' ', "\u{a0}")
    };
    let ramp: Vec<String> = warm_up_runs(exercise).iter().map(one).collect();
    labelled(None, &[(words.labels.warm_up, ramp.join("   "))], m.small, m.body())
}

/// What decides the next session, and where the exercise is shown.
fn after(exercise: &PlannedExercise, setting: Setting<'_>) -> Vec<Fragment> {
    let (m, labels) = (setting.metrics, setting.wording.labels);
    let rules: Vec<String> = exercise
        .rules
        .iter()
        .map(|rule| rule.strip_prefix("when ").unwrap_or(rule))
        .map(|rule| rule.replace(">=", "≥").replace("<=", "≤").replace(" -", " −"))
        .collect();
    let texts = [
        (labels.next_time, rules.join("; ")),
        (labels.demo, exercise.demo.clone().unwrap_or_default()),
    ];
    labelled(None, &texts, m.quiet.in_ink(Ink::Soft), m.body())
}

/// Draws the exercise's part of the bracket that ties its group together. Space above rows becomes
/// part of them, so that the bracket has no gaps.
pub fn tied(rows: &mut [Row], tie: Tie, m: &Metrics) {
    let last = rows.len().saturating_sub(1);
    for (at, row) in rows.iter_mut().enumerate() {
        let before = if at > 0 {
            row.before
        } else if tie.first {
            0.0
        } else {
            m.between * 0.8 + 0.8
        };
        row.before = 0.0;
        let mut piece = std::mem::take(&mut row.piece).padded(0.0, before, 0.0, 0.0);
        let top = if at == 0 && tie.first { 1.0 } else { 0.0 };
        let bottom = if at == last && tie.last { piece.h - 1.0 } else { piece.h };
        bracket(&mut piece, (at == 0 && tie.first, top), (at == last && tie.last, bottom));
        row.piece = piece;
    }
}

/// A part of a bracket, with a foot where it ends.
fn bracket(piece: &mut Fragment, top: (bool, f32), bottom: (bool, f32)) {
    let (x, weight, ink) = (1.1, 2.2, Ink::Black);
    piece.draw(Item::Line { from: (x, top.1), to: (x, bottom.1), weight, ink });
    for (ends, y) in [top, bottom] {
        if ends {
            piece.draw(Item::Line { from: (0.0, y), to: (6.0, y), weight, ink });
        }
    }
}
