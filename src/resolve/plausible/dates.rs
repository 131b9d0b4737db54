//! Checks for dates in the future. The clock is never read: "today" comes from the files.

use jiff::ToSpan;
use jiff::civil::Date;

use super::doubt;
use crate::diagnostics::{Code, Diagnostic};
use crate::history::History;
use crate::resolve::Programme;
use crate::source::{Sources, Span};

/// Without an end of the programme, a test may follow the latest log by so many days.
const DAYS_AFTER_LOG: i64 = 60;

/// Looks at the dates of maxes, and with `as_of` at those of logged sessions. "Today" is `as_of`, else
/// the end of the last programme or the latest logged session, whichever is later.
pub fn check(
    programmes: &[Programme],
    histories: &[History],
    as_of: Option<Date>,
    problems: &mut Vec<Diagnostic>,
) {
    let sessions = || histories.iter().flat_map(|history| history.sessions.values());
    if let Some(today) = as_of {
        for session in sessions().filter(|session| session.date > today) {
            let message = format!("this session is dated {}, after {today}", session.date);
            let found = doubt(Code::LogUnlikely, session.span, message);
            problems.push(earlier(found, session.date, today, session.span, sources(programmes)));
        }
    }
    let extras = histories.iter().flat_map(|history| history.extras.values().flatten());
    let latest = sessions().map(|session| session.date).chain(extras.map(|e| e.date)).max();
    let ends: Option<Vec<Date>> = programmes.iter().map(end).collect();
    let end = ends.and_then(|ends| ends.into_iter().max());
    let (today, what) = match (as_of, end, latest) {
        (Some(today), ..) => (today, "the day given with --as-of"),
        (None, Some(end), latest) if latest.is_none_or(|latest| latest <= end) => {
            (end, "the end of the programme")
        }
        (None, Some(_), Some(latest)) => (latest, "the latest logged session"),
        (None, None, Some(latest)) => match latest.checked_add(DAYS_AFTER_LOG.days()) {
            Ok(day) => (day, "two months after the latest logged session"),
            Err(_) => return,
        },
        _ => return,
    };
    for max in programmes.iter().flat_map(|p| &p.trainees).flat_map(|t| &t.athlete.maxes) {
        let Some(date) = max.date.filter(|date| *date > today) else { continue };
        let message = format!("this max is dated {date}, after {what}, {today}");
        let found =
            doubt(Code::UnlikelyMax, max.span, message).help("check the year and the month");
        problems.push(earlier(found, date, today, max.span, sources(programmes)));
    }
}

fn sources(programmes: &[Programme]) -> Option<&Sources> {
    programmes.first().map(|programme| &*programme.sources)
}

/// The last day of a programme.
fn end(programme: &Programme) -> Option<Date> {
    programme.starts?.checked_add((i64::from(programme.weeks) * 7 - 1).days()).ok()
}

/// With the same day of the year before it as a fix, if that is in the past.
fn earlier(
    found: Diagnostic,
    date: Date,
    today: Date,
    span: Span,
    sources: Option<&Sources>,
) -> Diagnostic {
    let of_year = |year: i16| date.with().year(year).build().ok().filter(|day| *day <= today);
    let meant = of_year(today.year()).or_else(|| of_year(today.year().saturating_sub(1)));
    let written = date.to_string();
    let at = sources.and_then(|sources| sources.text(span).find(&written));
    match (meant, at) {
        (Some(meant), Some(at)) => {
            let start = usize::try_from(span.start).unwrap_or_default() + at;
            let place = Span::new(span.file, start, start + written.len());
            found.guess(place, meant.to_string())
        }
        _ => found,
    }
}
