//! Proposals for an exercise that an athlete cannot do or must avoid: the closest swaps that their gym
//! can load, as lines to paste. The coach chooses one and writes every max.

use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::catalogue::{Catalogue, Exercise, LoadNeed, LoadingMethod, Nearness, Unavailable};
use crate::resolve::{Day, ExerciseId, Line, Load, PercentBase, in_force};
use crate::source::Span;
use crate::syntax::ast::EquipmentKind;

use super::AthleteEvaluator;

/// Why an athlete needs another exercise.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// The gym, by index, cannot load it.
    Missing(usize, Unavailable),
    /// The athlete's file, at this place, says to avoid it, or (by this word) its pattern or a
    /// muscle of it.
    Avoided(Span, Option<String>),
}

impl Cause {
    /// The reason that a `replace` line gives.
    pub fn reason(&self) -> Option<String> {
        match self {
            Cause::Missing(_, missing) => Some(missing.reason()),
            Cause::Avoided(_, word) => word.as_ref().map(|word| format!("avoids {word}")),
        }
    }
}

/// Somebody needs another exercise. Findings are the same for all athletes that share one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Need {
    /// The place of the exercise in the programme.
    pub line: Span,
    /// The exercise of the programme.
    pub written: ExerciseId,
    /// What would be done: the same, unless something replaces it already.
    pub lift: ExerciseId,
    /// Why not.
    pub cause: Cause,
    /// What may be done instead.
    pub proposals: Proposals,
}

/// What may be done instead, the closest first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Proposals {
    /// How near they are.
    pub nearness: Nearness,
    /// None, when there is nothing.
    pub found: Vec<Proposal>,
    /// Where there is nothing: what could be done if the lines asked for no load, by name.
    pub unloaded: Vec<String>,
    /// Whether lines of the exercise state kilograms, which a replacement keeps.
    pub kilograms: bool,
}

/// One exercise to do instead.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Proposal {
    /// Its name.
    pub name: String,
    /// The max that a percentage needs and that nobody has written, for the coach to fill in.
    pub max: Option<String>,
    /// Where it is loaded with a pair: one of the two, which the max is of.
    pub pair: Option<&'static str>,
}

/// What an athlete's lines of one exercise ask for, in all weeks together.
struct Asks {
    wants: Vec<LoadNeed>,
    /// A percentage of the exercise's own max.
    own_max: bool,
    kilograms: bool,
    /// The exercise is done with nothing but the body: what a line adds is added to it.
    bodily: bool,
}

impl AthleteEvaluator<'_, '_> {
    /// Notes that a line needs another exercise, with what may be done instead.
    pub(super) fn needs_another(
        &mut self,
        line: &Line,
        lift: ExerciseId,
        cause: Cause,
        date: Option<Date>,
    ) {
        let proposals = self.proposals(line, lift, date);
        if let Some(first) = proposals.found.first()
            && let Some(day) = self.day_of(line)
        {
            let first = self.programme.names.find(&first.name);
            self.reported.offered.extend(first.map(|first| (day, line.order, first)));
        }
        let need = Need { line: line.span, written: line.exercise, lift, cause, proposals };
        self.needs.entry(need).or_default().push(self.index);
    }

    /// The index of the day that a line stands in.
    fn day_of(&self, line: &Line) -> Option<usize> {
        let holds = |day: &Day| day.lines.iter().any(|own| own.span == line.span);
        self.programme.days.iter().position(holds)
    }

    /// What the athlete does in other lines of the day, or is offered there first.
    fn taken(&self, line: &Line, date: Option<Date>) -> BTreeSet<usize> {
        let Some(at) = self.day_of(line) else { return BTreeSet::new() };
        let lines = self.programme.days.get(at).into_iter().flat_map(|day| &day.lines);
        let others = lines.filter(|other| other.span != line.span);
        let done = others.map(|other| self.trainee.done_for(other.exercise, date).0);
        let offered = self.reported.offered.iter();
        let offered = offered.filter(|(day, order, _)| *day == at && *order != line.order);
        done.chain(offered.map(|(.., index)| *index)).collect()
    }

    fn proposals(&self, line: &Line, lift: ExerciseId, date: Option<Date>) -> Proposals {
        let (programme, written) = (self.programme, line.exercise);
        let catalogue = Catalogue::new(&programme.exercises, &programme.names);
        let asks = self.asks(written);
        let free = |index: usize| {
            let id = ExerciseId(index);
            id != lift && !self.trainee.replacements.contains_key(&id) && !self.avoids(id, date)
        };
        let can =
            |index: usize, exercise: &Exercise| free(index) && self.loads(&asks, index, exercise);
        let stand_ins = catalogue.stand_ins(written.0, &can);
        let unloaded = if stand_ins.found.is_empty() {
            let can = |index: usize, exercise: &Exercise| {
                free(index) && self.loaded_with(exercise, LoadNeed::Anything).is_some()
            };
            catalogue.stand_ins(written.0, &can).found
        } else {
            Vec::new()
        };
        let names = unloaded.into_iter().filter_map(|index| catalogue.get(index));
        let unloaded = names.map(|exercise| exercise.name.clone()).collect();
        // What the day holds already, or another line of it is offered first, comes last.
        let taken = self.taken(line, date);
        let (last, first): (Vec<usize>, Vec<usize>) =
            stand_ins.found.into_iter().partition(|index| taken.contains(index));
        let found = first.into_iter().chain(last);
        let found = found.filter_map(|index| Some((index, catalogue.get(index)?)));
        let found: Vec<(usize, &Exercise)> = found.collect();
        let proposal = |(index, exercise): (usize, &Exercise)| {
            let needs_max = asks.own_max && !self.maxes.has(ExerciseId(index));
            let max = needs_max.then(|| self.max_to_fill_in(exercise));
            let means = self.loaded_with(exercise, LoadNeed::Load).filter(|_| needs_max);
            let pair = means.and_then(|means| match means {
                LoadingMethod::Dumbbells => Some("dumbbell"),
                LoadingMethod::Kettlebells => Some("kettlebell"),
                _ => None,
            });
            Proposal { name: exercise.name.clone(), max, pair }
        };
        let found = found.into_iter().map(proposal).collect();
        let Asks { kilograms, .. } = asks;
        Proposals { nearness: stand_ins.nearness, found, unloaded, kilograms }
    }

    /// The line of a max without its number: a guess would be read as a number.
    fn max_to_fill_in(&self, exercise: &Exercise) -> String {
        let on_body =
            self.loaded_with(exercise, LoadNeed::Load).is_some_and(|means| means.is_body_mass());
        let lead = if on_body { "bodyweight " } else { "" };
        format!("max {}: {lead}…", exercise.name)
    }

    /// What all lines of an exercise ask for.
    fn asks(&self, written: ExerciseId) -> Asks {
        let programme = self.programme;
        let lines = programme.days.iter().flat_map(|day| &day.lines);
        let own = lines.filter(|line| line.exercise == written);
        let weeks = own.flat_map(|line| &line.variant(self.index).weeks);
        let loads: Vec<&Load> =
            weeks.flat_map(|week| &week.groups).map(|group| &group.load).collect();
        let body = loads.iter().any(|load| matches!(load, Load::Bodyweight(_)));
        let load = loads.iter().any(|load| !matches!(load, Load::Open | Load::Bodyweight(_)));
        let own_max = |load: &&Load| {
            matches!(load, Load::Percent { of: PercentBase::TrainingMax | PercentBase::OneRm, .. })
        };
        let wants =
            [(body, LoadNeed::BodyMass), (load, LoadNeed::Load), (true, LoadNeed::Anything)];
        Asks {
            wants: wants.into_iter().filter(|(on, _)| *on).map(|(_, wants)| wants).collect(),
            own_max: loads.iter().any(own_max),
            kilograms: loads.iter().any(|load| matches!(load, Load::Mass { .. })),
            bodily: programme.exercises.get(written.0).is_some_and(|exercise| {
                let bodily =
                    |item: &crate::catalogue::Equipment| item.kind == EquipmentKind::BodyMass;
                !exercise.equipment.is_empty() && exercise.equipment.iter().all(bodily)
            }),
        }
    }

    /// Whether everything that the lines ask for can be made with an exercise.
    fn loads(&self, asks: &Asks, index: usize, exercise: &Exercise) -> bool {
        asks.wants.iter().all(|wants| {
            let Some(means) = self.loaded_with(exercise, *wants) else { return false };
            match (wants, means) {
                (LoadNeed::Anything, _) | (LoadNeed::BodyMass, LoadingMethod::BodyMass) => true,
                (LoadNeed::BodyMass, _) => false,
                // A bar's load is not hung from a body.
                (LoadNeed::Load, LoadingMethod::BodyMass) => {
                    asks.bodily && self.adds_to_body(asks, index)
                }
                (LoadNeed::Load, LoadingMethod::Band) => self
                    .gear()
                    .is_some_and(|gear| gear.gym.bands.iter().any(|(_, mass)| mass.is_some())),
                (LoadNeed::Load, _) => true,
            }
        })
    }

    /// Whether loads on top of the body mass can be worked out and made.
    fn adds_to_body(&self, asks: &Asks, index: usize) -> bool {
        let lift = ExerciseId(index);
        let max_fits = self.maxes.place(lift).is_none() || self.maxes.is_on_body_mass(lift);
        let known = !asks.own_max || self.maxes.body_mass.is_some() && max_fits;
        known
            && self.gear().is_some_and(|gear| {
                let bells = [&gear.gym.dumbbells, &gear.gym.kettlebells];
                !gear.gym.plates.is_empty() || bells.into_iter().any(Option::is_some)
            })
    }

    /// What the athlete's gym, or without one the body, loads an exercise with.
    fn loaded_with(&self, exercise: &Exercise, wants: LoadNeed) -> Option<LoadingMethod> {
        match self.gear() {
            Some(gear) => gear.means(exercise, wants).ok(),
            None => without_gym(exercise),
        }
    }

    /// Whether an exercise is to be avoided on a day; without dates, whether at all.
    pub(super) fn avoids(&self, lift: ExerciseId, date: Option<Date>) -> bool {
        let avoided = self.trainee.avoid.get(&lift);
        avoided.is_some_and(|avoided| in_force(avoided.until, date))
    }
}

/// What an exercise is loaded with where there is no gym: the body, or nothing.
pub fn without_gym(exercise: &Exercise) -> Option<LoadingMethod> {
    if exercise.equipment.iter().any(|item| item.kind == EquipmentKind::BodyMass) {
        return Some(LoadingMethod::BodyMass);
    }
    exercise.equipment.is_empty().then_some(LoadingMethod::Other)
}
