//! How a gym loads an exercise, or what it lacks for it.

use crate::strength::MassList;
use crate::syntax::ast::EquipmentKind;
use crate::syntax::fold_name;

use super::{BarChoice, Equipment, Exercise, Gym};

/// What an exercise is loaded with in a gym.
#[derive(Clone, Debug, PartialEq)]
pub enum LoadingMethod {
    /// Bars, by index: the first choice, then lighter ones for light targets.
    Bars(Vec<usize>),
    /// A pair of dumbbells.
    Dumbbells,
    /// One dumbbell.
    Dumbbell,
    /// A pair of kettlebells.
    Kettlebells,
    /// One kettlebell.
    Kettlebell,
    /// A stack, by index.
    Stack(usize),
    /// A band.
    Band,
    /// The body, with what is added to it.
    BodyMass,
    /// Nothing the gym describes: the load stands as asked.
    Other,
}

impl LoadingMethod {
    /// Whether its loads are of the whole body with something added.
    #[must_use]
    pub fn is_body_mass(&self) -> bool {
        *self == LoadingMethod::BodyMass
    }

    /// Whether the gym lists its loads.
    fn makes_loads(&self) -> bool {
        !matches!(self, LoadingMethod::BodyMass | LoadingMethod::Other)
    }

    fn is_pair(&self) -> bool {
        matches!(self, LoadingMethod::Dumbbells | LoadingMethod::Kettlebells)
    }

    /// Whether a load means the same for both: the whole of it, or that of one of two.
    #[must_use]
    pub fn counts_like(&self, other: &LoadingMethod) -> bool {
        self.makes_loads() && other.makes_loads() && self.is_pair() == other.is_pair()
    }

    /// What it is, in words.
    #[must_use]
    pub fn words(&self, gym: &Gym) -> String {
        let word = match self {
            LoadingMethod::Bars(bars) => {
                let bar = bars.first().and_then(|bar| gym.bars.get(*bar));
                return match bar.and_then(|bar| bar.name.as_ref()) {
                    Some(name) => format!("the bar {name}"),
                    None => "a bar".to_owned(),
                };
            }
            LoadingMethod::Stack(index) => {
                let name = gym.stacks.get(*index).map_or("", |(name, _)| name.as_str());
                return format!("the stack {name}");
            }
            LoadingMethod::Dumbbells => "a pair of dumbbells",
            LoadingMethod::Dumbbell => "one dumbbell",
            LoadingMethod::Kettlebells => "a pair of kettlebells",
            LoadingMethod::Kettlebell => "one kettlebell",
            LoadingMethod::Band => "a band",
            LoadingMethod::BodyMass => "body mass",
            LoadingMethod::Other => "nothing that the gym describes",
        };
        word.to_owned()
    }
}

/// What a line asks of the equipment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadNeed {
    /// A load.
    Load,
    /// The body, with or without something added.
    BodyMass,
    /// Nothing in particular.
    Anything,
}

/// Why a gym cannot load an exercise.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unavailable {
    /// It says that it lacks the exercise, or something the exercise needs.
    Lacks(String),
    /// It has none of these.
    Has(Vec<String>),
}

impl Unavailable {
    /// In a sentence about the gym.
    #[must_use]
    pub fn sentence(&self, gym: &Gym) -> String {
        match self {
            Unavailable::Lacks(what) => format!("the gym `{}` lacks {what}", gym.name),
            Unavailable::Has(kinds) => {
                format!("the gym `{}` has no {}", gym.name, kinds.join(" or "))
            }
        }
    }

    /// In the words that a coach would give as the reason for a `replace`: `no bench`.
    #[must_use]
    pub fn reason(&self) -> String {
        let what = match self {
            Unavailable::Lacks(what) => what.to_lowercase(),
            Unavailable::Has(kinds) => kinds.join(" or "),
        };
        // A reason stands in brackets itself.
        format!("no {}", what.replace(['(', ')', '`'], ""))
    }
}

impl Gym {
    /// What the gym loads an exercise with; what is missing, when it cannot.
    pub fn means(
        &self,
        exercise: &Exercise,
        wants: LoadNeed,
    ) -> Result<LoadingMethod, Unavailable> {
        let lacks = |name: &str| {
            let folded = fold_name(name);
            self.lacks.iter().any(|lacked| fold_name(lacked) == folded)
        };
        if lacks(&exercise.name) {
            return Err(Unavailable::Lacks(exercise.name.clone()));
        }
        if let Some(need) = exercise.needs.iter().find(|need| lacks(need)) {
            return Err(Unavailable::Lacks(need.clone()));
        }
        // Unlike a bench, a machine that nobody names is not taken to be there.
        let own = self.has_machine(None, exercise);
        let machine = |need: &&String| {
            is_machine(need) && !own && !self.has_machine(Some(need.as_str()), exercise)
        };
        if let Some(need) = exercise.needs.iter().find(machine) {
            return Err(Unavailable::Has(vec![need.to_lowercase()]));
        }
        if exercise.equipment.is_empty() {
            return Ok(LoadingMethod::Other);
        }
        let found = self.all_means(exercise);
        let body = found.iter().any(LoadingMethod::is_body_mass);
        if wants == LoadNeed::BodyMass && body {
            return Ok(LoadingMethod::BodyMass);
        }
        let loadable = found.iter().find(|means| !means.is_body_mass());
        let first = match wants {
            LoadNeed::Load => loadable.or(found.first()),
            _ => found.first(),
        };
        first.cloned().ok_or_else(|| {
            let words = exercise.equipment.iter().map(|item| describe(item, exercise));
            Unavailable::Has(words.collect())
        })
    }

    /// All of an exercise's equipment that the gym has, in the exercise's order.
    fn all_means(&self, exercise: &Exercise) -> Vec<LoadingMethod> {
        let lacks =
            |word: &str| self.lacks.iter().any(|lacked| fold_name(lacked) == fold_name(word));
        let items = exercise.equipment.iter().filter(|item| !lacks(item.kind.word()));
        items.filter_map(|item| self.one_means(item, exercise)).collect()
    }

    /// What may be used in place of the usual means of an exercise for a load that it cannot make,
    /// the usual first: what counts a load in the same way, by one piece or by a pair.
    #[must_use]
    pub fn choices(&self, exercise: &Exercise, usual: &LoadingMethod) -> Vec<LoadingMethod> {
        if !usual.makes_loads() {
            return vec![usual.clone()];
        }
        let others = self.all_means(exercise).into_iter();
        let others = others.filter(|means| means != usual && means.counts_like(usual));
        std::iter::once(usual.clone()).chain(others).collect()
    }

    fn one_means(&self, item: &Equipment, exercise: &Exercise) -> Option<LoadingMethod> {
        let some = |list: &Option<MassList>, means: LoadingMethod| {
            list.as_ref().filter(|list| !list.masses().is_empty()).map(|_| means)
        };
        let pair = |list: &Option<MassList>, means: LoadingMethod| {
            list.as_ref().filter(|list| list.has_pair()).map(|_| means)
        };
        match item.kind {
            EquipmentKind::Barbell => self.bars_for(exercise).map(LoadingMethod::Bars),
            EquipmentKind::Dumbbells => pair(&self.dumbbells, LoadingMethod::Dumbbells),
            EquipmentKind::Dumbbell => some(&self.dumbbells, LoadingMethod::Dumbbell),
            EquipmentKind::Kettlebells => pair(&self.kettlebells, LoadingMethod::Kettlebells),
            EquipmentKind::Kettlebell => some(&self.kettlebells, LoadingMethod::Kettlebell),
            EquipmentKind::Stack | EquipmentKind::Machine => {
                let stack = self.stack(item, exercise).map(LoadingMethod::Stack);
                let is_machine = item.kind == EquipmentKind::Machine;
                stack.or_else(|| {
                    let known = is_machine && self.has_machine(item.name.as_deref(), exercise);
                    known.then_some(LoadingMethod::Other)
                })
            }
            EquipmentKind::Band => (!self.bands.is_empty()).then_some(LoadingMethod::Band),
            EquipmentKind::BodyMass => Some(LoadingMethod::BodyMass),
            EquipmentKind::Other => Some(LoadingMethod::Other),
        }
    }

    /// What an exercise needs and the gym neither has by name nor lacks: it is taken to be there.
    pub fn taken_to_be_there<'e>(&self, exercise: &'e Exercise) -> impl Iterator<Item = &'e str> {
        let has = self.has.iter().map(|(name, _)| name);
        let stacks = self.stacks.iter().map(|(name, _)| name);
        let mut said: Vec<String> =
            has.chain(&self.lacks).chain(stacks).map(|name| fold_name(name)).collect();
        if !self.bands.is_empty() {
            said.push(EquipmentKind::Band.word().to_owned());
        }
        let needs = exercise.needs.iter().map(String::as_str);
        // A power rack is a rack.
        if said.iter().any(|name| name.split(' ').any(|word| word == RACK)) {
            said.push(RACK.to_owned());
        }
        needs.filter(move |need| !is_machine(need) && !said.contains(&fold_name(need)))
    }

    /// Whether the gym says that it has a machine for an exercise.
    fn has_machine(&self, name: Option<&str>, exercise: &Exercise) -> bool {
        let wanted = fold_name(name.unwrap_or(&exercise.name));
        self.has.iter().any(|(has, _)| {
            let has = fold_name(has);
            has == wanted || exercise.also.iter().any(|also| fold_name(&also.value) == has)
        })
    }

    /// The stack of its name, else one named like the exercise.
    fn stack(&self, item: &Equipment, exercise: &Exercise) -> Option<usize> {
        let named = |wanted: &str| {
            let wanted = fold_name(wanted);
            self.stacks.iter().position(|(name, _)| fold_name(name) == wanted)
        };
        named(&exercise.name)
            .or_else(|| item.name.as_deref().and_then(named))
            .or_else(|| exercise.also.iter().find_map(|also| named(&also.value)))
    }

    /// The bars an exercise may use, the usual one first.
    fn bars_for(&self, exercise: &Exercise) -> Option<Vec<usize>> {
        let all = || self.bars.iter().enumerate();
        let found: Vec<usize> = match &exercise.bar {
            Some(BarChoice::Mass(mass)) => {
                all().filter(|(_, bar)| bar.mass == *mass).map(|(i, _)| i).collect()
            }
            Some(BarChoice::Named(name)) => {
                let wanted = fold_name(name);
                let named = |bar: &crate::strength::Bar| {
                    bar.name.as_ref().is_some_and(|own| fold_name(own) == wanted)
                };
                all().filter(|(_, bar)| named(bar)).map(|(i, _)| i).collect()
            }
            None => {
                let plain: Vec<usize> =
                    all().filter(|(_, bar)| bar.name.is_none()).map(|(i, _)| i).collect();
                if plain.is_empty() { all().map(|(i, _)| i).take(1).collect() } else { plain }
            }
        };
        (!found.is_empty()).then_some(found)
    }
}

/// What holds a bar between sets.
const RACK: &str = "rack";

/// Whether a thing that an exercise needs besides is a machine.
fn is_machine(need: &str) -> bool {
    fold_name(need).split(' ').next_back() == Some(EquipmentKind::Machine.word())
}

fn describe(item: &Equipment, exercise: &Exercise) -> String {
    match (item.kind, &item.name) {
        (EquipmentKind::Barbell, _) => match &exercise.bar {
            Some(BarChoice::Named(name)) => format!("bar `{name}`"),
            Some(BarChoice::Mass(mass)) => {
                format!("{} bar", mass.show(crate::quantity::Unit::Kg))
            }
            None => "bar".to_owned(),
        },
        (EquipmentKind::Dumbbells, _) => "pair of dumbbells".to_owned(),
        (EquipmentKind::Kettlebells, _) => "pair of kettlebells".to_owned(),
        (EquipmentKind::Band, _) => "bands".to_owned(),
        (EquipmentKind::Stack | EquipmentKind::Machine, name) => {
            format!("{} `{}`", item.kind.word(), name.as_deref().unwrap_or(&exercise.name))
        }
        (kind, _) => kind.word().to_owned(),
    }
}
