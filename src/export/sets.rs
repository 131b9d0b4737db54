//! The plan as CSV, one row for each set.

use crate::plan::{AthletePlan, Group, Plan, PlannedExercise, Session, SetRecord};
use crate::quantity::{Decimal, Mass};

use super::cell;

/// A column of the table of sets: its stable name, which includes the unit, and its description.
#[derive(Clone, Copy, Debug)]
pub struct SetColumn {
    /// The name in the first row.
    pub name: &'static str,
    /// The description.
    pub means: &'static str,
    value: fn(&CsvRow<'_>) -> CsvCell,
}

/// One set with its context.
struct CsvRow<'a> {
    plan: &'a Plan,
    athlete: &'a AthletePlan,
    session: &'a Session,
    group: Option<&'a Group>,
    exercise: &'a PlannedExercise,
    number: usize,
    set: SetRecord<'a>,
}

/// The content of a cell.
enum CsvCell {
    /// Empty, because the column does not apply.
    Empty,
    /// A number, a date, yes or no, or a word from a fixed list.
    Plain(String),
    /// A text that a person wrote.
    Text(String),
}

#[allow(clippy::needless_pass_by_value, reason = "most values are small copies")]
fn plain(value: impl ToString) -> CsvCell {
    CsvCell::Plain(value.to_string())
}

fn maybe(value: Option<impl ToString>) -> CsvCell {
    value.map_or(CsvCell::Empty, plain)
}

fn text(value: &str) -> CsvCell {
    if value.is_empty() { CsvCell::Empty } else { CsvCell::Text(value.to_owned()) }
}

fn written(value: Option<&str>) -> CsvCell {
    value.map_or(CsvCell::Empty, text)
}

/// Kilograms, as in the JSON.
fn kilograms(mass: Mass) -> Decimal {
    crate::quantity::Exact::from_mass(mass).to_decimal_kg()
}

fn masses(masses: &[Mass]) -> CsvCell {
    let all: Vec<String> = masses.iter().map(|mass| kilograms(*mass).to_string()).collect();
    if all.is_empty() { CsvCell::Empty } else { CsvCell::Plain(all.join(" + ")) }
}

/// A word, as JSON writes it.
fn word(value: &impl serde::Serialize) -> CsvCell {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(word)) => CsvCell::Plain(word),
        _ => CsvCell::Empty,
    }
}

/// The word of a key in a value that JSON writes as an object.
fn word_of(value: &impl serde::Serialize, key: &str) -> CsvCell {
    let object = serde_json::to_value(value).unwrap_or_default();
    maybe(object.get(key).and_then(serde_json::Value::as_str))
}

const fn column(
    name: &'static str,
    means: &'static str,
    value: fn(&CsvRow<'_>) -> CsvCell,
) -> SetColumn {
    SetColumn { name, means, value }
}

/// The columns, in order. Names and order are part of the interface; new columns are added at the
/// end.
pub const SET_COLUMNS: &[SetColumn] = &[
    column("programme", "the programme", |row| text(&row.plan.programme)),
    column("athlete", "the athlete", |row| text(&row.athlete.name)),
    column("gym", "where they train", |row| written(row.athlete.gym.as_deref())),
    column("week", "the week, from 1", |row| plain(row.session.week)),
    column("phase", "the phase, if the week lies in one", |row| {
        written(row.session.phase.as_deref())
    }),
    column("week_starts", "the first day of the week, if the programme has a start", |row| {
        maybe(row.session.week_starts)
    }),
    column("date", "the date, if the programme has a start and the day a weekday", |row| {
        maybe(row.session.date)
    }),
    column("day", "the day's name", |row| text(&row.session.day)),
    column("status", "`projected`, `done`, `skipped` or `missing`, by the logs", |row| {
        word_of(&row.session.status, "status")
    }),
    column("order", "the order letter: A, or E1 in a group", |row| plain(row.exercise.order)),
    column("group", "how the letter's exercises are done: `single`, `superset` …", |row| {
        row.group.map_or(CsvCell::Empty, |group| word_of(&group.how, "how"))
    }),
    column("exercise", "the exercise that is done", |row| text(&row.exercise.name)),
    column("replaces", "the exercise it replaces", |row| {
        written(row.exercise.replaces.as_ref().map(|replaced| replaced.name.as_str()))
    }),
    column("pattern", "the chief movement pattern", |row| written(row.exercise.pattern.as_deref())),
    column("set", "the number of the set within the exercise, warm-ups counted, from 1", |row| {
        plain(row.number)
    }),
    column("kind", "`warm-up`, `work`, `back-off` or `drop`", |row| word(&row.set.kind)),
    column("reps_min", "the least repetitions, those of a cluster together", |row| {
        maybe(row.set.reps_min)
    }),
    column("reps_max", "the most repetitions; empty if there is no upper bound", |row| {
        maybe(row.set.reps_max)
    }),
    column("open_ended", "`true` for at least so much, and for AMRAP", |row| {
        plain(row.set.open_ended)
    }),
    column("amrap", "`true` for as many as possible", |row| plain(row.set.amrap)),
    column("cluster_reps", "the mini-sets of a cluster: 3 + 3 + 3", |row| {
        maybe(
            row.set
                .cluster_reps
                .map(|parts| parts.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ")),
        )
    }),
    column("cluster_pause_s", "seconds between the mini-sets", |row| {
        maybe(row.set.cluster_pause_s.as_ref().and_then(|pause| Some(pause.0?.as_seconds())))
    }),
    column("work_min_s", "the least seconds of work", |row| maybe(row.set.work_min_s)),
    column("work_max_s", "the most seconds of work", |row| {
        maybe(row.set.work_max_s.as_ref().and_then(|bound| bound.0))
    }),
    column("distance_min_m", "the least metres", |row| maybe(row.set.distance_min_m)),
    column("distance_max_m", "the most metres", |row| {
        maybe(row.set.distance_max_m.as_ref().and_then(|bound| bound.0))
    }),
    column("each_side", "`true` if the work is done on each side", |row| {
        plain(row.exercise.each_side)
    }),
    column("rest_between_sides_s", "seconds of rest between the sides", |row| {
        maybe(row.set.rest_between_sides_s.map(crate::quantity::Duration::as_seconds))
    }),
    column("target_kg", "kilograms asked for, before the gym's rounding", |row| {
        maybe(row.set.target_kg.map(crate::quantity::Exact::to_decimal_kg))
    }),
    column(
        "percent_1rm",
        "the target in percent of the lift's own 1RM, where one is known",
        |row| maybe(row.set.percent_1rm()),
    ),
    column(
        "load_kg",
        "kilograms that the gym can make: the whole bar, one bell, the pin, or what is \
        added to the body mass (below zero: taken off); empty if left to the day",
        |row| maybe(row.set.load_kg.map(kilograms)),
    ),
    column("load_gym", "the same in the unit that the gym's plates are marked in", |row| {
        maybe(row.set.load_kg.map(|mass| mass.in_unit(row.athlete.unit)))
    }),
    column("unit_gym", "that unit: `kg` or `lb`", |row| plain(row.athlete.unit)),
    column("bodyweight", "`true` if the load is added to the body mass", |row| {
        plain(row.set.bodyweight)
    }),
    column("about", "`true` if the load is estimated from an effort: a starting point", |row| {
        plain(row.set.about)
    }),
    column("implement", "what the load is made of: `bar`, `dumbbells`, `stack` …", |row| {
        maybe(row.set.implement.map(|key| key.0))
    }),
    column("implement_name", "the name of the bar, stack or band", |row| {
        written(row.set.bar.or(row.set.stack).or(row.set.band))
    }),
    column("bar_kg", "the empty bar in kilograms", |row| maybe(row.set.bar_kg.map(kilograms))),
    column("collars_kg", "both collars in kilograms", |row| {
        maybe(row.set.collars_kg.map(kilograms))
    }),
    column(
        "plates_per_side_kg",
        "plates of one side in kilograms, innermost first: 20 + 5",
        |row| masses(row.set.plates_per_side_kg),
    ),
    column("added_pieces_kg", "what is hung on the body, in kilograms", |row| {
        masses(row.set.added_pieces_kg)
    }),
    column("rpe", "the rating of perceived exertion, 1 to 10", |row| {
        maybe(row.set.rpe.map(|points| points.to_exact().to_decimal(1)))
    }),
    column("rir", "repetitions in reserve", |row| {
        maybe(row.set.rir.map(|reps| reps.to_exact().to_decimal(1)))
    }),
    column("rest_s", "seconds of rest after the set", |row| {
        maybe(row.set.rest_s.map(crate::quantity::Duration::as_seconds))
    }),
    column("tempo", "lower, pause, lift, pause: 3-1-X-0", |row| maybe(row.set.tempo)),
    column("range", "the range of motion", |row| written(row.set.range)),
    column("every_s", "a set on each interval of so many seconds", |row| {
        maybe(row.set.every_s.map(crate::quantity::Duration::as_seconds))
    }),
    column("rest_pause_s", "seconds of each short pause after which the set goes on", |row| {
        maybe(row.set.rest_pause_s.map(crate::quantity::Duration::as_seconds))
    }),
    column(
        "projected",
        "`true` if rules changed it on the strength of sessions not logged yet",
        |row| plain(row.exercise.projected),
    ),
    column("limits", "limits that somebody else set for the athlete, in force on the day", |row| {
        let limits = row.session.limits.iter();
        let all: Vec<String> =
            limits.map(|limit| format!("{}: {}", limit.name, limit.text)).collect();
        text(&all.join("; "))
    }),
    column("safety", "the caution that belongs to the exercise", |row| {
        written(row.exercise.safety.as_deref())
    }),
    column("file", "the file of the programme's line", |row| text(&row.exercise.line.file)),
    column("line", "the line in it", |row| plain(row.exercise.line.line)),
    column(
        "to_choose",
        "`true` if the line states the load of the exercise that this one replaces: choose a load",
        |row| plain(row.set.to_choose),
    ),
];

/// The plan as a tidy table for a spreadsheet or a statistics program: one row for each set, with
/// the columns of [`SET_COLUMNS`]. Names and values are those of the JSON; cells that do not apply
/// are empty.
///
/// # Errors
/// Those of the writer, which do not occur for text in memory.
pub fn sets_csv(plan: &Plan) -> Result<String, csv::Error> {
    sets_rows(plan, true)
}

/// The rows of some of a plan's athletes, with the column names if `with_names` is set.
///
/// # Errors
/// Those of the writer, which do not occur for text in memory.
pub fn sets_rows(plan: &Plan, with_names: bool) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    if with_names {
        writer.write_record(SET_COLUMNS.iter().map(|column| column.name))?;
    }
    for athlete in &plan.athletes {
        for session in &athlete.sessions {
            for exercise in &session.exercises {
                let letter = exercise.order.letter;
                let group = session.groups.iter().find(|group| group.letter == letter);
                for (number, set) in (1..).zip(&exercise.sets) {
                    let set = SetRecord::from(set);
                    let row = CsvRow { plan, athlete, session, group, exercise, number, set };
                    writer.write_record(SET_COLUMNS.iter().map(|column| shown(column, &row)))?;
                }
            }
        }
    }
    let bytes = writer.into_inner().map_err(|error| csv::Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn shown(column: &SetColumn, row: &CsvRow<'_>) -> String {
    match (column.value)(row) {
        CsvCell::Empty => String::new(),
        CsvCell::Plain(value) => value,
        CsvCell::Text(value) => cell::text(&value).into_owned(),
    }
}
