//! Completions for sessions and lines of a log: what is planned and not logged yet.

use super::asked::CompletionRequest;
use super::keys::key_of;
use super::names;
use super::rank::{Offer, pick};
use super::{Completion, CompletionKind};
use crate::editor::features::place::order;
use crate::plan::{Session, SessionStatus};
use crate::syntax::fold_name;

/// The planned lines of a logged session that are not logged yet.
pub fn planned_lines(asked: &CompletionRequest<'_>) -> Vec<Offer> {
    let spot = &asked.spot;
    let Some((week, day)) = spot.above.last().and_then(|line| session_of(spot.content(*line)))
    else {
        return Vec::new();
    };
    let (Some(plan), Some(athlete)) = (asked.plan(), asked.athlete()) else { return Vec::new() };
    let used: Vec<&str> = spot
        .beside()
        .filter_map(|line| order(key_of(spot.content(line))))
        .map(|(o, _)| o)
        .collect();
    let day = fold_name(day);
    let own = plan.athletes.iter().filter(|own| own.name == athlete.athlete.name);
    let sessions = own.flat_map(|own| own.sessions.iter().map(move |session| (own, session)));
    let that =
        sessions.filter(|(_, session)| session.week == week && fold_name(&session.day) == day);
    let lines = that
        .take(1)
        .flat_map(|(own, session)| session.exercises.iter().map(move |exercise| (own, exercise)));
    lines
        .filter(|(_, exercise)| !used.contains(&exercise.order.to_string().as_str()))
        .map(|(own, exercise)| {
            let label = format!("{} {}", exercise.order, exercise.name);
            let insert = format!("{label}: ");
            let short = crate::sheets::in_short(own, exercise);
            Offer::new(CompletionKind::Exercise, label).detail(short).insert(insert)
        })
        .collect()
}

/// Week and day of a session with a date.
pub fn session_of(content: &str) -> Option<(u32, &str)> {
    let (head, day) = content.split_once(',')?;
    let week = head.rsplit(' ').next()?.parse().ok()?;
    let day = day.split(": ").next().unwrap_or(day);
    Some((week, day.trim()))
}

/// The planned sessions that are not logged yet, for a session line with a date.
pub fn sessions(asked: &CompletionRequest<'_>) -> Vec<Completion> {
    let spot = &asked.spot;
    let before = spot.before();
    if let Some((_, typed)) = before.split_once(',') {
        let typed = typed.trim_start();
        let days = names::days(asked, asked.programme());
        return pick(days, typed, spot.span(spot.offset - typed.len(), spot.key_slot()));
    }
    let logged: Vec<(u32, String)> = spot
        .beside()
        .filter_map(|line| session_of(spot.content(line)))
        .map(|(week, day)| (week, fold_name(day)))
        .collect();
    let own = asked.athlete().map(|one| one.athlete.name.as_str());
    let athletes = asked.plan().into_iter().flat_map(|plan| &plan.athletes);
    let sessions = athletes.filter(|athlete| Some(athlete.name.as_str()) == own);
    // Sessions may be logged in several blocks and files; the plan contains all of them.
    let open = |session: &&Session| {
        matches!(session.status, SessionStatus::Projected | SessionStatus::Missing)
            && !logged.contains(&(session.week, fold_name(&session.day)))
    };
    let sessions = sessions.flat_map(|athlete| &athlete.sessions).filter(open);
    let offers = sessions.filter_map(|session| {
        let date = session.date.or(session.week_starts)?;
        let label = format!("{date} week {}, {}", session.week, session.day);
        Some(Offer::new(CompletionKind::Day, label).detail(match session.status {
            SessionStatus::Missing => "missing: a later one is logged",
            _ => "planned, not logged",
        }))
    });
    pick(offers.collect(), before, spot.span(spot.start, spot.end))
}
