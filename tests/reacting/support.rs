//! A small gym, one athlete, one line, and the resulting plan.

use setwright::compile::{Choice, compile};
use setwright::diagnostics::{has_errors, render_text};
use setwright::evaluate::Assumptions;
use setwright::plan::{Plan, PlannedSet, SetKind, replay};
use setwright::quantity::Unit;
use setwright::resolve::Project;
use setwright::source::MemoryLoader;

/// A project with one bar line on one day; `line` stands after the exercise's name.
pub fn project(weeks: u32, phases: &str, line: &str, log: &str) -> String {
    format!(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 8, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2\n\n\
         athlete Robin Vale\n  body mass: 70 kg\n  max Back squat: 100 kg\n  max Pull-up: bodyweight +20 kg\n\n\
         programme Small\n  weeks: {weeks}\n  starts: 2026-01-05\n{phases}\n\
         day One (Mon)\n  A  {line}\n\n{log}"
    )
}

/// A log of Robin's with these sessions: week and result.
pub fn log(results: &[(u32, &str)]) -> String {
    let mut text = "log Robin Vale: Small\n".to_owned();
    for (week, result) in results {
        let date = jiff::civil::date(2026, 1, 5)
            .checked_add(jiff::Span::new().days(7 * (i64::from(*week) - 1)))
            .unwrap();
        text.push_str(&format!("  {date} week {week}, One\n    A: {result}\n"));
    }
    text
}

pub fn plan_of(text: &str, assumptions: Assumptions) -> Plan {
    plan_of_files(text, &[], assumptions)
}

/// The plan of a programme and the files it uses.
fn plan_of_files(text: &str, files: &[(String, String)], assumptions: Assumptions) -> Plan {
    let loader = files.iter().fold(MemoryLoader::new(), |all, (path, text)| all.with(path, text));
    let project = Project::from_text(&loader, "small.sets", text.to_owned());
    let compiled = compile(project, &Choice { assumptions, ..Choice::default() }).unwrap();
    let shown: Vec<String> =
        compiled.diagnostics.iter().map(|d| render_text(d, &compiled.sources, false)).collect();
    assert!(!has_errors(&compiled.diagnostics), "{text}\n{}", shown.concat());
    let plan = compiled.plan.unwrap();
    // Whatever a test looks at, every recorded derivation leads to its load.
    for set in plan.athletes.iter().flat_map(|a| &a.sessions).flat_map(|s| &s.exercises) {
        for set in &set.sets {
            if let Some(built) = &set.load {
                assert_eq!(replay(&set.derivation).to_mass(), built.mass);
            }
        }
    }
    plan
}

pub fn first_sets(plan: &Plan) -> Vec<&PlannedSet> {
    let sessions = plan.athletes[0].sessions.iter();
    let working = |set: &&PlannedSet| set.kind != SetKind::WarmUp;
    sessions.map(|s| s.exercises[0].sets.iter().find(working).unwrap()).collect()
}

/// The built load of the first set in each week, in kilograms.
pub fn loads(text: &str) -> Vec<String> {
    loads_with(text, Assumptions::default())
}

pub fn loads_with(text: &str, assumptions: Assumptions) -> Vec<String> {
    built(&plan_of(text, assumptions))
}

/// The same, of a programme and the files it uses.
pub fn loads_of_files(text: &str, files: &[(String, String)]) -> Vec<String> {
    built(&plan_of_files(text, files, Assumptions::default()))
}

fn built(plan: &Plan) -> Vec<String> {
    first_sets(plan)
        .iter()
        .map(|set| set.load.as_ref().unwrap().mass.in_unit(Unit::Kg).to_string())
        .collect()
}

/// Sets and repetitions in each week, as `3 x 8-10`.
pub fn work(text: &str) -> Vec<String> {
    let plan = plan_of(text, Assumptions::default());
    plan.athletes[0]
        .sessions
        .iter()
        .map(|session| {
            let sets = &session.exercises[0].sets;
            let working: Vec<_> = sets.iter().filter(|s| s.kind != SetKind::WarmUp).collect();
            format!("{} x {}", working.len(), working[0].reps.work)
        })
        .collect()
}
