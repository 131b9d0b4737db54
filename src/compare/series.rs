//! The text of a change over several weeks, with what changes every week written once.

use jiff::civil::{Date, Weekday};

use crate::quantity::{Decimal, Exact, Unit};

use super::{FactNumbers, FactValue, Field, Sides, words};

/// The unit of a difference between percentages.
const POINTS: &str = "points";

/// A place in one week.
pub type WeekEntry<'c> = (u32, &'c Sides<FactValue>);

/// The text for several weeks together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SeriesText {
    /// The text of the change.
    pub text: String,
    /// One week's numbers, as an example.
    pub example: Option<String>,
    /// The least and the greatest difference of a number, in its unit.
    pub span: Option<(Exact, Exact)>,
}

impl SeriesText {
    fn plain(text: String) -> Self {
        Self { text, example: None, span: None }
    }
}

/// Whether weeks are merged even if their texts differ.
pub fn runs_on(what: Field, sides: &Sides<FactValue>) -> bool {
    match what {
        Field::Load | Field::Percent | Field::Date => sides.both().is_some(),
        Field::Exercise => true,
        _ => false,
    }
}

/// Why weeks are merged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Alike {
    /// Every number stays the same or increases.
    More,
    /// Every number stays the same or decreases.
    Less,
    /// Some numbers increase and some decrease.
    Both,
    /// The text is the same.
    Words(String),
    /// The date moves by this many days.
    Days(i32),
    /// The date moves from one weekday to another.
    Weekday(Weekday, Weekday),
    /// They have only the place in common.
    Place,
}

/// Maximum number of different texts that are listed separately.
const MOST_WORDS: usize = 2;

/// Divides the weeks of one athlete into groups that can be merged.
pub fn parts<'c>(
    what: Field,
    entries: &[WeekEntry<'c>],
    unit: Unit,
) -> Vec<(Alike, Vec<WeekEntry<'c>>)> {
    let words = words::distinct(entries.iter().map(|(_, sides)| arrow(sides)));
    let few = entries.iter().all(|(_, sides)| {
        let text = arrow(sides);
        words.iter().take(MOST_WORDS).any(|word| *word == text)
    });
    let alike = |(_, sides): &WeekEntry<'_>| match what {
        Field::Load => way(steps(sides, |value| kilograms(value, unit))),
        Field::Percent => way(steps(sides, percent)),
        Field::Date => shift(sides),
        Field::Exercise if few => Alike::Words(arrow(sides)),
        _ => Alike::Place,
    };
    let mut parts: Vec<(Alike, Vec<WeekEntry<'c>>)> = Vec::new();
    for entry in entries {
        let alike = alike(entry);
        match parts.iter_mut().find(|(other, _)| *other == alike) {
            Some((_, all)) => all.push(*entry),
            None => parts.push((alike, vec![*entry])),
        }
    }
    parts
}

/// The direction in which numbers change.
fn way(steps: Option<Vec<Exact>>) -> Alike {
    let Some(steps) = steps else { return Alike::Place };
    let falls = steps.iter().any(Exact::is_negative);
    let grows = steps.iter().any(|by| !by.is_negative() && !by.is_zero());
    match (grows, falls) {
        (true, true) => Alike::Both,
        (false, true) => Alike::Less,
        _ => Alike::More,
    }
}

/// How a date moves: from weekday to weekday, otherwise by a number of days.
fn shift(sides: &Sides<FactValue>) -> Alike {
    let Some((before, after)) = both_dates(sides) else { return Alike::Place };
    let (was, is) = (before.weekday(), after.weekday());
    if was == is {
        days(before, after).map_or(Alike::Place, Alike::Days)
    } else {
        Alike::Weekday(was, is)
    }
}

/// The unit of differences for a kind of fact.
pub fn symbol(what: Field, unit: Unit) -> &'static str {
    if what == Field::Percent { POINTS } else { unit.symbol() }
}

/// The text for some weeks, in their order.
pub fn tell(what: Field, entries: &[WeekEntry<'_>], unit: Unit) -> SeriesText {
    match what {
        Field::Load => by_numbers(entries, symbol(what, unit), |value| kilograms(value, unit)),
        Field::Percent => by_numbers(entries, symbol(what, unit), percent),
        Field::Date => dates(entries),
        _ => SeriesText::plain(ends(entries)),
    }
}

fn kilograms(value: &FactValue, unit: Unit) -> Option<Vec<Exact>> {
    let scale = Exact::whole(unit.in_units());
    match value.numbers.as_ref()? {
        FactNumbers::Kg(all) => {
            Some(all.iter().map(|mass| &Exact::from_mass(*mass) / &scale).collect())
        }
        _ => None,
    }
}

fn percent(value: &FactValue) -> Option<Vec<Exact>> {
    match value.numbers.as_ref()? {
        FactNumbers::Percent(all) => {
            Some(all.iter().map(|percent| Exact::from(*percent)).collect())
        }
        _ => None,
    }
}

/// `before → after`, or the only value.
pub fn arrow(sides: &Sides<FactValue>) -> String {
    let text = |value: &FactValue| value.text.clone();
    match (&sides.before, &sides.after) {
        (Some(before), Some(after)) if before.text == after.text => text(after),
        (Some(before), Some(after)) => format!("{} → {}", before.text, after.text),
        (None, Some(only)) | (Some(only), None) => text(only),
        (None, None) => String::new(),
    }
}

/// The differences of all numbers at a place; `None` if they are not of the same kind.
fn steps(
    sides: &Sides<FactValue>,
    numbers: impl Fn(&FactValue) -> Option<Vec<Exact>>,
) -> Option<Vec<Exact>> {
    let (was, is) = sides.both()?;
    let (before, after) = (numbers(was)?, numbers(is)?);
    // A percentage of one lift and a percentage of another cannot be subtracted.
    let rest = |value: &str| value.chars().filter(|c| c.is_alphabetic()).collect::<String>();
    let same = before.len() == after.len() && rest(&was.text) == rest(&is.text);
    same.then(|| before.iter().zip(&after).map(|(a, b)| b - a).collect())
}

/// A change in numbers as a difference, if every week and set has one.
fn by_numbers(
    entries: &[WeekEntry<'_>],
    unit: &str,
    numbers: impl Fn(&FactValue) -> Option<Vec<Exact>>,
) -> SeriesText {
    let all: Option<Vec<Vec<Exact>>> =
        entries.iter().map(|(_, sides)| steps(sides, &numbers)).collect();
    let all: Vec<Exact> = all.unwrap_or_default().into_iter().flatten().collect();
    let one_text = entries.windows(2).all(|pair| match pair {
        [(_, a), (_, b)] => a == b,
        _ => true,
    });
    let (Some(least), Some(most)) = (all.iter().min(), all.iter().max()) else {
        return SeriesText::plain(ends(entries));
    };
    let first = entries.first().map(|(_, sides)| arrow(sides)).unwrap_or_default();
    if one_text && unit == POINTS {
        return SeriesText::plain(first);
    }
    let week = entries.first().map_or(0, |(week, _)| *week);
    let example = if one_text { first } else { format!("{first} in week {week}") };
    let span = (least.clone(), most.clone());
    SeriesText { text: spanned(&span, unit), example: Some(example), span: Some(span) }
}

/// A range of differences: `+2.5 kg`, `+2.5 to +5 kg`.
pub fn spanned((least, most): &(Exact, Exact), unit: &str) -> String {
    let number = |number: &Exact| -> Decimal { number.to_decimal(2) };
    let (least, most) = (number(least), number(most));
    let most_told = words::signed(&most.to_string(), unit);
    if least == most {
        return most_told;
    }
    let least_told = words::signed(&least.to_string(), "");
    format!("{} to {most_told}", least_told.trim_end())
}

/// The number of days that dates move, if it is the same each week; otherwise the two weekdays.
fn dates(entries: &[WeekEntry<'_>]) -> SeriesText {
    let all: Option<Vec<(Date, Date)>> =
        entries.iter().map(|(_, sides)| both_dates(sides)).collect();
    let all = all.unwrap_or_default();
    let example = || {
        entries.first().map(|(week, sides)| match entries.len() {
            1 => arrow(sides),
            _ => format!("{} in week {week}", arrow(sides)),
        })
    };
    let shifts = words::distinct(all.iter().filter_map(|(before, after)| days(*before, *after)));
    if let [days] = shifts.as_slice() {
        let way = if *days < 0 { "earlier" } else { "later" };
        let count = words::count(days.unsigned_abs() as usize, "day");
        return SeriesText { text: format!("{count} {way}"), example: example(), span: None };
    }
    let weekdays = words::distinct(all.iter().map(|(was, is)| (was.weekday(), is.weekday())));
    if let ([(was, is)], Some((before, after))) = (weekdays.as_slice(), all.first())
        && was != is
    {
        let text = format!("{} → {}", words::weekday(*before), words::weekday(*after));
        return SeriesText { text, example: example(), span: None };
    }
    SeriesText::plain(ends(entries))
}

/// The dates of both sides.
fn both_dates(sides: &Sides<FactValue>) -> Option<(Date, Date)> {
    match sides.both()? {
        (
            FactValue { numbers: Some(FactNumbers::Date(before)), .. },
            FactValue { numbers: Some(FactNumbers::Date(after)), .. },
        ) => Some((*before, *after)),
        _ => None,
    }
}

fn days(before: Date, after: Date) -> Option<i32> {
    before.until(after).ok().map(|span| span.get_days())
}

/// The text of one week. If weeks differ, the text of the first, and of the last if that is
/// different.
fn ends(entries: &[WeekEntry<'_>]) -> String {
    let (Some((from, first)), Some((to, last))) = (entries.first(), entries.last()) else {
        return String::new();
    };
    let is_one = entries.iter().all(|(_, sides)| arrow(sides) == arrow(first));
    let (first, last) = (arrow(first), arrow(last));
    match first == last {
        true if is_one => first,
        true => format!("{first} in week {from}"),
        false => format!("{first} in week {from} … {last} in week {to}"),
    }
}
