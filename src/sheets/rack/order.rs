//! The order in which athletes share a bar so that the fewest plates are moved.
//!
//! Athletes take turns: all do their first working set, then all their second, and so on. From one
//! set to the next, the innermost plates that both have stay on; the others come off, and new ones
//! go on. The bar is empty before the first set and after the last. Ramps are left out, because
//! athletes warm up when they arrive.

use crate::quantity::Mass;

/// The plates of one side, set by set, heaviest (innermost) first.
pub type Sets<'a> = Vec<&'a [Mass]>;

/// Number of athletes up to which the order is exact; the time grows with 2 to the power of their
/// number.
const EXACT: usize = 9;

/// Number of plates on one side that are moved from one load to the next.
fn moved(from: &[Mass], to: &[Mass]) -> u32 {
    let kept = from.iter().zip(to).take_while(|(a, b)| a == b).count();
    u32::try_from(from.len() + to.len() - 2 * kept).unwrap_or(u32::MAX)
}

/// The costs of one athlete after another, in plates moved on one side.
struct Costs {
    /// From the empty bar to each athlete's first set.
    first: Vec<u32>,
    /// Within a round: from each athlete to each other one, summed over all sets.
    next: Vec<Vec<u32>>,
    /// From the last athlete of a round to the first of the next round.
    round: Vec<Vec<u32>>,
    /// From each athlete's last set to the empty bar.
    last: Vec<u32>,
}

impl Costs {
    fn new(athletes: &[Sets<'_>]) -> Self {
        let empty: &[Mass] = &[];
        let first = athletes.iter().map(|sets| moved(empty, sets.first().unwrap_or(&empty)));
        let between = |shift: usize| -> Vec<Vec<u32>> {
            let pair = |from: &Sets<'_>, to: &Sets<'_>| {
                let pairs = from.iter().zip(to.iter().skip(shift));
                pairs.map(|(from, to)| moved(from, to)).sum()
            };
            athletes.iter().map(|from| athletes.iter().map(|to| pair(from, to)).collect()).collect()
        };
        let last = athletes.iter().map(|sets| moved(sets.last().unwrap_or(&empty), empty));
        Self { first: first.collect(), next: between(0), round: between(1), last: last.collect() }
    }

    fn of(table: &[Vec<u32>], from: usize, to: usize) -> u32 {
        table.get(from).and_then(|row| row.get(to)).copied().unwrap_or(0)
    }

    /// Number of plates that an order moves, on one side.
    fn total(&self, order: &[usize]) -> u32 {
        let (Some(first), Some(last)) = (order.first(), order.last()) else { return 0 };
        let start = self.first.get(*first).copied().unwrap_or(0);
        let steps: u32 = order
            .windows(2)
            .map(|pair| match pair {
                [from, to] => Self::of(&self.next, *from, *to),
                _ => 0,
            })
            .sum();
        start + steps + self.end(*last, *first)
    }

    /// The additional cost of inserting an athlete at a position of an order: only the neighbours
    /// change. The result may be negative if athletes share plates; it then wraps.
    fn inserted(&self, order: &[usize], to: usize, athlete: usize) -> u32 {
        let before = to.checked_sub(1).and_then(|at| order.get(at)).copied();
        let after = order.get(to).copied();
        let (first, last) = (order.first().copied(), order.last().copied());
        let step = |from, to| Self::of(&self.next, from, to);
        let start = |first: usize| self.first.get(first).copied().unwrap_or(0);
        let (gained, lost) = match (before, after) {
            (None, None) => (start(athlete) + self.end(athlete, athlete), 0),
            (None, Some(after)) => {
                let last = last.unwrap_or(after);
                let gained = start(athlete) + step(athlete, after) + self.end(last, athlete);
                (gained, start(after) + self.end(last, after))
            }
            (Some(before), None) => {
                let first = first.unwrap_or(before);
                let gained = step(before, athlete) + self.end(athlete, first);
                (gained, self.end(before, first))
            }
            (Some(before), Some(after)) => {
                (step(before, athlete) + step(athlete, after), step(before, after))
            }
        };
        gained.wrapping_sub(lost)
    }

    /// The cost from one round to the next, and of unloading after the last.
    fn end(&self, last: usize, first: usize) -> u32 {
        Self::of(&self.round, last, first) + self.last.get(last).copied().unwrap_or(0)
    }
}

/// The indices of the athletes in the order that moves the fewest plates; among equal orders, the
/// one closest to the given order. It is exact for up to nine athletes. For more, the given order
/// is improved by moving one athlete at a time until no move helps.
#[must_use]
pub fn fewest_moves(athletes: &[Sets<'_>]) -> Vec<usize> {
    let costs = Costs::new(athletes);
    if athletes.len() <= EXACT { exact(&costs, athletes.len()) } else { improved(&costs) }
}

/// The best order, found from the end: the remaining cost depends only on which athletes have had
/// their turn and who was last (Held & Karp 1962, J SIAM 10:196–210).
fn exact(costs: &Costs, n: usize) -> Vec<usize> {
    let mut best: Option<(u32, Vec<usize>)> = None;
    for first in 0..n {
        let rest = Rest::new(costs, n, first);
        let total = costs.first.get(first).copied().unwrap_or(0) + rest.least(1 << first, first);
        if best.as_ref().is_none_or(|(least, _)| total < *least) {
            best = Some((total, rest.order(first)));
        }
    }
    best.map(|(_, order)| order).unwrap_or_default()
}

/// The least remaining cost, for every set of athletes who have had their turn and every last
/// athlete.
struct Rest<'a> {
    costs: &'a Costs,
    n: usize,
    least: Vec<u32>,
}

impl<'a> Rest<'a> {
    fn new(costs: &'a Costs, n: usize, first: usize) -> Self {
        let mut rest = Self { costs, n, least: vec![0; n << n] };
        let all = (1_usize << n) - 1;
        for done in (1..=all).rev().filter(|done| done & (1 << first) != 0) {
            for last in (0..n).filter(|last| done & (1 << last) != 0) {
                let value = if done == all {
                    costs.end(last, first)
                } else {
                    let steps = rest.steps(done, last).map(|(_, cost)| cost);
                    steps.min().unwrap_or(0)
                };
                if let Some(slot) = rest.least.get_mut(done * n + last) {
                    *slot = value;
                }
            }
        }
        rest
    }

    /// The athletes who may be next, each with the total remaining cost.
    fn steps(&self, done: usize, last: usize) -> impl Iterator<Item = (usize, u32)> + '_ {
        (0..self.n).filter(move |next| done & (1 << next) == 0).map(move |next| {
            let step = Costs::of(&self.costs.next, last, next);
            (next, step + self.least(done | (1 << next), next))
        })
    }

    fn least(&self, done: usize, last: usize) -> u32 {
        self.least.get(done * self.n + last).copied().unwrap_or(0)
    }

    fn order(&self, first: usize) -> Vec<usize> {
        let (mut done, mut last, mut order) = (1 << first, first, vec![first]);
        // `min_by_key` keeps the first of equal ones, which follows the given order.
        while let Some((next, _)) = self.steps(done, last).min_by_key(|(_, cost)| *cost) {
            done |= 1 << next;
            last = next;
            order.push(next);
        }
        order
    }
}

fn improved(costs: &Costs) -> Vec<usize> {
    let n = costs.first.len();
    let mut order: Vec<usize> = (0..n).collect();
    let mut least = costs.total(&order);
    loop {
        let mut best: Option<(u32, usize, usize)> = None;
        for from in 0..n {
            let mut without = order.clone();
            let athlete = without.remove(from);
            let rest = costs.total(&without);
            for to in 0..n {
                let total = rest.wrapping_add(costs.inserted(&without, to, athlete));
                if total < best.map_or(least, |(total, ..)| total) {
                    best = Some((total, from, to));
                }
            }
        }
        let Some((total, from, to)) = best else { return order };
        least = total;
        let athlete = order.remove(from);
        order.insert(to, athlete);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::sample::kg;

    fn masses(plates: &[&str]) -> Vec<Mass> {
        plates.iter().map(|mass| kg(mass)).collect()
    }

    /// The least cost of all orders, found by trying each.
    fn least_of_all(costs: &Costs, n: usize) -> u32 {
        fn all(rest: &[usize], so_far: &mut Vec<usize>, costs: &Costs, least: &mut u32) {
            if rest.is_empty() {
                *least = (*least).min(costs.total(so_far));
            }
            for (at, one) in rest.iter().enumerate() {
                let mut others = rest.to_vec();
                others.remove(at);
                so_far.push(*one);
                all(&others, so_far, costs, least);
                so_far.pop();
            }
        }
        let (rest, mut least): (Vec<usize>, u32) = ((0..n).collect(), u32::MAX);
        all(&rest, &mut Vec::new(), costs, &mut least);
        least
    }

    #[test]
    fn plates_that_both_have_stay_on() {
        assert_eq!(moved(&masses(&["20", "5"]), &masses(&["20", "10", "5"])), 3);
        assert_eq!(moved(&masses(&["20", "5"]), &masses(&["20", "5", "2.5"])), 1);
        assert_eq!(moved(&[], &masses(&["20"])), 1);
        assert_eq!(moved(&masses(&["20"]), &masses(&["20"])), 0);
    }

    #[test]
    fn athletes_with_plates_in_common_stand_together() {
        // Lightest first would take the 15 off and put it on again, so 15 and 15 + 2.5 belong
        // together.
        let loads = [masses(&["15"]), masses(&["20"]), masses(&["15", "2.5"])];
        let sets: Vec<Sets<'_>> = loads.iter().map(|load| vec![load.as_slice(); 1]).collect();
        assert_eq!(fewest_moves(&sets), [0, 2, 1]);
    }

    #[test]
    fn equal_loads_keep_their_order() {
        let load = masses(&["10"]);
        let sets: Vec<Sets<'_>> = vec![vec![load.as_slice(); 4]; 7];
        assert_eq!(fewest_moves(&sets), [0, 1, 2, 3, 4, 5, 6]);
        assert_eq!(fewest_moves(&[]), Vec::<usize>::new());
    }

    /// Loads that differ without a pattern, the same in every run.
    fn mixed(n: usize, sets: usize) -> Vec<Vec<Vec<Mass>>> {
        let plates = ["20", "15", "10", "5", "2.5", "1.25"];
        let mut state = 7_usize;
        let mut next = || {
            state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
            state >> 8
        };
        let load = |bits: usize| -> Vec<Mass> {
            plates
                .iter()
                .enumerate()
                .filter(|(at, _)| bits & (1 << at) != 0)
                .map(|(_, m)| kg(m))
                .collect()
        };
        (0..n).map(|_| (0..sets).map(|_| load(next())).collect()).collect()
    }

    #[test]
    fn no_order_of_a_small_group_moves_fewer_plates() {
        for n in 1..=6 {
            let loads = mixed(n, 4);
            let sets: Vec<Sets<'_>> =
                loads.iter().map(|sets| sets.iter().map(Vec::as_slice).collect()).collect();
            let costs = Costs::new(&sets);
            assert_eq!(costs.total(&fewest_moves(&sets)), least_of_all(&costs, n), "{n}");
        }
    }

    /// The cost of an insertion is the difference of the total costs.
    #[test]
    fn what_an_athlete_adds_is_the_difference() {
        let loads = mixed(8, 4);
        let sets: Vec<Sets<'_>> =
            loads.iter().map(|sets| sets.iter().map(Vec::as_slice).collect()).collect();
        let costs = Costs::new(&sets);
        for n in 0..7 {
            let order: Vec<usize> = (0..n).collect();
            for to in 0..=n {
                let mut with = order.clone();
                with.insert(to, 7);
                let added = costs.inserted(&order, to, 7);
                assert_eq!(costs.total(&order).wrapping_add(added), costs.total(&with), "{n} {to}");
            }
        }
    }

    #[test]
    fn a_large_group_is_never_worse_than_the_order_given() {
        let loads = mixed(30, 5);
        let sets: Vec<Sets<'_>> =
            loads.iter().map(|sets| sets.iter().map(Vec::as_slice).collect()).collect();
        let costs = Costs::new(&sets);
        let order = fewest_moves(&sets);
        let mut sorted = order.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..30).collect::<Vec<_>>());
        let given: Vec<usize> = (0..30).collect();
        assert!(costs.total(&order) < costs.total(&given));
    }
}
