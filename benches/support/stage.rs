//! The stages of the pipeline, each as one call.

use std::path::Path;

use setwright::evaluate::{Assumptions, evaluate};
use setwright::plan::Plan;
use setwright::resolve::{Project, Resolved};
use setwright::source::{FolderLoader, MemoryLoader};
use setwright::{resolve, sheets};

/// A project to measure with.
pub struct Case {
    /// What it is called in tables.
    pub name: &'static str,
    /// The folder it is in; in memory, if `None`.
    folder: Option<&'static str>,
    file: &'static str,
    text: String,
}

impl Case {
    /// The project of this folder of the repository.
    pub fn example(name: &'static str, folder: &'static str, file: &'static str) -> Self {
        Self { name, folder: Some(folder), file, text: String::new() }
    }

    /// A programme without any other file.
    pub fn text(name: &'static str, text: String) -> Self {
        Self { name, folder: None, file: "programme.sets", text }
    }

    /// Reads and parses it.
    pub fn parse(&self) -> Project {
        let opened = match self.folder {
            Some(folder) => {
                let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
                Project::open(&FolderLoader::new(&folder), self.file)
            }
            None => Project::open(&MemoryLoader::new().with(self.file, &self.text), self.file),
        };
        opened.expect("the project is there")
    }
}

/// Settles names, units, weeks and series.
pub fn resolve(project: Project) -> Resolved {
    resolve::resolve(project)
}

/// Works out every set of the first programme for everybody.
pub fn evaluate_all(resolved: &Resolved) -> Plan {
    let programme = resolved.programmes.first().expect("there is a programme");
    let history = resolved.histories.first().expect("with its history");
    evaluate(programme, history, Assumptions::default(), &|_| true).0
}

/// Lays out a card for each session and writes the PDF.
pub fn print(plan: &Plan) -> Vec<u8> {
    sheets::cards(plan, &sheets::CardOptions::default()).expect("the plan prints").bytes
}

/// Writes every session as text.
pub fn write_text(plan: &Plan) -> String {
    sheets::summary(plan)
}

/// All of it, as `setwright cards` does: with findings and advice.
pub fn whole(project: Project) -> Vec<u8> {
    let made = setwright::compile(project, &setwright::compile::Choice::default());
    print(&made.expect("one programme").plan.expect("without errors"))
}
