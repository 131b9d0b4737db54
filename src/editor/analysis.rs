//! A project as an editor sees it: read, checked and evaluated, even if some lines are wrong.

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

/// A project that has been read and, except just after reading, evaluated. It is immutable; each
/// change of a text makes a new one.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// All files; the first is the built-in library.
    pub sources: Arc<Sources>,
    /// The file the project was opened with.
    pub root: FileId,
    /// The documents in the order of use: a file comes after the files that it uses.
    pub documents: Vec<Arc<Document>>,
    /// All exercises, built-in ones first. If several have the same name, the last one is used.
    pub exercises: Exercises,
    /// Which exercise each name and synonym refers to.
    pub names: Arc<Names>,
    /// All gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// All athletes, including those that are in no programme.
    pub athletes: Arc<Vec<ResolvedAthlete>>,
    /// The plan of each programme. If there are errors, it contains what could be evaluated. Plans
    /// may belong to earlier texts: see [`Analysis::planned_at`].
    pub plans: Arc<Vec<Plan>>,
    /// Errors and warnings.
    pub diagnostics: Vec<Diagnostic>,
    /// Advice; empty if there are errors.
    pub advice: Vec<Diagnostic>,
    /// Problems with opening files and reading lines.
    opened: Arc<Vec<Diagnostic>>,
    /// Problems found by resolving.
    read: Arc<Vec<Diagnostic>>,
    /// Problems and advice from the evaluation that resolving does not report.
    said: Arc<Summary>,
    /// Where its lines were in the texts that the plans belong to.
    lines: LineOrigins,
    state: PlanState,
}

/// Problems and advice from the evaluation. After a change, only those on unchanged lines are kept,
/// at their new positions.
#[derive(Debug, Default)]
struct Summary {
    diagnostics: Vec<Diagnostic>,
    advice: Vec<Diagnostic>,
}

/// Which texts the plans belong to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum PlanState {
    /// There are no plans yet.
    Read,
    /// The plans belong to earlier texts.
    Carried,
    /// The plans belong to the current texts.
    Worked,
}

impl Analysis {
    /// Reads a project and evaluates it.
    #[must_use]
    pub fn of(project: Project) -> Self {
        let read = Self::read(project, None, &mut Memory::default());
        match read.evaluate_all(&CancelToken::default()) {
            Some(worked) => read.with(worked),
            None => read,
        }
    }

    /// Reads and resolves a project without evaluating it. It takes over the plans of the analysis
    /// before, if there is one, and their problems on lines that have not changed. Unchanged text
    /// is not parsed again.
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

    /// Returns the same reading with the plans of another analysis and their problems on unchanged
    /// lines.
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

    /// Evaluates the project's programmes. Returns `None` if it is cancelled before the end.
    #[must_use]
    pub fn evaluate_all(&self, stop: &CancelToken) -> Option<Evaluated> {
        if stop.is_asked() {
            return None;
        }
        evaluate_all(&resolve(self.project()), &[], stop)
    }

    /// The project that was read.
    fn project(&self) -> Project {
        Project {
            sources: (*self.sources).clone(),
            documents: self.documents.clone(),
            root: self.root,
            as_of: None,
            diagnostics: (*self.opened).clone(),
        }
    }

    /// Returns the same reading with evaluated programmes.
    #[must_use]
    pub fn with(&self, worked: Evaluated) -> Self {
        let said = Summary { diagnostics: worked.diagnostics, advice: worked.advice };
        let plans = Arc::new(worked.plans);
        Self { plans, lines: LineOrigins::default(), ..self.clone() }
            .saying(said, PlanState::Worked)
    }

    /// Adds the problems of the evaluation to those of the reading.
    fn saying(mut self, said: Summary, state: PlanState) -> Self {
        let read = &self.read;
        let broken = has_errors(read);
        self.diagnostics = read.to_vec();
        // If some lines are wrong, advice and warnings that build on them would mislead.
        let firm = |d: &&Diagnostic| !broken || d.severity() == Severity::Error;
        self.diagnostics.extend(said.diagnostics.iter().filter(firm).cloned());
        sort_and_dedup(&mut self.diagnostics);
        self.advice = if has_errors(&self.diagnostics) { Vec::new() } else { said.advice.clone() };
        self.said = Arc::new(said);
        self.state = state;
        self
    }

    /// Whether plans and problems belong to the current texts.
    #[must_use]
    pub fn is_worked(&self) -> bool {
        self.state == PlanState::Worked
    }

    /// Whether there are plans, possibly of earlier texts.
    #[must_use]
    pub fn has_plans(&self) -> bool {
        self.state != PlanState::Read
    }

    /// The location of a line in the texts that the plans belong to; `None` if the line has changed
    /// since.
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
