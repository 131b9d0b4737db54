//! What changed for each athlete: in all sessions, in each session, and in the sums of each week.

use std::collections::BTreeMap;

use crate::plan::{AthletePlan, Plan, Session};
use crate::quantity::{Exact, fold_name};
use crate::tally::{WeekTally, weekly};

use super::facts::{differences, of_athlete};
use super::session::{SessionSide, change};
use super::{
    AthleteChange, BlockChange, Change, FactValue, Field, SessionChange, Sides, Volume, WeekChange,
};

/// The changes of all athletes, without those for whom nothing changed.
pub fn changes(
    people: &[Sides<&AthletePlan>],
    weeks: &[Sides<u32>],
    days: &[Sides<String>],
    plans: &Sides<&Plan>,
) -> Vec<AthleteChange> {
    let tallies = Sides::of(plans, |plan| weekly(plan));
    let last = Sides::of(plans, |plan| plan.weeks);
    let all = people.iter().map(|person| {
        let athlete = Sides::of(person, |athlete| athlete.name.clone());
        let unit = Sides::of(person, |athlete| athlete.unit);
        let Some((old, new)) = person.both() else {
            let name = |athlete: &&AthletePlan| FactValue::plain(athlete.name.clone());
            let sides = Sides::of(person, name);
            let changes = vec![Change { what: Field::Athlete, of: None, sides }];
            let (sessions, weeks) = (Vec::new(), Vec::new());
            return AthleteChange { athlete, unit, changes, sessions, weeks, block: None };
        };
        let of = |side: Option<&crate::tally::Weekly>, name: &str| {
            let found = side.and_then(|weekly| weekly.athletes.iter().find(|one| one.name == name));
            found.map(|one| one.weeks.clone()).unwrap_or_default()
        };
        let tallied =
            (of(tallies.before.as_ref(), &old.name), of(tallies.after.as_ref(), &new.name));
        let of_weeks: Vec<WeekChange> =
            weeks.iter().filter_map(|week| week_change(week, &tallied)).collect();
        let block = (!of_weeks.is_empty()).then(|| block_change(&tallied));
        AthleteChange {
            athlete,
            unit,
            changes: differences(&of_athlete(old), &of_athlete(new)),
            sessions: sessions((old, new), weeks, days, &last),
            weeks: of_weeks,
            block,
        }
    });
    all.filter(|one| !one.changes.is_empty() || !one.sessions.is_empty() || !one.weeks.is_empty())
        .collect()
}

/// The sessions that changed, by week, in the order of the days.
fn sessions(
    (old, new): (&AthletePlan, &AthletePlan),
    weeks: &[Sides<u32>],
    days: &[Sides<String>],
    last: &Sides<u32>,
) -> Vec<SessionChange> {
    let (was, is) = (by_place(old), by_place(new));
    let mut all = Vec::new();
    for week in weeks {
        for day in days {
            let before = find(&was, week.before, day.before.as_ref());
            let after = find(&is, week.after, day.after.as_ref());
            let sides = Sides {
                before: before.map(|session| SessionSide::new(session, old.unit, last.before)),
                after: after.map(|session| SessionSide::new(session, new.unit, last.after)),
            };
            if sides.either().is_some() {
                all.extend(change(&sides));
            }
        }
    }
    all
}

/// Sessions by week and day.
type Sessions<'p> = BTreeMap<(u32, String), &'p Session>;

fn find<'p>(all: &Sessions<'p>, week: Option<u32>, day: Option<&String>) -> Option<&'p Session> {
    all.get(&(week?, fold_name(day?))).copied()
}

fn by_place(athlete: &AthletePlan) -> Sessions<'_> {
    let placed = |session: &'_ Session| (session.week, fold_name(&session.day));
    athlete.sessions.iter().map(|session| (placed(session), session)).collect()
}

/// The change of the sums over all weeks.
fn block_change((old, new): &(Vec<WeekTally>, Vec<WeekTally>)) -> BlockChange {
    let sets = |list: &[WeekTally]| list.iter().map(|week| week.total.hard_sets).sum();
    let volume = |list: &[WeekTally]| {
        let sum = |sum: Exact, week: &WeekTally| &sum + &week.total.volume;
        Volume(list.iter().fold(Exact::zero(), sum))
    };
    BlockChange {
        hard_sets: Sides { before: Some(sets(old)), after: Some(sets(new)) },
        volume_load_kg: Sides { before: Some(volume(old)), after: Some(volume(new)) },
    }
}

/// The change of a week's sums; `None` if they are the same.
fn week_change(
    week: &Sides<u32>,
    (old, new): &(Vec<WeekTally>, Vec<WeekTally>),
) -> Option<WeekChange> {
    let find = |list: &'_ [WeekTally], week: Option<u32>| {
        list.iter().find(|tally| Some(tally.week) == week).map(|tally| tally.total.clone())
    };
    let totals = Sides { before: find(old, week.before), after: find(new, week.after) };
    let found = WeekChange {
        week: week.clone(),
        hard_sets: Sides::of(&totals, |total| total.hard_sets),
        volume_load_kg: Sides::of(&totals, |total| Volume(total.volume.clone())),
    };
    let same = found.hard_sets.before == found.hard_sets.after
        && found.volume_load_kg.before == found.volume_load_kg.after;
    (!same).then_some(found)
}
