//! Repetitions in heavy zones.
//!
//! The classic table gives repetitions a session in each zone of the 1RM: 10–20 at 80–89 %, 4–10 from
//! 90 % on (Laputin & Oleshko, Managing the Training of Weightlifters, Kiev 1982, ch. III; numbers
//! [S2]/[M]; bands differ between copies). It is fitted to the snatch and the clean and jerk, and
//! the handbook's guidelines for growth go past it (3–6 sets of 8 at 80 % [S]), so twice its most are
//! let pass in a slow lift, and the lighter zones are left alone.
//! Repetitions count as written, whether or not they are within reach: that is another advice.

use std::collections::BTreeMap;

use crate::advice::lint::{Area, Bound, Finding, Lint, LintContext};
use crate::diagnostics::Code;
use crate::plan::{PlannedExercise, PlannedSet, Session};
use crate::quantity::Exact;

/// The lint.
pub const LINT: Lint = Lint {
    code: Code::ZoneVolume,
    title: "repetitions of one lift in a session at 80–89 % and from 90 % on",
    bound: Some(Bound {
        value: 200,
        unit: "%",
        meaning: "repetitions as a share of the table's most, more than",
    }),
    source: "Laputin & Oleshko, Managing the Training of Weightlifters, Kiev 1982, ch. III; margin \
             is common practice",
    area: Area::Load,
    on_sheet: false,
    find,
};

/// A zone of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Zone {
    /// From this percentage of the 1RM on.
    pub from: i64,
    /// In words.
    pub name: &'static str,
    /// The most repetitions a session.
    pub most: i64,
}

/// The heavy zones of the table, heaviest first.
pub const ZONES: [Zone; 2] = [
    Zone { from: 90, name: "from 90 % on", most: 10 },
    Zone { from: 80, name: "at 80–89 %", most: 20 },
];

fn find(context: &LintContext<'_>, bound: &Exact) -> Vec<Finding> {
    let mut found = Vec::new();
    for (athlete, _, session) in context.sessions() {
        for (zone, (first, reps)) in zones(session) {
            let Some(zone) = ZONES.get(zone.0) else { continue };
            let most = &Exact::whole(zone.most) * &(bound / &Exact::whole(100));
            let reps_made = Exact::whole(reps);
            if reps_made <= most {
                continue;
            }
            let message = format!("{reps} repetitions of {} {}", first.name, zone.name);
            let help = format!(
                "the classic table has at most {} there: do fewer sets, or make some of them lighter",
                zone.most
            );
            let finding = Finding::exercise(athlete, session, first);
            let finding = finding.message(message.clone(), message).help(help);
            found.push(finding.weighs(&reps_made - &most));
        }
    }
    found
}

/// A zone's index, and a lift's name.
type InZone<'p> = (usize, &'p str);

/// Repetitions of each lift in each heavy zone, with the lift's first line.
fn zones(session: &Session) -> BTreeMap<InZone<'_>, (&PlannedExercise, i64)> {
    let mut all: BTreeMap<InZone<'_>, (&PlannedExercise, i64)> = BTreeMap::new();
    for exercise in session.exercises.iter().filter(|e| !e.projected) {
        for set in exercise.working() {
            let Some(zone) = zone(set) else { continue };
            let reps = i64::from(set.reps.work.least_reps().unwrap_or(0));
            all.entry((zone, &exercise.name)).or_insert((exercise, 0)).1 += reps;
        }
    }
    all
}

fn zone(set: &PlannedSet) -> Option<usize> {
    let share = set.share_of_1rm.as_ref()?;
    ZONES.iter().position(|zone| *share >= Exact::ratio(zone.from, 100))
}
