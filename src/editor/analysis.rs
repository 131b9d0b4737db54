//! A project as an editor sees it: read, checked and worked out, broken lines and all.

use std::sync::Arc;

use super::rebase::{Change, LineOrigins};
use crate::catalogue::{Exercises, Gym, LIBRARY_FILE, Library, Names};
use crate::compile::{Evaluated, evaluate_all, reading};
use crate::diagnostics::{Diagnostic, Severity, has_errors, sort_and_dedup};
use crate::evaluate::CancelToken;
use crate::plan::{Location, Plan};
use crate::resolve::{Memory, Project, Reading, ResolvedAthlete, resolve, resolve_cached};
use crate::source::{FileId, Sources, Span};
use crate::syntax::Document;

/// A project read and, unless it has only just been read, worked out. It is made anew after each
/// change and never changes.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// All files; the first is the built-in library.
    pub sources: Arc<Sources>,
    /// The file the project was opened with.
    pub root: FileId,
    /// The documents in the order of use: what a file uses comes before it.
    pub documents: Vec<Arc<Document>>,
    /// All exercises, the built-in ones first; of those that share a name the last one counts.
    pub exercises: Exercises,
    /// Where each name and synonym of an exercise leads.
    pub names: Arc<Names>,
    /// All gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// All athletes, whether in a programme or not.
    pub athletes: Arc<Vec<ResolvedAthlete>>,
    /// The plan of every programme: what could be worked out, where there are errors. They may be
    /// of before: see [`Analysis::planned_at`].
    pub plans: Arc<Vec<Plan>>,
    /// What is wrong.
    pub diagnostics: Vec<Diagnostic>,
    /// Advice; none while there are errors.
    pub advice: Vec<Diagnostic>,
    /// What was wrong with files and lines.
    opened: Arc<Vec<Diagnostic>>,
    /// What reading says.
    read: Arc<Vec<Diagnostic>>,
    /// What the plans say, without what reading says.
    said: Arc<Summary>,
    /// Where its lines stand in the texts of the plans.
    lines: LineOrigins,
    state: PlanState,
}

/// What evaluating found: on the lines that have not changed since, at their places of now.
#[derive(Debug, Default)]
struct Summary {
    diagnostics: Vec<Diagnostic>,
    advice: Vec<Diagnostic>,
}

/// Whose the plans are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum PlanState {
    /// There are none yet.
    Read,
    /// They are of the texts before.
    Carried,
    /// They are of the texts as they are.
    Worked,
}

impl Analysis {
    /// Reads a project and works it out.
    #[must_use]
    pub fn of(project: Project) -> Self {
        let read = Self::read(project, None, &mut Memory::default());
        match read.evaluate_all(&CancelToken::default()) {
            Some(worked) => read.with(worked),
            None => read,
        }
    }

    /// A project read and understood, not worked out: with the plans of before, if there are any,
    /// and what they say of lines that have not changed. What has been read before is not read again.
    #[must_use]
    pub fn read(project: Project, before: Option<&Self>, memory: &mut Memory) -> Self {
        let root = project.root;
        let documents = project.documents.clone();
        let opened = Arc::new(project.diagnostics.clone());
        let Reading { sources, exercises, names, gyms, athletes, diagnostics } =
            resolve_cached(project, memory);
        let diagnostics = reading(&diagnostics, &sources, root);
        let fresh = Self {
            sources,
            root,
            documents,
            exercises,
            names,
            gyms,
            athletes: Arc::new(athletes),
            plans: Arc::default(),
            diagnostics: diagnostics.clone(),
            advice: Vec::new(),
            opened,
            read: Arc::new(diagnostics),
            said: Arc::default(),
            lines: LineOrigins::default(),
            state: PlanState::Read,
        };
        match before {
            Some(before) => fresh.carrying(before),
            None => fresh,
        }
    }

    /// The same reading with the plans of another, and what they say of lines that are the same.
    #[must_use]
    pub fn carrying(&self, before: &Self) -> Self {
        if before.state == PlanState::Read {
            return self.clone();
        }
        let change = Change::between(&before.sources, &self.sources);
        let brought = |all: &[Diagnostic]| all.iter().filter_map(|d| change.finding(d)).collect();
        let said = Summary {
            diagnostics: brought(&before.said.diagnostics),
            advice: brought(&before.said.advice),
        };
        let lines = before.lines.after(&change, &before.sources);
        Self { plans: before.plans.clone(), lines, ..self.clone() }.saying(said, PlanState::Carried)
    }

    /// What its programmes come to; nothing, where it is asked to stop before the end.
    #[must_use]
    pub fn evaluate_all(&self, stop: &CancelToken) -> Option<Evaluated> {
        if stop.is_asked() {
            return None;
        }
        evaluate_all(&resolve(self.project()), &[], stop)
    }

    /// The project it is the reading of.
    fn project(&self) -> Project {
        Project {
            sources: (*self.sources).clone(),
            documents: self.documents.clone(),
            root: self.root,
            as_of: None,
            diagnostics: (*self.opened).clone(),
        }
    }

    /// The same reading with what its programmes come to.
    #[must_use]
    pub fn with(&self, worked: Evaluated) -> Self {
        let said = Summary { diagnostics: worked.diagnostics, advice: worked.advice };
        let plans = Arc::new(worked.plans);
        Self { plans, lines: LineOrigins::default(), ..self.clone() }
            .saying(said, PlanState::Worked)
    }

    /// With what the plans say beside what reading says.
    fn saying(mut self, said: Summary, state: PlanState) -> Self {
        let read = &self.read;
        let broken = has_errors(read);
        self.diagnostics = read.to_vec();
        // Where lines do not read, warnings that build on them would mislead, and advice.
        let firm = |d: &&Diagnostic| !broken || d.severity() == Severity::Error;
        self.diagnostics.extend(said.diagnostics.iter().filter(firm).cloned());
        sort_and_dedup(&mut self.diagnostics);
        self.advice = if has_errors(&self.diagnostics) { Vec::new() } else { said.advice.clone() };
        self.said = Arc::new(said);
        self.state = state;
        self
    }

    /// Whether the plans and the findings are of the texts as they are.
    #[must_use]
    pub fn is_worked(&self) -> bool {
        self.state == PlanState::Worked
    }

    /// Whether there are plans, if of the texts before.
    #[must_use]
    pub fn has_plans(&self) -> bool {
        self.state != PlanState::Read
    }

    /// Where the plans know a line by, from its place; `None` where it has changed since they were
    /// made.
    #[must_use]
    pub fn planned_at(&self, line: Span) -> Option<Location> {
        self.lines.place(self.sources.locate(line))
    }

    /// The document of a file.
    #[must_use]
    pub fn document(&self, file: FileId) -> Option<&Arc<Document>> {
        let built_in = || (file == LIBRARY_FILE).then(Library::document);
        self.documents.iter().find(|document| document.file == file).or_else(built_in)
    }
}
