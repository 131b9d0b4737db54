//! Short texts for numbers, loads and lists, as the notation writes them.

use jiff::civil::Date;

use super::Sides;
use crate::plan::{Implement, PlannedSet};
use crate::quantity::{Exact, Mass, Unit};

/// Numbers as ranges: `3`, `1-3, 5-7`.
pub fn runs(numbers: &[u32]) -> String {
    let mut sorted = numbers.to_vec();
    sorted.sort_unstable();
    sorted.dedup();
    let run = |run: &[u32]| match run {
        [first, .., last] => format!("{first}-{last}"),
        _ => run.iter().map(ToString::to_string).collect(),
    };
    sorted.chunk_by(|a, b| a + 1 == *b).map(run).collect::<Vec<_>>().join(", ")
}

/// Weeks as ranges: `week 3`, `weeks 1-3, 5-7`.
pub fn weeks(weeks: &[u32]) -> String {
    let word = if weeks.len() == 1 { "week" } else { "weeks" };
    format!("{word} {}", runs(weeks))
}

/// Weeks of two plans: `weeks 1-2`, or with both numbers if they differ, `weeks 4-8 (now 3-7)`.
pub fn paired_weeks(weeks: &[&Sides<u32>]) -> String {
    let both: Vec<(u32, u32)> =
        weeks.iter().filter_map(|week| week.both()).map(|(a, b)| (*a, *b)).collect();
    let shift = |(before, after): &(u32, u32)| i64::from(*after) - i64::from(*before);
    let told = both.chunk_by(|a, b| shift(a) == shift(b)).map(|run| {
        let before = runs(&run.iter().map(|(before, _)| *before).collect::<Vec<_>>());
        let after = runs(&run.iter().map(|(_, after)| *after).collect::<Vec<_>>());
        if before == after { before } else { format!("{before} (now {after})") }
    });
    let told: Vec<String> = told.collect();
    let told: Vec<&str> = told.iter().map(String::as_str).collect();
    format!("{} {}", if both.len() == 1 { "week" } else { "weeks" }, list(&told))
}

/// A list: `Catch`, `Catch and Drive`, `Catch, Drive and Finish`.
pub fn list(items: &[&str]) -> String {
    match items {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// The weekday of a date: `Mon` to `Sun`.
pub fn weekday(date: Date) -> String {
    date.strftime("%a").to_string()
}

/// A count: `1 set`, `3 sets`.
pub fn count(n: usize, noun: &str) -> String {
    if n == 1 { format!("1 {noun}") } else { format!("{n} {noun}s") }
}

/// The values without consecutive duplicates.
pub fn distinct<T: PartialEq>(values: impl Iterator<Item = T>) -> Vec<T> {
    let mut out: Vec<T> = values.collect();
    out.dedup();
    out
}

/// Texts joined without consecutive duplicates.
pub fn joined(texts: impl Iterator<Item = String>) -> String {
    distinct(texts).join(", ")
}

/// Values as counted runs: `4 x 6`, `1 x 3, 1 x 3+`.
pub fn counted<T: PartialEq + ToString>(values: &[T]) -> String {
    let run = |run: &[T]| {
        let what = run.first().map(ToString::to_string).unwrap_or_default();
        format!("{} x {what}", run.len())
    };
    values.chunk_by(|a, b| a == b).map(run).collect::<Vec<_>>().join(", ")
}

/// A set's load: `60 kg`, `2 x 16 kg`, `bodyweight +10 kg`, `about 60 kg`, `left open`.
pub fn load(set: &PlannedSet, unit: Unit) -> String {
    let about = if set.about { "about " } else { "" };
    let Some(built) = &set.load else {
        return if set.lifts_body() { "bodyweight" } else { "left open" }.to_owned();
    };
    let mass = built.mass.show(unit);
    let load = match &built.how {
        _ if set.lifts_body() && built.mass == Mass::ZERO => "bodyweight".to_owned(),
        _ if set.lifts_body() => {
            let sign = if built.mass.is_negative() { "" } else { "+" };
            format!("bodyweight {sign}{mass}")
        }
        Implement::Dumbbells | Implement::Kettlebells => format!("2 x {mass}"),
        Implement::Band { name } => format!("band {name}"),
        _ => mass,
    };
    format!("{about}{load}")
}

/// Kilograms with grouped thousands.
pub fn kilograms(mass: &Exact) -> String {
    let whole = (mass / &Exact::from_mass(Mass::from_kg(1))).round_half_up();
    let digits: Vec<char> = whole.unsigned_abs().to_string().chars().collect();
    let groups: Vec<String> = digits.rchunks(3).rev().map(|three| three.iter().collect()).collect();
    format!("{}{}", if whole < 0 { "-" } else { "" }, groups.join(","))
}

/// The relative difference between two masses: `+4.8 %`.
pub fn growth(before: &Exact, after: &Exact) -> Option<String> {
    let share = (after - before).checked_div(before)?;
    Some(signed(&(&share * &Exact::whole(100)).to_decimal(1).to_string(), "%"))
}

/// A number with sign and unit: `+2.5 kg`, `-5 kg`.
pub fn signed(number: &str, unit: &str) -> String {
    let sign = if number.starts_with('-') || number == "0" { "" } else { "+" };
    format!("{sign}{number} {unit}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_lists_run_together() {
        assert_eq!(weeks(&[3]), "week 3");
        assert_eq!(weeks(&[5, 1, 2, 3, 7, 6]), "weeks 1-3, 5-7");
        assert_eq!(list(&["Catch", "Drive", "Finish"]), "Catch, Drive and Finish");
        assert_eq!(counted(&[5, 5, 3]), "2 x 5, 1 x 3");
        assert_eq!(kilograms(&Exact::from_mass(Mass::from_kg(18_135))), "18,135");
        assert_eq!(kilograms(&Exact::from_mass(Mass::from_kg(-135))), "-135");
    }

    #[test]
    fn growth_is_a_percentage_of_what_was() {
        let growth = |a, b| growth(&Exact::whole(a), &Exact::whole(b));
        assert_eq!(growth(200, 210).as_deref(), Some("+5 %"));
        assert_eq!(growth(200, 150).as_deref(), Some("-25 %"));
        assert_eq!(growth(0, 150), None);
    }
}
