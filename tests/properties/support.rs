//! Reading made texts, and what two readings have in common.

use std::fmt::Write;

use proptest::test_runner::{Config, RngSeed};
use setwright::compile::{Choice, Compiled, compile};
use setwright::diagnostics::render_text;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;
use setwright::syntax::{Document, ast};

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

/// A project of one file.
pub fn project(text: &str) -> Project {
    Project::from_text(&MemoryLoader::new(), "made.sets", text.to_owned())
}

pub fn compiled(text: &str) -> Compiled {
    compile(project(text), &Choice::default()).unwrap()
}

/// The findings as a terminal shows them.
pub fn findings(compiled: &Compiled) -> String {
    compiled.diagnostics.iter().map(|d| render_text(d, &compiled.sources, false)).collect()
}

/// The tree without places: what a text means.
pub fn meaning(document: &Document) -> String {
    fn show(nodes: &[ast::Node], depth: usize, out: &mut String) {
        for node in nodes {
            let item = format!("{:?}", node.item.value);
            let parts = item.split("Span {");
            let bare: String =
                parts.map(|part| part.split_once('}').map_or(part, |(_, r)| r)).collect();
            writeln!(out, "{depth} {bare}").unwrap();
            show(&node.children, depth + 1, out);
        }
    }
    let mut out = String::new();
    show(&document.nodes, 0, &mut out);
    out
}
