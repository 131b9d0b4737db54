//! What logs state besides the results of lines: body masses, maxes and efforts.

use super::{Context, athlete, doubt, likely, line, max};
use crate::catalogue::{Athlete, MaxKind};
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Effort, Exact, HalfPoints, Mass, fold_name};
use crate::source::Spanned;
use crate::strength::Equation;
use crate::syntax::ast::{
    Item, LineKey, MassText, MaxText, Name, Node, ResultLoad, ResultText, Value,
};
use crate::syntax::keys::Key;

/// A max tested again is doubted outside these shares of the one before, in percent.
const LEAST_OF_BEFORE: i64 = 50;
const MOST_OF_BEFORE: i64 = 160;
/// More repetitions in reserve than anybody can tell.
const MOST_RESERVE: HalfPoints = HalfPoints(2 * 10);

impl Context<'_> {
    /// The sessions of a log.
    pub(super) fn log(&self, athlete: &Name, sessions: &[Node], problems: &mut Vec<Diagnostic>) {
        let folded = fold_name(&athlete.value);
        let athlete = self.definitions.athletes.iter().find(|a| fold_name(&a.name) == folded);
        for node in sessions.iter().flat_map(|session| &session.children) {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                // Beside a known one it is held against that.
                (LineKey::Key(Key::BodyMass), Value::Mass(mass))
                    if athlete.is_none_or(|athlete| athlete.body_mass.is_none()) =>
                {
                    let found = athlete::body_mass(*mass, value.span, None);
                    problems
                        .extend(found.map(|found| Diagnostic { code: Code::LogUnlikely, ..found }));
                }
                (LineKey::Named(Key::Max, lift), Value::Max(max)) => {
                    problems.extend(max::estimate(max));
                    let by_itself = self.exercise(lift).and_then(|lift| max::by_itself(lift, max));
                    let found = by_itself.or_else(|| self.tested_again(lift, max, athlete?));
                    problems.extend(found);
                }
                (_, Value::Result(result)) => {
                    problems.extend(result_in_doubt(&Spanned::new(result, value.span)));
                }
                _ => {}
            }
        }
    }

    /// A max far from the one in the athlete's file.
    fn tested_again(
        &self,
        lift: &Name,
        max: &Spanned<MaxText>,
        athlete: &Athlete,
    ) -> Option<Diagnostic> {
        let id = self.definitions.exercise(&lift.value)?;
        let before = athlete
            .maxes
            .iter()
            .find(|before| self.definitions.exercise(&before.lift.value) == Some(id))?;
        let MaxKind::Lifted { reps: reps_before, load, bodyweight: false } = before.kind else {
            return None;
        };
        let factor = Equation::default().factor(&Exact::whole(i64::from(reps_before)))?;
        let known = &Exact::from_mass(load) * &factor;
        let (reps, mass) = max::lifted(&max.value)?;
        let fits = |mass: MassText| {
            let percent = &Exact::from_mass(max::one_rm(reps, mass)) * &Exact::whole(100);
            &known * &Exact::whole(LEAST_OF_BEFORE) <= percent
                && percent <= &known * &Exact::whole(MOST_OF_BEFORE)
        };
        if known <= Exact::from_mass(Mass::ZERO) || fits(mass) {
            return None;
        }
        let message = format!(
            "a max of {mass} for {} is logged, but the max before it was {}",
            lift.value,
            load.show(mass.unit)
        );
        let found = doubt(Code::UnlikelyMax, max.span, message).and(before.span, "the one before");
        Some(match likely(mass, fits) {
            Some(meant) => found.guess(max.span, max::with_mass(&max.value, meant).to_string()),
            None => found,
        })
    }
}

/// A result whose effort or body-mass load is hardly meant.
fn result_in_doubt(result: &Spanned<&ResultText>) -> Option<Diagnostic> {
    if let Some(Effort::Rir(points)) = result.value.effort
        && points > MOST_RESERVE
    {
        let message = format!("nobody can judge that {points} repetitions are left");
        return Some(doubt(Code::LogUnlikely, result.span, message));
    }
    let sets = result.value.sets.iter().flatten();
    let by = sets.filter_map(|set| match &set.load {
        Some(ResultLoad::Bodyweight(Some(by))) => Some(*by),
        _ => None,
    });
    // The place of the load in the result is not known: no fix.
    by.into_iter().find_map(|by| line::on_body(by, result.span)).map(|found| Diagnostic {
        code: Code::LogUnlikely,
        fixes: Vec::new(),
        ..found
    })
}
