//! Reported effort and pain.

use serde::Serialize;

use crate::plan::{Order, PlannedExercise, Session};
use crate::quantity::{self, Exact, HalfPoints};
use crate::tally::number;

use super::{ReviewedSession, is_done};

/// Reported effort in one session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SessionEffort {
    /// The session.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The mean of the reported values, on the RPE scale.
    #[serde(serialize_with = "number")]
    pub mean_rpe: Exact,
    /// The lowest value.
    #[serde(serialize_with = "number")]
    pub lowest_rpe: Exact,
    /// The highest value.
    #[serde(serialize_with = "number")]
    pub highest_rpe: Exact,
    /// The values of each line.
    pub lines: Vec<Effort>,
}

/// Reported effort of one line. Repetitions in reserve are converted to the RPE scale by
/// subtracting them from 10 (Zourdos et al. 2016, J Strength Cond Res 30(1):267–275).
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Effort {
    /// The order letter.
    pub order: Order,
    /// The exercise.
    pub exercise: String,
    /// The reported RPE.
    #[serde(serialize_with = "number")]
    pub rpe: Exact,
    /// The highest RPE that was the target or the limit of a set of the line.
    #[serde(rename = "prescribed_rpe", serialize_with = "maybe")]
    pub prescribed: Option<Exact>,
}

impl Effort {
    /// How far it was above the prescription; zero if nothing was prescribed.
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

/// Reported pain. The tool does not interpret it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Pain {
    /// The session.
    #[serde(flatten)]
    pub sitting: ReviewedSession,
    /// The order letter.
    pub order: Order,
    /// The exercise.
    pub exercise: String,
    /// Pain from 0 to 10.
    #[serde(rename = "pain_of_10")]
    pub pain: HalfPoints,
}

/// The effort of every session that reports any.
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

/// All reports of pain above zero.
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
