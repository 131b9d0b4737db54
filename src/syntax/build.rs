//! Builds the tree from pest's pairs: spans, numbers and their bounds.

use jiff::civil::Date;
use pest::iterators::Pair;
use smallvec::SmallVec;

use super::ast::{MassText, Name, OverWeeks};
use super::grammar::Rule;
use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Duration, HalfPoints, Mass, Unit};
use crate::source::{FileId, Span, Spanned};

pub type P<'i> = Pair<'i, Rule>;

/// Builds the parts of one line and collects problems with its numbers. A number out of bounds is
/// reported and read as the nearest allowed number, so that the rest of the line still counts.
pub struct Build<'p> {
    file: FileId,
    /// Where the parsed text starts in the file.
    base: usize,
    /// The length of the first word as parsed and as written. A misspelled word is corrected before
    /// parsing.
    first_word: (usize, usize),
    pub problems: &'p mut Vec<Diagnostic>,
}

impl<'p> Build<'p> {
    pub fn new(file: FileId, base: usize, problems: &'p mut Vec<Diagnostic>) -> Self {
        Self { file, base, first_word: (0, 0), problems }
    }

    /// For a text whose first word was `written` differently from what is `parsed`.
    pub fn fixed(mut self, written: &str, parsed: &str) -> Self {
        self.first_word = (parsed.len(), written.len());
        self
    }

    /// The position in the file of a byte of the parsed text. A byte of the first word stays in that word.
    fn place(&self, byte: usize) -> usize {
        let (parsed, written) = self.first_word;
        self.base + byte.checked_sub(parsed).map_or(byte.min(written), |after| written + after)
    }

    pub fn span(&self, pair: &P<'_>) -> Span {
        let span = pair.as_span();
        Span::new(self.file, self.place(span.start()), self.place(span.end()))
    }

    pub fn spanned<T>(&self, pair: &P<'_>, value: T) -> Spanned<T> {
        Spanned::new(value, self.span(pair))
    }

    /// A name, trimmed, with the span of the trimmed text.
    pub fn name(&self, pair: &P<'_>) -> Name {
        let text = pair.as_str();
        let lead = text.len() - text.trim_start().len();
        let start = self.place(pair.as_span().start() + lead);
        let text = text.trim();
        Spanned::new(text.to_owned(), Span::new(self.file, start, start + text.len()))
    }

    fn out_of_range(&mut self, pair: &P<'_>, message: String) {
        let span = self.span(pair);
        self.problems.push(Diagnostic::new(Code::NumberOutOfRange, span, message));
    }

    /// A whole number between two bounds.
    pub fn whole(&mut self, pair: &P<'_>, least: u32, most: u32, what: &str) -> u32 {
        match pair.as_str().parse::<u32>() {
            Ok(n) if (least..=most).contains(&n) => n,
            other => {
                let range = format!("{what} must be from {least} to {most}");
                self.out_of_range(pair, format!("{} is out of range: {range}", cut(pair.as_str())));
                if other.is_ok_and(|n| n < least) { least } else { most }
            }
        }
    }

    /// A decimal number.
    pub fn decimal(&mut self, pair: &P<'_>) -> Decimal {
        Decimal::parse(pair.as_str()).unwrap_or_else(|| {
            let text = cut(pair.as_str());
            self.out_of_range(pair, format!("{text} has too many digits"));
            Decimal::whole(1)
        })
    }

    /// `75%`: the number before the percent sign.
    pub fn percent(&mut self, pair: P<'_>) -> Decimal {
        let value = self.first(pair.clone()).map_or(Decimal::whole(1), |n| self.decimal(&n));
        let thousandths = 10_i64.pow(value.places());
        if value.digits() > bounds::PERCENT * thousandths {
            let most = bounds::PERCENT;
            self.out_of_range(&pair, format!("{value}% is out of range: the most is {most}%"));
            return Decimal::whole(most);
        }
        value
    }

    /// A number in a unit.
    pub fn mass_of(&mut self, pair: &P<'_>, value: Decimal, unit: Unit) -> MassText {
        if value.places() > 3 {
            self.out_of_range(pair, format!("{value} {unit} has more than three decimals"));
            return MassText { value: Decimal::whole(1), unit };
        }
        if Mass::from_decimal(value, unit).is_none() {
            let most = Mass::MOST.show(unit);
            self.out_of_range(pair, format!("{value} {unit} is out of range: the most is {most}"));
            return MassText { value: Decimal::whole(1), unit };
        }
        MassText { value, unit }
    }

    /// `62.5 kg`.
    pub fn mass(&mut self, pair: P<'_>) -> MassText {
        let (mut value, mut unit) = (Decimal::whole(1), Unit::Kg);
        for part in pair.clone().into_inner() {
            match part.as_rule() {
                Rule::number => value = self.decimal(&part),
                Rule::lb => unit = Unit::Lb,
                _ => {}
            }
        }
        self.mass_of(&pair, value, unit)
    }

    /// `+2.5 kg`, `-15 kg`: the number carries the sign.
    pub fn signed_mass(&mut self, pair: P<'_>) -> MassText {
        let negative = is_negative(&pair);
        let mass = pair.into_inner().find(|p| p.as_rule() == Rule::mass);
        let mass =
            mass.map_or(MassText { value: Decimal::whole(1), unit: Unit::Kg }, |m| self.mass(m));
        MassText { value: signed(mass.value, negative), ..mass }
    }

    /// `-40%`: the number carries the sign.
    pub fn signed_percent(&mut self, pair: P<'_>) -> Decimal {
        let negative = is_negative(&pair);
        let percent = pair.into_inner().find(|p| p.as_rule() == Rule::percent);
        signed(percent.map_or(Decimal::whole(1), |p| self.percent(p)), negative)
    }

    /// `90 s`, `3 min`, `3:00`.
    pub fn duration(&mut self, pair: P<'_>) -> Duration {
        let mut seconds: Option<i64> = None;
        let mut value = Decimal::whole(1);
        for part in pair.clone().into_inner() {
            match part.as_rule() {
                Rule::clock => seconds = clock_seconds(part.as_str()),
                Rule::number => value = self.decimal(&part),
                Rule::minutes_unit => seconds = whole_product(value, 60),
                Rule::seconds_unit => seconds = whole_product(value, 1),
                _ => {}
            }
        }
        let most = i64::from(Duration::MOST_SECONDS);
        if let Some(seconds) =
            seconds.filter(|s| (0..=most).contains(s)).and_then(|s| u32::try_from(s).ok())
        {
            Duration::seconds(seconds)
        } else {
            let text = cut(pair.as_str());
            self.out_of_range(
                &pair,
                format!("{text} is not a valid time: write whole seconds, up to a day"),
            );
            Duration::seconds(60)
        }
    }

    /// `2026-01-05`.
    pub fn date(&mut self, pair: &P<'_>) -> Date {
        let mut parts = pair.as_str().splitn(3, '-');
        let mut next = || parts.next().unwrap_or("");
        let (year, month, day) = (next().parse(), next().parse(), next().parse());
        let date = match (year, month, day) {
            (Ok(year), Ok(month), Ok(day)) => Date::new(year, month, day).ok(),
            _ => None,
        };
        date.filter(|date| (1900..=2200).contains(&date.year())).unwrap_or_else(|| {
            let span = self.span(pair);
            self.problems.push(
                Diagnostic::new(
                    Code::BadDate,
                    span,
                    format!("{} is not a date of the calendar", pair.as_str()),
                )
                .help("write a date as year-month-day, such as `2026-01-05`"),
            );
            Date::constant(2000, 1, 1)
        })
    }

    /// Points on an effort scale, in halves.
    pub fn half_points(&mut self, pair: &P<'_>, is_rpe: bool) -> HalfPoints {
        let value = self.decimal(pair);
        let fits = |points: &HalfPoints| !is_rpe || (2..=20).contains(&points.0);
        HalfPoints::from_decimal(value).filter(fits).unwrap_or_else(|| {
            let scale = if is_rpe { "RPE goes from 1 to 10" } else { "RIR goes from 0 to 100" };
            self.out_of_range(pair, format!("{value} is out of range: {scale}, in steps of 0.5"));
            HalfPoints(16)
        })
    }

    #[allow(clippy::unused_self, reason = "reads like its siblings where it is called")]
    pub fn first<'i>(&self, pair: P<'i>) -> Option<P<'i>> {
        pair.into_inner().next()
    }

    /// Builds a number that changes over the weeks: values read with `read`, then an optional step.
    pub fn over<'i, T>(
        &mut self,
        pair: &P<'i>,
        mut read: impl FnMut(&mut Self, P<'i>) -> Option<T>,
    ) -> OverWeeks<Spanned<T>> {
        let mut values = SmallVec::new();
        let mut step = None;
        for part in pair.clone().into_inner() {
            if part.as_rule() == Rule::step {
                step = Some(self.step(part));
            } else {
                let span = self.span(&part);
                if let Some(value) = read(self, part) {
                    values.push(Spanned::new(value, span));
                }
            }
        }
        if let (Some(step), true) = (&step, values.len() > 1) {
            self.problems.push(
                Diagnostic::new(Code::StepUnit, step.span, "a series cannot have a step")
                    .help("write either a value for every week, or one value and a step"),
            );
        }
        OverWeeks { values, step, span: self.span(pair) }
    }
}

pub fn is_negative(pair: &P<'_>) -> bool {
    pair.clone().into_inner().next().is_some_and(|sign| sign.as_rule() == Rule::minus)
}

pub fn signed(value: Decimal, negative: bool) -> Decimal {
    if negative { -value } else { value }
}

/// A word, shortened if it is too long for a message.
pub fn cut(text: &str) -> String {
    if text.chars().count() <= 40 {
        return text.to_owned();
    }
    text.chars().take(37).chain("...".chars()).collect()
}

fn whole_product(value: Decimal, factor: i64) -> Option<i64> {
    let scale = 10_i64.pow(value.places());
    let product = value.digits().checked_mul(factor)?;
    (product % scale == 0).then_some(product / scale)
}

pub fn clock_seconds(text: &str) -> Option<i64> {
    let (minutes, seconds) = text.split_once(':')?;
    let seconds: i64 = seconds.parse().ok()?;
    (seconds < 60).then_some(minutes.parse::<i64>().ok()? * 60 + seconds)
}
