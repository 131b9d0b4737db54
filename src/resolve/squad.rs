//! The athletes of a programme, their names settled.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use crate::catalogue::{Athlete, MaxKind};
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Mass};
use crate::source::Span;
use crate::syntax::fold_name;

use super::{Definitions, ExerciseId};
use crate::catalogue::{MUSCLES, PATTERNS};

/// A maximum whose lift is known.
#[derive(Clone, Debug, PartialEq)]
pub enum ResolvedMax {
    /// A set with a load.
    Lifted {
        /// Repetitions made.
        reps: u32,
        /// The load; what was added to the body mass when `bodyweight`.
        load: Mass,
        /// Whether the load is added to the body mass.
        bodyweight: bool,
    },
    /// A share of another lift's maximum.
    Share {
        /// In percent.
        percent: Decimal,
        /// The other lift.
        of: ExerciseId,
    },
}

impl ResolvedMax {
    /// A max with its lift's name settled; `None` when the lift is unknown, which is reported.
    pub(super) fn of(
        kind: &MaxKind,
        definitions: &Definitions<'_>,
        problems: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        Some(match kind {
            MaxKind::Lifted { reps, load, bodyweight } => {
                Self::Lifted { reps: *reps, load: *load, bodyweight: *bodyweight }
            }
            MaxKind::Share { percent, of } => {
                Self::Share { percent: *percent, of: definitions.known_exercise(of, problems)? }
            }
        })
    }
}

/// Why an exercise is to be avoided.
#[derive(Clone, Debug, PartialEq)]
pub struct Avoided {
    /// The exercise, pattern or muscle that the athlete's file names.
    pub why: String,
    /// The place that says so.
    pub span: Span,
    /// The last day; `None` for always.
    pub until: Option<Date>,
}

/// What is done instead of an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instead {
    /// What is done.
    pub by: ExerciseId,
    /// Why, as written.
    pub reason: Option<String>,
    /// The last day; `None` for always.
    pub until: Option<Date>,
    /// The place of the replaced exercise's name in the line that says so.
    pub span: Span,
}

/// Whether something that holds until a day holds on another; without dates it does.
#[must_use]
pub fn in_force(until: Option<Date>, date: Option<Date>) -> bool {
    until.zip(date).is_none_or(|(until, date)| date <= until)
}

impl ResolvedAthlete {
    /// What is done instead of an exercise on a day; without a date, at all. A chain (`A: B`,
    /// `B: C`) is followed to its end, with all its reasons; a ring leads nowhere.
    #[must_use]
    pub fn instead(&self, of: ExerciseId, date: Option<Date>) -> Option<Instead> {
        let mut chain = self.chain(of, date)?.into_iter();
        let mut found = chain.next()?.clone();
        for next in chain {
            let reasons = [found.reason.take(), next.reason.clone()];
            let mut reasons: Vec<String> = reasons.into_iter().flatten().collect();
            reasons.dedup();
            found.reason = (!reasons.is_empty()).then(|| reasons.join("; "));
            found.by = next.by;
            found.until = [found.until, next.until].into_iter().flatten().min();
        }
        Some(found)
    }

    /// What is done on a day where the programme asks for an exercise.
    #[must_use]
    pub fn done_for(&self, of: ExerciseId, date: Option<Date>) -> ExerciseId {
        self.instead(of, date).map_or(of, |instead| instead.by)
    }

    /// The links from an exercise to what is done on a day; `None` where they make a ring.
    #[must_use]
    pub fn chain(&self, of: ExerciseId, date: Option<Date>) -> Option<Vec<&Instead>> {
        let mut links: Vec<&Instead> = Vec::new();
        let mut at = of;
        while let Some(next) = self.link(at, date) {
            links.push(next);
            at = next.by;
            if at == of || links.iter().filter(|link| link.by == at).count() > 1 {
                return None;
            }
        }
        Some(links)
    }

    fn link(&self, of: ExerciseId, date: Option<Date>) -> Option<&Instead> {
        self.replacements.get(&of).filter(|instead| in_force(instead.until, date))
    }

    /// Exercises that replace each other in a ring on a day, that `of` leads into; the lowest
    /// first, each with its link. `None` where there is none.
    #[must_use]
    pub fn ring(&self, of: ExerciseId, date: Option<Date>) -> Option<Vec<(ExerciseId, &Instead)>> {
        let mut seen: Vec<(ExerciseId, &Instead)> = Vec::new();
        let mut at = of;
        loop {
            if let Some(start) = seen.iter().position(|(one, _)| *one == at) {
                let mut ring = seen.split_off(start);
                let lowest = ring.iter().map(|(one, _)| *one).min();
                let first = ring.iter().position(|(one, _)| Some(*one) == lowest);
                ring.rotate_left(first.unwrap_or(0));
                return Some(ring);
            }
            let next = self.link(at, date)?;
            seen.push((at, next));
            at = next.by;
        }
    }
}

/// The error for exercises that replace each other in a ring.
#[must_use]
pub fn ring_found(
    ring: &[(ExerciseId, &Instead)],
    athlete: &str,
    exercises: &crate::catalogue::Exercises,
) -> Option<Diagnostic> {
    let name = |id: ExerciseId| exercises.get(id.0).map_or("", |exercise| exercise.name.as_str());
    let ((first, link), others) = ring.split_first()?;
    let links = ring.iter().map(|(of, link)| format!("{} with {}", name(*of), name(link.by)));
    let message = if others.is_empty() {
        format!("{athlete} replaces {} with itself", name(*first))
    } else {
        let links: Vec<String> = links.collect();
        format!("{athlete} replaces exercises in a circle: {}", links.join(", "))
    };
    let mut found = Diagnostic::new(Code::ReplaceCycle, link.span, message);
    for (_, other) in others {
        found = found.and(other.span, "this line is part of the circle");
    }
    Some(
        found.help(
            "`replace` lines are followed from one to the next: delete the line that is wrong",
        ),
    )
}

/// An athlete of a programme.
#[derive(Clone, Debug)]
pub struct ResolvedAthlete {
    /// The athlete as written.
    pub athlete: Athlete,
    /// The gym, an index into the programme's gyms.
    pub gym: Option<usize>,
    /// Maximums by lift, each with its place.
    pub maxes: BTreeMap<ExerciseId, (ResolvedMax, Span)>,
    /// What is done instead, and why.
    pub replacements: BTreeMap<ExerciseId, Instead>,
    /// Settings by exercise.
    pub settings: BTreeMap<ExerciseId, Vec<String>>,
    /// Exercises to avoid.
    pub avoid: BTreeMap<ExerciseId, Avoided>,
}

/// An athlete whose names are settled, and what is wrong with them.
pub type AthleteProblems = (ResolvedAthlete, Vec<Diagnostic>);

/// Settles the names of all athletes.
pub fn all(definitions: &Definitions<'_>) -> Vec<AthleteProblems> {
    let settled = |athlete| {
        let mut problems = Vec::new();
        (resolve(athlete, definitions, &mut problems), problems)
    };
    definitions.athletes.iter().map(settled).collect()
}

/// Settles the names of an athlete.
fn resolve(
    athlete: &Athlete,
    definitions: &Definitions<'_>,
    problems: &mut Vec<Diagnostic>,
) -> ResolvedAthlete {
    let mut trainee = ResolvedAthlete {
        athlete: athlete.clone(),
        gym: gym(athlete, definitions, problems),
        maxes: BTreeMap::new(),
        replacements: BTreeMap::new(),
        settings: BTreeMap::new(),
        avoid: BTreeMap::new(),
    };
    // Two maxes of one spelling have been reported as a repeated key.
    let mut names: BTreeMap<ExerciseId, String> = BTreeMap::new();
    for max in &athlete.maxes {
        let Some(lift) = definitions.known_exercise(&max.lift, problems) else { continue };
        let Some(kind) = ResolvedMax::of(&max.kind, definitions, problems) else { continue };
        let spelled = fold_name(&max.lift.value);
        let again = names.insert(lift, spelled.clone()).is_some_and(|first| first != spelled);
        if let (Some((_, first)), true) = (trainee.maxes.insert(lift, (kind, max.span)), again) {
            problems.push(
                Diagnostic::new(
                    Code::RepeatedKey,
                    max.lift.span,
                    format!("`{}` has two maxes under two names", max.lift.value),
                )
                .and(first, "the other max")
                .help("keep one of the two"),
            );
        }
    }
    rings(&trainee, definitions, problems);
    for replacement in &athlete.replacements {
        let of = definitions.known_exercise(&replacement.of, problems);
        let by = definitions.known_exercise(&replacement.by, problems);
        if let (Some(of), Some(by)) = (of, by) {
            let (reason, until) = (replacement.reason.clone(), replacement.until);
            let instead = Instead { by, reason, until, span: replacement.of.span };
            trainee.replacements.insert(of, instead);
        }
    }
    for of in trainee.replacements.keys() {
        // A ring of lines with a last day is one only on the days on which all hold.
        let ring = trainee
            .ring(*of, None)
            .filter(|ring| ring.iter().all(|(_, link)| link.until.is_none()));
        let ring = ring.filter(|ring| ring.first().is_some_and(|(first, _)| first == of));
        let found = ring.and_then(|ring| ring_found(&ring, &athlete.name, &definitions.exercises));
        problems.extend(found);
    }
    for (name, text) in &athlete.settings {
        if let Some(exercise) = definitions.known_exercise(name, problems) {
            trainee.settings.entry(exercise).or_default().push(text.clone());
        }
    }
    for (name, until) in &athlete.avoid {
        avoid(name, *until, &mut trainee, definitions, problems);
    }
    if athlete.avoid.is_empty() && athlete.replacements.is_empty() && !athlete.incomplete {
        for limit in &athlete.limits {
            problems.push(
                Diagnostic::new(
                    Code::LimitOnlyPrinted,
                    limit.span,
                    format!(
                        "this limit of {} is only printed: no exercise is checked against it",
                        athlete.name
                    ),
                )
                .help(
                    "to have exercises checked, add `avoid:` with exercises, patterns \
                     or muscles",
                ),
            );
        }
    }
    trainee
}

fn gym(
    athlete: &Athlete,
    definitions: &Definitions<'_>,
    problems: &mut Vec<Diagnostic>,
) -> Option<usize> {
    let gyms = &definitions.gyms;
    let Some(name) = &athlete.gym else {
        // With one gym in the project there is nothing to guess.
        return (gyms.len() == 1).then_some(0);
    };
    let folded = fold_name(&name.value);
    let found = gyms.iter().position(|gym| fold_name(&gym.name) == folded);
    if found.is_none() {
        problems.push(
            Diagnostic::new(
                Code::UnknownGym,
                name.span,
                format!("there is no gym `{}`", name.value),
            )
            .help(format!("define it: `gym {}`", name.value))
            .did_you_mean(&name.value, gyms.iter().map(|gym| gym.name.as_str())),
        );
    }
    found
}

/// Maxes that are shares of each other in a ring.
fn rings(trainee: &ResolvedAthlete, definitions: &Definitions<'_>, problems: &mut Vec<Diagnostic>) {
    let in_ring = in_rings(trainee);
    for (lift, (_, span)) in trainee.maxes.iter().filter(|(lift, _)| in_ring.contains(lift)) {
        let lift = definitions.exercises.get(lift.0).map_or("", |e| e.name.as_str());
        problems.push(
            Diagnostic::new(
                Code::MaxCycle,
                *span,
                format!("the max of `{lift}` is a percentage of itself"),
            )
            .help("write a tested max for one of these lifts"),
        );
    }
}

/// The lifts whose max is a share of itself, found by following each share once.
fn in_rings(trainee: &ResolvedAthlete) -> BTreeSet<ExerciseId> {
    let mut found = BTreeSet::new();
    // Each lift that was passed, with the lift that it was first reached from.
    let mut passed: BTreeMap<ExerciseId, ExerciseId> = BTreeMap::new();
    for &start in trainee.maxes.keys() {
        let mut path = Vec::new();
        let mut at = start;
        while let Some((ResolvedMax::Share { of, .. }, _)) = trainee.maxes.get(&at) {
            if let Some(from) = passed.get(&at) {
                if *from == start {
                    let ring = path.iter().skip_while(|lift| **lift != at);
                    found.extend(ring.copied());
                }
                break;
            }
            passed.insert(at, start);
            path.push(at);
            at = *of;
        }
    }
    found
}

fn avoid(
    name: &crate::syntax::ast::Name,
    until: Option<Date>,
    trainee: &mut ResolvedAthlete,
    definitions: &Definitions<'_>,
    problems: &mut Vec<Diagnostic>,
) {
    let folded = fold_name(&name.value);
    let is = |word: &&&str| fold_name(word) == folded;
    let pattern = PATTERNS.iter().find(is);
    let muscle = MUSCLES.iter().find(is);
    if let Some(exercise) = definitions.exercise(&name.value) {
        trainee.avoid.insert(exercise, Avoided { why: name.value.clone(), span: name.span, until });
        return;
    }
    if pattern.is_none() && muscle.is_none() {
        problems.push(super::avoid_word::unknown(name, until, definitions));
        return;
    }
    for (index, exercise) in definitions.exercises.iter().enumerate() {
        let by_pattern = pattern.is_some_and(|p| exercise.has_pattern(p));
        // Only where the muscle does the whole of its work: a share would ban half the gym.
        let by_muscle = muscle.is_some_and(|m| {
            exercise.muscles.iter().any(|(name, (top, bottom))| name == m && top == bottom)
        });
        if by_pattern || by_muscle {
            let why = name.value.clone();
            trainee.avoid.insert(ExerciseId(index), Avoided { why, span: name.span, until });
        }
    }
}
