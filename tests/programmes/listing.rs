//! Compiles a project of this repository and lists its plan, with one line for equal neighbours.

use std::fmt::Write;
use std::path::Path;

use serde_json::Value;
use setwright::compile::{Choice, compile};
use setwright::plan::{Plan, PlannedSet};
use setwright::resolve::Project;
use setwright::source::FolderLoader;

/// A project worked out, with its findings as `code: message` lines.
pub struct Compiled {
    pub plan: Plan,
    pub diagnostics: String,
}

pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Compiles `programme.sets` of a folder, or a file, for all athletes or one.
pub fn compiled(path: &str, athlete: Option<&str>) -> Compiled {
    let path = root().join(path);
    let file = if path.is_dir() { path.join("programme.sets") } else { path };
    let loader = FolderLoader::new(file.parent().unwrap());
    let project = Project::open(&loader, file.file_name().unwrap().to_str().unwrap()).unwrap();
    let athletes = athlete.into_iter().map(str::to_owned).collect();
    let found = compile(project, &Choice { athletes, ..Choice::default() }).unwrap();
    let mut diagnostics = String::new();
    for diagnostic in &found.diagnostics {
        writeln!(diagnostics, "{}: {}", diagnostic.code.name(), diagnostic.message).unwrap();
    }
    Compiled { plan: found.plan.unwrap_or_else(|| panic!("{diagnostics}")), diagnostics }
}

/// Every planned set.
pub fn listed(plan: &Plan) -> String {
    let mut out = String::new();
    for athlete in &plan.athletes {
        writeln!(out, "{}", athlete.name).unwrap();
        for session in &athlete.sessions {
            let date = session.date.map(|date| format!(" {date}")).unwrap_or_default();
            writeln!(out, "  week {} {}{date}", session.week, session.day).unwrap();
            for exercise in &session.exercises {
                writeln!(out, "    {:<2} {}", exercise.order.to_string(), exercise.name).unwrap();
                for run in exercise.sets.chunk_by(|a, b| one(a) == one(b)) {
                    writeln!(out, "       {} x {}", run.len(), one(&run[0])).unwrap();
                }
            }
        }
    }
    out
}

/// One set, in the terms of the plan's JSON.
pub fn one(set: &PlannedSet) -> String {
    let json = serde_json::to_value(set).unwrap();
    let show = |value: &Value| match value {
        Value::Null => "-".to_owned(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    };
    let mut out = format!(
        "{} | {} | target {} | load {}",
        set.reps,
        show(&json["kind"]),
        show(&json["target_kg"]),
        show(&json["load_kg"]),
    );
    if let Some(how) = json.get("implement") {
        write!(out, " {}", show(how)).unwrap();
    }
    for (label, key) in [("", "bar"), ("", "stack"), ("", "band"), ("of ", "bar_kg")] {
        if let Some(value) = json.get(key) {
            write!(out, " {label}{}", show(value)).unwrap();
        }
    }
    for key in ["plates_per_side_kg", "added_pieces_kg"] {
        let plates = json.get(key).and_then(Value::as_array).cloned().unwrap_or_default();
        if !plates.is_empty() {
            let plates: Vec<String> = plates.iter().map(show).collect();
            write!(out, " [{}]", plates.join(" + ")).unwrap();
        }
    }
    for (word, holds) in [("about", set.about), ("off target", set.off_target)] {
        if holds {
            write!(out, " {word}").unwrap();
        }
    }
    for (label, key) in [
        ("rest", "rest_s"),
        ("RPE", "rpe"),
        ("RIR", "rir"),
        ("tempo", "tempo"),
        ("range", "range"),
        ("every", "every_s"),
        ("rest-pause", "rest_pause_s"),
    ] {
        if let Some(value) = json.get(key).filter(|value| !value.is_null()) {
            write!(out, " | {label} {}", show(value)).unwrap();
        }
    }
    out
}
