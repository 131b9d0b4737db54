//! The loads of a line of a day, by athlete and week.

use super::things::listed;
use crate::editor::Analysis;
use crate::editor::features::written::{OrderLine, Planned, planned};
use crate::sheets::{in_short, reasons};
use crate::syntax::fold_name;

/// Approximate maximum number of rows of the table.
const ROWS: usize = 16;

/// One row: athletes, weeks, loads.
struct HoverRow<'a> {
    who: Vec<&'a str>,
    weeks: Vec<(String, String)>,
}

/// A table of loads by athlete and week with equal rows merged, and the derivation of one of the
/// numbers.
pub fn loads(analysis: &Analysis, line: &OrderLine<'_>) -> Option<String> {
    let mut found = planned(analysis, line.node.item.span);
    if let Some(name) = line.athlete {
        let wanted = fold_name(&name.value);
        found.retain(|planned| fold_name(&planned.athlete.name) == wanted);
    }
    if let Some(weeks) = line.weeks {
        for planned in &mut found {
            planned.sessions.retain(|(session, _)| weeks.contains(session.week));
        }
        found.retain(|planned| !planned.sessions.is_empty());
    }
    let first = found.first()?;
    let (session, exercise) = first.sessions.first()?;
    let why = reasons(first.plan, first.athlete, session, exercise);
    let table = table(&rows(&found));
    Some(format!("{table}\n\n```text\n{}\n```", why.trim_end()))
}

/// Merges athletes who have the same numbers in the same weeks into one row.
fn rows<'a>(found: &[Planned<'a>]) -> Vec<HoverRow<'a>> {
    let mut rows: Vec<HoverRow<'a>> = Vec::new();
    for planned in found {
        let mut runs: Vec<(u32, u32, String)> = Vec::new();
        for (session, exercise) in &planned.sessions {
            let text = in_short(planned.athlete, exercise);
            match runs.last_mut() {
                Some((_, last, same)) if *same == text && session.week <= *last + 1 => {
                    *last = session.week;
                }
                _ => runs.push((session.week, session.week, text)),
            }
        }
        let weeks: Vec<(String, String)> = runs
            .into_iter()
            .map(|(first, last, text)| {
                let weeks =
                    if first == last { first.to_string() } else { format!("{first}-{last}") };
                (weeks, text)
            })
            .collect();
        let name = planned.athlete.name.as_str();
        match rows.iter_mut().find(|row| row.weeks == weeks) {
            Some(row) => row.who.push(name),
            None => rows.push(HoverRow { who: vec![name], weeks }),
        }
    }
    rows
}

fn table(rows: &[HoverRow<'_>]) -> String {
    let mut lines = vec!["| who | week | sets |".to_owned(), "|---|---|---|".to_owned()];
    // Each athlete gets some rows: the first weeks of all are more useful than all weeks of one.
    let share = (ROWS / rows.len().max(1)).max(1);
    for row in rows.iter().take(ROWS) {
        let left = row.weeks.len().saturating_sub(share);
        for (index, (weeks, text)) in row.weeks.iter().take(share).enumerate() {
            let who = if index == 0 { listed(&row.who) } else { String::new() };
            let is_last = index + 1 == share && left > 0;
            let more = if is_last { format!("; {left} more") } else { String::new() };
            lines.push(format!("| {} | {weeks} | {}{more} |", escaped(&who), escaped(text)));
        }
    }
    if rows.len() > ROWS {
        lines.push(format!("| and {} more | | |", rows.len() - ROWS));
    }
    lines.join("\n")
}

/// Escapes a text for a table cell.
fn escaped(text: &str) -> String {
    text.replace('|', "\\|")
}
