//! The review: plan against done, from a [`Plan`] alone.
//!
//! Conventions, the same everywhere:
//! - *So far* is up to the athlete's last logged session in the plan's order. No clock is asked.
//! - A *set* is a working set; hard sets and volume load are counted as [`crate::tally`] says. What
//!   was done of a one-sided set is what both sides made.
//! - An *estimated 1RM* is made from sets of at most [`MOST_REPS`] repetitions (Reynolds et al. 2006,
//!   J Strength Cond Res 20(3):584–592) as if they had gone to failure: where repetitions were left
//!   in reserve it is a floor.
//!
//! Nothing here says what a number means for somebody's health.

mod changes;
mod effort;
mod look;
mod names;
mod results;
mod strength;
mod tally;
mod volume;

use serde::{Serialize, Serializer};

use crate::plan::{AthletePlan, ExerciseNames, Extra, Plan, Session, SessionStatus};
use crate::quantity::{Reps, Unit};
use crate::strength::Equation;
use crate::tally::weighed;

pub use changes::{NextSession, Prescribed, Reason};
pub use effort::{Effort, Pain, SessionEffort};
pub use look::{AttentionItem, Concern};
pub use results::{FiredRule, Miss, Missed, NewMax, Note, Weighed};
pub use strength::{LiftStrength, Point, Trend};
pub use tally::{Adherence, LiftWeek, MuscleWeek, WeekReview};

/// The most repetitions an estimate is made from.
pub const MOST_REPS: u32 = 10;

/// Plan against done, for everyone in the plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Review {
    /// The programme's name.
    pub programme: String,
    /// BCP 47 language of the labels.
    #[serde(skip)]
    pub language: String,
    /// Names that exercises have in other languages.
    #[serde(skip)]
    pub exercise_names: ExerciseNames,
    /// How many weeks the programme runs.
    pub weeks: u32,
    /// How maximums are estimated.
    pub estimate: Estimate,
    /// Who needs a look first: highest score first, ties in the order of the plan.
    pub look_first: Vec<AttentionItem>,
    /// Everyone, in the order of the plan.
    pub athletes: Vec<AthleteReview>,
}

/// How maximums are estimated.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Estimate {
    /// The equation's name.
    pub equation: String,
    /// Where it was published.
    pub source: String,
    /// The most repetitions an estimate is made from.
    pub most_reps: u32,
}

/// Plan against done, for one athlete.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AthleteReview {
    /// The athlete's name.
    pub name: String,
    /// The gym.
    pub gym: Option<String>,
    /// The unit that the gym's plates are marked in: pages and text show masses in it. Fields are
    /// in kilograms all the same.
    pub unit: Unit,
    /// The last logged session; `None` when nothing is logged yet.
    pub last_logged: Option<ReviewedSession>,
    /// What was done of what was planned so far.
    pub adherence: Adherence,
    /// Volume and hard sets, for every week of the programme.
    pub weeks: Vec<WeekReview>,
    /// The best estimated 1RM of each lift, session by session: main lifts first.
    pub lifts: Vec<LiftStrength>,
    /// Effort reported, session by session.
    pub efforts: Vec<SessionEffort>,
    /// Sets that fell short, and lines that were left out.
    pub misses: Vec<Miss>,
    /// Pain reported.
    pub pains: Vec<Pain>,
    /// Rules that acted on logged sessions.
    pub rules: Vec<FiredRule>,
    /// Maxes that a log replaced.
    pub new_maxes: Vec<NewMax>,
    /// What is different in the next session of each line.
    pub changes: Vec<NextSession>,
    /// Sessions beside the plan.
    pub extras: Vec<Extra>,
    /// What the logs note.
    pub notes: Vec<Note>,
    /// Body mass, as logged.
    pub body_masses: Vec<Weighed>,
}

/// A session, by its place in the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReviewedSession {
    /// The week, counted from one.
    pub week: u32,
    /// The day's name.
    pub day: String,
    /// When it was logged; else the planned date, if there is one.
    pub date: Option<jiff::civil::Date>,
}

impl ReviewedSession {
    fn of(session: &Session) -> Self {
        let logged = match &session.status {
            SessionStatus::Done { done_on: date }
            | SessionStatus::Skipped { skipped_on: date, .. } => Some(*date),
            SessionStatus::Projected | SessionStatus::Missing => None,
        };
        Self { week: session.week, day: session.day.clone(), date: logged.or(session.date) }
    }
}

/// Reviews everyone in a plan.
#[must_use]
pub fn review(plan: &Plan) -> Review {
    let equation = Equation::parse(&plan.estimate).unwrap_or_default();
    let athletes: Vec<AthleteReview> =
        plan.athletes.iter().map(|athlete| one(athlete, equation)).collect();
    Review {
        programme: plan.programme.clone(),
        language: plan.language.clone(),
        exercise_names: plan.exercise_names.clone(),
        weeks: plan.weeks,
        estimate: Estimate {
            equation: equation.name().to_owned(),
            source: equation.source().to_owned(),
            most_reps: MOST_REPS,
        },
        look_first: look::look_first(&athletes, plan),
        athletes,
    }
}

fn one(athlete: &AthletePlan, equation: Equation) -> AthleteReview {
    let sessions = weighed(athlete);
    let last = athlete.sessions.iter().rfind(|session| {
        matches!(session.status, SessionStatus::Done { .. } | SessionStatus::Skipped { .. })
    });
    AthleteReview {
        name: athlete.name.clone(),
        gym: athlete.gym.clone(),
        unit: athlete.unit,
        last_logged: last.map(ReviewedSession::of),
        adherence: tally::adherence(&athlete.sessions),
        weeks: tally::weeks(&sessions),
        lifts: strength::lifts(&sessions, equation),
        efforts: effort::efforts(&athlete.sessions),
        misses: results::misses(&athlete.sessions),
        pains: effort::pains(&athlete.sessions),
        rules: results::rules(&athlete.sessions),
        new_maxes: results::new_maxes(&athlete.sessions),
        changes: changes::changes(&athlete.sessions),
        extras: athlete.extras.clone(),
        notes: results::notes(&athlete.sessions),
        body_masses: results::weighed(&athlete.sessions),
    }
}

fn is_done(session: &Session) -> bool {
    matches!(session.status, SessionStatus::Done { .. })
}

fn is_past(session: &Session) -> bool {
    session.status != SessionStatus::Projected
}

/// A prescription in the notation's words.
fn as_written<S: Serializer>(reps: &Reps, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(reps)
}
