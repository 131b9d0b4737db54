//! Prescriptions.

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Tempo, TempoPart};
use crate::source::Spanned;
use crate::syntax::ast::{
    LoadText, NAMED_REPS, OptionText, PercentOf, Prescription, RepsText, SetGroup, SignedMass,
    WorkText,
};
use crate::syntax::build::{Build, P};
use crate::syntax::grammar::Rule;

pub fn prescription(build: &mut Build<'_>, value: P<'_>) -> Prescription {
    let mut groups: Vec<SetGroup> = Vec::new();
    let span = build.span(&value);
    for part in build.first(value).into_iter().flat_map(P::into_inner) {
        match part.as_rule() {
            Rule::set_group => groups.push(set_group(build, part)),
            Rule::option => {
                let option = option(build, part);
                if groups.is_empty() {
                    groups.push(SetGroup::default());
                }
                if let (Some(group), Some(option)) = (groups.last_mut(), option) {
                    add_option(build, group, option);
                }
            }
            _ => {}
        }
    }
    if groups.len() > bounds::GROUPS {
        build.problems.push(
            Diagnostic::new(
                Code::PlanTooLarge,
                span,
                format!(
                    "this line has {} set groups, more than the limit of {}",
                    groups.len(),
                    bounds::GROUPS
                ),
            )
            .help("split it into several exercise lines"),
        );
        groups.truncate(bounds::GROUPS);
    }
    Prescription { groups }
}

/// Adds an option to its group. A repeated option is an error that shows both places.
fn add_option(build: &mut Build<'_>, group: &mut SetGroup, option: Spanned<OptionText>) {
    if let (Some(load), OptionText::Effort(_)) = (&group.load, &option.value)
        && matches!(load.value, LoadText::Effort(_))
    {
        build.problems.push(
            Diagnostic::new(Code::RepeatedKey, option.span, "the effort is written twice")
                .label("again here")
                .and(load.span, "the load is already given by effort")
                .help("keep one of the two"),
        );
        return;
    }
    let same = |other: &&Spanned<OptionText>| {
        std::mem::discriminant(&other.value) == std::mem::discriminant(&option.value)
    };
    if let Some(first) = group.options.iter().find(same) {
        build.problems.push(
            Diagnostic::new(Code::RepeatedKey, option.span, "this option is written twice")
                .label("again here")
                .and(first.span, "first here")
                .help("keep one of the two"),
        );
    } else {
        group.options.push(option);
    }
}

fn set_group(build: &mut Build<'_>, pair: P<'_>) -> SetGroup {
    let mut group = SetGroup::default();
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::sets => group.sets = Some(sets(build, &part)),
            Rule::sets_only => {
                group.sets = build.first(part).map(|inner| sets(build, &inner));
            }
            Rule::reps => {
                let value = reps(build, part.clone());
                group.reps = Some(build.spanned(&part, value));
            }
            Rule::load => {
                let value = build.first(part.clone()).and_then(|inner| load(build, inner));
                group.load = value.map(|value| build.spanned(&part, value));
            }
            _ => {}
        }
    }
    group
}

fn sets(build: &mut Build<'_>, pair: &P<'_>) -> crate::syntax::ast::OverWeeks<Spanned<u32>> {
    build.over(pair, |b, part| Some(b.whole(&part, 1, bounds::SETS, "sets")))
}

fn reps(build: &mut Build<'_>, pair: P<'_>) -> RepsText {
    let mut text =
        RepsText { work: WorkText::Amrap, named: false, each_side: false, between: None };
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::amrap => text.work = WorkText::Amrap,
            Rule::cluster => text.work = cluster(build, part),
            Rule::timed => {
                text.work = WorkText::Seconds(build.over(&part, |b, p| Some(b.time_count(p))));
            }
            Rule::distance => {
                text.work = WorkText::Metres(build.over(&part, |b, p| Some(b.metre_count(p))));
            }
            Rule::counted => {
                let words = part.as_str();
                let named = words.ends_with("reps") || words.ends_with("rep");
                let over = build.over(&part, |b, p| Some(b.count(p, bounds::REPS, "repetitions")));
                // After a step, the word is the unit of the step.
                text.named = named
                    && over.step.is_none()
                    && over.values.iter().all(|count| count.value.min >= NAMED_REPS);
                text.work = WorkText::Reps(over);
            }
            Rule::each_side => {
                text.each_side = true;
                text.between = build.first(part).map(|rest| build.duration(rest));
            }
            _ => {}
        }
    }
    text
}

fn cluster(build: &mut Build<'_>, pair: P<'_>) -> WorkText {
    let mut parts = Vec::new();
    let mut pause = None;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::whole => parts.push(build.whole(&part, 1, bounds::REPS, "repetitions")),
            Rule::duration => pause = Some(build.duration(part)),
            _ => {}
        }
    }
    WorkText::Cluster(parts, pause)
}

fn load(build: &mut Build<'_>, pair: P<'_>) -> Option<LoadText> {
    Some(match pair.as_rule() {
        Rule::effort_load => LoadText::Effort(build.effort(&pair)),
        Rule::percent_load => percent_load(build, &pair),
        Rule::mass_load => LoadText::Mass(build.over(&pair, |b, part| Some(b.mass(part)))),
        Rule::bodyweight_load => {
            let over = build.over(&pair, |b, part| Some(SignedMass { mass: b.signed_mass(part) }));
            LoadText::Bodyweight((!over.values.is_empty()).then_some(over))
        }
        Rule::last_load => match build.first(pair) {
            None => LoadText::LastMass(None),
            Some(part) if part.as_rule() == Rule::signed_percent => {
                let value = build.signed_percent(part.clone());
                LoadText::LastPercent(build.spanned(&part, value))
            }
            Some(part) => {
                let mass = build.signed_mass(part.clone());
                LoadText::LastMass(Some(build.spanned(&part, SignedMass { mass })))
            }
        },
        _ => return None,
    })
}

fn percent_load(build: &mut Build<'_>, pair: &P<'_>) -> LoadText {
    let mut of: Option<Spanned<PercentOf>> = None;
    let over = build.over(pair, |b, part| {
        let what = match part.as_rule() {
            Rule::percent => return Some(b.percent(part)),
            Rule::of_one_rm => PercentOf::OneRm,
            Rule::of_training_max => PercentOf::TrainingMax,
            Rule::of_top_set => PercentOf::TopSet,
            _ => PercentOf::Lift(b.name(&part)),
        };
        let span = b.span(&part);
        match &of {
            Some(first) => b.problems.push(
                Diagnostic::new(Code::BadPrescription, span, "this percentage has two `of` parts")
                    .and(first.span, "first here")
                    .help("keep one of the two"),
            ),
            None => of = Some(Spanned::new(what, span)),
        }
        None
    });
    LoadText::Percent(over, of.map_or(PercentOf::TrainingMax, |of| of.value))
}

pub fn option(build: &mut Build<'_>, pair: P<'_>) -> Option<Spanned<OptionText>> {
    let span = build.span(&pair);
    let inner = build.first(pair)?;
    let value = match inner.as_rule() {
        Rule::rest => OptionText::Rest(build.over(&inner, |b, part| Some(b.duration(part)))),
        Rule::tempo => OptionText::Tempo(tempo(inner)),
        Rule::effort => OptionText::Effort(build.effort(&inner)),
        Rule::range => OptionText::Range(build.first(inner)?.as_str().trim().to_owned()),
        Rule::drop => drop_sets(build, inner),
        Rule::rest_pause => OptionText::RestPause(build.first(inner).map(|d| build.duration(d))?),
        Rule::every => OptionText::Every(build.first(inner).map(|d| build.duration(d))?),
        Rule::no_warm_up => OptionText::NoWarmUp,
        Rule::as_written => OptionText::AsWritten,
        Rule::with_phase => OptionText::WithPhase,
        _ => return None,
    };
    Some(Spanned::new(value, span))
}

fn tempo(pair: P<'_>) -> Tempo {
    let mut parts = [TempoPart::Seconds(0); 4];
    for (slot, part) in parts.iter_mut().zip(pair.into_inner()) {
        // The grammar allows one or two digits, which always fit.
        *slot = part.as_str().parse().map_or(TempoPart::Explosive, TempoPart::Seconds);
    }
    Tempo(parts)
}

fn drop_sets(build: &mut Build<'_>, pair: P<'_>) -> OptionText {
    let (mut percent, mut count, mut each) = (Decimal::whole(0), 1, false);
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::percent => {
                let value = build.percent(part.clone());
                if value.digits() >= 100 * 10_i64.pow(value.places()) {
                    let span = build.span(&part);
                    build.problems.push(Diagnostic::new(
                        Code::NumberOutOfRange,
                        span,
                        format!("a drop of {value}% leaves no load"),
                    ));
                }
                percent = -value;
            }
            Rule::whole => count = build.whole(&part, 1, bounds::DROPS, "drops"),
            Rule::each_set => each = true,
            _ => {}
        }
    }
    OptionText::Drop(percent, count, each)
}
