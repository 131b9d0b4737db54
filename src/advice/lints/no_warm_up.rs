//! Heavy work, and no warm-up planned before it.
//!
//! Before a maximum the handbook goes up in steps (fig. 17.1 [S]); two sets of six at 40 % and 80 % of
//! the training load are enough before training (Ribeiro et al. 2020, IJERPH 17:6882 [S]). Heavy is
//! a known share of the 1RM. Quiet where anything in the session prepares for it: `warm-up:` sets,
//! `before:`, lighter sets of the lift itself, or a note that speaks of it. A warm-up that the
//! programme plans elsewhere reaches bar-loaded compounds only, so other lifts are then left alone.

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::advice::words;
use crate::diagnostics::Code;
use crate::plan::{Equipment, Plan, PlannedExercise, PlannedSet, Session, SetKind};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::NoWarmUp,
    title: "heavy work in a session that plans no warm-up",
    bound: Some(Bound { value: 80, unit: "%", meaning: "of the 1RM, from" }),
    source: "Haff & Triplett 2016, Essentials of Strength Training and Conditioning, fig. 17.1; \
             Ribeiro et al. 2020, IJERPH 17:6882 (2 x 6 at 40 % and 80 % of the load)",
    area: Area::Session,
    on_sheet: false,
    find,
};

/// A lighter set of the same lift prepares for a heavy one below this percentage of the 1RM: common
/// practice, no source.
const RAMP_PERCENT: i64 = 70;

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let plan = context.plan;
    if speaks_of_it(&plan.notes) {
        return Vec::new();
    }
    let from = bound / &Exact::whole(100);
    let planned = context.prepares;
    let sessions = context.sessions().filter(|(.., session)| !is_prepared(session));
    let found =
        sessions.filter_map(|(athlete, _, session)| finding(athlete, session, planned, &from));
    let at_programme = |finding| Finding { at: plan.line.clone(), ..finding };
    // Where nothing is planned at all, it is said once, of the programme.
    if planned { found.collect() } else { found.map(at_programme).collect() }
}

fn finding(athlete: usize, session: &Session, planned: bool, from: &Exact) -> Option<Finding> {
    let mut lifts = session.exercises.iter().filter(|e| !planned || is_warmed_by_programme(e));
    let (exercise, set) = lifts.find_map(|e| Some((e, unprepared(e, from)?)))?;
    let message = format!(
        "{} goes up to {} ({}), but no warm-up is planned",
        session.day,
        exercise.name,
        words::set(set)
    );
    let help = "write `warm-up:` or `before:` in the programme or the day, such as \
                `warm-up: bar x 8, 40% x 6, 80% x 6`";
    let finding = Finding::session(athlete, session).with(exercise, "the heavy work");
    Some(
        finding
            .message(message, exercise.name.clone())
            .help(help)
            .weighs(set.share_of_1rm.clone()?),
    )
}

/// The heaviest heavy set, where no lighter set of the lift comes before it.
fn unprepared<'e>(exercise: &'e PlannedExercise, from: &Exact) -> Option<&'e PlannedSet> {
    let ramp = Exact::ratio(RAMP_PERCENT, 100);
    let known = || exercise.working().filter_map(|set| Some((set.share_of_1rm.as_ref()?, set)));
    let first = known().next()?;
    let heaviest = known().max_by(|(a, _), (b, _)| a.cmp(b))?;
    (*first.0 >= ramp && heaviest.0 >= from).then_some(heaviest.1)
}

/// Whether anything in the session prepares for what is heavy.
fn is_prepared(session: &Session) -> bool {
    session.before.is_some()
        || speaks_of_it(&session.notes)
        || session.exercises.iter().any(|e| has_warm_up(e) || speaks_of_it(&e.notes))
}

fn has_warm_up(exercise: &PlannedExercise) -> bool {
    exercise.sets.iter().any(|set| set.kind == SetKind::WarmUp)
}

/// Whether the plan has a warm-up anywhere.
#[must_use]
pub fn plans_one(plan: &Plan) -> bool {
    let mut sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    sessions.any(is_prepared)
}

/// Whether a `warm-up:` of the programme would have given it sets.
fn is_warmed_by_programme(exercise: &PlannedExercise) -> bool {
    exercise.compound == Some(true) && exercise.equipment == Some(Equipment::Barbell)
}

fn speaks_of_it(texts: &[String]) -> bool {
    texts.iter().any(|text| text.to_lowercase().contains("warm"))
}
