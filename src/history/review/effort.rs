//! Effort and pain, as reported.

use serde::Serialize;

use crate::plan::{Order, PlannedExercise, Session};
use crate::quantity::{self, Exact, HalfPoints};
use crate::tally::number;

use super::{ReviewedSession, is_done};

/// Effort reported in one session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SessionEffort {
    /// Which session.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The mean of what was reported, on the RPE scale.
    #[serde(serialize_with = "number")]
    pub mean_rpe: Exact,
    /// The lowest.
    #[serde(serialize_with = "number")]
    pub lowest_rpe: Exact,
    /// The highest.
    #[serde(serialize_with = "number")]
    pub highest_rpe: Exact,
    /// Line by line.
    pub lines: Vec<Effort>,
}

/// Effort reported for one line. Repetitions in reserve count down from ten on the RPE scale
/// (Zourdos et al. 2016, J Strength Cond Res 30(1):267–275).
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Effort {
    /// The order letter.
    pub order: Order,
    /// The exercise.
    pub exercise: String,
    /// As reported.
    #[serde(serialize_with = "number")]
    pub rpe: Exact,
    /// The highest that any set of the line asked for, or was not to pass.
    #[serde(rename = "prescribed_rpe", serialize_with = "maybe")]
    pub prescribed: Option<Exact>,
}

impl Effort {
    /// How far above the prescription it was; zero where nothing was prescribed.
    #[must_use]
    pub fn above(&self) -> Exact {
        let above = self.prescribed.as_ref().map(|asked| &self.rpe - asked);
        above.filter(|above| !above.is_negative()).unwrap_or_else(Exact::zero)
    }
}

#[allow(clippy::ref_option, reason = "serde asks for a reference to the field")]
fn maybe<S: serde::Serializer>(value: &Option<Exact>, serializer: S) -> Result<S::Ok, S::Error> {
    value.as_ref().map(|value| value.to_decimal(3)).serialize(serializer)
}

/// Pain, as reported. What it means is for somebody else to say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Pain {
    /// Which session.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The order letter.
    pub order: Order,
    /// The exercise.
    pub exercise: String,
    /// Out of ten.
    #[serde(rename = "pain_of_10")]
    pub pain: HalfPoints,
}

/// Effort of every session that reports any.
pub fn efforts(sessions: &[Session]) -> Vec<SessionEffort> {
    let mut all = Vec::new();
    for session in sessions.iter().filter(|session| is_done(session)) {
        let lines: Vec<Effort> = session.exercises.iter().filter_map(line).collect();
        let total = lines.iter().fold(Exact::zero(), |sum, line| &sum + &line.rpe);
        let Ok(count) = i64::try_from(lines.len()) else { continue };
        let Some(mean_rpe) = total.checked_div(&Exact::whole(count)) else { continue };
        let lowest = lines.iter().map(|line| &line.rpe).min().cloned();
        let highest = lines.iter().map(|line| &line.rpe).max().cloned();
        let (Some(lowest_rpe), Some(highest_rpe)) = (lowest, highest) else { continue };
        let sitting = ReviewedSession::of(session);
        all.push(SessionEffort { sitting, mean_rpe, lowest_rpe, highest_rpe, lines });
    }
    all
}

fn line(exercise: &PlannedExercise) -> Option<Effort> {
    let reported = exercise.outcome.as_ref()?.effort?;
    Some(Effort {
        order: exercise.order,
        exercise: exercise.name.clone(),
        rpe: on_rpe_scale(reported),
        prescribed: exercise.working().filter_map(|set| set.effort).map(on_rpe_scale).max(),
    })
}

fn on_rpe_scale(effort: quantity::Effort) -> Exact {
    match effort {
        quantity::Effort::Rpe(points) => points.to_exact(),
        quantity::Effort::Rir(reps) => &Exact::whole(10) - &reps.to_exact(),
    }
}

/// Pain above zero, wherever it was reported.
pub fn pains(sessions: &[Session]) -> Vec<Pain> {
    let mut all = Vec::new();
    for session in sessions.iter().filter(|session| is_done(session)) {
        for exercise in &session.exercises {
            let pain = exercise.outcome.as_ref().and_then(|outcome| outcome.pain);
            let Some(pain) = pain.filter(|pain| pain.0 > 0) else { continue };
            all.push(Pain {
                sitting: ReviewedSession::of(session),
                order: exercise.order,
                exercise: exercise.name.clone(),
                pain,
            });
        }
    }
    all
}
