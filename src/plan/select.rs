//! A part of a plan.

use crate::quantity::fold_name;

use super::Plan;

/// Which sessions of a plan.
#[derive(Clone, Debug, Default)]
pub struct Selection {
    /// The first and the last week of each run; all, if there is none.
    pub weeks: Vec<(u32, u32)>,
    /// The days; all, if none is named.
    pub days: Vec<String>,
}

impl Plan {
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

    /// Keeps the sessions that are selected.
    #[must_use]
    pub fn select(mut self, selection: &Selection) -> Self {
        let days: Vec<String> = selection.days.iter().map(|day| fold_name(day)).collect();
        let runs = &selection.weeks;
        let in_weeks = |week: u32| {
            runs.is_empty() || runs.iter().any(|(first, last)| (*first..=*last).contains(&week))
        };
        for athlete in &mut self.athletes {
            athlete.sessions.retain(|session| {
                in_weeks(session.week)
                    && (days.is_empty() || days.contains(&fold_name(&session.day)))
            });
        }
        self
    }

    /// Each athlete's plan by itself, in order.
    pub fn per_athlete(&self) -> impl Iterator<Item = Plan> + '_ {
        self.athletes.iter().map(|athlete| Plan { athletes: vec![athlete.clone()], ..self.clone() })
    }
}
