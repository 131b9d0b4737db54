//! The facts of a session, line by line, that rules ask for.

use crate::diagnostics::{Code, Diagnostic};
use crate::history::LoggedLine;
use crate::plan::{DoneSet, DoneWork, Location, Outcome, PlannedExercise, PlannedSet};
use crate::quantity::{Effort, Exact, HalfPoints, Mass, RepCount, Work};
use crate::resolve::{Comparison, Condition, Quantity, Rule};

use super::Path;

/// The facts of one line's session.
#[derive(Clone, Debug, Default)]
pub struct SessionFacts {
    /// Every set met its target.
    pub all_made: bool,
    /// Every set met its upper bound.
    pub top_of_range: bool,
    /// Repetitions of the set marked `+`, or of the last one; none, where it was left out.
    pub last_reps: Option<u32>,
    /// That set was done with less than planned: what it reached proves nothing.
    pub last_light: bool,
    /// Some set was done with less than planned: the session earns nothing.
    pub light: bool,
    /// That set is counted in repetitions, so that a max can be estimated from it.
    pub last_counted: bool,
    /// The load of that set.
    pub last_load: Option<Mass>,
    /// The load of the first set.
    pub first_load: Option<Mass>,
    /// The effort, on the RPE scale.
    pub rpe: Option<Exact>,
    /// Pain, out of ten.
    pub pain: Option<Exact>,
}

/// Least and upper bound of what makes a set.
fn bounds(work: &Work) -> (u32, u32) {
    match work {
        Work::Reps(count) | Work::Seconds(count) | Work::Metres(count) => {
            (count.min, count.max.unwrap_or(count.min))
        }
        Work::Amrap => (1, 1),
        Work::Cluster { parts, .. } => {
            let sum = parts.iter().sum();
            (sum, sum)
        }
    }
}

fn is_open(work: &Work) -> bool {
    matches!(work, Work::Amrap | Work::Reps(RepCount { max: None, .. }))
}

/// Time and distance are no repetitions.
fn is_counted(set: &PlannedSet) -> bool {
    !matches!(set.reps.work, Work::Seconds(_) | Work::Metres(_))
}

fn done_work(work: &Work, amount: u32) -> DoneWork {
    match work {
        Work::Seconds(_) => DoneWork::Seconds(amount),
        Work::Metres(_) => DoneWork::Metres(amount),
        Work::Reps(_) | Work::Amrap | Work::Cluster { .. } => DoneWork::Reps(amount),
    }
}

fn planned_load(set: &PlannedSet) -> Option<Mass> {
    set.load.as_ref().map(|built| built.mass)
}

/// Repetitions in reserve count down from ten on the RPE scale.
fn on_rpe_scale(effort: Effort) -> Exact {
    match effort {
        Effort::Rpe(points) => points.to_exact(),
        Effort::Rir(reps) => &Exact::whole(10) - &reps.to_exact(),
    }
}

/// The facts of a logged line, and its outcome for the plan.
pub fn logged(
    exercise: &PlannedExercise,
    line: &LoggedLine,
    place: Location,
    problems: &mut Vec<Diagnostic>,
) -> (SessionFacts, Outcome) {
    let planned: Vec<&PlannedSet> = exercise.working().collect();
    let sets: Vec<DoneSet> = match &line.sets {
        _ if line.skipped.is_some() => Vec::new(),
        None => planned.iter().map(|set| as_planned(set)).collect(),
        Some(sets) => sets
            .iter()
            .enumerate()
            .map(|(index, done)| {
                // A set beyond the plan is measured against the last planned one.
                let plan = planned.get(index).or(planned.last());
                let (least, _) = plan.map_or((0, 0), |set| bounds(&set.reps.work));
                let asked = plan.and_then(|set| planned_load(set));
                let load = done.load.or(asked);
                let amount = done.work.amount();
                let light = load.zip(asked).is_some_and(|(load, asked)| load < asked);
                DoneSet {
                    work: plan.map_or(done.work, |set| done_work(&set.reps.work, amount)),
                    sides: done.sides,
                    load,
                    made: amount >= least && !light,
                }
            })
            .collect(),
    };
    if sets.len() > planned.len() && line.skipped.is_none() {
        problems.push(
            Diagnostic::new(
                Code::LogExtraSets,
                line.span,
                format!(
                    "{} sets are logged, but {} were planned for {}",
                    sets.len(),
                    planned.len(),
                    exercise.name
                ),
            )
            .help("the review shows the extra sets, but rules do not count them"),
        );
    }
    let light = |(done, plan): &(&DoneSet, &&PlannedSet)| {
        done.work.amount() >= bounds(&plan.reps.work).0
            && done.load.zip(planned_load(plan)).is_some_and(|(load, asked)| load < asked)
    };
    if sets.iter().zip(&planned).any(|pair| light(&pair)) {
        problems.push(
            Diagnostic::new(
                Code::LogLightSet,
                line.span,
                format!(
                    "a set of {} is logged with less load than planned, so it counts as missed",
                    exercise.name
                ),
            )
            .help(
                "a load applies to all sets before it that have none; write different loads as \
                 `5 @ 65 kg, 6, 6 @ 57.5 kg`",
            ),
        );
    }
    let counted = sets.get(..planned.len()).unwrap_or(&sets);
    let complete = counted.len() == planned.len();
    let reaches = |set: &DoneSet, plan: &&PlannedSet| {
        set.made && set.work.amount() >= bounds(&plan.reps.work).1
    };
    let marked = planned.iter().position(|set| is_open(&set.reps.work));
    let asked_last = marked.or(planned.len().checked_sub(1));
    let last = asked_last.and_then(|at| counted.get(at));
    let last_light = asked_last
        .and_then(|at| planned.get(at))
        .and_then(|plan| planned_load(plan))
        .zip(last.and_then(|set| set.load))
        .is_some_and(|(asked, load)| load < asked);
    let lighter = |(done, plan): (&DoneSet, &&PlannedSet)| {
        done.load.zip(planned_load(plan)).is_some_and(|(load, asked)| load < asked)
    };
    let light = counted.iter().zip(&planned).any(lighter);
    let all_made = complete && counted.iter().all(|set| set.made);
    let judged = SessionFacts {
        all_made,
        top_of_range: complete
            && counted.iter().zip(&planned).all(|(set, plan)| reaches(set, plan)),
        last_reps: Some(last.map_or(0, |set| set.work.amount())),
        last_light,
        light,
        last_counted: asked_last.and_then(|at| planned.get(at)).is_some_and(|set| is_counted(set)),
        last_load: last.and_then(|set| set.load),
        first_load: counted.first().and_then(|set| set.load),
        rpe: line.effort.map(on_rpe_scale),
        pain: line.pain.map(HalfPoints::to_exact),
    };
    let outcome = Outcome {
        sets,
        skipped: line.skipped.is_some(),
        reason: line.skipped.clone().flatten(),
        all_made,
        effort: line.effort,
        pain: line.pain,
        line: Some(place),
    };
    (judged, outcome)
}

fn as_planned(set: &PlannedSet) -> DoneSet {
    let (least, _) = bounds(&set.reps.work);
    let work = done_work(&set.reps.work, least);
    DoneSet { work, sides: None, load: planned_load(set), made: true }
}

/// The facts of a line that is not logged: as prescribed, or as the path that is followed says.
pub fn projected(exercise: &PlannedExercise, path: Path, rules: &[Rule]) -> SessionFacts {
    let planned: Vec<&PlannedSet> = exercise.working().collect();
    let marked = planned.iter().find(|set| is_open(&set.reps.work)).or(planned.last());
    let prescribed = marked.and_then(|set| set.effort).map(on_rpe_scale);
    let least = marked.map(|set| bounds(&set.reps.work).0);
    let top = marked.map(|set| bounds(&set.reps.work).1);
    let load = marked.and_then(|set| planned_load(set));
    let base = SessionFacts {
        all_made: true,
        top_of_range: planned.iter().all(|set| {
            let (least, top) = bounds(&set.reps.work);
            least >= top
        }),
        last_reps: least,
        last_light: false,
        light: false,
        last_counted: marked.is_some_and(|set| is_counted(set)),
        last_load: load,
        first_load: planned.first().and_then(|set| planned_load(set)),
        rpe: prescribed.clone(),
        pain: None,
    };
    match path {
        Path::Planned => base,
        Path::Best => {
            // An open set goes as far as any rule asks.
            let wished = rules.iter().flat_map(|rule| &rule.conditions).filter_map(|c| match c {
                Condition::LastSet(Comparison::AtLeast, Quantity::Number(n), _) => n.as_whole(),
                _ => None,
            });
            let most = wished.filter_map(|n| u32::try_from(n).ok()).max();
            SessionFacts {
                top_of_range: true,
                last_reps: top.max(most),
                rpe: prescribed.map(|rpe| &rpe - &Exact::one()),
                pain: Some(Exact::zero()),
                ..base
            }
        }
        Path::Worst => SessionFacts {
            all_made: false,
            top_of_range: false,
            last_reps: least.map(|n| n.saturating_sub(1)),
            rpe: Some(Exact::whole(10)),
            pain: Some(Exact::whole(10)),
            ..base
        },
    }
}

/// The facts of a session that counts as missed.
pub fn missed() -> SessionFacts {
    SessionFacts::default()
}
