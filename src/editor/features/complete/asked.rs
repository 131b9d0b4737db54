//! The context of a completion: programme, athletes and gyms.

use super::super::place::{Spot, colon, order};
use super::logged::session_of;
use crate::catalogue::{Catalogue, Exercise, Gym};
use crate::editor::Analysis;
use crate::plan::Plan;
use crate::resolve::ResolvedAthlete;
use crate::syntax::fold_name;
use crate::syntax::keys::BlockPlace;

/// A position where something is being written.
pub struct CompletionRequest<'a> {
    pub analysis: &'a Analysis,
    pub spot: Spot<'a>,
}

impl<'a> CompletionRequest<'a> {
    pub fn catalogue(&self) -> Catalogue<'a> {
        Catalogue::new(&self.analysis.exercises, &self.analysis.names)
    }

    /// The programme that the line belongs to, by name.
    pub fn programme(&self) -> Option<&'a str> {
        if let Some((log, _)) = self.spot.above_with(&["log"]) {
            return log.split_once(": ").map(|(_, programme)| programme.trim());
        }
        let before =
            self.spot.lines.get(..=self.spot.line.min(self.spot.lines.len().max(1) - 1))?;
        let heads = before.iter().rev().filter(|line| line.indent == 0 && line.has_content());
        heads
            .filter_map(|line| self.spot.text.get(line.start..line.end))
            .find_map(|head| head.strip_prefix("programme "))
            .map(str::trim)
    }

    /// The plan of that programme.
    pub fn plan(&self) -> Option<&'a Plan> {
        let wanted = fold_name(self.programme()?);
        self.analysis.plans.iter().find(|plan| fold_name(&plan.programme) == wanted)
    }

    /// The athlete that the line is about, if it is about one: below `athlete X`, `log X: …` or
    /// `for X`.
    pub fn athlete(&self) -> Option<&'a ResolvedAthlete> {
        let own = self.spot.whole().strip_prefix("for ");
        let (name, _) = match own {
            Some(name) => (name, self.spot.line),
            None => self.spot.above_with(&["for", "athlete", "log"])?,
        };
        let name = name.split(": ").next().unwrap_or(name).trim_end_matches(':');
        self.trainee(name)
    }

    /// The athlete with this name.
    pub fn trainee(&self, name: &str) -> Option<&'a ResolvedAthlete> {
        let wanted = fold_name(name);
        self.analysis.athletes.iter().find(|one| fold_name(&one.athlete.name) == wanted)
    }

    /// The gyms to consider: the athlete's, otherwise those of the programme's athletes, otherwise
    /// all.
    pub fn gyms(&self) -> Vec<&'a Gym> {
        let gyms = &self.analysis.gyms;
        if let Some(gym) = self.athlete().and_then(|one| gyms.get(one.gym?)) {
            return vec![gym];
        }
        let mut found: Vec<usize> = match self.plan() {
            Some(plan) => {
                plan.athletes.iter().filter_map(|own| self.trainee(&own.name)?.gym).collect()
            }
            None => self.analysis.athletes.iter().filter_map(|one| one.gym).collect(),
        };
        found.sort_unstable();
        found.dedup();
        let own: Vec<&Gym> = found.into_iter().filter_map(|index| gyms.get(index)).collect();
        if own.is_empty() { gyms.iter().collect() } else { own }
    }

    /// The order letter and exercise name of the line, below a day or a logged session.
    pub fn order_line(&self) -> Option<(&'a str, &'a str)> {
        let lines = self.spot.above.iter().rev().copied();
        let contents = [self.spot.whole()].into_iter().chain(lines.map(|l| self.spot.content(l)));
        let in_day = matches!(
            self.spot.place,
            Some(BlockPlace::Day | BlockPlace::Line | BlockPlace::Session)
        );
        let mut found = contents.filter(|_| in_day).filter_map(|content| {
            let key = content.get(..colon(content).unwrap_or(content.len()))?;
            let (letter, name) = order(key)?;
            Some((letter, key.get(name..)?.trim()))
        });
        found.next()
    }

    /// The exercise that the line is about.
    pub fn exercise(&self) -> Option<&'a Exercise> {
        let (letter, name) = self.order_line()?;
        let name = if name.is_empty() { self.planned(letter)? } else { name };
        self.catalogue().named(name).map(|(_, exercise)| exercise)
    }

    /// The exercise that the plan has for an order letter of the logged session.
    fn planned(&self, letter: &str) -> Option<&'a str> {
        let (week, day) = session_of(self.spot.content(*self.spot.above.last()?))?;
        let own = self.athlete()?.athlete.name.as_str();
        let athlete = self.plan()?.athletes.iter().find(|athlete| athlete.name == own)?;
        let that = |session: &&crate::plan::Session| {
            session.week == week && fold_name(&session.day) == fold_name(day)
        };
        let session = athlete.sessions.iter().find(that)?;
        let exercise = session.exercises.iter().find(|one| one.order.to_string() == letter)?;
        Some(&exercise.name)
    }
}
