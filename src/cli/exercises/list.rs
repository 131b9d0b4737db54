//! Exercises as a table.

use crate::catalogue::{Catalogue, Exercise};
use crate::sheets::{FIXED, WrappedText};

/// The widest line.
pub const WIDTH: usize = 100;
/// Width of the column of names.
const NAME: usize = 34;
/// Width of the column of patterns.
const PATTERN: usize = 16;
/// Width of the column of shares.
const SHARE: usize = 4;
/// Where the synonyms stand.
const ALSO: usize = 4;

/// A line or more for each exercise: its name, its pattern, its equipment, its synonyms; before
/// them the share of the muscle that was asked for.
pub fn table(found: &[usize], catalogue: &Catalogue<'_>, muscle: Option<&str>) -> String {
    let mut out = WrappedText::of_width(WIDTH);
    for exercise in found.iter().filter_map(|index| catalogue.get(*index)) {
        let share = muscle.map(|muscle| share(exercise.share_of(muscle)));
        row(&mut out, exercise, share.as_deref(), &exercise.equipment_words());
        if !exercise.also.is_empty() {
            let also: Vec<&str> = exercise.also.iter().map(|name| name.value.as_str()).collect();
            let text = format!("also called {}", also.join(", "));
            out.wrapped(ALSO, ALSO + 2, &text);
        }
    }
    out.text
}

/// One exercise, and in the last column a text that may take several lines.
pub fn row(out: &mut WrappedText, exercise: &Exercise, share: Option<&str>, last: &str) {
    let pattern = exercise.pattern.as_deref().unwrap_or("");
    let lead = share.map_or_else(String::new, |share| format!("{share:<SHARE$}  "));
    let indent = lead.chars().count();
    let at = indent + NAME + 2 + PATTERN + 2;
    let fixed = |text: &str| text.replace(' ', FIXED);
    let rest = |name: &str| {
        let columns = format!("{lead}{name:<NAME$}  {pattern:<PATTERN$}  ");
        // A name is not broken where it fits, and columns stay where they are.
        format!("{}{last}", fixed(&columns))
    };
    if exercise.name.chars().count() <= NAME {
        out.wrapped(0, at, &rest(&exercise.name));
        return;
    }
    // A long name has its own line; what is said about it stands below, in its columns.
    out.wrapped(0, indent, &format!("{}{}", fixed(&lead), exercise.name));
    let columns = format!("{:indent$}{:NAME$}  {pattern:<PATTERN$}  ", "", "");
    out.wrapped(0, at, &format!("{}{last}", fixed(&columns)));
}

/// A share of the work as a coach writes it.
pub fn share(share: Option<(u32, u32)>) -> String {
    match share {
        None => String::new(),
        Some((part, whole)) if part == whole => "1".to_owned(),
        Some((part, whole)) => format!("{part}/{whole}"),
    }
}
