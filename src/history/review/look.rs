//! Which athletes need attention first.
//!
//! A score sorts the list. It is a reason to talk to an athlete, not a conclusion. *Lately* is the
//! week of the athlete's last logged session and the week before it.
//!
//! | reported or counted | points |
//! |---|---|
//! | pain lately | 10, plus the highest value (0 to 10) |
//! | nothing logged, although others in the plan have logs | 5 |
//! | a line that missed its last two or more sessions in a row, without deloads | 2 for each session |
//! | a session lately that is not logged although a later one is | 2 each |
//! | a session lately that was skipped | 1 each |
//! | a lift whose estimated 1RM falls by 1 % a week or more | 2 each |
//! | effort reported lately above the prescription | the difference in points of the RPE scale |
//!
//! The weights are our own: common practice, no source.

use serde::Serialize;

use crate::plan::{AthletePlan, Order, Plan, Session, SessionStatus};
use crate::quantity::{Exact, HalfPoints};
use crate::tally::{kg, number};

use super::{AthleteReview, is_past, results};

/// One athlete in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AttentionItem {
    /// The athlete.
    pub athlete: String,
    /// The score.
    #[serde(serialize_with = "number")]
    pub score: Exact,
    /// The parts of the score.
    pub concerns: Vec<Concern>,
}

/// A reason to talk to the athlete.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "concern", rename_all = "kebab-case")]
pub enum Concern {
    /// Pain was reported.
    Pain {
        /// The highest value, from 0 to 10.
        #[serde(rename = "pain_of_10")]
        pain: HalfPoints,
        /// The exercise.
        exercise: String,
        /// The week.
        week: u32,
    },
    /// Nothing is logged, although others have logs.
    NothingLogged,
    /// A line was missed in several sessions in a row.
    MissesInARow {
        /// The day's name.
        day: String,
        /// The order letter.
        order: Order,
        /// The exercise.
        exercise: String,
        /// Number of sessions.
        sessions: u32,
    },
    /// Sessions are not logged.
    SessionsMissing {
        /// Number of sessions.
        sessions: u32,
    },
    /// Sessions were skipped.
    SessionsSkipped {
        /// Number of sessions.
        sessions: u32,
    },
    /// The estimated 1RM of a lift falls.
    Falling {
        /// The lift.
        lift: String,
        /// The slope of the trend, as mass gained each week.
        #[serde(rename = "slope_kg_per_week", serialize_with = "kg")]
        slope: Exact,
    },
    /// Effort was above the prescription.
    EffortAbove {
        /// Number of lines.
        lines: u32,
        /// Sum of the differences, in points of the RPE scale.
        #[serde(rename = "rpe_points", serialize_with = "number")]
        points: Exact,
    },
}

impl Concern {
    fn points(&self) -> Exact {
        let whole = |n: u32| Exact::whole(i64::from(n));
        match self {
            Concern::Pain { pain, .. } => &Exact::whole(10) + &pain.to_exact(),
            Concern::NothingLogged => Exact::whole(5),
            Concern::MissesInARow { sessions, .. } | Concern::SessionsMissing { sessions } => {
                &whole(*sessions) * &Exact::whole(2)
            }
            Concern::SessionsSkipped { sessions } => whole(*sessions),
            Concern::Falling { .. } => Exact::whole(2),
            Concern::EffortAbove { points, .. } => points.clone(),
        }
    }
}

/// The list, highest score first.
pub fn look_first(athletes: &[AthleteReview], plan: &Plan) -> Vec<AttentionItem> {
    let anyone = athletes.iter().any(|athlete| athlete.last_logged.is_some());
    let mut all: Vec<AttentionItem> = athletes
        .iter()
        .zip(&plan.athletes)
        .map(|(athlete, plan)| {
            let concerns = concerns(athlete, plan, anyone);
            let score = concerns.iter().fold(Exact::zero(), |sum, c| &sum + &c.points());
            AttentionItem { athlete: athlete.name.clone(), score, concerns }
        })
        .collect();
    all.sort_by(|a, b| b.score.cmp(&a.score));
    all
}

fn concerns(athlete: &AthleteReview, plan: &AthletePlan, anyone: bool) -> Vec<Concern> {
    let Some(last) = &athlete.last_logged else {
        return anyone.then_some(Concern::NothingLogged).into_iter().collect();
    };
    let since = last.week.saturating_sub(1);
    let mut all = Vec::new();
    let lately = athlete.pains.iter().filter(|pain| pain.sitting.week >= since);
    // Among equal values, the latest.
    if let Some(pain) = lately.max_by_key(|pain| pain.pain) {
        all.push(Concern::Pain {
            pain: pain.pain,
            exercise: pain.exercise.clone(),
            week: pain.sitting.week,
        });
    }
    for (day, order, exercise, sessions) in results::rows(&plan.sessions) {
        if sessions >= 2 {
            all.push(Concern::MissesInARow { day, order, exercise, sessions });
        }
    }
    let past = |status: fn(&SessionStatus) -> bool| {
        let counts = |s: &&Session| is_past(s) && s.week >= since && status(&s.status);
        u32::try_from(plan.sessions.iter().filter(counts).count()).unwrap_or(u32::MAX)
    };
    let sessions = past(|status| *status == SessionStatus::Missing);
    if sessions > 0 {
        all.push(Concern::SessionsMissing { sessions });
    }
    let sessions = past(|status| matches!(status, SessionStatus::Skipped { .. }));
    if sessions > 0 {
        all.push(Concern::SessionsSkipped { sessions });
    }
    for lift in &athlete.lifts {
        let Some(trend) = &lift.trend else { continue };
        if trend.percent_per_week() <= Exact::whole(-1) {
            let (lift, slope) = (lift.lift.clone(), trend.slope.clone());
            all.push(Concern::Falling { lift, slope });
        }
    }
    let above: Vec<Exact> = athlete
        .efforts
        .iter()
        .filter(|effort| effort.sitting.week >= since)
        .flat_map(|effort| &effort.lines)
        .map(super::Effort::above)
        .filter(|above| !above.is_zero())
        .collect();
    if !above.is_empty() {
        all.push(Concern::EffortAbove {
            lines: u32::try_from(above.len()).unwrap_or(u32::MAX),
            points: above.iter().fold(Exact::zero(), |sum, above| &sum + above),
        });
    }
    all
}
