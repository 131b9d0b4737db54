//! From repetitions to a percentage by the inverse of each equation, compared with published load
//! tables. Differences are printed.

use std::fmt::Write;

use setwright::quantity::Exact;
use setwright::strength::Equation;

use super::handbook::TABLE_17_7;

/// The handbook's own load chart prints another value than its table [S2].
const CHART: (i64, i64) = (12, 70);

/// Morales & Sobonya 1996, J Strength Cond Res 10(3):186–189, table 1 [S].
const MORALES: [(i64, i64); 6] = [(1, 100), (2, 95), (4, 90), (6, 85), (8, 80), (10, 75)];

/// Repetitions to failure at 80 % and 70 %, mean and 95 % interval: Nuzzo, Pinto, Nosaka, Steele
/// 2024, Sports Med 54:303–321 [S2].
const NUZZO: [(&str, i64, &str); 4] = [
    ("bench press", 80, "8.8 [7.7-10.1]"),
    ("bench press", 70, "14.1 [12.4-16.1]"),
    ("leg press", 80, "13.1 [9.8-17.5]"),
    ("leg press", 70, "19.0 [14.2-25.5]"),
];

/// An equation's share of 1RM at so many repetitions, in points, to a tenth.
fn points(equation: Equation, reps: i64) -> Exact {
    &equation.share(&Exact::whole(reps)).unwrap() * &Exact::whole(100)
}

/// A difference in points, signed, to a tenth.
fn signed(difference: &Exact) -> String {
    let text = difference.to_decimal(1).to_string();
    if difference.is_negative() || text == "0" { text } else { format!("+{text}") }
}

/// One line a row of a table: what it prints, and each equation less that.
fn against(out: &mut String, title: &str, rows: &[(i64, i64)]) {
    write!(out, "{title}\n\nreps    table").unwrap();
    for equation in Equation::ALL {
        write!(out, "{:>11}", equation.name()).unwrap();
    }
    out.push('\n');
    for &(reps, percent) in rows {
        write!(out, "{reps:>4}  {percent:>5} %").unwrap();
        for equation in Equation::ALL {
            let difference = &points(equation, reps) - &Exact::whole(percent);
            write!(out, "{:>11}", signed(&difference)).unwrap();
        }
        out.push('\n');
    }
    out.push('\n');
}

/// The most whole repetitions that an equation allows at a percentage.
fn most_reps(equation: Equation, percent: i64) -> i64 {
    let allowed = |reps: &i64| {
        equation
            .share(&Exact::whole(*reps))
            .is_some_and(|share| share >= Exact::ratio(percent, 100))
    };
    (1..=30).take_while(allowed).last().unwrap()
}

#[test]
fn where_equations_and_tables_differ() {
    let mut out = String::from(
        "Percentage of 1RM by the inverse of each equation, less what the table prints, in points.\n\n",
    );
    against(&mut out, "Handbook table 17.7 [M; 3, 4, 5, 10 reps S]", &TABLE_17_7);
    against(&mut out, "Handbook load chart [S2]", &[CHART]);
    against(&mut out, "Morales & Sobonya 1996, table 1 [S]", &MORALES);
    out.push_str(
        "Most repetitions at a percentage, against tests to failure: Nuzzo et al. 2024 [S2]\n\n",
    );
    for (lift, percent, tested) in NUZZO {
        write!(out, "{lift:<11} {percent} %  tested {tested:<16}").unwrap();
        for equation in Equation::ALL {
            write!(out, "  {} {}", equation.name(), most_reps(equation, percent)).unwrap();
        }
        out.push('\n');
    }
    insta::with_settings!({ snapshot_path => "load_tables", prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("differences", out);
    });
    println!("{out}");
}

#[test]
fn the_inverse_gives_the_table_back_where_the_handbook_trusts_it() {
    // The handbook trusts its table most above 75 % and below ten repetitions [S]: there the default
    // equation, asked for the repetitions at a table's percentage, is at most one off.
    for (reps, percent) in TABLE_17_7.into_iter().filter(|(reps, _)| *reps < 10) {
        let ours = most_reps(Equation::Epley, percent);
        assert!((ours - reps).abs() <= 1, "{percent} %: {ours}, the table {reps}");
    }
}

#[test]
fn share_and_factor_are_inverse() {
    for equation in Equation::ALL {
        for reps in 1..=15 {
            let reps = Exact::whole(reps);
            let product = &equation.share(&reps).unwrap() * &equation.factor(&reps).unwrap();
            let off = (&product - &Exact::one()).abs();
            assert!(off < Exact::ratio(1, 1_000_000), "{}", equation.name());
        }
    }
}
