//! How long a session takes: a simple model, for a table and for advice, never for a card.
//!
//! A set takes its tempo times its repetitions, or [`REP`] a repetition where no tempo is given: the
//! middle of the 2–4 s that follow from 1–2 s each way (ACSM position stand 2009, Ratamess et al.,
//! Med Sci Sports Exerc 41(3):687–708 [C]). Rest is what the programme says. Going to the next
//! exercise happens during the rest after the last set; where it takes longer (plates to load), the
//! longer of the two counts. Whatever else is assumed stands below as a constant: common practice,
//! no source. Against the session lengths of Schoenfeld et al. 2019 (Med Sci Sports Exerc
//! 51(1):94–103 [S2]) the model is within a quarter; `tests/trade/` holds it to that.

use crate::plan::{Group, GroupKind, PlannedExercise, PlannedSet, Session, SetKind};
use crate::quantity::{Duration, RepCount, TempoPart, Work};

/// Seconds for a repetition without a tempo.
pub const REP: u64 = 3;
/// Seconds for a part of a tempo done as fast as possible.
const EXPLOSIVE: u64 = 1;
/// Repetitions expected of an open set that states none (AMRAP).
const OPEN_REPS: u64 = 10;
/// Seconds for a metre of a carry or a crawl.
const METRE: u64 = 1;
/// Seconds to change sides where no rest between them is stated.
const OTHER_SIDE: u64 = 5;
/// Seconds between the parts of a cluster where no pause is stated.
const CLUSTER_PAUSE: u64 = 20;
/// How often a rest-pause set goes on.
const REST_PAUSES: u64 = 2;
/// Seconds to take the load down for a drop set.
const DROP: u64 = 10;
/// Seconds after a ramp set: a breath and the next plates.
const AFTER_RAMP: u64 = 45;
/// Seconds of rest where the programme states none.
pub const REST: u64 = 90;
/// Seconds from one member of a group to the next.
const NEXT_MEMBER: u64 = 10;
/// Seconds to leave one station and be ready at the next.
const NEXT_STATION: u64 = 60;
/// Seconds to put a pair of plates on a bar, or to take one off.
const PLATE_PAIR: u64 = 10;

/// Where the time of a session goes, in seconds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SessionTime {
    /// What comes before the first exercise and after the last, where the text says minutes.
    pub around: u64,
    /// Ramp sets with their plates.
    pub ramps: u64,
    /// Working sets and drops.
    pub work: u64,
    /// Rest between sets.
    pub rest: u64,
    /// Going from exercise to exercise, and loading, beyond the rest before it.
    pub changes: u64,
}

impl SessionTime {
    /// The model's time for a session.
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

    /// All of it, in seconds.
    #[must_use]
    pub fn total(&self) -> u64 {
        self.around + self.ramps + self.work + self.rest + self.changes
    }

    /// All of it in minutes, halves up.
    #[must_use]
    pub fn minutes(&self) -> u32 {
        u32::try_from((self.total() + 30) / 60).unwrap_or(u32::MAX)
    }

    /// Adds a group; returns the rest after its last set, which may pass on the way to the next.
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

/// The working sets of an exercise, each with its drops.
fn rounds_of(exercise: &PlannedExercise) -> Vec<&[PlannedSet]> {
    let first = exercise.sets.iter().position(|set| set.kind != SetKind::WarmUp);
    let sets = exercise.sets.get(first.unwrap_or(exercise.sets.len())..).unwrap_or(&[]);
    sets.chunk_by(|_, next| next.kind == SetKind::Drop).collect()
}

/// Seconds under way in one set, both sides of a one-sided one together. Of a range the middle
/// counts, of an open set the least.
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
        // Each time about a third of the repetitions come again.
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

/// Seconds to load the bar of a set.
fn loading(set: Option<&PlannedSet>) -> u64 {
    let pairs = set.map_or(0, |set| set.plates_per_side().len());
    u64::try_from(pairs).unwrap_or(0) * PLATE_PAIR
}

/// The minutes that a text such as `8 min easy rowing` states.
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
