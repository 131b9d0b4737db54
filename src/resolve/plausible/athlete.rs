//! An athlete's body mass and maxes, by themselves and beside each other.

use super::{Context, doubt, lifts, likely, max, other_unit, times};
use crate::catalogue::Gym;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Exact, Mass, Unit, fold_name};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{Item, LineKey, MassText, MaxText, Name, Node, Value};
use crate::syntax::keys::Key;

/// Body masses outside these are doubted.
const LIGHT_BODY: Mass = Mass::from_kg(25);
const HEAVY_BODY: Mass = Mass::from_kg(250);
/// A body mass in kilograms from here on may be one in pounds, where all else is in pounds …
const MAY_BE_LB: Mass = Mass::from_kg(120);
/// … and one in pounds below this may be one in kilograms, where all else is in kilograms.
const MAY_BE_KG: Mass = Mass::from_kg(45);

/// A max in another unit than the others is doubted when, in theirs, it would be at most so many
/// percent of the heaviest of them.
const MOST_ABOVE_OTHERS: i64 = 125;

/// A max of an athlete on a line of its own.
struct Written<'n> {
    lift: &'n Name,
    max: &'n Spanned<MaxText>,
}

impl Context<'_> {
    /// The lines of an athlete.
    pub(super) fn athlete(&self, name: &Name, lines: &[Node], problems: &mut Vec<Diagnostic>) {
        let mut body = None;
        let mut maxes = Vec::new();
        for node in lines {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                (LineKey::Key(Key::BodyMass), Value::Mass(mass)) => {
                    body = Some((*mass, value.span));
                }
                (LineKey::Named(Key::Max, lift), Value::Max(max)) => {
                    maxes.push(Written { lift, max });
                }
                _ => {}
            }
        }
        let folded = fold_name(&name.value);
        let athlete =
            self.definitions.athletes.iter().find(|athlete| fold_name(&athlete.name) == folded);
        let gym = athlete.and_then(|athlete| {
            let named = athlete.gym.as_ref().map(|gym| fold_name(&gym.value));
            let mut gyms = self.definitions.gyms.iter();
            match named {
                Some(named) => gyms.find(|gym| fold_name(&gym.name) == named),
                None => gyms.next().filter(|_| self.definitions.gyms.len() == 1),
            }
        });
        let shown = athlete.and_then(|athlete| athlete.unit);
        if let Some((mass, span)) = body {
            let units: Vec<Unit> = units(&maxes).collect();
            let unit = shown.or(units.first().copied()).or(gym.map(|gym| gym.unit));
            let of_one = units.iter().all(|of| Some(*of) == unit);
            problems.extend(body_mass(mass, span, unit.filter(|_| of_one)));
        }
        let mut doubted: Vec<Span> = Vec::new();
        for written in &maxes {
            problems.extend(max::estimate(written.max));
            let Some(exercise) = self.exercise(written.lift) else { continue };
            let found = max::by_itself(exercise, written.max)
                .or_else(|| self.in_other_unit(written, &maxes, gym, shown));
            if let Some(found) = found {
                doubted.push(written.max.span);
                problems.push(found);
            }
        }
        for pair in lifts::PAIRS {
            problems.extend(self.beside(pair, &maxes, &mut doubted));
        }
    }

    /// A lift with a bar whose max is in another unit than the gym's plates and the other maxes.
    fn in_other_unit(
        &self,
        written: &Written<'_>,
        all: &[Written<'_>],
        gym: Option<&Gym>,
        shown: Option<Unit>,
    ) -> Option<Diagnostic> {
        let unit = gym?.unit;
        let (reps, mass) = max::lifted(&written.max.value)?;
        let bar = lifts::is_bar_lift(self.exercise(written.lift)?);
        if !bar || mass.unit == unit || shown == Some(mass.unit) || !units(all).any(|of| of == unit)
        {
            return None;
        }
        // A number that would be far above all other maxes in that unit is meant as it is written.
        let one = |(reps, mass): (u32, MassText)| max::one_rm(reps, mass);
        let others = all.iter().filter_map(|other| max::lifted(&other.max.value));
        let heaviest = others.filter(|(_, mass)| mass.unit == unit).map(one).max()?;
        if one((reps, other_unit(mass))) * 100 > heaviest * MOST_ABOVE_OTHERS {
            return None;
        }
        let span = written.max.span;
        let message = format!(
            "this max is in {}, but this athlete's other maxes and the gym are in {unit}",
            mass.unit
        );
        let meant = max::with_mass(&written.max.value, other_unit(mass));
        Some(
            doubt(Code::UnlikelyMax, span, message)
                .help(format!(
                    "check the unit; if it is right, write `unit: {}` below the athlete",
                    mass.unit
                ))
                .guess(span, meant.to_string()),
        )
    }

    /// Two lifts of the athlete that do not go together.
    fn beside(
        &self,
        pair: &lifts::Pair,
        all: &[Written<'_>],
        doubted: &mut Vec<Span>,
    ) -> Option<Diagnostic> {
        let find = |name: &str| {
            let id = self.definitions.exercise(name)?;
            let same = |w: &&Written<'_>| self.definitions.exercise(&w.lift.value) == Some(id);
            let written = all.iter().find(same)?;
            let (reps, mass) = max::lifted(&written.max.value)?;
            let known = doubted.contains(&written.max.span);
            (!known).then_some((written, reps, mass))
        };
        let ((first, reps, mass), (second, of_reps, of_mass)) = (find(pair.lift)?, find(pair.of)?);
        let fits = |mass: MassText, of: MassText| {
            let of = Exact::from_mass(max::one_rm(of_reps, of));
            let percent = &Exact::from_mass(max::one_rm(reps, mass)) * &Exact::whole(100);
            let (low, high) = pair.percent;
            &of * &Exact::whole(low) <= percent && percent <= &of * &Exact::whole(high)
        };
        if fits(mass, of_mass) {
            return None;
        }
        let (low, high) = pair.percent;
        let sane = |written: &Written<'_>, mass: MassText| {
            self.exercise(written.lift).is_some_and(|exercise| {
                let one = max::one_rm(1, mass);
                lifts::least(exercise) <= one && one <= lifts::most(exercise)
            })
        };
        // One of the two has a slip that explains it.
        let own = likely(mass, |m| fits(m, of_mass) && sane(first, m));
        let other = likely(of_mass, |m| fits(mass, m) && sane(second, m));
        let (at, beside, meant) = match (own, other) {
            (None, Some(meant)) => (second, first, Some(meant)),
            (meant, _) => (first, second, meant),
        };
        doubted.push(at.max.span);
        let message = format!(
            "{} at {mass} and {} at {of_mass} are unlikely for one athlete",
            first.lift.value, second.lift.value
        );
        let found = doubt(Code::UnlikelyMax, at.max.span, message)
            .and(beside.max.span, "compared with this one")
            .help(format!(
                "{} is usually between {low}% and {high}% of {}: check both numbers and units",
                pair.lift, pair.of
            ));
        Some(match meant {
            Some(meant) => {
                found.guess(at.max.span, max::with_mass(&at.max.value, meant).to_string())
            }
            None => found,
        })
    }
}

fn units<'w>(maxes: &'w [Written<'_>]) -> impl Iterator<Item = Unit> + 'w {
    maxes.iter().filter_map(|written| max::lifted(&written.max.value)).map(|(_, mass)| mass.unit)
}

/// A body mass that is hardly meant; `unit` is that of everything else, where it is one.
pub fn body_mass(mass: MassText, span: Span, unit: Option<Unit>) -> Option<Diagnostic> {
    let sane = |mass: MassText| (LIGHT_BODY..=HEAVY_BODY).contains(&mass.mass());
    let other = other_unit(mass);
    let swapped = unit == Some(other.unit)
        && match mass.unit {
            Unit::Kg => mass.mass() >= MAY_BE_LB,
            Unit::Lb => mass.mass() <= MAY_BE_KG,
        };
    if sane(mass) && !swapped {
        return None;
    }
    let found = doubt(Code::UnlikelyValue, span, format!("a body mass of {mass} is unlikely"));
    let slips = [other_unit(mass), times(mass, 1, 10), times(mass, 10, 1), times(mass, 1, 100)];
    let usual = |mass: &&MassText| (Mass::from_kg(40)..=Mass::from_kg(160)).contains(&mass.mass());
    Some(match slips.iter().find(usual) {
        Some(meant) => found.guess(span, meant.to_string()),
        None => found,
    })
}
