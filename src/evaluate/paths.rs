//! Where the rules may lead: the best and the worst that can come of the sessions ahead.
//!
//! State belongs to the lines of one athlete, so each path costs one evaluation, however many
//! rules there are.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use crate::diagnostics::{Code, Diagnostic};
use crate::history::History;
use crate::plan::{AthletePlan, PlannedExercise, PlannedSet, Session, StepKind, Where};
use crate::quantity::Exact;
use crate::resolve::Programme;
use crate::source::Span;

use super::{Assumptions, Evaluation, Path, Stop};

/// The word for the path on which every set reaches the top.
const BEST: &str = "best";

/// A plan may lead past the tested maximum by this much, in percent, before it is worth a word:
/// common practice, no source.
const PAST_MAX_PERCENT: i64 = 105;

/// The best and the worst path, worked out beside the plan, as many athletes at a time.
pub struct Paths<'a> {
    /// The place of each line's exercise.
    places: BTreeMap<Where, Span>,
    /// What has been said, by athlete, line and code: once is enough.
    said: BTreeSet<(String, Where, Code)>,
    both: Vec<One<'a>>,
}

/// A path.
struct One<'a> {
    word: &'static str,
    evaluation: Evaluation<'a>,
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
        (most, stop): (usize, &Stop),
    ) -> Self {
        let has_rules = |line: &crate::resolve::Line| {
            !line.common.rules.is_empty() || line.personal.iter().any(|(_, v)| !v.rules.is_empty())
        };
        let lines = || programme.days.iter().flat_map(|day| &day.lines);
        let path = |(path, word)| {
            let assumptions = Assumptions { path, ..Assumptions::default() };
            let evaluation = Evaluation::new(programme, history, assumptions, wanted);
            let evaluation = evaluation.at_most(most).stopping(stop);
            One { word, evaluation, found: Vec::new() }
        };
        let all = [(Path::Best, BEST), (Path::Worst, "worst")];
        // Without rules there is one path.
        let both = if lines().any(has_rules) { all.map(path).into() } else { Vec::new() };
        let places = lines().map(|line| (programme.sources.locate(line.span), line.span)).collect();
        Self { places, said: BTreeSet::new(), both }
    }

    /// Compares the next athletes of both paths with their plans.
    pub fn compare(&mut self, planned: &[AthletePlan]) {
        let Self { places, said, both } = self;
        let batches: Vec<Vec<AthletePlan>> =
            both.par_iter_mut().map(|path| path.evaluation.batch()).collect();
        for (One { word, found, .. }, batch) in both.iter_mut().zip(batches) {
            let mut comparison = Comparison { places, word, said, found };
            for (usual, athlete) in planned.iter().zip(&batch) {
                comparison.athletes(usual, athlete);
            }
        }
    }

    /// Warnings about where the best and the worst path lead.
    #[must_use]
    pub fn finish(self) -> Vec<Diagnostic> {
        self.both.into_iter().flat_map(|path| path.found).collect()
    }
}

/// What the comparison of one path with the plan needs to know.
struct Comparison<'a> {
    /// The place of each line's exercise.
    places: &'a BTreeMap<Where, Span>,
    word: &'static str,
    /// What has been said, by athlete, line and code: once is enough.
    said: &'a mut BTreeSet<(String, Where, Code)>,
    found: &'a mut Vec<Diagnostic>,
}

impl Comparison<'_> {
    fn athletes(&mut self, usual: &AthletePlan, athlete: &AthletePlan) {
        for (before, session) in usual.sessions.iter().zip(&athlete.sessions) {
            for (was, exercise) in before.exercises.iter().zip(&session.exercises) {
                self.exercises(athlete, session, was, exercise);
            }
        }
    }

    fn exercises(
        &mut self,
        athlete: &AthletePlan,
        session: &Session,
        was: &PlannedExercise,
        exercise: &PlannedExercise,
    ) {
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
                athlete,
                exercise,
                Code::PathLeavesEquipment,
                format!(
                    "{fortune}, {what} comes to {wanted} in week {week}, which the gym cannot load: \
                     the nearest is {made}"
                ),
                "take a smaller step in the rule, or add to what the gym has",
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
                athlete,
                exercise,
                Code::PathPastMax,
                format!(
                    "if {name} makes every rep, {what} passes {PAST_MAX_PERCENT} % of the tested max \
                     ({shown}) in week {week}"
                ),
                "take a smaller step in the rule, or plan a new test",
            );
        }
    }

    fn say(
        &mut self,
        athlete: &AthletePlan,
        exercise: &PlannedExercise,
        code: Code,
        message: String,
        help: &str,
    ) {
        let Some(span) = self.places.get(&exercise.line) else { return };
        if self.said.insert((athlete.name.clone(), exercise.line.clone(), code)) {
            self.found.push(Diagnostic::new(code, *span, message).help(help));
        }
    }
}

/// The tested or estimated maximum that a set's load comes from.
fn tested(set: &PlannedSet) -> Option<Exact> {
    // A max of the whole system cannot be held against what is added to the body.
    if set.bodyweight {
        return None;
    }
    let last = set.derivation.iter().rfind(|step| {
        matches!(
            step.kind,
            StepKind::Tested { .. } | StepKind::Estimated { .. } | StepKind::Derived { .. }
        )
    });
    last.map(|step| step.result.clone())
}
