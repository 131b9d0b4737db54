//! Known typos in logs: words and word orders that coaches use when they write down a result.

use strsim::damerau_levenshtein;

use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::build::cut;
use crate::syntax::grammar::Rule;

/// Words for a set that failed.
const NOT_MADE: &[&str] =
    &["missed", "miss", "fail", "failed", "failure", "f", "x", "-", "–", "n/a", "na", "none", "no"];

/// The diagnostic for a known typo in a result or in the heading of a logged session.
pub fn known(rule: Rule, text: &str, within: &dyn Fn(usize, usize) -> Span) -> Option<Diagnostic> {
    match rule {
        Rule::result_value => result(text, within),
        Rule::log_session => session(text, within),
        _ => None,
    }
}

fn result(text: &str, within: &dyn Fn(usize, usize) -> Span) -> Option<Diagnostic> {
    let mut at = 0;
    let mut sets = Vec::new();
    for part in text.split(',') {
        let start = at + (part.len() - part.trim_start().len());
        let word = part.trim();
        at += part.len() + 1;
        let found = |message: String, help: String| {
            let span = within(start, start + word.len());
            Some(Diagnostic::new(Code::BadResult, span, message).help(help))
        };
        let lower = word.to_lowercase();
        if NOT_MADE.contains(&lower.as_str()) {
            return found(
                format!("`{}` does not say what was done", cut(word)),
                "write the repetitions of each set, 0 for a failed set: `5, 5, 0`; write \
                 `skipped (why)` if the exercise was not done"
                    .to_owned(),
            );
        }
        if let Some(scale) = ["rpe", "rir"].into_iter().find(|scale| lower.starts_with(scale)) {
            let scale = scale.to_uppercase();
            if !word.starts_with(scale.as_str()) {
                let number = lower.get(3..).unwrap_or("").trim().to_owned();
                return found(
                    "RPE and RIR are written in capitals".to_owned(),
                    format!("write `{scale} {number}`"),
                );
            }
        }
        if let Some((reps, load)) = word.split_once('@') {
            let load = load.trim();
            if is_number(load) {
                return found(
                    "this load has no unit".to_owned(),
                    format!("write `{} @ {load} kg` or `{load} lb`", reps.trim()),
                );
            }
            if load.starts_with("RPE") || load.starts_with("RIR") {
                return found(
                    "in a log, the effort comes after a comma".to_owned(),
                    format!("write `{}, {load}`", reps.trim()),
                );
            }
        }
        let first = word.split('@').next().unwrap_or(word);
        let numbers: Vec<&str> =
            first.split(|c: char| !c.is_ascii_digit()).filter(|n| !n.is_empty()).collect();
        let joined = first.contains(['x', '×', '*']);
        let unit = first.contains("kg") || first.contains("lb");
        if (joined || unit) && numbers.len() >= 2 {
            return found(
                format!("cannot read `{}` as the repetitions of one set", cut(word)),
                "write the repetitions of each set with commas, then the load after an @: \
                 `5, 5, 3 @ 45 kg`"
                    .to_owned(),
            );
        }
        sets.push(word);
    }
    None
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.')
}

/// `2026-01-12 week 2, Lower: missed`: the only word allowed there is `skipped`.
fn session(text: &str, within: &dyn Fn(usize, usize) -> Span) -> Option<Diagnostic> {
    let (head, word) = text.split_once(": ")?;
    let word = word.trim();
    if !head.contains("week") || word.is_empty() {
        return None;
    }
    let start = head.len() + 2;
    let help = if word.eq_ignore_ascii_case("done") {
        "delete it, and write a line for each exercise below the session: `A: done`".to_owned()
    } else {
        // In `skiped (flu)` the reason is in brackets already.
        let (said, inside) = word.split_once('(').unwrap_or((word, "why"));
        let is_skipped = damerau_levenshtein(&said.trim().to_lowercase(), "skipped") <= 2;
        let why = if is_skipped { inside } else { word }.replace(['(', ')'], "");
        format!("write a skipped session as `{head}: skipped ({})`", cut(&why))
    };
    let span = within(start, text.len());
    let message = format!("cannot read `{}` after a session", cut(word));
    Some(Diagnostic::new(Code::BadResult, span, message).help(help))
}
