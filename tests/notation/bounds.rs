//! Every limit of `src/bounds.rs`: exceeding it gives a problem that names the limit and its value;
//! just keeping it does not.

#![allow(clippy::cast_possible_truncation, reason = "the numbers of these tests are small")]

use std::fmt::Write;

use setwright::bounds;
use setwright::compile::check;
use setwright::evaluate::{Assumptions, Evaluation};
use setwright::resolve::{Project, resolve};
use setwright::source::MemoryLoader;

/// A bound's name, its value as findings write it, the finding's code, and a text that comes to a
/// number of whatever is bounded.
struct Case {
    name: &'static str,
    most: u64,
    shown: String,
    code: &'static str,
    text: fn(u64) -> String,
}

/// A programme with a line in its day, and whatever stands before it.
fn programme(before: &str, line: &str) -> String {
    format!(
        "{before}gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2\n\nathlete Robin Vale\n  \
         gym: Shed\n\nprogramme Small\n  weeks: 1\n\nday One\n{line}\n"
    )
}

fn line(text: &str) -> String {
    programme("", &format!("  A Push-up: {text}"))
}

fn in_gym(text: &str) -> String {
    line("3 x 5").replace("gym Shed\n", &format!("gym Shed\n  {text}\n"))
}

fn cases() -> Vec<Case> {
    let case = |name, most, code, text| Case { name, most, shown: format!("{most}"), code, text };
    let mut cases = vec![
        case("LINE_BYTES", bounds::LINE_BYTES as u64, "line-too-long", |n| {
            programme(&format!("{:#<1$}\n", "# ", n as usize), "  A Push-up: 5")
        }),
        case("DEPTH", bounds::DEPTH as u64, "misplaced-line", |n| {
            let mut text = line("3 x 5");
            for level in 2..=n {
                let indent = " ".repeat(2 * level as usize);
                let _ = writeln!(text, "{indent}for Robin Vale: 2 x 5");
            }
            text
        }),
        case("WEEKS", bounds::WEEKS.into(), "number-out-of-range", |n| {
            line("3 x 5").replace("weeks: 1", &format!("weeks: {n}"))
        }),
        case("DAYS", bounds::DAYS as u64, "plan-too-large", |n| {
            let mut text = line("3 x 5");
            for day in 1..n {
                let _ = write!(text, "\nday Day {day}\n  A Push-up: 5\n");
            }
            text
        }),
        case("GROUPS", bounds::GROUPS as u64, "plan-too-large", |n| {
            line(&vec!["1 x 5"; n as usize].join(", "))
        }),
        case("SETS", bounds::SETS.into(), "number-out-of-range", |n| line(&format!("{n} x 5"))),
        case("REPS", bounds::REPS.into(), "number-out-of-range", |n| line(&format!("3 x {n}"))),
        case("METRES", bounds::METRES.into(), "number-out-of-range", |n| {
            line(&format!("1 x {n} m")).replace("Push-up", "Suitcase carry")
        }),
        case("PERCENT", bounds::PERCENT as u64, "number-out-of-range", |n| {
            line(&format!("3 x 5 @ {n}%"))
        }),
        case("DROPS", bounds::DROPS.into(), "number-out-of-range", |n| {
            line(&format!("3 x 5 @ 100 kg, drop -5% x {n}")).replace("Push-up", "Back squat")
        }),
        case("PIECES", bounds::PIECES.into(), "number-out-of-range", |n| {
            in_gym(&format!("kettlebells: 16 kg x {n}"))
        }),
        case("STOCK", bounds::STOCK as u64, "too-many-loads", |n| {
            in_gym(&format!("dumbbells: 1-{n} kg by 1 kg"))
        }),
        case("PLATE_MM", bounds::PLATE_MM.into(), "number-out-of-range", |n| {
            in_gym(&format!("plate 20 kg: {n} x 50 mm"))
        }),
    ];
    cases.push(Case {
        name: "ATHLETE_SETS",
        most: bounds::ATHLETE_SETS as u64,
        shown: bounds::ATHLETE_SETS.to_string(),
        code: "plan-too-large",
        // Far past it, or well below it.
        text: |n| {
            let groups = if n > bounds::ATHLETE_SETS as u64 { 50 } else { 1 };
            let sets = vec!["100 x 5"; groups].join(", ");
            let mut text = line(&sets).replace("weeks: 1", "weeks: 104");
            for day in 1..5 {
                let _ = write!(text, "\nday Day {day}\n  A Push-up: {sets}\n");
            }
            text
        },
    });
    cases
}

/// The findings of a code, as messages with their help.
fn found(text: String, code: &str) -> Vec<String> {
    let checked = check(Project::from_text(&MemoryLoader::new(), "bounds.sets", text));
    let found = checked.diagnostics.iter().filter(|found| found.code.name() == code);
    found.map(|f| format!("{} {}", f.message, f.help.as_deref().unwrap_or(""))).collect()
}

#[test]
fn what_passes_a_bound_is_told_the_bound() {
    let mut wrong = Vec::new();
    for case in cases() {
        let (name, code) = (case.name, case.code);
        let told = found((case.text)(case.most + 1), code);
        if !told.iter().any(|told| told.contains(&case.shown)) {
            wrong.push(format!("{name} past {}: {told:?}", case.most));
        }
        // A finding of the same kind that is about something else does not count.
        let mut told = found((case.text)(case.most), code);
        told.retain(|told| told.contains(&case.shown));
        if !told.is_empty() {
            wrong.push(format!("{name} at {}: {told:?}", case.most));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn projects_have_bounds_on_their_files() {
    // A chain of files, each using the next, and one file that uses many.
    let chain = |length: usize| {
        let mut loader = MemoryLoader::new();
        for at in 1..=length {
            let text = if at < length { format!("use f{}.sets\n", at + 1) } else { String::new() };
            loader = loader.with(&format!("f{at}.sets"), &text);
        }
        (loader, "use f1.sets\n".to_owned())
    };
    let many = |count: usize| {
        let mut loader = MemoryLoader::new();
        let mut text = String::new();
        for at in 1..=count {
            loader = loader.with(&format!("f{at}.sets"), "");
            let _ = writeln!(text, "use f{at}.sets");
        }
        (loader, text)
    };
    for ((loader, text), past) in [
        (chain(bounds::USE_DEPTH + 1), true),
        (chain(bounds::USE_DEPTH - 1), false),
        (many(bounds::FILES), true),
        (many(bounds::FILES - 1), false),
    ] {
        let project = Project::from_text(&loader, "main.sets", text);
        let told = project.diagnostics.iter().find(|found| found.code.name() == "too-large");
        assert_eq!(told.is_some(), past, "{told:?}");
        for bound in [bounds::FILES, bounds::USE_DEPTH] {
            assert!(told.is_none_or(|told| told.message.contains(&bound.to_string())), "{told:?}");
        }
    }
    let told = found("#".repeat(bounds::FILE_BYTES + 1), "too-large");
    // Texts at hand are bounded where they are read: `tests/cli/bad_input.rs` has the file.
    assert!(told.is_empty(), "{told:?}");
}

/// The bounds on all athletes together are numbers given to the same code, which stops at the
/// athlete who passes them.
#[test]
fn the_sets_of_all_athletes_are_counted() {
    let text = line("3 x 5").replace("athlete", "athlete Wren Tallow\n  gym: Shed\n\nathlete");
    let resolved = resolve(Project::from_text(&MemoryLoader::new(), "bounds.sets", text));
    let (programme, history) = (&resolved.programmes[0], &resolved.histories[0]);
    for (most, is_told) in [(6, false), (5, true), (2, true)] {
        let all = |_: &str| true;
        let evaluation = Evaluation::new(programme, history, Assumptions::default(), &all);
        let mut evaluation = evaluation.at_most(most);
        while !evaluation.batch().is_empty() {}
        let found = evaluation.finish();
        let told = found
            .iter()
            .any(|found| found.message.contains(&format!("more than {most} planned sets")));
        assert_eq!(told, is_told, "{most}: {found:?}");
    }
}

#[test]
fn every_bound_has_its_test() {
    let elsewhere = [
        ("FILE_BYTES", "tests/cli/bad_input.rs"),
        ("FILES", "above"),
        ("USE_DEPTH", "above"),
        ("PLANNED_SETS", "below, with a smaller number: coming near it takes long"),
        ("PASSED_SETS", "as PLANNED_SETS, a number given to the same code"),
        ("WORKSPACE_ENTRIES", "the editor's server looks no further and says so (tests/editor)"),
        ("MESSAGE_BYTES", "the editor's server skips what is longer (tests/editor/framing.rs)"),
        ("FOLDER_FILES", "tests/cli/bad_input.rs"),
        ("FOLDER_DEPTH", "tests/cli/bad_input.rs"),
    ];
    let mut listed: Vec<&str> = cases().iter().map(|case| case.name).collect();
    listed.extend(elsewhere.iter().map(|(name, _)| *name));
    let source = include_str!("../../src/bounds.rs").lines();
    let mut named: Vec<&str> =
        source.filter_map(|line| line.strip_prefix("pub const ")?.split(':').next()).collect();
    listed.sort_unstable();
    named.sort_unstable();
    assert_eq!(listed, named);
}
