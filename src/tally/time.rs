//! The duration of a session: a simple model for tables and advice. It is never printed on a card.
//!
//! A set takes its tempo times its repetitions, or [`REP`] for each repetition if no tempo is
//! given: the middle of the 2–4 s that follow from 1–2 s each way (ACSM position stand 2009,
//! Ratamess et al., Med Sci Sports Exerc 41(3):687–708 [C]). Rest is what the programme prescribes.
//! The athlete walks to the next exercise during the rest after the last set; if that takes longer,
//! because of plates to load, the longer time counts. All other assumptions are constants below:
//! common practice, no source. Compared with the session lengths of Schoenfeld et al. 2019 (Med Sci
//! Sports Exerc 51(1):94–103 [S2]), the model is accurate to a quarter; `tests/trade/` checks that.

use crate::plan::{Group, GroupKind, PlannedExercise, PlannedSet, Session, SetKind};
use crate::quantity::{Duration, RepCount, TempoPart, Work};

/// Seconds for a repetition without a tempo.
pub const REP: u64 = 3;
/// Seconds for a part of a tempo done as fast as possible.
const EXPLOSIVE: u64 = 1;
/// Repetitions assumed for an open set without a number (AMRAP).
const OPEN_REPS: u64 = 10;
/// Seconds for a metre of carrying or crawling.
const METRE: u64 = 1;
/// Seconds to change sides if no rest between them is given.
const OTHER_SIDE: u64 = 5;
/// Seconds between the parts of a cluster if no pause is given.
const CLUSTER_PAUSE: u64 = 20;
/// Number of pauses in a rest-pause set.
const REST_PAUSES: u64 = 2;
/// Seconds to reduce the load for a drop set.
const DROP: u64 = 10;
/// Seconds after a ramp set: a short rest and the next plates.
const AFTER_RAMP: u64 = 45;
/// Seconds of rest if the programme gives none.
pub const REST: u64 = 90;
/// Seconds from one member of a group to the next.
const NEXT_MEMBER: u64 = 10;
/// Seconds to walk to the next station and get ready.
const NEXT_STATION: u64 = 60;
/// Seconds to put a pair of plates on a bar or take one off.
const PLATE_PAIR: u64 = 10;

/// The parts of a session's duration, in seconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SessionTime {
    /// Time before the first exercise and after the last, if the texts contain minutes.
    pub around: u64,
    /// Ramp sets with loading their plates.
    pub ramps: u64,
    /// Working sets and drop sets.
    pub work: u64,
    /// Rest between sets.
    pub rest: u64,
    /// Changing exercises and loading, beyond the rest before it.
    pub changes: u64,
}

impl SessionTime {
    /// The duration of a session by the model.
    #[must_use]
    pub fn of(session: &Session) -> Self {
        let mut time = Self::default();
        let texts = [&session.before, &session.after];
        time.around = texts.into_iter().flatten().map(|text| stated_minutes(text) * 60).sum();
        for (place, group) in session.groups.iter().enumerate() {
            let members: Vec<&PlannedExercise> =
                session.exercises.iter().filter(|e| e.order.letter == group.letter).collect();
            let after = time.group(group, &members);
            if let Some(next) = session.groups.get(place + 1) {
                let coming = session.exercises.iter().find(|e| e.order.letter == next.letter);
                let change = NEXT_STATION + loading(coming.and_then(|e| e.sets.first()));
                time.rest += after;
                time.changes += change.saturating_sub(after);
            }
        }
        time
    }

    /// The sum of all parts, in seconds.
    #[must_use]
    pub fn total(&self) -> u64 {
        self.around + self.ramps + self.work + self.rest + self.changes
    }

    /// The sum in minutes, with halves rounded up.
    #[must_use]
    pub fn minutes(&self) -> u32 {
        u32::try_from((self.total() + 30) / 60).unwrap_or(u32::MAX)
    }

    /// Adds a group and returns the rest after its last set, which may overlap with the walk to the
    /// next exercise.
    fn group(&mut self, group: &Group, members: &[&PlannedExercise]) -> u64 {
        for set in members.iter().flat_map(|e| &e.sets).filter(|s| s.kind == SetKind::WarmUp) {
            self.ramps += set_seconds(set) + AFTER_RAMP;
        }
        let stated = group.rest.map(in_seconds);
        let (between, change) = match &group.how {
            GroupKind::Every { length, .. } | GroupKind::RoundsIn { length } => {
                self.work += in_seconds(*length);
                return stated.unwrap_or(0);
            }
            GroupKind::Circuit { change, .. } => (0, change.map_or(NEXT_MEMBER, in_seconds)),
            GroupKind::Paired => (stated.unwrap_or(REST), 0),
            GroupKind::Single | GroupKind::Superset | GroupKind::GiantSet => (0, NEXT_MEMBER),
        };
        let rounds: Vec<Vec<&[PlannedSet]>> = members.iter().map(|e| rounds_of(e)).collect();
        let most = rounds.iter().map(Vec::len).max().unwrap_or(0);
        let mut after = 0;
        for round in 0..most {
            let sets: Vec<&[PlannedSet]> =
                rounds.iter().filter_map(|member| member.get(round).copied()).collect();
            let last_round = round + 1 == most;
            for (place, set) in sets.iter().enumerate() {
                let seconds: u64 = set.iter().map(set_seconds).sum();
                let drops = u64::try_from(set.len().saturating_sub(1)).unwrap_or(0);
                self.work += seconds + drops * DROP;
                let own = set.last().and_then(|set| set.rest.map(in_seconds));
                let interval = set.first().and_then(|set| set.every).map(in_seconds);
                if place + 1 < sets.len() {
                    self.rest += between;
                    self.changes += change;
                    continue;
                }
                after = match interval {
                    Some(interval) => interval.saturating_sub(seconds),
                    None => stated.or(own).unwrap_or(REST),
                };
                if !last_round {
                    self.rest += after;
                }
            }
        }
        after
    }
}

/// The working sets of an exercise, each with its drop sets.
fn rounds_of(exercise: &PlannedExercise) -> Vec<&[PlannedSet]> {
    let first = exercise.sets.iter().position(|set| set.kind != SetKind::WarmUp);
    let sets = exercise.sets.get(first.unwrap_or(exercise.sets.len())..).unwrap_or(&[]);
    sets.chunk_by(|_, next| next.kind == SetKind::Drop).collect()
}

/// Duration of one set in seconds, with both sides of a unilateral set. A range counts with its
/// middle, an open set with its fewest repetitions.
#[must_use]
pub fn set_seconds(set: &PlannedSet) -> u64 {
    let rep = set.tempo.map_or(REP, |tempo| {
        let part = |part: TempoPart| match part {
            TempoPart::Seconds(seconds) => u64::from(seconds),
            TempoPart::Explosive => EXPLOSIVE,
        };
        tempo.0.into_iter().map(part).sum::<u64>().max(1)
    });
    let one_side = match &set.reps.work {
        Work::Reps(count) => middle(*count) * rep,
        Work::Amrap => OPEN_REPS * rep,
        Work::Cluster { parts, pause } => {
            let pause = pause.map_or(CLUSTER_PAUSE, in_seconds);
            let pauses = u64::try_from(parts.len().saturating_sub(1)).unwrap_or(0);
            parts.iter().copied().map(u64::from).sum::<u64>() * rep + pauses * pause
        }
        Work::Seconds(count) => middle(*count),
        Work::Metres(count) => middle(*count) * METRE,
    };
    let goes_on = set.rest_pause.map_or(0, |pause| {
        // After each pause, about a third of the repetitions are repeated.
        REST_PAUSES * (in_seconds(pause) + one_side / 3)
    });
    let side = one_side + goes_on;
    if !set.reps.each_side {
        return side;
    }
    let between = set.reps.between.map_or(OTHER_SIDE, |rest| in_seconds(rest.0));
    2 * side + between
}

fn middle(count: RepCount) -> u64 {
    u64::midpoint(u64::from(count.min), u64::from(count.max.unwrap_or(count.min)))
}

fn in_seconds(duration: Duration) -> u64 {
    u64::from(duration.as_seconds())
}

/// Seconds to load the bar for a set.
fn loading(set: Option<&PlannedSet>) -> u64 {
    let pairs = set.map_or(0, |set| set.plates_per_side().len());
    u64::try_from(pairs).unwrap_or(0) * PLATE_PAIR
}

/// The minutes in a text such as `8 min easy rowing`.
fn stated_minutes(text: &str) -> u64 {
    let words: Vec<&str> = text.split_whitespace().collect();
    let minutes = |pair: &[&str]| match pair {
        [number, unit] if unit.trim_end_matches([',', '.', ';', ':']) == "min" => {
            number.parse::<u64>().ok().filter(|n| *n <= 120)
        }
        _ => None,
    };
    words.windows(2).filter_map(minutes).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_read_where_they_stand() {
        assert_eq!(stated_minutes("8 min easy rowing"), 8);
        assert_eq!(stated_minutes("Bike 5 min, then 3 min of skipping"), 8);
        assert_eq!(stated_minutes("two laps of the hall"), 0);
    }
}
