//! Checks for valid but ambiguous prescriptions: `3 x 30` of a plank, `3 x 8+8` on each side, a set group
//! without a load next to one that has a load.

use std::collections::BTreeSet;

use super::{Group, Line, Load, Programme, Variant};
use crate::catalogue::Exercise;
use crate::diagnostics::{Code, Diagnostic, Edit};
use crate::quantity::{RepCount, Work};
use crate::source::{Sources, Span};
use crate::syntax::ast::{CountedIn, EquipmentKind};

/// From this number up, a plain number on a timed exercise is an error: nobody does 30 planks in a
/// set. Common practice, no source.
const SURELY_SECONDS: u32 = 20;

/// Whether an exercise is done with the body mass where no load is written.
pub fn may_go_without_load(exercise: &Exercise) -> bool {
    exercise.equipment.iter().any(|item| item.kind == EquipmentKind::BodyMass)
}

/// What each prescription of a programme leaves open, each once.
#[must_use]
pub fn check_work(programme: &Programme) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for line in programme.days.iter().flat_map(|day| &day.lines) {
        let Some(exercise) = programme.exercises.get(line.exercise.0) else { continue };
        // The same place is read for every week, and for every athlete with lines of their own.
        let mut seen = BTreeSet::new();
        for variant in line.variants(programme.trainees.len()) {
            for groups in variant.weeks.iter().map(|spec| &spec.groups) {
                for (index, group) in groups.iter().enumerate() {
                    let before = groups.get(..index).unwrap_or(&[]);
                    let checks = [
                        number_of_what(exercise, group, &programme.sources),
                        which_sides(exercise, group, &programme.sources),
                        left_open(programme, line, variant, exercise, (group, before)),
                    ];
                    for problem in checks.into_iter().flatten() {
                        if seen.insert((problem.code, problem.label.span)) {
                            found.push(problem);
                        }
                    }
                }
            }
        }
    }
    found
}

impl Line {
    /// What is done in this line by at least one of so many athletes: the line as it is for all, and
    /// what `for` lines make of it.
    pub(super) fn variants(&self, athletes: usize) -> impl Iterator<Item = &Variant> {
        let all_own = athletes > 0 && self.personal.len() >= athletes;
        let common = (!all_own).then_some(&self.common);
        common.into_iter().chain(self.personal.iter().map(|(_, variant)| variant))
    }
}

/// A number without a unit on an exercise that is held for a time.
fn number_of_what(exercise: &Exercise, group: &Group, sources: &Sources) -> Option<Diagnostic> {
    let Work::Reps(RepCount { min, .. }) = group.reps.work else { return None };
    let timed = exercise.counted_in() == Some(CountedIn::Seconds);
    if !timed || min < SURELY_SECONDS || group.reps_named {
        return None;
    }
    let span = group.reps_span;
    let number: String = sources
        .text(span)
        .chars()
        .take_while(|sign| sign.is_ascii_digit() || matches!(sign, '-' | '–' | '+'))
        .collect();
    let name = &exercise.name;
    let found = Diagnostic::new(
        Code::MissingUnit,
        span,
        format!("{name} is timed, but {number} has no unit"),
    )
    .help(format!("write `{number} s` for seconds, or `{number} reps` for repetitions"));
    // Of a series each number wants its unit.
    let rest = sources.text(span).get(number.len()..).unwrap_or("").trim_start();
    let simple = rest.is_empty() || rest.starts_with("each");
    let unit = |unit: &str| {
        let end = span.start as usize + number.len();
        vec![Edit { span: Span::new(span.file, end, end), text: format!(" {unit}") }]
    };
    Some(if simple {
        found
            .suggest(format!("seconds: `{number} s`"), unit("s"))
            .suggest(format!("repetitions: `{number} reps`"), unit("reps"))
    } else {
        found
    })
}

/// `8+8` of an exercise that is done on each side: the two sides, or a cluster?
fn which_sides(exercise: &Exercise, group: &Group, sources: &Sources) -> Option<Diagnostic> {
    let Work::Cluster { parts, pause: None } = &group.reps.work else { return None };
    let [one, other] = parts.as_slice() else { return None };
    if !exercise.each_side || group.reps.each_side {
        return None;
    }
    let span = group.reps_span;
    let written = sources.text(span).trim();
    let cluster = format!("{one}+{other} each side");
    let found = Diagnostic::new(
        Code::UnclearSides,
        span,
        format!(
            "{} is done on each side, so `{written}` can mean the two sides or a cluster",
            exercise.name
        ),
    );
    let edit = |text: String| vec![Edit { span, text }];
    let to_cluster = format!("a cluster of {one} and {other} on each side: `{cluster}`");
    Some(if one == other {
        let sides = format!("{one} each side");
        found
            .help(format!("write `{sides}`, or `{cluster}` for a cluster on each side"))
            .suggest(format!("{one} on each side: `{sides}`"), edit(sides.clone()))
            .suggest(to_cluster, edit(cluster))
    } else {
        found
            .help(format!(
                "write one number for both sides, such as `{one} each side`, or `{cluster}` for a \
                 cluster on each side"
            ))
            .suggest(to_cluster, edit(cluster))
    })
}

/// A set group without a load, where an effort beside it or a load before it suggests one.
fn left_open(
    programme: &Programme,
    line: &Line,
    variant: &Variant,
    exercise: &Exercise,
    (group, before): (&Group, &[Group]),
) -> Option<Diagnostic> {
    if group.load != Load::Open || may_go_without_load(exercise) {
        return None;
    }
    let is_counted = matches!(group.reps.work, Work::Reps(_) | Work::Cluster { .. });
    let known = programme.trainees.iter().enumerate().any(|(index, trainee)| {
        std::ptr::eq(line.variant(index), variant) && trainee.maxes.contains_key(&line.exercise)
    });
    let name = &exercise.name;
    if let Some(at) = group.effort_span.filter(|_| is_counted && known) {
        let effort = programme.sources.text(at).trim();
        let found = Diagnostic::new(
            Code::LoadLeftOpen,
            at,
            format!("`{effort}` is only a limit here: the card leaves the load of {name} open"),
        )
        .help(format!(
            "to have the load worked out from the max, write it after an `@`: `@ {effort}`"
        ));
        let gap = Span::new(at.file, group.reps_span.end as usize, at.start as usize);
        let joined = at.file == group.reps_span.file
            && group.reps_span.end <= at.start
            && programme.sources.text(gap).chars().all(|sign| sign == ',' || sign == ' ');
        let edit = Edit { span: gap, text: " @ ".to_owned() };
        return Some(if joined {
            found.suggest(format!("work the load out: `@ {effort}`"), vec![edit])
        } else {
            found
        });
    }
    let other = before.iter().rfind(|other| other.load != Load::Open)?;
    let load = programme.sources.text(other.load_span).trim();
    let end = group.reps_span.end as usize;
    let edit = Edit { span: Span::new(group.reps_span.file, end, end), text: format!(" @ {load}") };
    Some(
        Diagnostic::new(
            Code::LoadLeftOpen,
            group.reps_span,
            format!("these sets of {name} have no load, so the card leaves it open"),
        )
        .and(other.load_span, "the sets before them have this load")
        .help(format!(
            "write the load after these sets: `@ {load}`. A load applies to the sets before it that \
             have none, not those after it"
        ))
        .suggest(format!("the same load: `@ {load}`"), vec![edit]),
    )
}
