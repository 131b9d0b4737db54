//! The definitions of a project: exercises, gyms, athletes, schemes and programmes, by name.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::catalogue::{Athlete, Exercises, Gym, Names, meant};
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::ast::{Head, Item, Name, Node};
use crate::syntax::{Document, fold_name};

use super::linking;

/// For how many unknown exercises the most similar name is looked up.
const MOST_LIKENED: usize = 200;

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
    pub exercises: Exercises,
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

    /// The exercise with a name. An unknown name is reported with the most similar one.
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
            let known = self.exercises.names();
            let synonyms = self.exercises.iter().flat_map(|e| &e.also).map(|n| n.value.as_str());
            let mut finding = Diagnostic::new(
                Code::UnknownExercise,
                name.span,
                format!("there is no exercise `{}`", name.value),
            );
            if let Some((before, comment)) = name.value.split_once(" #")
                && self.exercise(before).is_some()
            {
                let help = format!("write the comment with a space after its `#`: `# {comment}`");
                problems.push(finding.help(help).fix(name.span, format!("{before} # {comment}")));
                return None;
            }
            // The search is slow, and nobody reads so many suggestions.
            let mut unknown = problems.iter().filter(|one| one.code == Code::UnknownExercise);
            let look = unknown.nth(MOST_LIKENED).is_none();
            let part = look.then(|| meant(&name.value, &self.exercises)).flatten();
            let near = match &part {
                Some(part) => Some(part.exercise.name.as_str()),
                None if !look => None,
                None => crate::diagnostics::nearest(&name.value, known.chain(synonyms)),
            };
            finding = match near {
                Some(near) => {
                    // The name asks for one of several kinds of equipment: that needs an exercise of its own.
                    let with = part.and_then(|part| part.with).map_or_else(String::new, |item| {
                        format!(
                            " Otherwise define it: `exercise {}` with `like: {near}` and `equipment: {item}`",
                            name.value
                        )
                    });
                    finding.help(format!("did you mean `{near}`?{with}")).guess(name.span, near)
                }
                None => finding.help(format!("define it: `exercise {}`", name.value)),
            };
            problems.push(finding);
        }
        found
    }

    /// The athlete with a name. An unknown name is reported with the most similar one.
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

    /// The names of the athletes, as names are compared.
    pub(super) fn athlete_names(&self) -> &BTreeMap<String, usize> {
        &self.athlete_names
    }

    /// The scheme of a name, as seen from a programme.
    pub(super) fn known_scheme(
        &self,
        name: &Name,
        programme: usize,
        problems: &mut Vec<Diagnostic>,
    ) -> Option<&SchemeText<'d>> {
        let found = self.scheme(&name.value, programme);
        if found.is_none() {
            let seen = self.schemes_of(programme);
            problems.push(
                Diagnostic::new(
                    Code::UnknownScheme,
                    name.span,
                    format!("there is no scheme `{}`", name.value),
                )
                .help(format!("define it: `scheme {}`", name.value))
                .did_you_mean(&name.value, seen.map(|s| s.name.value.as_str())),
            );
        }
        found
    }

    /// The scheme of a name, as seen from a programme, if there is one.
    pub(super) fn scheme(&self, name: &str, programme: usize) -> Option<&SchemeText<'d>> {
        let folded = fold_name(name);
        self.schemes_of(programme).find(|scheme| fold_name(&scheme.name.value) == folded)
    }

    fn schemes_of(&self, programme: usize) -> impl Iterator<Item = &SchemeText<'d>> {
        self.schemes.iter().filter(move |s| s.programme.is_none_or(|owner| owner == programme))
    }
}

/// Collects what all files define.
pub fn collect<'d>(
    documents: &'d [Arc<Document>],
    problems: &mut Vec<Diagnostic>,
) -> Definitions<'d> {
    let mut collector =
        Collector { found: Definitions::default(), problems, seen: BTreeMap::new() };
    let mut exercises = Vec::new();
    for document in documents {
        collector.document(document, &mut Vec::new(), &mut exercises);
    }
    let Collector { mut found, problems, .. } = collector;
    let (exercises, names) = linking::link(&exercises, problems);
    found.exercises = exercises;
    found.names = Arc::new(names);
    let mut missing = Vec::new();
    for swap in found.exercises.own().iter().flat_map(|exercise| &exercise.swaps) {
        found.known_exercise(swap, &mut missing);
    }
    problems.extend(missing);
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
                .help("rename or delete one of the two"),
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
        for node in &document.nodes {
            let Item::Head(head) = &node.item.value else { continue };
            let owner = open.last().copied();
            match head {
                Head::Notation(_) | Head::Use(_) => {}
                Head::Exercise(name) => {
                    if self.is_new("exercise", None, name) {
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
                                format!("this {kind} does not belong to a programme"),
                            )
                            .help("write `programme NAME` and its `weeks:` above it in this file"),
                        );
                        continue;
                    };
                    // A programme may have two deloads, so phases may share a name.
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
