//! Errors for loads that no card may show: above the lift's own max, or zero and less.

use std::collections::BTreeMap;

use crate::diagnostics::{Code, Diagnostic};
use crate::plan::{PlannedSet, SessionStatus, StepKind};
use crate::quantity::Exact;
use crate::resolve::{ExerciseId, Group, Line, Programme, Variant, WeekSpec, weeks_in_words};
use crate::source::Span;

use super::load::LoadTarget;
use super::substitution_help::{NAMED, listed, to_fill};
use super::{AthleteEvaluator, Path, sets};

/// A single may pass the 1RM up to this, in percent: an attempt. Common practice, no source.
const MOST_ONCE: i64 = 110;

/// What is wrong with a line, for some athletes in some weeks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// The exercise of the line.
    line: Span,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    /// More than the lift's own max.
    OverMax,
    /// Steps or rules take the whole load away.
    RunsOut,
}

/// One athlete's part in a fault.
#[derive(Clone, Debug)]
pub struct Case {
    athlete: usize,
    /// What they do.
    lift: ExerciseId,
    /// The weeks, each once, from the first.
    weeks: Vec<u32>,
    /// How far the worst set is over its max, as a share of it.
    worst: Exact,
    /// The worst set in words.
    what: String,
    /// Where its load is written.
    load: Span,
    /// What took the load away, where that is another line.
    by: Option<Span>,
}

/// Why a line's loads may pass the 1RM: the week's word counts before the athlete's and the line's.
pub fn over_max<'a>(line: &'a Line, variant: &'a Variant, spec: &'a WeekSpec) -> Option<&'a str> {
    spec.over_max.as_deref().or(variant.over_max.as_deref()).or(line.over_max.as_deref())
}

impl AthleteEvaluator<'_, '_> {
    /// Whether a session is still to be printed as planned: what was done cannot be changed, and the
    /// best and the worst path are no cards to train by.
    fn is_to_come(&self, line: &sets::Line<'_>) -> bool {
        self.assumptions.path == Path::Planned
            && self.status(line.week, line.key.0).0 == SessionStatus::Projected
    }

    /// Notes sets over the 1RM of what is done, unless the coach permits them.
    pub(super) fn over_max(&mut self, line: &sets::Line<'_>, sets: &[PlannedSet]) {
        let over = sets.iter().filter(|set| is_over(set));
        let worst = over.max_by(|a, b| a.share_of_1rm.cmp(&b.share_of_1rm));
        let Some((worst, share)) = worst.and_then(|set| Some((set, set.share_of_1rm.clone()?)))
        else {
            return;
        };
        if over_max(line.written, line.variant, line.spec).is_some() || !self.is_to_come(line) {
            return;
        }
        let Ok(max) = self.maxes.one_rm(line.lift) else { return };
        let percent = (&share * &Exact::whole(100)).to_decimal(1);
        let max = max.value.to_mass().show(self.unit);
        let whole = if worst.bodyweight { " with the body mass" } else { "" };
        let what = format!(
            "{} at {}, {percent} % of the 1RM of {max}{whole}",
            reps(worst),
            self.in_words(worst)
        );
        let group = line.spec.groups.get(worst.group);
        let load = group.map_or(line.written.span, |group| group.load_span);
        self.note(line, Kind::OverMax, Case { worst: share, ..self.case(line, what, load) });
    }

    /// Notes a load that steps or rules have taken away altogether.
    pub(super) fn runs_out(
        &mut self,
        line: &sets::Line<'_>,
        group: &Group,
        target: Option<&LoadTarget>,
    ) {
        let Some(target) = target else { return };
        let mut steps = target.traced.steps.iter();
        let on_body = line.means.is_some_and(crate::catalogue::LoadingMethod::is_body_mass);
        // On the body mass nothing added is a load, and less is assistance.
        if on_body || target.traced.value > Exact::zero() {
            return;
        }
        let Some(first) = steps.clone().position(|step| step.result > Exact::zero()) else {
            return;
        };
        let Some(fell) = steps.clone().skip(first).find(|step| step.result <= Exact::zero()) else {
            return;
        };
        if !self.is_to_come(line) {
            return;
        }
        let left = steps.rfind(|step| step.kind != StepKind::NoLess);
        let left = left.map_or(&target.traced.value, |step| &step.result);
        let what = format!("comes to {}", left.to_mass().show(self.unit));
        let sources = &self.programme.sources;
        let own = sources.locate(group.load_span);
        let by =
            fell.line.as_ref().filter(|line| **line != own).and_then(|line| sources.line(line));
        self.note(line, Kind::RunsOut, Case { by, ..self.case(line, what, group.load_span) });
    }

    fn case(&self, line: &sets::Line<'_>, what: String, load: Span) -> Case {
        let worst = Exact::zero();
        let weeks = vec![line.week];
        Case { athlete: self.index, lift: line.lift, weeks, worst, what, load, by: None }
    }

    fn note(&mut self, line: &sets::Line<'_>, kind: Kind, case: Case) {
        let cases = self.faults.entry(Fault { line: line.written.span, kind }).or_default();
        let Some(known) = cases.first_mut() else { return cases.push(case) };
        if !known.weeks.contains(&line.week) {
            known.weeks.push(line.week);
        }
        if case.worst > known.worst {
            *known = Case { weeks: std::mem::take(&mut known.weeks), ..case };
        }
    }

    /// The load that is asked for.
    fn in_words(&self, set: &PlannedSet) -> String {
        let Some(target) = &set.target else { return String::new() };
        let shown = match &set.load {
            Some(built) => built.shown(target, self.unit),
            None => target.to_mass().show(self.unit),
        };
        if set.bodyweight { format!("body mass + {shown}") } else { shown }
    }
}

/// More than the 1RM for more than one repetition, or far more for one. What is held or carried is
/// not counted in repetitions.
fn is_over(set: &PlannedSet) -> bool {
    let (Some(share), Some(reps)) = (&set.share_of_1rm, set.reps.work.least_reps()) else {
        return false;
    };
    let most = if reps > 1 { Exact::one() } else { Exact::ratio(MOST_ONCE, 100) };
    *share > most
}

/// `5 reps`, `1 rep`.
fn reps(set: &PlannedSet) -> String {
    let one = set.reps.work.to_string() == "1";
    format!("{} rep{}", set.reps.work, if one { "" } else { "s" })
}

/// One problem for each line, with all athletes and weeks it concerns.
pub fn findings(programme: &Programme, faults: &BTreeMap<Fault, Vec<Case>>) -> Vec<Diagnostic> {
    faults.iter().filter_map(|(fault, cases)| finding(programme, *fault, cases)).collect()
}

fn finding(programme: &Programme, fault: Fault, cases: &[Case]) -> Option<Diagnostic> {
    let worst = cases.iter().max_by(|a, b| a.worst.cmp(&b.worst))?;
    let first = cases.iter().filter_map(|case| case.weeks.first()).min()?;
    let name = |lift: ExerciseId| programme.exercises.get(lift.0).map_or("", |e| e.name.as_str());
    let written = programme.days.iter().flat_map(|day| &day.lines);
    let written = written.filter(|line| line.span == fault.line).map(|line| line.exercise).next();
    let lift = written.unwrap_or(worst.lift);
    let who: Vec<String> = cases
        .iter()
        .filter_map(|case| {
            let athlete = &programme.trainees.get(case.athlete)?.athlete.name;
            let other = (case.lift != lift).then(|| format!(" ({})", name(case.lift)));
            let other = other.unwrap_or_default();
            Some(match fault.kind {
                Kind::OverMax => {
                    let weeks = weeks_in_words(&case.weeks);
                    format!("{athlete}{other} in {weeks} ({})", case.what)
                }
                Kind::RunsOut => {
                    let week = case.weeks.first().copied().unwrap_or(1);
                    format!("{athlete}{other} {} in week {week}", case.what)
                }
            })
        })
        .collect();
    let (who, name) = (listed(&who, NAMED), name(lift));
    let found = match fault.kind {
        Kind::OverMax => {
            let message = format!("{name} is above the athlete's own max: {who}");
            let found = Diagnostic::new(Code::OverMax, fault.line, message)
                .label("the limit is 100 % of the 1RM for several reps and 110 % for one");
            found
                .help(
                    "reduce the load, or test the max again; if it is intended, write a line below \
                     the exercise:\n`over max: REASON`",
                )
                .suggest(
                    "add a line that permits it, for you to fill in the reason".to_owned(),
                    to_fill(programme, fault.line, "over max: …"),
                )
        }
        Kind::RunsOut => {
            let message = format!("{name} has no load left: {who}");
            Diagnostic::new(Code::LoadRunsOut, fault.line, message).help(format!(
                "use a smaller step, or end it before week {first}: write the loads of the last \
                 weeks out"
            ))
        }
    };
    let found = found.and(worst.load, "the load");
    let by = cases.iter().find_map(|case| case.by);
    Some(match by {
        Some(by) => found.and(by, "this takes it away"),
        None => found,
    })
}
