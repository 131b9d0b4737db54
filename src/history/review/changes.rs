//! What changes in the next session of each line, and why.

use jiff::civil::Date;
use serde::Serialize;

use crate::plan::{
    Implement, Location, Order, PlannedExercise, PlannedSet, Session, Step, StepKind,
};
use crate::quantity::{Exact, Mass, Reps};
use crate::tally::kg;

use super::results::start;
use super::{ReviewedSession, as_written, is_done, is_past};

/// The change of one line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct NextSession {
    /// The week of the next session.
    pub week: u32,
    /// The day's name.
    pub day: String,
    /// Its date, if the programme has a start date.
    pub date: Option<Date>,
    /// The order letter.
    pub order: Order,
    /// The exercise.
    pub exercise: String,
    /// What was planned in the last session that was done.
    pub last: Prescribed,
    /// What is planned in the next session.
    pub next: Prescribed,
    /// The reasons.
    pub reasons: Vec<Reason>,
}

/// The working sets of a line, in short form.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Prescribed {
    /// Number of sets.
    pub sets: u32,
    /// The repetitions of the heaviest set; in JSON, in the notation's words.
    #[serde(serialize_with = "as_written")]
    pub reps: Reps,
    /// The heaviest load: one dumbbell of a pair, or the load added to the body mass. `None` if it
    /// is chosen on the day.
    #[serde(rename = "load_kg")]
    pub load: Option<Mass>,
    /// Whether there is one in each hand.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub pair: bool,
    /// Whether it is added to the body mass.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub bodyweight: bool,
    /// Whether the load is estimated from an effort.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub about: bool,
}

/// Why a line changes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "because", rename_all = "kebab-case")]
pub enum Reason {
    /// A rule acted.
    Rule {
        /// The rule, in the notation's words.
        rule: String,
        /// The session it acted on.
        session: String,
        /// Whether that session is not logged yet, so that the change happens only if it goes as
        /// planned.
        projected: bool,
        /// The line of the rule.
        source: Option<Location>,
    },
    /// The max that the load is based on was tested again.
    NewMax {
        /// The lift.
        lift: String,
        /// The new max.
        #[serde(rename = "now_kg", serialize_with = "kg")]
        now: Exact,
        /// The line of the new max.
        source: Location,
    },
    /// A phase starts or ends.
    Phase {
        /// The phase of the next session.
        name: Option<String>,
        /// The phase of the last one.
        before: Option<String>,
    },
    /// The programme's own progression.
    Programme {
        /// The percentage in the line last time.
        #[serde(skip_serializing_if = "Option::is_none")]
        from_percent: Option<String>,
        /// The percentage in the line now.
        #[serde(skip_serializing_if = "Option::is_none")]
        to_percent: Option<String>,
        /// The line of the programme.
        source: Location,
    },
}

/// Compares, for each day, the last session that was done with the first future one.
pub fn changes(sessions: &[Session]) -> Vec<NextSession> {
    let mut days: Vec<&str> = Vec::new();
    for session in sessions {
        if !days.contains(&session.day.as_str()) {
            days.push(&session.day);
        }
    }
    let mut all = Vec::new();
    for day in days {
        let of_day = || sessions.iter().filter(|session| session.day == day);
        let last = of_day().rfind(|session| is_done(session));
        let next = of_day().find(|session| !is_past(session));
        let (Some(last), Some(next)) = (last, next) else { continue };
        for then in &last.exercises {
            let now = next.exercises.iter().find(|exercise| exercise.order == then.order);
            all.extend(now.and_then(|now| change((last, then), (next, now))));
        }
    }
    all.sort_by_key(|change| change.week);
    all
}

type LineOf<'a> = (&'a Session, &'a PlannedExercise);

fn change(last: LineOf<'_>, next: LineOf<'_>) -> Option<NextSession> {
    let (then, now) = (prescribed(last.1)?, prescribed(next.1)?);
    let reasons = reasons(last, next, then.sets != now.sets);
    // A rule that only holds back the programme's increase is a reason too.
    let by_rule =
        reasons.iter().any(|reason| matches!(reason, Reason::Rule { projected: false, .. }));
    if then == now && last.1.name == next.1.name && !by_rule {
        return None;
    }
    Some(NextSession {
        week: next.0.week,
        day: next.0.day.clone(),
        date: next.0.date,
        order: next.1.order,
        exercise: next.1.name.clone(),
        reasons,
        last: then,
        next: now,
    })
}

fn heaviest(exercise: &PlannedExercise) -> Option<&PlannedSet> {
    let load = |set: &PlannedSet| set.load.as_ref().map(|built| built.mass);
    // Among equal loads, the first.
    exercise.working().reduce(|a, b| if load(b) > load(a) { b } else { a })
}

fn prescribed(exercise: &PlannedExercise) -> Option<Prescribed> {
    let set = heaviest(exercise)?;
    let how = set.load.as_ref().map(|built| &built.how);
    Some(Prescribed {
        sets: u32::try_from(exercise.working().count()).unwrap_or(u32::MAX),
        reps: set.reps.clone(),
        load: set.load.as_ref().map(|built| built.mass),
        pair: matches!(how, Some(Implement::Dumbbells | Implement::Kettlebells)),
        bodyweight: set.bodyweight,
        about: set.about,
    })
}

fn reasons(last: LineOf<'_>, next: LineOf<'_>, other_sets: bool) -> Vec<Reason> {
    let steps = |exercise| -> Vec<&Step> {
        heaviest(exercise).map(|set| set.derivation.iter().collect()).unwrap_or_default()
    };
    let (then, now) = (steps(last.1), steps(next.1));
    let mut all: Vec<Reason> = Vec::new();
    // A rule that acted on the last session. Changes of repetitions and sets leave no step in a
    // derivation.
    if let Some(fired) = last.1.fired.as_ref().filter(|fired| !fired.rule.ends_with(": hold")) {
        all.push(Reason::Rule {
            rule: fired.rule.clone(),
            session: in_words(last.0),
            projected: fired.projected,
            source: Some(fired.line.clone()),
        });
    }
    for &step in now.iter().filter(|step| !then.contains(step)) {
        let (StepKind::Rule { rule, session, projected }
        | StepKind::MaxRule { rule, session, projected }) = &step.kind
        else {
            continue;
        };
        let known = then.iter().any(|old| old.kind == step.kind);
        let reason = Reason::Rule {
            rule: rule.clone(),
            session: session.clone(),
            projected: *projected,
            source: step.line.clone(),
        };
        if !known && !all.contains(&reason) {
            all.push(reason);
        }
    }
    for (lift, max, line) in now.iter().copied().filter_map(start) {
        if then.iter().copied().filter_map(start).any(|(old, ..)| old == lift)
            && !then.iter().copied().filter_map(start).any(|old| old == (lift, max, line))
        {
            let (lift, now) = (lift.to_owned(), max.clone());
            all.push(Reason::NewMax { lift, now, source: line.clone() });
        }
    }
    let scaled = |steps: &[&Step]| {
        let phase = steps.iter().find(|step| matches!(step.kind, StepKind::Phase { .. }));
        phase.map(|step| step.op.clone())
    };
    if last.0.phase != next.0.phase && (other_sets || scaled(&then) != scaled(&now)) {
        let (name, before) = (next.0.phase.clone(), last.0.phase.clone());
        all.push(Reason::Phase { name, before });
    }
    let (from, to) = (percent(&then), percent(&now));
    if from != to || all.is_empty() {
        let both = from.as_ref().zip(to.as_ref()).is_some_and(|_| from != to);
        all.push(Reason::Programme {
            from_percent: from.filter(|_| both),
            to_percent: to.filter(|_| both),
            source: next.1.line.clone(),
        });
    }
    all
}

fn percent(steps: &[&Step]) -> Option<String> {
    steps.iter().rev().find_map(|step| match &step.kind {
        StepKind::Percent { percent } => Some(percent.clone()),
        StepKind::Step { to_percent, .. } => to_percent.clone(),
        _ => None,
    })
}

/// A session's name as in derivations: `week 3, Catch (2026-01-19)`.
fn in_words(session: &Session) -> String {
    let ReviewedSession { week, day, date } = ReviewedSession::of(session);
    let date = date.map(|date| format!(" ({date})")).unwrap_or_default();
    format!("week {week}, {day}{date}")
}
