//! The files that are published, and the dependencies.

use super::support::{missing, repository};

fn read(path: &str) -> String {
    std::fs::read_to_string(repository().join(path)).unwrap()
}

/// The crates of a section of `Cargo.toml`.
fn crates(section: &str) -> Vec<String> {
    let manifest = read("Cargo.toml");
    let start = manifest.find(&format!("\n[{section}]\n")).unwrap();
    let lines = manifest[start + 1..].lines().skip(1).take_while(|line| !line.starts_with('['));
    lines.filter_map(|line| line.split_once(" = ")).map(|(name, _)| name.to_owned()).collect()
}

/// Every crate says why it is there, and nothing else does.
#[test]
fn every_dependency_has_its_row_in_the_guide() {
    let guide = read("DEVELOPERS.md");
    let table = guide.split("\n## Dependencies").nth(1).unwrap();
    let rows = table.lines().skip_while(|line| !line.starts_with("|---"));
    let rows = rows.skip(1).take_while(|line| line.starts_with('|'));
    let mut told: Vec<String> = rows
        .filter_map(|row| row.split('|').nth(1))
        .flat_map(|names| names.split(','))
        .map(|name| name.trim().to_owned())
        .collect();
    let mut known: Vec<String> = [crates("dependencies"), crates("dev-dependencies")].concat();
    for names in [&mut told, &mut known] {
        names.sort();
        names.dedup();
    }
    assert_eq!(told, known);
}

/// The quoted strings of a list in `deny.toml`.
fn listed(list: &str) -> Vec<String> {
    let text = std::fs::read_to_string(repository().join("deny.toml")).unwrap();
    let start = text.find(&format!("\n{list} = [\n")).unwrap();
    let lines = text[start..].lines().skip(2).take_while(|line| *line != "]");
    lines.map(|line| line.split('"').nth(1).unwrap().to_owned()).collect()
}

/// Whether a licence expression can be met with licences of a list. Every part that is joined by
/// `AND` needs one, whatever the brackets say: stricter than SPDX where an `OR` stands around it.
fn may(expression: &str, allowed: &[String]) -> bool {
    let plain = expression.replace(['(', ')'], "").replace('/', " OR ");
    let one = |part: &str| part.split(" OR ").any(|name| allowed.iter().any(|a| a == name.trim()));
    plain.split(" AND ").all(one)
}

#[test]
fn dependencies_come_from_the_registry_under_licences_that_are_listed() {
    let mut command = std::process::Command::new(env!("CARGO"));
    command.args(["metadata", "--format-version", "1", "--locked"]);
    let ran = command.current_dir(repository()).output().unwrap();
    // Crates for other systems are fetched by this command and not by a build: it may be the first
    // one here that asks for them.
    if !ran.status.success() {
        let why = String::from_utf8_lossy(&ran.stderr);
        assert!(why.contains("failed to download"), "{why}");
        return missing("a crate of another system", &why);
    }
    let found: serde_json::Value = serde_json::from_slice(&ran.stdout).unwrap();
    let allowed = listed("allow");
    let mut versions = std::collections::BTreeMap::<&str, Vec<String>>::new();
    let mut used = std::collections::BTreeSet::new();
    for package in found["packages"].as_array().unwrap() {
        let name = package["name"].as_str().unwrap();
        let licence = package["license"].as_str().unwrap_or("none");
        assert!(may(licence, &allowed), "{name} is under {licence}: see deny.toml");
        used.extend(allowed.iter().filter(|one| licence.contains(one.as_str())));
        let own = name.starts_with("setwright") || name.starts_with("tree-sitter-setwright");
        let source = package["source"].as_str();
        let from_registry = source.is_some_and(|source| source.starts_with("registry+"));
        assert!(own && source.is_none() || from_registry, "{name} comes from {source:?}");
        let version = package["version"].as_str().unwrap();
        versions.entry(name).or_default().push(format!("{name}@{version}"));
    }
    assert_eq!(used.len(), allowed.len(), "deny.toml allows what nothing is under");
    let skipped = listed("skip");
    let doubled: Vec<String> = versions.into_values().filter(|of| of.len() > 1).flatten().collect();
    let missing: Vec<&String> = skipped.iter().filter(|one| !doubled.contains(one)).collect();
    assert!(missing.is_empty(), "doubled no more: {missing:?}");
    // Of each pair one is excused, the other is the one to keep.
    assert_eq!(doubled.len(), 2 * skipped.len(), "{doubled:?}");
}
