//! The additional notes on the coach's copy of a card: derivations of loads, and sources.

use crate::plan::{Citation, CitationOf, PlannedExercise, PlannedSet};
use crate::sheets::labels::{Labels, fill};
use crate::sheets::layout::{Align, Block, Fragment, Ink, Row, Style, stack};
use crate::sheets::reasons;
use crate::sheets::runs::work_runs;
use crate::sheets::wording::{PRINTED, Wording};

use super::metrics::Metrics;
use super::parts::{inked, labelled, plain};
use super::{Card, separator};

/// The notes below a card's exercises; empty if there are none.
#[must_use]
pub fn notes(card: &Card<'_>) -> Vec<Block> {
    let m = &card.metrics;
    // They are in the coach's language, whatever the athlete's is.
    let words = Wording::new(&card.plan.language, card.athlete, PRINTED);
    let labels = words.labels;
    let mut out: Vec<Block> = Vec::new();
    if let Some(evidence) = &card.plan.source {
        let texts = [(labels.source_of_programme, evidence.clone())];
        out.push(Block::of_lines(m.gap, paragraph(&texts, m.content(), m)));
    }
    out.extend(card.session.exercises.iter().filter_map(|exercise| entry(exercise, &words, m)));
    if out.is_empty() {
        return out;
    }
    let heading = plain(labels.coach_notes, Style::strong(m.meta.size), m.content(), Align::Left);
    let heading = Block::of_lines(m.between, heading).apart().keeping();
    out.splice(0..0, [separator(m), heading]);
    out
}

/// The notes on one exercise, with its letter and name.
fn entry(exercise: &PlannedExercise, words: &Wording, m: &Metrics) -> Option<Block> {
    let labels = words.labels;
    let loads = loads(exercise, words);
    let mut texts: Vec<(String, String)> =
        loads.into_iter().map(|text| (labels.loads_from.to_owned(), text)).collect();
    texts.extend(exercise.sources.iter().map(|evidence| source(evidence, labels)));
    if texts.is_empty() {
        return None;
    }
    let strong = Style::strong(m.small.size);
    let (x, room) = m.lettered();
    let letter = plain(&exercise.order.to_string(), strong, x, Align::Left);
    let mut name = plain(&exercise.name, strong, room, Align::Left).into_iter();
    let first = name.next().unwrap_or_default();
    let read = format!("{} {}", exercise.order, inked(&first).1);
    let mut head = Fragment::default();
    head.put(stack(letter, 0.0), m.bracket, 0.0);
    head.put(first, x, 0.0);
    let mut lines = vec![head.with_reading(read)];
    lines.extend(name.map(|line| line.padded(x, 0.0, 0.0, 0.0)));
    for (label, text) in &texts {
        let text = paragraph(&[(label.as_str(), text.clone())], room, m);
        lines.extend(text.into_iter().map(|line| line.padded(x, 0.0, 0.0, 0.0)));
    }
    let rows = lines.into_iter().enumerate();
    let rows = rows.map(|(at, line)| Row::new(if at == 0 { m.gap + 1.0 } else { 0.0 }, line));
    Some(Block { rows: rows.collect(), ..Block::default() })
}

fn paragraph(texts: &[(&str, String)], room: f32, m: &Metrics) -> Vec<Fragment> {
    labelled(None, texts, m.small.in_ink(Ink::Soft), |_| room)
}

fn source(evidence: &Citation, labels: &Labels) -> (String, String) {
    let label = match &evidence.of {
        CitationOf::Exercise => labels.source.to_owned(),
        CitationOf::Line => labels.source_of_line.to_owned(),
        CitationOf::Cue { cue } => fill(labels.source_of_cue, &[cue]),
    };
    (label, evidence.text.clone())
}

/// The derivation of each different load that the line does not state directly.
fn loads(exercise: &PlannedExercise, words: &Wording) -> Vec<String> {
    let runs = work_runs(exercise);
    let mut told: Vec<(&PlannedSet, String)> = Vec::new();
    for run in &runs {
        let again = told.iter().any(|(set, _)| set.derivation == run.set.derivation);
        if let Some(why) = reasons::in_a_line(run.set, words).filter(|_| !again) {
            let sets = format!("{}{}{}", run.count, words.signs.times, words.reps(&run.set.reps));
            let colon = words.labels.colon;
            let lead = if runs.len() > 1 { format!("{sets}{colon}") } else { String::new() };
            let why = why.replace(" -", &format!(" {}", words.signs.minus));
            told.push((run.set, format!("{lead}{why}")));
        }
    }
    told.into_iter().map(|(_, text)| text).collect()
}
