//! What each gym can load an exercise with, worked out once a gym.

use std::cell::OnceCell;

use crate::catalogue::{BarChoice, Equipment, Exercise, Gym};
use crate::plan::{self, Built, Implement};
use crate::quantity::{Exact, Mass};
use crate::resolve::Programme;
use crate::strength::{BarLoads, HungLoads, MassList, Rounding, TooManyLoads};
use crate::syntax::ast::EquipmentKind;
use crate::syntax::fold_name;

/// All gyms of a programme.
pub struct Gear<'a> {
    gyms: Vec<GymGear<'a>>,
}

impl<'a> Gear<'a> {
    pub fn new(programme: &'a Programme) -> Self {
        Self { gyms: programme.gyms.iter().map(GymGear::new).collect() }
    }

    pub fn gym(&self, index: usize) -> Option<&GymGear<'a>> {
        self.gyms.get(index)
    }
}

/// One gym, its loads worked out when first asked for.
pub struct GymGear<'a> {
    pub gym: &'a Gym,
    bars: Vec<OnceCell<Result<BarLoads, TooManyLoads>>>,
    hung: OnceCell<Result<HungLoads, TooManyLoads>>,
    pairs_of_dumbbells: Option<MassList>,
    pairs_of_kettlebells: Option<MassList>,
}

/// What an exercise is loaded with in a gym.
#[derive(Clone, Debug, PartialEq)]
pub enum Means {
    /// Bars, by index: the first choice, then lighter ones for light targets.
    Bars(Vec<usize>),
    Dumbbells,
    Dumbbell,
    Kettlebells,
    Kettlebell,
    /// A stack, by index.
    Stack(usize),
    Band,
    BodyMass,
    /// Nothing the gym describes: the load stands as asked.
    Other,
}

impl Means {
    /// Whether its loads are of the whole body with something added.
    pub fn is_body_mass(&self) -> bool {
        *self == Means::BodyMass
    }

    /// The same in the plan's words. A machine is told from a cable's stack, and from what no gym
    /// describes, by what the exercise names.
    pub fn equipment(&self, exercise: &Exercise) -> Option<plan::Equipment> {
        let names_machine = exercise.equipment.iter().any(|e| e.kind == EquipmentKind::Machine);
        Some(match self {
            Means::Bars(_) => plan::Equipment::Barbell,
            Means::Dumbbells => plan::Equipment::Dumbbells,
            Means::Dumbbell => plan::Equipment::Dumbbell,
            Means::Kettlebells => plan::Equipment::Kettlebells,
            Means::Kettlebell => plan::Equipment::Kettlebell,
            Means::Stack(_) | Means::Other if names_machine => plan::Equipment::Machine,
            Means::Stack(_) => plan::Equipment::Stack,
            Means::Band => plan::Equipment::Band,
            Means::BodyMass => plan::Equipment::BodyMass,
            Means::Other if exercise.equipment.is_empty() => return None,
            Means::Other => plan::Equipment::Other,
        })
    }
}

/// What a line asks of the equipment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wants {
    /// A load.
    Load,
    /// The body, with or without something added.
    BodyMass,
    /// Nothing in particular.
    Anything,
}

/// A load as built: what it is, and the smallest step of what it was chosen from.
pub struct Choice {
    pub built: Built,
    pub step: Mass,
}

impl<'a> GymGear<'a> {
    fn new(gym: &'a Gym) -> Self {
        Self {
            gym,
            bars: gym.bars.iter().map(|_| OnceCell::new()).collect(),
            hung: OnceCell::new(),
            pairs_of_dumbbells: gym.dumbbells.as_ref().map(MassList::pairs),
            pairs_of_kettlebells: gym.kettlebells.as_ref().map(MassList::pairs),
        }
    }

    /// What the gym loads an exercise with; what is missing, in words, when it cannot.
    pub fn means(&self, exercise: &Exercise, wants: Wants) -> Result<Means, String> {
        let lacks = |name: &str| {
            let folded = fold_name(name);
            self.gym.lacks.iter().any(|lacked| fold_name(lacked) == folded)
        };
        if lacks(&exercise.name) {
            return Err(format!("the gym `{}` lacks {}", self.gym.name, exercise.name));
        }
        if let Some(need) = exercise.needs.iter().find(|need| lacks(need)) {
            return Err(format!("the gym `{}` lacks {need}", self.gym.name));
        }
        if exercise.equipment.is_empty() {
            return Ok(Means::Other);
        }
        let found: Vec<Means> = exercise
            .equipment
            .iter()
            .filter(|item| !lacks(item.kind.word()))
            .filter_map(|item| self.one_means(item, exercise))
            .collect();
        let body = found.iter().any(Means::is_body_mass);
        if wants == Wants::BodyMass && body {
            return Ok(Means::BodyMass);
        }
        let loadable = found.iter().find(|means| !means.is_body_mass());
        let first = match wants {
            Wants::Load => loadable.or(found.first()),
            _ => found.first(),
        };
        first.cloned().ok_or_else(|| {
            let words: Vec<String> =
                exercise.equipment.iter().map(|item| describe(item, exercise)).collect();
            format!("the gym `{}` has no {}", self.gym.name, words.join(" or "))
        })
    }

    fn one_means(&self, item: &Equipment, exercise: &Exercise) -> Option<Means> {
        let some = |list: &Option<MassList>, means: Means| {
            list.as_ref().filter(|list| !list.masses().is_empty()).map(|_| means)
        };
        match item.kind {
            EquipmentKind::Barbell => self.bars_for(exercise).map(Means::Bars),
            EquipmentKind::Dumbbells => some(&self.pairs_of_dumbbells, Means::Dumbbells),
            EquipmentKind::Dumbbell => some(&self.gym.dumbbells, Means::Dumbbell),
            EquipmentKind::Kettlebells => some(&self.pairs_of_kettlebells, Means::Kettlebells),
            EquipmentKind::Kettlebell => some(&self.gym.kettlebells, Means::Kettlebell),
            EquipmentKind::Stack | EquipmentKind::Machine => {
                let stack = self.stack(item, exercise).map(Means::Stack);
                let is_machine = item.kind == EquipmentKind::Machine;
                stack.or_else(|| {
                    let known = is_machine && self.has(item.name.as_deref(), exercise);
                    known.then_some(Means::Other)
                })
            }
            EquipmentKind::Band => (!self.gym.bands.is_empty()).then_some(Means::Band),
            EquipmentKind::BodyMass => Some(Means::BodyMass),
            EquipmentKind::Other => Some(Means::Other),
        }
    }

    /// Whether the gym says that it has a machine for an exercise.
    fn has(&self, name: Option<&str>, exercise: &Exercise) -> bool {
        let wanted = fold_name(name.unwrap_or(&exercise.name));
        self.gym.has.iter().any(|(has, _)| {
            let has = fold_name(has);
            has == wanted || exercise.also.iter().any(|also| fold_name(&also.value) == has)
        })
    }

    /// The stack of its name, else one named like the exercise.
    fn stack(&self, item: &Equipment, exercise: &Exercise) -> Option<usize> {
        let named = |wanted: &str| {
            let wanted = fold_name(wanted);
            self.gym.stacks.iter().position(|(name, _)| fold_name(name) == wanted)
        };
        named(&exercise.name)
            .or_else(|| item.name.as_deref().and_then(named))
            .or_else(|| exercise.also.iter().find_map(|also| named(&also.value)))
    }

    /// The bars an exercise may use, the usual one first.
    fn bars_for(&self, exercise: &Exercise) -> Option<Vec<usize>> {
        let bars = &self.gym.bars;
        let all = || bars.iter().enumerate();
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

    /// All loads of a bar.
    pub fn bar_loads(&self, index: usize) -> Result<&BarLoads, TooManyLoads> {
        // An index always comes from this gym's own bars.
        let missing = TooManyLoads { limit: 0 };
        let (Some(cell), Some(bar)) = (self.bars.get(index), self.gym.bars.get(index)) else {
            return Err(missing);
        };
        cell.get_or_init(|| BarLoads::new(bar, &self.gym.plates, self.gym.collars))
            .as_ref()
            .map_err(|error| TooManyLoads { limit: error.limit })
    }

    /// Which of the bars a target is loaded on: the usual one, unless the target is lighter than
    /// that bar alone and another comes nearer; of equals the fewest plates, then the usual bar.
    pub fn bar_for(
        &self,
        bars: &[usize],
        target: &Exact,
        rounding: Rounding,
    ) -> Result<usize, TooManyLoads> {
        let usual = bars.first().copied().unwrap_or(0);
        let alone = self.gym.bars.get(usual).map_or(Mass::ZERO, |bar| bar.mass);
        if bars.len() < 2 || *target >= Exact::from_mass(alone + self.gym.collars) {
            return Ok(usual);
        }
        let mut best: Option<(bool, Exact, usize, usize)> = None;
        for (place, &bar) in bars.iter().enumerate() {
            let built = self.bar_loads(bar)?.build(target, rounding);
            let mass = Exact::from_mass(built.mass);
            let plates = match &built.how {
                Implement::Bar { per_side, .. } => per_side.len(),
                _ => 0,
            };
            let too_heavy = rounding == Rounding::Down && mass > *target;
            let key = (too_heavy, (&mass - target).abs(), plates, place);
            if best.as_ref().is_none_or(|best| key < *best) {
                best = Some(key);
            }
        }
        Ok(best.and_then(|(.., place)| bars.get(place)).copied().unwrap_or(usual))
    }

    /// Makes a load from what there is. `None`: the gym has nothing to make it of.
    pub fn build(
        &self,
        means: &Means,
        target: &Exact,
        rounding: Rounding,
    ) -> Result<Option<Choice>, TooManyLoads> {
        let from = |list: Option<&MassList>, how: Implement| {
            let list = list?;
            let mass = list.pick(target, rounding)?;
            Some(Choice { built: Built { mass, how }, step: list.smallest_step() })
        };
        let gym = self.gym;
        Ok(match means {
            Means::Bars(bars) => {
                let loads = self.bar_loads(self.bar_for(bars, target, rounding)?)?;
                let built = loads.build(target, rounding);
                Some(Choice { built, step: loads.smallest_step() })
            }
            Means::Dumbbells => from(self.pairs_of_dumbbells.as_ref(), Implement::Dumbbells),
            Means::Dumbbell => from(gym.dumbbells.as_ref(), Implement::Dumbbell),
            Means::Kettlebells => from(self.pairs_of_kettlebells.as_ref(), Implement::Kettlebells),
            Means::Kettlebell => from(gym.kettlebells.as_ref(), Implement::Kettlebell),
            Means::Stack(index) => {
                let stack = gym.stacks.get(*index);
                let name = stack.map_or_else(String::new, |(name, _)| name.clone());
                from(stack.map(|(_, pins)| pins), Implement::Stack { name })
            }
            Means::Band => self.band(target, rounding),
            Means::BodyMass => return self.on_the_body(target, rounding),
            Means::Other => Some(Choice {
                built: Built { mass: target.to_mass(), how: Implement::Other },
                step: Mass::ZERO,
            }),
        })
    }

    /// The next load up or down from one that was built.
    pub fn neighbour(&self, means: &Means, mass: Mass, up: bool) -> Option<Mass> {
        let list = |list: Option<&MassList>| {
            let list = list?;
            if up { list.next_up(mass) } else { list.next_down(mass) }
        };
        match means {
            Means::Bars(bars) => {
                let exact = Exact::from_mass(mass);
                let index = self.bar_for(bars, &exact, Rounding::Nearest).ok()?;
                let loads = self.bar_loads(index).ok()?;
                let next = if up { loads.next_up(mass) } else { loads.next_down(mass) };
                next.map(|built| built.mass)
            }
            Means::Dumbbells => list(self.pairs_of_dumbbells.as_ref()),
            Means::Dumbbell => list(self.gym.dumbbells.as_ref()),
            Means::Kettlebells => list(self.pairs_of_kettlebells.as_ref()),
            Means::Kettlebell => list(self.gym.kettlebells.as_ref()),
            Means::Stack(index) => list(self.gym.stacks.get(*index).map(|(_, pins)| pins)),
            Means::Band => {
                let bands = MassList::new(
                    self.gym.bands.iter().filter_map(|(_, mass)| mass.map(|mass| (mass, None))),
                );
                list(Some(&bands))
            }
            Means::BodyMass => {
                let hung = self.hung.get_or_init(|| HungLoads::new(&self.gym.plates));
                let hung = hung.as_ref().ok()?;
                let next = if up { hung.next_up(mass) } else { hung.next_down(mass) };
                next.map(|built| built.mass)
            }
            Means::Other => None,
        }
    }

    /// The band that gives the nearest (or the next below); ties to the lighter.
    fn band(&self, target: &Exact, rounding: Rounding) -> Option<Choice> {
        let known = || self.gym.bands.iter().filter_map(|(name, mass)| mass.map(|m| (name, m)));
        let list = MassList::new(known().map(|(_, mass)| (mass, None)));
        let mass = list.pick(target, rounding)?;
        let (name, _) = known().find(|(_, own)| *own == mass)?;
        let how = Implement::Band { name: name.clone() };
        Some(Choice { built: Built { mass, how }, step: Mass::ZERO })
    }

    /// Something hung from the body: plates, else one bell. Assistance stands as asked.
    fn on_the_body(
        &self,
        target: &Exact,
        rounding: Rounding,
    ) -> Result<Option<Choice>, TooManyLoads> {
        if target.is_zero() || target.is_negative() {
            let how = Implement::BodyMass { pieces: Vec::new() };
            let built = Built { mass: target.to_mass(), how };
            return Ok(Some(Choice { built, step: Mass::ZERO }));
        }
        if !self.gym.plates.is_empty() {
            let hung = self.hung.get_or_init(|| HungLoads::new(&self.gym.plates));
            let hung = hung.as_ref().map_err(|error| TooManyLoads { limit: error.limit })?;
            let built = hung.build(target, rounding);
            return Ok(Some(Choice { built, step: hung.smallest_step() }));
        }
        let bells = [self.gym.dumbbells.as_ref(), self.gym.kettlebells.as_ref()];
        let held = bells.into_iter().flatten().flat_map(|list| list.masses().iter().copied());
        let held: Vec<Mass> = held.collect();
        if held.is_empty() {
            return Ok(None);
        }
        // Nothing at all can be nearer than the lightest bell.
        let list = MassList::new(held.into_iter().chain([Mass::ZERO]).map(|mass| (mass, None)));
        let Some(mass) = list.pick(target, rounding) else { return Ok(None) };
        let pieces = if mass == Mass::ZERO { Vec::new() } else { vec![mass] };
        let built = Built { mass, how: Implement::BodyMass { pieces } };
        Ok(Some(Choice { built, step: list.smallest_step() }))
    }
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
