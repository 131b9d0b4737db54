//! What a project defines: exercises, gyms, athletes, schemes and programmes, by name.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, OnceLock};

use crate::catalogue::{Athlete, Exercise, Gym, Names, meant};
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::ast::{Head, Item, Name, Node};
use crate::syntax::{Document, fold_name};

/// An exercise: an index into the project's exercises.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ExerciseId(pub usize);

/// A scheme as written.
#[derive(Clone, Debug)]
pub struct SchemeText<'d> {
    pub name: &'d Name,
    pub lines: &'d [Node],
    /// The programme it stands under; `None` for a shared one.
    pub programme: Option<usize>,
}

/// A programme as written, with the blocks that stand under it.
#[derive(Clone, Debug)]
pub struct ProgrammeText<'d> {
    pub name: &'d Name,
    pub lines: &'d [Node],
    pub phases: Vec<&'d Node>,
    pub days: Vec<&'d Node>,
    pub index: usize,
}

/// Everything a project defines.
#[derive(Clone, Debug, Default)]
pub struct Definitions<'d> {
    /// Exercises; the built-in ones first.
    pub exercises: Arc<Vec<Exercise>>,
    /// Where each name and synonym leads.
    pub names: Arc<Names>,
    /// Gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// Athletes.
    pub athletes: Vec<Athlete>,
    /// Where the name of each athlete leads, as names are compared.
    athlete_names: BTreeMap<String, usize>,
    pub(super) schemes: Vec<SchemeText<'d>>,
    pub(super) programmes: Vec<ProgrammeText<'d>>,
    pub(super) logs: Vec<&'d Node>,
}

impl<'d> Definitions<'d> {
    /// The exercise of a name or a synonym.
    #[must_use]
    pub fn exercise(&self, name: &str) -> Option<ExerciseId> {
        self.names.find(name).map(ExerciseId)
    }

    /// The exercise of a name; an unknown one is reported with the nearest.
    pub fn known_exercise(
        &self,
        name: &Name,
        problems: &mut Vec<Diagnostic>,
    ) -> Option<ExerciseId> {
        let found = self.exercise(&name.value);
        // A load's lift is asked for every week, and what is near takes long to find: once is enough.
        let told =
            |one: &Diagnostic| one.code == Code::UnknownExercise && one.label.span == name.span;
        if found.is_none() && !problems.last().is_some_and(told) {
            let known = self.exercises.iter().map(|e| e.name.as_str());
            let synonyms = self.exercises.iter().flat_map(|e| &e.also).map(|n| n.value.as_str());
            let mut finding = Diagnostic::new(
                Code::UnknownExercise,
                name.span,
                format!("there is no exercise `{}`", name.value),
            );
            let part = meant(&name.value, &self.exercises);
            let near = match &part {
                Some(part) => Some(part.exercise.name.as_str()),
                None => crate::diagnostics::nearest(&name.value, known.chain(synonyms)),
            };
            finding = match near {
                Some(near) => {
                    // With one kind of equipment of several: an exercise of one's own asks for it.
                    let with = part.and_then(|part| part.with).map_or_else(String::new, |item| {
                        format!(
                            " Else define it: `exercise {}` with `like: {near}` and `equipment: {item}`",
                            name.value
                        )
                    });
                    finding.help(format!("did you mean `{near}`?{with}")).mend(name.span, near)
                }
                None => finding.help(format!("define it: `exercise {}`", name.value)),
            };
            problems.push(finding);
        }
        found
    }

    /// The athlete of a name; an unknown one is reported with the nearest.
    pub fn known_athlete(&self, name: &Name, problems: &mut Vec<Diagnostic>) -> Option<usize> {
        let found = self.athlete_names.get(&fold_name(&name.value)).copied();
        if found.is_none() {
            problems.push(
                Diagnostic::new(
                    Code::UnknownAthlete,
                    name.span,
                    format!("there is no athlete `{}`", name.value),
                )
                .did_you_mean(&name.value, self.athletes.iter().map(|a| a.name.as_str())),
            );
        }
        found
    }

    /// The scheme of a name, as seen from a programme.
    pub(super) fn known_scheme(
        &self,
        name: &Name,
        programme: usize,
        problems: &mut Vec<Diagnostic>,
    ) -> Option<&SchemeText<'d>> {
        let visible = |s: &&SchemeText<'_>| s.programme.is_none_or(|owner| owner == programme);
        let folded = fold_name(&name.value);
        let seen = || self.schemes.iter().filter(visible);
        let found = seen().find(|scheme| fold_name(&scheme.name.value) == folded);
        if found.is_none() {
            problems.push(
                Diagnostic::new(
                    Code::UnknownScheme,
                    name.span,
                    format!("there is no scheme `{}`", name.value),
                )
                .help(format!("define it: `scheme {}`", name.value))
                .did_you_mean(&name.value, seen().map(|s| s.name.value.as_str())),
            );
        }
        found
    }
}

/// Collects what all files define.
pub fn collect<'d>(
    library: &'d Document,
    documents: &'d [Arc<Document>],
    problems: &mut Vec<Diagnostic>,
) -> Definitions<'d> {
    let mut collector =
        Collector { found: Definitions::default(), problems, seen: BTreeMap::new() };
    let mut exercises = Vec::new();
    collector.document(library, &mut Vec::new(), &mut exercises);
    let built_in = exercises.len();
    for document in documents {
        collector.document(document, &mut Vec::new(), &mut exercises);
    }
    let Collector { mut found, problems, .. } = collector;
    link_exercises(&mut found, &exercises, built_in, problems);
    found
}

struct Collector<'d, 'p> {
    found: Definitions<'d>,
    problems: &'p mut Vec<Diagnostic>,
    /// Where each name of each kind of block was first defined.
    seen: BTreeMap<(&'static str, Option<usize>, String), Span>,
}

impl<'d> Collector<'d, '_> {
    /// Whether a name is new; a second definition shows both places.
    fn is_new(&mut self, kind: &'static str, owner: Option<usize>, name: &Name) -> bool {
        let identity = (kind, owner, fold_name(&name.value));
        if let Some(first) = self.seen.get(&identity) {
            self.problems.push(
                Diagnostic::new(
                    Code::DuplicateDefinition,
                    name.span,
                    format!("the {kind} `{}` is defined twice", name.value),
                )
                .label("again here")
                .and(*first, "first defined here")
                .help("rename one of the two, or take it out"),
            );
            return false;
        }
        self.seen.insert(identity, name.span);
        true
    }

    fn document(
        &mut self,
        document: &'d Document,
        open: &mut Vec<usize>,
        exercises: &mut Vec<(&'d Name, &'d [Node])>,
    ) {
        let is_library = document.file.0 == 0;
        for node in &document.nodes {
            let Item::Head(head) = &node.item.value else { continue };
            let owner = open.last().copied();
            match head {
                Head::Notation(_) | Head::Use(_) => {}
                Head::Exercise(name) => {
                    if is_library || self.is_new("exercise", None, name) {
                        exercises.push((name, &node.children));
                    }
                }
                Head::Gym(name) => {
                    if self.is_new("gym", None, name) {
                        let gym = Gym::read(name, &node.children, self.problems);
                        Arc::make_mut(&mut self.found.gyms).push(gym);
                    }
                }
                Head::Athlete(name) => {
                    if self.is_new("athlete", None, name) {
                        let athlete = Athlete::read(name, &node.children, self.problems);
                        let index = self.found.athletes.len();
                        self.found.athlete_names.insert(fold_name(&athlete.name), index);
                        self.found.athletes.push(athlete);
                    }
                }
                Head::Programme(name) => {
                    self.is_new("programme", None, name);
                    let index = self.found.programmes.len();
                    self.found.programmes.push(ProgrammeText {
                        name,
                        lines: &node.children,
                        phases: Vec::new(),
                        days: Vec::new(),
                        index,
                    });
                    open.push(index);
                }
                Head::Scheme(name) => {
                    if self.is_new("scheme", owner, name) {
                        self.found.schemes.push(SchemeText {
                            name,
                            lines: &node.children,
                            programme: owner,
                        });
                    }
                }
                Head::Phase { name, .. } | Head::Day { name, .. } => {
                    let is_day = matches!(head, Head::Day { .. });
                    let kind = if is_day { "day" } else { "phase" };
                    let Some(owner) = owner else {
                        self.problems.push(
                            Diagnostic::new(
                                Code::OutsideProgramme,
                                node.item.span,
                                format!("this {kind} belongs to no programme"),
                            )
                            .help(
                                "write `programme NAME` with its `weeks:` above it, in this file",
                            ),
                        );
                        continue;
                    };
                    // A block may deload twice: phases of one name are no mistake.
                    if (!is_day || self.is_new(kind, Some(owner), name))
                        && let Some(programme) = self.found.programmes.get_mut(owner)
                    {
                        let list = if is_day { &mut programme.days } else { &mut programme.phases };
                        list.push(node);
                    }
                }
                Head::Log { .. } => self.found.logs.push(node),
            }
        }
    }
}

/// Exercises from their definitions: what `like` names comes first, a built-in of the same name
/// is extended.
fn link_exercises(
    found: &mut Definitions<'_>,
    written: &[(&Name, &[Node])],
    built_in: usize,
    problems: &mut Vec<Diagnostic>,
) {
    let (library, own) = written.split_at(built_in.min(written.len()));
    let alone = Library::of(library);
    problems.extend(alone.problems.iter().cloned());
    if own.is_empty() {
        found.exercises = alone.exercises.clone();
        found.names = alone.names.clone();
        return;
    }
    let mut linker = Linker::new(written, built_in, problems);
    // Where nothing of the project stands under a built-in exercise, these are as they always are.
    if !own.iter().any(|(name, _)| alone.starts.contains(&fold_name(&name.value))) {
        for (slot, exercise) in linker.exercises.iter_mut().zip(&*alone.exercises) {
            *slot = Some(exercise.clone());
        }
        linker.state.iter_mut().take(built_in).for_each(|state| *state = State::Done);
    }
    for index in 0..written.len() {
        linker.link(index);
    }
    let exercises: Vec<Exercise> = linker.exercises.into_iter().flatten().collect();
    let names = names(&exercises, problems);
    found.exercises = Arc::new(exercises);
    found.names = Arc::new(names);
    let known = &*found;
    let mut missing = Vec::new();
    for exercise in found.exercises.iter().skip(built_in) {
        for swap in &exercise.swaps {
            known.known_exercise(swap, &mut missing);
        }
    }
    problems.extend(missing);
}

/// The built-in exercises as they are where a project has none of its own.
struct Library {
    exercises: Arc<Vec<Exercise>>,
    names: Arc<Names>,
    /// The names of those that others start from.
    starts: BTreeSet<String>,
    problems: Vec<Diagnostic>,
}

impl Library {
    /// Worked out once: the library is part of the program and never changes.
    fn of(written: &[(&Name, &[Node])]) -> &'static Self {
        static LIBRARY: OnceLock<Library> = OnceLock::new();
        LIBRARY.get_or_init(|| {
            let mut problems = Vec::new();
            let mut linker = Linker::new(written, written.len(), &mut problems);
            for index in 0..written.len() {
                linker.link(index);
            }
            let exercises: Vec<Exercise> = linker.exercises.into_iter().flatten().collect();
            let starts = exercises.iter().filter_map(|e| Some(fold_name(&e.like.as_ref()?.value)));
            let starts = starts.collect();
            let names = Arc::new(names(&exercises, &mut problems));
            Self { exercises: Arc::new(exercises), names, starts, problems }
        })
    }
}

/// Where the names and synonyms of exercises lead.
fn names(exercises: &[Exercise], problems: &mut Vec<Diagnostic>) -> Names {
    let mut names = Names::default();
    for (index, exercise) in exercises.iter().enumerate() {
        // A later definition stands over an earlier one: the project over the library.
        names.insert(&exercise.name, index);
    }
    let mut owners: BTreeMap<String, (usize, Span)> = BTreeMap::new();
    for (index, exercise) in exercises.iter().enumerate() {
        for also in &exercise.also {
            let folded = fold_name(&also.value);
            if names.find(&also.value).is_some() && !owners.contains_key(&folded) {
                // A full name stands over a synonym of another exercise.
                continue;
            }
            let clash = owners.get(&folded).filter(|(owner, span)| {
                *owner != index
                    && span.file == also.span.file
                    && fold_name(&exercise.name)
                        != exercises.get(*owner).map_or(String::new(), |e| fold_name(&e.name))
            });
            if let Some((_, first)) = clash {
                problems.push(
                    Diagnostic::new(
                        Code::DuplicateDefinition,
                        also.span,
                        format!("two exercises are also called `{}`", also.value),
                    )
                    .label("again here")
                    .and(*first, "first here")
                    .help("a synonym belongs to one exercise"),
                );
                continue;
            }
            owners.insert(folded, (index, also.span));
            names.insert(&also.value, index);
        }
    }
    names
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    New,
    Done,
}

struct Linker<'d, 'p> {
    written: &'d [(&'d Name, &'d [Node])],
    built_in: usize,
    by_name: BTreeMap<String, Vec<usize>>,
    state: Vec<State>,
    exercises: Vec<Option<Exercise>>,
    problems: &'p mut Vec<Diagnostic>,
}

impl<'d, 'p> Linker<'d, 'p> {
    fn new(
        written: &'d [(&'d Name, &'d [Node])],
        built_in: usize,
        problems: &'p mut Vec<Diagnostic>,
    ) -> Self {
        let mut by_name: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (index, (name, _)) in written.iter().enumerate() {
            by_name.entry(fold_name(&name.value)).or_default().push(index);
        }
        Self {
            written,
            built_in,
            by_name,
            state: vec![State::New; written.len()],
            exercises: vec![None; written.len()],
            problems,
        }
    }

    /// Follows `like` from one exercise to the one it starts from, without recursion: the chain
    /// may be as long as the file.
    fn link(&mut self, index: usize) {
        let mut chain = vec![index];
        while let Some(&at) = chain.last() {
            if let Some(State::New) = self.state.get(at) {
            } else {
                chain.pop();
                continue;
            }
            let base = self.base(at);
            match base.and_then(|base| self.state.get(base).map(|s| (base, *s))) {
                Some((base, State::New)) if !chain.contains(&base) => {
                    chain.push(base);
                    continue;
                }
                Some((base, State::New)) => self.ring(at, base),
                _ => {}
            }
            self.build(at, base);
            chain.pop();
        }
    }

    /// The exercise this one starts from: what `like` names, else a built-in of the same name.
    fn base(&mut self, at: usize) -> Option<usize> {
        let (name, lines) = *self.written.get(at)?;
        let mut probe = Exercise::named(name);
        probe.read(lines, &mut Vec::new());
        let own = fold_name(&name.value);
        let wanted = probe.like.as_ref().map_or(own.clone(), |like| fold_name(&like.value));
        let candidates = self.by_name.get(&wanted).cloned().unwrap_or_default();
        let before = |&index: &usize| index != at && (wanted != own || index < self.built_in);
        candidates.into_iter().rfind(before)
    }

    fn ring(&mut self, at: usize, base: usize) {
        if let (Some((name, _)), Some((first, _))) = (self.written.get(at), self.written.get(base))
        {
            self.problems.push(
                Diagnostic::new(
                    Code::LikeCycle,
                    name.span,
                    format!("`{}` is like itself, by way of others", name.value),
                )
                .and(first.span, "the ring closes here")
                .help("let one of them say what it is without `like`"),
            );
        }
    }

    fn build(&mut self, at: usize, base: Option<usize>) {
        let Some((name, lines)) = self.written.get(at).copied() else { return };
        let start = base.and_then(|base| self.exercises.get(base)).and_then(Option::as_ref);
        let mut exercise = start.map_or_else(|| Exercise::named(name), |e| e.variant(name));
        if let (Some(start), true) = (start, base.is_some_and(|b| b < self.built_in)) {
            // Extending a built-in keeps its synonyms; a variant gets none.
            if fold_name(&start.name) == fold_name(&name.value) {
                exercise.also.clone_from(&start.also);
            }
        }
        exercise.like = None;
        exercise.read(lines, self.problems);
        if let (Some(like), None) = (&exercise.like, base) {
            let known = self.written.iter().map(|(name, _)| name.value.as_str());
            self.problems.push(
                Diagnostic::new(
                    Code::UnknownExercise,
                    like.span,
                    format!("there is no exercise `{}`", like.value),
                )
                .did_you_mean(&like.value, known),
            );
        }
        if let Some(slot) = self.exercises.get_mut(at) {
            *slot = Some(exercise);
        }
        if let Some(state) = self.state.get_mut(at) {
            *state = State::Done;
        }
    }
}
