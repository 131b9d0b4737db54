//! The review as text of at most 80 columns.

use crate::history::{AthleteReview, AttentionItem, Review, ReviewedSession, WeekReview};
use crate::quantity::Exact;
use crate::sheets::labels::{Labels, fill};
use crate::sheets::summary::lines::{WrappedText, cut};
use crate::sheets::wording::PLAIN;

use super::words::ReviewWords;

/// Indentation of continued lines of a list, in characters.
const HANG: usize = 4;
/// Maximum width of a name in a table, in characters.
const NAME: usize = 36;

/// Writes a review as text. Widths are counted in characters; no line is longer than 80.
#[must_use]
pub fn text(review: &Review) -> String {
    let review = &*review.named();
    let mut out = WrappedText::default();
    let unit = review.athletes.first().map(|athlete| athlete.unit).unwrap_or_default();
    let words = ReviewWords::new(&review.language, unit, PLAIN);
    let labels = words.labels;
    out.heading(&fill(labels.title, &[&review.programme]), '=');
    if review.athletes.len() > 1 {
        out.blank();
        look(&mut out, &review.look_first, &words);
    }
    for athlete in &review.athletes {
        out.blank();
        let words = ReviewWords::new(&review.language, athlete.unit, PLAIN);
        one(&mut out, review, athlete, &words);
    }
    out.blank();
    out.wrapped(0, 0, labels.conventions);
    out.text
}

fn look(out: &mut WrappedText, looks: &[AttentionItem], words: &ReviewWords) {
    out.heading(words.labels.look_first, '-');
    for look in looks {
        let score = words.plain(&look.score);
        let what = words.concerns(&look.concerns);
        let what = words.base.labelled(&look.athlete, &what);
        out.wrapped(0, 6, &format!("{score:>4}  {what}"));
    }
    out.wrapped(0, 0, words.labels.look_about);
}

fn one(out: &mut WrappedText, review: &Review, athlete: &AthleteReview, words: &ReviewWords) {
    let labels = words.labels;
    let facts: Vec<String> = [
        Some(athlete.name.clone()),
        athlete.gym.clone(),
        Some(fill(labels.masses_in, &[words.unit.symbol()])),
    ]
    .into_iter()
    .flatten()
    .collect();
    out.heading(&facts.join(" · "), '=');
    let Some(last) = &athlete.last_logged else {
        out.wrapped(0, 0, labels.nothing_yet);
        return;
    };
    out.wrapped(0, HANG, &fill(labels.so_far, &[&words.sitting(last)]));
    let looked = review.look_first.iter().find(|look| look.athlete == athlete.name);
    if let Some(look) = looked.filter(|look| !look.concerns.is_empty()) {
        out.wrapped(
            0,
            HANG,
            &words.base.labelled(labels.ask_about, &words.concerns(&look.concerns)),
        );
    }
    let tally = &athlete.adherence;
    let of = |done: u32, all: u32| fill(labels.of, &[&done.to_string(), &all.to_string()]);
    let sessions = of(tally.sessions_done, tally.sessions_planned);
    let (skipped, missing) = (tally.sessions_skipped, tally.sessions_missing);
    let not = fill(labels.not_done, &[&skipped.to_string(), &missing.to_string()]);
    let sets = of(tally.sets_made, tally.sets_planned);
    let told = |label, text: &str| words.base.labelled(label, text);
    let sessions = told(labels.sessions, &format!("{sessions} ({not})"));
    let line = format!("{sessions} · {}", told(labels.sets_made, &sets));
    out.wrapped(0, HANG, &line);
    out.blank();
    weeks(out, athlete, last.week, words);
    if let Some(week) = athlete.weeks.iter().find(|week| week.week == last.week) {
        of_week(out, week, words);
    }
    strength(out, review, athlete, words);
    efforts(out, athlete, words);
    lists(out, athlete, words);
}

fn weeks(out: &mut WrappedText, athlete: &AthleteReview, last: u32, words: &ReviewWords) {
    let labels = words.labels;
    let volume = fill(labels.volume, &[words.unit.symbol()]);
    out.wrapped(0, 0, &format!("{:<14}{volume:>22}{:>22}", labels.week, labels.hard_sets));
    out.wrapped(0, 0, &row("", &[labels.planned, labels.done, labels.planned, labels.done], 14));
    for week in athlete.weeks.iter().filter(|week| week.week <= last) {
        let name = match &week.phase {
            Some(phase) => format!("{} {phase}", week.week),
            None => week.week.to_string(),
        };
        let cells = cells(&week.planned, &week.done, words);
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        let mut line = row(&cut(&name, 13), &cells, 14);
        if week.sessions_to_come > 0 {
            line.push_str("  ");
            line.push_str(&fill(labels.to_come, &[&week.sessions_to_come.to_string()]));
        }
        out.wrapped(0, HANG, &line);
        let without = week.done.sets_without_load;
        if without > 0 {
            let text = words.base.count(&labels.without_load, without);
            out.wrapped(HANG, HANG, &text);
        }
    }
}

/// Cells for volume planned and done, and sets planned and done.
fn cells(
    planned: &crate::tally::Work,
    done: &crate::tally::Work,
    words: &ReviewWords,
) -> [String; 4] {
    [
        words.number(&planned.volume, 0),
        words.number(&done.volume, 0),
        planned.hard_sets.to_string(),
        done.hard_sets.to_string(),
    ]
}

/// A name, and cells that are aligned right.
fn row(name: &str, cells: &[&str], wide: usize) -> String {
    let mut line = format!("{name:<wide$}");
    for cell in cells {
        line.push_str(&format!("{cell:>11}"));
    }
    line
}

fn of_week(out: &mut WrappedText, week: &WeekReview, words: &ReviewWords) {
    let labels = words.labels;
    let number = week.week.to_string();
    out.blank();
    out.heading(&fill(labels.lifts_of_week, &[&number]), '-');
    let volume = fill(labels.volume, &[words.unit.symbol()]);
    let head = format!("{:<34}{volume:>22}{:>22}", labels.lift, labels.hard_sets);
    out.wrapped(0, 0, &head);
    out.wrapped(0, 0, &row("", &[labels.planned, labels.done, labels.planned, labels.done], 34));
    for lift in &week.lifts {
        let cells = cells(&lift.planned, &lift.done, words);
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        out.wrapped(0, HANG, &row(&cut(&lift.lift, 33), &cells, 34));
    }
    if week.muscles.is_empty() {
        return;
    }
    out.blank();
    out.heading(&fill(labels.muscles_of_week, &[&number]), '-');
    let head = [labels.direct, labels.indirect, labels.fractional];
    let wide_row = |name: &str, cells: &[String]| {
        let mut line = format!("{name:<24}");
        for cell in cells {
            line.push_str(&format!("{cell:>16}"));
        }
        line
    };
    out.wrapped(0, 0, &wide_row(labels.muscle, &head.map(str::to_owned)));
    let mut muscles: Vec<_> =
        week.muscles.iter().map(|muscle| (words.base.word(&muscle.muscle), muscle)).collect();
    muscles.sort_by_key(|(name, _)| Labels::order_of(name));
    for (name, muscle) in muscles {
        let (done, planned) = (&muscle.done, &muscle.planned);
        let of = |done: String, all: String| fill(labels.of, &[&done, &all]);
        let share = |sets: &Exact| words.plain(sets);
        let cells = [
            of(done.direct_sets.to_string(), planned.direct_sets.to_string()),
            of(done.indirect_sets.to_string(), planned.indirect_sets.to_string()),
            of(share(&done.fractional_sets), share(&planned.fractional_sets)),
        ];
        out.wrapped(0, HANG, &wide_row(&cut(name, 23), &cells));
    }
}

fn strength(out: &mut WrappedText, review: &Review, athlete: &AthleteReview, words: &ReviewWords) {
    let labels = words.labels;
    out.blank();
    out.heading(&format!("{}, {}", labels.strength, words.unit), '-');
    if athlete.lifts.is_empty() {
        out.wrapped(0, 0, labels.no_estimates);
        return;
    }
    let (equation, most) = (&review.estimate.equation, review.estimate.most_reps.to_string());
    out.wrapped(0, 0, &fill(labels.strength_about, &[equation, &most]));
    for lift in &athlete.lifts {
        let points: Vec<String> =
            lift.points.iter().map(|point| words.number(&point.estimate, 1)).collect();
        // If a line has too little room, only the latest points are shown.
        let shown = points.len().saturating_sub(6);
        let more = if shown > 0 { "… " } else { "" };
        let points = points.get(shown..).unwrap_or_default().join("  ");
        let trend =
            lift.trend.as_ref().map_or(labels.no_trend.to_owned(), |t| words.slope(&t.slope));
        let body = if lift.with_body_mass {
            format!(", {}", labels.with_body_mass)
        } else {
            String::new()
        };
        let name = cut(&format!("{}{body}", lift.lift), NAME);
        out.wrapped(0, HANG, &format!("{name:<NAME$} {more}{points}  ({trend})"));
    }
}

fn efforts(out: &mut WrappedText, athlete: &AthleteReview, words: &ReviewWords) {
    let labels = words.labels;
    out.blank();
    out.heading(&words.base.labelled(labels.effort, labels.effort_about), '-');
    if athlete.efforts.is_empty() {
        out.wrapped(0, 0, labels.no_efforts);
    }
    for effort in &athlete.efforts {
        let show = |rpe: &Exact| words.plain(rpe);
        let (low, high) = (show(&effort.lowest_rpe), show(&effort.highest_rpe));
        let range = if low == high { String::new() } else { format!(" ({low}-{high})") };
        let name = cut(&words.brief(&effort.sitting), NAME);
        out.wrapped(0, HANG, &format!("{name:<NAME$} {}{range}", show(&effort.mean_rpe)));
    }
}

fn lists(out: &mut WrappedText, athlete: &AthleteReview, words: &ReviewWords) {
    let labels = words.labels;
    let missed: Vec<String> = athlete.misses.iter().map(|miss| words.miss(miss)).collect();
    list(out, labels.missed, &missed, Some(labels.nothing_missed));
    for (title, items) in short_lists(athlete, words) {
        list(out, title, &items, None);
    }
    out.blank();
    out.heading(labels.changes, '-');
    if athlete.changes.is_empty() {
        out.wrapped(0, 0, words.no_changes(athlete));
    }
    for (name, changes) in words.sessions_that_change(athlete) {
        out.wrapped(0, HANG, &name);
        for change in changes {
            let order = change.order.to_string();
            let what = words.change(change);
            let what = words.base.labelled(&change.exercise, &what);
            out.wrapped(2, HANG + 2, &format!("{order:<3} {what}"));
            let why = words.reasons(change);
            if !why.is_empty() {
                out.wrapped(HANG + 2, HANG + 4, &why);
            }
        }
    }
}

/// The lists that are left out if they are empty.
pub fn short_lists(
    athlete: &AthleteReview,
    words: &ReviewWords,
) -> Vec<(&'static str, Vec<String>)> {
    let labels = words.labels;
    let told = |at: &ReviewedSession, what: String| words.base.labelled(&words.brief(at), &what);
    let pains = athlete.pains.iter().map(|pain| {
        let of = fill(labels.of_ten, &[&words.plain(&pain.pain.to_exact())]);
        told(&pain.sitting, format!("{} {}, {of}", pain.order, pain.exercise))
    });
    let rules = athlete.rules.iter().map(|fired| {
        let rule = words.rule(&fired.rule);
        told(&fired.sitting, format!("{} {}, {rule}", fired.order, fired.exercise))
    });
    let maxes = athlete.new_maxes.iter().map(|max| words.new_max(max));
    let extras = athlete
        .extras
        .iter()
        .map(|extra| words.base.labelled(&words.base.show_date(extra.date), &extra.what));
    let notes = athlete.notes.iter().map(|note| told(&note.sitting, note.note.clone()));
    let masses = athlete
        .body_masses
        .iter()
        .map(|weighed| told(&weighed.sitting, words.about(&weighed.body_mass.into())));
    [
        (labels.pains, pains.collect::<Vec<_>>()),
        (labels.rules, rules.collect()),
        (labels.new_maxes, maxes.collect()),
        (labels.extras, extras.collect()),
        (labels.notes, notes.collect()),
        (labels.body_mass, masses.collect()),
    ]
    .into_iter()
    .filter(|(_, items)| !items.is_empty())
    .collect()
}

fn list(out: &mut WrappedText, title: &str, items: &[String], none: Option<&str>) {
    if items.is_empty() && none.is_none() {
        return;
    }
    out.blank();
    out.heading(title, '-');
    if let Some(none) = none.filter(|_| items.is_empty()) {
        out.wrapped(0, 0, none);
    }
    for item in items {
        out.wrapped(0, HANG, item);
    }
}
