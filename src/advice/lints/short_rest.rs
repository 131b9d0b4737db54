//! Rest shorter than the load intends.
//!
//! Strength work, 85 % of the 1RM and more, is given 2–5 min of rest (the handbook's tables 17.9–17.12 [S]; the ACSM position stand 2009 says 3–5 min for 1–6RM [S]; the
//! trained rest more than 2 min, Grgic et al. 2018, Sports Med 48:137–151 [S]). In a superset the
//! partner's set is rest too: what counts is the time from the end of a set to the next of the same
//! exercise. Clusters, intervals, circuits and lines that state no rest are left alone.

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Group, GroupKind, PlannedExercise, PlannedSet, Session};
use crate::quantity::{Duration, Exact, Work};
use crate::tally::time::set_seconds;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::ShortRest,
    title: "rest between heavy sets that is too short for strength work",
    bound: Some(Bound {
        value: 120,
        unit: "s",
        meaning: "rest from 85 % of the 1RM on, shorter than",
    }),
    source: "Haff & Triplett 2016, Essentials of Strength Training and Conditioning, ch. 17, rest for \
             strength 2–5 min; Grgic et al. 2018, Sports Med 48:137–151",
    area: Area::Load,
    on_sheet: false,
    find,
};

/// Heavy for strength, in percent of the 1RM: the handbook's table [S].
pub const STRENGTH_PERCENT: i64 = 85;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions() {
        for group in &session.groups {
            let members: Vec<&PlannedExercise> =
                session.exercises.iter().filter(|e| e.order.letter == group.letter).collect();
            for exercise in &members {
                found.extend(finding(athlete, session, group, &members, exercise, bound));
            }
        }
    }
    found
}

fn finding(
    athlete: usize,
    session: &Session,
    group: &Group,
    members: &[&PlannedExercise],
    exercise: &PlannedExercise,
    bound: &Exact,
) -> Option<Finding> {
    let sets: Vec<&PlannedSet> = exercise.working().collect();
    // After the last set nothing heavy follows.
    let pairs = sets.windows(2).filter_map(|pair| match pair {
        [set, next] if is_strength(set) && is_strength(next) => {
            Some((rest_after(group, members, exercise, set)?, *set))
        }
        _ => None,
    });
    let (rest, set) =
        pairs.reduce(|best, pair| if is_worse(&pair, &best) { pair } else { best })?;
    let missing = bound - &Exact::whole(i64::try_from(rest).unwrap_or(i64::MAX));
    if missing <= Exact::zero() {
        return None;
    }
    let shown = Duration::seconds(u32::try_from(rest).unwrap_or(u32::MAX));
    // The shortest rest, and of equal ones the heaviest set.
    let message =
        format!("{} ({}) gets {shown} of rest between sets", exercise.name, words::set(set));
    let finding = Finding::exercise(athlete, session, exercise);
    let help = "heavy sets need two to five minutes: rest longer, or lift less";
    Some(
        finding
            .message(message, exercise.name.clone())
            .help(help)
            .weighs(missing)
            .then_by(set.share_of_1rm.clone()),
    )
}

fn is_worse((rest, set): &(u64, &PlannedSet), (best, heaviest): &(u64, &PlannedSet)) -> bool {
    rest < best || (rest == best && set.share_of_1rm > heaviest.share_of_1rm)
}

fn is_strength(set: &PlannedSet) -> bool {
    let heavy =
        set.share_of_1rm.as_ref().is_some_and(|s| *s >= Exact::ratio(STRENGTH_PERCENT, 100));
    heavy
        && matches!(set.reps.work, Work::Reps(_))
        && set.every.is_none()
        && set.rest_pause.is_none()
}

/// Seconds from the end of a set to the next set of the same exercise; `None` where nothing is
/// stated.
fn rest_after(
    group: &Group,
    members: &[&PlannedExercise],
    exercise: &PlannedExercise,
    set: &PlannedSet,
) -> Option<u64> {
    let others = members.iter().filter(|other| other.order != exercise.order);
    let meanwhile: u64 =
        others.clone().filter_map(|other| other.working().next()).map(set_seconds).sum();
    let stated = group.rest.map(seconds);
    match group.how {
        GroupKind::Single => set.rest.map(seconds),
        GroupKind::Superset | GroupKind::GiantSet => stated.map(|rest| rest + meanwhile),
        GroupKind::Paired => {
            let rests = u64::try_from(others.count() + 1).unwrap_or(1);
            stated.map(|rest| rest * rests + meanwhile)
        }
        GroupKind::Circuit { .. } | GroupKind::Every { .. } | GroupKind::RoundsIn { .. } => None,
    }
}

fn seconds(duration: Duration) -> u64 {
    u64::from(duration.as_seconds())
}
