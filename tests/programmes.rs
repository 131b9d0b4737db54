//! Whole projects, each in a folder of `programmes/`, with snapshots of their summary and of a list
//! of all planned sets; also the first week of the three examples.
//!
//! Snapshots show everything but prove nothing. `checks.rs` contains numbers worked out by hand,
//! which accepting a snapshot cannot change. All names are invented.
//!
//! `INSTA_UPDATE=always cargo test --test programmes` accepts what changed; read the diff.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests may fail loudly and stand at the edge"
)]

#[path = "programmes/checks.rs"]
mod checks;
#[path = "programmes/evidence.rs"]
mod evidence;
#[path = "programmes/facts.rs"]
mod facts;
#[path = "programmes/instead.rs"]
mod instead;
#[path = "programmes/left_open.rs"]
mod left_open;
#[path = "programmes/light.rs"]
mod light;
#[path = "programmes/listing.rs"]
mod listing;
#[path = "programmes/replaced.rs"]
mod replaced;

use listing::{Compiled, compiled, listed, root};
use setwright::plan::Selection;
use setwright::sheets::summary;

fn compare(folder: &str, name: &str, text: &str) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(root().join("tests/programmes").join(folder));
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| insta::assert_snapshot!(name, text));
}

fn snapshots(name: &str) {
    let Compiled { plan, diagnostics } = compiled(&format!("tests/programmes/{name}"), None);
    compare(name, "summary", &summary(&plan));
    compare(name, "plan", &format!("{}\n{diagnostics}", listed(&plan)));
}

macro_rules! projects {
    ($($test:ident = $name:literal,)*) => {
        const NAMES: &[&str] = &[$($name,)*];
        $(#[test] fn $test() { snapshots($name); })*
    };
}

projects! {
    body_mass = "body-mass",
    efforts = "efforts",
    gear = "gear",
    languages = "languages",
    lists = "lists",
    percentages = "percentages",
    pounds = "pounds",
    scheme_names = "scheme-names",
    schemes = "schemes",
    set_forms = "set-forms",
    squad = "squad",
    together = "together",
    warm_ups = "warm-ups",
    weeks = "weeks",
}

#[test]
fn every_project_is_compared() {
    let entries = std::fs::read_dir(root().join("tests/programmes")).unwrap();
    let mut found: Vec<String> = entries
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.join("programme.sets").exists())
        .map(|path| path.file_name().unwrap().to_str().unwrap().to_owned())
        .collect();
    found.sort();
    assert_eq!(found, NAMES);
}

#[test]
fn the_examples_first_week() {
    for (folder, athlete) in [
        ("first-steps/programme.sets", "Robin Vale"),
        ("home-kettlebells/programme.sets", "Joss Arkwender"),
        ("rowing-club/winter.sets", "Wren Tallow"),
        ("two-for-two/programme.sets", "Ilse Corran"),
    ] {
        let Compiled { plan, .. } = compiled(&format!("examples/{folder}"), Some(athlete));
        let week = plan.select(&Selection { weeks: vec![(1, 1)], days: Vec::new() });
        compare("examples", folder.split('/').next().unwrap(), &summary(&week));
    }
}
