//! The sets of one exercise in one session.

use jiff::civil::Date;

use crate::catalogue::Exercise;
use crate::diagnostics::{Code, Diagnostic};
use crate::plan::{Built, Implement, Op, PlannedSet, SetKind, Step, StepKind};
use crate::quantity::{Decimal, Exact, RepCount, Reps, Unit, Work};
use crate::resolve::{
    Day, ExerciseId, Group, How, Load, PercentBase, Phase, RampFrom, RampSet, WeekSpec,
};
use crate::strength::{RampTarget, Rounding, ramp};

use super::AthleteEvaluator;
use super::gear::GymGear;
use super::load::{LoadRequest, LoadTarget};
use super::maxes::{Traced, share};
use super::stand_in::Standing;
use super::state::LineState;
use crate::catalogue::LoadingMethod;

/// An exercise line in one session: everything that its sets depend on.
pub struct Line<'a> {
    pub day: &'a Day,
    pub written: &'a crate::resolve::Line,
    pub variant: &'a crate::resolve::Variant,
    pub spec: &'a WeekSpec,
    pub phase: Option<&'a Phase>,
    pub lift: ExerciseId,
    pub exercise: &'a Exercise,
    /// What it is loaded with; `None` when the gym cannot.
    pub means: Option<&'a LoadingMethod>,
    /// The line's state.
    pub key: super::LineId,
    /// How what is done stands to what the line names.
    pub standing: Standing,
    /// The week of the session, and its date or the first day of the week.
    pub week: u32,
    pub date: Option<Date>,
}

impl AthleteEvaluator<'_, '_> {
    /// All sets, warm-ups first.
    pub(super) fn sets(
        &mut self,
        line: &Line<'_>,
        ramped: &mut Vec<ExerciseId>,
    ) -> Vec<PlannedSet> {
        let mut sets: Vec<PlannedSet> = Vec::new();
        let mut targets: Vec<LoadTarget> = Vec::new();
        let state = self.lines.get(&line.key).cloned().unwrap_or_default();
        // What rules add goes to the group with the most sets, the last of equals: back-offs rather
        // than the top set.
        let sets_of = |(_, group): &(usize, &Group)| group.sets.unwrap_or(1);
        let longest = line.spec.groups.iter().enumerate().max_by_key(sets_of);
        let longest = longest.map_or(0, |(index, _)| index);
        let on_body = line.means.is_some_and(LoadingMethod::is_body_mass);
        let mut any_opened = false;
        for (index, group) in line.spec.groups.iter().enumerate() {
            let of_top = matches!(group.load, Load::Percent { of: PercentBase::TopSet, .. });
            let opened = self.opens(group, line.standing, (line.lift, on_body), &state)
                || (of_top && any_opened && targets.is_empty());
            any_opened |= opened;
            let asked = LoadRequest {
                group,
                lift: line.lift,
                on_body,
                phase: line.phase,
                top: targets.iter().max_by(|a, b| a.traced.value.cmp(&b.traced.value)),
                state: &state,
                line: line.written.span,
                week: line.week,
                date: line.date,
            };
            let target = if opened { None } else { self.target(&asked) };
            self.runs_out(line, group, target.as_ref());
            let more_sets = if index == longest { state.sets_added } else { 0 };
            let group = with_rules(group, &state, more_sets);
            self.add_group(line, (index, opened), &group, target.as_ref(), &mut sets);
            targets.extend(target);
        }
        if let Some(first) = targets.first() {
            self.before_phase.insert(line.key, first.before_phase.clone());
        }
        let mut all = self.warm_ups(line, sets.first(), ramped);
        all.append(&mut sets);
        self.shares(line, &mut all);
        self.over_max(line, &all);
        all
    }

    /// Each target as a share of the 1RM of what is done: of the whole system on the body mass.
    fn shares(&mut self, line: &Line<'_>, sets: &mut [PlannedSet]) {
        let Ok(max) = self.maxes.one_rm(line.lift) else { return };
        let on_top = self.maxes.is_on_body_mass(line.lift);
        let body = self.maxes.body_mass.filter(|_| on_top).map_or_else(Exact::zero, Exact::from);
        // A max of the whole system cannot be held against what is added, nor the other way round.
        for set in sets.iter_mut().filter(|set| set.bodyweight == on_top) {
            let moved = set.target.as_ref().map(|target| target + &body);
            set.share_of_1rm = moved.and_then(|moved| moved.checked_div(&max.value));
        }
    }

    fn add_group(
        &mut self,
        line: &Line<'_>,
        (index, opened): (usize, bool),
        group: &Group,
        target: Option<&LoadTarget>,
        sets: &mut Vec<PlannedSet>,
    ) {
        let of_top = matches!(group.load, Load::Percent { of: PercentBase::TopSet, .. });
        let kind = if of_top { SetKind::BackOff } else { SetKind::Work };
        let set = self.one_set(line, (index, opened), group, target, kind);
        let drops = self.drops(line, (index, opened), group, target);
        let after_each = group.drop.is_some_and(|(_, _, each)| each);
        let count = Self::count(line, group);
        for number in 0..count {
            let mut set = set.clone();
            if !drops.is_empty() && (after_each || number + 1 == count) {
                // Straight on to the drop: the rest comes after it.
                set.rest = None;
            }
            sets.push(set);
            if after_each || number + 1 == count {
                sets.extend(drops.iter().cloned());
            }
        }
    }

    /// How many sets: the group's, or the rounds of its circuit; scaled by the phase.
    fn count(line: &Line<'_>, group: &Group) -> u32 {
        let letter = line.written.order.letter;
        let of_group = line.day.groups.iter().find(|g| g.letter == letter);
        let members = line.day.lines.iter().filter(|l| l.order.letter == letter).count();
        let how = of_group.and_then(|g| g.how.map(|how| (how, g.scaled)));
        match how {
            Some((How::Circuit(rounds, _), scaled)) => {
                super::groups::scaled(rounds, line.phase.filter(|_| scaled))
            }
            Some((How::Every(interval, length, alternate), scaled)) => {
                let phase = line.phase.filter(|_| scaled);
                let length = super::groups::scaled_length(length, phase);
                let intervals = length.as_seconds() / interval.as_seconds().max(1);
                if !alternate {
                    return intervals.max(1);
                }
                // Members take turns; the first ones get what is over.
                let place = line.day.lines.iter().filter(|l| l.order.letter == letter);
                let place = place.take_while(|l| l.order != line.written.order).count();
                let members = u32::try_from(members.max(1)).unwrap_or(1);
                let over = u32::from(u32::try_from(place).unwrap_or(0) < intervals % members);
                (intervals / members + over).max(1)
            }
            Some((How::RoundsIn(_), _)) => 1,
            Some((How::Paired, _)) | None => {
                let phase = line.phase.filter(|_| group.sets_scaled);
                super::groups::scaled(group.sets.unwrap_or(1), phase)
            }
        }
    }

    pub(super) fn gear(&self) -> Option<&GymGear<'_>> {
        self.trainee.gym.and_then(|gym| self.gear.gym(gym))
    }

    pub(super) fn rounding(&self) -> Rounding {
        let gym = self.gear().and_then(|gear| gear.gym.rounding);
        self.programme.rounding.or(gym).unwrap_or_default()
    }

    fn one_set(
        &mut self,
        line: &Line<'_>,
        (index, opened): (usize, bool),
        group: &Group,
        target: Option<&LoadTarget>,
        kind: SetKind,
    ) -> PlannedSet {
        let mut reps = group.reps.clone();
        reps.each_side |= line.exercise.each_side;
        let by_effort = if let Load::Effort(effort) = group.load { Some(effort) } else { None };
        let on_body = line.means.is_some_and(LoadingMethod::is_body_mass);
        let mut set = PlannedSet {
            kind,
            reps,
            target: target.map(|target| target.traced.value.clone()),
            share_of_1rm: None,
            load: None,
            to_choose: opened && !on_body,
            bodyweight: on_body,
            about: target.is_some_and(|target| target.about),
            off_target: false,
            exact_with: None,
            effort: by_effort.or(group.effort),
            rest: group.rest,
            tempo: group.tempo,
            range: group
                .range
                .clone()
                .or_else(|| line.spec.range.clone())
                .or_else(|| line.variant.range.clone())
                .or_else(|| line.written.range.clone())
                .or_else(|| line.exercise.range.clone()),
            every: group.every,
            rest_pause: group.rest_pause,
            group: index,
            derivation: target.map(|target| target.traced.steps.clone()).unwrap_or_default(),
        };
        if opened {
            return set;
        }
        if matches!(group.load, Load::Bodyweight(_)) && !on_body && line.means.is_some() {
            self.not_on_the_body(line, group);
            return set;
        }
        if let (Some(target), Some(means)) = (target, line.means) {
            self.build(line, means, &target.traced.value, &mut set);
        }
        set
    }

    fn not_on_the_body(&mut self, line: &Line<'_>, group: &Group) {
        let what = &line.exercise.name;
        let found = |message: String| {
            Diagnostic::new(Code::BodyweightMismatch, group.load_span, message)
                .and(line.written.span, "this exercise")
        };
        let found = if line.lift == line.written.exercise {
            found(format!("{what} is not a body-mass exercise"))
                .help("write the load itself, such as `@ 40 kg` or `@ 70%`")
        } else {
            let name = &self.trainee.athlete.name;
            found(format!("{name} does {what} instead, which is not a body-mass exercise")).help(
                format!(
                    "give {name} a load of their own below the line, such as `for {name}: @ RPE 8`"
                ),
            )
        };
        self.problems.push(found);
    }

    /// Makes the load of a set.
    fn build(
        &mut self,
        line: &Line<'_>,
        means: &LoadingMethod,
        target: &Exact,
        set: &mut PlannedSet,
    ) {
        let rounding = self.rounding();
        let choice = match self.gear() {
            _ if *means == LoadingMethod::Other && is_scaled(set) => {
                return self.round_unlisted(target, rounding, set);
            }
            Some(gear) => gear.build(means, target, rounding),
            None => Ok(Some(super::gear::LoadChoice {
                built: Built { mass: target.to_mass(), how: Implement::Other },
                step: crate::quantity::Mass::ZERO,
            })),
        };
        let choice = match choice {
            Ok(Some(choice)) => choice,
            Ok(None) => return self.nothing_to_load(line),
            Err(error) => return self.too_many(error.limit),
        };
        let missed = (&Exact::from_mass(choice.built.mass) - target).abs();
        let is_listed = !matches!(choice.built.how, Implement::Other);
        set.off_target = is_listed
            && missed > Exact::from_mass(choice.step)
            && (!set.bodyweight || *target > Exact::zero());
        if set.off_target {
            let gear = self.gear();
            set.exact_with = gear.and_then(|gear| gear.exact_with(line.exercise, means, target));
        }
        let word = if rounding == Rounding::Down { "down" } else { "nearest" };
        set.derivation.push(Step {
            kind: StepKind::Built { rounding: word.to_owned() },
            op: Op::Set(Exact::from_mass(choice.built.mass)),
            result: Exact::from_mass(choice.built.mass),
            line: self.gear().map(|gear| self.programme.sources.locate(gear.gym.span)),
        });
        set.load = Some(choice.built);
    }

    /// A worked-out load of something whose sizes the gym does not list, such as a sled or a
    /// machine, in steps that are found in practice: half kilograms, or whole pounds.
    fn round_unlisted(&self, target: &Exact, rounding: Rounding, set: &mut PlannedSet) {
        let (step, to) = match self.unit {
            Unit::Kg => (Exact::ratio(Unit::Kg.in_units(), 2), "0.5 kg"),
            Unit::Lb => (Exact::whole(Unit::Lb.in_units()), "1 lb"),
        };
        let Some(steps) = target.checked_div(&step) else { return };
        let nearest = steps.round_half_up();
        let down = rounding == Rounding::Down && Exact::whole(nearest) > steps;
        let count = if down { nearest - 1 } else { nearest };
        // Something is never rounded to nothing.
        let count = if *target > Exact::zero() { count.max(1) } else { count };
        let mass = (&step * &Exact::whole(count)).to_mass();
        set.derivation.push(Step {
            kind: StepKind::Rounded { to: to.to_owned() },
            op: Op::Set(Exact::from_mass(mass)),
            result: Exact::from_mass(mass),
            line: self.gear().map(|gear| self.programme.sources.locate(gear.gym.span)),
        });
        set.load = Some(Built { mass, how: Implement::Other });
    }

    /// The gym has what the exercise is done with, but nothing to make its load of.
    fn nothing_to_load(&mut self, line: &Line<'_>) {
        let incomplete = self.gear().is_some_and(|gear| gear.gym.incomplete);
        if incomplete || !self.reported.equipment.insert((line.written.exercise, line.lift)) {
            return;
        }
        let gym = self.gear().map_or("", |gear| gear.gym.name.as_str());
        self.problems.push(
            Diagnostic::new(
                Code::MissingEquipment,
                line.written.span,
                format!(
                    "the gym `{gym}` has nothing to load {} of {} with",
                    line.exercise.name, self.trainee.athlete.name
                ),
            )
            .help("add plates, dumbbells, kettlebells or the masses of bands to the gym, or leave the load out"),
        );
    }

    fn too_many(&mut self, limit: usize) {
        if std::mem::replace(&mut self.reported.too_many, true) {
            return;
        }
        let Some(span) = self.gear().map(|gear| gear.gym.span) else { return };
        self.problems.push(
            Diagnostic::new(
                Code::TooManyLoads,
                span,
                format!("the plates of this gym make more than {limit} different loads"),
            )
            .help("list fewer kinds of plates, or the number of plates of each kind"),
        );
    }

    /// The drop sets after a set, each from the target of the one before.
    fn drops(
        &mut self,
        line: &Line<'_>,
        at: (usize, bool),
        group: &Group,
        target: Option<&LoadTarget>,
    ) -> Vec<PlannedSet> {
        let Some((percent, count, _)) = group.drop else { return Vec::new() };
        let mut drops = Vec::new();
        let mut before = target.cloned();
        let amrap = Reps { work: Work::Amrap, ..group.reps.clone() };
        let group = Group { reps: amrap, ..group.clone() };
        for _ in 0..count {
            before = before.map(|target| self.dropped(line, &target, percent, &group));
            let mut set = self.one_set(line, at, &group, before.as_ref(), SetKind::Drop);
            set.effort = None;
            set.rest = None;
            drops.push(set);
        }
        if let Some(last) = drops.last_mut() {
            last.rest = group.rest;
        }
        drops
    }

    fn dropped(
        &mut self,
        line: &Line<'_>,
        target: &LoadTarget,
        percent: Decimal,
        group: &Group,
    ) -> LoadTarget {
        let asked = LoadRequest {
            group,
            lift: line.lift,
            on_body: line.means.is_some_and(LoadingMethod::is_body_mass),
            phase: None,
            top: None,
            state: &LineState::default(),
            line: line.written.span,
            week: line.week,
            date: line.date,
        };
        let factor = &Exact::one() + &share(percent);
        let op = self.scaling(&target.traced, &asked, false, &factor);
        let kind = StepKind::Drop { change: format!("{percent}%") };
        let place = self.programme.sources.locate(group.load_span);
        let traced: Traced = target.traced.clone().then(kind, op, Some(place));
        LoadTarget { traced, ..target.clone() }
    }

    /// The ramp before the day's first line of a bar-loaded compound exercise.
    fn warm_ups(
        &mut self,
        line: &Line<'_>,
        first: Option<&PlannedSet>,
        ramped: &mut Vec<ExerciseId>,
    ) -> Vec<PlannedSet> {
        let own = line.variant.warm_up.as_ref().or(line.written.warm_up.as_ref());
        let usual = line.day.warm_up.as_ref().unwrap_or(&self.programme.warm_up);
        let steps: &[RampSet] = own.unwrap_or(usual);
        let none = line.spec.groups.iter().any(|group| group.no_warm_up);
        let (Some(set), Some(LoadingMethod::Bars(bars))) = (first, line.means) else {
            return Vec::new();
        };
        let (Some(target), Some(working)) = (&set.target, &set.load) else { return Vec::new() };
        let repeated = ramped.contains(&line.lift);
        ramped.push(line.lift);
        let applies = own.is_some() || (line.exercise.compound == Some(true) && !repeated);
        if none || !applies {
            return Vec::new();
        }
        let Some(gear) = self.gear() else { return Vec::new() };
        let rounding = self.rounding();
        let Ok(loads) = gear.bar_for(bars, target, rounding).and_then(|bar| gear.bar_loads(bar))
        else {
            return Vec::new();
        };
        let mass = Exact::from_mass(working.mass);
        let targets: Vec<RampTarget> = steps
            .iter()
            .map(|step| match &step.from {
                RampFrom::Bar => RampTarget::Bar,
                RampFrom::Percent(percent) => RampTarget::Share(share(*percent)),
                RampFrom::Mass(stated) => {
                    let stated = Exact::from_mass(stated.mass());
                    RampTarget::Share(stated.checked_div(&mass).unwrap_or_else(Exact::one))
                }
            })
            .collect();
        let built = ramp(loads, &targets, working);
        let mut ramp: Vec<PlannedSet> = Vec::new();
        for (step, built) in steps.iter().zip(built) {
            let Some(built) = built else { continue };
            // Under a light load several steps come to the same bar: once is enough.
            if ramp.iter().all(|set| set.load.as_ref() != Some(&built)) {
                ramp.push(warm_up(step, built, set, &mass));
            }
        }
        ramp
    }
}

/// Whether the load was worked out: a stated mass, with what was added to it, stands as it is.
fn is_scaled(set: &PlannedSet) -> bool {
    set.derivation.iter().any(|step| matches!(step.op, Op::Times(_)))
}

/// A group with what rules made of its sets and repetitions.
fn with_rules(group: &Group, state: &LineState, more_sets: i64) -> Group {
    let mut group = group.clone();
    if let Work::Reps(count) = &mut group.reps.work {
        let raised = i64::from(count.min).saturating_add(state.reps_raised);
        let top = count.max.unwrap_or(crate::bounds::REPS);
        count.min = u32::try_from(raised).unwrap_or(0).clamp(count.min, top.max(count.min));
    }
    if more_sets != 0 {
        let sets = i64::from(group.sets.unwrap_or(1)).saturating_add(more_sets);
        let most = i64::from(crate::bounds::SETS);
        group.sets = u32::try_from(sets.clamp(1, most)).ok();
    }
    group
}

fn warm_up(step: &RampSet, built: Built, work: &PlannedSet, working: &Exact) -> PlannedSet {
    let mut derivation = work.derivation.clone();
    let target = match &step.from {
        RampFrom::Bar => None,
        RampFrom::Percent(percent) => {
            let value = working * &share(*percent);
            let kind = StepKind::Ramp { percent: percent.to_string() };
            derivation.push(Step {
                kind,
                op: Op::Times(share(*percent)),
                result: value.clone(),
                line: None,
            });
            Some(value)
        }
        RampFrom::Mass(mass) => Some(Exact::from_mass(mass.mass())),
    };
    derivation.push(Step {
        kind: StepKind::Built { rounding: "nearest".to_owned() },
        op: Op::Set(Exact::from_mass(built.mass)),
        result: Exact::from_mass(built.mass),
        line: None,
    });
    PlannedSet {
        kind: SetKind::WarmUp,
        reps: Reps {
            work: Work::Reps(RepCount::exactly(step.reps)),
            each_side: work.reps.each_side,
            between: None,
        },
        target: target.or_else(|| Some(Exact::from_mass(built.mass))),
        share_of_1rm: None,
        load: Some(built),
        to_choose: false,
        bodyweight: false,
        about: work.about,
        off_target: false,
        exact_with: None,
        effort: None,
        rest: None,
        tempo: None,
        range: None,
        every: None,
        rest_pause: None,
        group: 0,
        derivation,
    }
}
