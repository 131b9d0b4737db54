//! A review with exercises named in the reader's language.

use std::borrow::Cow;

use crate::plan::name_in;

use super::{AthleteReview, Concern, Miss, Missed, NextSession, Reason, Review};

impl Review {
    /// The review with exercises named in its language, for text and PDF. Calculations use the
    /// names from the files.
    #[must_use]
    pub fn named(&self) -> Cow<'_, Self> {
        if self.exercise_names.is_empty() {
            return Cow::Borrowed(self);
        }
        let own = |name: &mut String| {
            *name = name_in(&self.exercise_names, &self.language, name).to_owned();
        };
        let mut review = self.clone();
        review.look_first.iter_mut().flat_map(|look| &mut look.concerns).for_each(|concern| {
            match concern {
                Concern::Pain { exercise: name, .. }
                | Concern::MissesInARow { exercise: name, .. }
                | Concern::Falling { lift: name, .. } => own(name),
                _ => {}
            }
        });
        review.athletes.iter_mut().for_each(|athlete| name_all(athlete, &own));
        Cow::Owned(review)
    }
}

fn name_all(athlete: &mut AthleteReview, own: &impl Fn(&mut String)) {
    let lifts = athlete.weeks.iter_mut().flat_map(|week| &mut week.lifts);
    lifts.for_each(|lift| own(&mut lift.lift));
    athlete.lifts.iter_mut().for_each(|lift| own(&mut lift.lift));
    athlete.misses.iter_mut().for_each(|miss| name_miss(miss, own));
    athlete.pains.iter_mut().for_each(|pain| own(&mut pain.exercise));
    athlete.rules.iter_mut().for_each(|rule| own(&mut rule.exercise));
    athlete.new_maxes.iter_mut().for_each(|max| own(&mut max.lift));
    athlete.changes.iter_mut().for_each(|change| name_change(change, own));
}

fn name_miss(miss: &mut Miss, own: &impl Fn(&mut String)) {
    match &mut miss.what {
        Missed::LineSkipped { exercise, .. }
        | Missed::LineNotLogged { exercise, .. }
        | Missed::Sets { exercise, .. } => own(exercise),
        Missed::SessionSkipped { .. } | Missed::SessionMissing => {}
    }
}

fn name_change(change: &mut NextSession, own: &impl Fn(&mut String)) {
    own(&mut change.exercise);
    for reason in &mut change.reasons {
        if let Reason::NewMax { lift, .. } = reason {
            own(lift);
        }
    }
}
