//! Sets, repetitions, loads and options.

use std::fmt;

use super::Name;
use super::number::{MassText, OverWeeks};
use super::show::{Signed, join};
use crate::quantity::{Decimal, Duration, HalfPoints, RepCount, Tempo};
use crate::source::Spanned;

/// The work of a set as written.
#[derive(Clone, Debug, PartialEq)]
pub enum WorkText {
    /// Repetitions.
    Reps(OverWeeks<Spanned<RepCount>>),
    /// Seconds.
    Seconds(OverWeeks<Spanned<RepCount>>),
    /// Metres.
    Metres(OverWeeks<Spanned<RepCount>>),
    /// As many repetitions as possible.
    Amrap,
    /// A cluster.
    Cluster(Vec<u32>, Option<Duration>),
}

/// From this number up the standard format keeps the word `reps`.
pub const NAMED_REPS: u32 = 20;

/// Repetitions with their sides.
#[derive(Clone, Debug, PartialEq)]
pub struct RepsText {
    /// The work.
    pub work: WorkText,
    /// The number is followed by the word `reps`, from [`NAMED_REPS`] up: there it may answer the
    /// question whether seconds are meant.
    pub named: bool,
    /// On each side.
    pub each_side: bool,
    /// Rest between the sides.
    pub between: Option<Duration>,
}

/// What a percentage is of.
#[derive(Clone, Debug, PartialEq)]
pub enum PercentOf {
    /// The training max of the line's lift.
    TrainingMax,
    /// Its one-repetition maximum.
    OneRm,
    /// The heaviest earlier group of the line.
    TopSet,
    /// The training max of another lift.
    Lift(Name),
}

/// A mass with its sign.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SignedMass {
    /// The mass; its number may be negative.
    pub mass: MassText,
}

/// An effort as written: on the RPE scale, or (false) in repetitions in reserve.
#[derive(Clone, Debug, PartialEq)]
pub struct EffortText {
    /// The scale.
    pub is_rpe: bool,
    /// The number.
    pub points: OverWeeks<Spanned<HalfPoints>>,
}

/// A load as written.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadText {
    /// A percentage.
    Percent(OverWeeks<Spanned<Decimal>>, PercentOf),
    /// A mass.
    Mass(OverWeeks<Spanned<MassText>>),
    /// By effort.
    Effort(EffortText),
    /// The body mass, with what is added to it or taken off it.
    Bodyweight(Option<OverWeeks<Spanned<SignedMass>>>),
    /// The latest session's load, changed by a mass.
    LastMass(Option<Spanned<SignedMass>>),
    /// The latest session's load, changed by a percentage.
    LastPercent(Spanned<Decimal>),
}

/// An option.
#[derive(Clone, Debug, PartialEq)]
pub enum OptionText {
    /// `rest 3:00`; a series goes over the weeks.
    Rest(OverWeeks<Spanned<Duration>>),
    /// `tempo 3-1-X-0`.
    Tempo(Tempo),
    /// `RPE 8` beside a load: the effort not to pass.
    Effort(EffortText),
    /// `range 0-70 degrees`.
    Range(String),
    /// `drop -20% x 2 each set`: percent (negative), how many, after every set.
    Drop(Decimal, u32, bool),
    /// `rest-pause 15 s`.
    RestPause(Duration),
    /// `every 90 s`.
    Every(Duration),
    /// `no warm-up`.
    NoWarmUp,
    /// `as written`: the phase does not scale it.
    AsWritten,
    /// `with phase`: the phase scales it.
    WithPhase,
}

/// One set group with its options.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct SetGroup {
    /// How many sets.
    pub sets: Option<OverWeeks<Spanned<u32>>>,
    /// The repetitions.
    pub reps: Option<Spanned<RepsText>>,
    /// The load.
    pub load: Option<Spanned<LoadText>>,
    /// Options, in the order they were written.
    pub options: Vec<Spanned<OptionText>>,
}

impl SetGroup {
    /// Whether it states no sets, repetitions or load.
    #[must_use]
    pub fn is_bare(&self) -> bool {
        self.sets.is_none() && self.reps.is_none() && self.load.is_none()
    }
}

/// Set groups, done in order.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Prescription {
    /// The groups. A first one without sets, repetitions and load carries options only.
    pub groups: Vec<SetGroup>,
}

impl fmt::Display for RepsText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.work {
            WorkText::Reps(over) => {
                over.fmt(f)?;
                f.write_str(if self.named { " reps" } else { "" })?;
            }
            WorkText::Seconds(over) => over.show_with(f, "s")?,
            WorkText::Metres(over) => over.show_with(f, "m")?,
            WorkText::Amrap => f.write_str("AMRAP")?,
            WorkText::Cluster(parts, pause) => {
                f.write_str(&join(parts, "+"))?;
                if let Some(pause) = pause {
                    write!(f, " ({pause})")?;
                }
            }
        }
        if self.each_side {
            f.write_str(" each side")?;
        }
        self.between.map_or(Ok(()), |rest| write!(f, " ({rest} between)"))
    }
}

impl fmt::Display for LoadText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LoadText::Percent(over, of) => {
                let of = match of {
                    PercentOf::TrainingMax => String::new(),
                    PercentOf::OneRm => " of 1RM".to_owned(),
                    PercentOf::TopSet => " of top set".to_owned(),
                    PercentOf::Lift(name) => format!(" of {}", name.value),
                };
                let values: Vec<String> =
                    over.values.iter().map(|p| format!("{}%", p.value)).collect();
                f.write_str(&values.join(" -> "))?;
                if let Some(step) = &over.step {
                    write!(f, " {}", step.value)?;
                }
                f.write_str(&of)
            }
            LoadText::Mass(over) => over.fmt(f),
            LoadText::Effort(effort) => effort.fmt(f),
            LoadText::Bodyweight(None) => f.write_str("bodyweight"),
            LoadText::Bodyweight(Some(over)) => write!(f, "bodyweight {over}"),
            LoadText::LastMass(None) => f.write_str("last"),
            LoadText::LastMass(Some(by)) => write!(f, "last {by}"),
            LoadText::LastPercent(by) => write!(f, "last {}%", Signed(by.value)),
        }
    }
}

impl fmt::Display for SignedMass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", Signed(self.mass.value), self.mass.unit)
    }
}

impl fmt::Display for EffortText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", if self.is_rpe { "RPE" } else { "RIR" }, self.points)
    }
}

impl fmt::Display for OptionText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            OptionText::Rest(over) => write!(f, "rest {over}"),
            OptionText::Tempo(tempo) => write!(f, "tempo {tempo}"),
            OptionText::Effort(effort) => effort.fmt(f),
            OptionText::Range(text) => write!(f, "range {text}"),
            OptionText::Drop(percent, count, each) => {
                write!(f, "drop {percent}%")?;
                if *count != 1 {
                    write!(f, " x {count}")?;
                }
                f.write_str(if *each { " each set" } else { "" })
            }
            OptionText::RestPause(pause) => write!(f, "rest-pause {pause}"),
            OptionText::Every(interval) => write!(f, "every {interval}"),
            OptionText::NoWarmUp => f.write_str("no warm-up"),
            OptionText::AsWritten => f.write_str("as written"),
            OptionText::WithPhase => f.write_str("with phase"),
        }
    }
}

impl fmt::Display for SetGroup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut words = Vec::new();
        match (&self.sets, &self.reps) {
            (Some(sets), Some(reps)) => words.push(format!("{sets} x {}", reps.value)),
            (Some(sets), None) => words.push(format!("{sets} sets")),
            (None, Some(reps)) => words.push(reps.value.to_string()),
            (None, None) => {}
        }
        if let Some(load) = &self.load {
            words.push(format!("@ {}", load.value));
        }
        f.write_str(&words.join(" "))?;
        for (index, option) in self.options.iter().enumerate() {
            let comma = if index == 0 && words.is_empty() { "" } else { ", " };
            write!(f, "{comma}{}", option.value)?;
        }
        Ok(())
    }
}

impl fmt::Display for Prescription {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&join(&self.groups, ", "))
    }
}
