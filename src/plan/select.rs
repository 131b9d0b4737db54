//! Selecting a part of a plan.

use std::borrow::Cow;

use jiff::civil::Weekday;

use crate::quantity::fold_name;

use super::{AthletePlan, Plan, Session, SessionStatus};

/// The sessions to select.
#[derive(Clone, Debug, Default)]
pub struct Selection {
    /// Ranges of weeks, first and last week included; empty for all weeks.
    pub weeks: Vec<(u32, u32)>,
    /// The days, by name or weekday; all, if none is named.
    pub days: Vec<String>,
}

/// A weekday by its English name or the first letters of it, three at least.
fn weekday(text: &str) -> Option<Weekday> {
    const NAMES: [(&str, Weekday); 7] = [
        ("monday", Weekday::Monday),
        ("tuesday", Weekday::Tuesday),
        ("wednesday", Weekday::Wednesday),
        ("thursday", Weekday::Thursday),
        ("friday", Weekday::Friday),
        ("saturday", Weekday::Saturday),
        ("sunday", Weekday::Sunday),
    ];
    let text = text.trim().to_lowercase();
    let found = NAMES.iter().find(|(name, _)| text.len() >= 3 && name.starts_with(&text))?;
    Some(found.1)
}

/// Sessions that nobody trains by any more.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Past {
    /// Sessions logged as skipped.
    pub skipped: usize,
    /// Sessions logged as done, or passed over before the athlete's latest logged session.
    pub past: usize,
}

impl Session {
    /// Whether this is its day: by name, or by weekday (`Mon`, `monday`).
    #[must_use]
    pub fn is_on(&self, day: &str) -> bool {
        fold_name(&self.day) == fold_name(day)
            || self.weekday.is_some_and(|own| weekday(day) == Some(own))
    }

    /// Whether it is still to come, as far as the athlete's log says.
    #[must_use]
    pub fn is_to_come(&self) -> bool {
        self.status == SessionStatus::Projected
    }
}

impl Past {
    /// Counts the past sessions of some athletes.
    #[must_use]
    pub fn of(athletes: &[AthletePlan]) -> Self {
        let sessions = || athletes.iter().flat_map(|athlete| &athlete.sessions);
        let skipped = |session: &&Session| matches!(session.status, SessionStatus::Skipped { .. });
        let skipped = sessions().filter(skipped).count();
        let all = sessions().filter(|session| !session.is_to_come()).count();
        Self { skipped, past: all - skipped }
    }

    /// Total number of these sessions.
    #[must_use]
    pub fn count(self) -> usize {
        self.skipped + self.past
    }
}

impl Plan {
    /// Returns the plan with only the sessions that are still ahead.
    #[must_use]
    pub fn to_come(&self) -> Cow<'_, Self> {
        if Past::of(&self.athletes).count() == 0 {
            return Cow::Borrowed(self);
        }
        let mut plan = self.clone();
        for athlete in &mut plan.athletes {
            athlete.sessions.retain(Session::is_to_come);
        }
        Cow::Owned(plan)
    }

    /// The names of all days that have a session.
    #[must_use]
    pub fn day_names(&self) -> Vec<&str> {
        let mut names: Vec<&str> = Vec::new();
        for session in self.athletes.iter().flat_map(|athlete| &athlete.sessions) {
            if !names.contains(&session.day.as_str()) {
                names.push(&session.day);
            }
        }
        names
    }

    /// Whether any session is on a day, by its name or its weekday.
    #[must_use]
    pub fn has_day(&self, day: &str) -> bool {
        self.athletes.iter().flat_map(|athlete| &athlete.sessions).any(|session| session.is_on(day))
    }

    /// Keeps the sessions that are selected.
    #[must_use]
    pub fn select(mut self, selection: &Selection) -> Self {
        let days = &selection.days;
        let runs = &selection.weeks;
        let in_weeks = |week: u32| {
            runs.is_empty() || runs.iter().any(|(first, last)| (*first..=*last).contains(&week))
        };
        for athlete in &mut self.athletes {
            athlete.sessions.retain(|session| {
                in_weeks(session.week)
                    && (days.is_empty() || days.iter().any(|day| session.is_on(day)))
            });
        }
        self
    }

    /// Returns a plan for each athlete, in order.
    pub fn per_athlete(&self) -> impl Iterator<Item = Plan> + '_ {
        self.athletes.iter().map(|athlete| Plan { athletes: vec![athlete.clone()], ..self.clone() })
    }
}
