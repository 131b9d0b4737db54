//! The weekly table as text of at most 100 columns: weeks across, muscles down.

mod grid;

use std::collections::BTreeSet;

use crate::quantity::Exact;
use crate::tally::{
    AthleteWeeks, LiftTally, MuscleSets, PatternTally, SessionTally, WeekTally, Weekly,
};

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
        (labels.minutes.to_owned(), minutes(athlete, labels)),
        (fill(labels.top_sets, &[unit]), top_sets(athlete, labels)),
        (labels.lift_intensity.to_owned(), lift_intensity(athlete, labels)),
        (
            labels.sets_by_share.to_owned(),
            muscles(athlete, labels, |sets| Some(one_place(&sets.fractional_sets))),
        ),
        (labels.sets_direct.to_owned(), muscles(athlete, labels, |sets| Some(direct(sets)))),
        (
            fill(labels.volume_by_share, &[unit]),
            muscles(athlete, labels, |sets| {
                let volume = &sets.fractional_volume;
                (!volume.is_zero()).then(|| grouped(volume, athlete.unit, 0, PLAIN))
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

/// A row for each name that any week has, in the order of their first weeks.
fn by_name(
    athlete: &AthleteWeeks,
    labels: &WeeklyLabels,
    cells: impl Fn(&WeekTally) -> Vec<(&str, Option<String>)>,
) -> Grid {
    let weeks: Vec<Vec<(&str, Option<String>)>> = athlete.weeks.iter().map(cells).collect();
    let mut names: Vec<&str> = Vec::new();
    for (name, _) in weeks.iter().flatten() {
        if !names.contains(name) {
            names.push(name);
        }
    }
    let mut grid = grid(athlete, labels);
    for name in names {
        let of_week = |week: &Vec<(&str, Option<String>)>| {
            week.iter().find(|(named, _)| *named == name).and_then(|(_, cell)| cell.clone())
        };
        grid.row(name, weeks.iter().map(of_week).collect());
    }
    grid
}

/// A row for each lift that is a main one in any week.
fn main_lifts(
    athlete: &AthleteWeeks,
    labels: &WeeklyLabels,
    cell: impl Fn(&LiftTally) -> Option<String>,
) -> Grid {
    let all = athlete.weeks.iter().flat_map(|week| &week.lifts);
    let main: BTreeSet<&str> =
        all.filter(|lift| lift.main).map(|lift| lift.lift.as_str()).collect();
    by_name(athlete, labels, |week| {
        let lifts = week.lifts.iter().filter(|lift| main.contains(lift.lift.as_str()));
        lifts.map(|lift| (lift.lift.as_str(), cell(lift))).collect()
    })
}

fn top_sets(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    main_lifts(athlete, labels, |lift| {
        let top = lift.top_set.as_ref()?;
        let load = top.load.in_unit(athlete.unit);
        let plus = if top.with_body_mass && !top.load.is_negative() { "+" } else { "" };
        let about = if top.about { "~" } else { "" };
        Some(format!("{} @ {about}{plus}{load}", top.reps))
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
    cell: impl Fn(&MuscleSets) -> Option<String>,
) -> Grid {
    by_name(athlete, labels, |week| {
        week.muscles.iter().map(|muscle| (muscle.muscle.as_str(), cell(&muscle.sets))).collect()
    })
}

fn minutes(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    by_name(athlete, labels, |week| {
        let minutes = |session: &SessionTally| Some(session.minutes.to_string());
        week.sessions.iter().map(|session| (session.day.as_str(), minutes(session))).collect()
    })
}

fn patterns(athlete: &AthleteWeeks, labels: &WeeklyLabels) -> Grid {
    let sets = |pattern: &PatternTally| Some(pattern.work.hard_sets.to_string());
    by_name(athlete, labels, |week| {
        week.patterns.iter().map(|pattern| (pattern.pattern.as_str(), sets(pattern))).collect()
    })
}

fn direct(sets: &MuscleSets) -> String {
    format!("{}+{}", sets.direct_sets, sets.indirect_sets)
}
