//! Runs the pipeline once up to a stage, for tools that count instructions:
//!
//! `cargo bench --bench once -- STAGE FILE`, with `read`, `resolve`, `evaluate`, `cards` or `text`.
#![allow(clippy::disallowed_methods, reason = "a bench reads what it is asked to measure")]

mod support;

use std::hint::black_box;
use std::path::Path;
use std::process::ExitCode;

use setwright::resolve::Project;
use setwright::source::FolderLoader;
use support::stage;

fn main() -> ExitCode {
    // Cargo itself passes --bench.
    let given: Vec<String> = std::env::args().skip(1).filter(|one| one != "--bench").collect();
    let words: Vec<&str> = given.iter().map(String::as_str).collect();
    let [upto, file] = words.as_slice() else {
        println!("read, resolve, evaluate, cards or text; FILE");
        return ExitCode::SUCCESS;
    };
    let file = Path::new(file);
    let folder = file.parent().unwrap_or(Path::new("."));
    let name = file.file_name().map(|name| name.to_string_lossy()).unwrap_or_default();
    let Ok(project) = Project::open(&FolderLoader::new(folder), &name) else {
        eprintln!("{}: cannot be read", file.display());
        return ExitCode::FAILURE;
    };
    if *upto == "read" {
        black_box(&project);
        return ExitCode::SUCCESS;
    }
    let resolved = stage::resolve(project);
    if *upto != "resolve" {
        let plan = stage::evaluate_all(&resolved);
        match *upto {
            "cards" => drop(black_box(stage::print(&plan))),
            "text" => drop(black_box(stage::write_text(&plan))),
            _ => drop(black_box(plan)),
        }
    }
    ExitCode::SUCCESS
}
