//! Steps, counts, efforts, weeks.

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{RepCount, Unit};
use crate::source::Spanned;
use crate::syntax::ast::{EffortText, Per, StepText, StepUnit, WeekSpan};
use crate::syntax::build::{Build, P, clock_seconds, is_negative, signed};
use crate::syntax::grammar::Rule;

impl Build<'_> {
    /// `+2.5%/week`.
    pub fn step(&mut self, pair: P<'_>) -> Spanned<StepText> {
        let span = self.span(&pair);
        let negative = is_negative(&pair);
        let mut step = StepText {
            by: crate::quantity::Decimal::whole(0),
            unit: StepUnit::Points,
            per: Per::Week,
        };
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::number => step.by = signed(self.decimal(&part), negative),
                Rule::step_unit => step.unit = step_unit(&part),
                Rule::per_session => step.per = Per::Session,
                _ => {}
            }
        }
        Spanned::new(step, span)
    }

    /// `5`, `8-12`, `5+`.
    pub fn count(&mut self, pair: P<'_>, most: u32, what: &str) -> RepCount {
        let mut numbers = Vec::new();
        let mut open = false;
        for part in pair.clone().into_inner() {
            match part.as_rule() {
                Rule::open => open = true,
                _ => numbers.push(self.whole(&part, 1, most, what)),
            }
        }
        let min = numbers.first().copied().unwrap_or(1);
        let max = numbers.get(1).copied().unwrap_or(min);
        if max < min {
            let span = self.span(&pair);
            self.problems.push(
                Diagnostic::new(
                    Code::NumberOutOfRange,
                    span,
                    format!("the range {min}-{max} is backwards"),
                )
                .help("write the smaller number first")
                .guess(span, format!("{max}-{min}")),
            );
        }
        RepCount { min: min.min(max), max: (!open).then_some(max.max(min)) }
    }

    /// `30 s`, `20-30 s`, `1 min`, `1:30`: in seconds.
    pub fn time_count(&mut self, pair: P<'_>) -> RepCount {
        let most = crate::quantity::Duration::MOST_SECONDS;
        let mut count = RepCount::exactly(1);
        let mut factor = 1;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::count => count = self.count(part, most, "seconds"),
                Rule::clock => {
                    let seconds = clock_seconds(part.as_str()).and_then(|s| u32::try_from(s).ok());
                    count = RepCount::exactly(
                        seconds
                            .filter(|s| *s > 0)
                            .unwrap_or_else(|| self.whole(&part, 1, most, "seconds")),
                    );
                }
                Rule::minutes_unit => factor = 60,
                _ => {}
            }
        }
        RepCount {
            min: count.min.saturating_mul(factor).min(most),
            max: count.max.map(|max| max.saturating_mul(factor).min(most)),
        }
    }

    /// `40 m`.
    pub fn metre_count(&mut self, pair: P<'_>) -> RepCount {
        let count = self.first(pair);
        count.map_or(RepCount::exactly(1), |c| self.count(c, bounds::METRES, "metres"))
    }

    /// `RPE 7 -> 8`, `RIR 2`.
    pub fn effort(&mut self, pair: &P<'_>) -> EffortText {
        let is_rpe = self.first(pair.clone()).is_some_and(|scale| scale.as_str() == "RPE");
        let points = self.over(pair, |build, part| {
            if part.as_rule() == Rule::number {
                return Some(build.half_points(&part, is_rpe));
            }
            if (part.as_str() == "RPE") != is_rpe {
                let span = build.span(&part);
                build.problems.push(
                    Diagnostic::new(Code::BadPrescription, span, "a series cannot mix RPE and RIR")
                        .help("write all values in RPE, or all in RIR"),
                );
            }
            None
        });
        EffortText { is_rpe, points }
    }

    /// `week 4`, `weeks 5-7`.
    /// Reports numbers out of range and returns `None` for them.
    pub fn week_span(&mut self, pair: P<'_>) -> Option<Spanned<WeekSpan>> {
        let before = self.problems.len();
        let span = self.span(&pair);
        let mut weeks = Vec::new();
        for part in pair.into_inner() {
            weeks.push(self.whole(&part, 1, bounds::WEEKS, "weeks"));
        }
        let first = weeks.first().copied().unwrap_or(1);
        let last = weeks.get(1).copied().unwrap_or(first);
        if last < first {
            self.problems.push(
                Diagnostic::new(
                    Code::NumberOutOfRange,
                    span,
                    format!("weeks {first}-{last} are backwards"),
                )
                .help("write the earlier week first"),
            );
        }
        let weeks = WeekSpan { first: first.min(last), last: last.max(first) };
        (self.problems.len() == before).then_some(Spanned::new(weeks, span))
    }
}

fn step_unit(pair: &P<'_>) -> StepUnit {
    match pair.clone().into_inner().next().map(|unit| unit.as_rule()) {
        Some(Rule::kg) => StepUnit::Mass(Unit::Kg),
        Some(Rule::lb) => StepUnit::Mass(Unit::Lb),
        Some(Rule::seconds_unit) => StepUnit::Seconds,
        Some(Rule::metres_unit) => StepUnit::Metres,
        _ if pair.as_str().starts_with('%') => StepUnit::Percent,
        _ if pair.as_str().starts_with("set") => StepUnit::Sets,
        _ => StepUnit::Reps,
    }
}
