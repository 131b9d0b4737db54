//! The review: plan against results, computed from a [`Plan`] alone.
//!
//! Conventions:
//! - *So far* means up to the athlete's last logged session in the order of the plan. No clock is
//!   used.
//! - A *set* is a working set; hard sets and volume load are counted as in [`crate::tally`]. A
//!   unilateral set counts what both sides did.
//! - An *estimated 1RM* is based on sets of at most [`MOST_REPS`] repetitions (Reynolds et al.
//!   2006, J Strength Cond Res 20(3):584–592), as if they had gone to failure. If repetitions were
//!   left in reserve, it is a lower bound.
//!
//! No number here is interpreted for a person's health.

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

/// Maximum number of repetitions of a set that is used for an estimate.
pub const MOST_REPS: u32 = 10;

/// Plan against results for all athletes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Review {
    /// The programme's name.
    pub programme: String,
    /// BCP 47 language of the labels.
    #[serde(skip)]
    pub language: String,
    /// Names of exercises in other languages.
    #[serde(skip)]
    pub exercise_names: ExerciseNames,
    /// Length of the programme in weeks.
    pub weeks: u32,
    /// How 1RMs are estimated.
    pub estimate: Estimate,
    /// Athletes who need attention, highest score first; equal scores are in the order of the plan.
    pub look_first: Vec<AttentionItem>,
    /// All athletes, in the order of the plan.
    pub athletes: Vec<AthleteReview>,
}

/// How 1RMs are estimated.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Estimate {
    /// The equation's name.
    pub equation: String,
    /// Source of the equation.
    pub source: String,
    /// Maximum number of repetitions of a set that is used for an estimate.
    pub most_reps: u32,
}

/// Plan against results for one athlete.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AthleteReview {
    /// The athlete's name.
    pub name: String,
    /// The gym.
    pub gym: Option<String>,
    /// The unit that the gym's plates are marked in. Pages and text show masses in it; the fields
    /// here are in kilograms.
    pub unit: Unit,
    /// The last logged session; `None` if nothing is logged yet.
    pub last_logged: Option<ReviewedSession>,
    /// What was planned and done so far.
    pub adherence: Adherence,
    /// Volume and hard sets in every week of the programme.
    pub weeks: Vec<WeekReview>,
    /// The best estimated 1RM of each lift in each session, main lifts first.
    pub lifts: Vec<LiftStrength>,
    /// Reported effort, by session.
    pub efforts: Vec<SessionEffort>,
    /// Sets that missed their target, and lines that were left out.
    pub misses: Vec<Miss>,
    /// Reported pain.
    pub pains: Vec<Pain>,
    /// Rules that acted on logged sessions.
    pub rules: Vec<FiredRule>,
    /// Maxes that a log replaced.
    pub new_maxes: Vec<NewMax>,
    /// What changes in the next session of each line.
    pub changes: Vec<NextSession>,
    /// Sessions outside the plan.
    pub extras: Vec<Extra>,
    /// Notes from the logs.
    pub notes: Vec<Note>,
    /// Logged body mass.
    pub body_masses: Vec<Weighed>,
}

/// A session, identified by its place in the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReviewedSession {
    /// The week, counted from 1.
    pub week: u32,
    /// The day's name.
    pub day: String,
    /// The date on which it was logged, otherwise the planned date, if there is one.
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

/// Reviews all athletes of a plan.
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

/// Serialises a prescription in the notation's words.
fn as_written<S: Serializer>(reps: &Reps, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(reps)
}
