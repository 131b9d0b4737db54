//! From a checked programme to a [`Plan`]: athlete by athlete, week by week.
//!
//! The order of things: the line of the week, the phase, then rounding. Targets are exact
//! fractions until a load is made from real plates, bells or pins; every step is recorded as it
//! is taken.

mod gear;
mod groups;
mod load;
mod maxes;
mod session;
mod sets;
mod state;

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic, tidy};
use crate::plan::{AthletePlan, Plan};
use crate::quantity::Unit;
use crate::resolve::{Day, Programme, Trainee};

use gear::Gear;
use maxes::Maxes;
use state::LineState;

/// The language of labels where neither programme nor athlete names one.
const DEFAULT_LANGUAGE: &str = "en";

/// Works a programme out for the athletes that `wanted` picks by name.
#[must_use]
pub fn evaluate(programme: &Programme, wanted: &dyn Fn(&str) -> bool) -> (Plan, Vec<Diagnostic>) {
    let mut problems = Vec::new();
    let gear = Gear::new(programme);
    let mut athletes = Vec::new();
    let mut sets = 0;
    for (index, trainee) in programme.trainees.iter().enumerate() {
        if !wanted(&trainee.athlete.name) {
            continue;
        }
        let plan = one_athlete(programme, index, trainee, &gear, &mut problems);
        sets +=
            plan.sessions.iter().flat_map(|s| &s.exercises).map(|e| e.sets.len()).sum::<usize>();
        athletes.push(plan);
        if sets > bounds::PLANNED_SETS {
            problems.push(
                Diagnostic::new(
                    Code::PlanTooLarge,
                    programme.span,
                    format!("this programme plans more than {} sets", bounds::PLANNED_SETS),
                )
                .help("make it shorter, or split the squad over several programmes"),
            );
            break;
        }
    }
    tidy(&mut problems);
    let plan = Plan {
        programme: programme.name.clone(),
        language: programme.language.clone().unwrap_or_else(|| DEFAULT_LANGUAGE.to_owned()),
        weeks: programme.weeks,
        goal: programme.goal.clone(),
        supervision: programme.supervision.clone(),
        notes: programme.notes.clone(),
        athletes,
    };
    (plan, problems)
}

fn one_athlete(
    programme: &Programme,
    index: usize,
    trainee: &Trainee,
    gear: &Gear<'_>,
    problems: &mut Vec<Diagnostic>,
) -> AthletePlan {
    let gym = trainee.gym.and_then(|gym| programme.gyms.get(gym));
    let mut evaluator = Athlete {
        programme,
        index,
        trainee,
        gear,
        maxes: Maxes::new(programme, trainee),
        lines: BTreeMap::new(),
        reported: Reported::default(),
        problems,
    };
    let mut sessions = Vec::new();
    let mut planned = 0;
    'weeks: for week in 1..=programme.weeks {
        for (at, day) in programme.days.iter().enumerate() {
            let session = evaluator.session(week, at, day);
            planned += session.exercises.iter().map(|e| e.sets.len()).sum::<usize>();
            sessions.push(session);
            if planned > bounds::PLANNED_SETS {
                break 'weeks;
            }
        }
    }
    evaluator.passed_limits(&sessions);
    let unit = gym.map_or(Unit::Kg, |gym| gym.unit);
    AthletePlan {
        name: trainee.athlete.name.clone(),
        gym: gym.map(|gym| gym.name.clone()),
        unit,
        also_unit: trainee.athlete.unit.filter(|also| *also != unit),
        body_mass: trainee.athlete.body_mass,
        rack: trainee.athlete.rack.clone(),
        sessions,
    }
}

/// What has been reported for this athlete already: once is enough.
#[derive(Default)]
struct Reported {
    maxes: std::collections::BTreeSet<crate::resolve::ExerciseId>,
    equipment: std::collections::BTreeSet<crate::resolve::ExerciseId>,
    off_target: std::collections::BTreeSet<(usize, crate::plan::Order)>,
    gym: bool,
    body_mass: bool,
    too_many: bool,
}

/// One athlete's way through the programme.
struct Athlete<'a, 'p> {
    programme: &'a Programme,
    index: usize,
    trainee: &'a Trainee,
    gear: &'a Gear<'a>,
    maxes: Maxes<'a>,
    /// State of each line, by day and order.
    lines: BTreeMap<(usize, crate::plan::Order), LineState>,
    reported: Reported,
    problems: &'p mut Vec<Diagnostic>,
}

impl Athlete<'_, '_> {
    /// The first day of a week, and the date of a day in it.
    fn dates(&self, week: u32, day: &Day) -> (Option<Date>, Option<Date>) {
        let Some(starts) = self.programme.starts else { return (None, None) };
        let days = i64::from(week.saturating_sub(1)) * 7;
        let first = starts.checked_add(days.days()).ok();
        let date = day.weekday.zip(first).and_then(|(weekday, first)| {
            let ahead = i64::from(first.weekday().until(weekday));
            first.checked_add(ahead.days()).ok()
        });
        (first, date)
    }

    /// Notes limits that end before the programme does.
    fn passed_limits(&mut self, sessions: &[crate::plan::Session]) {
        let Some(last) = sessions.iter().filter_map(|s| s.date.or(s.week_starts)).max() else {
            return;
        };
        for limit in &self.trainee.athlete.limits {
            if let Some(until) = limit.until.filter(|until| *until < last) {
                self.problems.push(
                    Diagnostic::new(
                        Code::LimitPassed,
                        limit.span,
                        format!(
                            "the limit `{}` of {} ends on {until}; the programme runs to {last}",
                            limit.name.value, self.trainee.athlete.name
                        ),
                    )
                    .help(
                        "later cards no longer print it: ask whoever set it whether it has \
                         really ended",
                    ),
                );
            }
        }
    }
}
