//! Sessions as a calendar in iCalendar format (RFC 5545).

use std::collections::BTreeSet;
use std::fmt;

use icalendar::{Calendar, Component, Event, EventStatus, Property};
use jiff::civil::{Date, DateTime};
use jiff::tz::Offset;
use jiff::{Timestamp, ToSpan};

use crate::plan::{AthletePlan, Plan, Session, SessionStatus};
use crate::quantity::fold_name;
use crate::sheets::session_summary;

/// Why a plan has no calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoDates {
    /// The selection contains no session.
    NoSessions,
    /// The programme has no start date.
    NoStart {
        /// The programme's name.
        programme: String,
    },
    /// None of the selected days has a weekday.
    NoWeekday {
        /// The days.
        days: Vec<String>,
    },
}

impl fmt::Display for NoDates {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSessions => f.write_str("there are no sessions to put into a calendar"),
            Self::NoStart { programme } => write!(
                f,
                "the programme `{programme}` has no dates: write `starts:` and the date of its \
                 first day below its name, such as `starts: 2026-01-05`"
            ),
            Self::NoWeekday { days } => {
                write!(f, "no day has a date: {}", weekday_wanted(days))
            }
        }
    }
}

impl std::error::Error for NoDates {}

/// The hint for days that the calendar leaves out.
#[must_use]
pub fn weekday_wanted(days: &[String]) -> String {
    let names = days.iter().map(|day| format!("`day {day} (Mon)`")).collect::<Vec<_>>();
    format!("write the weekday after the day's name, such as {}", names.join(", "))
}

/// The days without a weekday, which the calendar leaves out, in their order.
#[must_use]
pub fn undated_days(plan: &Plan) -> Vec<String> {
    let mut days: Vec<String> = Vec::new();
    let sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    for session in sessions.filter(|session| session.date.is_none()) {
        if !days.contains(&session.day) {
            days.push(session.day.clone());
        }
    }
    days
}

/// The sessions that have a date as a calendar, each as an all-day event. The title consists of day
/// and athlete; the description is the session's text with the usual disclaimers. An event keeps
/// its identity as long as the week and the names of programme, athlete and day stay the same, so
/// importing a changed plan updates the existing events.
///
/// No clock is used: the time stamp that the format requires is `stamp` (seconds since 1970),
/// otherwise midnight (UTC) on the first day of the programme.
///
/// # Errors
/// [`NoDates`] if no session has a date.
pub fn calendar(plan: &Plan, stamp: Option<i64>) -> Result<String, NoDates> {
    let plan = &*plan.named_for_athletes();
    let sessions = || plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    if sessions().next().is_none() {
        return Err(NoDates::NoSessions);
    }
    let Some(start) = sessions().find_map(programme_start) else {
        return Err(NoDates::NoStart { programme: plan.programme.clone() });
    };
    if sessions().all(|session| session.date.is_none()) {
        return Err(NoDates::NoWeekday { days: undated_days(plan) });
    }
    let stamp = stamp_text(stamp, start);
    let mut seen = BTreeSet::new();
    let mut calendar = Calendar::empty();
    calendar
        .append_property(("VERSION", "2.0"))
        .append_property(("PRODID", "-//Setwright//Setwright//EN"))
        .append_property(("CALSCALE", "GREGORIAN"))
        .append_property(("X-WR-CALNAME", plan.programme.as_str()));
    for athlete in &plan.athletes {
        for session in &athlete.sessions {
            let Some(date) = session.date else { continue };
            let uid = unused(identity(plan, athlete, session), &mut seen);
            calendar.push(event(plan, athlete, session, date, &uid, &stamp));
        }
    }
    Ok(calendar.to_string())
}

fn event(
    plan: &Plan,
    athlete: &AthletePlan,
    session: &Session,
    date: Date,
    uid: &str,
    stamp: &str,
) -> Event {
    let mut event = Event::new();
    let day = Property::new("DTSTART", date.strftime("%Y%m%d").to_string())
        .add_parameter("VALUE", "DATE")
        .done();
    event
        .uid(uid)
        .append_property(("DTSTAMP", stamp))
        .append_property(day)
        .summary(&format!("{} · {}", session.day, athlete.name))
        .description(session_summary(plan, athlete, session).trim_end())
        // The day stays free for other appointments.
        .append_property(("TRANSP", "TRANSPARENT"));
    if matches!(session.status, SessionStatus::Skipped { .. }) {
        event.status(EventStatus::Cancelled);
    }
    event.done()
}

/// The first day of the first week.
fn programme_start(session: &Session) -> Option<Date> {
    let weeks = i64::from(session.week.saturating_sub(1));
    session.week_starts?.checked_sub(weeks.weeks()).ok()
}

/// A time stamp: `20260105T000000Z`.
fn stamp_text(stamp: Option<i64>, start: Date) -> String {
    let stated = stamp.and_then(|seconds| Timestamp::from_second(seconds).ok());
    let time: DateTime = stated.map_or(start.at(0, 0, 0, 0), |time| Offset::UTC.to_datetime(time));
    time.strftime("%Y%m%dT%H%M%SZ").to_string()
}

/// The identity of a session, from its names and its week, without its loads.
fn identity(plan: &Plan, athlete: &AthletePlan, session: &Session) -> u128 {
    let week = session.week.to_string();
    let names = [&plan.programme, &athlete.name, &week, &session.day];
    // The separator is a character that no name contains.
    let all: Vec<String> = names.iter().map(|name| fold_name(name)).collect();
    fnv_1a(all.join("\n").as_bytes())
}

/// The identity as text; a different one if another session already has it.
fn unused(mut identity: u128, seen: &mut BTreeSet<u128>) -> String {
    while !seen.insert(identity) {
        identity = identity.wrapping_add(1);
    }
    format!("{identity:032x}@setwright")
}

/// FNV-1a with 128 bits (Fowler, Noll and Vo; offset and prime from memory). Unlike the hashes of
/// the standard library, it is the same on every machine and in every release.
fn fnv_1a(bytes: &[u8]) -> u128 {
    const OFFSET: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
    bytes.iter().fold(OFFSET, |hash, byte| (hash ^ u128::from(*byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// [M] both values are test values of other implementations; [C] the second was also computed
    /// from the definition with another program.
    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(fnv_1a(b""), 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d);
        assert_eq!(fnv_1a(b"a"), 0xd228_cb69_6f1a_8caf_7891_2b70_4e4a_8964);
    }

    #[test]
    fn the_stamp_is_the_stated_time_else_the_start() {
        let start = jiff::civil::date(2026, 1, 5);
        assert_eq!(stamp_text(None, start), "20260105T000000Z");
        assert_eq!(stamp_text(Some(1_700_000_000), start), "20231114T221320Z");
    }
}
