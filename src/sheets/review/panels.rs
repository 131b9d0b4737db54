//! The panels of an athlete's page: a plot, and its numbers in a small table next to it.

use crate::history::{AthleteReview, LiftStrength, Review};
use crate::quantity::Exact;
use crate::sheets::labels::fill;
use crate::sheets::layout::{
    Align, Fragment, Ink, Role, Style, StyledText, beside, count, lines, stack, width,
};

use super::words::ReviewWords;
use crate::sheets::plot::{Axis, Frame, SMALL, middle, table, text_line};

/// Width of a plot in points; the table next to it gets the rest.
const PLOT: f32 = 338.0;
/// Gap between a plot and its table, in points.
const GAP: f32 = 16.0;
/// Maximum number of rows of a table; the latest are shown.
const MOST_ROWS: usize = 10;
/// Maximum number of lifts that are plotted.
pub const MOST_LIFTS: usize = 4;

/// A mass as a plain number in the displayed unit.
fn plain(mass: &Exact, words: &ReviewWords) -> f64 {
    (mass / &Exact::whole(words.unit.in_units())).to_f64()
}

/// The latest rows, if there are many.
fn latest<T>(rows: &[T], most: usize) -> &[T] {
    rows.get(rows.len().saturating_sub(most)..).unwrap_or(rows)
}

/// Planned and done volume of each week as a pair of bars, one outlined and one filled.
#[must_use]
pub fn bars(athlete: &AthleteReview, title: &str, size: (f32, f32), words: &ReviewWords) -> Frame {
    let weeks = &athlete.weeks;
    let values = weeks.iter().flat_map(|w| [&w.planned.volume, &w.done.volume]);
    let axis = Axis::around(values.map(|mass| plain(mass, words)), true, words.base.numbers);
    let mut frame = Frame::new(size.0, size.1, title, axis);
    let slot = frame.area.w / count(weeks.len().max(1));
    let bar = (slot * 0.34).min(16.0);
    let mut names = Vec::new();
    for (place, week) in weeks.iter().enumerate() {
        let x = frame.area.x + slot * (count(place) + 0.5);
        frame.bar(x - bar - 0.5, bar, plain(&week.planned.volume, words), false);
        frame.bar(x + 0.5, bar, plain(&week.done.volume, words), true);
        names.push((x, week.week));
    }
    frame.names(words.labels.week, &names);
    frame
}

/// The legend of the two kinds of bars.
#[must_use]
pub fn legend(words: &ReviewWords) -> Fragment {
    let mut out = Fragment::default();
    for (name, filled) in [(words.labels.planned, false), (words.labels.done, true)] {
        let at = if out.w > 0.0 { out.w + 11.0 } else { 0.0 };
        out.put(key(filled), at, 1.2);
        out.put(text_line(name, SMALL), at + 9.0, 0.0);
    }
    out
}

/// Planned and done volume, with the numbers.
#[must_use]
pub fn volume(athlete: &AthleteReview, max: f32, words: &ReviewWords) -> Fragment {
    let labels = words.labels;
    let title = fill(labels.volume, &[words.unit.symbol()]);
    let mut frame = bars(athlete, &title, (PLOT, 90.0), words);
    frame.out.put(legend(words), width(&title, Style::strong(8.4)) + 14.0, 1.0);
    let weeks = &athlete.weeks;
    let last = athlete.last_logged.as_ref().map_or(0, |last| last.week);
    let so_far: Vec<_> = weeks.iter().filter(|week| week.week <= last).collect();
    let rows: Vec<Vec<String>> = latest(&so_far, MOST_ROWS)
        .iter()
        .map(|week| {
            let (done, planned) = (week.done.hard_sets, week.planned.hard_sets);
            vec![
                week.week.to_string(),
                words.number(&week.planned.volume, 0),
                words.number(&week.done.volume, 0),
                fill(labels.of, &[&done.to_string(), &planned.to_string()]),
            ]
        })
        .collect();
    let head = [labels.week, labels.planned, labels.done, labels.hard_sets].map(str::to_owned);
    side(frame.out, table(&head, &rows, max - PLOT - GAP, SMALL))
}

/// The symbol of a bar in the legend.
fn key(filled: bool) -> Fragment {
    let (stroke, fill) =
        if filled { (None, Some(Ink::Soft)) } else { (Some((0.8, Ink::Black)), Some(Ink::White)) };
    Fragment::shape(6.5, 6.5, stroke, fill, Role::Decoration)
}

fn side(plot: Fragment, mut table: Fragment) -> Fragment {
    // The table starts level with the plot's area.
    table = table.padded(0.0, 10.0, 0.0, 0.0);
    beside([plot, table], GAP)
}

/// Estimated 1RMs of up to four lifts, with their trends.
#[must_use]
pub fn strength(
    review: &Review,
    athlete: &AthleteReview,
    max: f32,
    words: &ReviewWords,
) -> Fragment {
    let labels = words.labels;
    let lifts = athlete.lifts.get(..MOST_LIFTS).unwrap_or(&athlete.lifts);
    if lifts.is_empty() {
        return empty(labels.strength, labels.no_estimates, max);
    }
    let first = lifts.iter().flat_map(|lift| &lift.points).map(|point| point.date).min();
    let days = |date: jiff::civil::Date| {
        first.and_then(|first| first.until(date).ok()).map_or(0, |span| span.get_days())
    };
    let all = lifts.iter().flat_map(|l| &l.points).map(|point| days(point.date)).max().unwrap_or(0);
    let gap = 14.0;
    let (across, h) = if lifts.len() == 1 { (1, 90.0) } else { (2, 72.0) };
    let w = (PLOT - gap * count(across - 1)) / count(across);
    let plot = |lift: &LiftStrength| one_lift(lift, (w, h), (&days, all), words);
    let rows = lifts.chunks(across).map(|row| beside(row.iter().map(plot), gap));
    let plots = stack(rows, 6.0);

    let mut rows: Vec<Vec<String>> = Vec::new();
    for lift in lifts {
        let latest = lift.points.last();
        let of = latest.map(|point| format!("{} × {}", words.number(&point.load, 1), point.reps));
        rows.push(vec![
            lift.lift.clone(),
            of.unwrap_or_default(),
            latest.map(|point| words.number(&point.estimate, 1)).unwrap_or_default(),
            lift.trend.as_ref().map_or("–".to_owned(), |trend| {
                let sign = if trend.slope.is_negative() { "" } else { "+" };
                format!("{sign}{}", words.number(&trend.slope, 1))
            }),
        ]);
    }
    let head = [labels.lift, labels.latest, labels.estimated, labels.trend_a_week];
    let room = max - PLOT - GAP;
    let numbers = table(&head.map(str::to_owned), &rows, room, SMALL);
    let (equation, most) = (&review.estimate.equation, review.estimate.most_reps.to_string());
    let about = fill(labels.strength_about, &[equation, &most]);
    let quiet = SMALL.in_ink(Ink::Soft);
    let about = stack(lines(&[StyledText::new(about, quiet)], room, Align::Left), 0.0);
    side(plots, stack([numbers, about], 6.0))
}

type Days<'a> = (&'a dyn Fn(jiff::civil::Date) -> i32, i32);

fn one_lift(
    lift: &LiftStrength,
    size: (f32, f32),
    (days, all): Days<'_>,
    words: &ReviewWords,
) -> Fragment {
    let labels = words.labels;
    let values = lift.points.iter().map(|point| &point.estimate);
    let ends = lift.trend.iter().flat_map(|trend| [&trend.first, &trend.last]);
    let axis =
        Axis::around(values.chain(ends).map(|mass| plain(mass, words)), false, words.base.numbers);
    let title = fill(labels.strength_of, &[&lift.lift, words.unit.symbol()]);
    let mut frame = Frame::new(size.0, size.1, &title, axis);
    let place = |date| {
        let share = if all == 0 { 0.5 } else { small(days(date)) / small(all) };
        share.clamp(0.0, 1.0)
    };
    let at = |date| frame.x(place(date));
    let xs: Vec<f32> = lift.points.iter().map(|point| at(point.date)).collect();
    if let Some(trend) = &lift.trend {
        let least = xs.iter().copied().fold(f32::INFINITY, f32::min);
        let most = xs.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        let (first, last) = (plain(&trend.first, words), plain(&trend.last, words));
        frame.line((least, first), (most, last), 0.9, Ink::Soft);
    }
    let mut names: Vec<(f32, u32)> = Vec::new();
    let mut named = 0;
    for (point, x) in lift.points.iter().zip(xs) {
        frame.point(x, plain(&point.estimate, words));
        if point.week != named {
            named = point.week;
            names.push((x, point.week));
        }
    }
    names.sort_by(|a, b| a.0.total_cmp(&b.0));
    frame.names(labels.week, &names);
    frame.out
}

fn small(n: i32) -> f32 {
    f32::from(i16::try_from(n).unwrap_or(i16::MAX))
}

/// Effort of each session: the mean as a point on a bar from the lowest to the highest.
#[must_use]
pub fn effort(athlete: &AthleteReview, max: f32, words: &ReviewWords) -> Fragment {
    let labels = words.labels;
    if athlete.efforts.is_empty() {
        return empty(labels.effort, labels.no_efforts, max);
    }
    let lowest = athlete.efforts.iter().map(|effort| effort.lowest_rpe.to_f64());
    let lowest = libm::floor(lowest.fold(6.0, f64::min)).max(0.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "zero to six")]
    let axis = Axis::whole(lowest as u32, 10);
    let title = words.base.labelled(labels.effort, labels.effort_about);
    let mut frame = Frame::new(PLOT, 88.0, &title, axis);
    let mut names = Vec::new();
    let mut named = 0;
    let all = athlete.efforts.len();
    for (at, effort) in athlete.efforts.iter().enumerate() {
        let x = frame.x(middle(at, all));
        let (low, high) = (effort.lowest_rpe.to_f64(), effort.highest_rpe.to_f64());
        frame.line((x, low), (x, high), 1.6, Ink::Faint);
        frame.point(x, effort.mean_rpe.to_f64());
        if effort.sitting.week != named {
            named = effort.sitting.week;
            names.push((x, named));
        }
    }
    frame.names(labels.week, &names);
    let show = |rpe: &Exact| words.plain(rpe);
    let rows: Vec<Vec<String>> = latest(&athlete.efforts, MOST_ROWS - 1)
        .iter()
        .map(|effort| {
            let (low, high) = (show(&effort.lowest_rpe), show(&effort.highest_rpe));
            let range = if low == high { low } else { format!("{low}–{high}") };
            let name = format!("{} {}", effort.sitting.week, effort.sitting.day);
            vec![name, show(&effort.mean_rpe), range]
        })
        .collect();
    let head = [labels.session, labels.mean, labels.range].map(str::to_owned);
    side(frame.out, table(&head, &rows, max - PLOT - GAP, SMALL))
}

/// A panel without values, with the reason.
fn empty(title: &str, why: &str, max: f32) -> Fragment {
    let set = |text: &str, style| lines(&[StyledText::new(text, style)], max, Align::Left);
    let text = set(title, Style::strong(8.4)).into_iter().chain(set(why, SMALL));
    stack(text, 1.0)
}
