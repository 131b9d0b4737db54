//! The tables of the chapter on maths, computed again.

use std::fmt::Write;

use setwright::quantity::Exact;
use setwright::strength::Equation;

use super::blocks::{same_or_accept, turn, with_made_parts};
use crate::support::repository;

const MATHS: &str = "docs/maths.md";

/// What each equation makes of 100 kg. [C]; the published forms are in `strength`.
fn estimates() -> String {
    const REPS: [i64; 7] = [1, 2, 3, 5, 8, 10, 12];
    let head: String = REPS.iter().map(|reps| format!(" {reps} |")).collect();
    let mut text = format!("| reps |{head}\n|---|{}\n", "---|".repeat(REPS.len()));
    for equation in Equation::ALL {
        let _ = write!(text, "| {} |", equation.name());
        for reps in REPS {
            let factor = equation.factor(&Exact::whole(reps)).unwrap();
            let _ = write!(text, " {:.1} |", factor.to_f64() * 100.0);
        }
        text.push('\n');
    }
    text
}

/// The share of the 1RM for repetitions at an effort, by Epley. [C]
fn effort() -> String {
    const RPES: [i64; 5] = [10, 9, 8, 7, 6];
    let head: String = RPES.iter().map(|rpe| format!(" RPE {rpe} (RIR {}) |", 10 - rpe)).collect();
    let mut text = format!("| reps |{head}\n|---|{}\n", "---|".repeat(RPES.len()));
    for reps in [1, 2, 3, 4, 5, 6, 8, 10, 12] {
        let _ = write!(text, "| {reps} |");
        for rpe in RPES {
            let share = Equation::Epley.share(&Exact::whole(reps + 10 - rpe)).unwrap();
            let _ = write!(text, " {:.1} % |", share.to_f64() * 100.0);
        }
        text.push('\n');
    }
    text
}

#[test]
fn the_tables_of_the_maths_are_what_the_equations_give() {
    let _turn = turn();
    let text = std::fs::read_to_string(repository().join(MATHS)).unwrap();
    let whole = with_made_parts(&text, &[("estimates", estimates()), ("effort", effort())]);
    same_or_accept(MATHS, &text, &whole);
}

#[test]
fn the_chapter_names_the_source_of_every_equation() {
    let text = std::fs::read_to_string(repository().join(MATHS)).unwrap();
    for equation in Equation::ALL {
        let first = equation.source().split([',', ';']).next().unwrap();
        assert!(text.contains(first), "{MATHS} lacks {first}");
    }
}
