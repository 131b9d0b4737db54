//! Reads generated texts, and makes streams for the generator.

use proptest::prelude::{Strategy, any};
use proptest::test_runner::{Config, RngSeed};
use setwright::compile::{Choice, Compiled, compile};
use setwright::diagnostics::render_text;

use super::laws::project;

/// A plan as JSON without the lines that it comes from.
pub fn plan_without_lines(text: &str) -> Option<serde_json::Value> {
    fn strip(value: &mut serde_json::Value) {
        match value {
            serde_json::Value::Object(fields) => {
                fields.remove("location");
                fields.values_mut().for_each(strip);
            }
            serde_json::Value::Array(all) => all.iter_mut().for_each(strip),
            _ => {}
        }
    }
    let mut plan = serde_json::to_value(compiled(text).plan?).unwrap();
    strip(&mut plan);
    Some(plan)
}

/// Streams of choices.
pub fn streams() -> impl Strategy<Value = Vec<u16>> {
    proptest::collection::vec(any::<u16>(), 0..700)
}

/// So many cases, always the same ones. `SETWRIGHT_HUNT=20` tries twenty times as many, others each
/// time: for an evening's search, not for a check.
pub fn cases(count: u32) -> Config {
    let hunt: Option<u32> = std::env::var("SETWRIGHT_HUNT").ok().and_then(|n| n.parse().ok());
    Config {
        cases: count * hunt.unwrap_or(1),
        // No files of failures are left behind: a failure that matters becomes a test.
        failure_persistence: None,
        max_shrink_iters: 3_000,
        rng_seed: hunt.map_or(RngSeed::Fixed(20_260_105), |_| RngSeed::Random),
        ..Config::default()
    }
}

pub fn compiled(text: &str) -> Compiled {
    compile(project(text), &Choice::default()).unwrap()
}

/// The findings as a terminal shows them.
pub fn findings(compiled: &Compiled) -> String {
    compiled.diagnostics.iter().map(|d| render_text(d, &compiled.sources, false)).collect()
}
