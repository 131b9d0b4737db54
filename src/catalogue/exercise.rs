//! Exercises.

use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::Mass;
use crate::source::Span;
use crate::syntax::ast::{CountedIn, EquipmentKind, Item, LineKey, Name, Node, Value};
use crate::syntax::fold_name;
use crate::syntax::keys::Key;

use super::translations::in_language;
use super::{MUSCLES, PATTERNS, check_tag, library_text};

/// One way to load an exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Equipment {
    /// What kind.
    pub kind: EquipmentKind,
    /// Which one, such as the stack's name.
    pub name: Option<String>,
}

impl std::fmt::Display for Equipment {
    /// As an `equipment` line has it: `stack Cable`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.name {
            Some(name) => write!(f, "{} {name}", self.kind.word()),
            None => f.write_str(self.kind.word()),
        }
    }
}

/// The bar an exercise asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum BarChoice {
    /// A bar of this mass.
    Mass(Mass),
    /// A bar by its name.
    Named(String),
}

/// What to think of, and where it comes from.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cue {
    /// The cue.
    pub text: String,
    /// Where it comes from.
    pub source: Option<String>,
}

impl Cue {
    /// A cue, with the lines below it.
    #[must_use]
    pub fn read(text: &str, below: &[Node]) -> Self {
        let source = below.iter().find_map(|node| match &node.item.value {
            Item::Entry { key, value } => match (&key.value, &value.value) {
                (LineKey::Key(Key::Source), Value::Text(source)) => Some(source.clone()),
                _ => None,
            },
            _ => None,
        });
        Self { text: text.to_owned(), source }
    }
}

/// An exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Exercise {
    /// Its name.
    pub name: String,
    /// Where it is defined.
    pub span: Span,
    /// Synonyms.
    pub also: Vec<Name>,
    /// The exercise it is a change of.
    pub like: Option<Name>,
    /// Ways to load it, in order of preference; the first that the gym has is used.
    pub equipment: Vec<Equipment>,
    /// What it needs besides, such as a bench.
    pub needs: Vec<String>,
    /// Which bar.
    pub bar: Option<BarChoice>,
    /// Done on each side.
    pub each_side: bool,
    /// What a set is counted in, where it says so; see [`Exercise::counted_in`].
    pub counted_in: Option<CountedIn>,
    /// A compound exercise (true) or an isolation, when it says.
    pub compound: Option<bool>,
    /// Its chief movement pattern.
    pub pattern: Option<String>,
    /// Patterns that it has besides.
    pub also_patterns: Vec<String>,
    /// Muscles with their share of the work, as a fraction.
    pub muscles: Vec<(String, (u32, u32))>,
    /// The set-up.
    pub setup: Option<String>,
    /// The set-up in other languages, as its lines say.
    pub setups: Vec<(String, String)>,
    /// Cues.
    pub cues: Vec<Cue>,
    /// What to do instead, closest first.
    pub swaps: Vec<Name>,
    /// A caution.
    pub safety: Option<String>,
    /// The caution in other languages, as its lines say.
    pub safeties: Vec<(String, String)>,
    /// Range of motion.
    pub range: Option<String>,
    /// Where a demonstration is found.
    pub demo: Option<String>,
    /// Where a claim about it comes from.
    pub source: Option<String>,
    /// Names in other languages.
    pub names: Vec<(String, String)>,
}

impl Exercise {
    /// An exercise that says nothing but its name.
    #[must_use]
    pub fn named(name: &Name) -> Self {
        Self {
            name: name.value.clone(),
            span: name.span,
            also: Vec::new(),
            like: None,
            equipment: Vec::new(),
            needs: Vec::new(),
            bar: None,
            each_side: false,
            counted_in: None,
            compound: None,
            pattern: None,
            also_patterns: Vec::new(),
            muscles: Vec::new(),
            setup: None,
            setups: Vec::new(),
            cues: Vec::new(),
            swaps: Vec::new(),
            safety: None,
            safeties: Vec::new(),
            range: None,
            demo: None,
            source: None,
            names: Vec::new(),
        }
    }

    /// An exercise from its lines, over the one it starts from.
    #[must_use]
    pub fn over(
        base: Option<&Self>,
        name: &Name,
        lines: &[Node],
        problems: &mut Vec<Diagnostic>,
    ) -> Self {
        let mut exercise = base.map_or_else(|| Self::named(name), |base| base.variant(name));
        exercise.like = None;
        exercise.read(lines, problems);
        exercise
    }

    /// The exercise that lines say theirs is like.
    #[must_use]
    pub fn like_of(lines: &[Node]) -> Option<&Name> {
        lines.iter().rev().find_map(|node| match &node.item.value {
            Item::Entry { key, value } => match (&key.value, &value.value) {
                (LineKey::Key(Key::Like), Value::Remarked(name, _)) => Some(name),
                _ => None,
            },
            _ => None,
        })
    }

    /// Reads its lines over what it starts from: what a line says replaces what was there; cues
    /// replace the inherited cues as a whole.
    pub fn read(&mut self, lines: &[Node], problems: &mut Vec<Diagnostic>) {
        let mut own_cues = Vec::new();
        let (mut setups, mut safeties) = (Vec::new(), Vec::new());
        for node in lines {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                (LineKey::Key(Key::AlsoCalled), Value::Names(names)) => self.also.clone_from(names),
                (LineKey::Key(Key::Like), Value::Remarked(name, _)) => {
                    self.like = Some(name.clone());
                }
                (LineKey::Key(Key::Equipment), Value::Equipment(items)) => {
                    self.equipment.clear();
                    self.needs.clear();
                    for item in items {
                        let item = &item.value;
                        match (item.kind, &item.name) {
                            (EquipmentKind::Other, Some(name)) => {
                                self.needs.push(name.value.clone());
                            }
                            (kind, name) => self.equipment.push(Equipment {
                                kind,
                                name: name.as_ref().map(|n| n.value.clone()),
                            }),
                        }
                    }
                }
                (LineKey::Key(Key::Bar), Value::BarMass(mass)) => {
                    self.bar = Some(BarChoice::Mass(mass.mass()));
                }
                (LineKey::Key(Key::Bar), Value::Remarked(name, _)) => {
                    self.bar = Some(BarChoice::Named(name.value.clone()));
                }
                (LineKey::Key(Key::Sides), Value::Sides(each)) => self.each_side = *each,
                (LineKey::Key(Key::CountedIn), Value::CountedIn(unit)) => {
                    self.counted_in = Some(*unit);
                }
                (LineKey::Key(Key::Kind), Value::Compound(compound)) => {
                    self.compound = Some(*compound);
                }
                (LineKey::Key(Key::Pattern), Value::Names(names)) => {
                    self.read_patterns(names, problems);
                }
                (LineKey::Key(Key::Muscles), Value::Muscles(muscles)) => {
                    self.muscles = muscles
                        .iter()
                        .filter_map(|muscle| {
                            let name = &muscle.value.name;
                            let word = known_word(name, MUSCLES, "muscle", problems)?;
                            Some((word, muscle.value.share))
                        })
                        .collect();
                }
                (LineKey::Key(Key::Swap), Value::Names(names)) => self.swaps.clone_from(names),
                (LineKey::Key(Key::Cue), Value::Text(text)) => {
                    own_cues.push(Cue::read(text, &node.children));
                }
                (LineKey::Key(Key::Setup), Value::Text(text)) => {
                    self.setup = Some(text.clone());
                    // The inherited translations say what the inherited sentence says.
                    self.setups.clear();
                }
                (LineKey::Key(Key::Safety), Value::Text(text)) => {
                    self.safety = Some(text.clone());
                    self.safeties.clear();
                }
                (LineKey::Key(Key::Range), Value::Text(text)) => self.range = Some(text.clone()),
                (LineKey::Key(Key::Demo), Value::Text(text)) => self.demo = Some(text.clone()),
                (LineKey::Key(Key::Source), Value::Text(text)) => self.source = Some(text.clone()),
                (LineKey::Named(Key::NameIn, language), Value::Text(text)) => {
                    check_tag(&language.value, language.span, problems);
                    self.names.push((language.value.clone(), text.clone()));
                }
                (LineKey::Named(Key::Setup, language), Value::Text(text)) => {
                    check_tag(&language.value, language.span, problems);
                    setups.push((language.value.clone(), text.clone()));
                }
                (LineKey::Named(Key::Safety, language), Value::Text(text)) => {
                    check_tag(&language.value, language.span, problems);
                    safeties.push((language.value.clone(), text.clone()));
                }
                _ => {}
            }
        }
        if !own_cues.is_empty() {
            self.cues = own_cues;
        }
        // Its own come before those that it inherits.
        self.setups.splice(0..0, setups);
        self.safeties.splice(0..0, safeties);
    }

    /// The set-up in a language: its own translation, else the library's, else as it is written.
    #[must_use]
    pub fn setup_in(&self, language: &str) -> Option<&str> {
        text_in(self.setup.as_deref(), &self.setups, language)
    }

    /// The caution in a language: its own translation, else the library's, else as it is written.
    #[must_use]
    pub fn safety_in(&self, language: &str) -> Option<&str> {
        text_in(self.safety.as_deref(), &self.safeties, language)
    }

    /// The first pattern is the chief one; one that is named twice counts once.
    fn read_patterns(&mut self, names: &[Name], problems: &mut Vec<Diagnostic>) {
        self.pattern = None;
        self.also_patterns.clear();
        for name in names {
            let word = known_word(name, PATTERNS, "pattern", problems);
            let Some(word) = word.filter(|word| !self.has_pattern(word)) else { continue };
            if self.pattern.is_none() {
                self.pattern = Some(word);
            } else {
                self.also_patterns.push(word);
            }
        }
    }

    /// Its movement patterns, the chief one first.
    pub fn patterns(&self) -> impl Iterator<Item = &str> {
        self.pattern.iter().chain(&self.also_patterns).map(String::as_str)
    }

    /// What a set is counted in: what the exercise says; else metres for a carry, and repetitions for
    /// every other pattern but `brace`, where many exercises are done either way. `None` where
    /// nothing is known.
    #[must_use]
    pub fn counted_in(&self) -> Option<CountedIn> {
        let by_pattern = || match self.pattern.as_deref()? {
            "carry" => Some(CountedIn::Metres),
            "brace" => None,
            _ => Some(CountedIn::Reps),
        };
        self.counted_in.or_else(by_pattern)
    }

    /// Whether this is one of its patterns.
    #[must_use]
    pub fn has_pattern(&self, pattern: &str) -> bool {
        let folded = fold_name(pattern);
        self.patterns().any(|own| fold_name(own) == folded)
    }

    /// What another exercise inherits from this one: all but its name, place and synonyms.
    #[must_use]
    pub fn variant(&self, name: &Name) -> Self {
        Self {
            name: name.value.clone(),
            span: name.span,
            also: Vec::new(),
            names: Vec::new(),
            ..self.clone()
        }
    }
}

/// A text in a language: a translation of its own, else the library's, else as it is written.
fn text_in<'t>(
    text: Option<&'t str>,
    translations: &'t [(String, String)],
    language: &str,
) -> Option<&'t str> {
    let own = in_language(translations, language);
    own.or_else(|| library_text(language, text?)).or(text)
}

/// The word of a fixed list that a name stands for.
fn known_word(
    name: &Name,
    known: &'static [&'static str],
    what: &str,
    problems: &mut Vec<Diagnostic>,
) -> Option<String> {
    let folded = fold_name(&name.value);
    let found = known.iter().find(|word| fold_name(word) == folded);
    if found.is_none() {
        problems.push(
            Diagnostic::new(
                Code::UnknownWord,
                name.span,
                format!("there is no {what} `{}`", name.value),
            )
            .did_you_mean(&name.value, known.iter().copied()),
        );
    }
    found.map(|word| (*word).to_owned())
}
