//! Lints: their definition, their input and their findings.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::OnceLock;

use crate::diagnostics::Code;
use crate::plan::{AthletePlan, GroupKind, Location, Order, Plan, PlannedExercise, Session};
use crate::quantity::Exact;
use crate::strength::Equation;
use crate::tally::{WeekTally, Weekly, weekly};

/// The topic of a piece of advice, in the order in which a coach would look at them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Area {
    /// What cannot be done as written, or only with somebody's help or permission.
    Limits,
    /// How a session is put together.
    Session,
    /// Equipment, loads and rest.
    Load,
    /// The balance of a week.
    Week,
    /// What happens from week to week.
    Block,
}

/// The threshold of a lint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bound {
    /// The default.
    pub value: i64,
    /// Its unit, as `advice: CODE at 25 sets` names it.
    pub unit: &'static str,
    /// What it counts, for the guide: `hard sets a muscle and week, more than`.
    pub meaning: &'static str,
}

/// One lint. Its default level is that of its code.
#[derive(Clone, Copy, Debug)]
pub struct Lint {
    /// Its name.
    pub code: Code,
    /// What it looks at, in a few words.
    pub title: &'static str,
    /// Its threshold, if it has one.
    pub bound: Option<Bound>,
    /// The source of the claim and the number; `common practice, no source` is allowed.
    pub source: &'static str,
    /// What it is about.
    pub area: Area,
    /// It is about a load: reported by every command that shows one, not by `check` alone.
    pub on_sheet: bool,
    /// Finds it, with the threshold that applies.
    pub find: fn(&LintContext<'_>, &Exact) -> Vec<Finding>,
}

/// A week counts as a deload up to this percentage of the block's largest week, in hard sets or in
/// volume load: common practice, no source.
const LIGHT_PERCENT: i64 = 70;

/// A plan with what several lints need of it.
pub struct LintContext<'p> {
    /// The plan: of all athletes, or of some.
    pub plan: &'p Plan,
    /// Whether any session of the whole squad is prepared by a warm-up.
    pub prepares: bool,
    /// The equation that estimates maximums.
    pub equation: Equation,
    /// The sums of its weeks: added up for the first lint that asks, as not all do.
    sums: OnceLock<PlanTotals>,
}

/// A plan added up, without what is done on an interval or in timed rounds.
struct PlanTotals {
    weekly: Weekly,
    /// The lighter weeks of each athlete.
    light: Vec<BTreeSet<u32>>,
}

impl PlanTotals {
    fn of(plan: &Plan) -> Self {
        let weekly = weekly(&without_intervals(plan));
        let light = plan.athletes.iter().zip(&weekly.athletes).map(|(a, w)| light(a, &w.weeks));
        Self { light: light.collect(), weekly }
    }
}

impl<'p> LintContext<'p> {
    /// A plan to look at.
    #[must_use]
    pub fn new(plan: &'p Plan, prepares: bool) -> Self {
        let equation = Equation::parse(&plan.estimate).unwrap_or_default();
        Self { plan, prepares, equation, sums: OnceLock::new() }
    }

    fn sums(&self) -> &PlanTotals {
        self.sums.get_or_init(|| PlanTotals::of(self.plan))
    }

    /// The plan's weekly table, without what is done on an interval or in timed rounds.
    #[must_use]
    pub fn weekly(&self) -> &Weekly {
        &self.sums().weekly
    }

    /// Every session with its athlete's index.
    pub fn sessions(&self) -> impl Iterator<Item = (usize, &'p AthletePlan, &'p Session)> {
        let athletes = self.plan.athletes.iter().enumerate();
        athletes.flat_map(|(index, a)| a.sessions.iter().map(move |session| (index, a, session)))
    }

    /// Whether a week is a lighter one for an athlete: its phase says so, or it has far fewer sets
    /// or far less volume than the block's largest week.
    #[must_use]
    pub fn is_light(&self, athlete: usize, week: u32) -> bool {
        self.sums().light.get(athlete).is_some_and(|weeks| weeks.contains(&week))
    }

    /// Every week that is not a lighter one: the athlete's index, its sums and its sessions.
    pub fn full_weeks(&self) -> impl Iterator<Item = (usize, &WeekTally, Vec<&'p Session>)> {
        let athletes = self.plan.athletes.iter().zip(&self.weekly().athletes).enumerate();
        athletes.flat_map(move |(index, (athlete, table))| {
            let full = table.weeks.iter().filter(move |week| !self.is_light(index, week.week));
            full.map(move |week| {
                let sessions = athlete.sessions.iter().filter(|s| s.week == week.week);
                (index, week, sessions.collect())
            })
        })
    }
}

/// Whether an exercise is done on an interval or in timed rounds: many short sets, none of them hard,
/// so that sums of hard sets leave them out. Common practice, no source.
#[must_use]
pub fn is_on_interval(session: &Session, exercise: &PlannedExercise) -> bool {
    session.groups.iter().any(|group| {
        group.letter == exercise.order.letter
            && matches!(group.how, GroupKind::Every { .. } | GroupKind::RoundsIn { .. })
    })
}

fn without_intervals(plan: &Plan) -> Cow<'_, Plan> {
    // Most plans have none, and a squad's plan is large: it is copied only where it must be.
    let mut sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    if !sessions.any(|s| s.exercises.iter().any(|exercise| is_on_interval(s, exercise))) {
        return Cow::Borrowed(plan);
    }
    let mut plan = plan.clone();
    for session in plan.athletes.iter_mut().flat_map(|athlete| &mut athlete.sessions) {
        let on_interval = |e: &PlannedExercise| is_on_interval(session, e);
        let keep: Vec<bool> = session.exercises.iter().map(|e| !on_interval(e)).collect();
        let mut keep = keep.into_iter();
        session.exercises.retain(|_| keep.next().unwrap_or(true));
    }
    Cow::Owned(plan)
}

fn light(athlete: &AthletePlan, weeks: &[WeekTally]) -> BTreeSet<u32> {
    let said = athlete.sessions.iter().filter(|s| s.deload).map(|s| s.week);
    let most_sets = weeks.iter().map(|w| w.total.hard_sets).max().unwrap_or(0);
    let zero = Exact::zero();
    let most_volume = weeks.iter().map(|w| &w.total.volume).max().unwrap_or(&zero);
    let share = Exact::ratio(LIGHT_PERCENT, 100);
    let sets = &Exact::whole(i64::from(most_sets)) * &share;
    let volume = most_volume * &share;
    let small = weeks.iter().filter(|week| {
        let few = Exact::whole(i64::from(week.total.hard_sets)) <= sets;
        few || (!most_volume.is_zero() && week.total.volume <= volume)
    });
    said.chain(small.map(|week| week.week)).collect()
}

/// One result of a lint, for one athlete.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The athlete's index.
    pub athlete: usize,
    /// The weeks it is about.
    pub weeks: Vec<u32>,
    /// The day it is about; `None` for a whole week or block.
    pub day: Option<String>,
    /// The orders it is about.
    pub orders: Vec<Order>,
    /// The exercises it is about.
    pub exercises: Vec<String>,
    /// The muscle it is about.
    pub muscle: Option<String>,
    /// The line it is about.
    pub at: Location,
    /// Other lines that matter.
    pub others: Vec<(Location, String)>,
    /// What distinguishes it from another finding on the same line.
    pub subject: String,
    /// How far off it is. The worst finding is reported.
    pub weight: Exact,
    /// What decides which is worst where they are equally far off, such as the share of the 1RM.
    pub then: Exact,
    /// The sentence.
    pub message: String,
    /// A short form of the message, for a list.
    pub short: String,
    /// What to do.
    pub help: String,
}

impl Finding {
    /// About an exercise in a session.
    #[must_use]
    pub fn exercise(athlete: usize, session: &Session, exercise: &PlannedExercise) -> Self {
        Self {
            day: Some(session.day.clone()),
            orders: vec![exercise.order],
            exercises: vec![exercise.name.clone()],
            ..Self::block(athlete, vec![session.week], exercise.line.clone())
        }
    }

    /// About a whole session.
    #[must_use]
    pub fn session(athlete: usize, session: &Session) -> Self {
        let day = Some(session.day.clone());
        Self { day, ..Self::block(athlete, vec![session.week], session.line.clone()) }
    }

    /// About a week or several.
    #[must_use]
    pub fn block(athlete: usize, weeks: Vec<u32>, at: Location) -> Self {
        Self {
            athlete,
            weeks,
            day: None,
            orders: Vec::new(),
            exercises: Vec::new(),
            muscle: None,
            at,
            others: Vec::new(),
            subject: String::new(),
            weight: Exact::zero(),
            then: Exact::zero(),
            message: String::new(),
            short: String::new(),
            help: String::new(),
        }
    }

    /// With another exercise that matters.
    #[must_use]
    pub fn with(mut self, exercise: &PlannedExercise, remark: &str) -> Self {
        self.orders.push(exercise.order);
        self.exercises.push(exercise.name.clone());
        self.others.push((exercise.line.clone(), remark.to_owned()));
        self
    }

    /// With the sentence, and the same in few words.
    #[must_use]
    pub fn message(mut self, message: impl Into<String>, short: impl Into<String>) -> Self {
        self.message = message.into();
        self.short = short.into();
        self
    }

    /// With what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = help.into();
        self
    }

    /// With how far off it is.
    #[must_use]
    pub fn weighs(mut self, weight: Exact) -> Self {
        self.weight = weight;
        self
    }

    /// With what decides between findings that are equally far off.
    #[must_use]
    pub fn then_by(mut self, then: Option<Exact>) -> Self {
        self.then = then.unwrap_or_else(Exact::zero);
        self
    }
}
