//! Reading made texts, and what two readings have in common.

use std::fmt::Write;

use proptest::test_runner::{Config, RngSeed};
use setwright::compile::{Choice, Compiled, compile};
use setwright::diagnostics::render_text;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;
use setwright::syntax::{Document, ast};

/// A plan as JSON without the lines that it comes from.
pub fn plan_without_lines(text: &str) -> Option<serde_json::Value> {
    fn strip(value: &mut serde_json::Value) {
        match value {
            serde_json::Value::Object(fields) => {
                fields.remove("source");
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

/// The tree without places: what a text means. Keys that stand once mean the same in any order, so
/// they are shown by their words; keys that may stand several times, and all other lines, keep theirs.
pub fn meaning(document: &Document) -> String {
    fn word(node: &ast::Node) -> Option<(&'static str, &str)> {
        match &node.item.value {
            ast::Item::Entry { key, .. } => match &key.value {
                ast::LineKey::Key(key) => Some((key.word(), "")),
                ast::LineKey::Named(key, name) => Some((key.word(), &name.value)),
                _ => None,
            },
            _ => None,
        }
    }
    fn show(nodes: &[ast::Node], depth: usize, out: &mut String) {
        let mut nodes: Vec<&ast::Node> = nodes.iter().collect();
        nodes.sort_by_key(|node| word(node));
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
