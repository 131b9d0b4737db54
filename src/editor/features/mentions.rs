//! All names in a project's lines, and what they refer to.

mod lines;

use std::sync::{Arc, OnceLock};

use self::lines::uses;

use crate::catalogue::{Exercises, Library, Names};
use crate::editor::Analysis;
use crate::resolve::{Project, ResolvedAthlete, resolve};
use crate::source::{FileId, MemoryLoader, Span};
use crate::syntax::ast::{Head, Item, Name, Node};
use crate::syntax::{Document, fold_name};

/// What a name refers to. The names in it are folded.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// An exercise, by its own name.
    Exercise(String),
    /// An athlete.
    Athlete(String),
    /// A gym.
    Gym(String),
    /// A programme.
    Programme(String),
    /// A scheme, of a programme or (`None`) shared by all.
    Scheme(Option<String>, String),
    /// A day of a programme.
    Day(String, String),
    /// A phase of a programme.
    Phase(String, String),
    /// A bar, by name.
    Bar(String),
    /// A stack, a machine or another thing in a gym.
    Station(String),
}

/// A name at a place in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mention {
    /// What it refers to.
    pub thing: Thing,
    /// The name as written.
    pub name: String,
    /// Its place.
    pub span: Span,
    /// Whether it is the definition, or a synonym in `also called`.
    pub defines: bool,
}

/// Collects the names of a project, file by file. It knows the schemes and days that exist, and the
/// programme that a line belongs to.
pub struct Mentions<'a> {
    documents: &'a [Arc<Document>],
    exercises: &'a Exercises,
    names: &'a Names,
    athletes: &'a [ResolvedAthlete],
    schemes: Vec<(Option<String>, String)>,
    days: Vec<(String, String)>,
    /// Whether names count even if nothing with that name exists.
    loose: bool,
}

/// The context of a line.
#[derive(Clone, Default)]
struct Open {
    programme: Option<String>,
    /// Name of the exercise, gym … that the line belongs to.
    block: Option<String>,
    /// The programme whose days the sessions of a log name.
    logged: Option<String>,
}

impl<'a> Mentions<'a> {
    /// Prepares the collection for a project.
    pub fn new(analysis: &'a Analysis) -> Self {
        let (mut schemes, mut days) = (Vec::new(), Vec::new());
        for document in &analysis.documents {
            let mut programme = None;
            for node in &document.nodes {
                match &node.item.value {
                    Item::Head(Head::Programme(name)) => programme = Some(fold_name(&name.value)),
                    Item::Head(Head::Scheme(name)) => {
                        schemes.push((programme.clone(), fold_name(&name.value)));
                    }
                    Item::Head(Head::Day { name, .. }) => {
                        let owner = programme.clone().unwrap_or_default();
                        days.push((owner, fold_name(&name.value)));
                    }
                    _ => {}
                }
            }
        }
        Self {
            documents: &analysis.documents,
            exercises: &analysis.exercises,
            names: &analysis.names,
            athletes: &analysis.athletes,
            schemes,
            days,
            loose: false,
        }
    }

    /// All names in the project's own files, in the order of the files.
    pub fn own(&self) -> Vec<Mention> {
        let mut found: Vec<Mention> =
            self.documents.iter().flat_map(|document| self.of(document, None)).collect();
        found.sort_by_key(|mention| mention.span);
        found
    }

    /// All names of a thing: in the library first, then in the project's files in order.
    pub fn named(&self, thing: &Thing) -> Vec<Mention> {
        let built_in = library().iter().filter(|mention| mention.thing == *thing).cloned();
        let own = self.own().into_iter().filter(|mention| mention.thing == *thing);
        built_in.chain(own).collect()
    }

    /// All names that a document contains, known or not, with their places.
    pub fn written(analysis: &'a Analysis, document: &Document) -> Vec<(Span, String)> {
        let loose =
            Mentions { schemes: Vec::new(), days: Vec::new(), loose: true, ..Self::new(analysis) };
        let found = loose.of(document, None).into_iter();
        found.map(|mention| (mention.span, mention.name)).collect()
    }

    /// The name at a byte of a file.
    pub fn at(&self, file: FileId, offset: u32) -> Option<Mention> {
        let own = self.documents.iter().find(|document| document.file == file);
        let found = match own {
            Some(document) => self.of(document, Some(offset)),
            None => library().iter().filter(|mention| mention.span.file == file).cloned().collect(),
        };
        let touching =
            |mention: &Mention| mention.span.start <= offset && offset <= mention.span.end;
        found.into_iter().find(touching)
    }

    /// The names of a file. With a byte, at least those of the block that contains it.
    fn of(&self, document: &Document, at: Option<u32>) -> Vec<Mention> {
        let mut found = Vec::new();
        let mut open = Open::default();
        let starts = |node: Option<&Node>| node.map(|node| node.item.span.start);
        for (index, node) in document.nodes.iter().enumerate() {
            if let Item::Head(Head::Programme(name)) = &node.item.value {
                open.programme = Some(fold_name(&name.value));
            }
            let past = at.is_some_and(|at| node.item.span.start > at);
            let ended = at.is_some_and(|at| {
                starts(document.nodes.get(index + 1)).is_some_and(|next| next <= at)
            });
            if past {
                break;
            }
            if !ended {
                self.block(node, &mut open, &mut found);
            }
        }
        found
    }

    fn block(&self, node: &Node, open: &mut Open, found: &mut Vec<Mention>) {
        let Item::Head(head) = &node.item.value else { return };
        let owner = open.programme.clone().unwrap_or_default();
        let mut defines = |thing: Thing, name: &Name| {
            found.push(Mention { thing, name: name.value.clone(), span: name.span, defines: true });
        };
        open.block = None;
        open.logged.clone_from(&open.programme);
        match head {
            Head::Notation(_) | Head::Use(_) => {}
            Head::Exercise(name) => {
                defines(Thing::Exercise(fold_name(&name.value)), name);
                open.block = Some(fold_name(&name.value));
            }
            Head::Gym(name) => defines(Thing::Gym(fold_name(&name.value)), name),
            Head::Athlete(name) => defines(Thing::Athlete(fold_name(&name.value)), name),
            Head::Programme(name) => defines(Thing::Programme(fold_name(&name.value)), name),
            Head::Scheme(name) => {
                defines(Thing::Scheme(open.programme.clone(), fold_name(&name.value)), name);
            }
            Head::Phase { name, .. } => defines(Thing::Phase(owner, fold_name(&name.value)), name),
            Head::Day { name, .. } => defines(Thing::Day(owner, fold_name(&name.value)), name),
            Head::Log { athlete, programme } => {
                let logged = fold_name(&programme.value);
                uses(Thing::Athlete(fold_name(&athlete.value)), athlete, found);
                uses(Thing::Programme(logged.clone()), programme, found);
                open.logged = Some(logged);
            }
        }
        self.lines(&node.children, open, found);
    }
}

/// The names in the library. They are computed once, since it is part of the program and never
/// changes.
fn library() -> &'static [Mention] {
    static LIBRARY: OnceLock<Vec<Mention>> = OnceLock::new();
    LIBRARY.get_or_init(|| {
        let project = Project::from_text(&MemoryLoader::new(), "", String::new());
        let resolved = resolve(project);
        let alone = Mentions {
            documents: &[],
            exercises: &resolved.exercises,
            names: &resolved.names,
            athletes: &[],
            schemes: Vec::new(),
            days: Vec::new(),
            loose: false,
        };
        alone.of(Library::document(), None)
    })
}
