//! Compares the search for a density with an exhaustive search.

use super::{Card, CardDraft, CardSubject, Shared, best_of};
use crate::plan::{AthletePlan, Plan, Session};
use crate::sheets::sample::{athlete, on};
use crate::sheets::sample_plans::{all, crowded, endless, full, groups, schemes, typical};
use crate::sheets::{CardOptions, Paper};

use super::metrics::Density;

/// The first of all densities with the least cost.
fn by_trying(of: CardSubject<'_>, codes: bool) -> Density {
    let costs = Density::ALL.map(|density| {
        let draft = CardDraft::new(Card::new(of, density, codes));
        (draft.cost(), density)
    });
    let least = costs.iter().map(|(cost, _)| *cost).min().unwrap();
    costs.into_iter().find(|(cost, _)| *cost == least).unwrap().1
}

/// The session with only its first exercises, for each number of exercises.
fn shorter(session: &Session) -> impl Iterator<Item = Session> + '_ {
    (1..=session.exercises.len().min(9)).map(|exercises| {
        let mut short = session.clone();
        short.exercises.truncate(exercises);
        short
    })
}

fn holds(plan: &Plan, athlete: &AthletePlan, session: &Session, options: &CardOptions) {
    let shared = Shared::default();
    let of = CardSubject { plan, athlete, session, options, shared: &shared };
    for codes in [true, false] {
        let found = best_of(of, codes).unwrap();
        // On several pages the least cost matters, on one page the roomiest density.
        let (found, wanted) = (found.card.density, by_trying(of, codes));
        let n = session.exercises.len();
        assert_eq!(found, wanted, "{}, {n} exercises, {options:?}", session.day);
    }
}

#[test]
fn the_search_finds_what_trying_everything_finds() {
    let plan = all();
    let samples = [typical(), full(), groups(), schemes(), crowded(), endless()];
    let own = plan.athletes.iter().flat_map(|athlete| &athlete.sessions).take(6).cloned();
    let sessions: Vec<Session> = samples.into_iter().chain(own).collect();
    let athlete = athlete("Wren Tallow", Vec::new());
    for (paper, large_print) in [(Paper::A5, false), (Paper::A4, false), (Paper::A5, true)] {
        let options = CardOptions { large_print, ..on(paper) };
        for session in sessions.iter().flat_map(shorter) {
            holds(&plan, &athlete, &session, &options);
        }
    }
}
