//! The generated parts of the reference: commands, keys, bounds, codes.

use std::fmt::Write;

use setwright::bounds;
use setwright::diagnostics::{Code, Severity};
use setwright::syntax::keys::{BlockPlace, PROPERTIES, Property};

use super::blocks::{same_or_accept, turn, with_made_parts};
use super::{options, words};
use crate::support::repository;

const REFERENCE: &str = "docs/reference.md";

/// The keys of each block.
fn keys() -> String {
    let mut text = String::new();
    let mut places: Vec<BlockPlace> = PROPERTIES.iter().map(|property| property.place).collect();
    places.dedup();
    for place in places {
        let chapter = chapter(place);
        let _ = write!(text, "### In {}\n\nWhat each is for: {chapter}.\n\n", place.words());
        text.push_str("| key | takes |\n|---|---|\n");
        for property in place.properties() {
            let name = if property.named { " NAME" } else { "" };
            let again = if property.repeats { "; may be repeated, each adds" } else { "" };
            let key = property.key.word();
            let _ = writeln!(text, "| `{key}{name}` | {}{again} |", takes(*property));
            if property.translated {
                let _ = writeln!(text, "| `{key} LANGUAGE` | the same in another language |");
            }
        }
        text.push('\n');
    }
    text
}

/// The chapter that has the keys of a place at work.
fn chapter(place: BlockPlace) -> &'static str {
    match place {
        BlockPlace::Exercise => "[Exercises](exercises.md)",
        BlockPlace::Gym => "[Gyms](gyms.md#gyms)",
        BlockPlace::Athlete => "[Athletes](gyms.md#athletes)",
        BlockPlace::Programme => "[Programmes](days.md#programmes)",
        BlockPlace::Day | BlockPlace::Line => "[Days](days.md#days)",
        BlockPlace::Phase => "[Phases](weeks.md#phases)",
        BlockPlace::Scheme => "[Rules](rules.md)",
        BlockPlace::Cue => "[The coach's copy](sheets.md#the-coachs-copy)",
        BlockPlace::Log | BlockPlace::Session => "[Logs](logs.md)",
        BlockPlace::Nothing => "[The notation](notation.md)",
    }
}

/// What the value of a key is, in words; the grammar's name of it decides.
fn takes(property: Property) -> &'static str {
    let Some(rule) = property.value else { return "text" };
    match format!("{rule:?}").as_str() {
        "name" => "a name",
        "names_value" => "names, with commas between",
        "counted_names_value" => "names, `x` how many if it matters",
        "remarked_name_value" => "a name, the reason and `until` a date in brackets",
        "avoid_value" => "names, each with who said so and `until` a date in brackets",
        "limit_value" => "text; who set it and `until` a date in brackets",
        "equipment_value" => "kinds of equipment, the best first",
        "exercise_bar_value" => "a bar by its mass or its name",
        "sides_value" => "`each` or `both`",
        "counted_in_value" => "`reps`, `seconds` or `metres`",
        "kind_value" => "`compound` or `isolation`",
        "muscles_value" => {
            "muscles, each with its share of the work (a whole one if none is given)"
        }
        "bars_value" => "bars by mass, a special one with its name",
        "stock_value" => "masses, or a run (`4-30 kg by 2 kg`); `x` how many of each",
        "plate_size_value" => "millimetres across `x` millimetres along the sleeve",
        "collars_value" => "a mass, both together (`a pair`), or with `each`",
        "bands_value" => "names, each with about what it gives",
        "rounding_value" => "`nearest` or `down`",
        "mass_value" => "a mass",
        "unit_value" => "`kg` or `lb`",
        "max_value" => {
            "a mass, `5 @ 80 kg`, `bodyweight +20 kg` or `80% of` a lift; a date in brackets"
        }
        "percent_value" => "a percentage",
        "duration_value" => "a time",
        "count_value" => "a whole number",
        "date_value" => "a date",
        "ramp_value" => "lighter sets (`bar x 8, 50% x 5`), or `no`",
        "missed_value" => "`move on` or `repeat`",
        "advice_value" => "`allow`, `at`, `as` or `none`, as [Advice](advice.md) says",
        "follow_value" => "a scheme, then numbers of its own after commas",
        other => panic!("say in tests/cli/docs/reference.rs what {other} takes"),
    }
}

/// The bounds, each with the finding that names it. What a bound is, its own doc comment says.
fn bounds() -> String {
    let bounds: &[(&str, String, Option<Code>)] = &[
        ("FILE_BYTES", bounds::FILE_BYTES.to_string(), Some(Code::TooLarge)),
        ("LINE_BYTES", bounds::LINE_BYTES.to_string(), Some(Code::LineTooLong)),
        ("FILES", bounds::FILES.to_string(), Some(Code::TooLarge)),
        ("WORKSPACE_ENTRIES", bounds::WORKSPACE_ENTRIES.to_string(), None),
        ("MESSAGE_BYTES", bounds::MESSAGE_BYTES.to_string(), None),
        ("USE_DEPTH", bounds::USE_DEPTH.to_string(), Some(Code::TooLarge)),
        ("FOLDER_FILES", bounds::FOLDER_FILES.to_string(), None),
        ("FOLDER_DEPTH", bounds::FOLDER_DEPTH.to_string(), None),
        ("DEPTH", bounds::DEPTH.to_string(), Some(Code::MisplacedLine)),
        ("WEEKS", bounds::WEEKS.to_string(), Some(Code::NumberOutOfRange)),
        ("DAYS", bounds::DAYS.to_string(), Some(Code::PlanTooLarge)),
        ("GROUPS", bounds::GROUPS.to_string(), Some(Code::PlanTooLarge)),
        ("SETS", bounds::SETS.to_string(), Some(Code::NumberOutOfRange)),
        ("REPS", bounds::REPS.to_string(), Some(Code::NumberOutOfRange)),
        ("METRES", bounds::METRES.to_string(), Some(Code::NumberOutOfRange)),
        ("PERCENT", bounds::PERCENT.to_string(), Some(Code::NumberOutOfRange)),
        ("DROPS", bounds::DROPS.to_string(), Some(Code::NumberOutOfRange)),
        ("PIECES", bounds::PIECES.to_string(), Some(Code::NumberOutOfRange)),
        ("STOCK", bounds::STOCK.to_string(), Some(Code::TooManyLoads)),
        ("PLATE_MM", bounds::PLATE_MM.to_string(), Some(Code::NumberOutOfRange)),
        ("ATHLETE_SETS", bounds::ATHLETE_SETS.to_string(), Some(Code::PlanTooLarge)),
        ("PLANNED_SETS", bounds::PLANNED_SETS.to_string(), Some(Code::PlanTooLarge)),
        ("PASSED_SETS", bounds::PASSED_SETS.to_string(), Some(Code::PlanTooLarge)),
    ];
    let source = include_str!("../../../src/bounds.rs");
    let named: Vec<&str> = source
        .lines()
        .filter_map(|line| line.strip_prefix("pub const ")?.split(':').next())
        .collect();
    let listed: Vec<&str> = bounds.iter().map(|(name, ..)| *name).collect();
    assert_eq!(listed, named, "the table in tests/cli/docs/reference.rs");
    let mut text = "| bound | value | past it |\n|---|---|---|\n".to_owned();
    for (name, value, code) in bounds {
        let doc = doc_above(source, &format!("pub const {name}:"));
        // Bounds on folders are no problems about a text.
        let past =
            code.map_or("the command says so".to_owned(), |code| format!("`{}`", code.name()));
        let _ = writeln!(text, "| {doc} | {} | {past} |", thousands(value));
    }
    text
}

/// A whole number with a comma between thousands.
fn thousands(digits: &str) -> String {
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// The doc comment above the line that begins so, without its last stop.
fn doc_above(source: &str, beginning: &str) -> String {
    let lines: Vec<&str> = source.lines().map(str::trim).collect();
    let at = lines.iter().position(|line| line.starts_with(beginning)).unwrap();
    let above = lines[..at].iter().rev().map_while(|line| line.strip_prefix("/// "));
    let mut doc: Vec<&str> = above.collect();
    doc.reverse();
    doc.join(" ").trim_end_matches('.').to_owned()
}

/// Every kind of finding with the first line of what it is.
fn codes() -> String {
    let source = include_str!("../../../src/diagnostics/code.rs");
    let mut text = String::new();
    let kinds: [(&str, &str, bool, Severity); 5] = [
        ("Errors", "nothing is printed until they are fixed", false, Severity::Error),
        ("Warnings", "sheets come out; look first", false, Severity::Warning),
        ("Info", "worth knowing", false, Severity::Info),
        ("Advice: warnings", "worth a second look", true, Severity::Warning),
        ("Advice: info", "worth knowing", true, Severity::Info),
    ];
    for (title, what, is_advice, severity) in kinds {
        let _ = write!(text, "### {title}\n\n{title}: {what}.\n\n| name | means |\n|---|---|\n");
        let of_kind = |code: &&Code| code.is_advice() == is_advice && code.severity() == severity;
        for code in Code::ALL.iter().filter(of_kind) {
            let doc = doc_above(source, &format!("{code:?} = "));
            let _ = writeln!(text, "| `{}` | {doc} |", code.name());
        }
        text.push('\n');
    }
    text
}

#[test]
fn the_reference_is_what_the_program_knows() {
    let _turn = turn();
    let parts = [
        ("commands", options::commands()),
        ("keys", keys()),
        ("bounds", bounds()),
        ("codes", codes()),
    ];
    let text = std::fs::read_to_string(repository().join(REFERENCE)).unwrap();
    let whole = with_made_parts(&text, &parts);
    same_or_accept(REFERENCE, &text, &whole);
}

#[test]
fn every_key_has_a_row_in_the_table_of_its_chapter() {
    for (chapter, places) in [
        ("docs/exercises.md", &[BlockPlace::Exercise][..]),
        ("docs/gyms.md", &[BlockPlace::Gym, BlockPlace::Athlete]),
        ("docs/days.md", &[BlockPlace::Programme, BlockPlace::Day, BlockPlace::Line]),
    ] {
        let text = std::fs::read_to_string(repository().join(chapter)).unwrap();
        let heads = text.lines().filter_map(|line| line.strip_prefix("| ")?.split(" |").next());
        // `max NAME` and `name de` are rows of `max` and `name`.
        let named: Vec<&str> = heads.flat_map(|head| head.split('`').skip(1).step_by(2)).collect();
        for property in places.iter().flat_map(|place| place.properties()) {
            let word = property.key.word();
            let is_row = |row: &&str| *row == word || row.starts_with(&format!("{word} "));
            assert!(named.iter().any(is_row), "{chapter} has no row for `{word}`");
        }
    }
}

#[test]
fn the_reference_names_every_word_of_rules_loads_and_options() {
    let text = std::fs::read_to_string(repository().join(REFERENCE)).unwrap();
    for rule in [
        "all_made",
        "top_of_range",
        "any_missed",
        "missed_row",
        "last_set",
        "in_a_row",
        "rated_what",
        "every_count",
        "sessions_word",
        "weeks_word",
        "at_least",
        "at_most",
        "less_than",
        "load_up",
        "load_down",
        "load_by",
        "reps_to_bottom",
        "reps_by",
        "sets_by",
        "max_from_last",
        "max_by",
        "hold",
        "amrap",
        "each_side",
        "effort_scale",
        "of_one_rm",
        "of_training_max",
        "of_top_set",
        "bodyweight_load",
        "last_load",
        "rest",
        "tempo",
        "range",
        "drop",
        "each_set",
        "rest_pause",
        "every",
        "no_warm_up",
        "as_written",
        "with_phase",
        "circuit",
        "every_for",
        "rounds_in",
        "paired",
        "change",
        "alternate",
        "per_week",
        "per_session",
        "kg",
        "lb",
        "seconds_unit",
        "minutes_unit",
        "metres_unit",
        "percent",
    ] {
        for word in words::words_of(rule) {
            // Other spellings of a word have their place in the chapter on lines.
            let is_spelling = matches!(word.as_str(), "≥" | "≤" | "lbs" | "sec" | "×" | "X");
            assert!(
                is_spelling || words::holds(&text, &word),
                "{REFERENCE} lacks `{word}` ({rule})"
            );
        }
    }
}
