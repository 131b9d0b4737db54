//! Results in a log.

use crate::bounds;
use crate::quantity::{Duration, Effort};
use crate::syntax::ast::{ResultLoad, ResultReps, ResultSet, ResultText, SignedMass};
use crate::syntax::build::{Build, P, clock_seconds};
use crate::syntax::grammar::Rule;

pub fn result(build: &mut Build<'_>, value: P<'_>) -> ResultText {
    let mut text =
        ResultText { to_fill: false, sets: None, skipped: None, effort: None, pain: None };
    for part in value.into_inner() {
        match part.as_rule() {
            Rule::to_fill => text.to_fill = true,
            Rule::skipped => text.skipped = Some(remark(part)),
            Rule::result_sets => {
                text.sets = Some(part.into_inner().map(|set| result_set(build, set)).collect());
            }
            Rule::result_note => note(build, part, &mut text),
            _ => {}
        }
    }
    text
}

/// The text in the brackets below a pair, if there is any.
pub fn remark(pair: P<'_>) -> Option<String> {
    let text = pair.into_inner().next()?.into_inner().next()?;
    Some(text.as_str().trim().to_owned())
}

fn note(build: &mut Build<'_>, pair: P<'_>, text: &mut ResultText) {
    let mut is_rpe = true;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::effort_scale => is_rpe = part.as_str() == "RPE",
            Rule::number => {
                let points = build.half_points(&part, is_rpe);
                text.effort = Some(if is_rpe { Effort::Rpe(points) } else { Effort::Rir(points) });
            }
            Rule::pain => {
                let points = build.first(part).map(|n| build.whole(&n, 0, 10, "points of pain"));
                text.pain = points
                    .and_then(|n| u16::try_from(n).ok())
                    .map(|n| crate::quantity::HalfPoints(n * 2));
            }
            _ => {}
        }
    }
}

fn result_set(build: &mut Build<'_>, pair: P<'_>) -> ResultSet {
    let mut set = ResultSet { reps: ResultReps::Reps(0), load: None };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::result_reps => set.reps = result_reps(build, part),
            Rule::result_load => set.load = build.first(part).map(|load| result_load(build, load)),
            _ => {}
        }
    }
    set
}

fn result_load(build: &mut Build<'_>, pair: P<'_>) -> ResultLoad {
    match pair.as_rule() {
        Rule::mass => ResultLoad::Mass(build.mass(pair)),
        _ => ResultLoad::Bodyweight(
            build.first(pair).map(|mass| SignedMass { mass: build.signed_mass(mass) }),
        ),
    }
}

fn result_reps(build: &mut Build<'_>, pair: P<'_>) -> ResultReps {
    let mut numbers = Vec::new();
    let mut unit = None;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::whole => numbers.push(part),
            Rule::clock => {
                let seconds = clock_seconds(part.as_str()).and_then(|s| u32::try_from(s).ok());
                return ResultReps::Seconds(seconds.unwrap_or(0));
            }
            other => unit = Some(other),
        }
    }
    let mut read = |index: usize, most: u32, what: &str| {
        numbers.get(index).map_or(0, |n| build.whole(n, 0, most, what))
    };
    match unit {
        Some(Rule::metres_unit) => ResultReps::Metres(read(0, bounds::METRES, "metres")),
        Some(Rule::minutes_unit) => ResultReps::Seconds(60 * read(0, 24 * 60, "minutes")),
        Some(_) => ResultReps::Seconds(read(0, Duration::MOST_SECONDS, "seconds")),
        None if numbers.len() > 1 => ResultReps::Sides(
            read(0, bounds::REPS, "repetitions"),
            read(1, bounds::REPS, "repetitions"),
        ),
        None => ResultReps::Reps(read(0, bounds::REPS, "repetitions")),
    }
}
