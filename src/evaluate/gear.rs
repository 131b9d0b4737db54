//! What each gym can load an exercise with, computed once for each gym.

use std::sync::OnceLock;

use crate::catalogue::{Exercise, Gym, LoadNeed, LoadingMethod, Unavailable};
use crate::plan::{self, Built, Implement};
use crate::quantity::{Exact, Mass};
use crate::resolve::Programme;
use crate::strength::{BarLoads, HungLoads, MassList, Rounding, TooManyLoads};
use crate::syntax::ast::EquipmentKind;

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
    bars: Vec<OnceLock<Result<BarLoads, TooManyLoads>>>,
    hung: OnceLock<Result<HungLoads, TooManyLoads>>,
    pairs_of_dumbbells: Option<MassList>,
    pairs_of_kettlebells: Option<MassList>,
}

/// What an exercise is loaded with, in the plan's words. A machine is told from a cable's stack, and
/// from what no gym describes, by what the exercise names.
#[must_use]
pub fn equipment(means: &LoadingMethod, exercise: &Exercise) -> Option<plan::Equipment> {
    let names_machine = exercise.equipment.iter().any(|e| e.kind == EquipmentKind::Machine);
    Some(match means {
        LoadingMethod::Bars(_) => plan::Equipment::Barbell,
        LoadingMethod::Dumbbells => plan::Equipment::Dumbbells,
        LoadingMethod::Dumbbell => plan::Equipment::Dumbbell,
        LoadingMethod::Kettlebells => plan::Equipment::Kettlebells,
        LoadingMethod::Kettlebell => plan::Equipment::Kettlebell,
        LoadingMethod::Stack(_) | LoadingMethod::Other if names_machine => plan::Equipment::Machine,
        LoadingMethod::Stack(_) => plan::Equipment::Stack,
        LoadingMethod::Band => plan::Equipment::Band,
        LoadingMethod::BodyMass => plan::Equipment::BodyMass,
        LoadingMethod::Other if exercise.equipment.is_empty() => return None,
        LoadingMethod::Other => plan::Equipment::Other,
    })
}

/// A band's pull is no exact mass: this much off a stated load counts as made. Common practice, no
/// source.
const BAND_STEP: Mass = Mass::from_units(5 * Mass::from_kg(1).units() / 2);

/// A load made from the gym's equipment, and the smallest step between the possible loads.
pub struct LoadChoice {
    pub built: Built,
    pub step: Mass,
}

impl<'a> GymGear<'a> {
    fn new(gym: &'a Gym) -> Self {
        Self {
            gym,
            bars: gym.bars.iter().map(|_| OnceLock::new()).collect(),
            hung: OnceLock::new(),
            pairs_of_dumbbells: gym.dumbbells.as_ref().map(MassList::pairs),
            pairs_of_kettlebells: gym.kettlebells.as_ref().map(MassList::pairs),
        }
    }

    /// What the gym loads an exercise with; what is missing, when it cannot.
    pub fn means(
        &self,
        exercise: &Exercise,
        wants: LoadNeed,
    ) -> Result<LoadingMethod, Unavailable> {
        self.gym.means(exercise, wants)
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

    /// What else of an exercise's equipment makes a load exactly, as an `equipment` line has it; for
    /// an exercise on a stack a stack of another name, which the gym file does not say it is done on.
    pub fn exact_with(
        &self,
        exercise: &Exercise,
        used: &LoadingMethod,
        target: &Exact,
    ) -> Option<String> {
        let makes = |means: &LoadingMethod| {
            let built = self.build(means, target, Rounding::Nearest).ok()??.built;
            (Exact::from_mass(built.mass) == *target).then_some(())
        };
        let own = exercise.equipment.iter().find_map(|item| {
            let mut alone = exercise.clone();
            alone.equipment = vec![item.clone()];
            let means = self.means(&alone, LoadNeed::Load).ok()?;
            let fits = means != *used && means != LoadingMethod::Band && means.counts_like(used);
            makes(&means).filter(|()| fits).map(|()| item.to_string())
        });
        let on_stack = exercise.equipment.iter().any(|item| item.kind == EquipmentKind::Stack);
        let stacks = self.gym.stacks.iter().enumerate().filter(|_| on_stack);
        own.or_else(|| {
            stacks.into_iter().find_map(|(index, (name, _))| {
                let means = LoadingMethod::Stack(index);
                let fits = means != *used && means.counts_like(used);
                makes(&means).filter(|()| fits).map(|()| format!("stack {name}"))
            })
        })
    }

    /// Makes a load from what there is. `None`: the gym has nothing to make it of.
    pub fn build(
        &self,
        means: &LoadingMethod,
        target: &Exact,
        rounding: Rounding,
    ) -> Result<Option<LoadChoice>, TooManyLoads> {
        let from = |list: Option<&MassList>, how: Implement| {
            let list = list?;
            let mass = list.pick(target, rounding)?;
            Some(LoadChoice { built: Built { mass, how }, step: list.smallest_step() })
        };
        let gym = self.gym;
        Ok(match means {
            LoadingMethod::Bars(bars) => {
                let loads = self.bar_loads(self.bar_for(bars, target, rounding)?)?;
                let built = loads.build(target, rounding);
                Some(LoadChoice { built, step: loads.smallest_step() })
            }
            LoadingMethod::Dumbbells => {
                from(self.pairs_of_dumbbells.as_ref(), Implement::Dumbbells)
            }
            LoadingMethod::Dumbbell => from(gym.dumbbells.as_ref(), Implement::Dumbbell),
            LoadingMethod::Kettlebells => {
                from(self.pairs_of_kettlebells.as_ref(), Implement::Kettlebells)
            }
            LoadingMethod::Kettlebell => from(gym.kettlebells.as_ref(), Implement::Kettlebell),
            LoadingMethod::Stack(index) => {
                let stack = gym.stacks.get(*index);
                let name = stack.map_or_else(String::new, |(name, _)| name.clone());
                from(stack.map(|(_, pins)| pins), Implement::Stack { name })
            }
            LoadingMethod::Band => self.band(target, rounding),
            LoadingMethod::BodyMass => return self.on_the_body(target, rounding),
            LoadingMethod::Other => Some(LoadChoice {
                built: Built { mass: target.to_mass(), how: Implement::Other },
                step: Mass::ZERO,
            }),
        })
    }

    /// The next load up or down from one that was built.
    pub fn neighbour(&self, means: &LoadingMethod, mass: Mass, up: bool) -> Option<Mass> {
        let list = |list: Option<&MassList>| {
            let list = list?;
            if up { list.next_up(mass) } else { list.next_down(mass) }
        };
        match means {
            LoadingMethod::Bars(bars) => {
                let exact = Exact::from_mass(mass);
                let index = self.bar_for(bars, &exact, Rounding::Nearest).ok()?;
                let loads = self.bar_loads(index).ok()?;
                let next = if up { loads.next_up(mass) } else { loads.next_down(mass) };
                next.map(|built| built.mass)
            }
            LoadingMethod::Dumbbells => list(self.pairs_of_dumbbells.as_ref()),
            LoadingMethod::Dumbbell => list(self.gym.dumbbells.as_ref()),
            LoadingMethod::Kettlebells => list(self.pairs_of_kettlebells.as_ref()),
            LoadingMethod::Kettlebell => list(self.gym.kettlebells.as_ref()),
            LoadingMethod::Stack(index) => list(self.gym.stacks.get(*index).map(|(_, pins)| pins)),
            LoadingMethod::Band => {
                let bands = MassList::new(
                    self.gym.bands.iter().filter_map(|(_, mass)| mass.map(|mass| (mass, None))),
                );
                list(Some(&bands))
            }
            LoadingMethod::BodyMass => {
                let hung = self.hung.get_or_init(|| HungLoads::new(&self.gym.plates));
                let hung = hung.as_ref().ok()?;
                let next = if up { hung.next_up(mass) } else { hung.next_down(mass) };
                next.map(|built| built.mass)
            }
            LoadingMethod::Other => None,
        }
    }

    /// The band that gives the nearest (or the next below); ties to the lighter.
    fn band(&self, target: &Exact, rounding: Rounding) -> Option<LoadChoice> {
        let known = || self.gym.bands.iter().filter_map(|(name, mass)| mass.map(|m| (name, m)));
        let list = MassList::new(known().map(|(_, mass)| (mass, None)));
        let mass = list.pick(target, rounding)?;
        let (name, _) = known().find(|(_, own)| *own == mass)?;
        let how = Implement::Band { name: name.clone() };
        Some(LoadChoice { built: Built { mass, how }, step: BAND_STEP })
    }

    /// Something hung from the body: plates, else one bell. Assistance stands as asked.
    fn on_the_body(
        &self,
        target: &Exact,
        rounding: Rounding,
    ) -> Result<Option<LoadChoice>, TooManyLoads> {
        if target.is_zero() || target.is_negative() {
            let how = Implement::BodyMass { pieces: Vec::new() };
            let built = Built { mass: target.to_mass(), how };
            return Ok(Some(LoadChoice { built, step: Mass::ZERO }));
        }
        if !self.gym.plates.is_empty() {
            let hung = self.hung.get_or_init(|| HungLoads::new(&self.gym.plates));
            let hung = hung.as_ref().map_err(|error| TooManyLoads { limit: error.limit })?;
            let built = hung.build(target, rounding);
            return Ok(Some(LoadChoice { built, step: hung.smallest_step() }));
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
        Ok(Some(LoadChoice { built, step: list.smallest_step() }))
    }
}
