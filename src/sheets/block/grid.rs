//! The content of a block sheet: weeks across, days and their exercises down.

use std::collections::BTreeSet;

use crate::plan::{AthletePlan, Order, PlannedExercise, Session};
use crate::sheets::columns::{Week, weeks};
use crate::sheets::labels::Labels;

/// An exercise of a day, over all weeks.
#[derive(Clone, Debug)]
pub struct BlockLine<'a> {
    /// Its order letter.
    pub order: Order,
    /// Its name.
    pub name: &'a str,
    /// The programme's exercise, if this one replaces it.
    pub replaces: Option<&'a str>,
    /// The planned exercise of each week, with the week's number. Weeks may be missing.
    pub weeks: Vec<(u32, &'a Session, &'a PlannedExercise)>,
}

/// A day of the week.
#[derive(Clone, Debug)]
pub struct BlockDay<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its sessions.
    pub sessions: Vec<&'a Session>,
    /// Its exercises.
    pub lines: Vec<BlockLine<'a>>,
}

/// The whole content.
#[derive(Clone, Debug)]
pub struct BlockGrid<'a> {
    /// Every week from the first to the last that has a session.
    pub weeks: Vec<Week>,
    /// The days, in the order of the plan.
    pub days: Vec<BlockDay<'a>>,
}

impl<'a> BlockGrid<'a> {
    /// Arranges the sessions of an athlete by day and week.
    #[must_use]
    pub fn new(athlete: &'a AthletePlan) -> Self {
        let mut days: Vec<BlockDay<'a>> = Vec::new();
        for session in &athlete.sessions {
            let at = days.iter().position(|day| day.name == session.day).unwrap_or_else(|| {
                days.push(BlockDay { name: &session.day, sessions: Vec::new(), lines: Vec::new() });
                days.len() - 1
            });
            if let Some(day) = days.get_mut(at) {
                day.add(session);
            }
        }
        for day in &mut days {
            // The sort is stable, so exercises that alternate at a letter keep their order.
            day.lines.sort_by_key(|line| line.order);
        }
        Self { weeks: weeks(&athlete.sessions), days }
    }

    /// Whether any number depends on sessions that are not done yet.
    #[must_use]
    pub fn is_projected(&self) -> bool {
        let lines = self.days.iter().flat_map(|day| &day.lines);
        lines.flat_map(|line| &line.weeks).any(|(_, _, exercise)| exercise.projected)
    }

    /// The limits in force in some weeks, each once.
    #[must_use]
    pub fn limits(&self, weeks: &[Week], labels: &Labels) -> Vec<String> {
        let numbers: BTreeSet<u32> = weeks.iter().map(|week| week.number).collect();
        let sessions = self.days.iter().flat_map(|day| &day.sessions);
        let mut out: Vec<String> = Vec::new();
        for session in sessions.filter(|session| numbers.contains(&session.week)) {
            for limit in &session.limits {
                let text = labels.show_limit(limit, |date| labels.show_date(date));
                if !out.contains(&text) {
                    out.push(text);
                }
            }
        }
        out
    }
}

impl<'a> BlockDay<'a> {
    fn add(&mut self, session: &'a Session) {
        self.sessions.push(session);
        for exercise in &session.exercises {
            let own = |line: &&mut BlockLine<'a>| {
                line.order == exercise.order && line.name == exercise.name
            };
            let planned = (session.week, session, exercise);
            match self.lines.iter_mut().find(own) {
                Some(line) => line.weeks.push(planned),
                None => self.lines.push(BlockLine {
                    order: exercise.order,
                    name: &exercise.name,
                    replaces: exercise.replaces.as_ref().map(|replaced| replaced.name.as_str()),
                    weeks: vec![planned],
                }),
            }
        }
    }
}

/// Divides weeks into groups that are printed side by side, at most `most` in each. Phases stay
/// together; a longer phase is split into even parts.
#[must_use]
pub fn spreads(weeks: &[Week], most: usize) -> Vec<Vec<Week>> {
    let most = most.max(1);
    let even = |run: &[Week]| -> Vec<Vec<Week>> {
        let parts = run.len().div_ceil(most).max(1);
        run.chunks(run.len().div_ceil(parts).max(1)).map(<[Week]>::to_vec).collect()
    };
    let mut out: Vec<Vec<Week>> = Vec::new();
    for phase in weeks.chunk_by(|a, b| a.phase == b.phase) {
        for part in even(phase) {
            match out.last_mut() {
                Some(last) if last.len() + part.len() <= most => last.extend(part),
                _ => out.push(part),
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weeks(phases: &[(&str, u32)]) -> Vec<Week> {
        let all = phases.iter().flat_map(|(name, n)| (0..*n).map(move |_| name));
        let week = |(number, name): (u32, &&str)| Week {
            number,
            phase: Some((*name).to_owned()),
            deload: false,
            starts: None,
        };
        (1..).zip(all).map(week).collect()
    }

    fn lengths(phases: &[(&str, u32)], most: usize) -> Vec<usize> {
        spreads(&weeks(phases), most).iter().map(Vec::len).collect()
    }

    #[test]
    fn a_block_that_fits_stays_on_one_page() {
        assert_eq!(lengths(&[("Base", 3), ("Deload", 1), ("Build", 3), ("Test", 1)], 10), [8]);
    }

    #[test]
    fn phases_stay_together() {
        assert_eq!(lengths(&[("A", 6), ("B", 6), ("C", 2)], 10), [6, 8]);
    }

    #[test]
    fn a_long_phase_is_split_evenly() {
        assert_eq!(lengths(&[("A", 16)], 10), [8, 8]);
        assert_eq!(lengths(&[("A", 104)], 10), [10, 10, 10, 10, 10, 10, 10, 10, 10, 10, 4]);
        assert_eq!(lengths(&[], 10), Vec::<usize>::new());
    }
}
