//! Chooses one of several tools for a line: the first that can make its loads, the same in every week,
//! so that a load never moves to another tool silently.

use crate::catalogue::{Exercise, LoadingMethod};
use crate::quantity::Exact;
use crate::resolve::{Day, ExerciseId, Line, Phase, WeekSpec};
use crate::strength::Rounding;

use super::gear::GymGear;
use super::load::{LoadRequest, LoadTarget};
use super::state::LineState;
use super::{AthleteEvaluator, LineId};

/// A line that needs a tool.
pub struct ToolFor<'a> {
    pub key: LineId,
    pub day: &'a Day,
    pub line: &'a Line,
    pub lift: ExerciseId,
    pub exercise: &'a Exercise,
}

impl AthleteEvaluator<'_, '_> {
    /// Of the tools that count a load in the same way, the first that makes all loads of the line
    /// within its step, else the one that misses fewest, and of those the one that comes nearest.
    /// What rules will add is not looked at: a line keeps its tool.
    pub(super) fn tool(&mut self, wanted: &ToolFor<'_>, usual: LoadingMethod) -> LoadingMethod {
        let programme = self.programme;
        let gym = self.trainee.gym.and_then(|gym| programme.gyms.get(gym));
        let Some(gym) = gym else { return usual };
        let choices = gym.choices(wanted.exercise, &usual);
        if choices.len() < 2 {
            return usual;
        }
        if let Some(known) = self.tools.get(&wanted.key) {
            return known.clone();
        }
        let (targets, rounding) = (self.all_targets(wanted), self.rounding());
        let Some(gear) = self.gear() else { return usual };
        let rated = choices.into_iter().enumerate().map(|(place, means)| {
            let misses = misses(gear, &means, &targets, rounding);
            let worst = misses.iter().flatten().max().cloned().unwrap_or_else(Exact::zero);
            (
                (misses.len(), misses.iter().filter(|miss| miss.is_none()).count(), worst, place),
                means,
            )
        });
        let best = rated.min_by(|(a, _), (b, _)| a.cmp(b));
        let means = best.map_or(usual, |(_, means)| means);
        self.tools.insert(wanted.key, means.clone());
        means
    }

    /// What the line asks for in all weeks in which it is this exercise, before any rule acts.
    fn all_targets(&mut self, wanted: &ToolFor<'_>) -> Vec<Exact> {
        let programme = self.programme;
        let variant = wanted.line.variant(self.index);
        let mut found = Vec::new();
        for (week, spec) in (1..).zip(&variant.weeks) {
            let (starts, date) = self.dates(week, wanted.day);
            let date = date.or(starts);
            if self.trainee.done_for(wanted.line.exercise, date) == wanted.lift {
                let phase = programme.phases.iter().find(|phase| phase.weeks.contains(week));
                found.extend(self.week_targets(wanted, spec, (week, date, phase)));
            }
        }
        found
    }

    fn week_targets(
        &mut self,
        wanted: &ToolFor<'_>,
        spec: &WeekSpec,
        (week, date, phase): (u32, Option<jiff::civil::Date>, Option<&Phase>),
    ) -> Vec<Exact> {
        let state = LineState::default();
        let standing = match wanted.key.2 {
            Some(_) => super::stand_in::Standing::Other,
            None => super::stand_in::Standing::Own,
        };
        let mut targets: Vec<LoadTarget> = Vec::new();
        for group in &spec.groups {
            if self.opens(group, standing, (wanted.lift, false), &state) {
                continue;
            }
            let asked = LoadRequest {
                group,
                lift: wanted.lift,
                on_body: false,
                phase,
                top: targets.iter().max_by(|a, b| a.traced.value.cmp(&b.traced.value)),
                state: &state,
                line: wanted.line.span,
                week,
                date,
            };
            targets.extend(self.target(&asked));
        }
        targets.into_iter().map(|target| target.traced.value).collect()
    }
}

/// By how much each load that a tool cannot make within its step is missed; `None` where it makes
/// none at all.
fn misses(
    gear: &GymGear<'_>,
    means: &LoadingMethod,
    targets: &[Exact],
    rounding: Rounding,
) -> Vec<Option<Exact>> {
    let missed = targets.iter().map(|target| {
        let choice = gear.build(means, target, rounding).ok().flatten();
        choice.map(|choice| {
            let missed = (&Exact::from_mass(choice.built.mass) - target).abs();
            (missed > Exact::from_mass(choice.step)).then_some(missed)
        })
    });
    let found = missed.filter_map(|missed| match missed {
        None => Some(None),
        Some(missed) => missed.map(Some),
    });
    found.collect()
}
