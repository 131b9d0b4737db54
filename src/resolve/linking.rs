//! Exercises from their definitions: what `like` names comes first, a built-in of the same name is
//! extended.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::{Exercise, Exercises, Library, Names};
use crate::diagnostics::{Code, Diagnostic};
use crate::source::Span;
use crate::syntax::ast::{Head, Item, Name, Node};
use crate::syntax::fold_name;

/// An exercise as written: its name and the lines below it.
type ExerciseText<'d> = (&'d Name, &'d [Node]);

/// A project's exercises from its own definitions, and where their names lead.
pub fn link(own: &[ExerciseText<'_>], problems: &mut Vec<Diagnostic>) -> (Exercises, Names) {
    let folded: BTreeSet<String> = own.iter().map(|(name, _)| fold_name(&name.value)).collect();
    // Built-in exercises are as they always are, but those that start from one of the project's.
    link_with(&Library::get().resting_on(&folded), own, problems)
}

/// The same with some built-in exercises made anew.
fn link_with(
    anew: &BTreeSet<usize>,
    own: &[ExerciseText<'_>],
    problems: &mut Vec<Diagnostic>,
) -> (Exercises, Names) {
    let library = Library::get();
    let nodes: Vec<(usize, Node)> =
        anew.iter().filter_map(|index| Some((*index, library.node(*index)?))).collect();
    let numbered = nodes.iter().filter_map(|(index, node)| Some((*index, exercise(node)?)));
    let (numbers, mut written): (Vec<usize>, Vec<ExerciseText<'_>>) = numbered.unzip();
    written.extend(own);
    let mut linker = Linker::new(&written, numbers.len(), problems);
    for index in 0..written.len() {
        linker.link(index);
    }
    let mut made = linker.exercises.into_iter().flatten();
    let anew = numbers.iter().copied().zip(made.by_ref()).collect();
    let own: Vec<Exercise> = made.collect();
    let names = names(&own, problems);
    (Exercises::new(anew, own), names)
}

/// The exercise that a block is.
fn exercise(node: &Node) -> Option<ExerciseText<'_>> {
    match &node.item.value {
        Item::Head(Head::Exercise(name)) => Some((name, &node.children)),
        _ => None,
    }
}

/// Where the names and synonyms of a project's exercises lead: a name of its own stands over one of
/// the library, a name over a synonym, a later synonym over an earlier one.
fn names(own: &[Exercise], problems: &mut Vec<Diagnostic>) -> Names {
    let library = Library::get();
    let mut names = Names::built_in();
    let mut full = BTreeSet::new();
    let numbered = || (library.count()..).zip(own);
    for (index, exercise) in numbered() {
        names.insert(&exercise.name, index);
        full.insert(fold_name(&exercise.name));
    }
    let mut owners: BTreeMap<String, (usize, Span)> = BTreeMap::new();
    for (index, exercise) in numbered() {
        for also in &exercise.also {
            let folded = fold_name(&also.value);
            if full.contains(&folded) || library.find(&folded).is_some_and(|known| known.is_full) {
                continue;
            }
            let clash = owners
                .get(&folded)
                .filter(|(owner, span)| *owner != index && span.file == also.span.file);
            if let Some((_, first)) = clash {
                problems.push(
                    Diagnostic::new(
                        Code::DuplicateDefinition,
                        also.span,
                        format!("two exercises are also called `{}`", also.value),
                    )
                    .label("again here")
                    .and(*first, "first here")
                    .help("give each synonym to only one exercise"),
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
enum LinkState {
    New,
    Done,
}

/// What an exercise starts from.
#[derive(Clone, Copy)]
enum Base {
    /// One of those that are linked.
    Written(usize),
    /// A built-in exercise as it always is.
    BuiltIn(&'static Exercise),
}

/// Links the built-in exercises that are made anew, which come first, and the project's own.
struct Linker<'d, 'p> {
    written: &'d [ExerciseText<'d>],
    anew: usize,
    by_name: BTreeMap<String, Vec<usize>>,
    state: Vec<LinkState>,
    exercises: Vec<Option<Exercise>>,
    problems: &'p mut Vec<Diagnostic>,
}

impl<'d, 'p> Linker<'d, 'p> {
    fn new(
        written: &'d [ExerciseText<'d>],
        anew: usize,
        problems: &'p mut Vec<Diagnostic>,
    ) -> Self {
        let mut by_name: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (index, (name, _)) in written.iter().enumerate() {
            by_name.entry(fold_name(&name.value)).or_default().push(index);
        }
        Self {
            written,
            anew,
            by_name,
            state: vec![LinkState::New; written.len()],
            exercises: vec![None; written.len()],
            problems,
        }
    }

    /// Follows `like` from one exercise to the one it starts from, without recursion: the chain
    /// may be as long as the file.
    fn link(&mut self, index: usize) {
        let mut chain = vec![index];
        while let Some(&at) = chain.last() {
            if let Some(LinkState::New) = self.state.get(at) {
            } else {
                chain.pop();
                continue;
            }
            let base = self.base(at);
            if let Some(Base::Written(base)) = base
                && self.state.get(base) == Some(&LinkState::New)
            {
                if !chain.contains(&base) {
                    chain.push(base);
                    continue;
                }
                self.ring(at, base);
            }
            self.build(at, base);
            chain.pop();
        }
    }

    /// The exercise this one starts from: what `like` names, else a built-in of the same name.
    fn base(&self, at: usize) -> Option<Base> {
        let (name, lines) = *self.written.get(at)?;
        let own = fold_name(&name.value);
        let like = Exercise::like_of(lines);
        let wanted = like.map_or_else(|| own.clone(), |like| fold_name(&like.value));
        let before = |index: &&usize| **index != at && (wanted != own || **index < self.anew);
        let written = self.by_name.get(&wanted).and_then(|all| all.iter().rfind(before));
        if let Some(written) = written {
            return Some(Base::Written(*written));
        }
        let library = Library::get();
        let known = library.find(&wanted).filter(|known| known.is_full)?;
        // One that is made anew does not start from what it was.
        let is_itself = at < self.anew && wanted == own;
        Some(Base::BuiltIn(library.exercise(known.index).filter(|_| !is_itself)?))
    }

    fn ring(&mut self, at: usize, base: usize) {
        if let (Some((name, _)), Some((first, _))) = (self.written.get(at), self.written.get(base))
        {
            self.problems.push(
                Diagnostic::new(
                    Code::LikeCycle,
                    name.span,
                    format!("the `like` lines lead from `{}` back to itself", name.value),
                )
                .and(first.span, "this line is part of the circle")
                .help("delete one of these `like` lines and write out that exercise"),
            );
        }
    }

    fn build(&mut self, at: usize, base: Option<Base>) {
        let Some((name, lines)) = self.written.get(at).copied() else { return };
        let (start, is_built_in) = match base {
            Some(Base::Written(index)) => {
                (self.exercises.get(index).and_then(Option::as_ref), index < self.anew)
            }
            Some(Base::BuiltIn(exercise)) => (Some(exercise), true),
            None => (None, false),
        };
        let mut exercise = Exercise::over(start, name, lines, self.problems);
        // Extending a built-in keeps its synonyms; a variant gets none.
        if let Some(start) = start.filter(|_| is_built_in)
            && fold_name(&start.name) == fold_name(&name.value)
            && exercise.also.is_empty()
        {
            exercise.also.clone_from(&start.also);
        }
        if let (Some(like), None) = (&exercise.like, base) {
            let own = self.written.iter().skip(self.anew);
            let mut known: Vec<&str> = Library::get().names().collect();
            known.extend(own.map(|(name, _)| name.value.as_str()));
            self.problems.push(
                Diagnostic::new(
                    Code::UnknownExercise,
                    like.span,
                    format!("there is no exercise `{}`", like.value),
                )
                .did_you_mean(&like.value, known.iter().copied()),
            );
        }
        if let Some(slot) = self.exercises.get_mut(at) {
            *slot = Some(exercise);
        }
        if let Some(state) = self.state.get_mut(at) {
            *state = LinkState::Done;
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::catalogue::LIBRARY_FILE;
    use crate::source::FileId;
    use crate::syntax::parse;

    fn written(nodes: &[Node]) -> Vec<ExerciseText<'_>> {
        nodes.iter().filter_map(super::exercise).collect()
    }

    #[test]
    fn the_library_read_piece_by_piece_is_the_library_read_whole() {
        let (document, found) = parse(crate::catalogue::LIBRARY, LIBRARY_FILE);
        assert_eq!(found, []);
        let whole = written(&document.nodes);
        let library = Library::get();
        assert_eq!(whole.len(), library.count());
        let mut problems = Vec::new();
        let mut linker = Linker::new(&whole, whole.len(), &mut problems);
        for index in 0..whole.len() {
            linker.link(index);
        }
        let read: Vec<Exercise> = linker.exercises.into_iter().flatten().collect();
        assert_eq!(problems, []);
        let mut names = 0;
        for (index, exercise) in read.iter().enumerate() {
            assert_eq!(library.exercise(index), Some(exercise));
            let full = (exercise.name.as_str(), true);
            let also = exercise.also.iter().map(|name| (name.value.as_str(), false));
            for (name, is_full) in std::iter::once(full).chain(also) {
                let known = library.find(&fold_name(name)).expect(name);
                assert_eq!((known.index, known.is_full), (index, is_full), "{name}");
                names += 1;
            }
            let is_translated = library.translated().any(|translated| translated == index);
            assert_eq!(is_translated, !exercise.names.is_empty(), "{}", exercise.name);
        }
        assert_eq!(library.names_known(), names);
        assert!(library.names().eq(read.iter().map(|exercise| exercise.name.as_str())));
    }

    /// Names of the library and of nobody, so that a project's exercises meet each other.
    const POOL: [&str; 10] = [
        "Back squat",
        "Front squat",
        "Paused back squat",
        "Box squat",
        "Deadlift",
        "Pause squat",
        "Barbell squat",
        "Sled row",
        "Yard walk",
        "Log lift",
    ];

    fn definition() -> impl Strategy<Value = String> {
        let name = || prop::sample::select(POOL.to_vec());
        let maybe = |lead: &'static str| {
            prop::option::of(name()).prop_map(move |name| {
                name.map_or_else(String::new, |name| format!("  {lead}: {name}\n"))
            })
        };
        (name(), maybe("like"), maybe("also called"), maybe("swap"), any::<bool>()).prop_map(
            |(name, like, also, swap, cue)| {
                let cue = if cue { "  cue: Slowly.\n" } else { "" };
                format!("exercise {name}\n{like}{also}{swap}{cue}")
            },
        )
    }

    proptest! {
        // What is found becomes a test of its own.
        #![proptest_config(ProptestConfig {
            failure_persistence: None, cases: 48, ..ProptestConfig::default()
        })]

        #[test]
        fn built_in_exercises_that_nobody_touches_need_not_be_made_anew(
            exercises in prop::collection::vec(definition(), 1..5)
        ) {
            let (document, _) = parse(&exercises.concat(), FileId(1));
            let mut own = written(&document.nodes);
            let mut seen = BTreeSet::new();
            own.retain(|(name, _)| seen.insert(fold_name(&name.value)));
            let (mut said, mut said_of_all) = (Vec::new(), Vec::new());
            let (some, names) = link(&own, &mut said);
            let everything = (0..Library::get().count()).collect();
            let (all, all_names) = link_with(&everything, &own, &mut said_of_all);
            prop_assert!(some.iter().eq(all.iter()));
            prop_assert_eq!(names, all_names);
            prop_assert_eq!(said, said_of_all);
        }
    }
}
