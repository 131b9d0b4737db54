//! Unrolls a line over the weeks: computes the value of every series and step.

use std::collections::BTreeMap;

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Effort, Reps, SideRest, Work};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{
    EffortText, LoadText, OptionText, OverWeeks, PercentOf, RepsText, StepText, StepUnit, WorkText,
};

use super::fields::{Fields, Layer, in_week};
use super::number::{self, Settle};
use super::phases::PhaseWeeks;
use super::{Definitions, Group, Load, PercentBase, WeekSpec};

/// What unrolling needs to know beside the layers.
pub struct Unroller<'a> {
    pub definitions: &'a Definitions<'a>,
    pub phases: &'a PhaseWeeks,
    /// The place of the line.
    pub line: Span,
    /// The exercise may be done with nothing but the body mass.
    pub on_body: bool,
    /// Worked out for one athlete, whose lines may cover those for all in every week.
    pub personal: bool,
    pub problems: &'a mut Vec<Diagnostic>,
}

/// In which weeks a number is used, and which place of its series each takes.
#[derive(Default)]
struct SeriesWeeks {
    /// Weeks that move the series on.
    weeks: Vec<u32>,
    /// Weeks that a phase lightens: the value before is repeated.
    deload: Vec<u32>,
}

impl SeriesWeeks {
    fn place(&self, week: u32, deload: bool) -> usize {
        let before = self.weeks.iter().filter(|&&used| used < week).count();
        if deload { before.saturating_sub(1) } else { before }
    }
}

impl Unroller<'_> {
    /// All weeks of the programme.
    pub fn unroll(&mut self, layers: &[Layer<'_>]) -> Vec<WeekSpec> {
        let all: Vec<(u32, Vec<Fields<'_>>)> =
            (1..=self.phases.weeks).map(|week| (week, in_week(layers, week))).collect();
        let mut uses: BTreeMap<Span, SeriesWeeks> = BTreeMap::new();
        for (week, groups) in &all {
            let deload = self.phases.is_deload(*week);
            let mut note = |span, _| {
                let entry: &mut SeriesWeeks = uses.entry(span).or_default();
                let list = if deload { &mut entry.deload } else { &mut entry.weeks };
                if list.last() != Some(week) {
                    list.push(*week);
                }
            };
            for fields in groups {
                numbers(fields, &mut note);
            }
        }
        self.check_lengths(layers, &uses);
        all.into_iter().map(|(week, groups)| self.week(week, &groups, &uses)).collect()
    }

    fn check_lengths(&mut self, layers: &[Layer<'_>], uses: &BTreeMap<Span, SeriesWeeks>) {
        for layer in layers {
            for group in &layer.prescription.groups {
                let mut lengths = Vec::new();
                each_number(group, &mut |span, length| lengths.push((span, length)));
                for (span, length) in lengths.into_iter().filter(|(_, length)| *length > 1) {
                    let (used, light) = uses
                        .get(&span)
                        .map_or((&[][..], &[][..]), |u| (u.weeks.as_slice(), u.deload.as_slice()));
                    let covered = self.personal && used.is_empty() && light.is_empty();
                    if used.len() != length && !covered {
                        self.problems.push(wrong_length(span, length, used, light));
                    }
                }
            }
        }
    }

    fn week(
        &mut self,
        week: u32,
        groups: &[Fields<'_>],
        uses: &BTreeMap<Span, SeriesWeeks>,
    ) -> WeekSpec {
        let deload = self.phases.is_deload(week);
        let mut here = Here { week, deload, uses };
        let groups = groups.iter().filter_map(|fields| self.group(fields, &mut here)).collect();
        WeekSpec { groups, ..WeekSpec::default() }
    }

    fn group(&mut self, fields: &Fields<'_>, here: &mut Here<'_>) -> Option<Group> {
        let as_written = fields.option(|o| matches!(o, OptionText::AsWritten).then_some(()));
        let with_phase = fields.option(|o| matches!(o, OptionText::WithPhase).then_some(()));
        let scales = |single: bool| match (as_written, with_phase) {
            (Some(()), _) => false,
            (None, Some(())) => true,
            (None, None) => !single,
        };
        let Some(reps) = fields.reps.as_ref() else {
            self.no_reps(fields);
            return None;
        };
        let sets = fields.sets.as_ref();
        // On the body mass `3 x 8, 1 x 5 @ bodyweight +10 kg` adds nothing to the first three sets.
        let load = fields.load.as_ref().filter(|_| !(fields.load_of_later && self.on_body));
        let effort_at = fields.options.iter().map(|option| option.value);
        let effort_at = effort_at.filter(|o| matches!(o.value, OptionText::Effort(_)));
        let effort_span = effort_at.map(|option| option.span).next();
        let effort = fields.option(|o| if let OptionText::Effort(e) = o { Some(e) } else { None });
        let rest = fields.option(|o| if let OptionText::Rest(r) = o { Some(r) } else { None });
        Some(Group {
            sets: sets.and_then(|sets| here.settle(self, sets.value)).map(|n| n.value),
            sets_scaled: scales(sets.is_some_and(|sets| sets.single)),
            reps: self.reps(&reps.value.value, fields, here),
            reps_span: reps.value.span,
            reps_named: reps.value.value.named,
            effort_span,
            load: load.map_or(Load::Open, |load| self.load(load.value, here)),
            load_span: fields.span(self.line),
            load_own: fields.load_own,
            load_scaled: scales(load.is_some_and(|load| load.single)),
            rest_span: rest.map(|over| over.span),
            rest: rest.and_then(|over| here.settle(self, over)).map(|rest| rest.value),
            tempo: fields.option(|o| if let OptionText::Tempo(t) = o { Some(*t) } else { None }),
            effort: effort.and_then(|effort| self.effort(effort, here)),
            range: fields.option(|o| {
                if let OptionText::Range(text) = o { Some(text.clone()) } else { None }
            }),
            drop: fields.option(|o| match o {
                OptionText::Drop(percent, count, each) => Some((*percent, *count, *each)),
                _ => None,
            }),
            rest_pause: fields
                .option(|o| if let OptionText::RestPause(t) = o { Some(*t) } else { None }),
            every: fields.option(|o| if let OptionText::Every(t) = o { Some(*t) } else { None }),
            no_warm_up: fields
                .option(|o| matches!(o, OptionText::NoWarmUp).then_some(()))
                .is_some(),
        })
    }

    /// A group with sets or a load but without repetitions, which nothing below it could give.
    fn no_reps(&mut self, fields: &Fields<'_>) {
        if fields.load.is_none() && fields.sets.is_none() {
            return;
        }
        let span = fields.span(self.line);
        let reported = |d: &Diagnostic| d.code == Code::MissingPrescription && d.label.span == span;
        if self.problems.iter().any(reported) {
            return;
        }
        self.problems.push(
            Diagnostic::new(Code::MissingPrescription, span, "this has no number of repetitions")
                .help(
                    "write sets x reps before the load; if an exercise has several set groups, a \
                 `week` line replaces all of them",
                ),
        );
    }

    fn reps(&mut self, text: &RepsText, fields: &Fields<'_>, here: &mut Here<'_>) -> Reps {
        let one = crate::quantity::RepCount::exactly(1);
        let mut count = |me: &mut Self, over, fits: &[StepUnit]| {
            me.fitting_step(over, fits);
            here.settle(me, over).map_or(one, |n| n.value)
        };
        let work = match &text.work {
            WorkText::Reps(over) => {
                let found = count(self, over, &[StepUnit::Reps, StepUnit::Points]);
                if found.max.unwrap_or(found.min) > bounds::REPS {
                    self.past_bound(over.step.as_ref(), "a set can have at most 1000 repetitions");
                }
                Work::Reps(found)
            }
            WorkText::Seconds(over) => Work::Seconds(count(self, over, &[StepUnit::Seconds])),
            WorkText::Metres(over) => Work::Metres(count(self, over, &[StepUnit::Metres])),
            WorkText::Amrap => Work::Amrap,
            WorkText::Cluster(parts, pause) => {
                Work::Cluster { parts: parts.clone(), pause: *pause }
            }
        };
        let between = text.between.or(fields.between);
        Reps { work, each_side: fields.each_side, between: between.map(SideRest) }
    }

    /// Repetitions, seconds and metres take steps in their own unit only.
    fn fitting_step<T>(&mut self, over: &OverWeeks<T>, fits: &[StepUnit]) {
        let Some(step) = &over.step else { return };
        let common = [StepUnit::Reps, StepUnit::Points, StepUnit::Seconds, StepUnit::Metres];
        if common.contains(&step.value.unit) && !fits.contains(&step.value.unit) {
            let example = fits.first().map_or("rep", |unit| unit.word());
            self.problems.push(
                Diagnostic::new(
                    Code::StepUnit,
                    step.span,
                    format!(
                        "the unit of this step (`{}`) does not fit the number before it",
                        step.value.unit.word()
                    ),
                )
                .help(format!(
                    "write the step in the unit of the number, such as `+1 {example}/week`"
                )),
            );
        }
    }

    fn past_bound(&mut self, step: Option<&Spanned<StepText>>, bound: &str) {
        let Some(step) = step else { return };
        let reported =
            |d: &Diagnostic| d.code == Code::NumberOutOfRange && d.label.span == step.span;
        if !self.problems.iter().any(reported) {
            self.problems.push(
                Diagnostic::new(
                    Code::NumberOutOfRange,
                    step.span,
                    format!("this step takes the number out of range: {bound}"),
                )
                .help("use a smaller step, or write out the weeks"),
            );
        }
    }

    fn effort(&mut self, text: &EffortText, here: &mut Here<'_>) -> Option<Effort> {
        let points = here.settle(self, &text.points)?.value;
        if text.is_rpe && !(2..=20).contains(&points.0) {
            self.past_bound(text.points.step.as_ref(), "RPE goes from 1 to 10");
        }
        Some(if text.is_rpe { Effort::Rpe(points) } else { Effort::Rir(points) })
    }

    fn load(&mut self, text: &Spanned<LoadText>, here: &mut Here<'_>) -> Load {
        match &text.value {
            LoadText::Percent(over, of) => {
                let of = match of {
                    PercentOf::TrainingMax => PercentBase::TrainingMax,
                    PercentOf::OneRm => PercentBase::OneRm,
                    PercentOf::TopSet => PercentBase::TopSet,
                    PercentOf::Lift(name) => {
                        match self.definitions.known_exercise(name, self.problems) {
                            Some(lift) => PercentBase::Lift(lift),
                            None => return Load::Open,
                        }
                    }
                };
                here.settle(self, over).map_or(Load::Open, |found| Load::Percent {
                    start: found.start,
                    percent: found.value,
                    step: found.step,
                    of,
                })
            }
            LoadText::Mass(over) => here.settle(self, over).map_or(Load::Open, |found| {
                Load::Mass { start: found.start, mass: found.value, step: found.step }
            }),
            LoadText::Effort(effort) => self.effort(effort, here).map_or(Load::Open, Load::Effort),
            LoadText::Bodyweight(None) => Load::Bodyweight(crate::quantity::Mass::ZERO),
            LoadText::Bodyweight(Some(over)) => {
                here.settle(self, over).map_or(Load::Open, |found| Load::Bodyweight(found.value))
            }
            LoadText::LastMass(by) => {
                let mass = by.as_ref().map(|by| by.value.mass.mass());
                Load::LastMass(mass.unwrap_or_default())
            }
            LoadText::LastPercent(by) => Load::LastPercent(by.value),
        }
    }
}

/// The week at hand.
struct Here<'u> {
    week: u32,
    deload: bool,
    uses: &'u BTreeMap<Span, SeriesWeeks>,
}

impl Here<'_> {
    fn settle<W: Settle>(
        &mut self,
        unroller: &mut Unroller<'_>,
        over: &OverWeeks<Spanned<W>>,
    ) -> Option<number::WeekValue<W::To>> {
        let uses = self.uses.get(&over.span);
        let place = uses.map_or(0, |uses| uses.place(self.week, self.deload));
        number::at(over, place, unroller.problems)
    }
}

/// The places of all numbers of a group that are not the same in every week.
fn numbers(fields: &Fields<'_>, found: &mut dyn FnMut(Span, usize)) {
    if let Some(sets) = &fields.sets {
        varying(sets.value, found);
    }
    if let Some(reps) = &fields.reps {
        reps_numbers(&reps.value.value, found);
    }
    if let Some(load) = &fields.load {
        load_numbers(&load.value.value, found);
    }
    for option in &fields.options {
        option_numbers(&option.value.value, found);
    }
}

/// Every number of a written group that is not the same in every week, with the length of its
/// series.
fn each_number(group: &crate::syntax::ast::SetGroup, found: &mut dyn FnMut(Span, usize)) {
    if let Some(sets) = &group.sets {
        varying(sets, found);
    }
    if let Some(reps) = &group.reps {
        reps_numbers(&reps.value, found);
    }
    if let Some(load) = &group.load {
        load_numbers(&load.value, found);
    }
    for option in &group.options {
        option_numbers(&option.value, found);
    }
}

/// A series or a number with a step. Most numbers are neither: where they are used is of no matter.
fn varying<T>(over: &OverWeeks<T>, found: &mut dyn FnMut(Span, usize)) {
    if over.values.len() > 1 || over.step.is_some() {
        found(over.span, over.values.len());
    }
}

fn reps_numbers(text: &RepsText, found: &mut dyn FnMut(Span, usize)) {
    if let WorkText::Reps(over) | WorkText::Seconds(over) | WorkText::Metres(over) = &text.work {
        varying(over, found);
    }
}

fn load_numbers(text: &LoadText, found: &mut dyn FnMut(Span, usize)) {
    match text {
        LoadText::Percent(over, _) => varying(over, found),
        LoadText::Mass(over) => varying(over, found),
        LoadText::Effort(effort) => varying(&effort.points, found),
        LoadText::Bodyweight(Some(over)) => varying(over, found),
        LoadText::Bodyweight(None) | LoadText::LastMass(_) | LoadText::LastPercent(_) => {}
    }
}

fn option_numbers(text: &OptionText, found: &mut dyn FnMut(Span, usize)) {
    match text {
        OptionText::Rest(over) => varying(over, found),
        OptionText::Effort(effort) => varying(&effort.points, found),
        _ => {}
    }
}

fn wrong_length(span: Span, length: usize, used: &[u32], deload: &[u32]) -> Diagnostic {
    let weeks = match used {
        [] => "in no week".to_owned(),
        [one] => format!("in one week ({one})"),
        many => format!("in {} weeks ({})", many.len(), week_list(many)),
    };
    let mut help = match used.len() {
        0 => "delete the series, or the lines that replace it".to_owned(),
        1 => "write one value".to_owned(),
        n => format!("write {n} values, one for each of these weeks"),
    };
    if !deload.is_empty() {
        help.push_str(&format!(
            "; deload: {} {} the value before it",
            weeks_in_words(deload),
            if deload.len() == 1 { "repeats" } else { "repeat" }
        ));
    }
    Diagnostic::new(
        Code::SeriesLength,
        span,
        format!("this series has {length} values, but it is used {weeks}"),
    )
    .label(format!("{length} values"))
    .help(help)
}

/// `week 4`, `weeks 4-6`.
pub fn weeks_in_words(weeks: &[u32]) -> String {
    format!("{} {}", if weeks.len() == 1 { "week" } else { "weeks" }, week_list(weeks))
}

/// `1-3, 5-7`.
fn week_list(weeks: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &week in weeks {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == week => *last = week,
            _ => runs.push((week, week)),
        }
    }
    let show = |(a, b): &(u32, u32)| if a == b { a.to_string() } else { format!("{a}-{b}") };
    runs.iter().map(show).collect::<Vec<_>>().join(", ")
}
