//! Descriptions of named things, in Markdown.

use crate::catalogue::{Exercise, Gym, LIBRARY_FILE};
use crate::editor::Analysis;
use crate::editor::features::mentions::{Mention, Thing};
use crate::editor::features::written::{block_of, block_text};
use crate::source::Span;
use crate::strength::BarLoads;
use crate::syntax::ast::{Head, Item};
use crate::syntax::fold_name;

/// Maximum number of lines shown of a block.
const LINES: usize = 24;
/// Maximum number of names in a list; the rest are counted.
const NAMES: usize = 8;

/// An exercise's name, synonyms and properties.
pub fn exercise_in_short(exercise: &Exercise) -> String {
    let mut lines = vec![format!("**{}**", exercise.name), String::new()];
    let swaps: Vec<&str> = exercise.swaps.iter().map(|swap| swap.value.as_str()).collect();
    let says = exercise.to_lines().into_iter().filter(|(key, _)| key.trim_start() == key);
    let says = says.chain((!swaps.is_empty()).then(|| ("swap".to_owned(), swaps.join(", "))));
    lines.extend(says.map(|(key, text)| format!("- {key}: {text}")));
    lines.join("\n")
}

/// An exercise by name or synonym, and where it is defined.
pub fn exercise(analysis: &Analysis, name: &str) -> Option<String> {
    let exercise = analysis.exercises.get(analysis.names.find(name)?)?;
    let place = if exercise.span.file == LIBRARY_FILE {
        "built in".to_owned()
    } else {
        let place = analysis.sources.locate(exercise.span);
        format!("defined in {}:{}", place.file, place.line)
    };
    Some(format!("{}\n\n*{place}*", exercise_in_short(exercise)))
}

/// An athlete, by folded name.
pub fn athlete(analysis: &Analysis, name: &str) -> Option<String> {
    let is = |one: &&crate::resolve::ResolvedAthlete| fold_name(&one.athlete.name) == name;
    let one = analysis.athletes.iter().find(is)?;
    let athlete = &one.athlete;
    let gym = one.gym.and_then(|gym| analysis.gyms.get(gym));
    let unit = gym.map(|gym| gym.unit).unwrap_or_default();
    let mut lines = vec![format!("**{}**", athlete.name), String::new()];
    let mut line = |key: &str, text: String| lines.push(format!("- {key}: {text}"));
    if let Some(gym) = gym {
        line("gym", gym.name.clone());
    }
    if let Some(mass) = athlete.body_mass {
        line("body mass", mass.show(unit));
    }
    for max in &athlete.maxes {
        line(&format!("max {}", max.lift.value), analysis.sources.text(max.span).to_owned());
    }
    for replacement in &athlete.replacements {
        line(&format!("replace {}", replacement.of.value), replacement.by.value.clone());
    }
    for limit in &athlete.limits {
        line(&format!("limit {}", limit.name.value), analysis.sources.text(limit.span).to_owned());
    }
    let avoid: Vec<&str> = athlete.avoid.iter().map(|(name, _)| name.value.as_str()).collect();
    if !avoid.is_empty() {
        line("avoid", avoid.join(", "));
    }
    Some(lines.join("\n"))
}

/// A gym, by folded name: its properties, and the range of loads of its usual bar.
pub fn gym(analysis: &Analysis, name: &str) -> Option<String> {
    let gym = analysis.gyms.iter().find(|gym| fold_name(&gym.name) == name)?;
    let written = block(analysis, gym.span)?;
    Some(match loads(gym) {
        Some(loads) => format!("{written}\n\n{loads}"),
        None => written,
    })
}

/// The lightest and heaviest load of the usual bar, and its steps.
fn loads(gym: &Gym) -> Option<String> {
    let bar = gym.bars.first()?;
    let loads = BarLoads::new(bar, &gym.plates, gym.collars).ok()?;
    let show = |mass: crate::quantity::Mass| mass.show(gym.unit);
    let (low, high) = (loads.lightest().mass, loads.heaviest().mass);
    Some(format!(
        "The {} bar makes {} loads from {} to {}, {} apart at the least.",
        show(bar.mass),
        loads.masses().len(),
        show(low),
        show(high),
        show(loads.smallest_step())
    ))
}

/// A programme, by folded name: its weeks, days and athletes.
pub fn programme(analysis: &Analysis, name: &str) -> Option<String> {
    let plan = analysis.plans.iter().find(|plan| fold_name(&plan.programme) == name)?;
    let athletes: Vec<&str> = plan.athletes.iter().map(|one| one.name.as_str()).collect();
    let mut lines = vec![format!("**{}**", plan.programme), String::new()];
    lines.push(format!("- weeks: {}", plan.weeks));
    lines.push(format!("- days: {}", plan.day_names().join(", ")));
    lines.push(format!("- athletes: {}", listed(&athletes)));
    if let Some(goal) = &plan.goal {
        lines.push(format!("- goal: {goal}"));
    }
    Some(lines.join("\n"))
}

/// Some names, and the number of further ones.
pub fn listed(names: &[&str]) -> String {
    let shown = names.iter().take(NAMES).copied().collect::<Vec<_>>().join(", ");
    match names.len().saturating_sub(NAMES) {
        0 => shown,
        rest => format!("{shown} and {rest} more"),
    }
}

/// A bar, a stack or another thing, and the gyms that have it.
pub fn station(analysis: &Analysis, found: &Mention) -> String {
    let wanted = fold_name(&found.name);
    let is = |name: &String| fold_name(name) == wanted;
    let has = |gym: &Gym| {
        if matches!(found.thing, Thing::Bar(_)) {
            return gym.bars.iter().filter_map(|bar| bar.name.as_ref()).any(is);
        }
        let stacks = gym.stacks.iter().map(|(name, _)| name);
        stacks.chain(gym.has.iter().map(|(name, _)| name)).any(is)
    };
    let gyms: Vec<&str> =
        analysis.gyms.iter().filter(|gym| has(gym)).map(|gym| gym.name.as_str()).collect();
    if gyms.is_empty() {
        format!("**{}**: no gym of the project names it", found.name)
    } else {
        format!("**{}**: in {}", found.name, listed(&gyms))
    }
}

/// A block as written, shortened.
pub fn block(analysis: &Analysis, name: Span) -> Option<String> {
    let node = block_of(analysis, name)?;
    let text = match &node.item.value {
        // For a day, its exercises.
        Item::Head(Head::Day { .. }) => {
            let lines = node.children.iter().map(|line| analysis.sources.text(line.item.span));
            let head = analysis.sources.text(node.item.span);
            let lines = lines.take(LINES).map(|line| format!("  {line}"));
            std::iter::once(head.to_owned()).chain(lines).collect::<Vec<_>>().join("\n")
        }
        _ => block_text(analysis, name.file, node, LINES),
    };
    Some(format!("```sets\n{text}\n```"))
}
