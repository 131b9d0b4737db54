//! The weekly table as text of at most 100 columns: weeks across, muscles down.

mod grid;

use crate::quantity::Exact;
use crate::tally::{AthleteWeeks, LiftTally, MuscleSets, TopSet, WeekTally, Weekly};

use super::labels::{Labels, WeeklyLabels, fill};
use super::summary::lines::Lines;
use super::wording::{PLAIN, grouped};
use grid::Grid;

/// The widest line.
const WIDTH: usize = 100;

/// Writes the weekly table. Lines are counted in characters and never longer than 100.
#[must_use]
pub fn text(weekly: &Weekly) -> String {
    let labels = Labels::of(&weekly.language).weekly;
    let mut out = Lines::of_width(WIDTH);
    out.heading(&fill(labels.title, &[&weekly.programme]), '=');
    for athlete in &weekly.athletes {
        out.blank();
        one(&mut out, athlete, labels);
    }
    out.blank();
    out.wrapped(0, 0, labels.conventions);
    out.text
}

fn one(out: &mut Lines, athlete: &AthleteWeeks, labels: &WeeklyLabels) {
    let unit = athlete.unit.symbol();
    let masses = fill(labels.masses_in, &[unit]);
    let facts: Vec<&str> =
        [Some(athlete.name.as_str()), athlete.gym.as_deref(), Some(masses.as_str())]
            .into_iter()
            .flatten()
            .collect();
    out.heading(&facts.join(" · "), '=');
    if athlete.weeks.is_empty() {
        out.wrapped(0, 0, labels.no_sessions);
        return;
    }
    let phases = phases(&athlete.weeks, labels);
    if !phases.is_empty() {
        out.wrapped(0, 2, &phases);
    }
    out.blank();
    overview(athlete, labels).write(out);
    let tables = [
        (fill(labels.top_sets, &[unit]), top_sets(athlete, labels)),
        (labels.lift_intensity.to_owned(), lift_intensity(athlete, labels)),
        (labels.sets_by_share.to_owned(), muscles(athlete, labels, by_share)),
        (labels.sets_direct.to_owned(), muscles(athlete, labels, direct)),
        (
            fill(labels.volume_by_share, &[unit]),
            muscles(athlete, labels, |sets| {
                grouped(&sets.fractional_volume, athlete.unit, 0, PLAIN)
            }),
        ),
        (labels.patterns.to_owned(), patterns(athlete, labels)),
    ];
    for (title, grid) in tables {
        if !grid.is_empty() {
            out.blank();
            out.heading(&title, '-');
            grid.write(out);
        }
    }
}

/// `Base: weeks 1-3 · Unload: week 4`.
fn phases(weeks: &[WeekTally], labels: &WeeklyLabels) -> String {
    let runs = weeks.chunk_by(|a, b| a.phase == b.phase);
    let named = runs.filter_map(|run| {
        let (first, last) = (run.first()?, run.last()?);
        let (phase, from, to) =
            (first.phase.as_ref()?, first.week.to_string(), last.week.to_string());
        Some(if from == to {
            fill(labels.phase_week, &[phase, &from])
        } else {
            fill(labels.phase_weeks, &[phase, &from, &to])
        })
    });
    named.collect::<Vec<_>>().join(" · ")
}

fn grid(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    Grid::new(labels.week, athlete.weeks.iter().map(|week| week.week.to_string()).collect())
}

fn overview(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    let unit = athlete.unit.symbol();
    let mass = |mass: &Exact, places| grouped(mass, athlete.unit, places, PLAIN);
    let mut grid = grid(athlete, labels);
    let mut row = |label: &str, cell: &dyn Fn(&WeekTally) -> Option<String>| {
        grid.row(label, athlete.weeks.iter().map(cell).collect());
    };
    row(labels.sessions, &|week| Some(week.sessions.len().to_string()));
    row(labels.hard_sets, &|week| Some(week.total.hard_sets.to_string()));
    row(&fill(labels.volume, &[unit]), &|week| Some(mass(&week.total.volume, 0)));
    row(&fill(labels.average_load, &[unit]), &|week| {
        week.total.average_load().map(|load| mass(&load, 1))
    });
    let percent = |percent: Option<Exact>| percent.map(|p| one_place(&p));
    row(labels.percent_by_sets, &|week| percent(week.total.intensity.mean_percent()));
    row(labels.percent_by_reps, &|week| percent(week.total.intensity.percent_by_reps()));
    row(labels.without_load, &|week| {
        Some(week.total.sets_without_load).filter(|n| *n > 0).map(|n| n.to_string())
    });
    grid
}

/// To one decimal, which columns line up on.
fn one_place(number: &Exact) -> String {
    let text = number.to_decimal(1).to_string();
    if text.contains('.') { text } else { format!("{text}.0") }
}

/// The names that any week has, in the order of their first weeks.
fn names<'w>(weeks: &'w [WeekTally], of: impl Fn(&'w WeekTally) -> Vec<&'w str>) -> Vec<&'w str> {
    let mut names: Vec<&str> = Vec::new();
    for name in weeks.iter().flat_map(of) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

fn main_lifts(
    athlete: &AthleteWeeks,
    labels: &WeeklyLabels,
    cell: impl Fn(&LiftTally) -> Option<String>,
) -> Grid {
    let mut grid = grid(athlete, labels);
    let main = |week: &'_ WeekTally| -> Vec<&'_ str> {
        week.lifts.iter().filter(|lift| lift.main).map(|lift| lift.lift.as_str()).collect()
    };
    for name in names(&athlete.weeks, main) {
        let of_week =
            |week: &WeekTally| week.lifts.iter().find(|lift| lift.lift == name).and_then(&cell);
        grid.row(name, athlete.weeks.iter().map(of_week).collect());
    }
    grid
}

fn top_sets(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    main_lifts(athlete, labels, |lift| {
        let top: &TopSet = lift.top_set.as_ref()?;
        let load = top.load.in_unit(athlete.unit);
        let plus = if top.with_body_mass && !top.load.is_negative() { "+" } else { "" };
        let about = if top.about { "~" } else { "" };
        Some(format!("{}@{about}{plus}{load}", top.reps))
    })
}

fn lift_intensity(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    main_lifts(athlete, labels, |lift| {
        lift.work.intensity.mean_percent().map(|percent| one_place(&percent))
    })
}

fn muscles(
    athlete: &AthleteWeeks,
    labels: &WeeklyLabels,
    cell: impl Fn(&MuscleSets) -> String,
) -> Grid {
    let mut grid = grid(athlete, labels);
    let of = |week: &'_ WeekTally| -> Vec<&'_ str> {
        week.muscles.iter().map(|muscle| muscle.muscle.as_str()).collect()
    };
    for name in names(&athlete.weeks, of) {
        let of_week = |week: &WeekTally| {
            let muscle = week.muscles.iter().find(|muscle| muscle.muscle == name)?;
            Some(cell(&muscle.sets))
        };
        grid.row(name, athlete.weeks.iter().map(of_week).collect());
    }
    grid
}

fn by_share(sets: &MuscleSets) -> String {
    one_place(&sets.fractional_sets)
}

fn direct(sets: &MuscleSets) -> String {
    format!("{}+{}", sets.direct_sets, sets.indirect_sets)
}

fn patterns(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    let mut grid = grid(athlete, labels);
    let of = |week: &'_ WeekTally| -> Vec<&'_ str> {
        week.patterns.iter().map(|pattern| pattern.pattern.as_str()).collect()
    };
    for name in names(&athlete.weeks, of) {
        let of_week = |week: &WeekTally| {
            let pattern = week.patterns.iter().find(|pattern| pattern.pattern == name)?;
            Some(pattern.work.hard_sets.to_string())
        };
        grid.row(name, athlete.weeks.iter().map(of_week).collect());
    }
    grid
}
