//! The same place over weeks: what changes each week, said once.

use crate::quantity::{Decimal, Exact, Unit};

use super::{Numbers, Sides, Value, What, words};

/// The unit of a difference between percentages.
const POINTS: &str = "points";

/// A place in one week.
pub type Entry<'c> = (u32, &'c Sides<Value>);

/// What is said of all weeks together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The change.
    pub text: String,
    /// One week's numbers, to make it concrete.
    pub example: Option<String>,
    /// The least and the most that a number changes by, in its unit.
    pub span: Option<(Exact, Exact)>,
}

impl Said {
    fn plain(text: String) -> Self {
        Self { text, example: None, span: None }
    }
}

/// Whether weeks of it are told together even where their words differ.
pub fn runs_on(what: What, sides: &Sides<Value>) -> bool {
    match what {
        What::Load | What::Percent | What::Date => sides.both().is_some(),
        What::Exercise => true,
        _ => false,
    }
}

/// What is said of some weeks, in their order.
pub fn tell(what: What, entries: &[Entry<'_>], unit: Unit) -> Said {
    match what {
        What::Load => by_numbers(entries, unit.symbol(), |value| kilograms(value, unit)),
        What::Percent => by_numbers(entries, POINTS, percent),
        What::Date => dates(entries),
        _ => Said::plain(ends(entries)),
    }
}

fn kilograms(value: &Value, unit: Unit) -> Option<Vec<Exact>> {
    let scale = Exact::whole(unit.in_units());
    match value.numbers.as_ref()? {
        Numbers::Kg(all) => {
            Some(all.iter().map(|mass| &Exact::from_mass(*mass) / &scale).collect())
        }
        _ => None,
    }
}

fn percent(value: &Value) -> Option<Vec<Exact>> {
    match value.numbers.as_ref()? {
        Numbers::Percent(all) => Some(all.iter().map(|percent| Exact::from(*percent)).collect()),
        _ => None,
    }
}

/// `before → after`, or what there is.
pub fn arrow(sides: &Sides<Value>) -> String {
    let text = |value: &Value| value.text.clone();
    match (&sides.before, &sides.after) {
        (Some(before), Some(after)) if before.text == after.text => text(after),
        (Some(before), Some(after)) => format!("{} → {}", before.text, after.text),
        (None, Some(only)) | (Some(only), None) => text(only),
        (None, None) => String::new(),
    }
}

/// The change in numbers: by how much, where every week and every set says by how much.
fn by_numbers(
    entries: &[Entry<'_>],
    unit: &str,
    numbers: impl Fn(&Value) -> Option<Vec<Exact>>,
) -> Said {
    let by = |(_, sides): &Entry<'_>| -> Option<Vec<Exact>> {
        let (before, after) = sides.both()?;
        let (before, after) = (numbers(before)?, numbers(after)?);
        // What is a percentage of another lift now is no more or less of the same.
        let rest = |value: &str| value.chars().filter(|c| c.is_alphabetic()).collect::<String>();
        let (was, is) = sides.both()?;
        let same = before.len() == after.len() && rest(&was.text) == rest(&is.text);
        same.then(|| before.iter().zip(&after).map(|(a, b)| b - a).collect())
    };
    let all: Option<Vec<Vec<Exact>>> = entries.iter().map(by).collect();
    let all: Vec<Exact> = all.unwrap_or_default().into_iter().flatten().collect();
    let one_text = entries.windows(2).all(|pair| match pair {
        [(_, a), (_, b)] => a == b,
        _ => true,
    });
    let (Some(least), Some(most)) = (all.iter().min(), all.iter().max()) else {
        return Said::plain(ends(entries));
    };
    let first = entries.first().map(|(_, sides)| arrow(sides)).unwrap_or_default();
    if one_text && unit == POINTS {
        return Said::plain(first);
    }
    let week = entries.first().map_or(0, |(week, _)| *week);
    let example = if one_text { first } else { format!("{first} in week {week}") };
    let span = (least.clone(), most.clone());
    Said { text: spanned(&span, unit), example: Some(example), span: Some(span) }
}

/// `+2.5 kg`, `+2.5 to +5 kg`.
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

/// By how many days, where that is the same each week.
fn dates(entries: &[Entry<'_>]) -> Said {
    let by = |(_, sides): &Entry<'_>| -> Option<i32> {
        let (before, after) = sides.both()?;
        match (before.numbers.as_ref()?, after.numbers.as_ref()?) {
            (Numbers::Date(before), Numbers::Date(after)) => {
                before.until(*after).ok().map(|span| span.get_days())
            }
            _ => None,
        }
    };
    let all: Option<Vec<i32>> = entries.iter().map(by).collect();
    let all = words::distinct(all.unwrap_or_default().into_iter());
    let [days] = all.as_slice() else { return Said::plain(ends(entries)) };
    let way = if *days < 0 { "earlier" } else { "later" };
    let count = words::count(days.unsigned_abs() as usize, "day");
    let mut said = Said::plain(format!("{count} {way}"));
    said.example = entries.first().map(|(week, sides)| match entries.len() {
        1 => arrow(sides),
        _ => format!("{} in week {week}", arrow(sides)),
    });
    said
}

/// The first week, and the last where that is another.
fn ends(entries: &[Entry<'_>]) -> String {
    let (Some((_, first)), Some((week, last))) = (entries.first(), entries.last()) else {
        return String::new();
    };
    let (first, last) = (arrow(first), arrow(last));
    if first == last { first } else { format!("{first} … {last} in week {week}") }
}
