//! Every name in a project's lines, with what it stands for.

use std::sync::OnceLock;

use crate::catalogue::{Exercise, MUSCLES, Names, PATTERNS};
use crate::editor::Analysis;
use crate::resolve::{Project, Trainee, resolve};
use crate::source::{FileId, MemoryLoader, Span};
use crate::syntax::ast::{
    AdviceChange, Head, Item, LineKey, LoadText, MaxText, Name, Node, PercentOf, Value,
};
use crate::syntax::keys::Key;
use crate::syntax::{Document, fold_name};

/// What a name stands for. Names in it are folded.
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
    /// A scheme, of a programme or (`None`) for all.
    Scheme(Option<String>, String),
    /// A day of a programme.
    Day(String, String),
    /// A phase of a programme.
    Phase(String, String),
    /// A bar by its name.
    Bar(String),
    /// A stack, a machine or another thing that gyms have.
    Station(String),
}

/// A name where it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mention {
    /// What it stands for.
    pub thing: Thing,
    /// The name as written.
    pub name: String,
    /// Where.
    pub span: Span,
    /// It is defined here (a synonym in its `also called` is).
    pub defines: bool,
}

/// The names of a project, file by file: knows which programme is open, and which schemes and days
/// there are.
pub struct Mentions<'a> {
    documents: &'a [Document],
    exercises: &'a [Exercise],
    names: &'a Names,
    athletes: &'a [Trainee],
    schemes: Vec<(Option<String>, String)>,
    days: Vec<(String, String)>,
    /// Names count as names although nothing of that name is known.
    loose: bool,
}

/// What is open where a line stands.
#[derive(Clone, Default)]
struct Open {
    programme: Option<String>,
    /// The name of the exercise, gym … that the line belongs to.
    block: Option<String>,
    /// The programme whose days a log's sessions name.
    logged: Option<String>,
}

impl<'a> Mentions<'a> {
    /// Gets ready.
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

    /// All names of the project's own files, in the order of the files.
    pub fn own(&self) -> Vec<Mention> {
        let mut found: Vec<Mention> =
            self.documents.iter().flat_map(|document| self.of(document, None)).collect();
        found.sort_by_key(|mention| mention.span);
        found
    }

    /// Everywhere that a thing is named, the library first, then the project's files in order.
    pub fn named(&self, thing: &Thing) -> Vec<Mention> {
        let built_in = library().iter().filter(|mention| mention.thing == *thing).cloned();
        let own = self.own().into_iter().filter(|mention| mention.thing == *thing);
        built_in.chain(own).collect()
    }

    /// Every name that a document has where names stand, known or not, with its place.
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

    /// The names of a file; with a byte, at least those of the block that it is in.
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
            Head::Use(_) => {}
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

    fn lines(&self, nodes: &[Node], open: &Open, found: &mut Vec<Mention>) {
        for node in nodes {
            match &node.item.value {
                Item::Entry { key, value } => {
                    self.key(&key.value, found);
                    self.value(&key.value, &value.value, open, found);
                }
                Item::LogSession { planned: Some((_, day)), .. } => {
                    let owner = open.logged.clone().unwrap_or_default();
                    uses(Thing::Day(owner, fold_name(&day.value)), day, found);
                }
                _ => {}
            }
            self.lines(&node.children, open, found);
        }
    }

    fn key(&self, key: &LineKey, found: &mut Vec<Mention>) {
        match key {
            LineKey::Order(_, name)
            | LineKey::Named(Key::Max | Key::Replace | Key::Setting, name) => {
                self.exercise(name, found);
            }
            LineKey::Named(Key::Stack, name) => self.station(name, true, found),
            LineKey::For(name) => uses(Thing::Athlete(fold_name(&name.value)), name, found),
            LineKey::Named(..)
            | LineKey::Key(_)
            | LineKey::Parameter(_)
            | LineKey::Letter(_)
            | LineKey::Weeks(_)
            | LineKey::When(_)
            | LineKey::Otherwise => {}
        }
    }

    fn value(&self, key: &LineKey, value: &Value, open: &Open, found: &mut Vec<Mention>) {
        match (key, value) {
            (LineKey::Key(Key::AlsoCalled), Value::Names(names)) => {
                let own = open.block.clone().unwrap_or_default();
                found.extend(names.iter().map(|name| Mention {
                    thing: Thing::Exercise(own.clone()),
                    name: name.value.clone(),
                    span: name.span,
                    defines: true,
                }));
            }
            (LineKey::Key(Key::Like), Value::Remarked(name, _))
            | (LineKey::Named(Key::Replace, _), Value::Remarked(name, _)) => {
                self.exercise(name, found);
            }
            (LineKey::Key(Key::Swap), Value::Names(names)) => {
                names.iter().for_each(|name| self.exercise(name, found));
            }
            (LineKey::Key(Key::Athletes), Value::Names(names)) => {
                for name in names {
                    uses(Thing::Athlete(fold_name(&name.value)), name, found);
                }
            }
            (LineKey::Key(Key::Gym), Value::Remarked(name, _)) => {
                uses(Thing::Gym(fold_name(&name.value)), name, found);
            }
            (LineKey::Key(Key::Bar), Value::Remarked(name, _)) => {
                uses(Thing::Bar(fold_name(&name.value)), name, found);
            }
            (LineKey::Key(Key::Bar), Value::Bars(bars)) => {
                for name in bars.iter().filter_map(|bar| bar.name.as_ref()) {
                    let thing = Thing::Bar(fold_name(&name.value));
                    let (name, span) = (name.value.clone(), name.span);
                    found.push(Mention { thing, name, span, defines: true });
                }
            }
            (LineKey::Key(Key::Has | Key::Lacks), Value::Counted(names)) => {
                let defines = matches!(key, LineKey::Key(Key::Has));
                names.iter().for_each(|(name, _)| self.station(name, defines, found));
            }
            (_, Value::Equipment(items)) => {
                for name in items.iter().filter_map(|item| item.value.name.as_ref()) {
                    self.station(name, false, found);
                }
            }
            (_, Value::Avoid(items)) => {
                items.iter().for_each(|(name, _)| self.exercise(name, found));
            }
            (_, Value::Max(max)) => {
                if let MaxText::Share(_, name) = &max.value {
                    self.exercise(name, found);
                }
            }
            (_, Value::Follow(name, _)) => self.scheme(name, open, found),
            (_, Value::Prescription(prescription)) => {
                let loads = prescription.groups.iter().filter_map(|group| group.load.as_ref());
                for load in loads {
                    if let LoadText::Percent(_, PercentOf::Lift(name)) = &load.value {
                        self.exercise(name, found);
                    }
                }
            }
            (_, Value::Advice(advice)) => {
                if let AdviceChange::Allow { on, .. } | AdviceChange::Bound { on, .. } =
                    &advice.what
                {
                    on.iter().for_each(|name| self.advised(name, open, found));
                }
            }
            _ => {}
        }
    }

    /// The exercise of a name or a synonym; nothing, where there is none.
    fn exercise(&self, name: &Name, found: &mut Vec<Mention>) {
        if let Some(own) = self.exercise_name(&name.value) {
            uses(Thing::Exercise(own), name, found);
        }
    }

    fn exercise_name(&self, name: &str) -> Option<String> {
        if self.loose {
            return Some(fold_name(name));
        }
        let index = self.names.find(name)?;
        self.exercises.get(index).map(|exercise| fold_name(&exercise.name))
    }

    /// A thing of a gym: named like an exercise, it is that exercise's.
    fn station(&self, name: &Name, defines: bool, found: &mut Vec<Mention>) {
        match self.exercise_name(&name.value) {
            Some(own) => uses(Thing::Exercise(own), name, found),
            None => found.push(Mention {
                thing: Thing::Station(fold_name(&name.value)),
                name: name.value.clone(),
                span: name.span,
                defines,
            }),
        }
    }

    /// The scheme of the open programme, else the shared one.
    fn scheme(&self, name: &Name, open: &Open, found: &mut Vec<Mention>) {
        let folded = fold_name(&name.value);
        if self.loose {
            return uses(Thing::Scheme(None, folded), name, found);
        }
        let visible = |(owner, own): &&(Option<String>, String)| {
            *own == folded && (owner.is_none() || *owner == open.programme)
        };
        if let Some((owner, own)) = self.schemes.iter().find(visible) {
            uses(Thing::Scheme(owner.clone(), own.clone()), name, found);
        }
    }

    /// What advice is allowed on: a day, `DAY D1`, an athlete, an exercise, a muscle.
    fn advised(&self, name: &Name, open: &Open, found: &mut Vec<Mention>) {
        let owner = open.programme.clone().unwrap_or_default();
        let folded = fold_name(&name.value);
        if self.loose {
            uses(Thing::Day(owner.clone(), folded.clone()), name, found);
        }
        let is_day =
            |text: &str| self.loose || self.days.contains(&(owner.clone(), fold_name(text)));
        let athlete = |own: &Trainee| fold_name(&own.athlete.name) == folded;
        let is_term = MUSCLES.iter().chain(PATTERNS).any(|word| fold_name(word) == folded);
        let day_part = name.value.rsplit_once(' ').map(|(day, _)| day).filter(|day| is_day(day));
        if !self.loose && is_day(&name.value) {
            uses(Thing::Day(owner, folded), name, found);
        } else if let Some(day) = day_part {
            let end = name.span.start as usize + day.len();
            let span = Span::new(name.span.file, name.span.start as usize, end);
            let name = Name::new(day.to_owned(), span);
            uses(Thing::Day(owner, fold_name(day)), &name, found);
        } else if self.athletes.iter().any(athlete) {
            uses(Thing::Athlete(folded), name, found);
        } else if !is_term {
            self.exercise(name, found);
        }
    }
}

/// The names of the library, as it stands alone: it is part of the program and never changes.
fn library() -> &'static [Mention] {
    static LIBRARY: OnceLock<Vec<Mention>> = OnceLock::new();
    LIBRARY.get_or_init(|| {
        let project = Project::from_text(&MemoryLoader::new(), "", String::new());
        let library = project.library.clone();
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
        alone.of(&library, None)
    })
}

fn uses(thing: Thing, name: &Name, found: &mut Vec<Mention>) {
    found.push(Mention { thing, name: name.value.clone(), span: name.span, defines: false });
}
