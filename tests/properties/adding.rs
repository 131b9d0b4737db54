//! The weekly table: its totals are the sums of its parts, and the review counts in the same way.

use proptest::prelude::*;
use setwright::history::review;
use setwright::quantity::Exact;
use setwright::tally::{WeekTally, Work, weekly};

use super::generate::Made;
use super::support::{cases, compiled, streams};

fn sum<'w>(parts: impl Iterator<Item = &'w Work>) -> Work {
    parts.fold(Work::default(), |mut all, part| {
        all.add(part);
        all
    })
}

fn holds_together(week: &WeekTally) -> Result<(), TestCaseError> {
    let total = &week.total;
    prop_assert_eq!(&sum(week.sessions.iter().map(|session| &session.work)), total);
    prop_assert_eq!(&sum(week.lifts.iter().map(|lift| &lift.work)), total);
    prop_assert_eq!(week.sessions.iter().map(|session| session.minutes).sum::<u32>(), week.minutes);
    let in_patterns = sum(week.patterns.iter().map(|pattern| &pattern.work));
    prop_assert!(in_patterns.hard_sets <= total.hard_sets);
    prop_assert!(in_patterns.volume <= total.volume);
    let zero = Exact::zero();
    for muscle in &week.muscles {
        let sets = &muscle.sets;
        let direct = Exact::whole(sets.direct_sets.into());
        let every = Exact::whole((sets.direct_sets + sets.indirect_sets).into());
        prop_assert!(sets.direct_sets <= total.hard_sets);
        prop_assert!(direct <= sets.fractional_sets && sets.fractional_sets <= every);
        let every = &sets.direct_volume + &sets.indirect_volume;
        prop_assert!(sets.direct_volume <= sets.fractional_volume);
        prop_assert!(sets.fractional_volume <= every && every <= total.volume);
        prop_assert!(sets.direct_volume >= zero);
    }
    let intensity = &total.intensity;
    prop_assert!(intensity.sets <= total.hard_sets);
    prop_assert_eq!(intensity.sets > 0, intensity.mean_percent().is_some());
    Ok(())
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn a_week_is_the_sum_of_its_parts(picks in streams()) {
        let made = Made::new(&picks);
        let plan = compiled(&made.text()).plan.unwrap();
        let weekly = weekly(&plan);
        let reviewed = review(&plan);
        for (athlete, reviewed) in weekly.athletes.iter().zip(&reviewed.athletes) {
            prop_assert_eq!(athlete.weeks.len(), reviewed.weeks.len());
            for (week, reviewed) in athlete.weeks.iter().zip(&reviewed.weeks) {
                holds_together(week)?;
                prop_assert_eq!(&week.total, &reviewed.planned);
                prop_assert_eq!(&reviewed.done, &Work::default());
                for (muscle, reviewed) in week.muscles.iter().zip(&reviewed.muscles) {
                    prop_assert_eq!(&muscle.sets, &reviewed.planned);
                }
            }
        }
    }
}
