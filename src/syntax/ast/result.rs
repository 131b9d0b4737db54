//! Results of a session, as logged.

use std::fmt;

use super::number::MassText;
use super::prescription::SignedMass;
use super::show::join;
use crate::quantity::{Effort, HalfPoints};

/// What was made in one set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ResultReps {
    /// Repetitions.
    Reps(u32),
    /// Repetitions of the two sides.
    Sides(u32, u32),
    /// Seconds.
    Seconds(u32),
    /// Metres.
    Metres(u32),
}

/// With what.
#[derive(Clone, Debug, PartialEq)]
pub enum ResultLoad {
    /// A mass.
    Mass(MassText),
    /// The body mass, with what was added.
    Bodyweight(Option<SignedMass>),
}

/// One set.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultSet {
    /// What was made.
    pub reps: ResultReps,
    /// With what; the planned load, or the next set's, when left out.
    pub load: Option<ResultLoad>,
}

/// The result of one exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultText {
    /// `?`: to be filled in.
    pub to_fill: bool,
    /// The sets; `None` for `done`, every set as planned.
    pub sets: Option<Vec<ResultSet>>,
    /// Skipped, with the reason.
    pub skipped: Option<Option<String>>,
    /// The effort reported.
    pub effort: Option<Effort>,
    /// Pain reported, out of ten.
    pub pain: Option<HalfPoints>,
}

impl fmt::Display for ResultSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.reps {
            ResultReps::Reps(n) => n.fmt(f)?,
            ResultReps::Sides(a, b) => write!(f, "{a}/{b}")?,
            ResultReps::Seconds(n) => write!(f, "{n} s")?,
            ResultReps::Metres(n) => write!(f, "{n} m")?,
        }
        match &self.load {
            None => Ok(()),
            Some(ResultLoad::Mass(mass)) => write!(f, " @ {mass}"),
            Some(ResultLoad::Bodyweight(None)) => f.write_str(" @ bodyweight"),
            Some(ResultLoad::Bodyweight(Some(by))) => write!(f, " @ bodyweight {by}"),
        }
    }
}

impl fmt::Display for ResultText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.to_fill {
            return f.write_str("?");
        }
        match (&self.skipped, &self.sets) {
            (Some(None), _) => f.write_str("skipped")?,
            (Some(Some(reason)), _) => write!(f, "skipped ({reason})")?,
            (None, None) => f.write_str("done")?,
            (None, Some(sets)) => f.write_str(&join(sets, ", "))?,
        }
        if let Some(effort) = self.effort {
            write!(f, ", {effort}")?;
        }
        self.pain.map_or(Ok(()), |pain| write!(f, ", pain {pain}"))
    }
}
