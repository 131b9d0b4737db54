//! What a gym has to load with.

use super::{doubt, times};
use crate::diagnostics::{Code, Diagnostic, Edit};
use crate::quantity::{Decimal, Exact, Mass};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{CollarsOf, Item, LineKey, MassText, Node, StockItem, Value};
use crate::syntax::keys::Key;

/// The heaviest plate that is not doubted; the heaviest in common use are of 50 kg and 100 lb.
const PLATE: Mass = Mass::from_kg(50);
/// The heaviest bar that is not doubted: some trap bars weigh 30 kg, loadable frames 50.
const BAR: Mass = Mass::from_kg(60);
/// The heaviest dumbbell or kettlebell that is not doubted.
const BELL: Mass = Mass::from_kg(120);
/// Plates there usually are, in hundredths of their unit: what a plate in doubt may be.
const USUAL_PLATES: [i64; 10] = [50, 100, 125, 200, 250, 500, 1000, 1500, 2000, 2500];
/// A bare mass of collars between these, in grams, may be that of one collar: those of competitions
/// weigh 2.5 kg each (weightlifting federation's rules).
const ONE_COLLAR_G: std::ops::RangeInclusive<i64> = 2_450..=2_550;

/// Looks at a gym's lines.
pub fn check(lines: &[Node], problems: &mut Vec<Diagnostic>) {
    for node in lines {
        let Item::Entry { key, value } = &node.item.value else { continue };
        match (&key.value, &value.value) {
            (LineKey::Key(Key::Plates), Value::Stock(items)) => {
                problems.extend(heavy(items, "plate", PLATE));
            }
            (LineKey::Key(Key::Dumbbells), Value::Stock(items)) => {
                problems.extend(heavy(items, "dumbbell", BELL));
            }
            (LineKey::Key(Key::Kettlebells), Value::Stock(items)) => {
                problems.extend(heavy(items, "kettlebell", BELL));
            }
            (LineKey::Key(Key::Bar), Value::Bars(bars)) => {
                for bar in bars.iter().filter(|bar| bar.mass.value.mass() > BAR) {
                    let mass = bar.mass.value;
                    let mut found = unusual(bar.mass.span, "bar", mass);
                    let tenth = times(mass, 1, 10);
                    if tenth.mass() <= BAR && bar.name.is_none() {
                        found = found.guess(bar.mass.span, tenth.to_string());
                    }
                    problems.push(found);
                }
            }
            (LineKey::Key(Key::Collars), Value::Collars(mass, CollarsOf::Unsaid)) => {
                problems.extend(collars(*mass, value.span));
            }
            _ => {}
        }
    }
}

fn unusual(span: Span, what: &str, mass: MassText) -> Diagnostic {
    doubt(Code::UnlikelyValue, span, format!("a {what} of {mass} is unlikely"))
}

/// Pieces that are heavier than any in common use.
fn heavy(items: &[Spanned<StockItem>], what: &str, most: Mass) -> Vec<Diagnostic> {
    let mass = |value, item: &StockItem| MassText { value, unit: item.unit };
    let too_heavy = |item: &&Spanned<StockItem>| {
        let last = item.value.run.map_or(item.value.first, |(last, _)| last);
        mass(last, &item.value).mass() > most
    };
    let said = |item: &Spanned<StockItem>| {
        let last = item.value.run.map_or(item.value.first, |(last, _)| last);
        let found = unusual(item.span, what, mass(last, &item.value));
        if item.value.run.is_some() {
            return found;
        }
        let written = mass(item.value.first, &item.value);
        let listed = |mass: MassText| items.iter().any(|other| other.value.first == mass.value);
        let slips = [times(written, 1, 10), times(written, 1, 100)];
        let is_usual = |slip: &&MassText| {
            let usual = what != "plate" || USUAL_PLATES.contains(&hundredths(slip.value));
            usual && !listed(**slip) && slip.mass() <= most
        };
        match slips.iter().find(is_usual) {
            Some(slip) => {
                let meant = StockItem { first: slip.value, ..item.value.clone() };
                found.guess(item.span, meant.to_string())
            }
            None => found,
        }
    };
    items.iter().filter(too_heavy).map(said).collect()
}

/// A number in hundredths.
fn hundredths(value: Decimal) -> i64 {
    (&Exact::from(value) * &Exact::whole(100)).round_half_up()
}

/// A mass of collars that may be that of one, or of both.
fn collars(mass: MassText, span: Span) -> Option<Diagnostic> {
    let grams = mass.mass().units() * 1_000 / Mass::from_kg(1).units();
    if !ONE_COLLAR_G.contains(&grams) {
        return None;
    }
    let edit = |of: &str| vec![Edit { span, text: format!("{mass} {of}") }];
    Some(
        Diagnostic::new(
            Code::UnlikelyValue,
            span,
            format!(
                "`{mass}` is read as both collars together, but one competition collar already weighs that"
            ),
        )
        .help(format!("write `{mass} each` or `{mass} a pair`"))
        .suggest(format!("{mass} is the mass of each collar"), edit("each"))
        .suggest(format!("{mass} is the mass of both together"), edit("a pair")),
    )
}
