//! What is shipped, and what it stands on.

use super::support::repository;

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
