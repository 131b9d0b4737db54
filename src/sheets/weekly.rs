//! The weekly table as text of at most 100 columns: weeks across, muscles down.

mod grid;

use std::collections::BTreeSet;

use crate::plan::name_in;
use crate::quantity::{Exact, Unit};
use crate::tally::{
    AthleteWeeks, LiftTally, MuscleSets, PatternTally, SessionTally, WeekTally, Weekly,
};

use super::labels::{Labels, fill};
use super::summary::lines::WrappedText;
use super::wording::{PLAIN, grouped};
use grid::TextTable;

/// Maximum width of a line, in characters.
const WIDTH: usize = 100;

/// Texts and number formats of the table.
#[derive(Clone, Copy)]
struct WeeklyWords<'w> {
    base: &'static Labels,
    weekly: &'w Weekly,
}

impl WeeklyWords<'_> {
    fn lift<'n>(&'n self, lift: &'n str) -> &'n str {
        name_in(&self.weekly.exercise_names, &self.weekly.language, lift)
    }

    /// A mass without its unit, to `places` decimals.
    fn mass(&self, mass: &Exact, unit: Unit, places: u32) -> String {
        grouped(mass, unit, places, (self.base, PLAIN))
    }

    /// A number to one decimal, on which columns are aligned.
    fn one_place(&self, number: &Exact) -> String {
        let text = number.to_decimal(1).to_string();
        let text = if text.contains('.') { text } else { format!("{text}.0") };
        self.base.numbers.spell(&text)
    }
}

/// Writes the weekly table. Widths are counted in characters; no line is longer than 100.
#[must_use]
pub fn text(weekly: &Weekly) -> String {
    let words = WeeklyWords { base: Labels::of(&weekly.language), weekly };
    let labels = words.base.weekly;
    let mut out = WrappedText::of_width(WIDTH);
    out.heading(&fill(labels.title, &[&weekly.programme]), '=');
    for athlete in &weekly.athletes {
        out.blank();
        one(&mut out, athlete, words);
    }
    out.blank();
    out.wrapped(0, 0, labels.conventions);
    out.text
}

fn one(out: &mut WrappedText, athlete: &AthleteWeeks, words: WeeklyWords<'_>) {
    let unit = athlete.unit.symbol();
    let masses = fill(words.base.weekly.masses_in, &[unit]);
    let facts: Vec<&str> =
        [Some(athlete.name.as_str()), athlete.gym.as_deref(), Some(masses.as_str())]
            .into_iter()
            .flatten()
            .collect();
    out.heading(&facts.join(" · "), '=');
    if athlete.weeks.is_empty() {
        out.wrapped(0, 0, words.base.weekly.no_sessions);
        return;
    }
    let phases = phases(&athlete.weeks, words);
    if !phases.is_empty() {
        out.wrapped(0, 2, &phases);
    }
    out.blank();
    overview(athlete, words).write(out);
    let tables = [
        (words.base.weekly.minutes.to_owned(), minutes(athlete, words)),
        (fill(words.base.weekly.top_sets, &[unit]), top_sets(athlete, words)),
        (words.base.weekly.lift_intensity.to_owned(), lift_intensity(athlete, words)),
        (
            words.base.weekly.sets_by_share.to_owned(),
            muscles(athlete, words, |sets| Some(words.one_place(&sets.fractional_sets))),
        ),
        (
            words.base.weekly.sets_direct.to_owned(),
            muscles(athlete, words, |sets| Some(direct(sets))),
        ),
        (
            fill(words.base.weekly.volume_by_share, &[unit]),
            muscles(athlete, words, |sets| {
                let volume = &sets.fractional_volume;
                (!volume.is_zero()).then(|| words.mass(volume, athlete.unit, 0))
            }),
        ),
        (words.base.weekly.patterns.to_owned(), patterns(athlete, words)),
    ];
    for (title, grid) in tables {
        if !grid.is_empty() {
            out.blank();
            out.heading(&title, '-');
            grid.write(out);
        }
    }
}

/// The phases: `Base: weeks 1-3 · Unload: week 4`.
fn phases(weeks: &[WeekTally], words: WeeklyWords<'_>) -> String {
    let runs = weeks.chunk_by(|a, b| a.phase == b.phase);
    let named = runs.filter_map(|run| {
        let (first, last) = (run.first()?, run.last()?);
        let (phase, from, to) =
            (first.phase.as_ref()?, first.week.to_string(), last.week.to_string());
        Some(if from == to {
            fill(words.base.weekly.phase_week, &[phase, &from])
        } else {
            fill(words.base.weekly.phase_weeks, &[phase, &from, &to])
        })
    });
    named.collect::<Vec<_>>().join(" · ")
}

fn grid(athlete: &AthleteWeeks, words: WeeklyWords<'_>) -> TextTable {
    TextTable::new(
        words.base.weekly.week,
        athlete.weeks.iter().map(|week| week.week.to_string()).collect(),
    )
}

fn overview(athlete: &AthleteWeeks, words: WeeklyWords<'_>) -> TextTable {
    let unit = athlete.unit.symbol();
    let mass = |mass: &Exact, places| words.mass(mass, athlete.unit, places);
    let mut grid = grid(athlete, words);
    let mut row = |label: &str, cell: &dyn Fn(&WeekTally) -> Option<String>| {
        grid.row(label, athlete.weeks.iter().map(cell).collect());
    };
    row(words.base.weekly.sessions, &|week| Some(week.sessions.len().to_string()));
    row(words.base.weekly.hard_sets, &|week| Some(week.total.hard_sets.to_string()));
    row(&fill(words.base.weekly.volume, &[unit]), &|week| Some(mass(&week.total.volume, 0)));
    row(&fill(words.base.weekly.average_load, &[unit]), &|week| {
        week.total.average_load().map(|load| mass(&load, 1))
    });
    let percent = |percent: Option<Exact>| percent.map(|p| words.one_place(&p));
    row(words.base.weekly.percent_by_sets, &|week| percent(week.total.intensity.mean_percent()));
    row(words.base.weekly.percent_by_reps, &|week| percent(week.total.intensity.percent_by_reps()));
    row(words.base.weekly.without_load, &|week| {
        Some(week.total.sets_without_load).filter(|n| *n > 0).map(|n| n.to_string())
    });
    grid
}

/// The order of rows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum RowOrder {
    /// By the first week in which they occur.
    Weeks,
    /// By printed name.
    Names,
}

/// A row for each name that occurs in any week. `show` formats the name.
fn by_name(
    athlete: &AthleteWeeks,
    words: WeeklyWords<'_>,
    order: RowOrder,
    show: impl Fn(&str) -> String,
    cells: impl Fn(&WeekTally) -> Vec<(&str, Option<String>)>,
) -> TextTable {
    let weeks: Vec<Vec<(&str, Option<String>)>> = athlete.weeks.iter().map(cells).collect();
    let mut names: Vec<&str> = Vec::new();
    for (name, _) in weeks.iter().flatten() {
        if !names.contains(name) {
            names.push(name);
        }
    }
    if order == RowOrder::Names {
        names.sort_by_key(|name| Labels::order_of(&show(name)));
    }
    let mut grid = grid(athlete, words);
    for name in names {
        let of_week = |week: &Vec<(&str, Option<String>)>| {
            week.iter().find(|(named, _)| *named == name).and_then(|(_, cell)| cell.clone())
        };
        grid.row(&show(name), weeks.iter().map(of_week).collect());
    }
    grid
}

/// A row for each lift that is a main lift in any week.
fn main_lifts(
    athlete: &AthleteWeeks,
    words: WeeklyWords<'_>,
    cell: impl Fn(&LiftTally) -> Option<String>,
) -> TextTable {
    let all = athlete.weeks.iter().flat_map(|week| &week.lifts);
    let main: BTreeSet<&str> =
        all.filter(|lift| lift.main).map(|lift| lift.lift.as_str()).collect();
    by_name(
        athlete,
        words,
        RowOrder::Weeks,
        |lift| words.lift(lift).to_owned(),
        |week| {
            let lifts = week.lifts.iter().filter(|lift| main.contains(lift.lift.as_str()));
            lifts.map(|lift| (lift.lift.as_str(), cell(lift))).collect()
        },
    )
}

fn top_sets(athlete: &AthleteWeeks, words: WeeklyWords<'_>) -> TextTable {
    main_lifts(athlete, words, |lift| {
        let top = lift.top_set.as_ref()?;
        let load = top.load.in_unit(athlete.unit).to_string();
        let load = words.base.numbers.spell(&load);
        let plus = if top.with_body_mass && !top.load.is_negative() { "+" } else { "" };
        let about = if top.about { "~" } else { "" };
        Some(format!("{} @ {about}{plus}{load}", top.reps))
    })
}

fn lift_intensity(athlete: &AthleteWeeks, words: WeeklyWords<'_>) -> TextTable {
    main_lifts(athlete, words, |lift| {
        lift.work.intensity.mean_percent().map(|percent| words.one_place(&percent))
    })
}

fn muscles(
    athlete: &AthleteWeeks,
    words: WeeklyWords<'_>,
    cell: impl Fn(&MuscleSets) -> Option<String>,
) -> TextTable {
    by_name(
        athlete,
        words,
        RowOrder::Names,
        |muscle| words.base.word(muscle).to_owned(),
        |week| {
            week.muscles.iter().map(|muscle| (muscle.muscle.as_str(), cell(&muscle.sets))).collect()
        },
    )
}

fn minutes(athlete: &AthleteWeeks, words: WeeklyWords<'_>) -> TextTable {
    by_name(athlete, words, RowOrder::Weeks, str::to_owned, |week| {
        let minutes = |session: &SessionTally| Some(session.minutes.to_string());
        week.sessions.iter().map(|session| (session.day.as_str(), minutes(session))).collect()
    })
}

fn patterns(athlete: &AthleteWeeks, words: WeeklyWords<'_>) -> TextTable {
    let sets = |pattern: &PatternTally| Some(pattern.work.hard_sets.to_string());
    by_name(
        athlete,
        words,
        RowOrder::Names,
        |pattern| words.base.word(pattern).to_owned(),
        |week| {
            week.patterns.iter().map(|pattern| (pattern.pattern.as_str(), sets(pattern))).collect()
        },
    )
}

fn direct(sets: &MuscleSets) -> String {
    format!("{}+{}", sets.direct_sets, sets.indirect_sets)
}
