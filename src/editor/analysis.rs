//! A project as an editor sees it: read, checked and worked out, broken lines and all.

use std::sync::Arc;

use crate::catalogue::{Exercise, Gym, Names};
use crate::compile::{Compiled, check};
use crate::diagnostics::Diagnostic;
use crate::plan::Plan;
use crate::resolve::{Project, Trainee};
use crate::source::{FileId, Sources};
use crate::syntax::Document;

/// A project read, checked and worked out. It is made anew after each change and never changes.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// All files; the first is the built-in library.
    pub sources: Arc<Sources>,
    /// The file the project was opened with.
    pub root: FileId,
    /// The built-in library.
    pub library: Document,
    /// The documents in the order of use: what a file uses comes before it.
    pub documents: Vec<Document>,
    /// All exercises, the built-in ones first; of those that share a name the last one counts.
    pub exercises: Arc<Vec<Exercise>>,
    /// Where each name and synonym of an exercise leads.
    pub names: Arc<Names>,
    /// All gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// All athletes, whether in a programme or not.
    pub athletes: Vec<Trainee>,
    /// The plan of every programme: what could be worked out, where there are errors.
    pub plans: Arc<Vec<Plan>>,
    /// What is wrong.
    pub diagnostics: Vec<Diagnostic>,
    /// Advice; none while there are errors.
    pub advice: Vec<Diagnostic>,
}

impl Analysis {
    /// Checks a project and works it out.
    #[must_use]
    pub fn of(project: Project) -> Self {
        let (root, library, documents) =
            (project.root, project.library.clone(), project.documents.clone());
        let Compiled {
            plans, diagnostics, advice, exercises, names, gyms, athletes, sources, ..
        } = check(project);
        Self {
            sources,
            root,
            library,
            documents,
            exercises,
            names,
            gyms,
            athletes,
            plans: Arc::new(plans),
            diagnostics,
            advice,
        }
    }

    /// A project read again, with the plans and the findings of before: for what is asked between two
    /// keystrokes, and cannot wait for the plans of now.
    #[must_use]
    pub fn reread(&self, project: Project) -> Self {
        let Project { sources, library, documents, root, .. } = project;
        Self {
            sources: Arc::new(sources),
            root,
            library,
            documents,
            exercises: self.exercises.clone(),
            names: self.names.clone(),
            gyms: self.gyms.clone(),
            athletes: self.athletes.clone(),
            plans: self.plans.clone(),
            diagnostics: self.diagnostics.clone(),
            advice: self.advice.clone(),
        }
    }

    /// The document of a file.
    #[must_use]
    pub fn document(&self, file: FileId) -> Option<&Document> {
        self.documents.iter().chain([&self.library]).find(|document| document.file == file)
    }
}
