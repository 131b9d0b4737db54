//! How the exercises that share a letter are done together in a week.

use crate::plan::{Group, GroupKind, PlannedExercise};
use crate::quantity::{Duration, Exact};
use crate::resolve::{Day, DayGroup, How, Phase};

use super::maxes::share;

/// The groups of a session, in order.
pub fn groups(day: &Day, phase: Option<&Phase>, exercises: &[PlannedExercise]) -> Vec<Group> {
    day.groups.iter().filter_map(|group| one(group, phase, exercises)).collect()
}

fn one(group: &DayGroup, phase: Option<&Phase>, exercises: &[PlannedExercise]) -> Option<Group> {
    let members: Vec<&PlannedExercise> =
        exercises.iter().filter(|e| e.order.letter == group.letter).collect();
    let phase = phase.filter(|_| group.scaled);
    let how = match group.how {
        Some(How::Circuit(rounds, change)) => {
            GroupKind::Circuit { rounds: scaled(rounds, phase), change }
        }
        Some(How::Every(interval, length, alternate)) => {
            GroupKind::Every { interval, length: scaled_length(length, phase), alternate }
        }
        Some(How::RoundsIn(length)) => GroupKind::RoundsIn { length: scaled_length(length, phase) },
        Some(How::Paired) => GroupKind::Paired,
        None => match members.len() {
            0 => return None,
            1 => GroupKind::Single,
            2 => GroupKind::Superset,
            _ => GroupKind::GiantSet,
        },
    };
    // Without a rest in the group line, the rest of the last member applies to the group.
    let last = members.last().and_then(|e| e.sets.last()).and_then(|set| set.rest);
    let rest = group.rest.or(if members.len() > 1 { last } else { None });
    Some(Group { letter: group.letter, how, rest })
}

/// A count scaled by a phase's `sets`: half up, never below one.
pub fn scaled(count: u32, phase: Option<&Phase>) -> u32 {
    let Some(change) = phase.and_then(|phase| phase.sets) else { return count };
    let value = &Exact::whole(i64::from(count)) * &(&Exact::one() + &share(change));
    u32::try_from(value.round_half_up().max(1)).unwrap_or(count)
}

/// A length in minutes, scaled as a count of minutes; a length that is no whole number of minutes
/// is scaled in seconds.
pub fn scaled_length(length: Duration, phase: Option<&Phase>) -> Duration {
    let seconds = length.as_seconds();
    if seconds.is_multiple_of(60) {
        return Duration::seconds(scaled(seconds / 60, phase) * 60);
    }
    Duration::seconds(scaled(seconds, phase))
}
