//! The stages of the pipeline apart, and the whole: `cargo bench --bench stages`.
//!
//! Squads of 1,000 and 10,000 athletes take minutes; `STAGES=all` adds them. A plan holds at most
//! two million sets (`bounds::PLANNED_SETS`), so that 10,000 athletes are parsed and resolved only.
#![allow(clippy::disallowed_methods, reason = "a bench reads what it is asked to measure")]

mod support;

use std::sync::LazyLock;

use divan::Bencher;
use setwright::plan::Plan;
use support::programme;
use support::stage::{self, Case};

static CASES: LazyLock<Vec<Case>> = LazyLock::new(|| {
    let mut cases = vec![
        Case::example("rowing club", "examples/rowing-club", "winter.sets"),
        Case::text("2,000 lines", programme::long(2_000)),
        Case::text("1 athlete", programme::squad(1, 12)),
        Case::text("10 athletes", programme::squad(10, 12)),
        Case::text("100 athletes", programme::squad(100, 12)),
    ];
    if std::env::var("STAGES").is_ok_and(|which| which == "all") {
        cases.push(Case::text("1,000 athletes", programme::squad(1_000, 12)));
        cases.push(Case::text(TOO_MANY, programme::squad(10_000, 12)));
    }
    cases
});

/// More than a plan may hold.
const TOO_MANY: &str = "10,000 athletes";

fn all() -> impl Iterator<Item = &'static str> {
    CASES.iter().map(|case| case.name)
}

fn that_print() -> impl Iterator<Item = &'static str> {
    all().filter(|name| *name != TOO_MANY)
}

fn case(name: &str) -> &'static Case {
    CASES.iter().find(|case| case.name == name).expect("the names are those of the cases")
}

fn plan(name: &str) -> Plan {
    stage::evaluate_all(&stage::resolve(case(name).parse()))
}

fn main() {
    divan::main();
}

#[divan::bench(args = all(), min_time = 1, max_time = 4, sample_size = 1)]
fn a_parse(bencher: Bencher, name: &str) {
    let case = case(name);
    bencher.bench(|| case.parse());
}

#[divan::bench(args = all(), min_time = 1, max_time = 4, sample_size = 1)]
fn b_resolve(bencher: Bencher, name: &str) {
    let project = case(name).parse();
    bencher.with_inputs(|| project.clone()).bench_values(stage::resolve);
}

#[divan::bench(args = that_print(), min_time = 1, max_time = 4, sample_size = 1)]
fn c_evaluate(bencher: Bencher, name: &str) {
    let resolved = stage::resolve(case(name).parse());
    bencher.bench(|| stage::evaluate_all(&resolved));
}

#[divan::bench(args = that_print(), min_time = 1, max_time = 4, sample_size = 1)]
fn d_lay_out_and_write_pdf(bencher: Bencher, name: &str) {
    let plan = plan(name);
    bencher.bench(|| stage::print(&plan));
}

#[divan::bench(args = that_print(), min_time = 1, max_time = 4, sample_size = 1)]
fn e_write_text(bencher: Bencher, name: &str) {
    let plan = plan(name);
    bencher.bench(|| stage::write_text(&plan));
}

#[divan::bench(args = that_print(), min_time = 1, max_time = 4, sample_size = 1)]
fn f_whole_to_pdf(bencher: Bencher, name: &str) {
    let case = case(name);
    bencher.bench(|| stage::whole(case.parse()));
}
