//! The weekly table as CSV.

use super::cell;
use crate::quantity::Decimal;
use crate::tally::{Measure, TopSet, WeekTally, Weekly, Work};

/// The weekly table as CSV, one row for each measure, for a spreadsheet or a statistics program.
///
/// The columns are athlete, week, phase, first day of the week, kind of item (week, session, lift,
/// muscle, pattern), its name, the name of the measure with its unit, and the value. Names and
/// values are those of the JSON; measures that do not apply have no row.
///
/// # Errors
/// Those of the writer, which do not occur for text in memory.
pub fn weekly_csv(weekly: &Weekly) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record([
        "athlete",
        "week",
        "phase",
        "week_starts",
        "of",
        "name",
        "measure",
        "value",
    ])?;
    for athlete in &weekly.athletes {
        for week in &athlete.weeks {
            for (of, name, measures) in parts(week) {
                for (measure, value) in measures {
                    writer.write_record([
                        &*cell::text(&athlete.name),
                        &week.week.to_string(),
                        &cell::text(week.phase.as_deref().unwrap_or_default()),
                        &week.week_starts.map(|date| date.to_string()).unwrap_or_default(),
                        of,
                        &cell::text(name),
                        measure,
                        &value.to_string(),
                    ])?;
                }
            }
        }
    }
    let bytes = writer.into_inner().map_err(|error| csv::Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// The items of a week: kind, name, measures.
fn parts(week: &WeekTally) -> Vec<(&'static str, &str, Vec<Measure>)> {
    let timed = |minutes: u32, work: &Work| {
        let mut measures = vec![("minutes", Decimal::whole(minutes.into()))];
        measures.append(&mut work.measures());
        measures
    };
    let mut all = vec![("week", "", timed(week.minutes, &week.total))];
    for session in &week.sessions {
        all.push(("session", session.day.as_str(), timed(session.minutes, &session.work)));
    }
    for lift in &week.lifts {
        let mut measures = lift.work.measures();
        measures.extend(lift.top_set.iter().flat_map(TopSet::measures));
        all.push(("lift", lift.lift.as_str(), measures));
    }
    for muscle in &week.muscles {
        all.push(("muscle", muscle.muscle.as_str(), muscle.sets.measures()));
    }
    for pattern in &week.patterns {
        all.push(("pattern", pattern.pattern.as_str(), pattern.work.measures()));
    }
    all
}
