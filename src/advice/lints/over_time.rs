//! A session that takes longer than it is given.
//!
//! The estimate adds up sets (tempo times repetitions), rest, ramps, and the way from station to
//! station with its plates; it is within a quarter of the session lengths of Schoenfeld et al. 2019,
//! Med Sci Sports Exerc 51(1):94–103 [S2] (`tally::time`). A tenth over is let pass: common practice,
//! no source. Supersets, drop sets and rest-pause roughly halve training time (Iversen et al. 2021,
//! Sports Med 51:2079–2095 [S]).

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::Session;
use crate::quantity::Exact;
use crate::tally::time::SessionTime;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::OverTime,
    title: "a session that takes longer than its `time:`",
    bound: Some(Bound {
        value: 10,
        unit: "%",
        meaning: "estimated time past the time given, more than",
    }),
    source: "estimate checked against Schoenfeld et al. 2019, Med Sci Sports Exerc 51(1):94–103",
    area: Area::Session,
    on_sheet: false,
    find,
};

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions() {
        found.extend(finding(athlete, session, bound));
    }
    found
}

fn finding(athlete: usize, session: &Session, bound: &Exact) -> Option<Finding> {
    let given = u64::from(session.time?.as_seconds());
    let time = SessionTime::of(session);
    let whole = |n: u64| Exact::whole(i64::try_from(n).unwrap_or(i64::MAX));
    let allowed = &whole(given) * &(&Exact::one() + &(bound / &Exact::whole(100)));
    let over = &whole(time.total()) - &allowed;
    if over <= Exact::zero() {
        return None;
    }
    let minutes = |seconds: u64| (seconds + 30) / 60;
    let about = time.minutes();
    let message =
        format!("{} takes about {about} min, but has only {} min", session.day, minutes(given));
    let parts = [
        ("rest", time.rest),
        ("sets", time.work),
        ("ramps", time.ramps),
        ("changes", time.changes),
        ("before and after", time.around),
    ];
    let parts = parts.iter().filter(|(_, seconds)| minutes(*seconds) > 0);
    let parts: Vec<String> =
        parts.map(|(word, seconds)| format!("{word} {}", minutes(*seconds))).collect();
    let help = format!(
        "in minutes: {}. Put accessories into supersets, remove the last one, or give the session more time",
        parts.join(", ")
    );
    let short = format!("about {about} min");
    Some(Finding::session(athlete, session).message(message, short).help(help).weighs(over))
}
