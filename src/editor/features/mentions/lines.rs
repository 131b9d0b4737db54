//! Collects the names in the lines of a block.

use super::{Mention, Mentions, Open, Thing};
use crate::catalogue::{MUSCLES, PATTERNS};
use crate::resolve::ResolvedAthlete;
use crate::source::Span;
use crate::syntax::ast::{
    AdviceChange, Argument, Item, LineKey, LoadText, MaxText, Name, Node, PercentOf, Value,
    longest_names,
};
use crate::syntax::fold_name;
use crate::syntax::keys::Key;

impl Mentions<'_> {
    pub(super) fn lines(&self, nodes: &[Node], open: &Open, found: &mut Vec<Mention>) {
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
            (
                LineKey::Key(Key::Like) | LineKey::Named(Key::Replace, _),
                Value::Remarked(name, _),
            ) => {
                self.exercise(name, found);
            }
            (LineKey::Key(Key::Swap), Value::Names(names)) => {
                for name in names {
                    self.exercise(name, found);
                }
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
                for (name, _) in names {
                    self.station(name, defines, found);
                }
            }
            (_, Value::Equipment(items)) => {
                for name in items.iter().filter_map(|item| item.value.name.as_ref()) {
                    self.station(name, false, found);
                }
            }
            (_, Value::Avoid(items)) => {
                for (name, _) in items {
                    self.exercise(name, found);
                }
            }
            (_, Value::Max(max)) => {
                if let MaxText::Share(_, name) = &max.value {
                    self.exercise(name, found);
                }
            }
            (_, Value::Follow(name, arguments)) => self.followed(name, arguments, open, found),
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
                    for name in on {
                        self.advised(name, open, found);
                    }
                }
            }
            _ => {}
        }
    }

    /// Adds the exercise with this name or synonym, if there is one.
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

    /// Adds a thing of a gym. If it has the name of an exercise, it refers to that exercise.
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

    /// Adds the scheme that a line follows: the longest matching name of a scheme of the programme
    /// or of a shared one.
    fn followed(&self, name: &Name, arguments: &[Argument], open: &Open, found: &mut Vec<Mention>) {
        if self.loose {
            return uses(Thing::Scheme(None, fold_name(&name.value)), name, found);
        }
        for (name, _) in longest_names(name, arguments) {
            let folded = fold_name(&name.value);
            let visible = |(owner, own): &&(Option<String>, String)| {
                *own == folded && (owner.is_none() || *owner == open.programme)
            };
            if let Some((owner, own)) = self.schemes.iter().find(visible) {
                return uses(Thing::Scheme(owner.clone(), own.clone()), &name, found);
            }
        }
    }

    /// Adds the target of an `on`: a day, `DAY D1`, an athlete, an exercise or a muscle.
    fn advised(&self, name: &Name, open: &Open, found: &mut Vec<Mention>) {
        let owner = open.programme.clone().unwrap_or_default();
        let folded = fold_name(&name.value);
        if self.loose {
            uses(Thing::Day(owner.clone(), folded.clone()), name, found);
        }
        let is_day =
            |text: &str| self.loose || self.days.contains(&(owner.clone(), fold_name(text)));
        let athlete = |own: &ResolvedAthlete| fold_name(&own.athlete.name) == folded;
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

/// Adds a use of a name.
pub fn uses(thing: Thing, name: &Name, found: &mut Vec<Mention>) {
    found.push(Mention { thing, name: name.value.clone(), span: name.span, defines: false });
}
