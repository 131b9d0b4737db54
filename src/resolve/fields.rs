//! The prescription of a line in one week: the line itself and the lines that override it.
//!
//! Layers are applied in this order; later ones override earlier ones: the line, its `for` line, the
//! weeks of its scheme, its own weeks, the weeks of the `for` line. A layer replaces only what it
//! names. If either layer has several set groups, all are replaced.

use std::mem::discriminant;
use std::rc::Rc;

use crate::quantity::Duration;
use crate::source::{Span, Spanned};
use crate::syntax::ast::{
    LoadText, OptionText, OverWeeks, PercentOf, Prescription, RepsText, SetGroup, WeekSpan,
};

/// One layer.
#[derive(Clone, Debug)]
pub struct Layer<'a> {
    /// The weeks it is for; all, if `None`.
    pub weeks: Option<WeekSpan>,
    pub prescription: &'a Prescription,
    /// Its groups, with what they share; the same for everybody who does the line.
    groups: Rc<[Fields<'a>]>,
}

impl<'a> Layer<'a> {
    /// A prescription as a layer.
    pub fn new(weeks: Option<WeekSpan>, prescription: &'a Prescription) -> Self {
        let single = weeks.is_some_and(WeekSpan::is_single);
        Self { weeks, prescription, groups: spread(prescription, single).into() }
    }

    /// The same from a `for` line: the loads it names are the athlete's own.
    pub fn personal(mut self) -> Self {
        let own =
            |fields: &Fields<'a>| Fields { load_own: fields.load.is_some(), ..fields.clone() };
        self.groups = self.groups.iter().map(own).collect();
        self
    }
}

/// A part of a set group, with the layer it comes from.
#[derive(Clone, Copy, Debug)]
pub struct Sourced<T> {
    pub value: T,
    /// Whether the layer is a line for one week, which stands as written.
    pub single: bool,
}

/// One set group as layered so far.
#[derive(Clone, Debug, Default)]
pub struct Fields<'a> {
    pub sets: Option<Sourced<&'a OverWeeks<Spanned<u32>>>>,
    pub reps: Option<Sourced<&'a Spanned<RepsText>>>,
    /// Each side was said by a layer below.
    pub each_side: bool,
    /// Rest between the sides, said by a layer below.
    pub between: Option<Duration>,
    pub load: Option<Sourced<&'a Spanned<LoadText>>>,
    /// The load is written in a later group, and this one says how many sets: on the body mass it
    /// may be meant to go without.
    pub load_of_later: bool,
    /// The load was named in a `for` line.
    pub load_own: bool,
    pub options: Vec<Sourced<&'a Spanned<OptionText>>>,
}

impl<'a> Fields<'a> {
    fn of(group: &'a SetGroup, single: bool) -> Self {
        let part = |value| Sourced { value, single };
        Self {
            sets: group.sets.as_ref().map(|value| Sourced { value, single }),
            reps: group.reps.as_ref().map(|value| Sourced { value, single }),
            each_side: group.reps.as_ref().is_some_and(|reps| reps.value.each_side),
            between: group.reps.as_ref().and_then(|reps| reps.value.between),
            load: group.load.as_ref().map(|value| Sourced { value, single }),
            load_of_later: false,
            load_own: false,
            options: group.options.iter().map(part).collect(),
        }
    }

    /// Whether two options answer the same question: `as written` and `with phase` do.
    fn same(a: &OptionText, b: &OptionText) -> bool {
        let of_phase = |o: &OptionText| matches!(o, OptionText::AsWritten | OptionText::WithPhase);
        discriminant(a) == discriminant(b) || (of_phase(a) && of_phase(b))
    }

    /// Adds an option unless one of its kind is there.
    fn offer(&mut self, option: Sourced<&'a Spanned<OptionText>>) {
        if !self.options.iter().any(|own| Self::same(&own.value.value, &option.value.value)) {
            self.options.push(option);
        }
    }

    /// Puts an option in the place of one of its kind.
    fn replace(&mut self, option: Sourced<&'a Spanned<OptionText>>) {
        self.options.retain(|own| !Self::same(&own.value.value, &option.value.value));
        self.options.push(option);
    }

    fn cover(&mut self, over: &Fields<'a>) {
        self.sets = over.sets.or(self.sets);
        self.reps = over.reps.or(self.reps);
        self.each_side |= over.each_side;
        self.between = over.between.or(self.between);
        if over.load.is_some() {
            self.load = over.load;
            self.load_of_later = over.load_of_later;
            self.load_own = over.load_own;
            // A load by effort leaves no other effort beside it.
            if over.load.is_some_and(|load| matches!(load.value.value, LoadText::Effort(_))) {
                self.options.retain(|o| !matches!(o.value.value, OptionText::Effort(_)));
            }
        }
        for option in &over.options {
            self.replace(*option);
        }
    }

    pub fn option<T>(&self, pick: impl Fn(&'a OptionText) -> Option<T>) -> Option<T> {
        self.options.iter().find_map(|option| pick(&option.value.value))
    }

    /// Where the group is written.
    pub fn span(&self, line: Span) -> Span {
        let load = self.load.map(|load| load.value.span);
        let reps = self.reps.map(|reps| reps.value.span);
        load.or(reps).or(self.sets.map(|sets| sets.value.span)).unwrap_or(line)
    }
}

/// Whether an option serves every group that has none of its own.
fn spreads(option: &OptionText) -> bool {
    !matches!(option, OptionText::Drop(..) | OptionText::RestPause(_))
}

/// Whether an option stays with the line when all its groups are replaced.
fn stays(option: &OptionText) -> bool {
    matches!(option, OptionText::Rest(_) | OptionText::Tempo(_) | OptionText::Range(_))
}

/// A load serves the groups before it that have none, as in a log: `10, 8, 6 @ 60 kg`. A share of
/// the top set does not: the group before it is the top set.
fn spread_loads(groups: &mut [Fields<'_>]) {
    let mut later: Option<Sourced<&Spanned<LoadText>>> = None;
    for group in groups.iter_mut().rev() {
        if group.load.is_some() {
            later = group.load;
            continue;
        }
        let Some(load) = later else { continue };
        let own_effort =
            group.options.iter().any(|o| matches!(o.value.value, OptionText::Effort(_)));
        let fits = match &load.value.value {
            LoadText::Percent(_, PercentOf::TopSet) => false,
            LoadText::Effort(_) => !own_effort,
            _ => true,
        };
        if fits {
            group.load = Some(load);
            group.load_of_later = group.sets.is_some();
        }
    }
}

/// The groups of one prescription, options after the last one spread over all.
fn spread(prescription: &Prescription, single: bool) -> Vec<Fields<'_>> {
    let mut groups: Vec<Fields<'_>> =
        prescription.groups.iter().map(|group| Fields::of(group, single)).collect();
    spread_loads(&mut groups);
    let tail: Vec<_> = groups.last().map(|last| last.options.clone()).unwrap_or_default();
    for group in &mut groups {
        let by_effort = group.load.is_some_and(|l| matches!(l.value.value, LoadText::Effort(_)));
        for option in tail.iter().filter(|option| spreads(&option.value.value)) {
            if !(by_effort && matches!(option.value.value, OptionText::Effort(_))) {
                group.offer(*option);
            }
        }
    }
    groups
}

/// The result of all layers in one week.
pub fn in_week<'a>(layers: &[Layer<'a>], week: u32) -> Vec<Fields<'a>> {
    let mut groups: Vec<Fields<'a>> = Vec::new();
    let applies = |layer: &&Layer<'a>| layer.weeks.is_none_or(|weeks| weeks.contains(week));
    for layer in layers.iter().filter(applies) {
        match (groups.as_mut_slice(), &*layer.groups) {
            (_, []) => {}
            (all, [bare]) if layer.prescription.groups.first().is_some_and(SetGroup::is_bare) => {
                if all.is_empty() {
                    groups.push(bare.clone());
                } else {
                    for group in all.iter_mut() {
                        group.cover(bare);
                    }
                }
            }
            ([only], [one]) => only.cover(one),
            ([], over) => groups = over.to_vec(),
            (all, over) => {
                let kept: Vec<_> = all
                    .last()
                    .map(|last| last.options.clone())
                    .unwrap_or_default()
                    .into_iter()
                    .filter(|option| stays(&option.value.value))
                    .collect();
                let each_side = all.iter().any(|group| group.each_side);
                let between = all.iter().find_map(|group| group.between);
                groups = over.to_vec();
                for group in &mut groups {
                    group.each_side |= each_side;
                    group.between = group.between.or(between);
                    for option in &kept {
                        group.offer(*option);
                    }
                }
            }
        }
    }
    groups
}
