//! One line in standard format.

use jiff::civil::Weekday;

use crate::syntax::ast::{Head, Item, LineKey, Value};

/// The standard spelling of a line, without indentation and comment.
pub fn line(item: &Item, order_width: usize) -> String {
    match item {
        Item::Head(head) => head_line(head),
        Item::Entry { key, value } => {
            // In a log the names of exercises are not aligned.
            let width = if matches!(value.value, Value::Result(_)) { 0 } else { order_width };
            let key = key_text(&key.value, width);
            let value = value_text(&value.value);
            if value.is_empty() { format!("{key}:") } else { format!("{key}: {value}") }
        }
        Item::LogSession { date, planned, extra, skipped } => {
            let mut text = date.value.to_string();
            match (planned, extra) {
                (Some((week, day)), _) => text.push_str(&format!(" week {}, {}", week.value, day)),
                (None, Some(what)) if !what.is_empty() => text.push_str(&format!(" extra, {what}")),
                _ => text.push_str(" extra"),
            }
            match skipped {
                None => {}
                Some(None) => text.push_str(": skipped"),
                Some(Some(reason)) => text.push_str(&format!(": skipped ({reason})")),
            }
            text
        }
        Item::Wrong => String::new(),
    }
}

fn head_line(head: &Head) -> String {
    match head {
        Head::Notation(version) => format!("notation: {version}"),
        Head::Use(name) => format!("use {name}"),
        Head::Exercise(name) => format!("exercise {name}"),
        Head::Gym(name) => format!("gym {name}"),
        Head::Athlete(name) => format!("athlete {name}"),
        Head::Programme(name) => format!("programme {name}"),
        Head::Scheme(name) => format!("scheme {name}"),
        Head::Phase { name, weeks, sets, load } => {
            let mut text = format!("phase {name}: {weeks}");
            for (word, change) in [("sets", sets), ("load", load)] {
                if let Some(change) = change {
                    let sign = if change.value.digits() < 0 { "" } else { "+" };
                    text.push_str(&format!(", {word} {sign}{change}%"));
                }
            }
            text
        }
        Head::Day { name, weekday: None } => format!("day {name}"),
        Head::Day { name, weekday: Some(day) } => format!("day {name} ({})", short(*day)),
        Head::Log { athlete, programme } => format!("log {athlete}: {programme}"),
    }
}

/// `Mon` to `Sun`.
pub fn short(day: Weekday) -> &'static str {
    match day {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}

fn key_text(key: &LineKey, order_width: usize) -> String {
    match key {
        LineKey::Key(key) => key.word().to_owned(),
        LineKey::Named(key, name) => format!("{} {name}", key.word()),
        LineKey::Parameter(name) => name.value.clone(),
        // Names always start in the same column, so that an edit changes only one line.
        LineKey::Order(order, name) => {
            format!("{:<order_width$} {name}", order.value.to_string())
        }
        LineKey::Letter(order) => order.value.to_string(),
        LineKey::Weeks(weeks) => weeks.value.to_string(),
        LineKey::For(name) => format!("for {name}"),
        LineKey::When(conditions) => {
            let all: Vec<String> = conditions.iter().map(ToString::to_string).collect();
            format!("when {}", all.join(" and "))
        }
        LineKey::Otherwise => "otherwise".to_owned(),
    }
}

fn list<T: ToString>(items: &[T]) -> String {
    items.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

/// A stock. A list of single masses in one unit has the unit once, at the end.
fn stock(items: &[crate::source::Spanned<crate::syntax::ast::StockItem>]) -> String {
    let unit = items.first().map(|item| item.value.unit);
    let plain = items.iter().all(|item| {
        item.value.run.is_none() && item.value.count.is_none() && Some(item.value.unit) == unit
    });
    match unit.filter(|_| plain) {
        Some(unit) => {
            let numbers: Vec<String> =
                items.iter().map(|item| item.value.first.to_string()).collect();
            format!("{} {unit}", numbers.join(", "))
        }
        None => list(items),
    }
}

fn value_text(value: &Value) -> String {
    match value {
        Value::Text(text) => text.clone(),
        Value::Names(names) => list(names),
        Value::Avoid(items) => {
            list(&items.iter().map(|(_, text)| text.clone()).collect::<Vec<_>>())
        }
        Value::Counted(names) => {
            let show = |(name, count): &(crate::syntax::ast::Name, Option<u32>)| match count {
                None => name.value.clone(),
                Some(count) => format!("{name} x {count}"),
            };
            list(&names.iter().map(show).collect::<Vec<_>>())
        }
        Value::Remarked(name, None) => name.value.clone(),
        Value::Remarked(name, Some(remark)) => format!("{name} ({remark})"),
        Value::Equipment(items) => list(items),
        Value::Sides(each) => if *each { "each" } else { "both" }.to_owned(),
        Value::CountedIn(unit) => unit.word().to_owned(),
        Value::Compound(compound) => if *compound { "compound" } else { "isolation" }.to_owned(),
        Value::Muscles(muscles) => list(muscles),
        Value::BarMass(mass) | Value::Mass(mass) => mass.to_string(),
        Value::Count(count) => count.to_string(),
        Value::Date(date) => date.to_string(),
        Value::Percent(percent) => format!("{percent}%"),
        Value::Duration(duration) => duration.to_string(),
        Value::Unit(unit) => unit.to_string(),
        Value::RoundDown(down) => if *down { "down" } else { "nearest" }.to_owned(),
        Value::RepeatMissed(repeat) => if *repeat { "repeat" } else { "move on" }.to_owned(),
        Value::Bars(bars) => list(bars),
        Value::Stock(items) => stock(items),
        Value::PlateSize(size) => size.to_string(),
        Value::Collars(mass, of) => format!("{mass}{}", of.words()),
        Value::Bands(bands) => list(bands),
        Value::Max(max) => max.to_string(),
        Value::Limit(limit) => limit.to_string(),
        Value::Prescription(prescription) => prescription.to_string(),
        Value::Group(group) => group.to_string(),
        Value::Ramp(sets) if sets.is_empty() => "no".to_owned(),
        Value::Ramp(sets) => list(sets),
        Value::Follow(name, arguments) if arguments.is_empty() => name.value.clone(),
        Value::Follow(name, arguments) => {
            let show = |(parameter, amount): &(crate::syntax::ast::Name, _)| {
                format!("{parameter} {}", show_amount(amount))
            };
            format!("{name}, {}", list(&arguments.iter().map(show).collect::<Vec<_>>()))
        }
        Value::Amount(amount) => amount.to_string(),
        Value::Actions(actions) => list(actions),
        Value::Advice(advice) => advice.to_string(),
        Value::Result(result) => result.to_string(),
        Value::Empty | Value::Unread => String::new(),
    }
}

fn show_amount(amount: &crate::source::Spanned<crate::syntax::ast::Amount>) -> String {
    amount.to_string()
}
