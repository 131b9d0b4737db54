//! Evaluates a checked programme into a [`Plan`]: athlete by athlete, week by week.
//!
//! A load is computed in this order: the line of the week, the phase, then rounding. Targets are exact
//! fractions until a load is made from real plates, dumbbells, kettlebells or pins. Every step is
//! recorded.

mod assumed;
mod cancel;
mod gear;
mod groups;
mod load;
mod log_plausibility;
mod maxes;
mod narrow_avoid;
mod over;
pub mod paths;
mod progression;
mod rests;
mod rules;
mod session;
mod session_facts;
mod sets;
mod stand_in;
mod state;
mod substitute;
mod substitution_help;
mod tool;

use std::collections::{BTreeMap, BTreeSet};

use jiff::ToSpan;
use jiff::civil::Date;
use rayon::prelude::*;

use crate::bounds;
use crate::catalogue::{Gym, LoadingMethod};
use crate::diagnostics::{Code, Diagnostic, sort_and_dedup};
use crate::history::{History, SessionKey};
use crate::plan::{Assumed, AthletePlan, Avoided, ExerciseNames, GymBar, Plan, Session};
use crate::quantity::{Exact, Unit};
use crate::resolve::{Day, ExerciseId, Programme, ResolvedAthlete};
use crate::source::Span;

pub use cancel::CancelToken;
pub use session::muscles;

use gear::Gear;
use maxes::Maxes;
use over::{Case, Fault};
use state::LineState;
use substitute::Need;

/// The language of labels where neither programme nor athlete names one.
const DEFAULT_LANGUAGE: &str = "en";

/// The language of a programme's sheets.
fn language(programme: &Programme) -> &str {
    programme.language.as_deref().unwrap_or(DEFAULT_LANGUAGE)
}

/// The language of an athlete's sheets: their own, else the programme's.
fn reads<'a>(programme: &'a Programme, trainee: &'a ResolvedAthlete) -> &'a str {
    trainee.athlete.language.as_deref().unwrap_or_else(|| language(programme))
}

/// The names that exercises have in other languages. The last definition of a name is the one that
/// counts.
fn exercise_names(programme: &Programme) -> ExerciseNames {
    let named = programme.exercises.translated();
    named
        .map(|exercise| (exercise.name.clone(), exercise.names.iter().cloned().collect()))
        .collect()
}

/// How to treat a session that has no log although a later session has one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum MissingLogPolicy {
    /// It neither progresses nor counts as missed.
    #[default]
    Neutral,
    /// It was done as prescribed.
    Done,
    /// It counts as missed.
    Missed,
}

/// How future sessions are projected.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Path {
    /// As prescribed.
    #[default]
    Planned,
    /// Every set reaches the top.
    Best,
    /// Every rule goes against the athlete where possible.
    Worst,
}

/// Assumptions about sessions without a log.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Assumptions {
    /// For skipped-over sessions in the past.
    pub missing: MissingLogPolicy,
    /// For future sessions.
    pub path: Path,
}

/// Evaluates a programme for the athletes that `wanted` selects by name. Logged sessions decide what
/// comes next; sessions without a log are projected.
#[must_use]
pub fn evaluate(
    programme: &Programme,
    history: &History,
    assumptions: Assumptions,
    wanted: &(dyn Fn(&str) -> bool + Sync),
) -> (Plan, Vec<Diagnostic>) {
    Evaluation::new(programme, history, assumptions, wanted).whole()
}

/// How many planned sets are evaluated in one batch, if athletes have fewer: tens of megabytes.
const SETS_AT_ONCE: usize = 40_000;

/// How many athletes are evaluated in one batch: some for each core, so that no core waits long, but
/// not more, because each takes megabytes. Long programmes use smaller batches. The results do not
/// depend on it.
fn at_once(sets_each: usize) -> usize {
    let most = SETS_AT_ONCE / sets_each.max(1);
    (2 * rayon::current_num_threads()).clamp(4, 16).min(most).max(1)
}

/// The approximate number of sets of an athlete, without warm-ups and replacements.
fn sets_each(programme: &Programme) -> usize {
    let lines = programme.days.iter().flat_map(|day| &day.lines);
    let groups = lines.flat_map(|line| &line.common.weeks).flat_map(|week| &week.groups);
    groups.map(|group| group.sets.map_or(1, |sets| sets as usize)).sum()
}

/// An evaluation that returns some athletes at a time, so that the plan of a whole squad is never in
/// memory.
pub struct Evaluation<'a> {
    programme: &'a Programme,
    history: &'a History,
    assumptions: Assumptions,
    wanted: &'a (dyn Fn(&str) -> bool + Sync),
    gear: Gear<'a>,
    problems: Vec<Diagnostic>,
    needs: BTreeMap<Need, Vec<usize>>,
    faults: BTreeMap<Fault, Vec<Case>>,
    /// The next trainee.
    next: usize,
    sets: usize,
    /// The most sets there may be.
    most: usize,
    /// About how many an athlete has.
    sets_each: usize,
    stop: CancelToken,
}

impl<'a> Evaluation<'a> {
    /// Starts with the first of the athletes that `wanted` selects by name.
    #[must_use]
    pub fn new(
        programme: &'a Programme,
        history: &'a History,
        assumptions: Assumptions,
        wanted: &'a (dyn Fn(&str) -> bool + Sync),
    ) -> Self {
        Self {
            programme,
            history,
            assumptions,
            wanted,
            gear: Gear::new(programme),
            problems: Vec::new(),
            needs: BTreeMap::new(),
            faults: BTreeMap::new(),
            next: 0,
            sets: 0,
            most: bounds::PLANNED_SETS,
            sets_each: sets_each(programme),
            stop: CancelToken::default(),
        }
    }

    /// With a token that cancels it. A cancelled evaluation returns no plan.
    #[must_use]
    pub fn stopping(self, stop: &CancelToken) -> Self {
        Self { stop: stop.clone(), ..self }
    }

    /// With another limit for the sets of all athletes than [`bounds::PLANNED_SETS`]: a caller that does
    /// not keep the athletes can use a higher one.
    #[must_use]
    pub fn at_most(self, most: usize) -> Self {
        Self { most, ..self }
    }

    /// All athletes, and what is wrong.
    fn whole(mut self) -> (Plan, Vec<Diagnostic>) {
        let mut athletes = Vec::new();
        loop {
            let batch = self.batch();
            if batch.is_empty() {
                break;
            }
            athletes.extend(batch);
        }
        let plan = Plan { athletes, ..self.head() };
        (plan, self.finish())
    }

    /// How many athletes are finished, and how many there are.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        let wanted = |trainee: &&ResolvedAthlete| (self.wanted)(&trainee.athlete.name);
        let all = self.programme.trainees.iter();
        (all.clone().filter(wanted).count(), all.take(self.next).filter(wanted).count())
    }

    /// Whether two batches are too large to be in memory at the same time.
    #[must_use]
    pub fn is_long(&self) -> bool {
        self.sets_each > SETS_AT_ONCE / 2
    }

    /// Whether any problem was found so far.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        !self.faults.is_empty() || crate::diagnostics::has_errors(&self.problems)
    }

    /// The plan without its athletes.
    #[must_use]
    pub fn head(&self) -> Plan {
        let programme = self.programme;
        Plan {
            programme: programme.name.clone(),
            language: language(programme).to_owned(),
            weeks: programme.weeks,
            estimate: programme.equation.name().to_owned(),
            assumed: match self.assumptions.path {
                Path::Planned => None,
                Path::Best => Some(Assumed::Best),
                Path::Worst => Some(Assumed::Worst),
            },
            goal: programme.goal.clone(),
            supervision: programme.supervision.clone(),
            source: programme.source.clone(),
            notes: programme.notes.clone(),
            exercise_names: exercise_names(programme),
            line: programme.sources.locate(programme.span),
            advice: programme.advice.clone(),
            athletes: Vec::new(),
        }
    }

    /// The next athletes, in the order of the files; none at the end, and after the bound on what
    /// a plan may hold.
    pub fn batch(&mut self) -> Vec<AthletePlan> {
        if self.sets > self.most {
            return Vec::new();
        }
        let mut trainees = self.programme.trainees.iter().enumerate().skip(self.next);
        let batch: Vec<(usize, &ResolvedAthlete)> = trainees
            .by_ref()
            .filter(|(_, trainee)| (self.wanted)(&trainee.athlete.name))
            .take(at_once(self.sets_each))
            .collect();
        self.next = batch.last().map_or(self.next, |(index, _)| index + 1);
        let context = ProgrammeContext {
            programme: self.programme,
            history: self.history,
            assumptions: self.assumptions,
            gear: &self.gear,
            stop: &self.stop,
        };
        let one = |(index, trainee)| {
            let mut found = Found::default();
            let plan = one_athlete(&context, index, trainee, &mut found);
            (plan, found)
        };
        // For one athlete it would take longer to start threads.
        let worked: Vec<_> = match batch.as_slice() {
            [] | [_] => batch.into_iter().map(one).collect(),
            _ => batch.into_par_iter().map(one).collect(),
        };
        let mut athletes = Vec::with_capacity(worked.len());
        for (plan, found) in worked {
            self.problems.extend(found.problems);
            for (need, who) in found.needs {
                self.needs.entry(need).or_default().extend(who);
            }
            for (fault, cases) in found.faults {
                self.faults.entry(fault).or_default().extend(cases);
            }
            self.sets += plan.sessions.iter().map(Session::set_count).sum::<usize>();
            athletes.push(plan);
            if self.sets > self.most {
                self.problems.push(too_large(self.programme, self.most, ""));
                break;
            }
        }
        athletes
    }

    /// What is wrong.
    #[must_use]
    pub fn finish(mut self) -> Vec<Diagnostic> {
        self.problems.extend(substitution_help::findings(self.programme, &self.needs));
        self.problems.extend(over::findings(self.programme, &self.faults));
        self.problems.extend(assumed::findings(self.programme, self.wanted));
        self.problems.extend(narrow_avoid::findings(self.programme, self.wanted));
        self.problems.extend(rests::findings(self.programme, self.wanted));
        sort_and_dedup(&mut self.problems);
        self.problems
    }
}

fn too_large(programme: &Programme, most: usize, whose: &str) -> Diagnostic {
    Diagnostic::new(
        Code::PlanTooLarge,
        programme.span,
        format!("this programme has more than {most} planned sets{whose}"),
    )
    .help("make it shorter, or split the squad into several programmes")
}

/// What is the same for all athletes.
struct ProgrammeContext<'a> {
    programme: &'a Programme,
    history: &'a History,
    assumptions: Assumptions,
    gear: &'a Gear<'a>,
    stop: &'a CancelToken,
}

/// What is found while one athlete is worked out.
#[derive(Default)]
struct Found {
    problems: Vec<Diagnostic>,
    needs: BTreeMap<Need, Vec<usize>>,
    faults: BTreeMap<Fault, Vec<Case>>,
}

fn one_athlete(
    context: &ProgrammeContext<'_>,
    index: usize,
    trainee: &ResolvedAthlete,
    found: &mut Found,
) -> AthletePlan {
    let programme = context.programme;
    let gym = trainee.gym.and_then(|gym| programme.gyms.get(gym));
    let mut evaluator = AthleteEvaluator::new(context, index, trainee, found);
    let unit = evaluator.unit;
    let mut sessions = Vec::new();
    evaluator.sessions(context.stop, &mut |session| sessions.push(session));
    evaluator.passed_limits(&sessions);
    AthletePlan {
        name: trainee.athlete.name.clone(),
        language: reads(programme, trainee).to_owned(),
        gym: gym.map(|gym| gym.name.clone()),
        unit,
        also_unit: trainee.athlete.unit.filter(|also| *also != unit),
        plate_sizes: gym.map(|gym| gym.sizes.clone()).unwrap_or_default(),
        body_mass: trainee.athlete.body_mass,
        rack: trainee.athlete.rack.clone(),
        level: trainee.athlete.level.clone(),
        avoid: avoided(trainee),
        gym_bars: gym.map(bars).unwrap_or_default(),
        gym_has: gym.iter().flat_map(|gym| &gym.has).map(|(name, _)| name.clone()).collect(),
        sessions,
        extras: context.history.extras.get(&index).cloned().unwrap_or_default(),
    }
}

/// What the athlete's file says to avoid, as written.
fn avoided(trainee: &ResolvedAthlete) -> Vec<Avoided> {
    let avoid = trainee.athlete.avoid.iter();
    avoid.map(|(name, until)| Avoided { name: name.value.clone(), until: *until }).collect()
}

fn bars(gym: &Gym) -> Vec<GymBar> {
    gym.bars.iter().map(|bar| GymBar { name: bar.name.clone(), mass: bar.mass }).collect()
}

/// A line of an athlete: the day's index and the order; where an exercise with loads of its own is
/// done instead, that exercise.
type LineId = (usize, crate::plan::Order, Option<ExerciseId>);

/// What has been reported for this athlete already: once is enough.
#[derive(Default)]
struct Reported {
    maxes: std::collections::BTreeSet<crate::resolve::ExerciseId>,
    /// By the exercise of the programme, and what is done for it.
    equipment: std::collections::BTreeSet<(ExerciseId, ExerciseId)>,
    avoided: std::collections::BTreeSet<(usize, crate::plan::Order)>,
    /// What a line of a day is offered first, by index.
    offered: std::collections::BTreeSet<(usize, crate::plan::Order, usize)>,
    gym: bool,
    body_mass: bool,
    too_many: bool,
}

/// Evaluates the sessions of one athlete, in order.
struct AthleteEvaluator<'a, 'p> {
    programme: &'a Programme,
    index: usize,
    trainee: &'a ResolvedAthlete,
    /// The unit that the gym's plates are marked in.
    unit: Unit,
    gear: &'a Gear<'a>,
    history: &'a History,
    assumptions: Assumptions,
    /// The latest logged session.
    latest: Option<SessionKey>,
    maxes: Maxes<'a>,
    /// Lifts whose training max a rule has changed after a session that is not logged yet.
    projected_maxes: BTreeSet<ExerciseId>,
    /// State of each line.
    lines: BTreeMap<LineId, LineState>,
    /// What each line is loaded with, where there is a choice.
    tools: BTreeMap<LineId, LoadingMethod>,
    /// The first group's load of this session before the phase, by line.
    before_phase: BTreeMap<LineId, Exact>,
    /// What rules made of each load, by the place where it is written.
    ruled: BTreeMap<Span, load::Ruled>,
    /// How many sessions of each day are still to be made up.
    lag: Vec<u32>,
    reported: Reported,
    problems: &'p mut Vec<Diagnostic>,
    /// Who needs another exercise, and what may be done instead.
    needs: &'p mut BTreeMap<Need, Vec<usize>>,
    /// Loads that no card may show.
    faults: &'p mut BTreeMap<Fault, Vec<Case>>,
}

impl<'a, 'p> AthleteEvaluator<'a, 'p> {
    /// Before the first session.
    fn new(
        context: &ProgrammeContext<'a>,
        index: usize,
        trainee: &'a ResolvedAthlete,
        found: &'p mut Found,
    ) -> Self {
        let Found { problems, needs, faults } = found;
        let programme = context.programme;
        let gym = trainee.gym.and_then(|gym| programme.gyms.get(gym));
        Self {
            programme,
            index,
            trainee,
            unit: gym.map_or(Unit::Kg, |gym| gym.unit),
            gear: context.gear,
            history: context.history,
            assumptions: context.assumptions,
            latest: context.history.latest(index),
            maxes: Maxes::new(programme, trainee),
            projected_maxes: BTreeSet::new(),
            lines: BTreeMap::new(),
            tools: BTreeMap::new(),
            before_phase: BTreeMap::new(),
            ruled: BTreeMap::new(),
            lag: vec![0; programme.days.len()],
            reported: Reported::default(),
            problems,
            needs,
            faults,
        }
    }

    /// Works the sessions out, in their order, and hands each on.
    fn sessions(&mut self, stop: &CancelToken, take: &mut dyn FnMut(Session)) {
        let programme = self.programme;
        let mut planned = 0;
        for week in 1..=programme.weeks {
            if stop.is_asked() {
                return;
            }
            for (at, day) in programme.days.iter().enumerate() {
                let session = self.session(week, at, day);
                planned += session.set_count();
                take(session);
                if planned > bounds::ATHLETE_SETS {
                    let found = too_large(programme, bounds::ATHLETE_SETS, " for an athlete");
                    self.problems.push(found);
                    return;
                }
            }
        }
    }

    /// The first day of a week, and the date of a day in it.
    fn dates(&self, week: u32, day: &Day) -> (Option<Date>, Option<Date>) {
        let Some(starts) = self.programme.starts else { return (None, None) };
        let days = i64::from(week.saturating_sub(1)) * 7;
        let first = starts.checked_add(days.days()).ok();
        let date = day.weekday.zip(first).and_then(|(weekday, first)| {
            let ahead = i64::from(first.weekday().until(weekday));
            first.checked_add(ahead.days()).ok()
        });
        (first, date)
    }

    /// Notes limits that end before the programme does.
    fn passed_limits(&mut self, sessions: &[Session]) {
        let Some(last) = sessions.iter().filter_map(|s| s.date.or(s.week_starts)).max() else {
            return;
        };
        for limit in &self.trainee.athlete.limits {
            if let Some(until) = limit.until.filter(|until| *until < last) {
                self.problems.push(
                    Diagnostic::new(
                        Code::LimitPassed,
                        limit.span,
                        format!(
                            "the limit `{}` of {} ends on {until}, but the programme runs until {last}",
                            limit.name.value, self.trainee.athlete.name
                        ),
                    )
                    .help(
                        "later cards do not print it: ask the person who set it whether it has \
                         really ended",
                    ),
                );
            }
        }
    }
}
