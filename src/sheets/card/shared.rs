//! Cache of what an athlete's cards have in common: disclaimers, and exercises that are the same in
//! several weeks. Each is laid out for the first card that has it. The cached values depend only on
//! what is printed, so the result is the same whichever card comes first.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::plan::{Order, PlannedExercise, PlannedSet};
use crate::quantity::Duration;
use crate::sheets::layout::{Block, Fragment};
use crate::sheets::runs;

use super::exercise::{Setting, Tie, block};
use super::foot::Legend;
use super::metrics::{Density, Metrics};
use super::work::Boxes;

/// The cache of one athlete's cards.
#[derive(Debug, Default)]
pub struct Shared<'a> {
    /// The disclaimers, for each density and each legend.
    cautions: [[OnceLock<Fragment>; Legend::COUNT]; Density::ALL.len()],
    /// The exercises that were laid out, by letter and name.
    exercises: Mutex<BTreeMap<(Order, &'a str), Vec<Laid<'a>>>>,
}

/// Maximum number of cached entries for a letter and name: those of the last weeks at each density.
const MOST: usize = 12;

/// An exercise that was laid out.
#[derive(Debug)]
struct Laid<'a> {
    exercise: &'a PlannedExercise,
    set_as: SetAs,
    block: Arc<Block>,
}

/// The settings it was laid out with. Wording and discs are the same on all cards of an athlete.
#[derive(Debug, PartialEq)]
struct SetAs {
    metrics: Metrics,
    boxes: Boxes,
    rest_told: Option<Duration>,
    tie: Option<Tie>,
}

impl SetAs {
    fn new(setting: Setting<'_>) -> Self {
        let Setting { metrics, wording: _, discs: _, boxes, rest_told, tie } = setting;
        Self { metrics: *metrics, boxes, rest_told, tie }
    }
}

impl<'a> Shared<'a> {
    /// The disclaimers of cards with these settings, below their legend.
    pub fn cautions(
        &self,
        density: Density,
        legend: Option<Legend>,
        lay_out: impl FnOnce() -> Fragment,
    ) -> &Fragment {
        let [roomy, normal, snug, compact, tight, wrapped] = &self.cautions;
        let slot = match density {
            Density::Roomy => roomy,
            Density::Normal => normal,
            Density::Snug => snug,
            Density::Compact => compact,
            Density::Tight => tight,
            Density::Wrapped => wrapped,
        };
        // Either all cards of one copy have a legend, or none.
        let [first, ..] = slot;
        let legend = legend.and_then(|legend| slot.get(legend.index()));
        legend.unwrap_or(first).get_or_init(lay_out)
    }

    /// Lays out an exercise, or returns it from the cache.
    pub fn exercise(&self, exercise: &'a PlannedExercise, setting: Setting<'_>) -> Block {
        let set_as = SetAs::new(setting);
        let key = (exercise.order, exercise.name.as_str());
        // A thread that panicked leaves only complete blocks.
        let exercises = || self.exercises.lock().unwrap_or_else(PoisonError::into_inner);
        let known = exercises().get(&key).and_then(|all| {
            let same =
                |laid: &&Laid<'a>| laid.set_as == set_as && reads_alike(laid.exercise, exercise);
            all.iter().rev().find(same).map(|laid| Arc::clone(&laid.block))
        });
        if let Some(known) = known {
            return Block::clone(&known);
        }
        let made = block(exercise, setting);
        let laid = Laid { exercise, set_as, block: Arc::new(made.clone()) };
        let mut exercises = exercises();
        let all = exercises.entry(key).or_default();
        if all.len() >= MOST {
            all.remove(0);
        }
        all.push(laid);
        made
    }
}

/// Whether two exercises look the same on a card. Derivations and values for statistics are not
/// printed and may differ.
fn reads_alike(a: &PlannedExercise, b: &PlannedExercise) -> bool {
    // A new field of the plan must be added to one group or the other.
    let PlannedExercise {
        order,
        name,
        each_side: _,
        pattern: _,
        also_patterns: _,
        compound: _,
        equipment,
        needs,
        muscles: _,
        replaces,
        setup,
        settings,
        cues,
        notes,
        safety,
        programme_safety: _,
        demo,
        sources: _,
        rules,
        projected,
        outcome: _,
        fired: _,
        over_max: _,
        sets,
        line: _,
    } = a;
    *order == b.order
        && *name == b.name
        && *equipment == b.equipment
        && *needs == b.needs
        && *replaces == b.replaces
        && *setup == b.setup
        && *settings == b.settings
        && *cues == b.cues
        && *notes == b.notes
        && *safety == b.safety
        && *demo == b.demo
        && *rules == b.rules
        && *projected == b.projected
        && sets.len() == b.sets.len()
        && sets.iter().zip(&b.sets).all(|(a, b)| set_reads_alike(a, b))
}

fn set_reads_alike(a: &PlannedSet, b: &PlannedSet) -> bool {
    // As above; fields that are not named below are compared by `runs`.
    let PlannedSet {
        kind: _,
        reps: _,
        target: _,
        share_of_1rm: _,
        load: _,
        to_choose: _,
        bodyweight: _,
        about: _,
        off_target: _,
        exact_with,
        effort: _,
        rest,
        tempo: _,
        range: _,
        every: _,
        rest_pause: _,
        group,
        derivation: _,
    } = a;
    runs::alike(a, b) && *exact_with == b.exact_with && *rest == b.rest && *group == b.group
}

#[cfg(test)]
mod tests {
    use super::super::{CardSubject, athlete_deck, session_pages};
    use super::*;
    use crate::plan::Plan;
    use crate::sheets::CardOptions;
    use crate::sheets::layout::Page;
    use crate::sheets::sample_plans::all;

    /// Every card of a plan, each laid out without a cache.
    fn apart(plan: &Plan, options: &CardOptions) -> Vec<Page> {
        let cards = plan.athletes.iter().flat_map(|athlete| {
            let page = |session| {
                let shared = Shared::default();
                session_pages(CardSubject { plan, athlete, session, options, shared: &shared })
            };
            athlete.sessions.iter().flat_map(page).collect::<Vec<_>>()
        });
        cards.collect()
    }

    #[test]
    fn cards_that_share_come_out_as_each_for_itself() {
        let mut plan = all();
        for athlete in &mut plan.athletes {
            // The same again, and the same with one difference.
            let again: Vec<_> = athlete.sessions.clone();
            for (at, mut session) in (0..6).cycle().zip(again) {
                athlete.sessions.push(session.clone());
                for exercise in &mut session.exercises {
                    match at {
                        0 => exercise.cues.push("One word more.".to_owned()),
                        1 => exercise.projected = !exercise.projected,
                        2 => exercise.rules.push("when any rep missed: load -7.5%".to_owned()),
                        3 => exercise.sets.truncate(1),
                        4 => exercise.sets.iter_mut().for_each(|set| set.rest = None),
                        _ => exercise.safety = Some("Set the pins first.".to_owned()),
                    }
                }
                athlete.sessions.push(session);
            }
        }
        let options = CardOptions::default();
        let decks = plan.athletes.iter().map(|athlete| athlete_deck(&plan, athlete, &options));
        let together: Vec<Page> = decks.flat_map(|deck| deck.pages).collect();
        // The language is marked if a page's is not the document's.
        let bare = |mut page: Page| {
            if page.speaks().is_some() {
                page.items.remove(0);
                page.items.pop();
            }
            page
        };
        let together: Vec<Page> = together.into_iter().map(bare).collect();
        assert!(together == apart(&plan, &options));
    }
}
