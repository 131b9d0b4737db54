//! Athletes.

use jiff::civil::Date;

use crate::diagnostics::Diagnostic;
use crate::quantity::{Decimal, Duration, Mass, Unit};
use crate::source::Span;
use crate::syntax::ast::{Item, LineKey, MassText, MaxLift, MaxText, Name, Node, Value};
use crate::syntax::keys::Key;

use super::known_language;

/// What a maximum was taken from.
#[derive(Clone, Debug, PartialEq)]
pub enum MaxKind {
    /// A set with a load: one repetition is a test, more an estimate.
    Lifted {
        /// Repetitions made.
        reps: u32,
        /// The load; what was added to the body mass when `bodyweight`.
        load: Mass,
        /// Whether the load is added to the body mass.
        bodyweight: bool,
    },
    /// A share of another lift's maximum.
    Share {
        /// In percent.
        percent: Decimal,
        /// The other lift.
        of: Name,
    },
}

/// A maximum of one lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Max {
    /// The lift, as written.
    pub lift: Name,
    /// Where it comes from.
    pub kind: MaxKind,
    /// When it was made.
    pub date: Option<Date>,
    /// The place of its value.
    pub span: Span,
}

/// What is done instead of an exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Replacement {
    /// The exercise of the programme.
    pub of: Name,
    /// What is done instead.
    pub by: Name,
    /// Why.
    pub reason: Option<String>,
    /// The last day; `None` for always.
    pub until: Option<Date>,
}

/// A limit that somebody set.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitSet {
    /// What it concerns.
    pub name: Name,
    /// The limit as written, without its date.
    pub text: String,
    /// Who set it.
    pub who: Option<String>,
    /// The last day it holds.
    pub until: Option<Date>,
    /// The place of its value.
    pub span: Span,
}

/// An athlete.
#[derive(Clone, Debug, PartialEq)]
pub struct Athlete {
    /// The name.
    pub name: String,
    /// Where the athlete is defined.
    pub span: Span,
    /// The gym, by name.
    pub gym: Option<Name>,
    /// Body mass.
    pub body_mass: Option<Mass>,
    /// The unit to show beside the gym's.
    pub unit: Option<Unit>,
    /// Maximums.
    pub maxes: Vec<Max>,
    /// The training max, in percent of the 1RM, with its place.
    pub training_max: Option<(Decimal, Span)>,
    /// Replacements.
    pub replacements: Vec<Replacement>,
    /// Settings by exercise.
    pub settings: Vec<(Name, String)>,
    /// Limits.
    pub limits: Vec<LimitSet>,
    /// Exercises, patterns and muscles to avoid, each with its last day.
    pub avoid: Vec<(Name, Option<Date>)>,
    /// Which rack.
    pub rack: Option<String>,
    /// Language of the sheets.
    pub language: Option<String>,
    /// Time for a session.
    pub time: Option<Duration>,
    /// Level, in the coach's words.
    pub level: Option<String>,
    /// Notes.
    pub notes: Vec<String>,
    /// A line did not read: what seems to be missing may stand in it.
    pub incomplete: bool,
}

impl Replacement {
    /// Why, without the last day.
    #[must_use]
    pub fn why(&self) -> Option<&str> {
        let reason = self.reason.as_deref()?;
        let before = self.until.and_then(|_| reason.rsplit_once("until "));
        let why = before.map_or(reason, |(before, _)| before).trim_end_matches([',', ' ']);
        (!why.is_empty()).then_some(why)
    }
}

/// The day that a reason ends with: `shoulder, until 2026-01-25`.
fn last_day(reason: &str) -> Option<Date> {
    let (before, day) = reason.rsplit_once("until ")?;
    let own_word = before.is_empty() || before.ends_with([' ', ',']);
    day.trim().parse().ok().filter(|_| own_word)
}

impl Athlete {
    /// Reads an athlete.
    #[must_use]
    pub fn read(name: &Name, lines: &[Node], problems: &mut Vec<Diagnostic>) -> Self {
        let mut athlete = Self {
            name: name.value.clone(),
            span: name.span,
            gym: None,
            body_mass: None,
            unit: None,
            maxes: Vec::new(),
            training_max: None,
            replacements: Vec::new(),
            settings: Vec::new(),
            limits: Vec::new(),
            avoid: Vec::new(),
            rack: None,
            language: None,
            time: None,
            level: None,
            notes: Vec::new(),
            incomplete: lines.iter().any(|node| node.item.value == Item::Wrong),
        };
        for node in lines {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                (LineKey::Key(Key::Language), Value::Text(text)) => {
                    athlete.language = known_language(text, value.span, problems);
                }
                (LineKey::Key(key), value) => athlete.keyed(*key, value),
                (LineKey::Named(Key::Max, lift), Value::Max(max)) => {
                    athlete.maxes.push(read_max(lift, &max.value, max.span));
                }
                (LineKey::Named(Key::Replace, of), Value::Remarked(by, reason)) => {
                    athlete.replacements.push(Replacement {
                        of: of.clone(),
                        by: by.clone(),
                        until: reason.as_deref().and_then(last_day),
                        reason: reason.clone(),
                    });
                }
                (LineKey::Named(Key::Setting, name), Value::Text(text)) => {
                    athlete.settings.push((name.clone(), text.clone()));
                }
                (LineKey::Named(Key::Limit, name), Value::Limit(limit)) => {
                    athlete.limits.push(LimitSet {
                        name: name.clone(),
                        text: limit.text.clone(),
                        who: limit.who.clone(),
                        until: limit.until,
                        span: value.span,
                    });
                }
                _ => {}
            }
        }
        athlete
    }

    fn keyed(&mut self, key: Key, value: &Value) {
        match (key, value) {
            (Key::Gym, Value::Remarked(name, _)) => self.gym = Some(name.clone()),
            (Key::BodyMass, Value::Mass(mass)) => self.body_mass = Some(mass.mass()),
            (Key::Unit, Value::Unit(unit)) => self.unit = Some(*unit),
            (Key::TrainingMax, Value::Percent(percent)) => {
                self.training_max = Some((percent.value, percent.span));
            }
            (Key::Avoid, Value::Avoid(items)) => {
                self.avoid = items.iter().map(|(name, text)| (name.clone(), text.until)).collect();
            }
            (Key::Rack, Value::Text(text)) => self.rack = Some(text.clone()),
            (Key::Time, Value::Duration(time)) => self.time = Some(*time),
            (Key::Level, Value::Text(text)) => self.level = Some(text.clone()),
            (Key::Note, Value::Text(text)) => self.notes.push(text.clone()),
            _ => {}
        }
    }
}

impl MaxKind {
    /// What a max as written was taken from.
    #[must_use]
    pub fn read(max: &MaxText) -> Self {
        match max {
            MaxText::Share(percent, of) => Self::Share { percent: *percent, of: of.clone() },
            MaxText::Lifted { reps, lift, .. } => {
                let (load, bodyweight) = match lift {
                    MaxLift::Mass(mass) => (mass.mass(), false),
                    MaxLift::Bodyweight(by) => {
                        (by.map_or(Mass::ZERO, |by| MassText::mass(by.mass)), true)
                    }
                };
                Self::Lifted { reps: *reps, load, bodyweight }
            }
        }
    }
}

fn read_max(lift: &Name, max: &MaxText, span: Span) -> Max {
    let date = if let MaxText::Lifted { date, .. } = max { *date } else { None };
    Max { lift: lift.clone(), kind: MaxKind::read(max), date, span }
}
