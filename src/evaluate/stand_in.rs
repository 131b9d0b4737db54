//! What a replacement takes over from the line of the replaced exercise: the loads only apply if both
//! exercises have the same implement and pattern.

use crate::catalogue::{Exercise, LoadNeed, LoadingMethod};
use crate::quantity::Mass;
use crate::resolve::{ExerciseId, Group, Load, PercentBase, WeekSpec};
use crate::syntax::ast::EquipmentKind;

use super::gear::GymGear;
use super::state::LineState;
use super::{AthleteEvaluator, LineId};

/// What is done in a line, seen from what the line names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// What the line names.
    Own,
    /// Another exercise with the same implement and pattern: the line's loads hold.
    Alike,
    /// Another exercise: the loads that the line states are not its loads.
    Other,
}

impl Standing {
    /// The line's state: what is done with other loads keeps a state of its own.
    pub fn key(self, day: usize, order: crate::plan::Order, lift: ExerciseId) -> LineId {
        (day, order, (self == Standing::Other).then_some(lift))
    }
}

impl AthleteEvaluator<'_, '_> {
    /// How what is done stands to what the line names.
    pub(super) fn standing(
        &self,
        written: ExerciseId,
        lift: ExerciseId,
        means: Option<&LoadingMethod>,
    ) -> Standing {
        if written == lift {
            return Standing::Own;
        }
        let exercises = &self.programme.exercises;
        let (Some(of), Some(by), Some(means)) =
            (exercises.get(written.0), exercises.get(lift.0), means)
        else {
            return Standing::Other;
        };
        let same = moves_alike(of, by) && same_implement(self.gear(), of, by, means);
        if same { Standing::Alike } else { Standing::Other }
    }

    /// Whether the load of a group is left open, as the line states that of another exercise.
    pub(super) fn opens(
        &self,
        group: &Group,
        standing: Standing,
        (lift, on_body): (ExerciseId, bool),
        state: &LineState,
    ) -> bool {
        if standing == Standing::Own || group.load_own {
            return false;
        }
        let other = standing == Standing::Other;
        match &group.load {
            // A share of a lift's own max is its own load; no max carries over.
            Load::Percent { of: PercentBase::TrainingMax | PercentBase::OneRm, .. } => {
                self.maxes.place(lift).is_none()
            }
            Load::Percent { of: PercentBase::Lift(of), .. } => other && *of != lift,
            Load::Bodyweight(Mass::ZERO) if on_body => false,
            Load::Mass { .. } | Load::Bodyweight(_) => other,
            // It may go on from what was done with it before.
            Load::LastMass(_) | Load::LastPercent(_) => other && state.last.is_none(),
            Load::Percent { of: PercentBase::TopSet, .. } | Load::Effort(_) | Load::Open => false,
        }
    }

    /// Whether rules act after a session: not after one whose loads are no loads of the line.
    pub(super) fn rules_act(
        &self,
        spec: &WeekSpec,
        standing: Standing,
        (lift, on_body): (ExerciseId, bool),
    ) -> bool {
        let nothing = LineState::default();
        let own = |group: &Group| {
            let opened = self.opens(group, standing, (lift, on_body), &nothing);
            let stated = match &group.load {
                Load::Mass { .. } | Load::LastMass(_) | Load::LastPercent(_) => true,
                Load::Bodyweight(added) => *added != Mass::ZERO,
                Load::Percent { of: PercentBase::Lift(of), .. } => *of != lift,
                Load::Percent { .. } | Load::Effort(_) | Load::Open => false,
            };
            !(opened || stated && standing == Standing::Other)
        };
        spec.groups.iter().all(own)
    }
}

/// The same pattern, on the same number of sides; in an isolation the same muscle too, as a curl
/// and a raise are both isolations.
fn moves_alike(of: &Exercise, by: &Exercise) -> bool {
    let isolation = of.pattern.as_deref() == Some("isolation");
    of.pattern.is_some()
        && of.pattern == by.pattern
        && of.each_side == by.each_side
        && (!isolation || of.main_muscle() == by.main_muscle())
}

/// Whether what an exercise is done with is what the other would be done with.
fn same_implement(
    gear: Option<&GymGear<'_>>,
    of: &Exercise,
    by: &Exercise,
    means: &LoadingMethod,
) -> bool {
    // What the gym lacks beside the implement, such as a bench, is of no matter.
    let alone = Exercise { needs: Vec::new(), ..of.clone() };
    let wants = if means.is_body_mass() { LoadNeed::BodyMass } else { LoadNeed::Load };
    match gear.map(|gear| gear.means(&alone, wants)) {
        Some(Ok(LoadingMethod::Bars(_))) => matches!(means, LoadingMethod::Bars(_)),
        // Nothing tells one machine from another but its name.
        Some(Ok(LoadingMethod::Other)) => {
            *means == LoadingMethod::Other && of.equipment == by.equipment && names_one(of)
        }
        Some(Ok(own)) => own == *means,
        // The exercise itself is what the gym lacks.
        Some(Err(_)) => of.equipment.first().is_some_and(|item| is_of(item.kind, means)),
        None => {
            let body = of.equipment.iter().any(|item| item.kind == EquipmentKind::BodyMass);
            means.is_body_mass() && body
        }
    }
}

fn names_one(exercise: &Exercise) -> bool {
    matches!(exercise.equipment.as_slice(), [only] if only.name.is_some())
}

fn is_of(kind: EquipmentKind, means: &LoadingMethod) -> bool {
    matches!(
        (kind, means),
        (EquipmentKind::Barbell, LoadingMethod::Bars(_))
            | (EquipmentKind::Dumbbells, LoadingMethod::Dumbbells)
            | (EquipmentKind::Dumbbell, LoadingMethod::Dumbbell)
            | (EquipmentKind::Kettlebells, LoadingMethod::Kettlebells)
            | (EquipmentKind::Kettlebell, LoadingMethod::Kettlebell)
            | (EquipmentKind::Band, LoadingMethod::Band)
            | (EquipmentKind::BodyMass, LoadingMethod::BodyMass)
    )
}
