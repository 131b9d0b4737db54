//! The content of a rack sheet: a session of the whole squad, by lift and bar.

use crate::plan::{AthletePlan, Implement, Order, Plan, PlannedExercise, Session};
use crate::quantity::Mass;
use crate::sheets::runs::{Run, work_runs};

use super::order::{Sets, fewest_moves};

/// A session of the squad: all athletes who do the same day in the same week.
#[derive(Clone, Debug)]
pub struct Gathering<'a> {
    /// The athletes, with their sessions.
    pub present: Vec<(&'a AthletePlan, &'a Session)>,
}

/// A lift of a session.
#[derive(Clone, Debug)]
pub struct Lift<'a> {
    /// Its order letter.
    pub order: Order,
    /// Its name.
    pub name: &'a str,
    /// The racks and bars where it is done.
    pub stations: Vec<Station<'a>>,
}

/// One bar of one rack, or other equipment that athletes share.
#[derive(Clone, Debug)]
pub struct Station<'a> {
    /// Whether it is a bar, at which athletes take turns.
    pub barred: bool,
    /// The rack.
    pub rack: Option<&'a str>,
    /// The gym.
    pub gym: Option<&'a str>,
    /// The athletes in the order in which they take turns.
    pub entries: Vec<LiftEntry<'a>>,
}

/// One athlete's part in a lift.
#[derive(Clone, Debug)]
pub struct LiftEntry<'a> {
    /// The athlete.
    pub athlete: &'a AthletePlan,
    /// The athlete's session.
    pub session: &'a Session,
    /// The planned exercise.
    pub exercise: &'a PlannedExercise,
    /// The runs of working sets.
    pub runs: Vec<Run<'a>>,
}

/// The sessions of a plan in the order in which they are done.
#[must_use]
pub fn gatherings(plan: &Plan) -> Vec<Gathering<'_>> {
    let mut out: Vec<Gathering<'_>> = Vec::new();
    for athlete in &plan.athletes {
        for session in &athlete.sessions {
            let same = |found: &&mut Gathering<'_>| {
                let first = found.present.first();
                first.is_some_and(|(_, other)| {
                    (other.week, &other.day) == (session.week, &session.day)
                })
            };
            match out.iter_mut().find(same) {
                Some(found) => found.present.push((athlete, session)),
                None => out.push(Gathering { present: vec![(athlete, session)] }),
            }
        }
    }
    // The sort is stable, so days keep the order of the plan.
    out.sort_by_key(|found| found.present.first().map(|(_, session)| session.week));
    out
}

impl<'a> Gathering<'a> {
    /// The lifts, by order letter. A replacement follows the lift that it replaces.
    #[must_use]
    pub fn lifts(&self) -> Vec<Lift<'a>> {
        let mut lifts: Vec<(Order, &'a str, Vec<LiftEntry<'a>>)> = Vec::new();
        for (athlete, session) in &self.present {
            for exercise in &session.exercises {
                let entry = LiftEntry { athlete, session, exercise, runs: work_runs(exercise) };
                let same = |lift: &&mut (Order, &'a str, Vec<LiftEntry<'a>>)| {
                    lift.0 == exercise.order && lift.1 == exercise.name
                };
                match lifts.iter_mut().find(same) {
                    Some((.., entries)) => entries.push(entry),
                    None => lifts.push((exercise.order, &exercise.name, vec![entry])),
                }
            }
        }
        // The programme's exercise comes before its replacements.
        let replaced = |entries: &[LiftEntry<'_>]| {
            entries.iter().all(|entry| entry.exercise.replaces.is_some())
        };
        lifts.sort_by_key(|(order, _, entries)| (*order, replaced(entries)));
        let lift = |(order, name, entries)| Lift { order, name, stations: stations(entries) };
        lifts.into_iter().map(lift).collect()
    }
}

/// What identifies a bar: name, mass, collars.
type BarKey<'a> = Option<(Option<&'a str>, Mass, Mass)>;

/// The bar of an athlete's sets.
fn bar<'a>(entry: &LiftEntry<'a>) -> BarKey<'a> {
    entry.runs.iter().find_map(|run| match &run.set.load.as_ref()?.how {
        Implement::Bar { bar, name, collars, .. } => Some((name.as_deref(), *bar, *collars)),
        _ => None,
    })
}

/// Groups entries by gym, rack and bar, lightest bars first. Within each group, the order is the
/// one that moves the fewest plates.
fn stations(entries: Vec<LiftEntry<'_>>) -> Vec<Station<'_>> {
    let place = |entry: &LiftEntry<'_>| {
        let rack = entry.athlete.rack.as_deref();
        // Numbered racks are sorted by number: 2 before 10.
        let number = rack.and_then(|rack| rack.trim().parse::<u32>().ok());
        (rack.is_none(), number.is_none(), number, rack.map(str::to_owned))
    };
    // Equipment that is not shared is not divided by racks: athletes are listed by rack in one
    // table.
    let barred = entries.iter().any(|entry| bar(entry).is_some());
    let mut keyed: Vec<_> = entries
        .into_iter()
        .map(|entry| {
            let gym = entry.athlete.gym.clone();
            let bar =
                bar(&entry).map(|(name, mass, collars)| (mass, name.map(str::to_owned), collars));
            ((gym, place(&entry), bar), entry)
        })
        .collect();
    keyed.sort_by(|(a, _), (b, _)| a.cmp(b));
    let mut out: Vec<Station<'_>> = Vec::new();
    let together = |a: &(Option<String>, _, _), b: &(Option<String>, _, _)| {
        if barred { a == b } else { a.0 == b.0 }
    };
    for run in keyed.chunk_by(|(a, _), (b, _)| together(a, b)) {
        let entries: Vec<LiftEntry<'_>> = run.iter().map(|(_, entry)| entry.clone()).collect();
        let first = entries.first().map(|entry| entry.athlete);
        out.push(Station {
            barred,
            rack: first.and_then(|athlete| athlete.rack.as_deref()).filter(|_| barred),
            gym: first.and_then(|athlete| athlete.gym.as_deref()),
            entries: if barred { in_turn(entries) } else { entries },
        });
    }
    out
}

/// Lightest first, then in the order that moves the fewest plates.
fn in_turn(mut entries: Vec<LiftEntry<'_>>) -> Vec<LiftEntry<'_>> {
    let heaviest = |entry: &LiftEntry<'_>| {
        let loads = entry.runs.iter().filter_map(|run| run.set.load.as_ref());
        loads.map(|built| built.mass).max()
    };
    entries.sort_by_key(heaviest);
    let sets: Vec<Sets<'_>> = entries
        .iter()
        .map(|entry| {
            let sets = entry.runs.iter().flat_map(|run| std::iter::repeat_n(run.set, run.count));
            sets.map(crate::plan::PlannedSet::plates_per_side).collect()
        })
        .collect();
    let order = fewest_moves(&sets);
    drop(sets);
    order.into_iter().filter_map(|at| entries.get(at).cloned()).collect()
}
