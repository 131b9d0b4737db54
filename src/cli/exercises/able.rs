//! Which exercises a gym can load and an athlete can do.

use crate::catalogue::{Exercise, Gym, LoadNeed};
use crate::diagnostics::no_such;
use crate::quantity::fold_name;
use crate::resolve::{ExerciseId, Resolved, ResolvedAthlete};

use super::super::Failure;

/// A gym, and the athlete who trains there, where one is asked about.
pub struct Able<'a> {
    pub gym: &'a Gym,
    pub athlete: Option<&'a ResolvedAthlete>,
    resolved: &'a Resolved,
}

impl<'a> Able<'a> {
    /// The gym and the athlete of these names; the athlete's own gym, where no other is named.
    pub fn new(
        resolved: &'a Resolved,
        gym: Option<&str>,
        athlete: Option<&str>,
    ) -> Result<Option<Self>, Failure> {
        let athlete = athlete.map(|name| trainee(resolved, name)).transpose()?;
        let gym = match (gym, athlete) {
            (Some(name), _) => named_gym(resolved, name)?,
            (None, Some(trainee)) => own_gym(resolved, trainee)?,
            (None, None) => return Ok(None),
        };
        Ok(Some(Self { gym, athlete, resolved }))
    }

    /// Why an exercise cannot be done; `None` when it can.
    pub fn refuses(&self, index: usize, exercise: &Exercise) -> Option<String> {
        let own = self.athlete.and_then(|trainee| self.athlete_refuses(trainee, index));
        own.or_else(|| {
            let missing = self.gym.means(exercise, LoadNeed::Anything).err()?;
            Some(missing.sentence(self.gym))
        })
    }

    fn athlete_refuses(&self, trainee: &ResolvedAthlete, index: usize) -> Option<String> {
        let (id, name) = (ExerciseId(index), &trainee.athlete.name);
        if let Some(instead) = trainee.instead(id, None) {
            let by = self.resolved.exercises.get(instead.by.0);
            let by = by.map_or("another", |e| e.name.as_str());
            let why = instead.reason.as_ref().map_or_else(String::new, |why| format!(" ({why})"));
            return Some(format!("{name} does {by} instead{why}"));
        }
        let avoided = trainee.avoid.get(&id)?;
        let until = avoided.until.map_or_else(String::new, |date| format!(" until {date}"));
        Some(format!("{name} must avoid {}{until}", avoided.why))
    }

    /// Whose it is that is asked about.
    pub fn name(&self) -> &str {
        self.athlete.map_or(self.gym.name.as_str(), |trainee| trainee.athlete.name.as_str())
    }
}

fn trainee<'a>(resolved: &'a Resolved, name: &str) -> Result<&'a ResolvedAthlete, Failure> {
    let folded = fold_name(name);
    let all = &resolved.athletes;
    let known: Vec<&str> = all.iter().map(|trainee| trainee.athlete.name.as_str()).collect();
    let found = all.iter().find(|trainee| fold_name(&trainee.athlete.name) == folded);
    found.ok_or_else(|| Failure::Usage(no_such("athlete", name, &known)))
}

fn named_gym<'a>(resolved: &'a Resolved, name: &str) -> Result<&'a Gym, Failure> {
    let folded = fold_name(name);
    let known: Vec<&str> = resolved.gyms.iter().map(|gym| gym.name.as_str()).collect();
    let found = resolved.gyms.iter().find(|gym| fold_name(&gym.name) == folded);
    found.ok_or_else(|| Failure::Usage(no_such("gym", name, &known)))
}

fn own_gym<'a>(resolved: &'a Resolved, trainee: &ResolvedAthlete) -> Result<&'a Gym, Failure> {
    let found = trainee.gym.and_then(|index| resolved.gyms.get(index));
    found.ok_or_else(|| {
        let name = &trainee.athlete.name;
        Failure::Usage(format!("{name} has no known gym: choose one with --gym"))
    })
}
