//! Values of exercises, gyms, athletes and programmes.

use jiff::civil::Date;

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Unit};
use crate::source::Spanned;
use crate::syntax::ast::{
    Band, BarItem, CollarsOf, CountedIn, EquipmentItem, EquipmentKind, LimitText, MaxLift, MaxText,
    MuscleShare, Name, PlateSize, SignedMass, StockItem, Value,
};
use crate::syntax::build::{Build, P};
use crate::syntax::grammar::Rule;

pub fn value(build: &mut Build<'_>, rule: Rule, pair: P<'_>) -> Option<Value> {
    let parts = || pair.clone().into_inner().filter(|part| part.as_rule() != Rule::EOI);
    Some(match rule {
        Rule::name => Value::Remarked(build.name(&pair), None),
        Rule::names_value => Value::Names(parts().map(|part| build.name(&part)).collect()),
        Rule::avoid_value => Value::Avoid(
            parts()
                .filter_map(|part| {
                    let name = build.name(&build.first(part.clone())?);
                    Some((name, limit(build, &part)))
                })
                .collect(),
        ),
        Rule::counted_names_value => {
            Value::Counted(parts().filter_map(|part| counted_name(build, part)).collect())
        }
        Rule::remarked_name_value => {
            let name = build.name(&parts().next()?);
            let remark = parts().nth(1).and_then(|r| build.first(r));
            Value::Remarked(name, remark.map(|text| text.as_str().trim().to_owned()))
        }
        Rule::equipment_value => {
            Value::Equipment(parts().filter_map(|part| equipment(build, part)).collect())
        }
        Rule::sides_value => Value::Sides(parts().next()?.as_rule() == Rule::each),
        Rule::counted_in_value => Value::CountedIn(match parts().next()?.as_rule() {
            Rule::in_seconds => CountedIn::Seconds,
            Rule::in_metres => CountedIn::Metres,
            _ => CountedIn::Reps,
        }),
        Rule::kind_value => Value::Compound(parts().next()?.as_rule() == Rule::compound),
        Rule::muscles_value => {
            Value::Muscles(parts().filter_map(|part| muscle(build, part)).collect())
        }
        Rule::exercise_bar_value => {
            let part = parts().next()?;
            match part.as_rule() {
                Rule::mass => Value::BarMass(build.mass(part)),
                _ => Value::Remarked(build.name(&part), None),
            }
        }
        Rule::rounding_value => Value::RoundDown(parts().next()?.as_rule() == Rule::down),
        Rule::unit_value => Value::Unit(unit(parts().next()?.as_rule())),
        Rule::missed_value => Value::RepeatMissed(parts().next()?.as_rule() == Rule::repeat_it),
        Rule::count_value => {
            let part = parts().next()?;
            let count = build.whole(&part, 1, bounds::WEEKS, "weeks");
            Value::Count(build.spanned(&part, count))
        }
        Rule::date_value => Value::Date(build.date(&parts().next()?)),
        Rule::mass_value => Value::Mass(build.mass(parts().next()?)),
        Rule::percent_value => {
            let part = parts().next()?;
            let percent = build.percent(part.clone());
            Value::Percent(build.spanned(&part, percent))
        }
        Rule::duration_value => Value::Duration(build.duration(parts().next()?)),
        Rule::bars_value => Value::Bars(bars(build, parts())),
        Rule::stock_value => Value::Stock(stock(build, &pair)),
        Rule::plate_size_value => {
            let (across, thick) = (parts().next()?, parts().nth(1)?);
            Value::PlateSize(PlateSize {
                diameter_mm: build.whole(&across, 1, bounds::PLATE_MM, "diameters in mm"),
                thickness_mm: build.whole(&thick, 1, bounds::PLATE_MM, "thicknesses in mm"),
            })
        }
        Rule::collars_value => {
            let mass = build.mass(parts().next()?);
            let of = match parts().nth(1).map(|part| part.as_rule()) {
                Some(Rule::each) => CollarsOf::Each,
                Some(_) => CollarsOf::Pair,
                None => CollarsOf::Unsaid,
            };
            Value::Collars(mass, of)
        }
        Rule::bands_value => Value::Bands(parts().filter_map(|part| band(build, part)).collect()),
        Rule::max_value => {
            let part = parts().next()?;
            let span = build.span(&part);
            Value::Max(Spanned::new(max(build, part)?, span))
        }
        Rule::limit_value => Value::Limit(limit(build, &pair)),
        _ => return None,
    })
}

fn unit(rule: Rule) -> Unit {
    if rule == Rule::lb { Unit::Lb } else { Unit::Kg }
}

fn counted_name(build: &mut Build<'_>, pair: P<'_>) -> Option<(Name, Option<u32>)> {
    let mut parts = pair.into_inner();
    let name = build.name(&parts.next()?);
    let count = parts.next().map(|n| build.whole(&n, 1, bounds::PIECES, "pieces"));
    Some((name, count))
}

fn equipment(build: &mut Build<'_>, pair: P<'_>) -> Option<Spanned<EquipmentItem>> {
    let span = build.span(&pair);
    let mut parts = pair.into_inner();
    let kind = EquipmentKind::from_word(parts.next()?.as_str())?;
    let name = parts.next().map(|name| build.name(&name));
    Some(Spanned::new(EquipmentItem { kind, name }, span))
}

fn muscle(build: &mut Build<'_>, pair: P<'_>) -> Option<Spanned<MuscleShare>> {
    let span = build.span(&pair);
    let mut parts = pair.into_inner();
    let name = build.name(&parts.next()?);
    let share = parts.next().map_or((1, 1), |share| share_of(build, &share));
    Some(Spanned::new(MuscleShare { name, share }, span))
}

fn share_of(build: &mut Build<'_>, pair: &P<'_>) -> (u32, u32) {
    let parts: Vec<P<'_>> = pair.clone().into_inner().collect();
    let (top, bottom) = match parts.as_slice() {
        [a, b] => (build.whole(a, 1, 100, "parts"), build.whole(b, 1, 100, "parts")),
        [percent] if percent.as_rule() == Rule::percent => {
            fraction(build.percent(percent.clone()), 100)
        }
        [number] => fraction(build.decimal(number), 1),
        _ => (1, 1),
    };
    if top == 0 || top > bottom {
        let span = build.span(pair);
        build.problems.push(
            Diagnostic::new(Code::NumberOutOfRange, span, "a share must be above 0 and at most 1")
                .help("write a fraction, such as `1/2`, or leave it out for a full share"),
        );
        return (1, 1);
    }
    // A full share, such as 2/2, is written as the name alone.
    if top == bottom { (1, 1) } else { (top, bottom) }
}

fn fraction(value: Decimal, whole: i64) -> (u32, u32) {
    let exact = crate::quantity::Exact::from(value).to_decimal(3);
    let bottom = 10_i64.pow(exact.places()) * whole;
    let (mut a, mut b) = (exact.digits(), bottom);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    let divisor = a.max(1);
    let narrow = |n: i64| u32::try_from(n / divisor).unwrap_or(0);
    (narrow(exact.digits()), narrow(bottom))
}

/// The unit of each item: its own, or that of the next item that has one.
fn trailing_units(items: &[(Option<Unit>, P<'_>)], build: &mut Build<'_>) -> Vec<Unit> {
    let mut units = Vec::new();
    let mut next = None;
    for (unit, pair) in items.iter().rev() {
        next = unit.or(next);
        if next.is_none() {
            let span = build.span(pair);
            let (number, rest) = split_number(pair.as_str());
            build.problems.push(
                Diagnostic::new(
                    Code::MissingUnit,
                    span,
                    format!("`{}` has no unit", pair.as_str()),
                )
                .help(format!("write `{number} kg{rest}` or `{number} lb{rest}`")),
            );
        }
        units.push(next.unwrap_or(Unit::Kg));
    }
    units.reverse();
    units
}

/// Splits an item into its number and the count after it.
fn split_number(text: &str) -> (&str, String) {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (number, rest) = (text.get(..end).unwrap_or(text), text.get(end..).unwrap_or("").trim());
    let spaced = rest.strip_prefix(['x', '×', 'X']).map(|count| format!(" x {}", count.trim()));
    (number, spaced.unwrap_or_default())
}

fn item_unit(pair: &P<'_>) -> Option<Unit> {
    let units = |p: &P<'_>| matches!(p.as_rule(), Rule::kg | Rule::lb);
    let inner = pair.clone().into_inner();
    inner.into_iter().rfind(units).map(|p| unit(p.as_rule()))
}

fn bars<'i>(build: &mut Build<'_>, parts: impl Iterator<Item = P<'i>>) -> Vec<BarItem> {
    let items: Vec<(Option<Unit>, P<'i>)> = parts.map(|part| (item_unit(&part), part)).collect();
    let units = trailing_units(&items, build);
    let mut bars = Vec::new();
    for ((_, pair), unit) in items.into_iter().zip(units) {
        let span = build.span(&pair);
        let mut name = None;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::bar_name => name = Some(build.name(&part)),
                Rule::number => {
                    let value = build.decimal(&part);
                    let mass = build.mass_of(&part, value, unit);
                    above_zero(build, &part, mass);
                    let mass = Spanned::new(mass, span);
                    bars.push(BarItem { name: name.take(), mass });
                }
                _ => {}
            }
        }
    }
    bars
}

fn above_zero(build: &mut Build<'_>, pair: &P<'_>, mass: crate::syntax::ast::MassText) {
    if mass.value.digits() == 0 {
        let span = build.span(pair);
        let found = Diagnostic::new(Code::NumberOutOfRange, span, "this mass must be above zero");
        build.problems.push(found);
    }
}

fn stock(build: &mut Build<'_>, pair: &P<'_>) -> Vec<Spanned<StockItem>> {
    if let Some(found) = crate::syntax::recovery::comma_in_list(pair.as_str(), build.span(pair)) {
        build.problems.push(found);
    }
    let parts = pair.clone().into_inner().filter(|p| p.as_rule() == Rule::stock_item);
    let items: Vec<(Option<Unit>, P<'_>)> =
        parts.filter_map(|item| build.first(item)).map(|p| (item_unit(&p), p)).collect();
    let units = trailing_units(&items, build);
    let mut stock = Vec::new();
    for ((_, pair), unit) in items.into_iter().zip(units) {
        let span = build.span(&pair);
        let is_run = pair.as_rule() == Rule::stock_run;
        let mut numbers = Vec::new();
        let mut count = None;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::number => {
                    let value = build.decimal(&part);
                    let mass = build.mass_of(&part, value, unit);
                    above_zero(build, &part, mass);
                    numbers.push(mass.value);
                }
                Rule::stock_count => {
                    count = build.first(part).map(|n| build.whole(&n, 1, bounds::PIECES, "pieces"));
                }
                _ => {}
            }
        }
        let mut numbers = numbers.into_iter();
        let first = numbers.next().unwrap_or(Decimal::whole(1));
        let run = numbers.next().zip(numbers.next()).filter(|_| is_run);
        let item = StockItem { first, run, unit, count };
        let again = |other: &&Spanned<StockItem>| {
            other.value.run.is_none()
                && run.is_none()
                && other.value.first == first
                && other.value.unit == unit
        };
        if let Some(other) = stock.iter().find(again) {
            let other: &Spanned<StockItem> = other;
            build.problems.push(
                Diagnostic::new(Code::RepeatedKey, span, format!("{first} {unit} is listed twice"))
                    .label("again here")
                    .and(other.span, "first here")
                    .help("list each mass once, with its number of pieces: `10 kg x 4`"),
            );
        }
        stock.push(Spanned::new(item, span));
    }
    stock
}

fn band(build: &mut Build<'_>, pair: P<'_>) -> Option<Band> {
    let mut parts = pair.into_inner();
    let name = build.name(&parts.next()?);
    Some(Band { name, mass: parts.next().map(|mass| build.mass(mass)) })
}

fn max(build: &mut Build<'_>, pair: P<'_>) -> Option<MaxText> {
    if pair.as_rule() == Rule::max_share {
        let mut parts = pair.into_inner();
        let percent = build.percent(parts.next()?);
        return Some(MaxText::Share(percent, build.name(&parts.next()?)));
    }
    let mut reps = 1;
    let mut lift = None;
    let mut date: Option<Date> = None;
    for part in pair.into_inner() {
        match part.as_rule() {
            Rule::max_reps => {
                reps = build.whole(&part, 1, bounds::REPS, "repetitions of a tested set");
            }
            Rule::mass => {
                let mass = build.mass(part.clone());
                above_zero(build, &part, mass);
                lift = Some(MaxLift::Mass(mass));
            }
            Rule::bodyweight => {
                let by = build.first(part).map(|m| SignedMass { mass: build.signed_mass(m) });
                lift = Some(MaxLift::Bodyweight(by));
            }
            Rule::date => date = Some(build.date(&part)),
            _ => {}
        }
    }
    Some(MaxText::Lifted { reps, lift: lift?, date })
}

fn limit(build: &mut Build<'_>, pair: &P<'_>) -> LimitText {
    let mut text = LimitText { text: String::new(), who: None, until: None };
    for part in pair.clone().into_inner().flatten() {
        match part.as_rule() {
            Rule::limit_text | Rule::avoided_name => {
                part.as_str().trim().clone_into(&mut text.text);
            }
            Rule::limit_who => text.who = Some(part.as_str().trim().to_owned()),
            Rule::date => text.until = Some(build.date(&part)),
            _ => {}
        }
    }
    text
}
