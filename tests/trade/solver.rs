//! The choice of plates, compared with an integer-programming solver and with an exhaustive search.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions, Variable};
use setwright::quantity::Mass;
use setwright::strength::{Bar, BarLoads, Plate};

use super::tools::{Chance, kg, kgs, lb, lbs, nearest, side};

/// A stock of one side: (quarters of the unit, how many, millimetres).
type Stock = Vec<(i64, u32, u32)>;

/// A chance stock of discs of one side, each kind once.
fn stock(chance: &mut Chance, quarters: &[i64], most_kinds: usize, most_each: usize) -> Stock {
    let mut kinds = quarters.to_vec();
    while kinds.len() > 2 + chance.below(most_kinds - 1) {
        kinds.remove(chance.below(kinds.len()));
    }
    let number = |n: usize| u32::try_from(n).unwrap();
    kinds
        .into_iter()
        .map(|q| (q, number(1 + chance.below(most_each)), number(10 + chance.below(50))))
        .collect()
}

fn bar_loads(stock: &Stock, quarter: Mass, bar: Mass) -> BarLoads {
    let plate = |&(quarters, count, thickness): &(i64, u32, u32)| Plate {
        mass: quarter * quarters,
        count: Some(count * 2),
        thickness_mm: Some(thickness),
    };
    let plates: Vec<_> = stock.iter().map(plate).collect();
    BarLoads::new(&Bar::plain(bar), &plates, Mass::ZERO).unwrap()
}

/// Minimises `distance` from the target, or with `distance` given, the number of plates. The answer
/// is `None` where the solver fails, or where its answer breaks a bound when checked in whole numbers.
fn solve(stock: &Stock, target: i64, room: u32, distance: Option<i64>) -> Option<Vec<i64>> {
    let float = |n: i64| f64::from(i32::try_from(n).unwrap());
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let (plate_cost, distance_cost) = if distance.is_some() { (1.0, 0.0) } else { (0.0, 1.0) };
    let counts: Vec<Variable> = stock
        .iter()
        .map(|&(_, most, _)| problem.add_integer_var(plate_cost, (0, i32::try_from(most).unwrap())))
        .collect();
    let most_off = distance.map_or(f64::INFINITY, float);
    let over = problem.add_var(distance_cost, (0.0, most_off));
    let under = problem.add_var(distance_cost, (0.0, most_off));
    let of = |value: fn(&(i64, u32, u32)) -> i64| {
        counts.iter().zip(stock).map(move |(&v, kind)| (v, float(value(kind)))).collect::<Vec<_>>()
    };
    let mut sum = of(|kind| kind.0);
    sum.extend([(over, -1.0), (under, 1.0)]);
    problem.add_constraint(sum, ComparisonOp::Eq, float(target));
    problem.add_constraint(of(|kind| kind.2.into()), ComparisonOp::Le, f64::from(room));
    let mut options = SolveOptions::default();
    options.node_limit = Some(5_000);
    let solution = problem.solve_with(options).ok()?.into_solution().ok()?;
    #[allow(clippy::cast_possible_truncation, reason = "small counts, checked below")]
    let answer: Vec<i64> = counts.iter().map(|&v| solution.var_value(v).round() as i64).collect();
    let in_bounds =
        answer.iter().zip(stock).all(|(&n, &(_, most, _))| (0..=most.into()).contains(&n));
    let thickness: i64 = answer.iter().zip(stock).map(|(n, kind)| n * i64::from(kind.2)).sum();
    let off = (total(stock, &answer) - target).abs();
    let fits = thickness <= room.into() && distance.is_none_or(|distance| off <= distance);
    (in_bounds && fits).then_some(answer)
}

fn total(stock: &Stock, counts: &[i64]) -> i64 {
    counts.iter().zip(stock).map(|(n, kind)| n * kind.0).sum()
}

/// Every choice, the best by: distance from the target, then lighter, then fewest plates, then
/// more of the heaviest. Counts are by kind, heaviest first.
fn try_everything(stock: &Stock, target: i64, room: u32) -> Vec<i64> {
    let mut choices: Vec<Vec<i64>> = vec![vec![]];
    for &(_, most, _) in stock {
        let more = |choice: &Vec<i64>| {
            let choice = choice.clone();
            (0..=i64::from(most)).map(move |n| [choice.clone(), vec![n]].concat())
        };
        choices = choices.iter().flat_map(more).collect();
    }
    let thickness =
        |c: &Vec<i64>| c.iter().zip(stock).map(|(n, k)| n * i64::from(k.2)).sum::<i64>();
    choices.retain(|choice| thickness(choice) <= room.into());
    let key = |choice: &Vec<i64>| {
        let sum = total(stock, choice);
        let fewer_heavy: Vec<i64> = choice.iter().map(|n| -n).collect();
        ((sum - target).abs(), sum, choice.iter().sum::<i64>(), fewer_heavy)
    };
    choices.into_iter().min_by_key(key).unwrap()
}

/// Our choice, as counts by kind.
fn ours(stock: &Stock, quarter: Mass, bar: Mass, target: i64) -> Vec<i64> {
    let built = nearest(&bar_loads(stock, quarter, bar), bar + quarter * target * 2);
    let plates = side(&built);
    assert!(plates.is_sorted_by(|a, b| a >= b), "heaviest first");
    assert_eq!(built.mass, bar + plates.iter().copied().sum::<Mass>() * 2);
    let count = |mass: Mass| plates.iter().filter(|&&plate| plate == mass).count();
    stock.iter().map(|kind| i64::try_from(count(quarter * kind.0)).unwrap()).collect()
}

/// A bar, the quarter of its plates' unit, its sleeve, and its plates in quarters.
fn bars() -> [(Mass, Mass, u32, Vec<i64>); 2] {
    let quarters = |masses: Vec<Mass>, quarter: Mass| {
        masses.into_iter().map(|mass| mass.units() / quarter.units()).collect()
    };
    let (kilogram, pound) = (kg("0.25"), lb("0.25"));
    [
        (kg("15"), kilogram, 320, quarters(kgs("25 20 15 10 5 2.5 2 1.25 1 0.5 0.25"), kilogram)),
        (lb("45"), pound, 415, quarters(lbs("45 35 25 10 5 2.5 1.25"), pound)),
    ]
}

#[test]
fn an_integer_programming_solver_finds_nothing_better() {
    let bars = bars();
    let mut chance = Chance(1959);
    let (mut compared, mut unusable) = (0, 0);
    while compared < 1_000 {
        let (bar, quarter, room, kinds) = bars[chance.below(2)].clone();
        let stock = stock(&mut chance, &kinds, 7, 4);
        let most: i64 = stock.iter().map(|kind| kind.0 * i64::from(kind.1)).sum();
        let target = i64::try_from(chance.below(usize::try_from(most + 8).unwrap())).unwrap();
        let ours = ours(&stock, quarter, bar, target);
        let off = (total(&stock, &ours) - target).abs();
        let Some(nearest) = solve(&stock, target, room, None) else {
            unusable += 1;
            continue;
        };
        assert_eq!((total(&stock, &nearest) - target).abs(), off, "{stock:?} for {target}");
        // Ties go to the lighter: hold the solver to our very sum.
        let Some(fewest) = solve(&stock, total(&stock, &ours), room, Some(0)) else {
            unusable += 1;
            continue;
        };
        let pieces = |counts: &[i64]| counts.iter().sum::<i64>();
        assert_eq!(pieces(&fewest), pieces(&ours), "{stock:?} for {target}");
        compared += 1;
    }
    assert!(unusable < 50, "{unusable} answers of the solver were unusable");
}

#[test]
fn trying_everything_finds_the_very_same_plates() {
    let bars = bars();
    let mut chance = Chance(20_411_656);
    for _ in 0..1_000 {
        let (bar, quarter, room, kinds) = bars[chance.below(2)].clone();
        let stock = stock(&mut chance, &kinds, 4, 3);
        let most: i64 = stock.iter().map(|kind| kind.0 * i64::from(kind.1)).sum();
        let target = i64::try_from(chance.below(usize::try_from(most + 8).unwrap())).unwrap();
        let best = try_everything(&stock, target, room);
        assert_eq!(ours(&stock, quarter, bar, target), best, "{stock:?} for {target}");
    }
}

#[test]
fn the_same_with_kilograms_and_pounds_on_one_bar() {
    let mut chance = Chance(45_359_237);
    let discs = [kgs("20 15 10 5 2.5 1.25"), lbs("45 35 25 10 5 2.5")].concat();
    let mut units: Vec<i64> = discs.iter().map(|mass| mass.units()).collect();
    units.sort_unstable_by(|a, b| b.cmp(a));
    for _ in 0..500 {
        let stock = stock(&mut chance, &units, 5, 2);
        let most: i64 = stock.iter().map(|kind| kind.0 * i64::from(kind.1)).sum();
        let target = most / 1000 * i64::try_from(chance.below(1001)).unwrap();
        let best = try_everything(&stock, target, 415);
        assert_eq!(ours(&stock, Mass::from_units(1), kg("20"), target), best, "{stock:?}");
    }
}
