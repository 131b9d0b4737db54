//! Warnings about where rules may lead: the best and the worst outcome of the future sessions.
//!
//! State belongs to the lines of one athlete, so each path costs one evaluation, however many
//! rules there are.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use crate::diagnostics::{Code, Diagnostic};
use crate::history::History;
use crate::plan::{AthletePlan, Location, PlannedExercise, PlannedSet, Session, StepKind};
use crate::quantity::Exact;
use crate::resolve::{Programme, ResolvedAthlete};
use crate::source::Span;

use super::gear::Gear;
use super::{Assumptions, AthleteEvaluator, CancelToken, Found, Path, ProgrammeContext};

/// The word for the path on which every set reaches the top.
const BEST: &str = "best";

/// A plan may pass the tested maximum up to this percentage before a warning:
/// common practice, no source.
const PAST_MAX_PERCENT: i64 = 105;

/// The best and the worst path, worked out beside the plan, as many athletes at a time. A session is
/// let go of when it has been compared with the plan's.
pub struct Paths<'a> {
    programme: &'a Programme,
    history: &'a History,
    wanted: &'a (dyn Fn(&str) -> bool + Sync),
    gear: Gear<'a>,
    /// The next trainee.
    next: usize,
    /// The most sets there may be on a path.
    most: usize,
    stop: CancelToken,
    /// The place of each line's exercise.
    places: BTreeMap<Location, Span>,
    /// What has been said, by athlete, line and code: once is enough.
    said: BTreeSet<Said>,
    both: Vec<One>,
}

/// An athlete, a line and a code.
type Said = (String, Location, Code);

/// A path.
struct One {
    path: Path,
    word: &'static str,
    /// How many sets have been worked out.
    sets: usize,
    found: Vec<Diagnostic>,
}

impl<'a> Paths<'a> {
    /// Begins with the first of the athletes that `wanted` picks by name; ends, as their evaluation
    /// does, at the most sets there may be.
    #[must_use]
    pub fn new(
        programme: &'a Programme,
        history: &'a History,
        wanted: &'a (dyn Fn(&str) -> bool + Sync),
        (most, stop): (usize, &CancelToken),
    ) -> Self {
        let has_rules = |line: &crate::resolve::Line| {
            !line.common.rules.is_empty() || line.personal.iter().any(|(_, v)| !v.rules.is_empty())
        };
        let lines = || programme.days.iter().flat_map(|day| &day.lines);
        let path = |(path, word)| One { path, word, sets: 0, found: Vec::new() };
        let all = [(Path::Best, BEST), (Path::Worst, "worst")];
        // Without rules there is one path.
        let both = if lines().any(has_rules) { all.map(path).into() } else { Vec::new() };
        Self {
            programme,
            history,
            wanted,
            gear: Gear::new(programme),
            next: 0,
            most,
            stop: stop.clone(),
            places: lines().map(|line| (programme.sources.locate(line.span), line.span)).collect(),
            said: BTreeSet::new(),
            both,
        }
    }

    /// Compares the next athletes of both paths with their plans.
    pub fn compare(&mut self, planned: &[AthletePlan]) {
        let trainees = self.programme.trainees.iter().enumerate().skip(self.next);
        let trainees: Vec<(usize, &ResolvedAthlete)> = trainees
            .filter(|(_, trainee)| (self.wanted)(&trainee.athlete.name))
            .take(planned.len())
            .collect();
        self.next = trainees.last().map_or(self.next, |(index, _)| index + 1);
        let count = self.both.len();
        let ways: Vec<_> = planned
            .iter()
            .zip(trainees)
            .flat_map(|who| (0..count).map(move |at| (at, who)))
            .collect();
        let compared: Vec<_> = ways
            .into_par_iter()
            .filter_map(|(at, (usual, trainee))| {
                let one = self.both.get(at).filter(|one| one.sets <= self.most)?;
                Some((at, self.way(one, usual, trainee)))
            })
            .collect();
        for (at, (sets, found)) in compared {
            // All athletes up to the one that passes the bound.
            let Some(one) = self.both.get_mut(at).filter(|one| one.sets <= self.most) else {
                continue;
            };
            one.sets += sets;
            for (key, found) in found {
                if self.said.insert(key) {
                    one.found.push(found);
                }
            }
        }
    }

    /// An athlete's way along a path, beside the plan: how many sets it has, and what there is to say.
    fn way(
        &self,
        one: &One,
        usual: &AthletePlan,
        (index, trainee): (usize, &'a ResolvedAthlete),
    ) -> (usize, Vec<(Said, Diagnostic)>) {
        let context = ProgrammeContext {
            programme: self.programme,
            history: self.history,
            assumptions: Assumptions { path: one.path, ..Assumptions::default() },
            gear: &self.gear,
            stop: &self.stop,
        };
        // What is wrong with the plan itself is reported with the plan.
        let mut own = Found::default();
        let mut evaluator = AthleteEvaluator::new(&context, index, trainee, &mut own);
        let mut comparison = PathComparison {
            places: &self.places,
            word: one.word,
            usual,
            said: BTreeSet::new(),
            found: Vec::new(),
        };
        let (mut sets, mut before) = (0, usual.sessions.iter());
        evaluator.sessions(&self.stop, &mut |session| {
            sets += session.set_count();
            if let Some(before) = before.next() {
                comparison.sessions(before, &session);
            }
        });
        (sets, comparison.found)
    }

    /// Warnings about where the best and the worst path lead.
    #[must_use]
    pub fn finish(self) -> Vec<Diagnostic> {
        self.both.into_iter().flat_map(|path| path.found).collect()
    }
}

/// What the comparison of one path with an athlete's plan needs to know.
struct PathComparison<'a> {
    /// The place of each line's exercise.
    places: &'a BTreeMap<Location, Span>,
    word: &'static str,
    /// The athlete's plan.
    usual: &'a AthletePlan,
    /// What has been said on this path: once is enough.
    said: BTreeSet<Said>,
    found: Vec<(Said, Diagnostic)>,
}

impl PathComparison<'_> {
    fn sessions(&mut self, before: &Session, session: &Session) {
        for (was, exercise) in before.exercises.iter().zip(&session.exercises) {
            self.exercises(session, was, exercise);
        }
    }

    fn exercises(&mut self, session: &Session, was: &PlannedExercise, exercise: &PlannedExercise) {
        let athlete = self.usual;
        let (name, week, what) = (&athlete.name, session.week, &exercise.name);
        let sets: Vec<&PlannedSet> = exercise.working().collect();
        let leaves =
            |(set, usual): &(&&PlannedSet, &PlannedSet)| set.off_target && !usual.off_target;
        let mut pairs = sets.iter().zip(was.working());
        if let Some((set, _)) = pairs.find(leaves)
            && let Some((target, built)) = set.target.as_ref().zip(set.load.as_ref())
        {
            let fortune = match self.word {
                BEST => format!("if {name} makes every rep"),
                _ => format!("if every rule goes against {name}"),
            };
            let unit = athlete.unit;
            let wanted = built.shown(target, unit);
            let made = built.shown(&Exact::from_mass(built.mass), unit);
            self.say(
                exercise,
                Code::PathLeavesEquipment,
                format!(
                    "{fortune}, {what} reaches {wanted} in week {week}, which the gym cannot load: \
                     the nearest load is {made}"
                ),
                "use a smaller step in the rule, or add equipment to the gym",
            );
        }
        let past = |set: &&&PlannedSet| {
            let most = tested(set).map(|tested| &tested * &Exact::ratio(PAST_MAX_PERCENT, 100));
            set.target.as_ref().zip(most).is_some_and(|(target, most)| *target > most)
        };
        if self.word == BEST
            && exercise.over_max.is_none()
            && let Some(tested) = sets.iter().find(past).and_then(|set| tested(set))
        {
            let shown = tested.to_mass().show(athlete.unit);
            self.say(
                exercise,
                Code::PathPastMax,
                format!(
                    "if {name} makes every rep, {what} passes {PAST_MAX_PERCENT} % of the tested max \
                     ({shown}) in week {week}"
                ),
                "use a smaller step in the rule, or plan a new test",
            );
        }
    }

    fn say(&mut self, exercise: &PlannedExercise, code: Code, message: String, help: &str) {
        let Some(span) = self.places.get(&exercise.line) else { return };
        let key = (self.usual.name.clone(), exercise.line.clone(), code);
        if self.said.insert(key.clone()) {
            self.found.push((key, Diagnostic::new(code, *span, message).help(help)));
        }
    }
}

/// The tested or estimated maximum that a set's load comes from.
fn tested(set: &PlannedSet) -> Option<Exact> {
    // A max of the whole system cannot be held against what is added to the body.
    if set.bodyweight {
        return None;
    }
    let last = set.derivation.backwards().find(|step| {
        matches!(
            step.kind,
            StepKind::Tested { .. } | StepKind::Estimated { .. } | StepKind::Derived { .. }
        )
    });
    last.map(|step| step.result.clone())
}
